//! Whether an answer becomes stricter or looser, by its question's own order.

use super::{Bench, Change, Held, Key};
use crate::glossary::model::Order;
use crate::verdict::strictness;
use std::cmp::Ordering;

/// What becomes of an answer, the graver first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Direction {
    /// The texts contradict each other where they did not.
    Contradicts,
    Stricter,
    Looser,
    /// In part stricter and in part looser, or neither.
    Otherwise,
    /// The text leaves to the authority what it did not leave to it.
    Leaves,
    /// The text says itself what it left to the authority.
    Decides,
    /// The texts contradict each other no longer.
    Reconciles,
}

impl Bench<'_> {
    /// What becomes of the answer of the jobs of a change.
    pub(crate) fn direction(&self, change: &Change) -> Direction {
        let order = self.joint.law.questions.get(change.after.at).and_then(|law| self.question(law.question));
        let (before, after) = (&change.before, &change.after);
        let keys = (self.key(before.at, &before.answer), self.key(after.at, &after.answer));
        order.map_or(Direction::Otherwise, |question| compared(&question.order, &keys.0, &keys.1))
    }

    /// Whether an answer asks nothing.
    pub(crate) fn asks_nothing(&self, held: &Held) -> bool {
        let matter = self.ground.matter();
        matter.plan.asks.get(held.at).is_some_and(|ask| ask.form.is_loosest(&held.answer.parts))
    }
}

fn compared(order: &Order, before: &Key, after: &Key) -> Direction {
    match (before.conflict, after.conflict) {
        (false, true) => return Direction::Contradicts,
        (true, false) => return Direction::Reconciles,
        _ => {}
    }
    match (before.refer, after.refer) {
        (false, true) => return Direction::Leaves,
        (true, false) => return Direction::Decides,
        _ => {}
    }
    match strictness::compared(order, &after.parts, &before.parts) {
        Some(Ordering::Greater) => Direction::Stricter,
        Some(Ordering::Less) => Direction::Looser,
        Some(Ordering::Equal) | None => Direction::Otherwise,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::glossary::model::{ChoiceId, Scale};
    use crate::values::{Exact, Terms};
    use crate::verdict::strictness::Measured;

    fn key(part: Option<Measured>) -> Key {
        Key { parts: vec![part], refer: false, conflict: false }
    }

    #[test]
    fn each_order_has_its_strict_end() {
        let ladder = Order::Ladder(vec!["a".into(), "b".into()]);
        let rung = |at| key(Some(Measured::Rung(at)));
        assert_eq!(compared(&ladder, &rung(0), &rung(1)), Direction::Stricter);
        assert_eq!(compared(&ladder, &rung(1), &rung(0)), Direction::Looser);
        let feet = |feet| key(Some(Measured::Limit(Exact::from_integer(feet))));
        assert_eq!(compared(&Order::AtMost(Scale::Count), &feet(75), &feet(50)), Direction::Stricter);
        assert_eq!(compared(&Order::AtLeast(Scale::Count), &feet(75), &feet(50)), Direction::Looser);
        assert_eq!(compared(&Order::AtMost(Scale::Count), &key(None), &feet(50)), Direction::Stricter);
        let terms = |bits| key(Some(Measured::Terms(Terms(bits))));
        let (only, all) = (Order::Only(ChoiceId(0)), Order::AllOf(ChoiceId(0)));
        assert_eq!(compared(&only, &terms(0b11), &terms(0b01)), Direction::Stricter);
        assert_eq!(compared(&only, &terms(0b01), &key(None)), Direction::Looser);
        assert_eq!(compared(&only, &terms(0b01), &terms(0b10)), Direction::Otherwise);
        assert_eq!(compared(&all, &terms(0b01), &terms(0b11)), Direction::Stricter);
        assert_eq!(compared(&all, &terms(0b11), &terms(0b10)), Direction::Looser);
    }

    #[test]
    fn parts_that_pull_both_ways_are_neither() {
        let two = |one, other| Key {
            parts: vec![
                Some(Measured::Limit(Exact::from_integer(one))),
                Some(Measured::Limit(Exact::from_integer(other))),
            ],
            refer: false,
            conflict: false,
        };
        assert_eq!(compared(&Order::AtLeast(Scale::Count), &two(6, 4), &two(4, 6)), Direction::Otherwise);
        assert_eq!(compared(&Order::AtLeast(Scale::Count), &two(6, 4), &two(6, 6)), Direction::Stricter);
    }

    #[test]
    fn a_referral_or_a_contradiction_is_told_before_any_figure() {
        let ladder = Order::Ladder(vec!["a".into(), "b".into()]);
        let left = Key { refer: true, ..key(Some(Measured::Rung(0))) };
        let torn = Key { conflict: true, ..key(Some(Measured::Rung(1))) };
        assert_eq!(compared(&ladder, &left, &key(Some(Measured::Rung(1)))), Direction::Decides);
        assert_eq!(compared(&ladder, &key(Some(Measured::Rung(1))), &left), Direction::Leaves);
        assert_eq!(compared(&ladder, &key(Some(Measured::Rung(0))), &torn), Direction::Contradicts);
        assert_eq!(compared(&ladder, &torn, &left), Direction::Reconciles);
    }
}
