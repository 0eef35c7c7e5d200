//! Who, when, and how an answer is written, in words.

use super::super::screen::words::spoken;
use super::super::speech::Reader;
use crate::interview::Step;
use crate::interview::{Form, Said};
use crate::job::model::Given;
use crate::verdict::Lexicon;

/// Who knows a fact; a word that only some rule file has stays as it is there.
pub(super) fn who(reader: Reader, word: &str) -> String {
    match word {
        "contractor" => reader.say("walk-who-contractor"),
        "electrician" => reader.say("walk-who-electrician"),
        "inspector" => reader.say("walk-who-inspector"),
        "owner" => reader.say("walk-who-owner"),
        other => spoken(other),
    }
}

/// When a fact is known first.
pub(super) fn when(reader: Reader, word: &str) -> String {
    match word {
        "bid" => reader.say("walk-when-bid"),
        "permit" => reader.say("walk-when-permit"),
        "rough" => reader.say("walk-when-rough"),
        "final" => reader.say("walk-when-final"),
        other => reader.say_with("walk-when-other", &[("when", &spoken(other))]),
    }
}

/// How an answer is written.
pub(super) fn hint(reader: Reader, form: &Form<'_>) -> String {
    match form {
        Form::Place => reader.say("walk-hint-place"),
        Form::YesNo => reader.say("walk-hint-yes-no"),
        Form::Date => reader.say("walk-hint-date"),
        Form::Count => reader.say("walk-hint-count"),
        Form::Gauge => reader.say("walk-hint-gauge"),
        Form::Quantity(unit) => reader.say_with("walk-hint-quantity", &[("unit", unit.name)]),
        Form::Name(picks) if picks.is_empty() => reader.say("walk-hint-name"),
        Form::Name(_) => reader.say("walk-hint-known-name"),
        Form::Code(_) | Form::Choice(_) => reader.say("walk-hint-choice"),
        Form::Several(_) => reader.say("walk-hint-several"),
        Form::Entries { further: false, .. } => reader.say("walk-hint-entries"),
        Form::Entries { further: true, .. } => reader.say("walk-hint-further"),
    }
}

/// What a job says of a step; nothing where it says nothing.
pub(super) fn said(reader: Reader, step: &Step<'_>, lexicon: &Lexicon<'_>) -> Option<String> {
    match &step.said {
        Said::Nothing => None,
        Said::Value(given) => value(reader, step, given, lexicon),
        Said::Entries { known: 0, more: false } => Some(reader.say("value-none")),
        Said::Entries { known, more } => {
            let count = known.to_string();
            Some(if *more {
                reader.say_with("walk-entries-and-others", &[("count", &count)])
            } else {
                reader.say_with("walk-entries", &[("count", &count)])
            })
        }
        Said::Place(titles) => {
            let titles: Vec<&str> = titles.iter().rev().copied().collect();
            Some(titles.join(", "))
        }
    }
}

fn value(reader: Reader, step: &Step<'_>, given: &Given, lexicon: &Lexicon<'_>) -> Option<String> {
    reader.given(given, step.topic.field()?, lexicon)
}

/// What a step is called: its title, for an attribute of an entry with the entry.
pub(super) fn title(reader: Reader, step: &Step<'_>) -> String {
    if let (Some(record), false) = (step.record, step.title.is_empty()) {
        return reader.say_with("walk-title-of-record", &[("record", record), ("title", step.title)]);
    }
    match (step.entry, step.title) {
        (Some((list, number)), title) => {
            let number = number.to_string();
            reader.say_with("walk-title-of-entry", &[("list", list), ("number", &number), ("title", title)])
        }
        (None, "") => reader.say("walk-title-place"),
        (None, title) => title.to_owned(),
    }
}
