//! Text to tree and tree to text, spans and diagnostics.
//!
//! This module refuses to know what any word means: it knows the forms of the
//! language and nothing of glossaries, places or law.

mod build;
pub(crate) mod codes;
pub(crate) mod diagnostic;
mod errors;
mod grammar;
pub(crate) mod layout;
pub(crate) mod limits;
mod lines;
pub(crate) mod nearest;
mod recover;
mod scan;
pub(crate) mod tree;
pub(crate) mod words;

#[cfg(test)]
mod tests;

use diagnostic::{Diagnostic, FileId, Location};
use tree::{File, Span};

/// What a file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// The items of a `.rule` file.
    Rules,
    /// The lines of one job: a `.job` file.
    Job,
}

pub(crate) use errors::Expected;

/// What could be written at a place of a file, as far as the item in which it lies
/// follows the grammar up to there; nothing where it does not.
pub(crate) fn expected(text: &str, at: usize, kind: Kind) -> Option<Expected> {
    let piece = text.get(item_start(text, at, kind)..at)?;
    errors::expected(piece, kind)
}

/// Where the item begins in which a place lies: the last line before it that begins
/// at the margin with an item's word.
pub(crate) fn item_start(text: &str, at: usize, kind: Kind) -> usize {
    let mut line = lines::line_start(text, at);
    while kind == Kind::Rules && line > 0 {
        let rest = text.get(line..).unwrap_or_default();
        let word = lines::first_word(rest);
        if words::begins_item(word) && line + word.len() < at {
            return line;
        }
        line = lines::line_start(text, line - 1);
    }
    0
}

/// What came of reading a file.
#[derive(Clone, Debug)]
pub(crate) struct Parsed {
    /// What could be read. With errors beside it, it is not the whole file.
    pub(crate) tree: File,
    /// What is wrong, in the order of the file.
    pub(crate) diagnostics: Vec<Diagnostic>,
}

/// Reads a file's bytes; anything but UTF-8 is an error.
pub(crate) fn parse_bytes(file: FileId, bytes: &[u8], kind: Kind) -> Parsed {
    if bytes.len() > limits::FILE.most {
        return refused(limits::FILE.passed(Location { file, span: Span { start: 0, end: 0 } }));
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => parse(file, text, kind),
        Err(error) => {
            let start = build::offset(error.valid_up_to());
            let width = build::offset(error.error_len().unwrap_or(1));
            let at = Location { file, span: Span { start, end: start + width } };
            refused(
                Diagnostic::new(codes::NOT_UTF8, at, "the file is not UTF-8 from here on")
                    .help("save the file as UTF-8, which every editor can"),
            )
        }
    }
}

/// Reads a file's text. Never fails: the tree holds what could be read, the
/// diagnostics say what could not.
pub(crate) fn parse(file: FileId, text: &str, kind: Kind) -> Parsed {
    if text.len() > limits::FILE.most {
        return refused(limits::FILE.passed(Location { file, span: Span { start: 0, end: 0 } }));
    }
    let scan = scan::scan(file, text);
    if scan.refused {
        return Parsed { tree: File { comments: scan.comments, ..File::default() }, diagnostics: scan.found };
    }
    let (items, knowingly, found) =
        recover::read(file, scan.mended.as_deref().unwrap_or(text), kind, &scan.comments, &scan.found);
    let mut diagnostics = scan.found;
    diagnostics.extend(found);
    diagnostics.sort_by_key(|one| one.at.span);
    Parsed { tree: File { items, comments: scan.comments, knowingly }, diagnostics }
}

/// What is told of a name from outside a rule file in which a letter looks like a
/// plain one and is none, or cannot be seen.
pub(crate) fn look_alike(name: &str) -> Option<String> {
    scan::look_alike(name)
}

fn refused(found: Diagnostic) -> Parsed {
    Parsed { tree: File::default(), diagnostics: vec![found] }
}
