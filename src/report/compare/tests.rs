//! The marks of a comparison over the library that ships, held against the evaluator's own order;
//! and the pages in both languages.

use super::{Axes, Comparison, Side, csv, html, page, sides};
use crate::Rules;
use crate::glossary::model::PlaceId;
use crate::job::{Defaults, read_json};
use crate::report::look::Look;
use crate::report::speech::{Language, Reader, Units};
use crate::values::Date;
use crate::verdict::found::State;
use crate::verdict::strictness::{Measured, compared, measured};
use crate::verdict::{Scratch, full};
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// Jobs of several kinds; none says its place or its dates.
const JOBS: [&str; 4] = [
    r#"{ "occupancy": "commercial", "work": "new-system", "building": "main",
         "run": [ { "material": "csst", "jacket": "arc-resistant", "role": "distribution" } ],
         "appliance": [ { "powered": true, "circuit": "20 A" } ], "performer": "hvac-installer" }"#,
    r#"{ "occupancy": "one-or-two-family", "work": "new-system", "building": "main",
         "run": [ { "material": "csst", "jacket": "plain", "role": "distribution" } ],
         "appliance": [ { "powered": true } ],
         "jumper": { "present": true, "size": "8 AWG", "material": "copper", "length": "92 ft" } }"#,
    r#"{ "occupancy": "townhouse", "work": "existing-only",
         "run": [ { "material": "steel", "role": "distribution" } ], "appliance": [ { "powered": false } ] }"#,
    "{}",
];

fn everywhere(rules: &Rules) -> Vec<PlaceId> {
    let names = [
        "tamarrow",
        "osier",
        "tarn",
        "fell-bridge",
        "merrin",
        "quill-city",
        "kestrel-flats",
        "stonecroft",
        "pellhaven",
    ];
    names.iter().map(|name| rules.library().places.find(name).unwrap()).collect()
}

fn all_sides(rules: &Rules, job: &str) -> Vec<Side> {
    let days = ["2012-05-14", "2018-05-07", "2024-08-31", "2026-04-20"].map(|day| Date::parse(day).unwrap());
    let places = everywhere(rules);
    let read = |defaults: &Defaults| read_json(job, rules.desk(), defaults).map(|mut jobs| jobs.remove(0));
    let axes = Axes { places: &places, dates: &days };
    sides(axes, Defaults::default(), false, rules.desk(), read, |problems| problems).unwrap()
}

fn told(rules: &Rules, sides: &[Side], reader: Reader) -> Comparison {
    rules.compared(sides, reader, Date::parse("2026-11-27").unwrap()).unwrap()
}

/// The settled answers of a side by the names of their questions, measured.
fn settled(rules: &Rules, side: &Side) -> BTreeMap<String, Vec<Option<Measured>>> {
    let matter = rules.matter(&side.job).unwrap();
    let verdict = full(&matter, &mut Scratch::default());
    let answers = verdict.answers.iter().filter(|answer| answer.found.state == State::Settled);
    answers
        .filter_map(|answer| {
            let law = matter.law.questions.get(answer.number)?;
            let parts = measured(&answer.question.order, law, answer.found.value.as_ref()?);
            Some((answer.question.name.to_string(), parts))
        })
        .collect()
}

#[test]
fn nothing_in_a_row_is_stricter_than_what_is_marked() {
    let rules = Rules::shipped();
    let mut marks = 0;
    for job in JOBS {
        let sides = all_sides(&rules, job);
        let comparison = told(&rules, &sides, Reader::default());
        assert_eq!(comparison.columns.len(), sides.len());
        let answers: Vec<_> = sides.iter().map(|side| settled(&rules, side)).collect();
        for row in comparison.rows.iter().filter(|row| !row.strictest.is_empty()) {
            let glossary = &rules.library().glossary;
            let question = glossary.questions.iter().find(|question| *question.name == *row.question).unwrap();
            for marked in &row.strictest {
                // What is prohibited stands above every demand, whatever the text would ask.
                if row.cells[*marked].not_applicable.is_some() {
                    continue;
                }
                marks += 1;
                let own = &answers[*marked][&row.question];
                for (at, other) in answers.iter().enumerate() {
                    let ranked = row.cells[at].unranked.is_none() && row.cells[at].not_applicable.is_none();
                    if let Some(other) = other.get(&row.question).filter(|_| ranked) {
                        let against = compared(&question.order, other, own);
                        assert_ne!(against, Some(Ordering::Greater), "{} {marked} {at}", row.question);
                    }
                }
            }
        }
    }
    assert!(marks > 20, "{marks}");
}

#[test]
fn a_row_differs_where_two_columns_say_different_things() {
    let rules = Rules::shipped();
    let sides = all_sides(&rules, JOBS[1]);
    let comparison = told(&rules, &sides, Reader::default());
    for row in &comparison.rows {
        let mut said: Vec<_> = row
            .cells
            .iter()
            .map(|cell| {
                (
                    cell.state,
                    &cell.words,
                    cell.finding,
                    cell.not_applicable,
                    cell.may_change,
                    cell.asked || cell.state == "silent",
                )
            })
            .collect();
        said.sort();
        said.dedup();
        assert_eq!(row.differs, said.len() > 1, "{}", row.question);
    }
}

#[test]
fn pages_are_whole_in_both_languages_and_units() {
    let rules = Rules::shipped();
    for job in &JOBS[..2] {
        let sides = all_sides(&rules, job);
        for language in Language::ALL {
            for units in Units::ALL {
                let reader = Reader { language, units };
                // The widest once, else two columns.
                let some = if reader == Reader::default() { &sides[..] } else { &sides[..2] };
                let comparison = told(&rules, some, reader);
                let whole = html(&comparison, reader);
                assert!(whole.starts_with("<!DOCTYPE html>") && whole.trim_end().ends_with("</html>"), "{whole}");
                let text = page(&comparison, reader, Look { width: 80, color: false });
                assert!(text.lines().all(|line| textwrap::core::display_width(line) <= 80), "{text}");
                for told in [&whole, &text, &csv(&comparison, reader)] {
                    assert!(!told.contains("compare-") && !told.contains("sheet-"), "{told}");
                }
            }
        }
    }
}
