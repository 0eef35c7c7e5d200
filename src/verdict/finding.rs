//! Whether a job does what an answer asks, in one completion.

use super::answer::{Answer, Way};
use super::found::Standing;
use super::plan::Ask;
use crate::job::model::Given;
use crate::law::model::{Demand, QuestionLaw};
use crate::values::Terms;

/// What an answer asks of the thing that is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Need {
    Nothing,
    /// It contradicts itself.
    Contradiction,
    NoEquivalent,
    /// It cannot be told which part of the answer is the job's own.
    Untold,
    Part(u128),
}

/// What an answer asks, given the job's own term for a `per` question.
pub(crate) fn need(ask: &Ask, answer: &Answer, term: Option<&Given>) -> Need {
    if answer.conflict {
        return Need::Contradiction;
    }
    if ask.form.is_loosest(&answer.parts) {
        return Need::Nothing;
    }
    let part = match (ask.per, term) {
        (None, _) => 0,
        (Some(_), Some(Given::Term(term))) => {
            if answer.unnamed.has(*term) {
                return Need::NoEquivalent;
            }
            usize::from(*term)
        }
        _ => return Need::Untold,
    };
    answer.parts.part(part).map_or(Need::Untold, Need::Part)
}

/// Whether the measured value does what is needed.
pub(crate) fn compare(ask: &Ask, law: &QuestionLaw, need: Need, value: &Given) -> Standing {
    let part = match need {
        Need::Nothing => return Standing::Absent,
        Need::Contradiction | Need::Untold => return Standing::Open,
        Need::NoEquivalent => return Standing::NoEquivalent,
        Need::Part(part) => part,
    };
    let held = match value {
        Given::Term(term) => Some(Terms::one(*term)),
        Given::Set(terms) => Some(*terms),
        _ => None,
    };
    let done = match (ask.form.way, value, held) {
        (Way::AtLeast | Way::AtMost, Given::Measure(measure), _) => {
            if part == 0 {
                true
            } else {
                let limit = usize::try_from(part - 1).ok().and_then(|rank| law.scale.get(rank));
                match (limit, ask.form.way) {
                    (Some(limit), Way::AtLeast) => measure.amount >= limit.amount,
                    (Some(limit), _) => measure.amount <= limit.amount,
                    (None, _) => return Standing::Open,
                }
            }
        }
        (Way::Only, _, Some(held)) => held.within(Terms(part)),
        (Way::AllOf, _, Some(held)) => Terms(part).within(held),
        _ => return Standing::Open,
    };
    if done { Standing::Met } else { Standing::NotMet }
}

/// Whether the measured value surely does otherwise than this demand asks, whatever else
/// binds; `term` is the job's own for a `per` question.
pub(crate) fn goes_against(ask: &Ask, law: &QuestionLaw, demand: &Demand, term: Option<&Given>, value: &Given) -> bool {
    let part = match (ask.per, term) {
        (None, _) => 0,
        (Some(_), Some(Given::Term(term))) => usize::from(*term),
        _ => return false,
    };
    let asked = ask.form.demanded(demand, part);
    asked.is_some_and(|part| compare(ask, law, Need::Part(part), value) == Standing::NotMet)
}

/// A finding shown by a condition: met where it holds, open where it turns on a
/// referred question.
pub(crate) fn shown(ask: &Ask, answer: &Answer, holds: Option<bool>) -> Standing {
    match need(ask, answer, None) {
        Need::Nothing => Standing::Absent,
        Need::Contradiction => Standing::Open,
        _ => match holds {
            Some(true) => Standing::Met,
            Some(false) => Standing::NotMet,
            None => Standing::Open,
        },
    }
}

/// A finding held back while the question is idle; where that turns on a
/// referred question, only what is met stands.
pub(crate) fn held_back(standing: Standing, asked: Option<bool>) -> Standing {
    match asked {
        Some(true) => standing,
        Some(false) => Standing::Absent,
        None => match standing {
            Standing::Absent | Standing::Met => standing,
            _ => Standing::Open,
        },
    }
}
