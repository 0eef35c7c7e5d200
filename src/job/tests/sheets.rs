//! Job sheets: what is read, and what is refused where.

use super::{json, list, one_wrong_sheet, said, sheet, sheet_with};
use crate::job::Defaults;
use crate::job::model::Given;
use crate::syntax::codes;

#[test]
fn a_sheet_says_what_json_says() {
    let on_paper = sheet(
        "job
            place larkspur/harlow   reference \"24-118\"
            application-date 2024-03-01   contract-date none   occupancy one-or-two-family
            meters 2  service-rating 200 A  permits-held gas, electrical  gas-supplier brightwell-gas
            code-chosen IFGC  concealed unknown  septic no
            run { material csst jacket arc-resistant length 40 ft }
            run { jacket unknown }
            run unknown
            appliance none
            jumper { present yes size 6 AWG clamp-listing UL-467 }
            jumper.length 31 ft
            shed { kinds none doors 2 }
            performer bonder",
    );
    let as_json = json(
        r#"{ "place": "harlow", "reference": "24-118", "application-date": "2024-03-01", "contract-date": "none",
            "occupancy": "one-or-two-family", "meters": 2, "service-rating": "200 A",
            "permits-held": ["electrical", "gas"], "gas-supplier": "brightwell-gas", "code-chosen": "IFGC",
            "septic": false, "run": [{ "material": "csst", "jacket": "arc-resistant", "length": "40 ft" }, {}, null],
            "appliance": [], "jumper": { "present": true, "size": "6 AWG", "clamp-listing": ["UL-467"], "length": "31 ft" },
            "shed": [{ "kinds": [], "doors": 2 }], "performer": "bonder" }"#,
    );
    assert_eq!(on_paper, as_json);
}

#[test]
fn printed_names_are_allowed() {
    let job = sheet("place \"Harlow County\" gas-supplier \"Brightwell Gas Co.\"");
    assert_eq!(job.place, super::Places::usual().id("harlow"));
    assert_eq!(said(&job, "gas-supplier"), Given::Name("brightwell-gas".into()));
}

#[test]
fn there_may_be_nobody_to_name() {
    let none = sheet("place harlow gas-supplier none");
    assert_eq!(said(&none, "gas-supplier"), Given::Name("none".into()));
    assert_eq!(none, json(r#"{ "place": "harlow", "gas-supplier": "none" }"#));
}

#[test]
fn lists_may_be_empty_or_unknown() {
    assert!(!list(&sheet("place harlow run none"), "run").more);
    let unknown = sheet("place harlow run unknown jumper unknown");
    assert_eq!(unknown, sheet("place harlow"));
    let one = list(&sheet("place harlow run { }"), "run");
    assert_eq!((one.entries.len(), one.more), (1, false));
}

#[test]
fn each_error_points_at_its_words() {
    for (text, code, pointed, help) in [
        ("concealed yes", codes::JOB, "", "add a line with `place`"),
        ("place harlwo", codes::JOB_NAME, "harlwo", "did you mean `harlow`?"),
        ("place harlow place quarrel", codes::JOB_TWICE, "quarrel", "say it once"),
        ("place harlow ocupancy townhouse", codes::JOB_NAME, "ocupancy", "did you mean `occupancy`?"),
        ("place harlow occupancy townhuose", codes::JOB_NAME, "townhuose", "did you mean `townhouse`?"),
        ("place harlow run { jakcet plain }", codes::JOB_NAME, "jakcet", "did you mean `jacket`?"),
        ("place harlow runn { jacket plain }", codes::JOB_NAME, "runn", "did you mean `run`?"),
        ("place harlow jumper.sizze 6 AWG", codes::JOB_NAME, "jumper.sizze", "did you mean `jumper.size`?"),
        ("place harlow run.jacket plain", codes::JOB_NAME, "run.jacket", "write it inside an entry of `run`"),
        ("place quarrel septic yes", codes::JOB_NAME, "septic", "another place only"),
        ("place harlow concealed maybe", codes::JOB_VALUE, "maybe", "write `yes` or `no`"),
        ("place harlow jumper.length 31 A", codes::JOB_VALUE, "31 A", "the units that fit are"),
        ("place harlow jumper.size 5 AWG", codes::JOB_VALUE, "5 AWG", "6 AWG and 4 AWG"),
        ("place harlow application-date 2023-02-29", codes::JOB_VALUE, "2023-02-29", "year, month and day"),
        ("place harlow code-chosen IFCG", codes::JOB_NAME, "IFCG", "did you mean `IFGC`?"),
        ("place harlow run { length 3 ft length 4 ft }", codes::JOB_TWICE, "length", "say it once"),
        ("place harlow permits-held gas, gas", codes::JOB_TWICE, "gas", "say it once"),
        ("place harlow run none run none", codes::JOB_TWICE, "run none", "say it once"),
        ("place harlow run none run { }", codes::JOB_VALUE, "run none", "take out `run none`"),
        ("place harlow run none run unknown", codes::JOB_VALUE, "run none", "take out `run none`"),
        ("place harlow reference \"a\" reference \"b\"", codes::JOB_TWICE, "\"b\"", "say it once"),
    ] {
        let (found, at) = one_wrong_sheet(text);
        assert_eq!((found.code, found.at.file.0), (code, 3), "{text}: {}", found.message);
        assert!(pointed.is_empty() || at.trim() == pointed, "{text}: points at `{at}`");
        assert!(found.help.as_ref().unwrap().contains(help), "{text}: {:?}", found.help);
    }
}

#[test]
fn values_of_another_shape_are_refused() {
    for text in [
        "concealed none",
        "occupancy townhouse, commercial",
        "occupancy 3 ft",
        "occupancy \"townhouse\"",
        "meters 2 ft",
        "meters 2.5",
        "service-rating 200",
        "service-rating yes",
        "application-date yes",
        "jumper yes",
        "jumper none",
        "run csst",
        "occupancy { wide yes }",
        "gas-supplier Brightwell",
        "gas-supplier 3 ft",
        "run { material none }",
    ] {
        let (found, _) = one_wrong_sheet(&format!("place harlow {text}"));
        assert_eq!(found.code, codes::JOB_VALUE, "{text}: {}", found.message);
    }
}

#[test]
fn a_fact_is_said_once_in_whatever_way() {
    for text in
        ["concealed yes concealed yes", "jumper { size 6 AWG } jumper.size 6 AWG", "jumper { size 6 AWG size unknown }"]
    {
        assert_eq!(one_wrong_sheet(&format!("place harlow {text}")).0.code, codes::JOB_TWICE, "{text}");
    }
}

#[test]
fn every_error_is_found() {
    let found = sheet_with(
        "place harlow ocupancy townhouse concealed maybe run { jakcet plain length 3 A }",
        &Defaults::default(),
    );
    assert_eq!(found.unwrap_err().len(), 4);
}
