//! Words and lines of a text, as readers of errors see them. Nothing here knows the
//! grammar.

use super::words;

/// The end of the white space and comments from `at` on.
pub(super) fn blank_end(text: &str, mut at: usize) -> usize {
    let bytes = text.as_bytes();
    while let Some(byte) = bytes.get(at) {
        match byte {
            b' ' | b'\t' | b'\r' | b'\n' => at += 1,
            b'#' => at = line_end(text, at),
            _ => break,
        }
    }
    at
}

/// The word that a text begins with.
pub(super) fn first_word(text: &str) -> &str {
    let end = text.bytes().position(|byte| !(byte.is_ascii_alphanumeric() || byte == b'-')).unwrap_or(text.len());
    text.get(..end).unwrap_or_default()
}

/// The next line behind the one of `at` that begins at the margin with an item's word.
pub(super) fn next_item(text: &str, at: usize) -> usize {
    let mut start = line_end(text, at);
    while start < text.len() {
        start += 1;
        if words::begins_item(first_word(text.get(start..).unwrap_or_default())) {
            return start;
        }
        start = line_end(text, start);
    }
    text.len()
}

/// The end of the line of `at`, its line feed not included.
pub(super) fn line_end(text: &str, at: usize) -> usize {
    let rest = text.as_bytes().get(at..).unwrap_or_default();
    rest.iter().position(|&byte| byte == b'\n').map_or(text.len(), |length| at + length)
}

/// The beginning of the line of `at`.
pub(super) fn line_start(text: &str, at: usize) -> usize {
    let before = text.as_bytes().get(..at).unwrap_or_default();
    before.iter().rposition(|&byte| byte == b'\n').map_or(0, |line| line + 1)
}

/// How many blanks a line begins with.
pub(super) fn indent(text: &str, line: usize) -> usize {
    let rest = text.as_bytes().get(line..).unwrap_or_default();
    rest.iter().take_while(|byte| matches!(byte, b' ' | b'\t')).count()
}

/// Where the last word of a text begins and ends; comments are passed over.
pub(super) fn last_word(piece: &str) -> (usize, usize) {
    let mut end = 0;
    let mut line = 0;
    while line < piece.len() {
        let next = line_end(piece, line);
        let text = piece.get(line..next).unwrap_or_default();
        let text = match text.find('#') {
            Some(comment) if text.get(..comment).is_some_and(|before| before.matches('"').count() % 2 == 0) => {
                text.get(..comment).unwrap_or_default()
            }
            _ => text,
        };
        if !text.trim().is_empty() {
            end = line + text.trim_end().len();
        }
        line = next + 1;
    }
    (word_before(piece, end), end)
}

/// Where the word begins that ends at `end`.
fn word_before(piece: &str, end: usize) -> usize {
    let before = piece.get(..end).unwrap_or_default();
    let length = before.bytes().rev().take_while(|byte| in_run(*byte)).count();
    if length > 0 {
        return end - length;
    }
    if let Some(text) = before.strip_suffix('"') {
        return text.rfind(['"', '\n']).filter(|&at| text.as_bytes().get(at) == Some(&b'"')).unwrap_or(text.len());
    }
    before.char_indices().next_back().map_or(0, |(at, _)| at)
}

fn in_run(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.' | b'/')
}

/// The length of the word, number or id that a text begins with.
pub(super) fn run_length(rest: &str) -> usize {
    rest.bytes().take_while(|byte| in_run(*byte)).count()
}

/// The beginning of the word in whose middle a place lies.
pub(super) fn word_start(piece: &str, at: usize) -> usize {
    let bytes = piece.as_bytes();
    if !bytes.get(at).is_some_and(|byte| in_run(*byte)) {
        return at;
    }
    let mut start = at;
    while start > 0 && bytes.get(start - 1).is_some_and(|byte| in_run(*byte)) {
        start -= 1;
    }
    start
}
