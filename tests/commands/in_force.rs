//! `in-force`.

use super::{data, folder, run, timeless};
use serde_json::Value;

#[test]
fn pages() {
    for (name, arguments) in [
        ("in_force_osier", &["in-force", "Osier County", "--on", "2024-06-03"][..]),
        ("in_force_pellhaven_section", &["in-force", "pellhaven", "--on", "2024-06-03", "--section", "IFGC", "310.3"]),
    ] {
        let ran = run(arguments);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{name}");
        assert!(ran.out.lines().all(|line| line.chars().count() <= 80), "{name}");
        assert!(ran.out.contains("authority having"), "{name}");
        insta::assert_snapshot!(name, timeless(&ran.out));
    }
}

fn json(arguments: &[&str]) -> Value {
    let mut all = vec!["in-force"];
    all.extend(arguments);
    all.extend(["--as", "json"]);
    let ran = run(&all);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    serde_json::from_str(&ran.out).unwrap()
}

fn codes(answer: &Value) -> Vec<String> {
    let lines = answer["codes"].as_array().unwrap().iter();
    lines
        .map(|line| {
            format!(
                "{} {}{}",
                line["code"].as_str().unwrap(),
                line["edition"],
                if line["where"].is_null() { "" } else { "?" }
            )
        })
        .collect()
}

#[test]
fn the_day_decides_the_edition() {
    let on = |day| codes(&json(&["tamarrow", "--on", day]));
    assert_eq!(on("2010-06-30"), Vec::<String>::new());
    assert_eq!(on("2010-07-01"), ["IFGC 2009?", "IRC 2009?", "NEC 2008"]);
    assert_eq!(on("2024-06-03"), ["IFGC 2021?", "IRC 2021?", "NEC 2020"]);
}

#[test]
fn a_scope_is_told_in_words() {
    let answer = json(&["tamarrow", "--on", "2024-06-03"]);
    assert_eq!(answer["codes"][1]["where"], "occupancy is any of one-or-two-family, townhouse");
    assert_eq!(answer["codes"][0]["where"], "not (occupancy is any of one-or-two-family, townhouse)");
}

fn standing(answer: &Value, id: &str) -> (String, Value) {
    let all = answer["history"].as_array().unwrap().iter().chain(answer["pending"].as_array().unwrap());
    let line = all.into_iter().find(|line| line["instrument"] == id).unwrap_or_else(|| panic!("{id}: {answer:#}"));
    (line["standing"].as_str().unwrap().to_owned(), line["ended-by"].clone())
}

const ACTS: &str = r#"
place acts-town "Acts Town"
    read "a test" on 2026-11-24
instrument A-1 of acts-town
    kind ordinance
    in force from 2020-01-01 through 2024-12-31
    adopts IFGC 2015
instrument A-2 of acts-town
    kind ordinance
    in force from 2021-01-01
    section 2 "Two"
        performer only electrician
instrument A-3 of acts-town
    kind order
    in force from 2022-01-01 through 2022-06-30
    suspends A-2
instrument A-4 of acts-town
    kind ordinance
    in force from 2023-01-01
    repeals A-2
instrument A-5 of acts-town
    kind ordinance
    adopted 2019-05-01
    in force from unknown
    section 5 "Five"
        performer only electrician
instrument A-6 of acts-town
    kind ordinance
    status proposed
    section 6 "Six"
        performer only electrician
instrument A-7 of acts-town
    kind ordinance
    in force from between 2026-01-01 and 2026-03-01
    section 7 "Seven"
        performer only electrician
"#;

#[test]
fn instruments_stand_as_their_days_say() {
    let folder = folder(&[("acts.rule", ACTS)]);
    let rules = folder.path().to_str().unwrap();
    let on = |day| json(&["acts-town", "--on", day, "--rules", rules]);
    let plain = |word: &str| (word.to_owned(), Value::Null);
    assert_eq!(standing(&on("2021-06-01"), "A-2"), plain("in-force"));
    assert_eq!(standing(&on("2022-06-30"), "A-2"), ("suspended".into(), "A-3".into()));
    assert_eq!(standing(&on("2022-07-01"), "A-2"), plain("in-force"));
    assert_eq!(standing(&on("2023-01-01"), "A-2"), ("repealed".into(), "A-4".into()));
    assert_eq!(standing(&on("2024-12-31"), "A-1"), plain("in-force"));
    assert_eq!(standing(&on("2025-01-01"), "A-1"), plain("ended"));
    assert_eq!(standing(&on("2019-04-30"), "A-5"), plain("not-yet"));
    assert_eq!(standing(&on("2019-05-01"), "A-5"), plain("possible"));
    assert_eq!(standing(&on("2021-06-01"), "A-6"), plain("proposed"));
    assert_eq!(standing(&on("2025-12-31"), "A-7"), plain("not-yet"));
    assert_eq!(standing(&on("2026-02-28"), "A-7"), plain("possible"));
    assert_eq!(standing(&on("2026-03-01"), "A-7"), plain("in-force"));
    let coming: Vec<String> = on("2021-06-01")["pending"]
        .as_array()
        .unwrap()
        .iter()
        .map(|line| line["instrument"].as_str().unwrap().to_owned())
        .collect();
    for id in ["A-3", "A-4", "A-6", "A-7"] {
        assert!(coming.iter().any(|known| known == id), "{id}: {coming:?}");
    }
}

#[test]
fn a_section_names_its_authors_and_what_it_said_before() {
    let answer = json(&["pellhaven", "--on", "2024-06-03", "--section", "IFGC", "310.3"]);
    assert_eq!(answer["stands"][0]["demand"], "direct-bond is required");
    assert_eq!(answer["stands"][0]["author"], "PH-23-14 of City of Pellhaven");
    assert_eq!(answer["stands"][0]["adopted-by"], "TBR-22-3");
    assert!(
        answer["before"].as_array().unwrap().iter().all(|line| line["fate"] == "replaced by PH-23-14"),
        "{answer:#}"
    );
    let before = json(&["pellhaven", "--on", "2022-12-31", "--section", "IFGC", "310.3"]);
    assert_eq!(before["before"], serde_json::json!([]));
    assert!(
        before["stands"].as_array().unwrap().iter().all(|line| line["author"] == "TBR-22-3 of State of Tamarrow"),
        "{before:#}"
    );
}

#[test]
fn a_section_that_is_not_there() {
    let ran = run(&["in-force", "pellhaven", "--on", "2024-06-03", "--section", "IFGC", "310.33"]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("GR0602") && ran.err.contains("`310.3`"), "{}", ran.err);
    let ran = run(&["in-force", "pellhaven", "--on", "2024-06-03", "--section", "UPC", "1.1"]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("the codes there are IFGC, IRC, NEC"), "{}", ran.err);
}

#[test]
fn a_place_of_a_rule_file_outside() {
    let answer = json(&["Tollgate City", "--on", "2024-09-01", "--rules", &data("places.rule")]);
    assert_eq!(answer["place"], serde_json::json!(["quarrel-state", "tollgate"]));
    assert_eq!(codes(&answer), ["IFGC 2015?", "IFGC 2018?"]);
    assert_eq!(standing(&answer, "T-7").0, "elective");
    assert!(answer["powers"][0]["does"].as_str().unwrap().contains("direct-bond"), "{answer:#}");
    assert_eq!(run(&["in-force", "tollgate", "--on", "2024-09-01"]).status, 1, "it is not in the library");
}

#[test]
fn the_rows_of_a_table_stand_in_their_order() {
    let answer = json(&["tamarrow", "--on", "2024-06-03", "--section", "NEC", "250.122"]);
    let rows: Vec<(&str, &str)> = answer["stands"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|line| !line["demand"].as_str().unwrap().starts_with("refer"))
        .map(|line| (line["where"][0].as_str().unwrap(), line["demand"].as_str().unwrap()))
        .collect();
    assert_eq!(rows[0].0, "energizing-circuit at most 15 A");
    assert!(rows[0].1.starts_with("jumper-size at least 14 AWG for copper"), "{rows:?}");
    assert_eq!(rows[1].0, "energizing-circuit at most 20 A and energizing-circuit over 15 A");
    assert!(rows[1].1.starts_with("jumper-size at least 12 AWG for copper"), "{rows:?}");
}

#[test]
fn the_time_line_is_drawn() {
    let ran = run(&["in-force", "merrin", "--on", "2025-09-15", "--as", "svg"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert!(ran.out.starts_with("<svg ") && ran.out.trim_end().ends_with("</svg>"));
    for part in ["NEC 2023 by ME-25-3", "asked, 2025-09-15", "today, ", "ME-26-9", "authority having jurisdiction"] {
        assert!(ran.out.contains(part), "{part}");
    }
    for more in [&["--section", "IFGC", "310.3"][..], &["--coverage"]] {
        let all = [&["in-force", "merrin", "--on", "2025-09-15", "--as", "svg"][..], more].concat();
        let ran = run(&all);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{more:?}");
        assert!(ran.err.contains("help:"), "{}", ran.err);
    }
}
