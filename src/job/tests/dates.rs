//! Dates and places against the options and against each other.

use super::{built, desk, json, one_wrong_json, one_wrong_sheet, said, sheet_with};
use crate::glossary::tests::Places;
use crate::job::model::{Given, Job};
use crate::job::{Defaults, JobProblem, read_json};
use crate::syntax::codes;
use crate::values::Date;

fn day(text: &str) -> Date {
    Date::parse(text).unwrap()
}

fn read(text: &str, defaults: &Defaults) -> Result<Job, Vec<JobProblem>> {
    let built = built();
    read_json(text, desk(&built), defaults).map(|mut jobs| jobs.remove(0))
}

#[test]
fn the_options_fill_what_the_job_leaves_unsaid() {
    let defaults = Defaults { place: Some(Places::usual().id("harlow")), date: Some(day("2024-05-01")) };
    let job =
        read(r#"{ "contract-date": "none", "permit-date": null, "owner": { "since": "2024-05-01" } }"#, &defaults)
            .unwrap();
    assert_eq!(job.place, Places::usual().id("harlow"));
    assert_eq!(said(&job, "application-date"), Given::Date(day("2024-05-01")));
    assert_eq!(said(&job, "permit-date"), Given::Date(day("2024-05-01")));
    assert_eq!(said(&job, "contract-date"), Given::NoDate);
    assert_eq!(said(&job, "owner.since"), Given::Date(day("2024-05-01")));
    let sheet = sheet_with("contract-date none owner.since 2024-05-01", &defaults).unwrap();
    assert_eq!(sheet, job);
    assert!(read(r#"{ "place": "larkspur/harlow", "permit-date": "2024-05-01" }"#, &defaults).is_ok());
}

#[test]
fn a_job_that_says_otherwise_than_the_options_is_refused() {
    let place = Defaults { place: Some(Places::usual().id("harlow")), date: None };
    let found = read(r#"{ "place": "quarrel" }"#, &place).unwrap_err();
    assert_eq!((found[0].code, &*found[0].path), (codes::JOB, "place"));
    assert!(found[0].message.contains("`quarrel`") && found[0].message.contains("`larkspur/harlow`"));
    let found = sheet_with("place quarrel", &place).unwrap_err();
    assert_eq!(found[0].code, codes::JOB);
    let date = Defaults { place: None, date: Some(day("2024-05-01")) };
    let found = read(r#"{ "place": "quarrel", "permit-date": "2024-05-02", "application-date": "2024-01-01" }"#, &date)
        .unwrap_err();
    let paths: Vec<&str> = found.iter().map(|one| &*one.path).collect();
    assert_eq!(paths, ["application-date", "permit-date"]);
    assert!(found.iter().all(|one| one.code == codes::JOB_DATE && one.help.is_some()));
    let found = sheet_with("place quarrel permit-date 2024-05-02", &date).unwrap_err();
    assert_eq!(found[0].code, codes::JOB_DATE);
}

#[test]
fn a_date_is_never_before_its_bound() {
    let found =
        one_wrong_json(r#"{ "place": "harlow", "application-date": "2024-03-02", "permit-date": "2024-03-01" }"#);
    assert_eq!((found.code, &*found.path), (codes::JOB_DATE, "permit-date"));
    assert!(found.message.contains("2024-03-01") && found.message.contains("2024-03-02"), "{}", found.message);
    let (found, at) = one_wrong_sheet("place harlow application-date 2024-03-02 permit-date 2024-03-01");
    assert_eq!((found.code, &*at), (codes::JOB_DATE, "permit-date 2024-03-01"));
    for (application, permit) in [
        ("\"2024-03-01\"", "\"2024-03-01\""),
        ("\"none\"", "\"2024-03-01\""),
        ("null", "\"2024-03-01\""),
        ("\"2024-03-01\"", "\"none\""),
    ] {
        json(&format!(r#"{{ "place": "harlow", "application-date": {application}, "permit-date": {permit} }}"#));
    }
}

#[test]
fn a_bound_reaches_through_dates_that_are_unsaid() {
    let built = crate::glossary::tests::with("fact final-date date never before permit-date");
    let read = |text: &str| {
        let job =
            format!(r#"{{ "place": "harlow", "application-date": "2024-03-02", "final-date": "2024-03-01" {text} }}"#);
        read_json(&job, desk(&built), &Defaults::default())
    };
    assert_eq!(read("").unwrap_err()[0].code, codes::JOB_DATE);
    assert!(read(r#", "permit-date": "none""#).is_ok());
}
