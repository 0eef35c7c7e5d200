//! A job description checked against the glossary, from JSON or a job sheet,
//! and back to both.
//!
//! This module refuses to know the law. Of places it knows what a [`Gazetteer`]
//! and a [`Territory`] tell it.

mod dates;
mod draft;
mod json;
mod keys;
pub(crate) mod model;
mod moved;
mod node;
mod problem;
mod sheet;
mod so_far;
mod write;
mod write_sheet;

#[cfg(test)]
mod tests;

pub(crate) use draft::{NO_NAME, reference};
pub(crate) use json::read_json;
pub(crate) use moved::{Left, dated, moved};
pub(crate) use problem::{JobProblem, code_of};
pub(crate) use sheet::read_sheet;
pub(crate) use so_far::Written;
pub(crate) use write::to_json;
pub(crate) use write_sheet::to_sheet;

use crate::glossary::model::PlaceId;
use crate::glossary::{Glossary, Territory};
use crate::values::Date;

/// The name of the JSON form of a job.
pub(crate) const SCHEMA: &str = "groundrule/job/1";

/// What a job asks of the module that knows places.
pub(crate) trait Gazetteer {
    /// The place that a job names: by a path such as `larkspur/harlow`, by an end
    /// of one, or by its printed name.
    ///
    /// # Errors
    /// Where no place fits, or several do.
    fn find(&self, text: &str) -> Result<PlaceId, NotFound>;

    /// The whole path of a place, such as `larkspur/harlow`.
    fn path(&self, place: PlaceId) -> String;

    /// The name of the maker or supplier whose printed name this is.
    fn issuer(&self, _printed: &str) -> Option<Box<str>> {
        None
    }

    /// The names of all codes, where they are known.
    fn codes(&self) -> Option<Vec<&str>> {
        None
    }
}

/// Why a place was not found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct NotFound {
    /// The paths of all places that fit, where several do.
    pub(crate) candidates: Vec<String>,
    /// Up to three near names, where none fits.
    pub(crate) nearest: Vec<String>,
}

/// What a job is read against.
#[derive(Clone, Copy)]
pub(crate) struct Desk<'a> {
    pub(crate) glossary: &'a Glossary,
    pub(crate) territory: &'a dyn Territory,
    pub(crate) gazetteer: &'a dyn Gazetteer,
}

/// What the options of a command say for jobs that leave it unsaid.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Defaults {
    pub(crate) place: Option<PlaceId>,
    /// For every date fact.
    pub(crate) date: Option<Date>,
}
