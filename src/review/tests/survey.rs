//! What a review of all jobs tells and what it does not, each with a small law.

use crate::review::errors;
use crate::review::survey::{Asked, findings};
use crate::rules::{Rules, Source};
use crate::syntax::diagnostic::Diagnostic;
use crate::values::Date;
use crate::verdict::survey::Window;

/// The words, a code and two places of the rule texts below.
const GROUND: &str = r#"
choice trade
    fitter
    plumber
    roofer
subject gas-piping  must be governed
subject papers
fact application-date date  dates instruments
fact permit-date date
fact storeys count
fact inside  yes-no
fact sealed  yes-no
question bond on gas-piping    ladder not-required, required
question tubing on gas-piping  ladder permitted, prohibited
question who on papers         only trade
code GC "Gas code" on gas-piping
edition GC 2015 published 2014-02-01
    common practice
    section 1 "Bond"
        where storeys over 2
        bond is required
edition GC 2018 published 2017-02-01 revises GC 2015
    common practice
    renumber 1 to 4
place alder "Alder"
    common practice
place birch "Birch" within alder
    common practice
"#;

fn review(text: &str, asked: Asked) -> Vec<Diagnostic> {
    let sources = [("ground.rule", GROUND), ("more.rule", text)];
    let rules = Rules::only(sources.map(|(name, text)| Source::new(name, text)).to_vec());
    let problems: Vec<String> = rules.problems().collect();
    assert!(problems.is_empty() && errors(&rules).is_empty(), "{text}\n{problems:#?}");
    findings(&rules, &|_| true, asked)
}

/// The codes of what is told, in the order of their places.
fn codes(text: &str) -> Vec<String> {
    review(text, Asked::default()).iter().map(|told| told.code.to_string()).collect()
}

/// An instrument in force from a day.
fn law(id: &str, of: &str, day: &str, clauses: &str) -> String {
    format!("instrument {id} of {of}\n kind ordinance\n in force from {day}\n {clauses}\n")
}

/// The state's adoption, without which nothing governs.
fn adopts() -> String {
    law("A-0", "alder", "2018-01-01", "adopts GC 2018")
}

fn none() -> Vec<String> {
    Vec::new()
}

#[test]
fn a_law_without_fault() {
    assert_eq!(codes(""), none());
    assert_eq!(codes(&adopts()), none());
}

#[test]
fn a_text_that_binds_within_alone() {
    let outer = adopts() + &law("A-1", "alder", "2019-01-01", "section 1 where tubing is prohibited who only fitter");
    assert_eq!(codes(&outer), ["GR5204"]);
    let within = law("B-1", "birch", "2019-01-01", "section 1 where inside is yes tubing is prohibited");
    assert_eq!(codes(&format!("{outer}{within}")), none());
}

#[test]
fn an_amendment_of_an_edition_that_is_adopted_within_alone() {
    let amends = |what: &str| adopts() + &law("A-1", "alder", "2019-01-01", &format!("amend GC 2015 {what}"));
    let within = law("B-1", "birch", "2019-06-01", "adopts GC 2015");
    for what in ["delete 1", "add 9 where storeys over 9 tubing is prohibited"] {
        assert_eq!(codes(&amends(what)), ["GR5204"], "{what}");
        assert_eq!(codes(&format!("{}{within}", amends(what))), none(), "{what}");
    }
}

#[test]
fn of_two_that_say_the_same_the_inner_and_the_later_is_told() {
    let section = |number: u8| format!("section {number} where inside is yes who only fitter");
    let outer = adopts() + &law("A-1", "alder", "2019-01-01", &section(1));
    let told = review(&format!("{outer}{}", law("B-1", "birch", "2019-01-01", &section(1))), Asked::default());
    assert_eq!(told.len(), 1);
    assert!(told[0].message.contains("of B-1 1 changes no answer to `who` beside `who only fitter` of A-1 1"));
    let both = adopts() + &law("A-1", "alder", "2019-01-01", &format!("{} {}", section(1), section(2)));
    let told = review(&both, Asked::default());
    assert_eq!(told.len(), 1);
    assert!(told[0].message.contains("of A-1 2"), "{told:?}");
}

#[test]
fn what_asks_for_nothing_is_told_where_something_always_asks_for_more() {
    let loose =
        |cond: &str| adopts() + &law("A-1", "alder", "2019-01-01", &format!("section 1 {cond} bond is not-required"));
    assert_eq!(codes(&loose("")), none());
    assert_eq!(codes(&loose("where storeys at most 2")), none());
    assert_eq!(codes(&loose("where storeys over 3")), ["GR5207"]);
}

#[test]
fn a_date_may_lie_before_all_law() {
    let by_permit = "instrument A-2 of alder kind ordinance in force from 2019-01-01 by permit-date section 1 where inside is yes tubing is prohibited";
    let early = law("A-1", "alder", "2019-01-01", "section 1 where permit-date before 2018-01-01 who only fitter");
    assert_eq!(codes(&format!("{}{early}{by_permit}", adopts())), none());
}

#[test]
fn every_set_of_texts_that_contradict_each_other() {
    let sections = "section 1 where inside is yes who only fitter \
        section 2 where sealed is yes who only plumber \
        section 3 who only roofer";
    let told = review(&(adopts() + &law("A-1", "alder", "2019-01-01", sections)), Asked::default());
    let conflicts: Vec<&str> =
        told.iter().filter(|told| told.code.to_string() == "GR5201").map(|told| &*told.message).collect();
    assert_eq!(conflicts.len(), 2, "{told:#?}");
    assert!(conflicts.iter().any(|told| told.contains("A-1 1") && told.contains("A-1 3")), "{conflicts:?}");
    assert!(conflicts.iter().any(|told| told.contains("A-1 2") && told.contains("A-1 3")), "{conflicts:?}");
}

#[test]
fn no_hole_where_it_is_only_not_known_when_an_adoption_began() {
    let unknown = "instrument A-0 of alder kind ordinance adopted 2018-01-01 in force from unknown adopts GC 2018";
    assert_eq!(codes(unknown), none());
    let scoped = law("A-0", "alder", "2018-01-01", "adopts GC 2018 where inside is yes");
    assert_eq!(codes(&scoped), ["GR5203"]);
}

/// Where it is told that no code governs, in the order of the places.
fn ungoverned(text: &str) -> Vec<String> {
    let told = review(text, Asked::default());
    told.iter().filter(|told| told.code.to_string() == "GR5203").map(|told| told.message.clone()).collect()
}

/// A text of a place on a subject that must be governed.
fn speaks(id: &str, of: &str, day: &str) -> String {
    law(id, of, day, "section 1 where inside is yes tubing is prohibited")
}

fn never(title: &str) -> String {
    format!("no code on gas-piping is ever in force at {title}")
}

#[test]
fn in_a_window_days_are_told_apart_by_the_periods_after_its_ends() {
    let within =
        law("A-0", "alder", "2019-01-01", "adopts GC 2018 where permit-date within 2 months after application-date");
    let by_permit = "instrument A-1 of alder kind ordinance in force from 2019-01-01 by permit-date section 1 where inside is yes tubing is prohibited";
    let told = |from: &str, through: &str| {
        let window = Window { from: Date::parse(from), through: Date::parse(through) };
        let told = review(&format!("{within}{by_permit}"), Asked { window, read_since: None });
        told.into_iter().map(|told| told.message).collect::<Vec<String>>()
    };
    let hole = "at Alder no code on gas-piping governs some jobs: from ";
    assert_eq!(told("2020-06-15", "2020-08-16"), [format!("{hole}2020-06-15 through 2020-08-16")]);
    // A permit of the first day comes before an application of the second.
    assert_eq!(told("2020-06-15", "2020-06-16"), [format!("{hole}2020-06-16 through 2020-06-16")]);
    assert_eq!(told("2020-06-15", "2020-06-15"), none());
}

#[test]
fn a_hole_that_the_place_around_does_not_speak_of_is_told_within() {
    let silent = law("A-1", "alder", "2018-01-01", "section 1 where inside is yes who only fitter");
    assert_eq!(ungoverned(&(silent + &speaks("B-1", "birch", "2019-01-01"))), [never("Birch")]);
    let lapsed = "instrument A-0 of alder kind ordinance in force from 2018-01-01 through 2019-12-31 adopts GC 2018\n";
    let told = ungoverned(&format!("{lapsed}{}", speaks("B-1", "birch", "2019-01-01")));
    assert_eq!(told, ["at Alder no code on gas-piping governs some jobs: from 2020-01-01 on"]);
}

#[test]
fn where_nothing_is_ever_in_force_it_is_told_once_whenever_the_law_within_begins() {
    for within in ["2018-01-01", "2019-01-01", "2020-01-01"] {
        let text = speaks("A-1", "alder", "2019-01-01") + &speaks("B-1", "birch", within);
        assert_eq!(ungoverned(&text), [never("Alder")], "{within}");
    }
}

#[test]
fn a_subject_is_left_to_those_within_that_adopt_a_code_on_it() {
    let outer = speaks("A-1", "alder", "2018-01-01");
    let adopted = outer.clone() + &law("B-1", "birch", "2018-01-01", "adopts GC 2018");
    assert_eq!(ungoverned(&adopted), none());
    let proposed = outer + "instrument B-1 of birch kind ordinance status proposed adopts GC 2018\n";
    assert_eq!(ungoverned(&proposed), [never("Alder")]);
    let cedar = "place cedar \"Cedar\" within alder common practice\n";
    let beside = format!("{adopted}{cedar}{}", speaks("C-1", "cedar", "2018-01-01"));
    assert_eq!(ungoverned(&beside), [never("Cedar")]);
}

#[test]
fn only_the_days_of_the_window_are_looked_at() {
    let lapsed = "instrument A-1 of alder kind ordinance in force from 2019-01-01 through 2019-12-31 \
        section 1 where storeys over 5 and storeys under 3 who only fitter";
    let text = format!("{}{lapsed}", adopts());
    let told = |from: &str, through: &str| {
        let window = Window { from: Date::parse(from), through: Date::parse(through) };
        review(&text, Asked { window, read_since: None }).len()
    };
    assert_eq!((told("", ""), told("2019-12-31", ""), told("2020-01-01", "")), (1, 1, 0));
    assert_eq!((told("", "2019-01-01"), told("", "2018-12-31")), (1, 0));
}
