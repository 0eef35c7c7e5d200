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
