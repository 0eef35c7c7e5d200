//! The time line of a place: which editions stood when, subject by subject, what amends them,
//! where an applicant could choose between two texts, what ended and what is coming.
//!
//! The place is looked at on every day that its law names, by the same evaluator that answers
//! for a job all of whose dates are that day; nothing is read off the instruments' own days that
//! a later instrument may have overtaken. This module refuses to know the clock.

mod bars;
mod collect;
pub(in crate::report) mod draw;
mod list;
mod svg;
#[cfg(test)]
mod tests;

pub(crate) use collect::time_line;
pub(crate) use svg::svg;

use crate::values::Date;
use serde::{Serialize, Serializer};

/// The whole time line.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct TimeLine {
    /// Names, outermost first.
    pub(crate) place: Vec<String>,
    pub(crate) title: String,
    /// Lanes from the top; none is empty.
    pub(crate) lanes: Vec<Lane>,
    /// What is proposed, or enacted without a day.
    pub(crate) coming: Vec<Coming>,
    /// Days to be marked, the earliest first.
    pub(crate) marks: Vec<Marked>,
}

/// Bars of one kind.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Lane {
    /// `editions`, `transitions`, `own-law` or `advice`.
    pub(crate) kind: &'static str,
    pub(crate) title: String,
    pub(crate) bars: Vec<Bar>,
}

/// One text over time.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Bar {
    /// The text in words.
    pub(crate) label: String,
    /// The instrument that makes it law.
    pub(crate) by: String,
    pub(crate) issuer: String,
    /// Under which facts of a job it holds; empty where for every job.
    #[serde(rename = "where", skip_serializing_if = "String::is_empty")]
    pub(crate) scope: String,
    /// What it does, where the label does not say all.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub(crate) does: String,
    /// Stretches that follow each other; there may be gaps.
    pub(crate) spans: Vec<Stretch>,
    /// The instrument that ended it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) ended_by: Option<String>,
    /// Whether it is taken as in force still, its end not being established.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub(crate) end_not_known: bool,
}

/// Days through which a text stands in one way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Stretch {
    #[serde(serialize_with = "day")]
    pub(crate) from: Date,
    /// The last day; none where none is known.
    #[serde(serialize_with = "last_day", skip_serializing_if = "Option::is_none")]
    pub(crate) through: Option<Date>,
    pub(crate) how: How,
}

/// In which way a text stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum How {
    InForce,
    /// The applicant may elect it, or another.
    Elective,
    /// The days of an instrument are not established.
    NotKnown,
    Suspended,
}

impl How {
    /// All of them, in the order of the legend.
    pub(crate) const ALL: [How; 4] = [How::InForce, How::Elective, How::NotKnown, How::Suspended];
}

/// An instrument without a day.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Coming {
    pub(crate) instrument: String,
    pub(crate) issuer: String,
    pub(crate) title: String,
    /// `proposed` or `enacted`.
    pub(crate) status: &'static str,
    /// All of it in words.
    pub(crate) words: String,
}

/// A day that is marked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Marked {
    #[serde(serialize_with = "day")]
    pub(crate) on: Date,
    pub(crate) label: String,
    /// Whether it is today; other days are those of a job, or asked about.
    pub(crate) today: bool,
}

fn day<S: Serializer>(day: &Date, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(day)
}

fn last_day<S: Serializer>(day: &Option<Date>, serializer: S) -> Result<S::Ok, S::Error> {
    match day {
        Some(day) => serializer.collect_str(day),
        None => serializer.serialize_none(),
    }
}
