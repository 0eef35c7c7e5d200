//! How commands and jobs may name a place.

use super::{Ran, folder, run_with};
use serde_json::{Value, json};

/// Two towns of one printed name in two counties.
const ATLAS: &str = r#"
place larch-state "State of Larch"
    read "a test" on 2026-11-24
place harlow "Harlow County" within larch-state
    also "Harlow Co."
    read "a test" on 2026-11-24
place quarry "Quarry County" within larch-state
    read "a test" on 2026-11-24
place fairview "City of Fairview" within harlow
    read "a test" on 2026-11-24
    nothing of its own on fuel-gas read "a test" on 2026-11-24
place fairview "City of Fairview" within quarry
    also "Old Fairview"
    read "a test" on 2026-11-24
    nothing of its own on fuel-gas read "a test" on 2026-11-24
instrument L-1 of larch-state
    kind statute
    in force from 2020-01-01
    adopts IFGC 2018
"#;

/// Every way in which a place reaches the program, and the path that comes back.
fn ways(name: &str) -> Vec<(&'static str, Ran)> {
    let folder = folder(&[("atlas.rule", ATLAS)]);
    let rules = folder.path().to_str().unwrap();
    let ask = |arguments: &[&str], input: String| {
        let all: Vec<&str> = arguments.iter().copied().chain(["--rules", rules, "--as", "json"]).collect();
        run_with(&all, input)
    };
    vec![
        ("in-force", ask(&["in-force", name, "--on", "2024-01-01"], String::new())),
        ("--place", ask(&["verdict", "-", "--place", name], "{}".to_owned())),
        ("JSON", ask(&["verdict", "-"], json!({ "place": name }).to_string())),
        ("sheet", ask(&["verdict", "-"], format!("place \"{name}\"\n"))),
    ]
}

#[test]
fn every_name_of_a_place_leads_to_it() {
    for (name, path) in [
        ("Harlow Co.", "harlow"),
        ("harlow co.", "harlow"),
        ("HARLOW COUNTY", "harlow"),
        ("Harlow", "harlow"),
        ("State of Larch/Harlow Co.", "harlow"),
        ("Harlow Co./City of Fairview", "harlow/fairview"),
        ("quarry/fairview", "quarry/fairview"),
        ("old fairview", "quarry/fairview"),
    ] {
        let path: Vec<&str> = ["larch-state"].into_iter().chain(path.split('/')).collect();
        for (way, ran) in ways(name) {
            let answer: Value = serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{way} {name}: {}", ran.err));
            assert_eq!(answer["place"], json!(path), "{way} {name}");
        }
    }
}

#[test]
fn one_name_of_two_places_is_refused_with_both_paths() {
    for name in ["fairview", "Fairview", "City of Fairview", "CITY OF FAIRVIEW"] {
        for (way, ran) in ways(name) {
            assert_eq!((ran.status, ran.out.as_str()), (1, ""), "{way} {name}");
            for path in ["larch-state/harlow/fairview", "larch-state/quarry/fairview"] {
                assert!(ran.err.contains(path), "{way} {name}: {}", ran.err);
            }
        }
    }
}

#[test]
fn a_slip_is_told_with_the_nearest_names() {
    for (slip, near) in [
        ("Harlow Cuonty", "`Harlow County`"),
        ("harlw", "`harlow`"),
        ("Harlow Cq.", "`Harlow Co.`"),
        ("qaurry", "`quarry`"),
    ] {
        for (way, ran) in ways(slip) {
            assert_eq!(ran.status, 1, "{way} {slip}");
            assert!(ran.err.contains(near), "{way} {slip}: {}", ran.err);
        }
    }
}

/// A name with a blank is a text, in quotes; without them the second word is read as a fact.
#[test]
fn a_name_with_blanks_stands_in_quotes_on_a_sheet() {
    let folder = folder(&[("atlas.rule", ATLAS)]);
    let rules = folder.path().to_str().unwrap();
    let sheet = |line: &str| run_with(&["verdict", "-", "--rules", rules, "--as", "json"], format!("{line}\n"));
    assert_ne!(sheet("place \"Harlow Co.\"").out, "");
    assert_eq!(sheet("place harlow county").status, 1);
    assert_eq!(sheet("place Harlow").status, 1);
}
