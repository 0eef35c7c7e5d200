//! The description of the API: kept beside the program, true, and OpenAPI 3.1.
//!
//! `GROUNDRULE_GOLDEN=write` writes the kept one anew.

use super::{file, printed, server};
use serde_json::Value;
use std::collections::BTreeSet;

#[test]
fn the_kept_description_is_that_of_the_program() {
    let told = server().get("/openapi.json");
    assert_eq!((told.status, told.field("content-type")), (200, Some("application/json")));
    let path = file("shared/openapi.json");
    if std::env::var("GROUNDRULE_GOLDEN").is_ok_and(|set| set == "write") {
        std::fs::write(&path, &told.body).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == told.body,
        "shared/openapi.json is not what the program says: write it anew with GROUNDRULE_GOLDEN=write, and read what changed"
    );
}

#[test]
fn schemas_are_those_that_the_command_prints() {
    let whole = server().get("/openapi.json").json();
    for (name, what) in [("Job", "job"), ("Verdict", "verdict"), ("Effect", "effect")] {
        let mut own: Value = serde_json::from_str(&printed(&["schema", what], "")).unwrap();
        let text = own.to_string().replace("#/$defs/", &format!("#/components/schemas/{name}."));
        own = serde_json::from_str(&text).unwrap();
        let members = own.as_object_mut().unwrap();
        members.remove("$schema");
        members.remove("$id");
        for (part, schema) in members.remove("$defs").unwrap_or_default().as_object().into_iter().flatten() {
            assert_eq!(whole["components"]["schemas"][format!("{name}.{part}")], *schema, "{name} {part}");
        }
        assert_eq!(whole["components"]["schemas"][name], own, "{name}");
    }
}

/// Every reference of a value.
fn references(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(members) => {
            if let Some(Value::String(to)) = members.get("$ref") {
                found.insert(to.clone());
            }
            members.values().for_each(|value| references(value, found));
        }
        Value::Array(all) => all.iter().for_each(|value| references(value, found)),
        _ => {}
    }
}

#[test]
fn every_address_is_described_and_every_reference_leads_somewhere() {
    let server = server();
    let whole = server.get("/openapi.json").json();
    assert_eq!(whole["openapi"], "3.1.0");
    let mut found = BTreeSet::new();
    references(&whole, &mut found);
    assert!(found.len() > 30, "{found:?}");
    for reference in &found {
        assert!(whole.pointer(&reference[1..]).is_some(), "{reference}");
    }
    for (name, _) in whole["components"]["schemas"].as_object().unwrap() {
        assert!(found.contains(&format!("#/components/schemas/{name}")), "{name} is used nowhere");
    }
    let mut ids = BTreeSet::new();
    for (path, methods) in whole["paths"].as_object().unwrap() {
        for (method, about) in methods.as_object().unwrap() {
            assert!(ids.insert(about["operationId"].as_str().unwrap().to_owned()), "{path}");
            assert!(!about["summary"].as_str().unwrap().is_empty(), "{path}");
            let asked = server.ask(&method.to_uppercase(), &path.replace("{code}", "GR0801"), &[], b"");
            assert!(![404, 405].contains(&asked.status), "{method} {path}: {asked:?}");
            assert!(about["responses"].get(asked.status.to_string()).is_some(), "{method} {path}: {}", asked.status);
        }
    }
}

#[test]
fn answers_fit_their_schemas() {
    let server = server();
    let whole = server.get("/openapi.json").json();
    let of = |name: &str| {
        let mut schema = whole.clone();
        schema["$ref"] = format!("#/components/schemas/{name}").into();
        jsonschema::draft202012::new(&schema).unwrap()
    };
    let fits = |name: &str, value: &Value| {
        let schema = of(name);
        let wrong: Vec<String> =
            schema.iter_errors(value).map(|error| format!("{}: {error}", error.instance_path())).collect();
        assert_eq!(wrong, Vec::<String>::new(), "{name}");
        let mut spoilt = value.clone();
        let first = spoilt.as_object().unwrap().keys().next().unwrap().clone();
        spoilt.as_object_mut().unwrap().remove(&first);
        assert!(!schema.is_valid(&spoilt), "{name} holds nothing fast");
    };
    fits("InForce", &server.get("/api/in-force?place=stonecroft&on=2026-04-20").json());
    fits("AsItStands", &server.get("/api/section?place=stonecroft&on=2026-04-20&code=IRC&section=G2411.2").json());
    fits("Glossary", &server.get("/api/glossary").json());
    fits("Places", &server.get("/api/places").json());
    fits("Located", &server.get("/api/locate?latitude=1.04&longitude=1.8").json());
    fits("Health", &server.get("/health/ready").json());
    fits("Problem", &server.get("/nowhere").json());
    let bad = r#"{"place":"osier","place":"merrin","run":[{"jackett":1}]}"#;
    fits("Problem", &server.post("/api/verdict", "application/json", bad).json());
    fits("Problem", &server.post("/api/verdict", "text/plain", "place osier\nplace osier\n").json());
    fits("Verdict", &server.post("/api/verdict", "application/json", r#"{"place":"osier"}"#).json());
    let days = r#"{"place":"osier","dates":["2018-06-01","2024-03-01"]}"#;
    fits("Effect", &server.post("/api/effect", "application/json", days).json());
}
