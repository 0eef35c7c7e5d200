//! A verdict without reasons, for many jobs in a row.

use super::found::Found;
use super::model::Outcome;
use super::outcome;
use super::truth::{Mark, Matter};
use super::weigh::{Scratch, over_all};

/// The outcome of a job, and what is found of each question in the law's order.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Quick<'s> {
    pub(crate) outcome: Outcome,
    pub(crate) found: &'s [Found],
}

/// Weighs a job. Nothing is written down that the scratch does not hold already,
/// as long as every fact is stated.
pub(crate) fn quick<'s>(matter: &Matter<'_>, scratch: &'s mut Scratch) -> Quick<'s> {
    scratch.weigh(matter);
    let mut governed = Mark::Yes;
    for (_, cond) in &matter.law.governed {
        governed = match (governed, over_all(matter, &mut scratch.memo, *cond)) {
            (_, Mark::No | Mark::Refers) | (Mark::No, _) => Mark::No,
            (_, Mark::Open) | (Mark::Open, _) => Mark::Open,
            (held, Mark::Yes) => held,
        };
    }
    let outcome = outcome::of(matter.plan, &scratch.found, std::iter::once(governed));
    Quick { outcome, found: &scratch.found }
}
