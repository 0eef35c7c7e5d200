//! Days a day earlier and later, spans one shorter and longer.

use super::tape::Tape;
use crate::syntax::tree::{Election, End, Force, Span, Start, Value, Word};
use crate::values::Date;

const HELP: &str = "add an example of this very day, and one of the day before or behind it";
const OPEN: &str = "add an example of a day on which it decides";

/// The days of an instrument.
pub(super) fn force(force: &mut Force, tape: &mut Tape<'_>) {
    match &mut force.from {
        Some(Start::On(date)) => day(date, "in force from", tape),
        Some(Start::After { count, date, .. }) => {
            let span = count.span.to(date.span);
            self::count(count, span, tape);
            day(date, "in force after", tape);
        }
        Some(Start::Between(first, last)) => {
            day(first, "in force between", tape);
            day(last, "in force between", tape);
        }
        Some(Start::Unknown) | None => {}
    }
    if let Some(End::On(date)) = &mut force.through {
        day(date, "in force through", tape);
    }
    if let Some(End::On(Word { span, .. })) = force.through
        && tape.offer(span, OPEN, |tape| format!("`through {}` left out", tape.source(span)))
    {
        force.through = None;
    }
    if let Some(by) = &force.by {
        let at = by.head.span;
        if tape.offer(at, OPEN, |tape| format!("`by {}` left out", tape.source(at))) {
            force.by = None;
        }
    }
}

pub(super) fn election(election: &mut Election, tape: &mut Tape<'_>) {
    if let Some(from) = &mut election.from {
        day(from, "election from", tape);
    }
    day(&mut election.through, "election through", tape);
}

/// A day as written.
fn day(word: &mut Word, before: &str, tape: &mut Tape<'_>) {
    let Some(date) = Date::parse(&word.text) else { return };
    for other in [date.eve(), date.next()].into_iter().filter(|other| *other != date) {
        if tape.offer(word.span, HELP, |_| format!("`{before} {date}` → `{other}`")) {
            word.text = other.to_string().into();
            return;
        }
    }
}

/// A day that a test names.
pub(super) fn value(value: &mut Value, span: Span, tape: &mut Tape<'_>) {
    let Value::Date(word) = value else { return };
    let Some(date) = Date::parse(&word.text) else { return };
    for other in [date.eve(), date.next()].into_iter().filter(|other| *other != date) {
        if tape.offer(word.span, HELP, |tape| format!("{} → `{other}`", tape.quoted(span))) {
            word.text = other.to_string().into();
            return;
        }
    }
}

/// The length of a span.
pub(super) fn count(word: &mut Word, span: Span, tape: &mut Tape<'_>) {
    let Ok(count) = word.text.parse::<u32>() else { return };
    for other in [count.checked_sub(1), count.checked_add(1)].into_iter().flatten() {
        if tape.offer(word.span, HELP, |tape| format!("{} → `{other}`", tape.quoted(span))) {
            word.text = other.to_string().into();
            return;
        }
    }
}
