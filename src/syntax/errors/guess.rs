//! Slips that show behind their place: a word that was taken for something else,
//! a line without its end, a reserved word as a name.

use super::Fault;
use super::expected::{Expected, expected_at};
use crate::syntax::Kind;
use crate::syntax::codes;
use crate::syntax::lines::{blank_end, first_word, last_word, line_end, line_start};
use crate::syntax::nearest::{did_you_mean, nearest};
use crate::syntax::words;

/// A line of a job that names a fact and gives no value: everything behind it is
/// read shifted by one word.
pub(super) fn lone_fact(piece: &str, at: usize, kind: Kind) -> Option<Fault> {
    if kind != Kind::Job {
        return None;
    }
    let mut start = 0;
    while start < at {
        let end = line_end(piece, start);
        let written = piece.get(start..end)?.trim();
        let next = blank_end(piece, end);
        let next = piece.get(next..line_end(piece, next))?.trim();
        let lone = !written.is_empty()
            && written.bytes().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'.'));
        if lone && written != "job" && next.split_whitespace().nth(1).is_some_and(|second| !second.starts_with('#')) {
            let begin = end - piece.get(start..end)?.trim_start().len();
            let message = format!("no value is given for `{written}`");
            let help = format!("write the value behind it, or `{written} unknown`");
            return Some(Fault {
                code: codes::SYNTAX,
                start: begin,
                end: begin + written.len(),
                message,
                help: Some(help),
            });
        }
        start = end + 1;
    }
    None
}

/// A line whose end is missing takes the first word of the next line for it.
pub(super) fn unfinished_line(piece: &str, at: usize, word: &str, expected: &Expected) -> Option<Fault> {
    let line = line_start(piece, at);
    let before = piece.get(line..at)?;
    let taken = before.trim();
    let lone = !taken.is_empty() && taken.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
    if !lone || line == 0 || !(words::ANSWERS.contains(&word) || expected.words.contains(taken)) {
        return None;
    }
    let (start, end) = last_word(piece.get(..line)?);
    let last = piece.get(start..end)?;
    if last.is_empty() {
        return None;
    }
    let message = format!("something is missing behind `{last}`");
    let help = format!("`{taken}` on the next line was taken for it");
    Some(Fault { code: codes::SYNTAX, start, end, message, help: Some(help) })
}

/// A word just before the place that is a slip of a word of the language.
pub(super) fn slip_before(piece: &str, broken: usize, at: usize, kind: Kind) -> Option<Fault> {
    let before = piece.get(..at)?.trim_end();
    let length = before.bytes().rev().take_while(|byte| byte.is_ascii_alphanumeric() || *byte == b'-').count();
    let start = before.len() - length;
    if length < 3 || start < broken {
        return None;
    }
    let word = before.get(start..)?;
    let expected = expected_at(piece, start, kind)?;
    if expected.words.contains(word) {
        return None;
    }
    let near = nearest(word, expected.words.iter().map(String::as_str).filter(|one| one.len() > 2));
    let help = did_you_mean(&near)?;
    let message = format!("`{word}` is not a word that can stand here");
    Some(Fault { code: codes::SYNTAX, start, end: before.len(), message, help: Some(help) })
}

/// A word of the language where a name of the author's own should stand.
pub(super) fn reserved(
    piece: &str,
    broken: usize,
    at: usize,
    end: usize,
    word: &str,
    expected: &Expected,
) -> Option<Fault> {
    if !words::is_reserved(word)
        || end - at != word.len()
        || expected.joins(word)
        || !expected.name
        || expected.words.contains(word)
    {
        return None;
    }
    let same_line = piece.get(line_start(piece, at)..at).is_some_and(|before| !before.trim().is_empty());
    let next = first_word(piece.get(blank_end(piece, end)..).unwrap_or_default());
    let begins_answer = words::ANSWERS.contains(&next);
    let own_words = expected.parts.contains("a term") || expected.parts.contains("a name");
    let begins_term = broken == at && own_words && !expected.words.contains("summary");
    if !(same_line || begins_answer || begins_term) || words::begins_item(word) && !same_line {
        return None;
    }
    Some(Fault {
        code: codes::RESERVED,
        start: at,
        end,
        message: format!("`{word}` is a word of the language and cannot be a name"),
        help: Some(format!("choose another name; these words are taken: {}", words::RESERVED.join(", "))),
    })
}
