//! Answers of different laws held against each other by their question's own order.
//!
//! Within one law a limit is a rank on that law's own scale, so that ranks of two laws say
//! nothing of each other. Here an answer is measured in what all laws share, amounts and terms,
//! and compared part by part. Referrals and contradictions have no place in the order; whoever
//! compares looks at them first.

use super::answer::Parts;
use crate::glossary::model::Order;
use crate::law::model::QuestionLaw;
use crate::values::{Exact, Terms};
use std::cmp::Ordering;

/// One part of an answer in the measure that all laws share.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Measured {
    Rung(u128),
    Limit(Exact),
    Terms(Terms),
}

/// The parts of an answer under a law; nothing for one without a limit or with everything
/// permitted.
pub(crate) fn measured(order: &Order, law: &QuestionLaw, parts: &Parts) -> Vec<Option<Measured>> {
    let one = |part: u128| match order {
        Order::Ladder(_) => Some(Measured::Rung(part)),
        Order::AtLeast(_) | Order::AtMost(_) => {
            let rank = usize::try_from(part.checked_sub(1)?).ok()?;
            law.scale.get(rank).map(|limit| Measured::Limit(limit.amount))
        }
        Order::Only(_) => {
            let permitted = Terms(part).common(law.terms);
            (permitted != law.terms).then_some(Measured::Terms(permitted))
        }
        Order::AllOf(_) => Some(Measured::Terms(Terms(part))),
    };
    parts.as_slice().iter().map(|part| one(*part)).collect()
}

/// Whether one answer is stricter (greater) than another, part by part; nothing where it is
/// stricter in one part and looser in another, or where neither of two sets holds the other.
pub(crate) fn compared(order: &Order, one: &[Option<Measured>], other: &[Option<Measured>]) -> Option<Ordering> {
    let mut whole = Ordering::Equal;
    for at in 0..one.len().max(other.len()) {
        let part = |of: &[Option<Measured>]| of.get(at).cloned().flatten();
        let here = strictness(order, part(one), part(other))?;
        whole = match (whole, here) {
            (Ordering::Equal, here) => here,
            (whole, Ordering::Equal) => whole,
            (whole, here) if whole == here => whole,
            _ => return None,
        };
    }
    Some(whole)
}

/// Whether one part is stricter (greater) than another; nothing where neither is.
fn strictness(order: &Order, one: Option<Measured>, other: Option<Measured>) -> Option<Ordering> {
    let sets = |wide: bool, narrow: bool| match (wide, narrow) {
        (true, true) => Some(Ordering::Equal),
        (true, false) => Some(Ordering::Greater),
        (false, true) => Some(Ordering::Less),
        (false, false) => None,
    };
    match (order, one, other) {
        (_, None, None) => Some(Ordering::Equal),
        (_, Some(_), None) => Some(Ordering::Greater),
        (_, None, Some(_)) => Some(Ordering::Less),
        (Order::AtMost(_), Some(Measured::Limit(one)), Some(Measured::Limit(other))) => Some(other.cmp(&one)),
        (_, Some(Measured::Limit(one)), Some(Measured::Limit(other))) => Some(one.cmp(&other)),
        (_, Some(Measured::Rung(one)), Some(Measured::Rung(other))) => Some(one.cmp(&other)),
        (Order::Only(_), Some(Measured::Terms(one)), Some(Measured::Terms(other))) => {
            sets(one.within(other), other.within(one))
        }
        (_, Some(Measured::Terms(one)), Some(Measured::Terms(other))) => sets(other.within(one), one.within(other)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::glossary::model::{ChoiceId, Scale};

    fn rung(at: u128) -> Vec<Option<Measured>> {
        vec![Some(Measured::Rung(at))]
    }

    fn limits(all: &[i128]) -> Vec<Option<Measured>> {
        all.iter().map(|one| Some(Measured::Limit(Exact::from_integer(*one)))).collect()
    }

    fn terms(bits: u128) -> Vec<Option<Measured>> {
        vec![Some(Measured::Terms(Terms(bits)))]
    }

    #[test]
    fn a_later_rung_is_stricter() {
        let ladder = Order::Ladder(vec!["a".into(), "b".into()]);
        assert_eq!(compared(&ladder, &rung(1), &rung(0)), Some(Ordering::Greater));
        assert_eq!(compared(&ladder, &rung(0), &rung(0)), Some(Ordering::Equal));
    }

    #[test]
    fn no_limit_is_loosest_on_either_side() {
        for order in [Order::AtLeast(Scale::Count), Order::AtMost(Scale::Count)] {
            assert_eq!(compared(&order, &limits(&[75]), &[None]), Some(Ordering::Greater), "{order:?}");
        }
        assert_eq!(compared(&Order::AtMost(Scale::Count), &limits(&[50]), &limits(&[75])), Some(Ordering::Greater));
        assert_eq!(compared(&Order::AtLeast(Scale::Count), &limits(&[50]), &limits(&[75])), Some(Ordering::Less));
    }

    #[test]
    fn sets_are_compared_only_where_one_holds_the_other() {
        let (only, all) = (Order::Only(ChoiceId(0)), Order::AllOf(ChoiceId(0)));
        assert_eq!(compared(&only, &terms(0b01), &terms(0b11)), Some(Ordering::Greater));
        assert_eq!(compared(&only, &terms(0b01), &[None]), Some(Ordering::Greater));
        assert_eq!(compared(&only, &terms(0b01), &terms(0b10)), None);
        assert_eq!(compared(&all, &terms(0b11), &terms(0b10)), Some(Ordering::Greater));
        assert_eq!(compared(&all, &terms(0b01), &terms(0b10)), None);
    }

    #[test]
    fn parts_that_pull_both_ways_are_not_compared() {
        let order = Order::AtLeast(Scale::Count);
        assert_eq!(compared(&order, &limits(&[6, 4]), &limits(&[4, 6])), None);
        assert_eq!(compared(&order, &limits(&[6, 6]), &limits(&[6, 4])), Some(Ordering::Greater));
    }
}
