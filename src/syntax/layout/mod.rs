//! Tree to text: rule files and job sheets laid out in one way, whatever blanks
//! and line breaks their authors used.
//!
//! Words, texts, figures and comments stay as they are and in their order, and
//! single blank lines stay where they part one thing from another. The module
//! reads back what it laid out and refuses to hand on anything that says
//! something else. It refuses to know what any word means.

mod lines;
mod marks;
mod same;
mod tokens;

use super::Kind;
use super::diagnostic::{Diagnostic, FileId};
use super::grammar::{Grammar, Rule};
use super::{limits, parse};
use pest::Parser;
use pest::error::InputLocation;

/// How far a block stands in from what it belongs to.
const INDENT: usize = 4;
/// How many letters a line holds that can be broken.
const WIDTH: usize = 110;
/// What some editors write at the beginning of a file.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// Lays a file out. Its lines end as its first one does, by line feed or by
/// carriage return and line feed; a byte order mark is taken out.
///
/// # Errors
/// What is wrong with the file; then nothing is laid out. So is a file that would
/// say something else, or lose a comment, once it is laid out.
pub(crate) fn lay_out(file: FileId, text: &str, kind: Kind) -> Result<String, Vec<Diagnostic>> {
    let parsed = parse(file, text, kind);
    if !parsed.diagnostics.is_empty() {
        return Err(parsed.diagnostics);
    }
    let before = text.strip_prefix(BYTE_ORDER_MARK).unwrap_or(text);
    let lead = text.len() - before.len();
    let whole = match kind {
        Kind::Rules => Rule::rules,
        Kind::Job => Rule::job_sheet,
    };
    let tokens = tokens::Tokens::of(before);
    let at = |token| same::place(file, lead, &tokens, token);
    let Ok(found) = Grammar::parse(whole, before) else { return Err(vec![same::refused(at(0))]) };
    let laid = lines::text(&tokens, &marks::marks(&tokens, found.clone()));
    let ends_by_two = text.find('\n').and_then(|end| text.get(..end)).is_some_and(|line| line.ends_with('\r'));
    let laid = if ends_by_two { laid.replace('\n', "\r\n") } else { laid };
    if laid.len() > limits::FILE.most {
        return Err(vec![limits::FILE.passed(at(0))]);
    }
    let after = tokens::Tokens::of(&laid);
    let again = Grammar::parse(whole, &laid).map_err(|error| match error.location {
        InputLocation::Pos(at) | InputLocation::Span((at, _)) => at,
    });
    let different = same::first_difference((&tokens, found), (&after, again)).or_else(|| {
        // What the grammar lets pass may still be refused by who builds the tree.
        parse(file, &laid, kind).diagnostics.first().map(|told| after.at(told.at.span.start as usize))
    });
    match different {
        None => Ok(laid),
        Some(token) => Err(vec![same::refused(at(token))]),
    }
}

#[cfg(test)]
pub(crate) mod tests;
