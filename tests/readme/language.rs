//! The reference of the language against the program.

use crate::{blocks, groundrule, text, top};
use serde_json::Value;
use std::collections::BTreeSet;

const REFERENCE: &str = "shared/language.md";

/// The part of a document from one heading to the next of its rank.
fn part(heading: &str) -> String {
    let document = text(REFERENCE);
    let from = document.find(&format!("\n## {heading}")).unwrap_or_else(|| panic!("no part `{heading}`"));
    let rest = &document[from + 1..];
    rest[..rest[3..].find("\n## ").map_or(rest.len(), |end| end + 3)].to_owned()
}

/// What stands in backticks.
fn spans(text: &str) -> BTreeSet<&str> {
    text.split('`').skip(1).step_by(2).collect()
}

/// What stands in double quotes between two marks of a source file.
fn quoted<'a>(source: &'a str, from: &str, to: &str) -> Vec<&'a str> {
    let begin = source.find(from).unwrap_or_else(|| panic!("`{from}` is not there")) + from.len();
    let rest = &source[begin..];
    rest[..rest.find(to).unwrap()].split('"').skip(1).step_by(2).collect()
}

#[test]
fn the_words_are_those_of_the_program() {
    let source = text("src/syntax/words.rs");
    let held = quoted(&source, "RESERVED: &[&str] = &[", "];");
    let page = blocks(&text(REFERENCE)).into_iter().find(|block| block.info == "words").unwrap();
    assert_eq!(page.body.split_whitespace().collect::<Vec<_>>(), held);
}

#[test]
fn the_units_and_gauges_are_those_of_the_program() {
    let values = part("2 Values");
    let table = &values[values.find("| for | units |").unwrap()..values.find("Gauges in AWG").unwrap()];
    let source = text("src/values/unit.rs");
    let held: BTreeSet<&str> = quoted(&source, "const UNITS: &[Unit] = &[", "];").into_iter().collect();
    assert_eq!(spans(table), held);
    let source = text("src/values/gauge.rs");
    let sizes = quoted(&source, "SIZES: &[Gauge] = &[", "];");
    let sizes: Vec<&str> = sizes.into_iter().filter_map(|size| size.strip_suffix(" AWG")).collect();
    let shown = values.replace('\n', " ");
    assert!(shown.contains(&format!("print: {};", sizes.join(", "))), "{sizes:?}");
}

#[test]
fn the_limits_are_those_of_the_program() {
    let page = part("15 Limits");
    let source = text("src/syntax/limits.rs");
    let mut found = 0;
    for (at, _) in source.match_indices("name: \"") {
        let rest = &source[at + 7..];
        let name = &rest[..rest.find('"').unwrap()];
        let most = &rest[rest.find("most: ").unwrap() + 6..];
        let most: u64 = most[..most.find(',').unwrap()].split('*').map(number).product();
        assert!(page.contains(&format!("| {name} | {most}")), "`{name}`: {most}");
        found += 1;
    }
    assert_eq!(page[..page.find("How far").unwrap()].matches("\n| ").count(), found + 1, "rows and limits");
    let source = text("src/verdict/limits.rs");
    let held: Vec<u64> = source
        .lines()
        .filter(|line| line.starts_with("pub(crate) const"))
        .map(|line| number(line.split_once("= ").unwrap().1))
        .collect();
    let bounds = &page[page.find("| bound |").unwrap()..];
    let shown: Vec<u64> = bounds
        .lines()
        .skip(2)
        .filter(|line| line.starts_with('|'))
        .map(|line| number(line.rsplit('|').nth(1).unwrap()))
        .collect();
    assert_eq!(shown, held);
}

fn number(text: &str) -> u64 {
    text.trim().trim_end_matches(';').replace('_', "").parse().unwrap_or_else(|_| panic!("`{text}` is no number"))
}

#[test]
fn the_kinds_are_those_of_the_program() {
    let source = text("src/law/instrument.rs");
    let page = part("9 Instruments");
    let table = &page[page.find("| kind | force |").unwrap()..page.find("`of` may be left out").unwrap()];
    let shown: BTreeSet<&str> =
        table.lines().skip(2).flat_map(|line| spans(line.split('|').nth(1).unwrap_or(""))).collect();
    let held: BTreeSet<&str> = quoted(&source, "ALL: &'static [(&'static str, Kind)] = &[", "];").into_iter().collect();
    assert_eq!(shown, held);
}

#[test]
fn the_statuses_are_those_of_the_program() {
    let source = text("src/commands/status.rs");
    let numbers = &source[source.find("fn number").unwrap()..];
    let held: BTreeSet<u64> = numbers[..numbers.find("\n    }\n").unwrap()]
        .lines()
        .filter_map(|line| line.split_once("=> "))
        .map(|(_, number)| number.trim_end_matches(','))
        .map(self::number)
        // Wrong usage is told by the reader of the arguments.
        .chain([2])
        .collect();
    let shown: BTreeSet<u64> = part("14 Exit status")
        .lines()
        .skip(4)
        .filter(|line| line.starts_with('|'))
        .map(|line| number(line.split('|').nth(1).unwrap()))
        .collect();
    assert_eq!(shown, held);
}

#[test]
fn the_warnings_are_those_of_the_program() {
    let page = part("16 Errors and warnings");
    let source = text("src/syntax/codes.rs");
    let mut found = 0;
    for line in source.lines().filter(|line| line.ends_with("\";")) {
        let (number, title) = line.split_once(" = ").unwrap().1.split_once(", ").unwrap();
        // Codes of four digits are warnings.
        if number.len() == 4 {
            let title = title.trim_matches([';', '"']);
            let row = format!("| [GR{number}](errors/GR{number}.md) | {title} |");
            assert!(page.contains(&row), "{row}");
            found += 1;
        }
    }
    assert!(found > 0);
    assert_eq!(page.matches("\n| [GR").count(), found);
}

#[test]
fn the_rules_of_the_page_are_clean_and_their_job_is_judged() {
    let folder = tempfile::tempdir().unwrap();
    let page = blocks(&text(REFERENCE));
    let body =
        |info: &str| -> String { page.iter().filter(|block| block.info == info).map(|block| &*block.body).collect() };
    let (rules, job) = (folder.path().join("ashmere.rule"), folder.path().join("wick-hill.job"));
    std::fs::write(&rules, body("rule")).unwrap();
    std::fs::write(&job, body("job")).unwrap();
    let read = groundrule(&["proofread", rules.to_str().unwrap()]);
    let told = String::from_utf8_lossy(&read.stdout);
    assert_eq!(read.status.code(), Some(0), "{told}");
    assert!(told.contains("3 examples run"), "{told}");
    let judged = groundrule(&["verdict", job.to_str().unwrap(), "--rules", rules.to_str().unwrap(), "--as", "json"]);
    let told = String::from_utf8_lossy(&judged.stderr);
    let verdict: Value = serde_json::from_slice(&judged.stdout).unwrap_or_else(|problem| panic!("{problem}: {told}"));
    assert_eq!(verdict["place"], serde_json::json!(["ashmere", "dunlin", "wick-hill"]));
    assert_eq!(verdict["reference"], "WH-26-31");
}

#[test]
fn every_key_of_a_verdict_is_described() {
    let page = part("13 A verdict as JSON");
    let known = spans(&page);
    let mut keys = BTreeSet::new();
    for entry in std::fs::read_dir(top().join("shared/golden")).unwrap() {
        let verdict: Value = serde_json::from_str(&std::fs::read_to_string(entry.unwrap().path()).unwrap()).unwrap();
        collect(&verdict, &mut keys);
    }
    assert!(keys.len() > 30, "{keys:?}");
    let unknown: Vec<&String> = keys.iter().filter(|key| !known.contains(key.as_str())).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
}

/// The keys of a verdict; those of values and facts are the job's and the law's.
fn collect(value: &Value, keys: &mut BTreeSet<String>) {
    match value {
        Value::Object(members) => {
            for (key, member) in members {
                keys.insert(key.clone());
                match &**key {
                    "value" | "between" | "facts" | "witnesses" | "provenance" => {}
                    "answers" => member.as_object().unwrap().values().for_each(|answer| collect(answer, keys)),
                    _ => collect(member, keys),
                }
            }
        }
        Value::Array(members) => members.iter().for_each(|member| collect(member, keys)),
        _ => {}
    }
}
