//! The cautions with which every page on a job ends.

use super::super::look::{Page, Tone};
use super::words::ago;
use crate::glossary::model::PlaceId;
use crate::law::places::Places;
use crate::syntax::tree::ProvenanceKind;
use crate::values::Date;

/// What is always said, in this order.
pub(crate) const STANDING: &[&str] = &[
    "Smell gas? Leave, touch no switch, and call the gas supplier or 911 from outside.",
    "Work at a live panel and the leak check after it belong to qualified people.",
    "Bonding lowers the risk of arc damage from nearby lightning and removes none.",
    "This is about written rules on a date. The facts were not inspected; the authority having jurisdiction decides.",
];

/// After so many days a place's rules are called old.
const OLD: i32 = 365;

/// The cautions, and how old the rules of the places are.
pub(crate) fn write(page: &mut Page, path: &[PlaceId], places: &Places, today: Date) {
    page.blank();
    for caution in STANDING {
        page.hung(0, 2, caution, Tone::Plain);
    }
    page.hung(0, 2, &ages(path, places, today), Tone::Plain);
}

/// How old the rules of these places are, in one sentence for each day.
pub(crate) fn ages(path: &[PlaceId], places: &Places, today: Date) -> String {
    let mut read: Vec<(Date, Vec<&str>)> = Vec::new();
    let mut unread: Vec<&str> = Vec::new();
    for issuer in path.iter().filter_map(|place| places.issuer(*place)) {
        match issuer.provenance.as_ref().and_then(|provenance| day(&provenance.kind)) {
            Some(day) => match read.iter_mut().find(|(known, _)| *known == day) {
                Some((_, titles)) => titles.push(&issuer.title),
                None => read.push((day, vec![&issuer.title])),
            },
            None => unread.push(&issuer.title),
        }
    }
    let mut words: Vec<String> = read
        .iter()
        .map(|(day, titles)| {
            let old = if today.0.saturating_sub(day.0) > OLD { "; ask the office what came since" } else { "" };
            format!("The rules of {} were last read on {day}, {}{old}.", named(titles), ago(*day, today))
        })
        .collect();
    if !unread.is_empty() {
        words.push(format!("It is not recorded when the rules of {} were last read.", named(&unread)));
    }
    words.join(" ")
}

/// Names in a row: `one`, `one and two`, `one, two and three`.
fn named(titles: &[&str]) -> String {
    match titles {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        all => all.concat(),
    }
}

fn day(kind: &ProvenanceKind) -> Option<Date> {
    match kind {
        ProvenanceKind::Read { on, .. } => Date::parse(&on.text),
        ProvenanceKind::Memory | ProvenanceKind::CommonPractice => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Rules, Source};

    #[test]
    fn the_age_of_every_place_of_the_path_is_told() {
        let text = "place outer \"Outer\"\n    read \"a test\" on 2024-01-01\nplace middle \"Middle\" within outer\n    read \"a test\" on 2026-11-01\nplace inner \"Inner\" within middle\n";
        let rules = Rules::with(vec![Source::new("places.rule", text)]);
        let places = &rules.library().places;
        let path = places.path(places.find("outer/middle/inner").unwrap());
        assert_eq!(
            ages(&path, places, Date::parse("2026-11-25").unwrap()),
            "The rules of Outer were last read on 2024-01-01, 2 years ago; ask the office what came since. \
             The rules of Middle were last read on 2026-11-01, 24 days ago. \
             It is not recorded when the rules of Inner were last read."
        );
    }
}
