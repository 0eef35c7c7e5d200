//! Reading and proofreading the rule files that stand beside the tests.

use assert_cmd::Command;
use std::fs;
use std::path::Path;

/// The folder of the worked scenarios.
#[allow(dead_code, reason = "each test binary uses its own folder")]
pub const SCENARIOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/scenarios");
/// The folder of published facts.
#[allow(dead_code, reason = "each test binary uses its own folder")]
pub const PUBLISHED: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/published");

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

/// The titles of the examples of a rule file, in order.
#[allow(dead_code, reason = "each test binary asks what it needs")]
pub fn examples(text: &str) -> Vec<&str> {
    text.lines().filter_map(|line| line.strip_prefix("example \"")?.strip_suffix('"')).collect()
}

fn name_of(path: &Path) -> String {
    path.file_name().unwrap().to_string_lossy().into_owned()
}

/// Proofreads every rule file of a folder that holds examples, as an official would; each example must run and hold.
pub fn proofread_each(folder: &str) {
    let mut wrong = Vec::new();
    for (name, text) in rule_files(folder) {
        let examples = examples(&text).len();
        if examples == 0 {
            continue;
        }
        let (status, told) = proofread(Path::new(&format!("{folder}/{name}")));
        // Doubts about a file that shows a point of law are no fault of its answers.
        if !matches!(status, Some(0 | 14)) || !told.contains(&format!(" {examples} example")) {
            wrong.push(format!("{name}: {examples} examples, exit status {status:?}\n{told}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The exit status of the command on one file, and all that it says.
pub fn proofread(path: &Path) -> (Option<i32>, String) {
    let output = Command::cargo_bin("groundrule").unwrap().arg("proofread").arg(path).output().unwrap();
    let all = [output.stdout, output.stderr].concat();
    (output.status.code(), String::from_utf8_lossy(&all).into_owned())
}
