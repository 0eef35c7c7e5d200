//! From the law of a place and a job to a verdict with reasons.
//!
//! An answer is settled exactly when no completion of the job's facts could
//! change it. This module refuses to know files, text layout, clock and network.

pub(crate) mod answer;
pub(crate) mod aside;
pub(crate) mod board;
mod bounds;
mod cells;
pub(crate) mod check;
mod complete;
pub(crate) mod cone;
mod dates;
mod decide;
pub(crate) mod diagram;
mod exact;
mod facts;
mod figures;
mod finding;
pub(crate) mod found;
mod full;
mod gates;
mod hash;
mod lexicon;
mod limits;
mod lists;
pub(crate) mod logic;
pub(crate) mod model;
mod order;
mod outcome;
pub(crate) mod paths;
mod plan;
mod quick;
mod reasons;
mod stop;
pub(crate) mod strictness;
pub(crate) mod survey;
pub(crate) mod trouble;
mod truth;
pub(crate) mod value;
mod variables;
mod weigh;
mod words;

#[cfg(test)]
mod tests;

pub(crate) use answer::Way;
pub(crate) use cells::{TooMany, cells, points};
pub(crate) use check::first_reaching;
pub(crate) use facts::turned_on;
pub(crate) use figures::{amount, exactly};
pub(crate) use finding::goes_against;
pub(crate) use full::{full, held, in_part, unsettled};
pub(crate) use gates::gates;
pub(crate) use lexicon::Lexicon;
pub(crate) use order::by_parts;
pub(crate) use plan::{Look, Plan, Show};
pub(crate) use quick::quick;
pub(crate) use stop::Stop;
pub(crate) use truth::{Mark, Matter, Memo};
pub(crate) use weigh::Scratch;
pub(crate) use words::{Phrase, condition as in_words, whole as condition};
