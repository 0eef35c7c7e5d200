//! What to say where a text does not follow the grammar: the furthest place that
//! was reached, what could have stood there, and the word that was meant.

mod expected;
mod guess;
mod help;

use super::Kind;
use super::codes::{self, Code};
use super::lines::{blank_end, first_word, last_word, line_end, line_start, run_length, word_start};
use super::nearest::did_you_mean;
use super::recover::good_end;
pub(crate) use expected::Expected;
use expected::{attempt, expected_at};

/// An error of syntax in a piece of a file.
pub(super) struct Fault {
    pub(super) code: Code,
    pub(super) start: usize,
    pub(super) end: usize,
    pub(super) message: String,
    pub(super) help: Option<String>,
}

/// Longer pieces are looked at through a part of them: keeping all that is tried is slow.
const LONG: usize = 16 * 1024;

/// How many lines before the error are kept at least, where they make sense.
const CONTEXT_LINES: usize = 24;

/// What could stand behind a piece, as far as it follows the grammar.
pub(super) fn expected(piece: &str, kind: Kind) -> Option<Expected> {
    if piece.len() <= LONG {
        return expected_at(piece, piece.len(), kind);
    }
    let head = piece.get(..line_end(piece, 0))?;
    let mut line = line_start(piece, piece.len());
    let mut found = None;
    for _ in 0..CONTEXT_LINES {
        if line <= head.len() {
            break;
        }
        let context = format!("{head} {}", piece.get(line..)?);
        found = expected_at(&context, context.len(), kind).or(found);
        line = line_start(piece, line - 1);
    }
    found
}

/// The error of a piece of which everything before `broken` follows the grammar.
pub(super) fn fault(piece: &str, broken: usize, kind: Kind) -> Fault {
    if piece.len() <= LONG {
        return near_fault(piece, broken, kind);
    }
    let Some((context, shift)) = shortened(piece, broken, kind) else {
        let at = blank_end(piece, broken);
        let end = at + run_length(piece.get(at..).unwrap_or_default()).max(1);
        let message = match piece.get(at..end) {
            Some(word) => format!("`{word}` cannot stand here"),
            None => "something is missing at the end".to_owned(),
        };
        return Fault { code: codes::SYNTAX, start: at, end: end.min(piece.len()), message, help: None };
    };
    let mut fault = near_fault(&context, broken - shift, kind);
    fault.start += shift;
    fault.end += shift;
    fault
}

/// The first line of a long piece, and the last lines around `broken` that make
/// sense behind it; with the distance that places in it are moved by.
fn shortened(piece: &str, broken: usize, kind: Kind) -> Option<(String, usize)> {
    let head = piece.get(..line_end(piece, 0))?;
    let mut end = broken;
    for _ in 0..8 {
        end = line_end(piece, (end + 1).min(piece.len()));
    }
    let mut line = line_start(piece, broken);
    let mut best = None;
    for back in 0..400 {
        if line <= head.len() || broken - line > LONG {
            break;
        }
        let context = format!("{head} {}", piece.get(line..end)?);
        let shift = line - head.len() - 1;
        if good_end(&context, kind) == broken - shift {
            best = Some((context, shift));
            if back >= CONTEXT_LINES {
                break;
            }
        }
        line = line_start(piece, line - 1);
    }
    best
}

fn near_fault(piece: &str, broken: usize, kind: Kind) -> Fault {
    let (reached, _) = attempt(piece, kind);
    let mut at = blank_end(piece, word_start(piece, reached.max(broken)));
    let mut expected = expected_at(piece, at, kind);
    if expected.is_none() && reached > broken {
        // The word that ends here was looked at and refused.
        at = word_start(piece, reached - 1);
        expected = expected_at(piece, at, kind);
    }
    let expected = expected.unwrap_or_default();
    let rest = piece.get(at..).unwrap_or_default();
    let word = first_word(rest);
    let end = at + if word.is_empty() { rest.chars().next().map_or(0, char::len_utf8) } else { run_length(rest) };

    if let Some(fault) = guess::lone_fact(piece, at, kind)
        .or_else(|| guess::slip_before(piece, broken, at, kind))
        .or_else(|| guess::unfinished_line(piece, at, word, &expected))
        .or_else(|| guess::reserved(piece, broken, at, end, word, &expected))
    {
        return fault;
    }
    let written = rest.get(..end - at).unwrap_or_default();
    let near = expected.near(written);
    let first_on_its_line = piece.get(line_start(piece, at)..at).is_some_and(|before| before.trim().is_empty());
    if written.is_empty() || (near.is_empty() && first_on_its_line && line_start(piece, at) > broken) {
        return ends_early(piece.get(..at).unwrap_or(piece), &expected);
    }
    let found = if written == "\"" { "a text".to_owned() } else { format!("`{written}`") };
    let choices = expected.in_words(4);
    let message = match &choices {
        Some(choices) => format!("expected {choices}, found {found}"),
        None => format!("{found} cannot stand here"),
    };
    let help = did_you_mean(&near).or_else(|| help::plain_help(written, &expected)).or_else(|| {
        if choices.is_some() { None } else { expected.in_words(40).map(|all| format!("here may stand {all}")) }
    });
    Fault { code: codes::SYNTAX, start: at, end, message, help }
}

/// The piece ends where something is still to come.
fn ends_early(piece: &str, expected: &Expected) -> Fault {
    let (start, end) = last_word(piece);
    let word = piece.get(start..end).unwrap_or_default();
    let message = format!("something is missing behind `{word}`");
    let help = expected.in_words(40).map(|all| format!("here may stand {all}"));
    Fault { code: codes::SYNTAX, start, end, message, help }
}
