//! Demands: the forms that fit a question, and what the others are told.

use super::{Built, anywhere, section, with};
use crate::glossary::demand::{Asked, AskedKind};
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::Diagnostic;
use crate::values::Terms;

fn read(built: &Built, text: &str) -> (Option<Asked>, Vec<Diagnostic>) {
    let section = section(&format!("        {text}"));
    let mut found = Vec::new();
    let asked = built.glossary.demand(&section.body.demands[0], &anywhere(&built.places), &mut found);
    (asked, found)
}

fn good(built: &Built, text: &str) -> AskedKind {
    let (asked, found) = read(built, text);
    assert!(found.is_empty(), "{text}\n{found:#?}");
    asked.unwrap().kind
}

fn bad(built: &Built, text: &str) -> (Code, String, String) {
    let (asked, mut found) = read(built, text);
    assert_eq!((asked, found.len()), (None, 1), "{text}\n{found:#?}");
    let one = found.remove(0);
    (one.code, one.message, one.help.unwrap())
}

fn set(terms: &[u16]) -> Terms {
    terms.iter().fold(Terms::NONE, |all, term| all.union(Terms::one(*term)))
}

#[test]
fn each_order_takes_its_own_demand() {
    let built = with("");
    assert_eq!(good(&built, "direct-bond is required"), AskedKind::Rung(1));
    assert_eq!(
        good(&built, "performer only electrician, gas-fitter"),
        AskedKind::Permitted { only: true, terms: set(&[0, 1, 2]) }
    );
    assert_eq!(
        good(&built, "performer none of master-electrician"),
        AskedKind::Permitted { only: false, terms: set(&[1]) }
    );
    assert_eq!(good(&built, "permits all of gas, electrical"), AskedKind::Required(set(&[0, 1])));
    let AskedKind::Limits(limits) = good(&built, "jumper-length at most 75 ft") else { panic!() };
    assert_eq!((limits.len(), &*limits[0].0.shown, limits[0].1), (1, "75 ft", None));
}

#[test]
fn limits_are_given_term_by_term() {
    let built = with("");
    let shown = |text: &str| {
        let AskedKind::Limits(limits) = good(&built, text) else { panic!() };
        limits.into_iter().map(|(limit, terms)| (limit.shown.to_string(), terms)).collect::<Vec<_>>()
    };
    assert_eq!(
        shown("jumper-size at least 6 AWG for copper, 4 AWG for aluminum, copper-clad-aluminum"),
        [("6 AWG".into(), Some(set(&[0]))), ("4 AWG".into(), Some(set(&[1, 2])))]
    );
    assert_eq!(shown("jumper-size at least 6 AWG"), [("6 AWG".into(), Some(set(&[0, 1, 2])))]);
    assert_eq!(
        shown("jumper-size at least 6 AWG, 4 AWG for aluminum"),
        [("6 AWG".into(), Some(set(&[0, 1, 2]))), ("4 AWG".into(), Some(set(&[1])))]
    );
}

#[test]
fn a_demand_that_does_not_fit_is_told_the_form_that_does() {
    let built = with("");
    for (text, help) in [
        ("direct-bond at least 6 AWG", "write `direct-bond is` and one of not-required, required"),
        ("direct-bond only electrician", "write `direct-bond is` and one of not-required, required"),
        ("jumper-length at least 75 ft", "write `jumper-length at most …`, with a figure and a unit such as `50 ft`"),
        ("jumper-size at most 6 AWG", "write `jumper-size at least … for copper`, with a wire gauge"),
        ("performer is electrician", "write `performer only …` or `performer none of …`, with terms of `trade`"),
        ("permits only gas", "write `permits all of …`, with terms of `permit-kind`"),
        ("jumper-length at most 75 ft, 80 ft", "write `jumper-length at most …`"),
        ("jumper-length at most 75 ft for copper", "leave `for` out"),
        ("jumper-size at least 6 AWG, 4 AWG", "write `jumper-size at least … for copper`"),
        ("jumper-size at least 6 AWG for copper, 4 AWG for copper", "name each term once"),
    ] {
        let (code, _, found) = bad(&built, text);
        assert_eq!(code, codes::QUESTION, "{text}");
        assert!(found.starts_with(help), "{text}: {found}");
    }
}

#[test]
fn names_and_values_of_a_demand_are_told_what_is_near() {
    let built = with("question sign-off in harlow on permitting ladder no-sign, sign");
    for (text, code, help) in [
        ("direct-bnod is required", codes::UNKNOWN_NAME, "did you mean `direct-bond`?"),
        ("direct-bond is reqiured", codes::UNKNOWN_TERM, "did you mean `required`?"),
        ("performer only electricain", codes::UNKNOWN_TERM, "did you mean `electrician`?"),
        ("jumper-size at least 6 AWG for coper", codes::UNKNOWN_TERM, "did you mean `copper`?"),
        ("sign-off is sign", codes::UNKNOWN_NAME, "`sign-off` is a question in another place only"),
    ] {
        let (found, _, told) = bad(&built, text);
        assert_eq!((found, &*told), (code, help), "{text}");
    }
    assert_eq!(bad(&built, "jumper-length at most 75 A").0, codes::UNIT);
    assert_eq!(bad(&built, "jumper-size at least 5 AWG for copper").0, codes::NUMBER);
    let (_, found) = read(&built, "performer only electricain, plumbr");
    assert_eq!(found.len(), 2);
}
