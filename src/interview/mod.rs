//! In which order a reader is asked what still matters of a job, and how an
//! answer typed by a person is read.
//!
//! The place and the date come first, then what the reader can know, stage by
//! stage, then what others have to be asked. A fact is asked only while it can
//! still change an answer to a question that is asked of the job; what the job
//! says already stands beside it, to be shown and changed.
//!
//! This module refuses to print, to word anything for a screen, and to decide
//! anything about the law: what could change an answer is what the verdict says.
//! It has no second reader of values: what is typed is brought into the spelling
//! of a job sheet, and `job` reads it.

mod agenda;
mod figures;
mod forms;
pub(crate) mod link;
mod names;
mod order;
mod read;
mod so_far;
mod step;
mod turns;

#[cfg(test)]
pub(crate) mod tests;

pub(crate) use agenda::{agenda, idle, open};
pub(crate) use read::{Problem, Wrong, read};
pub(crate) use so_far::{Refused, Reply, SoFar};
pub(crate) use step::{Change, Form, Mark, Pick, Said, Step, Topic};
pub(crate) use turns::turns_on;

/// Who answers, and in which order a job goes through its stages: words of the
/// glossary's `known to WHO at WHEN`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Asker<'w> {
    pub(crate) who: &'w str,
    /// The first stage first; stages that are not named come after these.
    pub(crate) stages: &'w [&'w str],
}
