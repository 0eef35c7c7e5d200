//! A job that grows by one answer at a time: a beginning of which nothing is
//! known, single values in the words of a job sheet, and the check of the whole.

use super::draft::{Draft, NO_NAME, twice};
use super::model::{Given, Job};
use super::{Defaults, Desk};
use crate::glossary::model::{FieldId, PlaceId, Shape};
use crate::glossary::{self, Fault};
use crate::values::Terms;

/// A single value as a job sheet has it, taken apart into its words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Written {
    /// `none`
    None,
    /// A term, a name, a code, a date, `yes` or `no`; for several terms one each.
    Words(Vec<String>),
    /// A figure and its unit; a count has none.
    Figure(String, Option<String>),
}

impl Desk<'_> {
    /// A job of which nothing is known but its place and what the options say.
    ///
    /// # Errors
    /// Where the options contradict each other; with the fact that does.
    pub(crate) fn blank(self, place: PlaceId, defaults: &Defaults) -> Result<Job, Vec<(FieldId, Fault)>> {
        Draft::new(self, place).finish(defaults)
    }

    /// The job, where nothing in it contradicts another part of it.
    ///
    /// # Errors
    /// Where a date lies before one that it is never before; with the fact that does.
    pub(crate) fn checked(self, job: Job) -> Result<Job, Vec<(FieldId, Fault)>> {
        Draft::of(self, job).finish(&Defaults::default())
    }

    /// The value of a fact at a place.
    ///
    /// # Errors
    /// Where it does not fit the shape of the fact.
    pub(crate) fn value_written(self, field: FieldId, written: &Written, place: PlaceId) -> Result<Given, Fault> {
        let shape = self.glossary[field].shape;
        match (shape, written) {
            (Shape::Date, Written::None) => Ok(Given::NoDate),
            (Shape::Several(_), Written::None) => Ok(Given::Set(Terms::NONE)),
            (Shape::Name, Written::None) => self.word(shape, NO_NAME, place),
            (_, Written::None) => Err(self.misfit(shape, "`none`")),
            (Shape::Several(choice), Written::Words(words)) => {
                let mut all = Terms::NONE;
                for word in words {
                    let term = self.glossary.term_named(choice, word, Some(place), self.territory)?;
                    if all.has(term) {
                        return Err(twice(word));
                    }
                    all = all.union(Terms::one(term));
                }
                Ok(Given::Set(all))
            }
            (_, Written::Words(words)) => match (shape, words.as_slice()) {
                (Shape::Date, [word]) => glossary::date(word).map(Given::Date),
                (_, [word]) => self.word(shape, word, place),
                _ => Err(self.misfit(shape, "a list of values")),
            },
            (_, Written::Figure(number, unit)) => match shape.scale() {
                Some(scale) => glossary::measure(scale, number, unit.as_deref()).map(Given::Measure),
                None => {
                    let shown = unit.as_ref().map_or_else(|| number.clone(), |unit| format!("{number} {unit}"));
                    Err(self.misfit(shape, &format!("`{}`", glossary::cut(&shown))))
                }
            },
        }
    }
}
