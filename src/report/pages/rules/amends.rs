//! Which instruments amend a section, and what an instrument's amendments do.
//!
//! A section keeps its identity over its numbers: an amendment of an older edition is
//! found under the number that the section has now.

use super::clause::{Said, said};
use super::desk::{Desk, Pointer};
use super::times;
use crate::law::instrument::{Amend, Instrument, Patch, Target};
use crate::law::resolve::codes::renumbered;
use crate::law::text::{Edition, is_under};
use crate::report::in_force::{Key, by_time};
use crate::syntax::tree::Action;
use serde::Serialize;

/// One thing that an amendment does.
#[derive(Debug, Serialize)]
pub(super) struct Change {
    /// What is done, such as `replaces`.
    pub(super) does: String,
    /// The section, where it is one of a code.
    pub(super) section: Option<Pointer>,
    number: String,
    /// Whether what is under it is meant too.
    under: bool,
    /// What is put in place; nothing for what is deleted.
    said: Option<Said>,
}

/// What one instrument does to a section.
#[derive(Debug, Serialize)]
pub(super) struct Amended {
    by: Pointer,
    title: String,
    issuer: Pointer,
    /// The text that it amends, such as `IFGC 2015`.
    target: String,
    span: String,
    /// How it stands today by its own days.
    standing: String,
    change: Change,
}

/// The word for what a patch does.
pub(super) fn does(desk: &Desk<'_>, action: Action) -> String {
    match action {
        Action::Replace => desk.reader.say("browse-replaces"),
        Action::Add => desk.reader.say("browse-adds"),
        Action::Delete => desk.reader.say("browse-deletes"),
        Action::Except => desk.reader.say("browse-excepts"),
        Action::Reads => desk.reader.say("browse-reads"),
    }
}

/// The code whose text is amended, and the edition by whose numbers; nothing for an
/// instrument.
fn text_of<'a>(desk: &Desk<'a>, target: &Target) -> Option<(&'a str, &'a Edition)> {
    let codes = &desk.library().codes;
    let edition = match target {
        Target::Edition(id) | Target::Any { numbered: id, .. } => codes.edition(*id)?,
        Target::Instrument(_) => return None,
    };
    Some((&codes.code_of(edition)?.name, edition))
}

/// The text that is amended, in words and as a pointer to its page.
pub(super) fn target(desk: &Desk<'_>, target: &Target) -> Pointer {
    match target {
        Target::Edition(id) => desk.edition_of(*id),
        Target::Any { .. } => text_of(desk, target).map(|(code, _)| Pointer {
            words: desk.reader.say_with("browse-any-edition", &[("code", code)]),
            ..desk.code(code)
        }),
        Target::Instrument(id) => desk.library().instruments.get(id.0 as usize).map(|own| desk.instrument(own)),
    }
    .unwrap_or_else(|| Pointer { words: String::new(), href: desk.to(&[]) })
}

/// What a patch does.
pub(super) fn change(desk: &Desk<'_>, amend: &Amend, patch: &Patch) -> Change {
    let text = text_of(desk, &amend.target);
    let of = text.map(|(code, edition)| (code, edition.year));
    let mut said = (patch.action != Action::Delete).then(|| said(desk, &patch.section, of));
    if let Some(said) = &mut said {
        said.lifts = patch.action == Action::Except && patch.section.demands.is_empty();
    }
    Change {
        does: does(desk, patch.action),
        section: text.map(|(code, _)| desk.section(code, &patch.number)),
        number: patch.number.to_string(),
        under: patch.and_under,
        said,
    }
}

/// Which section a patch is of, whatever its number in one edition or the other.
fn key(edition: &Edition, amend: &Amend, number: &str) -> Key {
    let printed = edition.section(number).or_else(|| {
        let moved = |from: &str| renumbered(from, &amend.renumbers).is_some_and(|to| *to == *number);
        edition.sections.iter().find(|printed| moved(&printed.number))
    });
    printed.map_or_else(|| Key::Number(number.into()), |printed| Key::Lineage(printed.lineage))
}

/// Whether a patch is of the section itself, or of one around it with all under it.
fn meets(edition: &Edition, amend: &Amend, patch: &Patch, wanted: &Key) -> bool {
    if key(edition, amend, &patch.number) == *wanted {
        return true;
    }
    let inner = match wanted {
        Key::Lineage(lineage) => edition.by_lineage(*lineage).map(|printed| &*printed.number),
        Key::Number(number) => Some(&**number),
    };
    patch.and_under && inner.is_some_and(|inner| is_under(inner, &patch.number))
}

/// Every instrument of any place that amends a section of a code, the oldest first.
pub(super) fn of_section(desk: &Desk<'_>, code: &str, wanted: &Key) -> Vec<Amended> {
    let library = desk.library();
    let mut found: Vec<(&Instrument, Amended)> = Vec::new();
    for own in &library.instruments {
        for amend in &own.amends {
            for patch in amend.patches.iter().filter(|patch| concerns(desk, code, amend, patch, wanted)) {
                found.push((own, amended(desk, own, amend, patch)));
            }
        }
    }
    found.sort_by(|(one, _), (two, _)| (one.rank(), &one.id).cmp(&(two.rank(), &two.id)));
    found.into_iter().map(|(_, told)| told).collect()
}

fn concerns(desk: &Desk<'_>, code: &str, amend: &Amend, patch: &Patch, wanted: &Key) -> bool {
    if let Some((of, edition)) = text_of(desk, &amend.target) {
        return of == code && meets(edition, amend, patch, wanted);
    }
    // An amendment of an amendment: of what the other put into the code.
    let Target::Instrument(id) = amend.target else { return false };
    let Some(other) = desk.library().instruments.get(id.0 as usize) else { return false };
    other.amends.iter().any(|theirs| {
        text_of(desk, &theirs.target).is_some_and(|(of, edition)| {
            let same = |known: &&Patch| known.number == patch.number;
            of == code && theirs.patches.iter().filter(same).any(|known| meets(edition, theirs, known, wanted))
        })
    })
}

fn amended(desk: &Desk<'_>, own: &Instrument, amend: &Amend, patch: &Patch) -> Amended {
    Amended {
        by: desk.instrument(own),
        title: own.title.to_string(),
        issuer: desk.issuer(own.issuer),
        target: target(desk, &amend.target).words,
        span: times::span(desk, own),
        standing: times::standing(desk.reader, by_time(own, desk.today), None),
        change: change(desk, amend, patch),
    }
}

/// The numbers that only amendments give to sections of a code.
pub(super) fn added_numbers<'a>(desk: &Desk<'a>, code: &str) -> Vec<&'a str> {
    let all = desk.library().instruments.iter().flat_map(|own| &own.amends);
    let of_code = all.filter(|amend| text_of(desk, &amend.target).is_some_and(|(of, _)| of == code));
    let mut numbers: Vec<&str> = of_code.flat_map(|amend| &amend.patches).map(|patch| &*patch.number).collect();
    numbers.sort_unstable();
    numbers.dedup();
    numbers
}
