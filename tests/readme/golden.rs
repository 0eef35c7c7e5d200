//! The sample jobs and the verdicts that they must have, for whoever checks
//! another way to the same answers.
//!
//! A golden verdict is the program's own without the three members that name
//! the program and the files. Look at every line of the difference before
//! `GROUNDRULE_GOLDEN=write cargo test --test readme` writes them anew.

use crate::{groundrule, top};
use serde_json::Value;
use std::fmt::Write;
use std::path::PathBuf;

/// What differs from one release, or one set of files, to the next.
const NAMES: [&str; 3] = ["library", "rests-on", "engine"];

/// The sample jobs by their name without the ending.
fn jobs() -> Vec<(String, PathBuf)> {
    let mut found: Vec<(String, PathBuf)> = std::fs::read_dir(top().join("shared/jobs"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| (path.file_stem().unwrap().to_str().unwrap().to_owned(), path))
        .collect();
    found.sort();
    found
}

/// The verdict on a job, without the names.
fn verdict(job: &str) -> (Value, Option<i32>) {
    let done = groundrule(&["verdict", job, "--as", "json"]);
    let mut verdict: Value = serde_json::from_slice(&done.stdout)
        .unwrap_or_else(|problem| panic!("{job}: {problem}\n{}", String::from_utf8_lossy(&done.stderr)));
    for name in NAMES {
        assert!(verdict.as_object_mut().unwrap().shift_remove(name).is_some(), "{job}: `{name}` is missing");
    }
    (verdict, done.status.code())
}

#[test]
fn sample_jobs_have_their_verdicts() {
    let write = std::env::var_os("GROUNDRULE_GOLDEN").is_some_and(|word| word == "write");
    for (name, path) in jobs() {
        let golden = top().join("shared/golden").join(format!("{name}.json"));
        let mut found = lines(&verdict(path.to_str().unwrap()).0, 0);
        found.push('\n');
        if write {
            std::fs::write(&golden, &found).unwrap();
        }
        let kept = std::fs::read_to_string(&golden).unwrap_or_default();
        if let Some((line, (kept, found))) = kept.lines().zip(found.lines()).enumerate().find(|(_, (a, b))| a != b) {
            panic!("{name}.json line {}:\nkept  {kept}\nfound {found}", line + 1);
        }
        assert_eq!(kept.len(), found.len(), "{name}.json");
    }
}

#[test]
fn every_golden_verdict_has_its_job() {
    let jobs: Vec<String> = jobs().into_iter().map(|(name, _)| name).collect();
    let mut golden: Vec<String> = std::fs::read_dir(top().join("shared/golden"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned())
        .collect();
    golden.sort();
    assert_eq!(golden, jobs);
}

#[test]
fn the_sample_jobs_show_every_outcome_that_their_state_knows() {
    let expected = [
        ("apartments", "complies", 0),
        ("jacket-not-known", "open", 13),
        ("long-wire", "corrections", 10),
        ("new-house", "complies", 0),
        ("restaurant", "corrections", 10),
        ("shop-on-a-feeder", "refer", 12),
    ];
    let found: Vec<(String, String, Option<i32>)> = jobs()
        .iter()
        .map(|(name, path)| {
            let (verdict, status) = verdict(path.to_str().unwrap());
            (name.clone(), verdict["outcome"].as_str().unwrap().to_owned(), status)
        })
        .collect();
    let expected: Vec<_> = expected
        .iter()
        .map(|(job, outcome, status)| ((*job).to_owned(), (*outcome).to_owned(), Some(*status)))
        .collect();
    assert_eq!(found, expected);
}

/// JSON with a line for every reason, so that a change shows where it is.
fn lines(value: &Value, depth: usize) -> String {
    let flat = |value: &Value| !value.is_object() && !value.is_array();
    let (open, close, members): (char, char, Vec<String>) = match value {
        Value::Object(members) if depth < 4 && !members.values().all(flat) => {
            let each = |(name, value): (&String, &Value)| {
                format!("{}: {}", Value::from(name.as_str()), lines(value, depth + 1))
            };
            ('{', '}', members.iter().map(each).collect())
        }
        Value::Array(members) if depth < 4 && !members.iter().all(flat) => {
            ('[', ']', members.iter().map(|value| lines(value, depth + 1)).collect())
        }
        _ => return value.to_string(),
    };
    let mut text = String::from(open);
    let inside = "  ".repeat(depth + 1);
    for (number, member) in members.iter().enumerate() {
        let comma = if number == 0 { "" } else { "," };
        write!(text, "{comma}\n{inside}{member}").unwrap();
    }
    write!(text, "\n{}{close}", "  ".repeat(depth)).unwrap();
    text
}
