//! The same jobs put to every edition: what each answers, fact by fact.

use crate::ask::{Law, rows};
use serde_json::{Value, json};
use std::collections::HashMap;

const FACTS: &str = include_str!("editions.tsv");
const JOBS: &str = include_str!("jobs.json");

/// A town that adopts this and nothing else.
fn adopting(codes: &str, year: &str) -> Law {
    let adopts = match codes {
        "IRC-G" => format!("    adopts IRC {year} for fuel-gas\n"),
        "IFGC+NEC" => format!("    adopts IFGC {year}\n    adopts NEC 2017\n"),
        "NEC+" | "IRC-E" => {
            let adopted = if codes == "NEC+" { format!("NEC {year}") } else { format!("IRC {year} for electrical") };
            format!("    adopts {adopted}\n    section 1 \"Bond\" on fuel-gas\n        direct-bond is required\n")
        }
        code => format!("    adopts {code} {year}\n"),
    };
    Law::with(&format!(
        "place tonalite \"Town of Tonalite\"\n    read \"invented for this test\" on 2026-11-24\n\
         instrument TO-1 of tonalite \"Ordinance 1\"\n    kind ordinance\n    in force from 2024-01-01\n{adopts}"
    ))
}

/// Whether some note of a verdict is of a section whose number holds these letters.
fn noted(verdict: &Value, part: &str) -> bool {
    let notes = verdict["notes"].as_array().into_iter().flatten();
    notes.filter_map(|note| note["section"].as_str()).any(|section| section.contains(part))
}

fn wrong(expected: &Value, found: &Value) -> bool {
    expected.as_object().unwrap().iter().any(|(key, value)| found[key] != *value)
}

#[test]
fn every_edition_answers_as_it_was_published() {
    let jobs: Value = serde_json::from_str(JOBS).unwrap();
    let (mut asked, mut bad) = (0, Vec::new());
    let mut towns = HashMap::new();
    for row in rows(FACTS) {
        let [codes, years, name, question, expected, source] = row[..] else { panic!("{row:?}") };
        assert!(source.starts_with("http") || source == "from memory", "{row:?}");
        let expected: Value = serde_json::from_str(expected).unwrap();
        for code in codes.split(' ') {
            for year in years.split(' ') {
                let mut job = jobs[name].clone();
                job["place"] = json!("tonalite");
                job["application-date"] = json!("2025-01-06");
                let town = towns.entry((code, year)).or_insert_with(|| adopting(code, year));
                let verdict = town.verdict(&job);
                asked += 1;
                let at_odds = match (&expected["has"], &expected["lacks"]) {
                    (Value::String(part), _) => !noted(&verdict, part),
                    (_, Value::String(part)) => noted(&verdict, part),
                    _ => wrong(&expected, &verdict["answers"][question]),
                };
                if at_odds {
                    let found = &verdict["answers"][question];
                    let short =
                        json!({ "state": found["state"], "value": found["value"], "finding": found["finding"] });
                    bad.push(format!(
                        "{code} {year}, {name}, {question}: expected {expected}, found {short} ({source})"
                    ));
                }
            }
        }
    }
    assert!(bad.is_empty(), "{} of {asked}:\n{}", bad.len(), bad.join("\n"));
}

/// Editions of which no clause on bonding was seen.
const NOT_SEEN: [(&str, &str); 8] = [
    ("IFGC", "2003"),
    ("IRC-G", "2003"),
    ("NFGC", "2006"),
    ("IFGC", "2021"),
    ("IRC-G", "2021"),
    ("IFGC", "2024"),
    ("IRC-G", "2024"),
    ("NFGC", "2024"),
];

/// Two readings of a clause are told where they were seen; the clause itself was not.
#[test]
fn what_was_not_seen_of_an_edition_does_not_come_out_as_read() {
    let jobs: Value = serde_json::from_str(JOBS).unwrap();
    let (mut governing, mut bad) = (0, Vec::new());
    for (code, year) in NOT_SEEN {
        let town = adopting(code, year);
        for (name, job) in jobs.as_object().unwrap() {
            let mut job = job.clone();
            job["place"] = json!("tonalite");
            job["application-date"] = json!("2025-01-06");
            for (question, answer) in town.verdict(&job)["answers"].as_object().unwrap() {
                let reasons = answer["because"].as_array().into_iter().flatten();
                for reason in reasons.filter(|reason| reason["edition"].is_u64()) {
                    if reason["demand"].as_str().unwrap().starts_with("refer ") {
                        continue;
                    }
                    governing += 1;
                    if reason["provenance"] != "from-memory" {
                        bad.push(format!("{code} {year}, {name}, {question}: {reason}"));
                    }
                }
            }
        }
    }
    assert!(governing > 100, "{governing}");
    assert!(bad.is_empty(), "{}", bad.join("\n"));
}
