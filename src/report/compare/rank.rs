//! Which of several answers to one question is the strictest, by that question's own order.
//!
//! The order itself is the evaluator's ([`crate::verdict::strictness`]); here stands only which
//! answers take part. An answer that is open, left to the authority, contradicted or silent says
//! no one thing and is not ranked.

use crate::glossary::model::Order;
use crate::values::Terms;
use crate::verdict::strictness::{Measured, compared};
use std::cmp::Ordering;

/// Why an answer is not ranked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unranked {
    /// Facts are missing that could change it.
    Open,
    /// The text leaves it to the authority.
    Referred,
    /// The texts contradict each other.
    Conflict,
    /// No text known binds.
    Silent,
    /// It is not asked of this job there, and is elsewhere.
    Idle,
    /// The place has no such question.
    Absent,
}

impl Unranked {
    /// The word in JSON.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Unranked::Open => "open",
            Unranked::Referred => "referred",
            Unranked::Conflict => "conflict",
            Unranked::Silent => "silent",
            Unranked::Idle => "not-asked",
            Unranked::Absent => "no-such-question",
        }
    }
}

/// How an answer stands among the others.
#[derive(Clone, Debug)]
pub(super) enum Stand {
    Ranked {
        parts: Vec<Option<Measured>>,
        /// For an answer given term by term, the terms that it names.
        named: Terms,
    },
    /// What it would be about is prohibited: stricter than any demand.
    Above,
    Unranked {
        why: Unranked,
        /// What it asks at the least, whatever the missing facts are.
        floor: Option<Vec<Option<Measured>>>,
    },
}

/// Which answers of a row are marked.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Ranking {
    /// For each answer, whether no ranked one is stricter and some ranked one is looser.
    pub(super) strictest: Vec<bool>,
    /// Whether ranked answers differ and yet none is as strict as all others.
    pub(super) torn: bool,
}

/// Ranks the answers of a row.
pub(super) fn rank(order: &Order, row: &[Stand]) -> Ranking {
    let ranked = || row.iter().filter(|stand| !matches!(stand, Stand::Unranked { .. }));
    let leads = |one: &Stand| {
        let mut above_some = false;
        for other in ranked() {
            match against(order, one, other) {
                Some(Ordering::Greater) => above_some = true,
                Some(Ordering::Equal) => {}
                Some(Ordering::Less) | None => return false,
            }
        }
        above_some && !row.iter().any(|other| surely_stricter(order, other, one))
    };
    let strictest: Vec<bool> = row.iter().map(|one| !matches!(one, Stand::Unranked { .. }) && leads(one)).collect();
    let differ = ranked().zip(ranked().skip(1)).any(|(one, two)| against(order, one, two) != Some(Ordering::Equal));
    let torn = differ && !strictest.contains(&true);
    Ranking { strictest, torn }
}

/// Whether one ranked answer is stricter (greater) than another.
fn against(order: &Order, one: &Stand, other: &Stand) -> Option<Ordering> {
    match (one, other) {
        (Stand::Above, Stand::Above) => Some(Ordering::Equal),
        (Stand::Above, Stand::Ranked { .. }) => Some(Ordering::Greater),
        (Stand::Ranked { .. }, Stand::Above) => Some(Ordering::Less),
        (Stand::Ranked { parts: one, named: mine }, Stand::Ranked { parts: other, named: theirs }) => {
            // A text that names one metal alone says nothing of another, so that
            // who follows the text that names both may not do what the other asks.
            let comparable = mine == theirs || mine.is_empty() || theirs.is_empty();
            comparable.then(|| compared(order, one, other)).flatten()
        }
        _ => None,
    }
}

/// Whether an answer that is not ranked asks more at the least than a ranked one does.
fn surely_stricter(order: &Order, open: &Stand, ranked: &Stand) -> bool {
    match (open, ranked) {
        (Stand::Unranked { floor: Some(floor), .. }, Stand::Ranked { parts, .. }) => {
            compared(order, floor, parts) == Some(Ordering::Greater)
        }
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::glossary::model::{ChoiceId, Scale};
    use crate::values::Exact;
    use proptest::prelude::*;

    fn ranked(part: Option<Measured>) -> Stand {
        Stand::Ranked { parts: vec![part], named: Terms::NONE }
    }

    fn rung(at: u128) -> Stand {
        ranked(Some(Measured::Rung(at)))
    }

    fn limit(figure: i128) -> Stand {
        ranked(Some(Measured::Limit(Exact::from_integer(figure))))
    }

    fn set(bits: u128) -> Stand {
        ranked(Some(Measured::Terms(Terms(bits))))
    }

    fn without(why: Unranked) -> Stand {
        Stand::Unranked { why, floor: None }
    }

    fn ladder() -> Order {
        Order::Ladder(vec!["a".into(), "b".into(), "c".into()])
    }

    fn marks(order: &Order, row: &[Stand]) -> Vec<bool> {
        rank(order, row).strictest
    }

    #[test]
    fn of_a_ladder_the_latest_rung_is_marked_wherever_it_stands() {
        assert_eq!(marks(&ladder(), &[rung(0), rung(1), rung(1)]), [false, true, true]);
        assert_eq!(marks(&ladder(), &[rung(1), rung(1)]), [false, false]);
    }

    #[test]
    fn of_limits_the_larger_least_and_the_smaller_most() {
        let none = || ranked(None);
        assert_eq!(marks(&Order::AtLeast(Scale::Gauge), &[limit(6), none(), limit(4)]), [true, false, false]);
        assert_eq!(marks(&Order::AtMost(Scale::Count), &[limit(75), limit(50), none()]), [false, true, false]);
    }

    #[test]
    fn of_sets_only_one_that_all_others_hold() {
        let only = Order::Only(ChoiceId(0));
        assert_eq!(marks(&only, &[set(0b011), set(0b001), ranked(None)]), [false, true, false]);
        let torn = rank(&only, &[set(0b001), set(0b010)]);
        assert_eq!(torn, Ranking { strictest: vec![false, false], torn: true });
        // Each is stricter than the third, and neither is the strictest.
        assert!(rank(&only, &[set(0b001), set(0b010), set(0b011)]).torn);
        let all = Order::AllOf(ChoiceId(0));
        assert_eq!(marks(&all, &[set(0b011), set(0b001), set(0)]), [true, false, false]);
    }

    #[test]
    fn what_says_no_one_thing_is_not_ranked_and_lets_the_rest_be() {
        for why in [Unranked::Open, Unranked::Referred, Unranked::Conflict, Unranked::Silent, Unranked::Idle] {
            assert_eq!(marks(&ladder(), &[without(why), rung(1), rung(0)]), [false, true, false], "{why:?}");
            assert_eq!(marks(&ladder(), &[without(why), rung(1)]), [false, false], "{why:?}");
        }
    }

    #[test]
    fn an_open_answer_that_surely_asks_more_leaves_nothing_to_be_marked() {
        let open = Stand::Unranked { why: Unranked::Open, floor: Some(vec![Some(Measured::Rung(2))]) };
        assert_eq!(marks(&ladder(), &[open, rung(1), rung(0)]), [false, false, false]);
    }

    #[test]
    fn a_prohibition_stands_above_every_demand() {
        assert_eq!(marks(&ladder(), &[rung(2), Stand::Above, rung(0)]), [false, true, false]);
        assert_eq!(marks(&Order::AtMost(Scale::Count), &[Stand::Above, limit(1)]), [true, false]);
    }

    #[test]
    fn texts_that_name_different_terms_are_not_compared() {
        let sized = |copper: i128, aluminum: Option<i128>, named: u128| Stand::Ranked {
            parts: [Some(copper), aluminum]
                .map(|figure| figure.map(|figure| Measured::Limit(Exact::from_integer(figure))))
                .to_vec(),
            named: Terms(named),
        };
        let order = Order::AtLeast(Scale::Gauge);
        assert!(rank(&order, &[sized(6, Some(4), 0b11), sized(6, None, 0b01)]).torn);
        assert_eq!(marks(&order, &[sized(6, Some(4), 0b11), sized(4, Some(4), 0b11)]), [true, false]);
        // An answer without a limit names nothing and is the loosest all the same.
        let none = Stand::Ranked { parts: vec![None, None], named: Terms::NONE };
        assert_eq!(marks(&order, &[sized(6, None, 0b01), none]), [true, false]);
    }

    fn orders() -> impl Strategy<Value = Order> {
        prop_oneof![
            Just(ladder()),
            Just(Order::AtLeast(Scale::Count)),
            Just(Order::AtMost(Scale::Count)),
            Just(Order::Only(ChoiceId(0))),
            Just(Order::AllOf(ChoiceId(0))),
        ]
    }

    fn part(order: &Order, number: u8) -> Option<Measured> {
        match order {
            Order::Ladder(_) => Some(Measured::Rung(u128::from(number % 3))),
            Order::AllOf(_) => Some(Measured::Terms(Terms(u128::from(number % 8)))),
            _ if number == 0 => None,
            Order::Only(_) => Some(Measured::Terms(Terms(u128::from(number % 7)))),
            _ => Some(Measured::Limit(Exact::from_integer(i128::from(number)))),
        }
    }

    proptest! {
        /// The evaluator's own comparison finds nothing stricter than what is marked, and
        /// something looser.
        #[test]
        fn nothing_is_stricter_than_what_is_marked(
            order in orders(),
            row in proptest::collection::vec((0u8..4, proptest::collection::vec(0u8..9, 2)), 1..7),
        ) {
            let stands: Vec<Stand> = row
                .iter()
                .map(|(kind, numbers)| {
                    let parts: Vec<_> = numbers.iter().map(|number| part(&order, *number)).collect();
                    match kind {
                        0 => Stand::Unranked { why: Unranked::Open, floor: Some(parts) },
                        kind => Stand::Ranked { parts, named: Terms(u128::from(*kind)) },
                    }
                })
                .collect();
            let parts = |stand: &Stand| match stand {
                Stand::Ranked { parts, .. } | Stand::Unranked { floor: Some(parts), .. } => parts.clone(),
                _ => Vec::new(),
            };
            let ranking = rank(&order, &stands);
            for (marked, _) in stands.iter().zip(&ranking.strictest).filter(|(_, marked)| **marked) {
                let ranked = matches!(marked, Stand::Ranked { .. });
                prop_assert!(ranked);
                for other in &stands {
                    prop_assert_ne!(compared(&order, &parts(other), &parts(marked)), Some(Ordering::Greater));
                }
                let looser = |other: &Stand| {
                    matches!(other, Stand::Ranked { .. })
                        && compared(&order, &parts(other), &parts(marked)) == Some(Ordering::Less)
                };
                prop_assert!(stands.iter().any(looser));
            }
        }
    }
}
