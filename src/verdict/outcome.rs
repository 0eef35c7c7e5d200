//! The worst of what is found of a job's questions.

use super::found::{Finding, Found, State};
use super::model::Outcome;
use super::plan::{Plan, Show};
use super::truth::Mark;

/// The outcome, given what is found of each question in the law's order and
/// whether each subject that must be governed is reached by a code.
pub(crate) fn of(plan: &Plan, found: &[Found], governed: impl Iterator<Item = Mark>) -> Outcome {
    let mut outcome = Outcome::Complies;
    for reached in governed {
        outcome = outcome.max(match reached {
            Mark::Yes => Outcome::Complies,
            Mark::No | Mark::Refers => Outcome::Refer,
            Mark::Open => Outcome::Open,
        });
    }
    for (found, ask) in found.iter().zip(&plan.asks) {
        if found.state == State::Silent {
            continue;
        }
        outcome = outcome.max(match found.state {
            State::Conflict => Outcome::Conflict,
            // An idle question holds nothing up: where no jumper is asked for, nobody has to rule on its size.
            _ if !found.asked => Outcome::Complies,
            State::Referred => Outcome::Refer,
            // An answer that may be referred is not shown to be done.
            State::Open if found.may_refer || ask.show == Show::Nothing => Outcome::Open,
            _ => Outcome::Complies,
        });
        if found.no_equivalent {
            outcome = outcome.max(Outcome::Refer);
        }
        outcome = outcome.max(match found.finding {
            Some(Finding::NotMet) => Outcome::Corrections,
            Some(Finding::Open) => Outcome::Open,
            Some(Finding::Met) | None => Outcome::Complies,
        });
    }
    outcome
}
