//! `compare`: one job at several places, on several days.

use super::{data, folder, run, run_with, timeless};
use serde_json::Value;

/// A scenario of the trade, with places of its own.
fn scenario(name: &str) -> String {
    format!("{}/tests/scenarios/{name}", env!("CARGO_MANIFEST_DIR"))
}

fn compare(arguments: &[&str]) -> Vec<String> {
    [&["compare"][..], arguments].concat().iter().map(|one| (*one).to_owned()).collect()
}

/// The command lines of the cases, each with its status.
fn cases() -> Vec<(&'static str, Vec<String>, i32)> {
    let (jacketed, banned, long) = (data("jacketed.job"), data("banned.job"), data("long.job"));
    let (short, none) = (scenario("s10-long-wire.rule"), scenario("s11-long-wire-2012.rule"));
    vec![
        // The same tubing on either side of a county line.
        ("next_county", compare(&[&jacketed, "--places", "osier,hazelmoor"]), 10),
        // 92 ft of wire under a text with a limit, and under one without, where an office advises.
        (
            "long_wire",
            compare(&[
                &long,
                "--places",
                "thistledown,hob-reach",
                "--date",
                "2022-10-03",
                "--rules",
                &none,
                "--rules",
                &short,
            ]),
            10,
        ),
        // A ban on the tubing, before it, and after a statute that sets it aside.
        ("ban", compare(&[&banned, "--dates", "2020-12-31,2024-08-31,2024-09-01"]), 10),
        (
            "many_places",
            compare(&[&jacketed, "--places", "osier,hazelmoor,stonecroft,pellhaven,quill-city,halloway,garnet-hollow"]),
            10,
        ),
        ("pairs", compare(&[&banned, "--places", "kestrel-flats,merrin", "--dates", "2024-08-31,2025-12-01"]), 10),
    ]
}

fn ran(arguments: &[String], more: &[&str]) -> super::Ran {
    let all: Vec<&str> = arguments.iter().map(String::as_str).chain(more.iter().copied()).collect();
    run(&all)
}

#[test]
fn pages() {
    for (name, arguments, status) in cases() {
        let page = ran(&arguments, &[]);
        assert_eq!((page.status, page.err.as_str()), (status, ""), "{name}");
        assert!(page.out.lines().all(|line| line.chars().count() <= 80), "{name}: a line is too long\n{}", page.out);
        assert!(
            page.out.contains("Smell gas?") && page.out.contains("last\n  read on") || page.out.contains("last read")
        );
        insta::assert_snapshot!(format!("compare_{name}"), timeless(&page.out));
    }
}

fn json(arguments: &[String]) -> Value {
    serde_json::from_str(&ran(arguments, &["--as", "json"]).out).unwrap()
}

fn row<'v>(comparison: &'v Value, question: &str) -> &'v Value {
    let mut rows = comparison["rows"].as_array().unwrap().iter();
    rows.find(|row| row["question"] == question).unwrap_or_else(|| panic!("no row {question}"))
}

#[test]
fn json_has_what_the_verdicts_have() {
    for (name, arguments, _) in cases() {
        let comparison = json(&arguments);
        let columns = comparison["columns"].as_array().unwrap();
        let rows = comparison["rows"].as_array().unwrap();
        assert!(columns.len() > 1 && rows.len() > 15, "{name}");
        let differs: Vec<bool> = rows.iter().map(|row| row["differs"].as_bool().unwrap()).collect();
        assert!(differs.is_sorted_by(|one, next| one >= next), "{name}: what differs comes first");
        for row in rows {
            let cells = row["cells"].as_array().unwrap();
            assert_eq!(cells.len(), columns.len(), "{name}");
            let marked: Vec<usize> = (0..cells.len()).filter(|at| cells[*at]["strictest"] == true).collect();
            assert_eq!(row["strictest"], Value::from(marked.clone()), "{name}");
            for at in marked {
                assert!(cells[at]["unranked"].is_null(), "{name}: {row}");
            }
        }
    }
}

#[test]
fn the_scenarios_come_out() {
    let all: Vec<(&str, Value)> = cases().iter().map(|(name, arguments, _)| (*name, json(arguments))).collect();
    let of = |name: &str| &all.iter().find(|(known, _)| *known == name).unwrap().1;
    // One side bonds jacketed tubing, the other does not.
    let bond = row(of("next_county"), "direct-bond");
    assert_eq!((&bond["cells"][0]["value"], &bond["cells"][1]["value"]), (&"required".into(), &"not-required".into()));
    assert_eq!(bond["strictest"], serde_json::json!([0]));
    let size = row(of("next_county"), "jumper-length");
    assert_eq!(size["cells"][1]["unranked"], "not-asked");
    // No limit of length where the text has none, and the advice beside it.
    let length = row(of("long_wire"), "jumper-length");
    assert_eq!((&length["cells"][0]["state"], &length["cells"][1]["finding"]), (&"silent".into(), &"not-met".into()));
    assert!(length["cells"][0]["words"].as_str().unwrap().contains("75 ft"), "{length}");
    assert_eq!(length["cells"][0]["unranked"], "silent");
    // What is banned is not bonded, and stricter than any bond.
    let ban = of("ban");
    assert_eq!(row(ban, "tubing-use")["strictest"], serde_json::json!([1]));
    let bond = row(ban, "direct-bond");
    assert_eq!(bond["cells"][1]["not-applicable"], "prohibited");
    assert_eq!(bond["strictest"], serde_json::json!([1]));
    let outcomes: Vec<&Value> = ban["columns"].as_array().unwrap().iter().map(|column| &column["outcome"]).collect();
    assert_eq!((outcomes[1], &ban["outcome"]), (&"corrections".into(), &"corrections".into()));
}

#[test]
fn csv_comes_back_as_it_was() {
    for (name, arguments, status) in cases() {
        let told = ran(&arguments, &["--as", "csv"]);
        assert_eq!((told.status, told.err.as_str()), (status, ""), "{name}");
        assert_eq!(told.out.matches('\n').count(), told.out.matches("\r\n").count(), "{name}: RFC 4180 ends lines so");
        let comparison = json(&arguments);
        let (columns, rows) = (comparison["columns"].as_array().unwrap(), comparison["rows"].as_array().unwrap());
        // The reader refuses records of another length than the first.
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(told.out.as_bytes());
        let records: Vec<csv::StringRecord> = reader.records().collect::<Result<_, _>>().unwrap();
        assert_eq!(records.len(), 1 + 3 + rows.len(), "{name}");
        assert_eq!(records[0].len(), 3 + 5 * columns.len(), "{name}");
        for (at, column) in columns.iter().enumerate() {
            assert_eq!(records[0][3 + 5 * at], format!("{}: answer", column["label"].as_str().unwrap()));
            assert_eq!(&records[1][3 + 5 * at], column["outcome-words"].as_str().unwrap());
        }
        for (record, row) in records.iter().skip(4).zip(rows) {
            assert_eq!(&record[0], row["question"].as_str().unwrap());
            for (at, cell) in row["cells"].as_array().unwrap().iter().enumerate() {
                let words = cell["words"].as_str().unwrap();
                assert!(record[3 + 5 * at].contains(words), "{name}: {record:?}");
                let texts: Vec<&str> =
                    cell["texts"].as_array().unwrap().iter().map(|text| text.as_str().unwrap()).collect();
                assert_eq!(&record[7 + 5 * at], texts.join("; "));
                assert_eq!(&record[5 + 5 * at] == "yes", cell["strictest"] == true);
            }
        }
    }
}

#[test]
fn html_tells_what_differs_first_and_runs_nothing() {
    for (name, arguments, status) in cases() {
        let told = ran(&arguments, &["--as", "html"]);
        assert_eq!((told.status, told.err.as_str()), (status, ""), "{name}");
        assert!(told.out.starts_with("<!DOCTYPE html>") && told.out.trim_end().ends_with("</html>"), "{name}");
        let at = |text: &str| told.out.find(text).unwrap_or_else(|| panic!("{name}: no {text}"));
        assert!(at("Answered otherwise</h2>") < at("Answered alike</h2>"), "{name}");
        assert!(at("Answered alike</h2>") < at("Smell gas?"), "{name}");
        for word in ["<script", "http://", "https://", "src=", "javascript:", "compare-"] {
            assert!(!told.out.contains(word), "{name}: {word}");
        }
        for column in json(&arguments)["columns"].as_array().unwrap() {
            assert!(told.out.contains(column["label"].as_str().unwrap()), "{name}");
        }
    }
}

#[test]
fn no_text_of_a_rule_file_becomes_a_tag_or_a_formula() {
    let rules = folder(&[(
        "odd.rule",
        "place odd \"=1+1<b>Odd</b>\"\n    read \"a test\" on 2026-11-24\ninstrument O-1 of odd \"one\"\n    kind ordinance\n    in force from 2020-01-01\n    adopts IFGC 2018\n",
    )]);
    let rules = rules.path().to_str().unwrap();
    let arguments = compare(&[&data("jacketed.job"), "--places", "odd,osier", "--rules", rules]);
    let html = ran(&arguments, &["--as", "html"]).out;
    assert!(html.contains("=1+1&lt;b&gt;Odd") && !html.contains("<b>Odd"), "{html}");
    let csv = ran(&arguments, &["--as", "csv"]).out;
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(csv.as_bytes());
    for record in reader.records() {
        for field in record.unwrap().iter() {
            assert!(!field.starts_with(['=', '+', '-', '@']), "{field}");
        }
    }
}

/// A fact and a term that one place alone knows.
const LOCAL: &str = "fact septic yes-no in osier \"Whether there is a septic field\"\n    ask \"Is there a septic field?\" known to owner at bid\nextend trade in osier\n    bonder \"certified by the county\"\ninstrument OC-99 of osier \"Ordinance 99\"\n    kind ordinance\n    in force from 2020-01-01\n    read \"a test\" on 2026-11-24\n    section 1 \"Bonders\"\n        where septic is no\n        performer only bonder\n";

#[test]
fn what_one_place_alone_knows_is_told_and_never_dropped() {
    let rules = folder(&[("local.rule", LOCAL)]);
    let rules = rules.path().to_str().unwrap();
    let sheet = "application-date 2024-06-03\noccupancy commercial\nwork new-system\nbuilding main\nseptic no\nperformer bonder\nrun { material csst jacket plain role distribution }\n";
    for (places, named) in [("osier,tarn", ""), ("tarn,osier", ""), ("tarn,osier", "place osier\n")] {
        let arguments = ["compare", "-", "--places", places, "--rules", rules];
        let page = run_with(&arguments, format!("{named}{sheet}"));
        assert_eq!((page.status, page.err.as_str()), (13, ""), "{places} {named}{}", page.out);
        let page = page.out.replace("\n    ", " ");
        assert!(page.contains("Tarn County: septic is known in Osier County only, and says nothing here"), "{page}");
        assert!(page.contains("Tarn County: bonder is a term of Osier County only"), "{page}");
        assert!(page.contains("only bonder"), "{page}");
    }
    // Where no listed place knows the words, it is an error with its place.
    let lost = run_with(&["compare", "-", "--places", "tarn,merrin", "--rules", rules], sheet);
    assert_eq!(lost.status, 1);
    assert!(lost.err.contains("septic") && lost.err.contains("line 5"), "{}", lost.err);
}

#[test]
fn a_reader_gets_the_own_language_and_units() {
    let (_, arguments, status) = cases().remove(1);
    let told = |more: &[&str]| {
        let ran = ran(&arguments, more);
        assert_eq!((ran.status, ran.err.as_str()), (status, ""), "{more:?}");
        ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let page = told(&["--language", "es"]);
    assert!(page.contains("Un trabajo en 2 lugares") && page.contains("NO CUMPLE"), "{page}");
    assert!(!page.contains("NOT MET") && !page.contains("rules last read"), "{page}");
    let html = told(&["--language", "es", "--as", "html"]);
    assert!(html.contains("<html lang=\"es\">") && html.contains("Lugares y fechas"), "{html}");
    let metric = told(&["--units", "m"]);
    assert!(metric.contains("at most 22.86 m (75 ft)") && !told(&[]).contains("22.86 m"), "{metric}");
    for (more, said) in [("--language", "JSON is written in one language"), ("--units", "figures in JSON stay")] {
        let value = if more == "--units" { "m" } else { "es" };
        let refused = ran(&arguments, &["--as", "json", more, value]);
        assert_eq!((refused.status, refused.out.as_str()), (2, ""));
        assert!(refused.err.contains(said), "{}", refused.err);
    }
}

#[test]
fn arguments_that_make_no_sense_are_told_with_help() {
    let job = data("jacketed.job");
    let many: Vec<String> = (1..=201).map(|day| format!("{}-01-01", 1800 + day)).collect();
    let many = many.join(",");
    let (undated, dated) = (data("banned.job"), data("complies.job"));
    for (arguments, status, told) in [
        (vec![&*job, "--places", "osier"], 2, "one column compares nothing"),
        (vec![&*job, "--places", "osier,Osier County"], 2, "`tamarrow/osier` stands twice in --places"),
        (vec![&*undated, "--dates", "2024-01-01,2024-01-01"], 2, "2024-01-01 stands twice in --dates"),
        (vec![&*undated, "--dates", &many], 2, "201 columns are asked for, and at most 200"),
        (vec![&*job, "--places", "osierr,nowhere-at-all"], 1, "in the argument --places: no place is named `osierr`"),
        (vec![&*dated, "--dates", "2020-01-01,2021-01-01"], 1, "for `application-date`, and the date given beside it"),
        (vec![&*job, "--dates", "2020-01-01,2021-13-01"], 2, "write a date that exists"),
        (vec![&*job], 2, "--places"),
        (vec![&*job, "--places", "osier,tarn", "--place", "merrin"], 2, "cannot be used with"),
        (vec!["no-such.job", "--places", "osier,tarn"], 1, "no-such.job"),
    ] {
        let all = [&["compare"][..], &arguments].concat();
        let ran = run(&all);
        assert_eq!((ran.status, ran.out.as_str()), (status, ""), "{arguments:?}: {}", ran.err);
        assert!(ran.err.contains(told), "{arguments:?}: {}", ran.err);
    }
    let two = run_with(&["compare", "-", "--places", "osier,tarn"], "[{}, {}]");
    assert_eq!(two.status, 1);
    assert!(two.err.contains("it holds 2 jobs, and one is compared"), "{}", two.err);
}

#[test]
fn a_job_that_names_its_place_is_compared_there_only_where_it_is_listed() {
    let comparison = json(&compare(&[&data("complies.job"), "--places", "osier,tarn"]));
    let places: Vec<&Value> =
        comparison["columns"].as_array().unwrap().iter().map(|column| &column["place"][1]).collect();
    assert_eq!(places, [&Value::from("osier"), &Value::from("tarn")]);
    // The days stand at the job's own place where no other is listed.
    let ban = json(&compare(&[&data("banned.job"), "--dates", "2020-12-31,2024-08-31"]));
    for column in ban["columns"].as_array().unwrap() {
        assert_eq!(column["place"][1], "kestrel-flats");
    }
    assert!(ban["job"].get("place").is_none() && ban["job"]["occupancy"] == "one-or-two-family");
}
