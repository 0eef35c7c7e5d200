//! Jobs looked at from another place.

use super::{built, desk, json, said};
use crate::glossary::model::PlaceId;
use crate::job::model::{Given, Job};
use crate::job::moved::{Left, moved};
use crate::values::{Date, Terms};

fn at(job: &Job, place: &str, date: Option<&str>) -> Result<(Job, Vec<Left>), String> {
    let built = built();
    let date = date.map(|date| Date::parse(date).unwrap());
    match moved(job, built.places.id(place), date, desk(&built)) {
        Ok(moved) => Ok((moved.job, moved.left)),
        Err(problems) => Err(problems.iter().map(ToString::to_string).collect()),
    }
}

fn home(name: &str) -> PlaceId {
    built().places.id(name)
}

#[test]
fn what_every_place_knows_goes_along() {
    let job = json(r#"{ "place": "harlow", "concealed": true, "run": [ { "material": "csst", "length": "40 ft" } ] }"#);
    let (there, left) = at(&job, "larkspur", None).unwrap();
    assert_eq!(left, []);
    assert_eq!((there.place, &there.values, &there.lists), (home("larkspur"), &job.values, &job.lists));
}

#[test]
fn a_fact_and_a_list_of_one_place_are_left_and_named() {
    let job = json(r#"{ "place": "harlow", "septic": true, "shed": [ { "wide": true } ] }"#);
    let (there, left) = at(&job, "larkspur", None).unwrap();
    let told: Vec<(&str, PlaceId)> = left.iter().map(|one| (&*one.path, one.known_in)).collect();
    assert_eq!(told, [("septic", home("harlow")), ("shed", home("harlow"))]);
    assert!(there.lists.iter().all(|list| list.entries.is_empty()));
    // The place that declares them knows them.
    assert_eq!(at(&job, "harlow", None).unwrap().1, []);
}

#[test]
fn a_term_of_one_place_is_unknown_elsewhere_and_named() {
    let job = json(r#"{ "place": "harlow", "performer": "bonder" }"#);
    let (there, left) = at(&job, "larkspur", None).unwrap();
    assert_eq!(said(&there, "performer"), Given::Unknown);
    assert_eq!(left, [Left { path: "performer".into(), term: Some("bonder".into()), known_in: home("harlow") }]);
}

#[test]
fn of_a_set_the_terms_that_are_known_stay() {
    let job = json(r#"{ "place": "harlow", "permits-held": ["gas", "electrical"] }"#);
    let (there, left) = at(&job, "larkspur", None).unwrap();
    assert_eq!(left, []);
    assert!(matches!(said(&there, "permits-held"), Given::Set(terms) if terms.len() == 2 && terms != Terms::NONE));
}

#[test]
fn unsaid_dates_get_the_day_and_said_ones_are_held_against_it() {
    let job = json(r#"{ "place": "harlow", "application-date": "2024-03-01" }"#);
    let (there, _) = at(&job, "larkspur", Some("2024-03-01")).unwrap();
    assert_eq!(said(&there, "permit-date"), Given::Date(Date::parse("2024-03-01").unwrap()));
    let wrong = at(&job, "larkspur", Some("2025-03-01")).unwrap_err();
    assert!(wrong.contains("application-date"), "{wrong}");
}
