//! `proofread --changes`: what no example notices.

use super::{Ran, data, folder, run};
use serde_json::Value;

fn changes(file: &str, more: &[&str]) -> Ran {
    let mut arguments = vec!["proofread", file, "--changes", "--without-library"];
    arguments.extend(more);
    run(&arguments)
}

/// Code, line and message of each finding.
fn findings(ran: &Ran) -> Vec<(String, u64, String)> {
    let all: Vec<Value> = serde_json::from_str(&ran.out).unwrap();
    let text = |finding: &Value, key: &str| finding[key].as_str().unwrap().to_owned();
    all.iter()
        .map(|finding| (text(finding, "code"), finding["line"].as_u64().unwrap(), text(finding, "message")))
        .collect()
}

/// The sheet holds one of each kind of clause twice: once held fast by examples at every edge, once
/// with a single example in the middle of things.
#[test]
fn each_kind_of_change_is_noticed_where_an_example_stands_at_the_edge_and_told_where_none_does() {
    let ran = changes(&data("changes.rule"), &["--as", "json"]);
    assert_eq!(ran.status, 14, "{}", ran.err);
    let told = findings(&ran);
    let held = |message: &str| message.contains("A-1") || message.contains("GC 2015");
    assert!(!told.iter().any(|(_, _, message)| held(message)), "{told:#?}");
    let said: Vec<String> = told
        .iter()
        .map(|(code, _, message)| {
            let message = message.replace(": without it every example comes out as before", "");
            format!("{code} {}", message.replace("no example notices ", "").replace("no example turns on ", ""))
        })
        .collect();
    let expected = [
        "GR5302 instrument `B-1`: `in force from 2016-03-01` → `2016-02-29`",
        "GR5302 instrument `B-1`: `in force from 2016-03-01` → `2016-03-02`",
        "GR5302 section `1` of `B-1`: the part `hidden is yes` left out",
        "GR5302 section `1` of `B-1`: `hidden is yes and begun within 30 days after applied` → `hidden is yes or begun within 30 days after applied`",
        "GR5302 section `1` of `B-1`: `where hidden is yes and begun within 30 days after applied` left out",
        "GR5302 section `1` of `B-1`: the part `begun within 30 days after applied` left out",
        "GR5302 section `1` of `B-1`: `begun within 30 days after applied` → `29`",
        "GR5302 section `1` of `B-1`: `begun within 30 days after applied` → `31`",
        "GR5302 section `1` of `B-1`: `where no run with (metal is any of copper, aluminum)` left out",
        "GR5302 section `1` of `B-1`: `metal is any of copper, aluminum` → `metal is not any of copper, aluminum`",
        "GR5302 section `1` of `B-1`: `metal is any of copper, aluminum` without `copper`",
        "GR5302 section `1` of `B-1`: `metal is any of copper, aluminum` without `aluminum`",
        "GR5302 section `1` of `B-1`: `note \"ask first\"` left out",
        "GR5302 section `2` of `B-1`: `floors over 2` → `floors at most 2`",
        "GR5302 section `2` of `B-1`: the part `floors over 2` left out",
        "GR5302 section `2` of `B-1`: `floors over 2 or not (hidden is no)` → `floors over 2 and not (hidden is no)`",
        "GR5302 section `2` of `B-1`: `where floors over 2 or not (hidden is no)` left out",
        "GR5302 section `2` of `B-1`: `floors over 2` → `1`",
        "GR5302 section `2` of `B-1`: `floors over 2` → `3`",
        "GR5302 section `2` of `B-1`: `not` left out of `not (hidden is no)`",
        "GR5302 section `2` of `B-1`: the part `not (hidden is no)` left out",
        "GR5302 section `2` of `B-1`: `hidden is no` → `hidden is not no`",
        "GR5301 section `3` of `B-1`",
    ];
    assert_eq!(said, expected);
}

/// What each noticed change would be is seen by taking away the example that notices it.
#[test]
fn without_the_example_at_the_edge_the_change_at_the_edge_is_told() {
    let text = std::fs::read_to_string(data("changes.rule")).unwrap();
    let examples: Vec<&str> = text.split("\nexample ").collect();
    let without = |name: &str| {
        let kept: Vec<&str> =
            examples.iter().copied().filter(|part| !part.starts_with(&format!("\"{name}\""))).collect();
        assert_eq!(kept.len() + 1, examples.len(), "{name}");
        // What stands behind an example up to the next item goes with it, but not the second place.
        let text = kept.join("\nexample ");
        if text.contains("\nplace birch") {
            text
        } else {
            format!("{text}\nplace birch \"Birch\"\n    common practice\n")
        }
    };
    for (name, told) in [
        ("at the length", "`length over 10 ft` → `9 ft`"),
        ("at the floors", "`floors at most 2` → `1`"),
        ("the day before", "`in force from 2016-03-01` → `2016-02-29`"),
        ("the last day", "`in force through 2025-12-31` → `2025-12-30`"),
        ("the first day: past the length, past the floors", "`length over 10 ft` → `11 ft`"),
        ("the first day: past the length, past the floors", "`wire-length at most 75 ft` → `76 ft`"),
        ("the first day: past the length, past the floors", "`wire-size at least 6 AWG for copper` → `4 AWG`"),
        ("the first day: past the length, past the floors", "`who only electrician, fitter` without `fitter`"),
    ] {
        let own = folder(&[("own.rule", &without(name))]);
        let ran = changes(own.path().to_str().unwrap(), &["--as", "json"]);
        let all = findings(&ran);
        let whole = ["section `2` of GC 2015", "section `3` of `A-1`"];
        let seen = all.iter().any(|(_, _, message)| {
            message.contains(told)
                || whole.iter().any(|whole| message.starts_with(&format!("no example turns on {whole}")))
        });
        assert!(seen, "{name}: {told}\n{all:#?}");
    }
}

#[test]
fn changes_are_counted() {
    let ran = changes(&data("changes.rule"), &[]);
    let last = ran.out.lines().last().unwrap();
    assert!(ran.out.contains("1 file, 7 examples run, no errors, 23 warnings\n"), "{}", ran.out);
    assert_eq!(last, "11 clauses, 62 changes tried: 37 noticed, 23 not, 2 that no job can tell");
}

/// A rule that no place adopts cannot be told, and is not.
#[test]
fn what_is_law_nowhere_is_counted_and_not_told() {
    let text = std::fs::read_to_string(data("changes.rule")).unwrap();
    let nowhere = "\nedition GC 2018\n    common practice\n    section 9 \"Nowhere\"\n        where floors over 2\n        bond is required\n";
    let own = folder(&[("own.rule", &format!("{text}{nowhere}"))]);
    let ran = changes(own.path().to_str().unwrap(), &[]);
    let last = ran.out.lines().last().unwrap();
    assert_eq!(last, "12 clauses, 63 changes tried: 37 noticed, 23 not, 3 that no job can tell");
}

#[test]
fn the_examples_of_everything_may_notice_where_that_is_asked() {
    let glossary =
        "subject gas\nfact applied date dates instruments\nquestion bond on gas ladder not-required, required\n";
    let rule = "place elm \"Elm\" from memory\ninstrument E-1 of elm kind ordinance in force from 2016-03-01\n    section 1 \"Bond\" bond is required\n";
    let examples = "example \"first\" job place elm applied 2016-03-01 verdict bond is required\n\
                    example \"before\" job place elm applied 2016-02-29 verdict bond silent\n";
    let own = folder(&[("glossary/g.rule", glossary), ("elm/rule.rule", rule), ("examples/e.rule", examples)]);
    let at = |name: &str| own.path().join(name).to_str().unwrap().to_owned();
    let (glossary, elm, examples) = (at("glossary"), at("elm"), at("examples"));
    let beside = ["--rules", &glossary, "--rules", &examples];
    let alone = changes(&elm, &beside);
    assert!(alone.out.contains("no example turns on section `1` of `E-1`"), "{}", alone.out);
    let all = changes(&elm, &[&beside[..], &["--all-examples"]].concat());
    assert_eq!(all.status, 0, "{}", all.out);
    assert!(all.out.ends_with("2 clauses, 4 changes tried: 4 noticed, 0 not, 0 that no job can tell\n"), "{}", all.out);
}

#[test]
fn where_an_example_fails_nothing_is_changed() {
    let text = std::fs::read_to_string(data("changes.rule")).unwrap().replace(
        "wire-length at most 75 ft\n        wire-size at least 6 AWG for copper\n        who",
        "wire-length at most 74 ft\n        wire-size at least 6 AWG for copper\n        who",
    );
    let own = folder(&[("own.rule", &text)]);
    let ran = changes(own.path().to_str().unwrap(), &[]);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("GR0900") && !ran.out.contains("GR53") && !ran.out.contains("tried"), "{}", ran.out);
}
