//! One job at many places or on many days, side by side: a column for each place and day, a row
//! for each question, those first that are answered otherwise.
//!
//! Every form (text, HTML, CSV, JSON) lays out the same [`Comparison`]. This module refuses to
//! know how a verdict was reached and how a job was read.

mod ban;
mod cell;
mod column;
mod csv;
mod gather;
mod groups;
mod html;
mod rank;
mod sides;
#[cfg(test)]
mod tests;
mod text;
mod words;

pub(crate) use csv::csv;
pub(crate) use gather::Gathering;
pub(crate) use html::{Sheet, html, sheet};
pub(crate) use sides::{Axes, Side, sides, twice};
pub(crate) use text::page;

use super::cures;
use super::sheet::facts::Echo;
use crate::verdict::model::Outcome;
use cell::Cell;
use column::Column;
use serde::Serialize;
use serde_json::Value;

/// The name of the JSON form.
pub(crate) const SCHEMA: &str = "groundrule/compare/1";

/// The most columns for which choices are looked for that satisfy all of them: each multiplies the work.
pub(crate) const TOGETHER: usize = 12;

/// The most columns that are laid side by side.
pub(crate) const COLUMNS: usize = 200;

/// The whole comparison.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Comparison {
    pub(crate) schema: &'static str,
    /// The worst of all columns.
    pub(crate) outcome: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) reference: Option<String>,
    pub(crate) library: String,
    pub(crate) engine: &'static str,
    /// What the job says in every column, as it is written in a job.
    pub(crate) job: Value,
    pub(crate) columns: Vec<Column>,
    /// Those that are answered otherwise somewhere first, each kind in the order of the work.
    pub(crate) rows: Vec<Row>,
    pub(crate) cautions: Vec<String>,
    /// The fewest choices after which every column has what it asks, or that there are none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) for_all: Option<cures::Json>,
    /// The same in words.
    #[serde(skip)]
    pub(crate) for_all_words: Vec<String>,
    /// What the job says in every column, in words.
    #[serde(skip)]
    facts: Vec<Echo>,
    #[serde(skip)]
    pub(crate) worst: Outcome,
}

/// One question.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Row {
    pub(crate) question: String,
    pub(crate) title: String,
    /// Which answers are stricter: `ladder`, `at-least`, `at-most`, `only`, `all-of`.
    pub(crate) order: &'static str,
    /// Whether some column answers otherwise than another.
    pub(crate) differs: bool,
    /// The columns, counted from 0, whose answer is as strict as that of every other that is
    /// ranked, and stricter than some.
    pub(crate) strictest: Vec<usize>,
    /// Whether the ranked answers differ and none is as strict as all others.
    pub(crate) not_comparable: bool,
    /// One for each column.
    pub(crate) cells: Vec<Cell>,
    /// Whether it is asked only under a condition.
    #[serde(skip)]
    conditional: bool,
    /// Whether somebody advises on it in some column.
    #[serde(skip)]
    advised: bool,
}

impl Row {
    /// Whether no column asks it of this job, and some answers it all the same.
    fn idle(&self) -> bool {
        self.cells.iter().all(|cell| !cell.asked) && self.cells.iter().any(Cell::is_idle)
    }
}

impl Comparison {
    /// The comparison as a JSON value; every name in it is a text, so that writing it does not
    /// fail.
    pub(crate) fn to_value(&self) -> Value {
        serde_json::to_value(self).unwrap_or_else(|problem| problem.to_string().into())
    }

    /// The rows that some column answers otherwise.
    pub(crate) fn differing(&self) -> impl Iterator<Item = &Row> {
        self.rows.iter().filter(|row| row.differs)
    }
}
