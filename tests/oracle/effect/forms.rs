//! Two laws side by side, form by form.

use super::generate::place;
use super::words::lines;
use crate::review::effect::Side;
use crate::rules::{Rules, Source};
use crate::values::Date;

const PLACE: &str = "place alder \"Alder\"\n    common practice\n";

fn rules(text: &str) -> Rules {
    let rules = Rules::only(vec![Source::new("law.rule", format!("{PLACE}{text}"))]);
    let problems: Vec<String> = rules.problems().collect();
    assert!(rules.usable(), "{problems:?}\n{text}");
    rules
}

fn told(before: &str, after: &str) -> Vec<String> {
    told_on(before, after, [None, None])
}

fn told_on(before: &str, after: &str, on: [Option<&str>; 2]) -> Vec<String> {
    let (one, two) = (rules(before), rules(after));
    let side = |rules, day: Option<&str>| Side { rules, place: place(rules, "alder"), on: day.and_then(Date::parse) };
    lines(side(&one, on[0]), side(&two, on[1]))
}

const DATES: &str = "
fact application-date date  dates instruments
fact permit-date date  never before application-date
subject pipes
question bond on pipes
    ladder not-required, required
";

fn ordinance(lines: &str) -> String {
    format!("instrument A-1 of alder\n    kind ordinance\n    in force from 2020-01-01\n{lines}")
}

/// A library whose only law is by this date.
fn by(date: &str) -> String {
    format!(
        "{DATES}instrument A-1 of alder\n    kind ordinance\n    in force from 2020-01-01 by {date}\n    section 1 \"Bond\"\n        bond is required\n"
    )
}

#[test]
fn a_job_that_was_applied_for_before_the_first_law_counts_where_its_permit_came_later() {
    assert_eq!(
        told(&by("permit-date"), &by("application-date")),
        ["bond: required -> not required if application-date before 2020-01-01"]
    );
}

#[test]
fn no_job_is_told_of_to_whom_no_law_speaks() {
    let before = format!("{DATES}{}", ordinance("    section 1 \"Bond\"\n        bond is required\n"));
    let after = format!("{DATES}{}", ordinance("    section 1 \"Bond\"\n        bond is not-required\n"));
    assert_eq!(told(&before, &after), ["bond: required -> not required if always"]);
}

/// Whether an instrument has begun is one thing, however the law dates it.
#[test]
fn an_instrument_that_may_have_begun_has_or_has_not_on_both_sides() {
    let law = |from: &str| {
        format!(
            "{DATES}instrument A-1 of alder\n    kind ordinance\n    in force from between {from} and 2022-01-01\n    section 1 \"Bond\"\n        bond is required\n"
        )
    };
    let found = told(&law("2020-01-01"), &law("2021-01-01"));
    assert_eq!(found.len(), 1, "{found:#?}");
    assert!(found[0].starts_with("bond: required -> not required if ") && found[0].contains("before 2021-01-01"));
}

const KINDS: &str = "
fact application-date date  dates instruments
subject pipes
question bond on pipes
    ladder not-required, required
question who on pipes
    only trade
question sheets on pipes
    all of trade
choice trade
    fitter
    plumber
";

/// A choice with these terms, and a law that speaks of them.
fn of_kinds(terms: &str, lines: &str) -> String {
    format!("{KINDS}choice kinds\n{terms}fact kind kinds\nfact kinds-held several kinds\n{}", ordinance(lines))
}

const ON_KINDS: &str = "    section 1 \"Bond\"
        where kind is not elm
        bond is required
    section 2 \"Who\"
        where kinds-held includes ash
        who only plumber
        sheets all of fitter
";

#[test]
fn the_order_of_terms_means_nothing() {
    let before = of_kinds("    ash\n    birch\n    elm\n", ON_KINDS);
    let after = of_kinds("    elm\n    ash\n    birch\n", ON_KINDS);
    assert_eq!(told(&before, &after), [""; 0]);
    let turned = after.replace("    fitter\n    plumber\n", "    plumber\n    fitter\n");
    assert_eq!(told(&before, &turned), [""; 0]);
    let moved = turned.replace("kind is not elm", "kind is elm");
    assert_eq!(
        told(&before, &moved),
        ["bond: not required -> required if kind is elm", "bond: required -> not required if kind is not elm"]
    );
}

#[test]
fn a_term_that_is_added_changes_what_is_said_of_it() {
    let before = of_kinds("    ash\n    elm\n", ON_KINDS);
    let after = of_kinds("    oak\n    ash\n    elm\n", ON_KINDS);
    assert_eq!(told(&before, &after), [""; 0]);
    let speaking = after.clone()
        + "    section 3 \"Oak\"\n        where kind is oak\n        bond is not-required\n        who only fitter\n";
    assert_eq!(
        told(&before, &speaking),
        [
            "who: no restriction -> only fitter if kind is oak and not (kinds-held includes ash)",
            "who: only plumber -> nothing is permitted in conflict if kind is oak and kinds-held includes ash"
        ]
    );
}

#[test]
fn a_term_that_moves_under_another_is_meant_with_it() {
    let law = "    section 1 \"Bond\"\n        where kind is ash\n        bond is required\n";
    let before = of_kinds("    ash\n    elm\n", law);
    let after = of_kinds("    ash\n    elm  under ash\n", law);
    assert_eq!(told(&before, &after), ["bond: not required -> required if kind is not ash"]);
}

#[test]
fn a_fact_that_is_added_may_decide() {
    let before = format!("{DATES}{}", ordinance("    section 1 \"Bond\"\n        bond is required\n"));
    let after = format!(
        "fact wet yes-no\n{DATES}fact amps quantity A\n{}",
        ordinance("    section 1 \"Bond\"\n        where wet is yes or amps over 60 A\n        bond is required\n")
    );
    assert_eq!(told(&before, &after), ["bond: required -> not required if not (amps over 60 A) and wet is not yes"]);
}

#[test]
fn a_question_that_is_added_stands_apart() {
    let before = format!("{DATES}{}", ordinance("    section 1 \"Bond\"\n        bond is required\n"));
    let after = format!(
        "question above on pipes\n    ladder low, high\n{DATES}{}",
        ordinance("    section 1 \"Bond\"\n        bond is required\n        above is high\n")
    );
    assert_eq!(told(&before, &after), ["above: known after alone"]);
    assert_eq!(told(&after, &before), ["above: known before alone"]);
}

#[test]
fn the_same_name_with_another_shape_is_another_thing() {
    let law = |amps: &str, test: &str| {
        format!(
            "{DATES}fact amps {amps}\n{}",
            ordinance(&format!("    section 1 \"Bond\"\n        where amps {test}\n        bond is required\n"))
        )
    };
    let found = told(&law("yes-no", "is yes"), &law("quantity A", "over 60 A"));
    assert_eq!(
        found,
        [
            "bond: not required -> required if amps is not yes and amps over 60 A",
            "bond: required -> not required if amps is yes and not (amps over 60 A)"
        ]
    );
    let before = format!("{DATES}{}", ordinance("    section 1 \"Bond\"\n        bond is required\n"));
    let after = before.replace("not-required, required", "not-required, advised, required");
    assert_eq!(told(&before, &after), ["bond: known after alone", "bond: known before alone"]);
}

#[test]
fn a_day_that_is_given_bounds_the_entries_of_a_list() {
    let law = |period: &str| {
        format!(
            "{DATES}list unit\n    laid date\n{}",
            ordinance(&format!(
                "    section 1 \"Bond\"\n        where any unit with (application-date within {period} after laid)\n        bond is required\n"
            ))
        )
    };
    let found = told_on(&law("1 year"), &law("1 year"), [Some("2022-02-02"), Some("2024-02-02")]);
    assert_eq!(
        found,
        [
            "bond: not required -> required if any unit with (laid before 2024-02-03 and laid from 2023-02-02) and no unit with (laid before 2022-02-03 and laid from 2021-02-02)",
            "bond: required -> not required if any unit with (laid before 2022-02-03 and laid from 2021-02-02) and no unit with (laid before 2024-02-03 and laid from 2023-02-02)"
        ]
    );
}

const ANSWERS: &str = "
fact application-date date  dates instruments
fact wet yes-no
fact hot yes-no
subject pipes
list unit
    old yes-no
question bond on pipes
    ladder not-required, required
question wire on pipes
    ladder free, bound
";

/// A law that refers the bond of wet work, asks it of hot work, and goes by it.
fn on_bond(lines: &str) -> String {
    let bond = "    section 1 \"Wet\"
        where wet is yes
        refer bond \"ask\"
    section 2 \"Hot\"
        where hot is yes and not (wet is yes)
        bond is required
";
    format!("{ANSWERS}{}", ordinance(&format!("{bond}{lines}")))
}

/// A test of an answer fails only where the answer is another; where it is referred the
/// test neither holds nor fails.
#[test]
fn a_referred_answer_neither_is_nor_is_not() {
    let law = "    section 3 \"Wire\"\n        where not (bond is required)\n        wire is bound\n";
    assert_eq!(
        told(&on_bond(""), &on_bond(law)),
        ["wire: free -> bound if bond is not required", "wire: free -> free or as referred if wet is yes"]
    );
}

/// Whether some entry fulfils what turns on a referred question cannot be told by a
/// condition; such a question is never told as alike.
#[test]
fn an_entry_held_against_a_referred_answer_is_not_decided() {
    let law = "    section 3 \"Wire\"\n        where any unit with (old is yes and bond is required)\n        wire is bound\n";
    assert_eq!(told(&on_bond(""), &on_bond(law)), ["wire: undecided"]);
}
