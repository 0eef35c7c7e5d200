//! One edition of a code: its sections as published, each with what it demands and
//! where it was read.

use super::Missing;
use super::clause::{Said, said};
use super::code::adopted_by;
use super::conditions;
use super::desk::{Desk, Pointer};
use super::lookup;
use crate::report::pages::frame::Frame;
use crate::report::screen::words::spoken;
use crate::review::coverage::coverage;
use serde::Serialize;

#[derive(Debug, Serialize)]
struct View {
    frame: Frame,
    trail: Vec<Pointer>,
    name: String,
    title: String,
    published: Option<String>,
    revises: Option<Pointer>,
    text_not_here: bool,
    provenance: String,
    adopted_by: Vec<Pointer>,
    before: Option<Pointer>,
    after: Option<Pointer>,
    sections: Vec<Section>,
    definitions: Vec<Definition>,
    left_out: Vec<Left>,
    unread: Vec<Unread>,
}

#[derive(Debug, Serialize)]
struct Section {
    number: Pointer,
    cite: String,
    said: Said,
}

/// A name that the edition defines.
#[derive(Debug, Serialize)]
struct Definition {
    name: String,
    title: String,
    means: Vec<String>,
    provenance: String,
}

#[derive(Debug, Serialize)]
struct Left {
    number: Pointer,
    why: String,
    since: Pointer,
}

#[derive(Debug, Serialize)]
struct Unread {
    number: Pointer,
    /// None where it may bear on everything that the code is about.
    questions: Vec<Pointer>,
    since: Pointer,
}

/// The page.
pub(super) fn page(desk: &Desk<'_>, name: &str, year: &str) -> Result<String, Missing> {
    let code = lookup::code(desk, name)?;
    let edition = lookup::edition(desk, code, year)?;
    let name = &*code.name;
    let of = Some((name, edition.year));
    let accounts = coverage(desk.library(), |code, year| code == name && year == edition.year);
    let Some(account) = accounts.first() else { return Err(desk.nowhere()) };
    let sections = account.sections.iter().map(|held| Section {
        number: desk.section(name, held.number),
        cite: format!("{name} {} {}", edition.year, held.number),
        said: said(desk, held.section, of),
    });
    let definitions = edition.sections.iter().filter(|printed| printed.section.definition).map(|printed| Definition {
        name: spoken(&printed.number),
        title: printed.section.title.to_string(),
        means: conditions::parts(desk, &printed.section.wheres),
        provenance: desk.reader.provenance(&printed.section.provenance),
    });
    let left_out = account.left_out.iter().map(|left| Left {
        number: desk.section(name, left.number),
        why: left.why.to_owned(),
        since: desk.edition(name, left.since),
    });
    let unread = edition.unread.iter().zip(&account.unread).map(|((number, questions, _), told)| Unread {
        number: desk.section(name, number),
        questions: questions.iter().map(|question| desk.question(*question)).collect(),
        since: desk.edition(name, told.since),
    });
    let mut years: Vec<i32> = code.editions.iter().map(|(year, _)| *year).collect();
    years.sort_unstable();
    let id = desk.library().codes.find(name, edition.year);
    let view = View {
        frame: desk.frame(None),
        trail: vec![desk.start(), desk.code(name)],
        name: format!("{name} {}", edition.year),
        title: code.title.to_string(),
        published: edition.published.map(|day| day.to_string()),
        revises: edition.revises.and_then(|id| desk.edition_of(id)),
        text_not_here: edition.text_not_here,
        provenance: desk.reader.provenance(&edition.provenance),
        adopted_by: id.map(|id| adopted_by(desk, id)).unwrap_or_default(),
        before: years.iter().rev().find(|year| **year < edition.year).map(|year| desk.edition(name, *year)),
        after: years.iter().find(|year| **year > edition.year).map(|year| desk.edition(name, *year)),
        sections: sections.collect(),
        definitions: definitions.collect(),
        left_out: left_out.collect(),
        unread: unread.collect(),
    };
    desk.lay("rules/edition.html", view)
}
