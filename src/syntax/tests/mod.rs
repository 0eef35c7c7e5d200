//! Tests of the forms, of reading on behind errors, and of the limits.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test may panic"
)]

mod codes;
mod design;
mod forms;
mod recovery;
mod robust;

use super::codes::Code;
use super::diagnostic::{Diagnostic, FileId};
use super::tree::{File, Item};
use super::{Kind, Parsed, parse};

/// The tree of a rule file that must be free of errors.
fn good(text: &str) -> File {
    let parsed = parse(FileId(0), text, Kind::Rules);
    assert!(parsed.diagnostics.is_empty(), "{text}\n{}", shown(text, &parsed.diagnostics));
    parsed.tree
}

/// The one item of a rule file that must be free of errors.
fn item(text: &str) -> Item {
    let mut tree = good(text);
    assert_eq!(tree.items.len(), 1, "{text}\n{tree:#?}");
    tree.items.remove(0)
}

/// The tree of a job sheet that must be free of errors.
fn good_job(text: &str) -> super::tree::JobSheet {
    let mut parsed = parse(FileId(0), text, Kind::Job);
    assert!(parsed.diagnostics.is_empty(), "{text}\n{}", shown(text, &parsed.diagnostics));
    match parsed.tree.items.remove(0) {
        Item::Job(sheet) => sheet,
        other => panic!("{other:?}"),
    }
}

fn bad(text: &str) -> Parsed {
    parse(FileId(0), text, Kind::Rules)
}

fn bad_job(text: &str) -> Parsed {
    parse(FileId(0), text, Kind::Job)
}

/// The codes of what was found, in order.
fn codes_of(parsed: &Parsed) -> Vec<Code> {
    parsed.diagnostics.iter().map(|one| one.code).collect()
}

/// The stretch of the text that a finding points at.
fn pointed<'t>(text: &'t str, one: &Diagnostic) -> &'t str {
    &text[one.at.span.start as usize..one.at.span.end as usize]
}

/// Findings in a form that a failing test can show.
fn shown(text: &str, found: &[Diagnostic]) -> String {
    found
        .iter()
        .map(|one| {
            let line = text[..one.at.span.start as usize].matches('\n').count() + 1;
            format!(
                "{} line {line} at `{}`: {} | {}\n",
                one.code,
                pointed(text, one),
                one.message,
                one.help.as_deref().unwrap_or("-")
            )
        })
        .collect()
}
