//! Lists with one of their words left out.

use super::tape::Tape;
use crate::syntax::tree::{Span, Value, Word};

const HELP: &str = "add an example of a job that turns on this word";

/// One word of a list of several is left out.
pub(super) fn words(list: &mut Vec<Word>, span: Span, tape: &mut Tape<'_>) {
    if list.len() < 2 {
        return;
    }
    for (number, word) in list.iter().enumerate() {
        if tape.offer(word.span, HELP, |tape| format!("{} without `{}`", tape.quoted(span), word.text)) {
            list.remove(number);
            return;
        }
    }
}

/// One word of a list that may be empty is left out.
pub(super) fn words_or_none(list: &mut Vec<Word>, before: &str, tape: &mut Tape<'_>) {
    for (number, word) in list.iter().enumerate() {
        if tape.offer(word.span, HELP, |_| format!("`{before} {}` left out", word.text)) {
            list.remove(number);
            return;
        }
    }
}

/// One value of a test that names several is left out.
pub(super) fn values(list: &mut Vec<Value>, span: Span, tape: &mut Tape<'_>) {
    if list.len() < 2 {
        return;
    }
    for (number, value) in list.iter().enumerate() {
        let at = match value {
            Value::Word(word) | Value::Date(word) => word.span,
            Value::Figure { number, .. } => number.span,
            Value::Text(text) => text.span,
        };
        if tape.offer(at, HELP, |tape| format!("{} without {}", tape.quoted(span), tape.quoted(at))) {
            list.remove(number);
            return;
        }
    }
}
