//! What is wrong with a job in a link, for whoever typed it.

use crate::glossary::Fault;
use crate::interview::link::{ENTRIES_OF_A_LINK, PLACE, Unheard, Why};
use crate::interview::{Problem, Refused, Wrong};
use crate::job::code_of;
use crate::report::speech::Reader;
use serde::Serialize;

/// One thing that is wrong.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Told {
    /// As a job writes it.
    pub(crate) path: String,
    /// What was typed, which stays in the form.
    pub(crate) typed: String,
    pub(crate) message: String,
    pub(crate) help: Option<String>,
    /// What was perhaps meant.
    pub(crate) near: Vec<String>,
    /// The code under which it is explained, where it has one.
    pub(crate) code: Option<String>,
}

/// Everything that is wrong with a job, by its paths.
pub(crate) fn told(wrong: &[Unheard], reader: Reader) -> Vec<Told> {
    wrong.iter().map(|one| tell(one, reader)).collect()
}

fn tell(one: &Unheard, reader: Reader) -> Told {
    let plain = |key: &str| (reader.say(key), None);
    let of_fault = |fault: &Fault| (reader.wrong(fault), reader.mended(fault));
    let (message, help) = match &one.why {
        Why::NoPlace if one.path == PLACE && one.typed.is_empty() => plain("pages-wrong-place-missing"),
        Why::NoPlace => plain("pages-wrong-no-place"),
        Why::NoFact(_) => plain("pages-wrong-no-fact"),
        Why::Twice => plain("pages-wrong-twice"),
        Why::TooMany => (reader.say_with("pages-wrong-entries", &[("most", &*ENTRIES_OF_A_LINK.to_string())]), None),
        Why::NoLaw(told) => (told.message.clone(), told.help.clone()),
        Why::Refused(Refused::Misplaced) => plain("pages-wrong-no-entry"),
        Why::Refused(Refused::TooMany(fault)) => of_fault(fault),
        Why::Refused(Refused::Dates(faults)) => match faults.first() {
            Some((_, fault)) => of_fault(fault),
            None => plain("pages-wrong-dates"),
        },
        Why::Wrong(wrong) => match &wrong.problem {
            Problem::Empty => plain("pages-wrong-empty"),
            Problem::NoNumber { most } => (reader.say_with("pages-wrong-number", &[("most", &most.to_string())]), None),
            Problem::SeveralFit { .. } => plain("pages-wrong-several"),
            Problem::NoPlace { .. } => plain("pages-wrong-no-place"),
            Problem::PlaceNeeded => (reader.say("pages-wrong-place-missing"), None),
            Problem::SeveralPlaces { .. } => plain("pages-wrong-places"),
            Problem::NoCount => plain("pages-wrong-count"),
            Problem::Unread(fault) => of_fault(fault),
        },
    };
    let near = match &one.why {
        Why::Wrong(Wrong { problem: Problem::Unread(fault), .. }) => fault.near.clone(),
        _ => one.near().to_vec(),
    };
    let code = match &one.why {
        Why::NoLaw(told) => Some(told.code),
        Why::Refused(Refused::TooMany(fault)) => Some(code_of(fault.code)),
        Why::Refused(Refused::Dates(faults)) => faults.first().map(|(_, fault)| code_of(fault.code)),
        Why::Wrong(Wrong { problem: Problem::Unread(fault), .. }) => Some(code_of(fault.code)),
        _ => None,
    };
    let code = code.map(|code| code.to_string());
    Told { path: one.path.clone(), typed: one.typed.clone(), message, help, near, code }
}
