//! The numbers of a section over the editions of its code, in the reader's words.

use super::desk::{Desk, Pointer};
use crate::law::text::{Code, Lineage};
use crate::report::in_force::{Key, numbers};
use serde::Serialize;

/// One number and the editions with it.
#[derive(Debug, PartialEq, Serialize)]
pub(super) struct Numbered {
    pub(super) number: Pointer,
    pub(super) editions: String,
}

/// The numbers of a section, the newest first; none for a section of no edition.
pub(super) fn of(desk: &Desk<'_>, code: &Code, lineage: Lineage) -> Vec<Numbered> {
    let found = numbers(desk.library(), code, &Key::Lineage(lineage));
    let found = found.map(|found| found.numbers).unwrap_or_default();
    found
        .into_iter()
        .map(|one| Numbered {
            number: desk.section(&code.name, &one.number),
            editions: years(desk, one.from, one.through),
        })
        .collect()
}

/// Editions in a row; no last one where the newest is among them.
fn years(desk: &Desk<'_>, from: i32, through: Option<i32>) -> String {
    let first = from.to_string();
    match through {
        None => desk.reader.say_with("browse-since", &[("year", &first)]),
        Some(last) if last == from => desk.reader.say_with("browse-in-year", &[("year", &first)]),
        Some(last) => desk.reader.say_with("browse-from-to", &[("first", &first), ("last", &last.to_string())]),
    }
}
