//! A verdict without reasons, for many jobs in a row.

use super::model::Outcome;
use super::outcome;
use super::truth::Matter;
use super::weigh::{Scratch, over_all};

/// The outcome of a job; what is found of each question stays in the scratch.
/// Nothing is asked for that the scratch does not hold already, as long as every
/// fact is stated.
pub(crate) fn quick(matter: &Matter<'_>, scratch: &mut Scratch) -> Outcome {
    scratch.weigh(matter);
    let Scratch { memo, found, .. } = scratch;
    let governed = matter.law.governed.iter().map(|(_, cond)| over_all(matter, memo, *cond));
    outcome::of(matter.plan, found, governed)
}
