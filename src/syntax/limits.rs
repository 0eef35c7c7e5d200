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
    help: &'static str,
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
pub(crate) const NUMBER: Limit = Limit { name: "length of a number", most: 18, unit: "digits", help: "write a shorter figure" };
/// The characters of one name, code, id or number of a section.
pub(crate) const NAME: Limit = Limit { name: "length of a name", most: 64, unit: "characters", help: "choose a shorter name" };
/// The characters of one text in double quotes.
pub(crate) const TEXT: Limit = Limit { name: "length of a text", most: 4_000, unit: "characters", help: "shorten the text" };
/// How many errors of syntax are shown for one file; the rest come up when these are mended.
pub(crate) const SHOWN: usize = 100;

impl Limit {
    /// The error for an input that passes this limit.
    pub(crate) fn passed(&self, at: Location) -> Diagnostic {
        let Limit { name, most, unit, help } = self;
        Diagnostic::new(codes::LIMIT, at, format!("the limit `{name}` is passed: at most {most} {unit}")).help(*help)
    }
}
