//! Tests of the layout: on every file of the repository, on the same files with
//! their white space scrambled, with comments everywhere, and form by form.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test may panic"
)]

mod comments;
mod files;
mod forms;
mod scramble;

use super::lay_out;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::File;
use crate::syntax::{Kind, parse};
use serde_json::Value;

/// A tree without its spans, and the comments of its file.
fn said(text: &str, kind: Kind) -> (Value, Vec<String>) {
    let parsed = parse(FileId(0), text, kind);
    assert!(parsed.diagnostics.is_empty(), "{:#?}\n{text}", parsed.diagnostics);
    let File { items, comments, knowingly } = parsed.tree;
    let mut items = serde_json::to_value((items, knowingly)).unwrap();
    clear(&mut items);
    (items, comments.into_iter().map(|comment| comment.text.into()).collect())
}

fn clear(value: &mut Value) {
    match value {
        Value::Object(members)
            if members.len() == 2 && members.contains_key("start") && members.contains_key("end") =>
        {
            *value = Value::Null;
        }
        Value::Object(members) => members.values_mut().for_each(clear),
        Value::Array(list) => list.iter_mut().for_each(clear),
        _ => {}
    }
}

fn laid(text: &str, kind: Kind) -> String {
    lay_out(FileId(0), text, kind).unwrap_or_else(|told| panic!("{told:#?}\n{text}"))
}

/// A file is laid out, says what it said, and stays so; gives the layout.
fn holds(text: &str, kind: Kind) -> String {
    let once = laid(text, kind);
    assert_eq!(said(&once, kind), said(text, kind), "{once}");
    assert_eq!(laid(&once, kind), once, "laid out twice, it is not as laid out once");
    for line in once.lines() {
        assert_eq!(line.trim_end(), line, "blanks end a line: {line:?}");
    }
    once
}

/// White space does not count: however it is scrambled, the layout is the same.
pub(crate) fn holds_scrambled(text: &str, kind: Kind, seed: u64) -> String {
    let once = holds(text, kind);
    let scrambled = scramble::scrambled(text, kind, seed);
    assert_eq!(laid(&scrambled, kind), once, "{scrambled}");
    once
}
