//! `verdict --as json`, and jobs in their two forms.

use super::{data, run, run_with};
use serde_json::Value;

fn verdict(arguments: &[&str], input: &str) -> (Value, i32) {
    let mut all = vec!["verdict", "--as", "json"];
    all.extend(arguments);
    let ran = run_with(&all, input);
    assert_eq!(ran.err, "");
    (serde_json::from_str(&ran.out).unwrap(), ran.status)
}

#[test]
fn one_job_is_an_object_several_are_an_array() {
    let (one, status) = verdict(&[&data("complies.job")], "");
    assert_eq!((status, &one["outcome"], &one["reference"]), (0, &"complies".into(), &"permit 24-118".into()));
    assert_eq!(one["schema"], "groundrule/verdict/1");
    let (several, status) = verdict(&[&data("complies.job"), &data("open.json")], "");
    assert_eq!((status, several.as_array().unwrap().len()), (13, 2));
    let (listed, _) = verdict(&["-"], r#"[{"place":"osier"},{"place":"tarn"}]"#);
    assert_eq!(listed[1]["place"], serde_json::json!(["tamarrow", "tarn"]));
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let once = run(&["verdict", "--as", "json", &data("open.json"), &data("corrections.job")]);
    let again = run(&["verdict", "--as", "json", &data("open.json"), &data("corrections.job")]);
    assert_eq!(once.out, again.out);
    // Where the rules lie and in which order they are given does not matter.
    let places = data("places.rule");
    let copy = super::folder(&[("other/name.rule", &std::fs::read_to_string(&places).unwrap())]);
    let copy = copy.path().to_str().unwrap();
    let one = run(&["verdict", "--as", "json", "--rules", &places, "--rules", copy, &data("plain.json")]);
    let two = run(&["verdict", "--as", "json", "--rules", copy, &data("plain.json")]);
    assert_eq!((one.out.is_empty(), one.out), (false, two.out));
}

#[test]
fn standard_input_is_told_by_its_first_letter() {
    let (json, _) = verdict(&["-"], "\n  { \"place\": \"osier\" }");
    let (sheet, _) = verdict(&["-"], "# a comment\nplace osier\n");
    assert_eq!(json, sheet);
}

#[test]
fn a_sheet_and_its_json_are_one_job() {
    let sheet = "place farside\napplication-date 2025-02-03\noccupancy commercial\nconcealed unknown\npermits-held gas, electrical\n\
                 run { material csst jacket plain length 40 ft }\nappliance none\njumper.length 9.448800 m\n";
    let json = r#"{ "place": "State of Farside", "application-date": "2025-02-03", "occupancy": "commercial", "concealed": null,
        "permits-held": ["electrical", "gas"], "run": [ { "material": "csst", "jacket": "plain", "length": "40 ft" } ],
        "appliance": [], "jumper": { "length": "9.448800 m" } }"#;
    let places = data("places.rule");
    assert_eq!(verdict(&["-", "--rules", &places], sheet), verdict(&["-", "--rules", &places], json));
}

#[test]
fn the_cases_of_a_place_outside_the_library() {
    let cases: Value = serde_json::from_str(&std::fs::read_to_string(data("cases.json")).unwrap()).unwrap();
    let places = data("places.rule");
    for case in cases.as_array().unwrap() {
        let name = &case["name"];
        let ran = run_with(&["verdict", "--as", "json", "--rules", &places, "-"], case["job"].to_string());
        if let Some(words) = case["error"].as_array() {
            assert_eq!(ran.status, 1, "{name}");
            for word in words {
                assert!(ran.err.contains(word.as_str().unwrap()), "{name}: {}", ran.err);
            }
            continue;
        }
        let found: Value = serde_json::from_str(&ran.out).unwrap();
        if let Some(outcome) = case["outcome"].as_str() {
            assert_eq!(found["outcome"], outcome, "{name}");
        }
        for (question, expected) in case["expect"].as_object().unwrap() {
            let answer = &found["answers"][question];
            for (part, value) in expected.as_object().unwrap() {
                match part.as_str() {
                    "asks" => assert!(answer["ask"].as_array().unwrap().contains(value), "{name}: {answer:#}"),
                    "witnesses" => {
                        assert_eq!(answer["witnesses"].as_array().unwrap().len() as u64, value.as_u64().unwrap())
                    }
                    _ => assert!(holds(&answer[part], value), "{name}: {question} {part}: {answer:#}"),
                }
            }
        }
    }
}

/// Whether what was found is what was expected, of an object the keys named.
fn holds(found: &Value, expected: &Value) -> bool {
    match expected.as_object() {
        Some(keys) => keys.iter().all(|(key, value)| holds(&found[key], value)),
        None => found == expected,
    }
}
