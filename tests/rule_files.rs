//! Reading the rule files that stand beside the tests.

use std::fs;
use std::path::Path;

/// The folder of the worked scenarios.
pub const SCENARIOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/scenarios");

/// Name and text of every rule file in a folder, by name.
pub fn rule_files(folder: &str) -> Vec<(String, String)> {
    let mut found: Vec<(String, String)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "rule"))
        .map(|path| (name_of(&path), fs::read_to_string(&path).unwrap()))
        .collect();
    found.sort();
    assert!(!found.is_empty(), "no rule file in {folder}");
    found
}

fn name_of(path: &Path) -> String {
    path.file_name().unwrap().to_string_lossy().into_owned()
}
