//! What is wrong with a job in a link, for whoever typed it.

use crate::glossary::Fault;
use crate::interview::link::{ENTRIES_OF_A_LINK, PLACE, Unheard, Why};
use crate::interview::{Problem, Refused};
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
}

/// Everything that is wrong with a job, by its paths.
pub(crate) fn told(wrong: &[Unheard], reader: Reader) -> Vec<Told> {
    wrong.iter().map(|one| tell(one, reader)).collect()
}

fn tell(one: &Unheard, reader: Reader) -> Told {
    let typed = [("typed", &*one.typed), ("fact", &*one.path)];
    let plain = |key: &str| (reader.say_with(key, &typed), None);
    let of_fault = |fault: &Fault| (fault.message.clone(), fault.help.clone());
    let (message, help) = match &one.why {
        Why::NoPlace if one.path == PLACE && one.typed.is_empty() => (reader.say("pages-wrong-place-missing"), None),
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
            Problem::NoNumber { most } => {
                let parts = [("typed", &*one.typed), ("most", &*most.to_string())];
                (reader.say_with("pages-wrong-number", &parts), None)
            }
            Problem::SeveralFit { .. } => plain("pages-wrong-several"),
            Problem::NoPlace { .. } => plain("pages-wrong-no-place"),
            Problem::PlaceNeeded => (reader.say("pages-wrong-place-missing"), None),
            Problem::SeveralPlaces { .. } => plain("pages-wrong-places"),
            Problem::NoCount => plain("pages-wrong-count"),
            Problem::Unread(fault) => of_fault(fault),
        },
    };
    let near = match &one.why {
        Why::Wrong(wrong) => match &wrong.problem {
            Problem::Unread(fault) => fault.near.clone(),
            _ => one.near().to_vec(),
        },
        _ => one.near().to_vec(),
    };
    Told { path: one.path.clone(), typed: one.typed.clone(), message, help, near }
}
