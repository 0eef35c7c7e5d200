//! What is said beside the answers: words of a rule file, or what the engine found,
//! which every language words by itself.

use crate::law::model::Source;
use crate::values::Date;
use std::fmt;

/// Something said beside the answers. In print it is in English, as programs get it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Aside<'a> {
    /// As a rule file has it.
    Published(&'a str),
    /// A text refers, for this reason, and the answer is at its strictest all the same.
    MootReferral(&'a str),
    /// The text that governs may name no equivalent.
    NoEquivalent,
    /// A fact is presumed by a condition, in the words of the rules.
    Presumed { fact: &'a str, presumption: Presumption, condition: String },
    /// The job's date lies before the first day of any law known here.
    Early { fact: &'a str, date: Date, first: Date },
    /// It is not known on which day of a span an instrument began.
    BeganUnknown { instrument: &'a str, issuer: &'a str },
    /// A text that governs was written down from memory.
    Memory(&'a Source),
    /// A place has no rules of its own, nor is it said that it has none.
    NothingRecorded(&'a str),
}

/// What a fact is presumed to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Presumption {
    Yes,
    No,
    /// Yes where the condition holds, which is not known.
    Where,
}

/// A text by its code, its edition and its number, and by whom it was amended.
pub(crate) fn named(source: &Source) -> (String, Option<&str>) {
    let section = source.section.as_deref().unwrap_or("");
    match (&source.code, source.edition) {
        (Some(code), Some(year)) => {
            let by = source.adopted_by.is_some().then_some(&*source.instrument);
            (format!("{code} {year} {section}"), by)
        }
        _ => (format!("{} {section}", source.instrument), None),
    }
}

impl fmt::Display for Aside<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Aside::Published(text) => f.write_str(text),
            Aside::MootReferral(why) => {
                write!(f, "referred, which changes nothing at the strictest answer: {why}")
            }
            Aside::NoEquivalent => f.write_str("the text that governs names no equivalent for what the job uses"),
            Aside::Presumed { fact, presumption, condition } => match presumption {
                Presumption::Yes => write!(f, "{fact} is presumed yes: {condition}"),
                Presumption::No => write!(f, "{fact} is presumed no: not ({condition})"),
                Presumption::Where => write!(f, "{fact} is presumed yes where {condition}"),
            },
            Aside::Early { fact, date, first } => {
                write!(f, "{fact} {date} lies before {first}, the first day of any law known here")
            }
            Aside::BeganUnknown { instrument, issuer } => write!(
                f,
                "it is not known on which day {instrument} of {issuer} began; the job's date may lie before it"
            ),
            Aside::Memory(source) => {
                let (text, amended) = named(source);
                f.write_str(&text)?;
                if let Some(by) = amended {
                    write!(f, " as amended by {by}")?;
                }
                f.write_str(": written down from memory; look at the text itself")
            }
            Aside::NothingRecorded(title) => {
                write!(f, "no rules of its own are recorded for {title}, nor that it has none: ask there")
            }
        }
    }
}
