//! Every rule file and job sheet of the repository.

use super::{holds_scrambled, laid};
use crate::syntax::diagnostic::FileId;
use crate::syntax::{Kind, parse};
use std::path::Path;

/// The files that can be read, each with its path below the repository.
fn files(folders: &[&str]) -> Vec<(String, String, Kind)> {
    let top = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    for entry in folders.iter().flat_map(|folder| walkdir::WalkDir::new(top.join(folder)).sort_by_file_name()) {
        let entry = entry.unwrap();
        let kind = match entry.path().extension().and_then(|ending| ending.to_str()) {
            Some("rule") => Kind::Rules,
            Some("job") => Kind::Job,
            _ => continue,
        };
        let Ok(text) = std::fs::read_to_string(entry.path()) else { continue };
        // One of the bad files is one that cannot be laid out.
        if entry.path().ends_with("errors/GR0106.rule") {
            continue;
        }
        if parse(FileId(0), &text, kind).diagnostics.is_empty() {
            found.push((entry.path().strip_prefix(top).unwrap().display().to_string(), text, kind));
        }
    }
    found
}

/// And white space does not count: scrambled, the files have the same layout.
#[test]
fn every_file_says_what_it_said_and_its_layout_stays() {
    let files = files(&["rules", "tests", "shared"]);
    assert!(files.len() > 300, "{}", files.len());
    for (at, (name, text, kind)) in files.into_iter().enumerate() {
        let once = holds_scrambled(&text, kind, at as u64);
        let long = once.lines().find(|line| {
            let breakable = line.matches([' ', '\t']).count() > 12 && !line.contains(['"', '#']);
            breakable && line.chars().count() > super::super::WIDTH
        });
        assert_eq!(long, None, "{name}");
    }
}

#[test]
fn what_ships_is_laid_out() {
    for (name, text, kind) in files(&["rules", "shared/jobs"]) {
        assert_eq!(laid(&text, kind), text, "lay {name} out: `cargo run -- layout {name}`");
    }
}
