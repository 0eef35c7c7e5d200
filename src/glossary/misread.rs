//! What is wrong with a value that somebody typed, apart from any language; in print in
//! English, as diagnostics have it.

use super::cut;
use crate::values::Date;
use std::fmt;

/// Why a value cannot be read. The text that was typed is cut to what a message shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Misread {
    NoDate(String),
    NotYesNo(String),
    NoFigure(String),
    NoUnit(String),
    /// A unit where a bare count is asked.
    UnitAtCount(String),
    /// With the units that fit.
    UnknownUnit {
        unit: String,
        fit: Vec<&'static str>,
    },
    /// A unit that measures something else than is asked, with those that fit.
    OtherMeasure {
        typed: String,
        fit: Vec<&'static str>,
    },
    /// With the printed gauges on either side of it.
    NoGauge {
        typed: String,
        beside: Option<[&'static str; 2]>,
    },
    /// A wire of no size.
    NoConductor(String),
    NoName(String),
    /// A word of the language of rules.
    Reserved(String),
    NoCodeName(String),
    UnknownCode(String),
    UnknownTerm {
        term: String,
        choice: String,
    },
    Twice(String),
    /// A limit is passed.
    Past {
        name: &'static str,
        most: usize,
        unit: &'static str,
    },
    /// A date before one that it is never before, by the names of both.
    Early {
        late: String,
        day: Date,
        early: String,
        first: Date,
    },
}

impl Misread {
    /// A term that a choice does not have.
    pub(crate) fn term(term: &str, choice: &str) -> Misread {
        Misread::UnknownTerm { term: cut(term), choice: choice.to_owned() }
    }
}

impl fmt::Display for Misread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Misread::NoDate(typed) => write!(f, "`{typed}` is not a date that exists"),
            Misread::NotYesNo(typed) => write!(f, "`{typed}` is neither `yes` nor `no`"),
            Misread::NoFigure(typed) => write!(f, "`{typed}` cannot be read as a figure"),
            Misread::NoUnit(typed) => write!(f, "`{typed}` has no unit"),
            Misread::UnitAtCount(typed) => write!(f, "`{typed}` has a unit where a bare count is asked"),
            Misread::UnknownUnit { unit, .. } => write!(f, "the unit `{unit}` is not known"),
            Misread::OtherMeasure { typed, .. } => write!(f, "`{typed}` measures something else than is asked"),
            Misread::NoGauge { typed, .. } => write!(f, "`{typed}` is not a printed wire gauge"),
            Misread::NoConductor(typed) => write!(f, "`{typed}` is no conductor"),
            Misread::NoName(typed) => write!(f, "`{typed}` is not a name"),
            Misread::Reserved(typed) => write!(f, "`{typed}` is a word of the language and no name"),
            Misread::NoCodeName(typed) => write!(f, "`{typed}` is not the name of a code"),
            Misread::UnknownCode(name) => write!(f, "no code has the name `{name}`"),
            Misread::UnknownTerm { term, choice } => write!(f, "`{term}` is not a term of `{choice}`"),
            Misread::Twice(what) => write!(f, "`{what}` is said twice"),
            Misread::Past { name, most, unit } => write!(f, "the limit `{name}` is passed: at most {most} {unit}"),
            Misread::Early { late, day, early, first } => {
                write!(f, "`{late}` is {day}, before `{early}`, which is {first}")
            }
        }
    }
}
