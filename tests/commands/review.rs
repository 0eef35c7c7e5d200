//! The review of all jobs that `proofread` makes.

use super::{folder, run};
use std::collections::BTreeSet;

fn seeded() -> String {
    format!("{}/tests/review/seeded.rule", env!("CARGO_MANIFEST_DIR"))
}

/// The findings of a page by their codes.
fn told(page: &str) -> BTreeSet<&str> {
    page.lines().filter_map(|line| line.strip_prefix("warning ")).filter_map(|line| line.split(' ').next()).collect()
}

/// The examples of a page, one below the other.
fn shown(page: &str) -> String {
    let mut blocks = String::new();
    let mut inside = false;
    for line in page.lines() {
        inside = line.starts_with("example ") || inside && line.starts_with(' ');
        if inside {
            blocks.push_str(line);
            blocks.push('\n');
        }
    }
    blocks
}

#[test]
fn one_of_each_defect_is_found() {
    let ran = run(&["proofread", &seeded()]);
    assert_eq!(ran.status, 14, "{}", ran.out);
    let page = ran.out.replace(&seeded(), "seeded.rule");
    let all: Vec<String> = (5201..=5211).map(|number| format!("GR{number}")).collect();
    assert_eq!(told(&page), all.iter().map(String::as_str).collect::<BTreeSet<_>>(), "{page}");
    insta::assert_snapshot!("seeded", page);
}

#[test]
fn every_job_that_is_shown_comes_out_when_it_is_pasted() {
    let page = run(&["proofread", &seeded()]).out;
    let blocks = shown(&page);
    let count = blocks.lines().filter(|line| line.starts_with("example ")).count();
    assert!(count >= 8, "{count} examples\n{page}");
    let text = std::fs::read_to_string(seeded()).unwrap() + &blocks;
    let folder = folder(&[("seeded.rule", &text)]);
    let ran = run(&["proofread", folder.path().to_str().unwrap()]);
    assert_eq!(ran.status, 14, "{}", ran.out);
    assert!(ran.out.contains(&format!("1 file, {count} examples run, no errors")), "{}", ran.out);
}

#[test]
fn a_window_leaves_out_what_has_had_its_time() {
    let ran = run(&["proofread", &seeded(), "--from", "2021-01-01"]);
    let codes = told(&ran.out);
    assert!(codes.contains("GR5201") && codes.contains("GR5204"), "{}", ran.out);
    assert!(!codes.contains("GR5203") && !codes.contains("GR5208"), "{}", ran.out);
    let ran = run(&["proofread", &seeded(), "--through", "2015-12-31"]);
    let codes = told(&ran.out);
    assert!(codes.contains("GR5203"), "{}", ran.out);
    assert!(!codes.contains("GR5201") && !codes.contains("GR5204") && !codes.contains("GR5209"), "{}", ran.out);
}

#[test]
fn rules_that_nobody_has_read_of_late() {
    let page = run(&["proofread", &seeded(), "--read-since", "2026-11-25"]).out;
    let late: Vec<&str> = page.lines().filter(|line| line.contains("were last read on 2026-11-24")).collect();
    assert_eq!(late.len(), 3, "{page}");
    let page = run(&["proofread", &seeded(), "--read-since", "2026-11-24"]).out;
    assert!(!page.contains("were last read"), "{page}");
}

#[test]
fn a_program_is_given_the_example_too() {
    let ran = run(&["proofread", &seeded(), "--as", "json"]);
    let all: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let conflict = all.as_array().unwrap().iter().find(|one| one["code"] == "GR5201").unwrap();
    assert!(conflict["example"].as_str().unwrap().contains("performer conflict"), "{conflict}");
}
