//! A job as the evaluator reads it: a value, or nothing known, for every fact.

use crate::glossary::model::PlaceId;
use crate::values::{Date, Measure, Terms};
use std::sync::Arc;

/// One job.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Job {
    pub(crate) place: PlaceId,
    /// A permit number, say; comes back in the verdict.
    pub(crate) reference: Option<Box<str>>,
    /// For every field of the glossary that is no attribute of a list, by its
    /// number; the slots of list attributes stay unknown.
    pub(crate) values: Vec<Given>,
    /// For every group of the glossary, by its number; records stay untold here.
    pub(crate) lists: Vec<Entries>,
}

/// What a job says of one fact.
#[derive(Clone, Debug, PartialEq, Default)]
pub(crate) enum Given {
    #[default]
    Unknown,
    /// A date that the job says there is none of.
    NoDate,
    Date(Date),
    /// A term of a choice; for yes-no 0 is no and 1 is yes.
    Term(u16),
    Set(Terms),
    /// A count, gauge or quantity.
    Measure(Measure),
    /// A name or a code.
    Name(Arc<str>),
}

/// What a job says of one list.
#[derive(Clone, Debug, PartialEq, Default)]
pub(crate) struct Entries {
    /// Known entries, each with a value for every attribute by its column.
    pub(crate) entries: Vec<Vec<Given>>,
    /// Whether there may be further entries of which nothing is known: so for a
    /// list that the job leaves out, and beside a `null` entry.
    pub(crate) more: bool,
}
