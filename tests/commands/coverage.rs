//! `in-force --coverage`.

use super::{folder, run};
use serde_json::{Value, json};

const CODES: &str = r#"
code MGC "Mill Gas Code" on fuel-gas
edition MGC 2010
    from memory
    section 2.1 "One"
        direct-bond is required
    section 2.2 "Two"
        tubing-use is permitted
    section 2.3 "Three"
        jumper-length at most 75 ft
        read "a page" on 2026-11-24
    section 2.3(end) "Its end"
        landing only service-enclosure
        common practice
    left out 5 "venting is no matter of bonding"
    unread 6 on clamp
edition MGC 2015 published 2015-02-01 revises MGC 2010
    common practice
    add 2.4 "Four"
        attachment only rigid-pipe
edition MGC 2020 text not here
place mill "Town of Mill"
    read "a test" on 2026-11-24
instrument M-1 of mill
    kind ordinance
    in force from 2012-01-01
    adopts MGC 2010
instrument M-2 of mill
    kind ordinance
    in force from 2016-01-01
    adopts MGC 2015
"#;

fn covered(arguments: &[&str]) -> super::Ran {
    let folder = folder(&[("mill.rule", CODES)]);
    let mut all = vec!["in-force", "--rules", folder.path().to_str().unwrap()];
    all.extend(arguments);
    run(&all)
}

fn answer(arguments: &[&str]) -> Value {
    let mut all = arguments.to_vec();
    all.extend(["--as", "json"]);
    let ran = covered(&all);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    serde_json::from_str(&ran.out).unwrap()
}

fn editions(answer: &Value) -> Vec<String> {
    let all = answer["editions"].as_array().unwrap().iter();
    all.map(|one| format!("{} {}", one["code"].as_str().unwrap(), one["edition"])).collect()
}

#[test]
fn a_page_of_one_code() {
    let ran = covered(&["--coverage", "MGC"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert!(ran.out.lines().all(|line| line.chars().count() <= 80), "{}", ran.out);
    insta::assert_snapshot!("coverage_of_a_code", ran.out);
}

#[test]
fn the_editions_in_force_at_a_place() {
    assert_eq!(editions(&answer(&["mill", "--on", "2013-01-01", "--coverage"])), ["MGC 2010"]);
    assert_eq!(editions(&answer(&["Town of Mill", "--on", "2016-01-01", "--coverage"])), ["MGC 2015"]);
    assert_eq!(editions(&answer(&["mill", "--on", "2011-12-31", "--coverage"])), Vec::<String>::new());
    assert_eq!(editions(&answer(&["mill", "--on", "2016-01-01", "--coverage", "MGC", "2010"])), Vec::<String>::new());
    let answer = answer(&["mill", "--on", "2016-01-01", "--coverage"]);
    assert_eq!((&answer["place"], &answer["on"]), (&json!("mill"), &json!("2016-01-01")));
}

#[test]
fn the_counts_as_json() {
    let answer = answer(&["--coverage", "MGC"]);
    assert_eq!(answer["schema"], "groundrule/coverage/1");
    assert_eq!(editions(&answer), ["MGC 2010", "MGC 2015", "MGC 2020"]);
    let first = &answer["editions"][0];
    for (key, value) in [("provisions", 4), ("from-memory", 2), ("read", 1), ("common-practice", 1), ("no-source", 0)] {
        assert_eq!(first[key], json!(value), "{key}");
    }
    assert_eq!(
        first["sections"][2],
        json!({ "section": "2.3", "title": "Three", "provisions": 1,
                "provenance": { "read": "a page", "on": "2026-11-24" } })
    );
    assert_eq!(first["left-out"], json!([{ "section": "5", "why": "venting is no matter of bonding", "since": 2010 }]));
    assert_eq!(first["unread"], json!([{ "section": "6", "questions": ["clamp"], "since": 2010 }]));
    assert_eq!(answer["editions"][1]["unread"], first["unread"]);
    assert_eq!(answer["editions"][1]["revises"], 2010);
    assert_eq!(answer["editions"][2]["text-not-here"], true);
    let totals = &answer["totals"];
    let keys = ["editions", "text-not-here", "sections", "provisions", "from-memory", "read", "common-practice"];
    assert_eq!(keys.map(|key| totals[key].as_u64().unwrap()), [3, 1, 9, 9, 4, 2, 3]);
    assert_eq!((&totals["left-out"], &totals["unread"]), (&json!(2), &json!(2)));
}

/// Every edition that ships is there, and nothing of it lacks its source.
#[test]
fn the_shipped_codes() {
    let ran = run(&["in-force", "--coverage", "--as", "json"]);
    let answer: Value = serde_json::from_str(&ran.out).unwrap();
    let rules: String = walkdir::WalkDir::new(format!("{}/rules", env!("CARGO_MANIFEST_DIR")))
        .into_iter()
        .filter_map(|entry| std::fs::read_to_string(entry.unwrap().path()).ok())
        .collect();
    let declared = rules.lines().filter(|line| line.starts_with("edition ")).count();
    assert_eq!(editions(&answer).len(), declared);
    assert!(declared >= 40, "{declared}");
    assert_eq!(answer["totals"]["no-source"], 0);
    let page = run(&["in-force", "--coverage"]).out;
    assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
}

#[test]
fn what_is_asked_wrongly() {
    let ran = covered(&["--coverage", "MGB"]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("no code is named `MGB`") && ran.err.contains("`MGC`"), "{}", ran.err);
    let ran = covered(&["--coverage", "MGC", "2011"]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("its editions are 2010, 2015, 2020"), "{}", ran.err);
    for half in [&["--coverage", "--on", "2016-01-01"][..], &["mill", "--coverage"], &["mill"], &[]] {
        assert_eq!(covered(half).status, 2, "{half:?}");
    }
    assert_eq!(covered(&["mill", "--on", "2016-01-01", "--section", "MGC", "2.1", "--coverage"]).status, 2);
}
