//! What people type.

use super::{job, steps};
use crate::Rules;
use crate::interview::{Problem, Reply, Wrong, read};
use crate::job::model::Given;

const JOB: &str = "job\n place osier\n application-date 2026-03-01\n occupancy townhouse\n work new-system\n \
    contract-date none\n permits-held gas\n service-rating 100 A\n gas-supplier lowmoor-gas\n concealed yes\n \
    run { material csst length 5 ft }\n jumper { present yes size 6 AWG pipe-size 1 inch }\n";

/// What a text answers to a fact that the job states, as the sheet then has it.
fn read_as(path: &str, text: &str) -> Result<String, Wrong> {
    let rules = Rules::shipped();
    let so_far = job(&rules, JOB);
    let steps = steps(&rules, &so_far, "contractor");
    let step = steps.iter().find(|step| step.path == path).unwrap_or_else(|| panic!("{path}"));
    let reply = read(rules.desk(), Some(so_far.job.place), step, text)?;
    let Ok(next) = so_far.answered(rules.desk(), step.topic, &reply) else { return Ok("refused".to_owned()) };
    let sheet = crate::job::to_sheet(&next.job, rules.desk());
    let word = path.split(['[', '.']).next().unwrap_or_default();
    let lines: Vec<&str> = sheet.lines().map(str::trim).filter(|line| line.split(' ').next() == Some(word)).collect();
    Ok(lines.join("; "))
}

#[test]
fn answers_in_everyday_spelling() {
    for (path, typed, line) in [
        ("occupancy", "commercial", "occupancy commercial"),
        ("occupancy", "Manufactured home", "occupancy manufactured-home"),
        ("occupancy", "1", "occupancy one-or-two-family"),
        ("occupancy", "multi", "occupancy multifamily"),
        ("occupancy", "?", ""),
        ("application-date", "2026-04-02", "application-date 2026-04-02"),
        ("contract-date", "2026-04-02", "contract-date 2026-04-02"),
        ("contract-date", "ninguna", "contract-date none"),
        ("permits-held", "gas, elec", "permits-held gas, electrical"),
        ("permits-held", "1 3", "permits-held gas, building"),
        ("permits-held", "none", "permits-held none"),
        ("service-rating", "200", "service-rating 200 A"),
        ("service-rating", "200 amps", "service-rating 200 A"),
        ("gas-supplier", "1", "gas-supplier lowmoor-gas"),
        ("gas-supplier", "Some Other Co", "gas-supplier some-other-co"),
        ("gas-supplier", "none", "gas-supplier none"),
        ("gas-supplier", "Ninguno", "gas-supplier none"),
        ("gas-supplier", "\"not known\"", "gas-supplier not-known"),
        ("concealed", "no", "concealed no"),
        ("concealed", "Sí", "concealed yes"),
        ("concealed", "2", "concealed no"),
        ("jumper.size", "4", "jumper { present yes size 4 AWG pipe-size 1 inch }"),
        ("jumper.pipe-size", "3/4", "jumper { present yes size 6 AWG pipe-size 0.75 inch }"),
        ("run[0].length", "7'6\"", "run { material csst length 90 inch }"),
        ("run[0].material", "steel", "run { material steel length 5 ft }"),
        ("run", "none", "run none"),
        ("run", "2", "run { material csst length 5 ft }; run { }"),
        ("run", "1+", "run { material csst length 5 ft }; run unknown"),
        ("run", "+1", "run { material csst length 5 ft }; run { }"),
        ("run", "10001", "refused"),
        ("run", "?", "run { material csst length 5 ft }; run unknown"),
    ] {
        assert_eq!(read_as(path, typed).as_deref(), Ok(line), "{path}: {typed}");
    }
}

#[test]
fn wrong_answers_are_told() {
    let problem = |path, typed| read_as(path, typed).map_err(|wrong| wrong.problem);
    assert_eq!(problem("occupancy", ""), Err(Problem::Empty));
    assert_eq!(problem("occupancy", "12"), Err(Problem::NoNumber { most: 8 }));
    let both = vec!["manufactured-home".to_owned(), "multifamily".to_owned()];
    let Err(Problem::SeveralFit { mut names }) = problem("occupancy", "m") else { panic!("`m` is short") };
    names.sort();
    assert_eq!(names, both);
    assert_eq!(problem("run", "many"), Err(Problem::NoCount));
    assert_eq!(problem("run", "-1"), Err(Problem::NoCount));
    for (path, typed, message, help) in [
        ("occupancy", "castle", "`castle` is not a term of `occupancy-class`", "one-or-two-family"),
        ("application-date", "3/1/2026", "`3/1/2026` is not a date that exists", "2024-03-01"),
        ("application-date", "2026-02-30", "`2026-02-30` is not a date that exists", "2024-03-01"),
        ("application-date", "none of your business", "is not a date that exists", "2024-03-01"),
        ("service-rating", "200 V", "measures something else", "A"),
        ("service-rating", "1,000", "cannot be read as a figure", "100 A"),
        ("service-rating", "lots", "the unit `lots` is not known", "100 A"),
        ("jumper.size", "5", "`5 AWG` is not a printed wire gauge", "6 AWG"),
        ("jumper.size", "0.25 inch", "", "AWG"),
        ("concealed", "maybe", "`maybe` is neither `yes` nor `no`", "yes"),
        ("permits-held", "gas, gas", "`gas` is said twice", "once"),
        ("gas-supplier", "---", "`---` is not a name", "lower case"),
    ] {
        let Err(Problem::Unread(fault)) = problem(path, typed) else { panic!("{path}: {typed}") };
        assert!(fault.message.contains(message), "{path}: {typed}: {}", fault.message);
        assert!(fault.help.as_deref().is_some_and(|told| told.contains(help)), "{path}: {typed}: {fault:?}");
    }
}

#[test]
fn a_near_name_is_told() {
    let Err(Wrong { problem: Problem::Unread(fault), .. }) = read_as("occupancy", "comercial") else {
        panic!("a slip")
    };
    assert_eq!(fault.near, ["commercial"]);
}

#[test]
fn places_by_name() {
    let rules = Rules::shipped();
    let step = crate::interview::Step::first();
    let read = |text| read(rules.desk(), None, &step, text);
    assert!(matches!(read("osier"), Ok(Reply::Place(_))));
    assert!(matches!(read("State of Tamarrow"), Ok(Reply::Place(_))));
    let Err(Wrong { problem: Problem::NoPlace { nearest }, .. }) = read("osir") else { panic!("a slip") };
    assert!(nearest.iter().any(|name| name == "osier"), "{nearest:?}");
    for unknown in ["?", "unknown", "no sé"] {
        let told = read(unknown).map_err(|wrong| wrong.problem);
        assert_eq!(told, Err(Problem::PlaceNeeded), "a place is always needed");
    }
}

#[test]
fn nothing_that_is_typed_breaks_it() {
    for path in
        ["occupancy", "application-date", "permits-held", "service-rating", "gas-supplier", "jumper.size", "run"]
    {
        for text in [
            "\u{0}",
            "\u{202e}",
            "é",
            "½",
            "'",
            "\"",
            ",",
            "{ }",
            "job",
            "#",
            "1 2 3 4 5",
            &"9".repeat(500),
            &"x".repeat(5000),
        ] {
            if let Err(wrong) = read_as(path, text) {
                assert!(!wrong.typed.contains('\u{0}') && wrong.typed.chars().count() <= 61, "{path}: {text}");
            }
        }
    }
}

#[test]
fn a_date_before_one_that_it_is_never_before_is_refused() {
    let rules = Rules::shipped();
    let so_far = job(&rules, JOB);
    let glossary = &rules.library().glossary;
    let field = glossary.field("permit-date", None, &rules.library().places).expect("a fact");
    let day = Given::Date(crate::values::Date::parse("2026-01-01").expect("a day"));
    let topic = crate::interview::Topic::Fact(crate::verdict::paths::Path::Fact(field));
    let refused = so_far.answered(rules.desk(), topic, &Reply::Value(day)).expect_err("too early");
    assert!(matches!(refused, crate::interview::Refused::Dates(faults) if faults.len() == 1));
}
