//! What is wrong with an answer, and what would mend it.

use super::super::look::{Page, Tone};
use super::super::speech::{Language, Reader};
use super::Voice;
use super::words::hint;
use crate::glossary::Fault;
use crate::interview::{Problem, Refused, Step, Wrong};
use crate::verdict::Lexicon;

/// What is wrong with what was typed for a step. Places that are meant
/// perhaps are numbered, so that one of them can be taken by its number.
pub(crate) fn wrong(told: &Wrong, step: &Step<'_>, voice: Voice) -> String {
    let Voice { reader, look } = voice;
    let typed = [("typed", &*told.typed)];
    let (message, help, names): (String, Option<String>, &[String]) = match &told.problem {
        Problem::Empty => (reader.say("walk-wrong-empty"), None, &[]),
        Problem::NoNumber { most } => {
            let most = most.to_string();
            (reader.say_with("walk-wrong-number", &[("typed", &told.typed), ("most", &most)]), None, &[])
        }
        Problem::SeveralFit { names } => (reader.say_with("walk-wrong-several", &typed), Some(names.join(", ")), &[]),
        Problem::NoPlace { nearest } => {
            let message = reader.say_with("walk-wrong-place", &typed);
            let none = nearest.is_empty();
            let help = if none { reader.say("walk-wrong-place-none") } else { reader.say("walk-wrong-near") };
            (message, Some(help), nearest)
        }
        Problem::PlaceNeeded => (reader.say("walk-wrong-place-needed"), Some(reader.say("walk-wrong-place-none")), &[]),
        Problem::SeveralPlaces { paths } => (reader.say_with("walk-wrong-places", &typed), None, paths),
        Problem::NoCount => (reader.say_with("walk-wrong-count", &typed), None, &[]),
        Problem::Unread(fault) => {
            let (message, help) = unread(reader, fault, &told.typed);
            (message, help, &[])
        }
    };
    let mut page = Page::new(look);
    page.hung(0, 2, &message, Tone::Doubt);
    if let Some(help) = &help {
        page.hung(2, 4, help, Tone::Plain);
    }
    for (number, name) in names.iter().enumerate() {
        page.labeled(&format!("{:>3}", number + 1), Tone::Plain, 5, name, Tone::Plain);
    }
    if help.is_none() && names.is_empty() {
        page.hung(2, 4, &hint(reader, &step.form), Tone::Plain);
    }
    page.finish()
}

/// What the reader of values says; what it says in English alone is told in another
/// language by what was typed.
fn unread(reader: Reader, fault: &Fault, typed: &str) -> (String, Option<String>) {
    let message = if reader.language == Language::English || fault.misread.is_some() {
        reader.say_with("walk-wrong-because", &[("reason", &reader.wrong(fault))])
    } else {
        reader.say_with("walk-wrong-unread", &[("typed", typed)])
    };
    if !fault.near.is_empty() {
        return (message, Some(format!("{} {}", reader.say("walk-wrong-near"), fault.near.join(", "))));
    }
    let help = match reader.language {
        Language::English => fault.help.clone(),
        Language::Spanish => reader.mended(fault).filter(|_| fault.misread.is_some()),
    };
    (message, help)
}

/// Why an answer that could be read does not stand beside the others.
pub(crate) fn refused(told: &Refused, lexicon: Option<&Lexicon<'_>>, voice: Voice) -> String {
    let Voice { reader, look } = voice;
    let mut page = Page::new(look);
    match told {
        Refused::Misplaced => page.hung(0, 2, &reader.say("walk-refused-misplaced"), Tone::Doubt),
        Refused::TooMany(fault) => {
            let message = reader.say_with("walk-wrong-because", &[("reason", &reader.wrong(fault))]);
            page.hung(0, 2, &message, Tone::Doubt);
        }
        Refused::Dates(faults) => {
            for (field, fault) in faults {
                let title = lexicon.and_then(|lexicon| lexicon.field(*field)).map_or("", |field| &*field.title);
                let (text, help) = unread(reader, fault, title);
                page.hung(0, 2, &text, Tone::Doubt);
                if let Some(help) = &help {
                    page.hung(2, 4, help, Tone::Plain);
                }
            }
        }
    }
    page.finish()
}
