//! The limits of the language, by name, in one place. A larger input is refused
//! with the limit's name; nothing is cut short in silence.

use super::codes;
use super::diagnostic::{Diagnostic, Location};

/// A limit of the language.
pub(crate) struct Limit {
    /// What is limited, as it stands in messages.
    pub(crate) name: &'static str,
    /// The most that is allowed.
    pub(crate) most: usize,
    /// What is counted.
    pub(crate) unit: &'static str,
    /// What would mend it.
    pub(crate) help: &'static str,
}

/// The bytes of one file: 16 MiB.
pub(crate) const FILE: Limit =
    Limit { name: "size of a file", most: 16 * 1024 * 1024, unit: "bytes", help: "divide the file into several" };
/// How deep parentheses, braces and `not` may stand inside each other.
pub(crate) const NESTING: Limit = Limit {
    name: "nesting",
    most: 200,
    unit: "levels",
    help: "name a part of the condition with a `definition` and use its name",
};
/// The digits of one number.
pub(crate) const NUMBER: Limit =
    Limit { name: "length of a number", most: 18, unit: "digits", help: "write a shorter figure" };
/// The characters of one name, code, id or number of a section.
pub(crate) const NAME: Limit =
    Limit { name: "length of a name", most: 64, unit: "characters", help: "choose a shorter name" };
/// The characters of one text in double quotes.
pub(crate) const TEXT: Limit =
    Limit { name: "length of a text", most: 4_000, unit: "characters", help: "shorten the text" };
/// The declarations of one kind, as far as they are numbered.
pub(crate) const DECLARATIONS: Limit =
    Limit { name: "declarations of one kind", most: 65_535, unit: "in all files", help: "load fewer files together" };
/// The terms of one choice, those that places add included, and the rungs of a ladder.
pub(crate) const TERMS: Limit =
    Limit { name: "terms of a choice", most: 128, unit: "terms or rungs", help: "divide it into two" };
/// How large a condition may become when definitions are put in place.
pub(crate) const CONDITION: Limit = Limit {
    name: "size of a condition",
    most: 1_000,
    unit: "parts with its definitions",
    help: "use fewer or smaller definitions",
};
/// The entries of one list of a job.
pub(crate) const ENTRIES: Limit =
    Limit { name: "entries of a list", most: 10_000, unit: "entries", help: "divide the job into several" };
/// The jobs in one text.
pub(crate) const JOBS: Limit =
    Limit { name: "jobs in one text", most: 10_000, unit: "jobs", help: "divide the jobs into several texts" };
/// How deep lists and objects may stand inside each other in a job; it needs four.
pub(crate) const JOB_NESTING: Limit =
    Limit { name: "nesting of a job", most: 100, unit: "levels", help: "no value of a job is nested so deep" };
/// How many errors of syntax are shown for one file; the rest come up when these are mended.
pub(crate) const SHOWN: usize = 100;

impl Limit {
    /// The error for an input that passes this limit.
    pub(crate) fn passed(&self, at: Location) -> Diagnostic {
        let Limit { name, most, unit, help } = self;
        Diagnostic::new(codes::LIMIT, at, format!("the limit `{name}` is passed: at most {most} {unit}")).help(*help)
    }
}
