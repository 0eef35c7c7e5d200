//! The published schemas against real input and output.

use super::{data, folder, run, run_with};
use jsonschema::Validator;
use serde_json::{Value, json};

fn schema(arguments: &[&str]) -> Validator {
    let mut all = vec!["schema"];
    all.extend(arguments);
    let ran = run(&all);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    let schema: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    assert!(jsonschema::meta::is_valid(&schema));
    jsonschema::draft202012::new(&schema).unwrap()
}

fn complaints(validator: &Validator, value: &Value) -> Vec<String> {
    validator.iter_errors(value).map(|error| format!("{}: {error}", error.instance_path())).collect()
}

#[test]
fn verdicts_fit_their_schema() {
    let validator = schema(&["verdict"]);
    let places = data("places.rule");
    let names: Vec<String> =
        ["complies.job", "corrections.job", "referred.job", "open.json", "plain.json"].map(data).to_vec();
    let mut arguments = vec!["verdict", "--as", "json", "--rules", &places];
    arguments.extend(names.iter().map(String::as_str));
    let verdicts: Value = serde_json::from_str(&run(&arguments).out).unwrap();
    assert_eq!(verdicts.as_array().unwrap().len(), 5);
    for verdict in verdicts.as_array().unwrap() {
        assert_eq!(complaints(&validator, verdict), Vec::<String>::new());
        let mut spoilt = verdict.clone();
        spoilt["answers"]["direct-bond"]["state"] = "maybe".into();
        assert!(!validator.is_valid(&spoilt));
        let mut spoilt = verdict.clone();
        spoilt["surprise"] = true.into();
        assert!(!validator.is_valid(&spoilt));
    }
}

#[test]
fn ways_fit_their_schema() {
    let validator = schema(&["ways"]);
    let folder = folder(&[("open.job", OPEN), ("choice.job", CHOICE), ("chosen.job", CHOSEN)]);
    for (name, open) in [("open.job", true), ("choice.job", true), ("chosen.job", false)] {
        let file = folder.path().join(name).display().to_string();
        let ran = run(&["verdict", &file, "--ways", "--as", "json"]);
        let ways: Value = serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{name}: {}", ran.err));
        assert_eq!(complaints(&validator, &ways), Vec::<String>::new(), "{name}");
        let all = ways["ways"].as_array().unwrap();
        assert_eq!(all.iter().any(|way| way["choices"] != json!([])), open, "{name}");
        for spoil in [
            |ways: &mut Value| ways["surprise"] = true.into(),
            |ways: &mut Value| ways["schema"] = "groundrule/ways/0".into(),
            |ways: &mut Value| ways["ways"][0]["lawful"] = "perhaps".into(),
            |ways: &mut Value| ways["ways"][0]["requires"] = json!([{ "title": "Size" }]),
        ] {
            let mut spoilt = ways.clone();
            spoil(&mut spoilt);
            assert!(!validator.is_valid(&spoilt));
        }
    }
}

/// A job that says nothing of its runs.
const OPEN: &str = "place stonecroft\napplication-date 2026-04-20\nreference \"SC-1\"\n";

/// A job that leaves open which jacket its tubing has.
const CHOICE: &str =
    "place hazelmoor\napplication-date 2026-04-20\nrun { material csst role distribution }\njumper { present no }\n";

/// A job that leaves nothing of its piping open.
const CHOSEN: &str = "place stonecroft\napplication-date 2026-04-20\nrun { material csst jacket plain role distribution product galeline }\n";

#[test]
fn comparisons_fit_their_schema() {
    let validator = schema(&["compare"]);
    let (jacketed, banned) = (data("jacketed.job"), data("banned.job"));
    for arguments in [
        &[&*jacketed, "--places", "osier,hazelmoor,quill-city"][..],
        &[&*banned, "--dates", "2020-12-31,2024-08-31,2024-09-01"],
        &[&*banned, "--places", "kestrel-flats,merrin", "--dates", "1990-01-01,2025-09-15"],
    ] {
        let all = [&["compare"][..], arguments, &["--as", "json"]].concat();
        let comparison: Value = serde_json::from_str(&run(&all).out).unwrap();
        assert_eq!(complaints(&validator, &comparison), Vec::<String>::new(), "{arguments:?}");
        let mut spoilt = comparison.clone();
        spoilt["rows"][0]["cells"][0]["surprise"] = true.into();
        assert!(!validator.is_valid(&spoilt));
    }
}

#[test]
fn effects_fit_their_schema() {
    let validator = schema(&["effect"]);
    let (amendment, glossary) = (data("effect/amendment.rule"), data("effect/glossary.rule"));
    let (before, after) = (data("effect/before.rule"), data("effect/after.rule"));
    for arguments in [
        &[&*amendment, "--place", "merrin"][..],
        &[&before, &after, "--rules", &glossary, "--without-library", "--place", "combe"],
        &["--place", "osier", "--dates", "2018-06-01,2024-03-01"],
        &["--place", "osier", "--against", "merrin", "--from", "2024-01-01", "--through", "2024-12-31"],
        &["--place", "tamarrow", "--against", "brackwell", "--through", "2009-12-31"],
    ] {
        let all = [&["effect"][..], arguments, &["--as", "json"]].concat();
        let effect: Value = serde_json::from_str(&run(&all).out).unwrap();
        assert_eq!(complaints(&validator, &effect), Vec::<String>::new(), "{arguments:?}");
        let mut spoilt = effect.clone();
        spoilt["surprise"] = true.into();
        assert!(!validator.is_valid(&spoilt));
        if !effect["changed"].as_array().unwrap().is_empty() {
            let mut spoilt = effect.clone();
            spoilt["changed"][0]["changes"][0]["becomes"] = "worse".into();
            assert!(!validator.is_valid(&spoilt));
        }
    }
}

#[test]
fn the_schema_of_a_job_takes_what_the_program_takes() {
    let validator = schema(&["job"]);
    for (fact, good, bad) in [
        ("concealed", json!([true, false, null]), json!(["yes", 1])),
        ("application-date", json!(["2024-03-01", "none", null]), json!(["2024-3-1", "today", 20240301])),
        ("occupancy", json!(["commercial", null]), json!(["shop", "", true])),
        (
            "permits-held",
            json!([[], ["gas", "electrical"], "gas", null]),
            json!([["gas", "gas"], ["tree"], "tree", [null]]),
        ),
        ("service-rating", json!(["200 A", "200.5  A", null]), json!(["200", "200A", "200 ft", 200, "-1 A"])),
        ("service-conductor", json!(["6 AWG", "1/0 AWG", "250 kcmil", "16 mm2"]), json!(["5 AWG", "6", "6 awg", 6])),
        ("gas-supplier", json!(["lowmoor-gas", null]), json!([7])),
        ("code-chosen", json!(["IFGC", null]), json!(["XYZ"])),
        ("jumper.length", json!(["31 ft", "9 m"]), json!(["31 A"])),
        ("jumper", json!([{ "present": true, "length": "31 ft" }, {}, null]), json!([{ "lenght": "31 ft" }, [], true])),
        ("run", json!([[], [{ "material": "csst" }], [null], null]), json!([{}, [{ "jacket": "black" }], ["csst"]])),
        ("reference", json!(["permit 1", null]), json!([1])),
    ] {
        let job = |value: &Value| json!({ "place": "osier", fact: value });
        let taken = |job: &Value| !run_with(&["verdict", "-"], job.to_string()).out.is_empty();
        for value in good.as_array().unwrap() {
            let job = job(value);
            assert_eq!(complaints(&validator, &job), Vec::<String>::new(), "{job}");
            assert!(taken(&job), "{job}");
        }
        for value in bad.as_array().unwrap() {
            let job = job(value);
            assert!(!validator.is_valid(&job), "{job}");
            assert!(!taken(&job), "{job}");
        }
    }
    assert!(!validator.is_valid(&json!({ "occupancy": "commercial" })), "the place is required");
    assert!(!validator.is_valid(&json!({ "place": "osier", "nonsense": 1 })));
}

#[test]
fn other_rules_bring_other_words() {
    let own = folder(&[(
        "own.rule",
        "place hill-town \"Hill Town\"\n    read \"a test\" on 2026-11-24\nextend trade in hill-town\n    bell-hanger \"bell hanger\"\nfact hill-stage count in hill-town\n",
    )]);
    let own = own.path().to_str().unwrap();
    let job = json!({ "place": "hill-town", "performer": "bell-hanger", "hill-stage": 3 });
    assert!(!schema(&["job"]).is_valid(&job));
    let with = schema(&["job", "--rules", own]);
    assert_eq!(complaints(&with, &job), Vec::<String>::new());
    assert!(!with.is_valid(&json!({ "place": "hill-town", "hill-stage": 1.5 })));
    assert!(!run_with(&["verdict", "-", "--rules", own], job.to_string()).out.is_empty());
}
