//! Answers and the arithmetic of the stricter and the looser.

use crate::law::model::Demand;
use crate::values::Terms;

/// How a question orders its answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    Ladder,
    AtLeast,
    AtMost,
    Only,
    AllOf,
}

impl Way {
    /// The stricter of two parts, or what both permit, or what either demands.
    pub(crate) fn tighten(self, a: u128, b: u128) -> u128 {
        match self {
            Way::Ladder | Way::AtLeast | Way::AtMost => a.max(b),
            Way::Only => a & b,
            Way::AllOf => a | b,
        }
    }

    /// The looser of two parts, or what either permits, or what both demand.
    pub(crate) fn loosen(self, a: u128, b: u128) -> u128 {
        match self {
            Way::Ladder | Way::AtLeast | Way::AtMost => a.min(b),
            Way::Only => a | b,
            Way::AllOf => a & b,
        }
    }

    /// Whether part `a` is at least as strict as part `b`.
    pub(crate) fn covers(self, a: u128, b: u128) -> bool {
        self.tighten(a, b) == a
    }
}

/// The parts of an answer: one, or one for each term of a `per` question.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Parts {
    One(u128),
    Many(Box<[u128]>),
}

impl Parts {
    /// As many equal parts.
    pub(crate) fn filled(value: u128, count: usize) -> Parts {
        if count == 1 { Parts::One(value) } else { Parts::Many(vec![value; count].into()) }
    }

    pub(crate) fn as_slice(&self) -> &[u128] {
        match self {
            Parts::One(part) => std::slice::from_ref(part),
            Parts::Many(parts) => parts,
        }
    }

    pub(crate) fn as_mut_slice(&mut self) -> &mut [u128] {
        match self {
            Parts::One(part) => std::slice::from_mut(part),
            Parts::Many(parts) => parts,
        }
    }

    /// The part with this number.
    pub(crate) fn part(&self, number: usize) -> Option<u128> {
        self.as_slice().get(number).copied()
    }

    /// Takes in the other's parts one by one.
    pub(crate) fn merge(&mut self, other: &Parts, join: impl Fn(u128, u128) -> u128) {
        for (mine, theirs) in self.as_mut_slice().iter_mut().zip(other.as_slice()) {
            *mine = join(*mine, *theirs);
        }
    }
}

/// The answer to a question in one completion.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(crate) struct Answer {
    pub(crate) parts: Parts,
    pub(crate) refer: bool,
    pub(crate) conflict: bool,
    /// A referral that came to nothing because the rest stands at the strictest rung.
    pub(crate) moot: bool,
    /// For `per` questions the terms that some demand names.
    pub(crate) named: Terms,
    /// For `per` questions the terms that some demand leaves out while naming others.
    pub(crate) unnamed: Terms,
    /// Whether some demand said `only`.
    pub(crate) only: bool,
}

/// What answers of one question are like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Form {
    pub(crate) way: Way,
    /// How many parts an answer has.
    pub(crate) parts: usize,
    /// The loosest value of a part.
    pub(crate) loosest: u128,
    /// The strictest rung of a ladder.
    pub(crate) last: u128,
    /// The terms that sets may hold.
    pub(crate) terms: Terms,
    /// Whether the answer is given term by term, and of which terms.
    pub(crate) per: Option<Terms>,
}

impl Form {
    /// The answer where nothing binds.
    pub(crate) fn loosest(&self) -> Answer {
        Answer {
            parts: Parts::filled(self.loosest, self.parts),
            refer: false,
            conflict: false,
            moot: false,
            named: Terms::NONE,
            unnamed: Terms::NONE,
            only: false,
        }
    }

    /// A demand's part as far as it can count here; nothing for a term that the
    /// demand does not name.
    pub(crate) fn demanded(&self, demand: &Demand, part: usize) -> Option<u128> {
        if self.per.is_some() && !demand.named.has(u16::try_from(part).unwrap_or(u16::MAX)) {
            return None;
        }
        let value = demand.parts.get(part).copied()?;
        Some(if matches!(self.way, Way::Only | Way::AllOf) { value & self.terms.0 } else { value })
    }

    /// Adds a demand that binds.
    pub(crate) fn add(&self, answer: &mut Answer, demand: &Demand) {
        let way = self.way;
        for (number, part) in answer.parts.as_mut_slice().iter_mut().enumerate() {
            if let Some(value) = self.demanded(demand, number) {
                *part = way.tighten(*part, value);
            }
        }
        if let Some(terms) = self.per
            && !demand.named.is_empty()
        {
            answer.named = answer.named.union(demand.named);
            answer.unnamed = answer.unnamed.union(terms.without(demand.named));
        }
        answer.only |= demand.only;
    }

    /// What both sides demand together.
    pub(crate) fn both(&self, mut one: Answer, other: &Answer) -> Answer {
        one.parts.merge(&other.parts, |a, b| self.way.tighten(a, b));
        one.refer |= other.refer;
        one.named = one.named.union(other.named);
        one.unnamed = one.unnamed.union(other.unnamed);
        one.only |= other.only;
        one
    }

    /// The looser of the two, part by part.
    pub(crate) fn either(&self, mut one: Answer, other: &Answer) -> Answer {
        one.parts.merge(&other.parts, |a, b| self.way.loosen(a, b));
        one.refer |= other.refer;
        one.named = one.named.union(other.named);
        one.unnamed = one.unnamed.union(other.unnamed);
        one.only |= other.only;
        one
    }

    /// What remains to be said once all demands are in: a referral beside the
    /// strictest rung is moot, and an empty permission is a conflict.
    pub(crate) fn close(&self, answer: &mut Answer) {
        if self.at_strict_end(&answer.parts) && answer.refer {
            answer.refer = false;
            answer.moot = true;
        }
        if self.way == Way::Only {
            answer.conflict |= match self.per {
                None => answer.parts.as_slice().contains(&0),
                Some(terms) => terms.iter().any(|term| answer.parts.part(usize::from(term)) == Some(0)),
            };
        }
    }

    /// Whether a ladder stands at its strictest rung.
    pub(crate) fn at_strict_end(&self, parts: &Parts) -> bool {
        self.way == Way::Ladder
            && self.last > 0
            && match self.per {
                None => parts.as_slice().iter().all(|part| *part == self.last),
                Some(terms) => terms.iter().all(|term| parts.part(usize::from(term)) == Some(self.last)),
            }
    }

    /// Whether no part is stricter than the loosest.
    pub(crate) fn is_loosest(&self, parts: &Parts) -> bool {
        parts.as_slice().iter().all(|part| *part == self.loosest)
    }
}
