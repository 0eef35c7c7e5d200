//! Conditions: what each form becomes, and what each wrong form is told.

use super::{Built, anywhere, section, with};
use crate::glossary::Context;
use crate::glossary::demand::AskedKind;
use crate::glossary::expr::{Check, Expr};
use crate::glossary::model::FieldId;
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::Diagnostic;
use crate::values::{Date, Exact, Period, Terms};

fn read_in(built: &Built, context: &Context<'_>, text: &str) -> (Option<Expr>, Vec<Diagnostic>) {
    let section = section(&format!("        where {text}\n        note \"x\""));
    let mut found = Vec::new();
    let expr = built.glossary.condition(&section.body.wheres[0], context, &mut found);
    (expr, found)
}

fn read(built: &Built, text: &str) -> Expr {
    let (expr, found) = read_in(built, &anywhere(&built.places), text);
    assert!(found.is_empty(), "{text}\n{found:#?}");
    expr.unwrap()
}

/// The one finding on a condition.
fn bad_in(built: &Built, context: &Context<'_>, text: &str) -> (Code, String, String) {
    let (expr, mut found) = read_in(built, context, text);
    assert_eq!((expr, found.len()), (None, 1), "{text}\n{found:#?}");
    let one = found.remove(0);
    (one.code, one.message, one.help.unwrap())
}

fn bad(built: &Built, text: &str) -> (Code, String, String) {
    bad_in(built, &anywhere(&built.places), text)
}

fn field(built: &Built, path: &str) -> FieldId {
    built.glossary.field(path, None, &built.places).unwrap()
}

#[test]
fn tests_of_choices_take_in_the_terms_under_them() {
    let built = with("");
    let performer = field(&built, "performer");
    let among = |terms: &[u16]| {
        let all = terms.iter().fold(Terms::NONE, |all, term| all.union(Terms::one(*term)));
        Expr::Field(performer, Check::Among(all))
    };
    assert_eq!(read(&built, "performer is electrician"), among(&[0, 1]));
    assert_eq!(read(&built, "performer is master-electrician"), among(&[1]));
    assert_eq!(read(&built, "performer is not electrician"), Expr::Not(Box::new(among(&[0, 1]))));
    assert_eq!(read(&built, "performer is any of gas-fitter, master-electrician"), among(&[1, 2]));
    let held = field(&built, "permits-held");
    assert_eq!(read(&built, "permits-held includes electrical"), Expr::Field(held, Check::Includes(Terms::one(1))));
    let concealed = field(&built, "concealed");
    assert_eq!(read(&built, "concealed is no"), Expr::Field(concealed, Check::Among(Terms::one(0))));
}

#[test]
fn figures_are_read_in_any_unit_that_fits() {
    let built = with("");
    let length = field(&built, "jumper.length");
    let exact = |number: i128, over: i128| Exact::new(number, over);
    assert_eq!(read(&built, "jumper.length at most 75 ft"), Expr::Field(length, Check::AtMost(exact(2286, 100))));
    assert_eq!(read(&built, "jumper.length over 22.86 m"), Expr::Field(length, Check::Over(exact(2286, 100))));
    let size = field(&built, "jumper.size");
    assert_eq!(read(&built, "jumper.size under 6 AWG"), Expr::Field(size, Check::Under(exact(26_240, 1))));
    let meters = field(&built, "meters");
    let three = Expr::And(vec![
        Expr::Field(meters, Check::AtLeast(exact(3, 1))),
        Expr::Field(meters, Check::AtMost(exact(3, 1))),
    ]);
    assert_eq!(read(&built, "meters is 3"), three);
    assert_eq!(read(&built, "meters is not 3"), Expr::Not(Box::new(three.clone())));
    assert!(matches!(read(&built, "meters is any of 3, 4"), Expr::Or(parts) if parts.len() == 2 && parts[0] == three));
}

#[test]
fn dates_are_spans_of_days() {
    let built = with("");
    let date = field(&built, "contract-date");
    let day = |text: &str| Date::parse(text).unwrap();
    assert_eq!(read(&built, "contract-date before 2024-03-01"), Expr::Field(date, Check::Before(day("2024-03-01"))));
    assert_eq!(read(&built, "contract-date from 2024-03-01"), Expr::Field(date, Check::From(day("2024-03-01"))));
    let that_day = Expr::And(vec![
        Expr::Field(date, Check::From(day("2024-02-29"))),
        Expr::Field(date, Check::Before(day("2024-03-01"))),
    ]);
    assert_eq!(read(&built, "contract-date is 2024-02-29"), that_day);
    let last = Expr::Field(date, Check::From(day("9999-12-31")));
    assert_eq!(read(&built, "contract-date is 9999-12-31"), last);
    let after = field(&built, "permit-date");
    let within = Expr::Field(date, Check::Within(Period::Years(2), after));
    assert_eq!(read(&built, "contract-date within 2 years after permit-date"), within);
    assert_eq!(within.fields(), {
        let mut both = vec![date, after];
        both.sort();
        both
    });
}

#[test]
fn a_bare_name_in_an_entry_is_its_attribute_first() {
    let built = with("");
    let material = Check::Among(Terms::one(1));
    assert_eq!(read(&built, "material is csst"), Expr::Field(field(&built, "material"), material.clone()));
    let run = built.glossary.group("run", None, &built.places).unwrap();
    let Expr::Entries { any: true, group, with: inner } =
        read(&built, "any run with (material is csst and concealed is yes)")
    else {
        panic!()
    };
    assert_eq!(group, run);
    let Expr::And(parts) = *inner else { panic!() };
    assert_eq!(parts[0], Expr::Field(field(&built, "run.material"), material));
    assert_eq!(parts[1], Expr::Field(field(&built, "concealed"), Check::Among(Terms::one(1))));
    assert_eq!(read(&built, "no run"), Expr::Entries { any: false, group: run, with: Box::new(Expr::Constant(true)) });
    // After the parentheses a bare name is the fact again.
    let Expr::And(parts) = read(&built, "any run with (material is csst) and material is steel") else { panic!() };
    assert_eq!(parts[1].fields(), [field(&built, "material")]);
}

#[test]
fn a_name_that_is_both_is_the_fact() {
    let built = with("");
    assert!(matches!(read(&built, "performer is gas-fitter"), Expr::Field(..)));
    let (code, message, _) = bad(&built, "performer is required");
    assert_eq!((code, message.contains("`required`")), (codes::UNKNOWN_TERM, true));
}

#[test]
fn answers_of_ladders_are_tested_by_their_rungs() {
    let built = with("");
    let bond = built.glossary.question("direct-bond", None, &built.places).unwrap();
    let answer = |rungs: Terms| Expr::Answer { question: bond, rungs };
    assert_eq!(read(&built, "direct-bond is required"), answer(Terms::one(1)));
    assert_eq!(read(&built, "direct-bond is not required"), Expr::Not(Box::new(answer(Terms::one(1)))));
    assert_eq!(
        read(&built, "direct-bond is any of required, not-required"),
        answer(Terms::one(0).union(Terms::one(1)))
    );
    let (code, _, help) = bad(&built, "direct-bond is requird");
    assert_eq!((code, &*help), (codes::UNKNOWN_TERM, "did you mean `required`?"));
    assert_eq!(bad(&built, "direct-bond at least 3").0, codes::SHAPE);
    assert_eq!(bad(&built, "jumper-size at least 6 AWG").0, codes::SHAPE);
    let plain = Context { answers: false, ..anywhere(&built.places) };
    assert_eq!(bad_in(&built, &plain, "direct-bond is required").0, codes::NOT_HERE);
}

#[test]
fn definitions_are_put_in_place_and_an_editions_own_come_first() {
    let built = with("");
    assert_eq!(read(&built, "big-service"), read(&built, "service-rating over 200 A"));
    assert_eq!(read(&built, "not bonded"), read(&built, "not (direct-bond is required)"));
    let own = |name: &str| name == "big-service" || name == "dry-place";
    let context = Context { definitions: &own, ..anywhere(&built.places) };
    let (found, _) = read_in(&built, &context, "big-service");
    assert!(matches!(found, Some(Expr::Defined(name, at)) if &*name == "big-service" && at.span.end > at.span.start));
    assert!(matches!(read_in(&built, &context, "dry-place").0, Some(Expr::Defined(..))));
    let (code, _, help) = bad(&built, "big-servise");
    assert_eq!((code, &*help), (codes::UNKNOWN_NAME, "did you mean `big-service`?"));
    assert_eq!(bad(&built, "big-service is yes").0, codes::SHAPE);
    let facts = Context { answers: false, ..anywhere(&built.places) };
    assert_eq!(bad_in(&built, &facts, "bonded").0, codes::NOT_HERE);
}

#[test]
fn instructions_are_asked_where_they_may_be() {
    let built = with("");
    let Expr::Say(say) = read(&built, "instructions say direct-bond is required") else { panic!() };
    assert_eq!(say.demand.kind, AskedKind::Rung(1));
    let Expr::Say(say) = read(&built, "instructions say jumper-length at most 75 ft") else { panic!() };
    assert!(matches!(say.demand.kind, AskedKind::Limits(_)));
    let silent = Context { says: false, ..anywhere(&built.places) };
    assert_eq!(bad_in(&built, &silent, "instructions say direct-bond is required").0, codes::NOT_HERE);
    assert_eq!(bad(&built, "instructions say jumper-length at most by table 9").0, codes::QUESTION);
}

#[test]
fn a_test_that_does_not_fit_is_told_the_forms_that_do() {
    let built = with("");
    for (text, help) in [
        ("concealed at least 3", "write `concealed is yes` or `concealed is no`"),
        ("concealed is maybe", "write `concealed is yes` or `concealed is no`"),
        ("occupancy includes townhouse", "write `occupancy is one-or-two-family`, `is not` or `is any of`"),
        ("permits-held is gas", "write `permits-held includes gas`"),
        ("jumper.clamp-listing is UL-467", "write `jumper.clamp-listing includes UL-467`"),
        ("service-rating includes gas", "write `service-rating at least`"),
        ("contract-date over 3", "write `contract-date before 2024-03-01`"),
        ("occupancy is 3 ft", "write `occupancy is one-or-two-family`"),
        ("occupancy within 2 years after contract-date", "write `occupancy is"),
        ("gas-supplier at least 3", "write `gas-supplier is NAME`"),
    ] {
        let (code, _, found) = bad(&built, text);
        assert_eq!(code, codes::SHAPE, "{text}");
        assert!(found.starts_with(help), "{text}: {found}");
    }
}

#[test]
fn a_figure_that_cannot_be_read_is_told_why() {
    let built = with("");
    for (text, code, part) in [
        ("jumper.length at most 75", codes::UNIT, "has no unit"),
        ("jumper.length at most 75 A", codes::UNIT, "measures something else"),
        ("jumper.length at most 75 feet", codes::UNIT, "`feet` is not known"),
        ("jumper.size at least 5 AWG", codes::NUMBER, "not a printed wire gauge"),
        ("jumper.size at least 6 ft", codes::UNIT, "measures something else"),
        ("meters is 3 ft", codes::UNIT, "bare count"),
        ("meters is 3.5", codes::NUMBER, "cannot be read"),
        ("jumper.length over plain", codes::SHAPE, "not a figure"),
        ("contract-date before 2023-02-29", codes::DATE, "2023-02-29"),
        ("contract-date is 2024-13-01", codes::DATE, "2024-13-01"),
        ("contract-date within 2 weeks after permit-date", codes::UNIT, "no unit of time"),
        ("contract-date within 2 years after occupancy", codes::SHAPE, "`occupancy` is not a date"),
        ("code-chosen is ifgc", codes::SHAPE, "not the name of a code"),
        ("gas-supplier is Big-Gas", codes::SHAPE, "not a name"),
    ] {
        let (found, message, _) = bad(&built, text);
        assert_eq!(found, code, "{text}: {message}");
        assert!(message.contains(part), "{text}: {message}");
    }
    let (_, _, help) = bad(&built, "jumper.size at least 5 AWG");
    assert_eq!(help, "the printed sizes beside it are 6 AWG and 4 AWG");
    let (_, _, help) = bad(&built, "jumper.length at most 75 feet");
    assert_eq!(help, "did you mean `ft`?");
}

#[test]
fn lists_are_tested_entry_by_entry_one_at_a_time() {
    let built = with("definition flat  concealed is yes");
    for (text, help) in [
        ("jacket is plain", "write `any run with (jacket …)`"),
        ("run.jacket is plain", "write `any run with (jacket …)`"),
        ("any run with (run.jacket is plain)", "write `jacket` alone"),
        ("run is plain", "write `any run with (material …)`"),
        ("any jumper with (size at least 6 AWG)", "such as `jumper.present`"),
        ("any run with (any appliance with (powered is yes))", "outside the parentheses"),
        ("any run with (conventional-tubing)", "outside the parentheses"),
    ] {
        let (code, _, found) = bad(&built, text);
        assert_eq!(code, codes::LIST, "{text}");
        assert!(found.contains(help), "{text}: {found}");
    }
    assert!(matches!(read(&built, "any run with (flat)"), Expr::Entries { .. }));
    let (code, _, help) = bad(&built, "any runn with (jacket is plain)");
    assert_eq!((code, &*help), (codes::UNKNOWN_NAME, "did you mean `run`?"));
}

#[test]
fn names_are_told_what_is_near() {
    let built = with("fact septic yes-no in harlow\n extend trade in harlow  bonder");
    for (text, code, help) in [
        ("ocupancy is townhouse", codes::UNKNOWN_NAME, "did you mean `occupancy`?"),
        ("occupancy is townhuose", codes::UNKNOWN_TERM, "did you mean `townhouse`?"),
        ("any run with (jakcet is plain)", codes::UNKNOWN_NAME, "did you mean `jacket`?"),
        ("jumper.sizze at least 6 AWG", codes::UNKNOWN_NAME, "did you mean `size`?"),
        ("jmper.size at least 6 AWG", codes::UNKNOWN_NAME, "did you mean `jumper.size`?"),
        ("size at least 6 AWG", codes::UNKNOWN_NAME, "write `jumper.size`"),
        ("concealed.size is yes", codes::UNKNOWN_NAME, "write `concealed` alone"),
        ("jumper is yes", codes::SHAPE, "name an attribute of it, such as `jumper.present`"),
        ("concealed", codes::SHAPE, "write `concealed is yes` or `concealed is no`"),
        ("direct-bond", codes::SHAPE, "write `direct-bond is` and one of not-required, required"),
        ("performer is bonder", codes::UNKNOWN_TERM, "`bonder` is a term in another place only"),
    ] {
        let (found, _, told) = bad(&built, text);
        assert_eq!((found, &*told), (code, help), "{text}");
    }
    let harlow = Context { from: Some(built.places.id("millrace")), ..anywhere(&built.places) };
    assert!(read_in(&built, &harlow, "septic is yes and performer is bonder").0.is_some());
    assert_eq!(bad(&built, "septic is yes").0, codes::UNKNOWN_NAME);
}

#[test]
fn every_error_of_a_condition_is_found() {
    let built = with("");
    let context = anywhere(&built.places);
    let (expr, found) = read_in(
        &built,
        &context,
        "ocupancy is townhouse or (concealed is maybe and any run with (jakcet is plain)) or not bonnded",
    );
    assert_eq!((expr, found.len()), (None, 4), "{found:#?}");
}

/// What only some place knows is not said to be unknown, nor offered as the name that was meant.
#[test]
fn what_is_known_elsewhere_is_told_so() {
    let built =
        with("fact septic yes-no in harlow\n list shed in harlow  wide yes-no\n record pump in harlow  wide yes-no");
    for text in ["septic is yes", "any shed with (wide is yes)", "pump.wide is yes", "not (septic is yes)"] {
        let (code, message, help) = bad(&built, text);
        assert_eq!(code, codes::UNKNOWN_NAME, "{text}");
        assert!(message.ends_with("is declared in a place, and is not known here"), "{text}: {message}");
        assert!(help.contains("write the condition out in the sections of that place"), "{text}: {help}");
    }
    let (_, message, help) = super::one_wrong("fact septic yes-no in harlow\n definition wet  septic is yes");
    assert!(message.contains("`septic` is declared in a place"), "{message}");
    assert!(!help.contains("did you mean"), "{help}");
}
