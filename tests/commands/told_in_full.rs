//! What a verdict tells where little binds: advice alone, and instruments whose first day is not known.

use super::{Ran, folder, run_with};
use serde_json::{Value, json};

const ALDER: &str = r#"
place alder "Alder"
    common practice
fact said yes-no in alder "Said"
instrument A-1 of alder
    kind ordinance
    in force from between 2020-03-01 and 2020-06-01
    section 1 "Bond"
        where said is yes
        direct-bond is required
place ash "Ash"
    common practice
instrument H-1 of ash
    kind guidance
    in force from 2019-01-01
    section 1 "Bond it all the same"
        where csst-piping
        direct-bond is required
    section 2 "Long enough"
        jumper-length at most 50 ft
"#;

fn asked(sheet: &str, more: &[&str]) -> Ran {
    let folder = folder(&[("alder.rule", ALDER)]);
    let rules = folder.path().to_str().unwrap().to_owned();
    let mut all = vec!["verdict", "-", "--rules", &rules];
    all.extend(more);
    run_with(&all, sheet)
}

fn flat(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn advice_stands_where_nothing_binds() {
    let sheet = "place ash\napplication-date 2020-06-01\nrun { material csst jacket plain role distribution }\n";
    let page = flat(&asked(sheet, &[]).out);
    let line = "no rule known here binds; advised is direct-bond is required [H-1 1]";
    assert!(page.contains(line), "{page}");
    assert!(page.contains("advised is jumper-length at most 50 ft [H-1 2]"), "{page}");
    assert!(!page.contains("speaks of: Direct bond"), "{page}");
    let why = flat(&asked(sheet, &["--why"]).out);
    assert!(why.contains(line) && why.contains("guidance of Ash"), "{why}");
    // What has no advice either shares the line at the end.
    assert!(page.contains("No rule known here speaks of:"), "{page}");
    // Where the advice waits for a fact, the page says for which.
    let vague = flat(&asked("place ash\napplication-date 2020-06-01\nrun { role distribution }\n", &[]).out);
    assert!(vague.contains("advised is direct-bond is required if run[0].material is csst"), "{vague}");
}

/// The witnesses of a verdict on a day.
fn witnesses(day: &str) -> Value {
    let date = if day.is_empty() { String::new() } else { format!("application-date {day}\n") };
    let ran = asked(&format!("place alder\n{date}"), &["--as", "json"]);
    let verdict: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(verdict["answers"]["direct-bond"]["state"], "open", "{day}");
    verdict["answers"]["direct-bond"]["witnesses"].clone()
}

#[test]
fn an_instrument_is_named_only_where_the_date_may_lie_in_its_span() {
    for day in ["2020-06-01", "2021-06-01"] {
        assert_eq!(witnesses(day), json!([{ "said": false }, { "said": true }]), "{day}");
        let page = asked(&format!("place alder\napplication-date {day}\n"), &[]).out;
        assert!(!page.contains("not yet in force"), "{page}");
    }
    for day in ["2020-04-01", ""] {
        assert!(witnesses(day)[0]["in-force"]["A-1"].is_boolean(), "{day}");
    }
}

/// The text that would have asked, had its own exception not let the job off, comes before one that never applied.
#[test]
fn an_exception_is_the_reason_where_nothing_is_asked() {
    let town = "place ease \"Ease\"\n read \"a test\" on 2026-11-24\ninstrument E-1 of ease\n kind ordinance\n \
                in force from 2019-01-01\n adopts IFGC 2018\n";
    let folder = folder(&[("ease.rule", town)]);
    let rules = folder.path().to_str().unwrap();
    let sheet = |work: &str| {
        format!(
            "place ease\napplication-date 2020-06-01\noccupancy commercial\nwork {work}\nbuilding main\n\
             run {{ material csst jacket plain role distribution }}\nappliance {{ powered yes }}\n"
        )
    };
    let page = flat(&run_with(&["verdict", "-", "--rules", rules], sheet("existing-only")).out);
    assert!(page.contains("not required [IFGC 2018 310.2: excepted]"), "{page}");
    let page = flat(&run_with(&["verdict", "-", "--rules", rules], sheet("new-system")).out);
    assert!(!page.contains("310.2: excepted"), "{page}");
}
