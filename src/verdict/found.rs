//! What is found of one question, before reasons.

use super::answer::{Answer, Parts};
use super::paths::{Path, Told};
use crate::values::Terms;

/// What a job can rely on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum State {
    /// No binding provision reaches the job in any completion.
    Silent,
    /// The same answer in all completions.
    Settled,
    /// Completions differ.
    Open,
    /// The text leaves it to the authority in all completions.
    Referred,
    /// The law contradicts itself in all completions.
    Conflict,
}

/// Whether the job does what the answer asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Finding {
    Met,
    NotMet,
    Open,
}

/// Two completions that differ.
pub(crate) type Witnesses = [Vec<Told>; 2];

/// What each of two completions answers; none where it refers.
pub(crate) type Ends = [Option<Parts>; 2];

/// One question's answer and finding over all completions.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Found {
    pub(crate) state: State,
    /// The answer's parts where all completions agree on them.
    pub(crate) value: Option<Parts>,
    /// The loosest and the strictest, part by part, over completions that are
    /// not referred.
    pub(crate) between: Option<(Parts, Parts)>,
    pub(crate) may_refer: bool,
    pub(crate) may_conflict: bool,
    /// The limit, and not the law, left it open.
    pub(crate) bounds_only: bool,
    pub(crate) finding: Option<Finding>,
    /// In every completion the text names no equivalent for what the job uses.
    pub(crate) no_equivalent: bool,
    /// Whether in some completion it does.
    pub(crate) may_lack_equivalent: bool,
    /// Whether the question is asked in some completion.
    pub(crate) asked: bool,
    /// Whether a referral was moot in some completion.
    pub(crate) moot: bool,
    /// The terms that demands name in some completion.
    pub(crate) named: Terms,
    /// Whether a demand said `only` in some completion.
    pub(crate) only: bool,
    /// The unknown facts that could change it.
    pub(crate) asks: Vec<Path>,
    pub(crate) witnesses: Option<Witnesses>,
    /// The answers of the witnesses themselves.
    pub(crate) ends: Option<Ends>,
}

impl Found {
    /// The record of an answer that needed no completions.
    pub(crate) fn decided(answer: &Answer, silent: bool, finding: Standing, asked: bool) -> Found {
        let state = if answer.conflict {
            State::Conflict
        } else if answer.refer {
            State::Referred
        } else if silent {
            State::Silent
        } else {
            State::Settled
        };
        Found {
            state,
            value: Some(answer.parts.clone()),
            between: None,
            may_refer: false,
            may_conflict: false,
            bounds_only: false,
            finding: finding.finding(),
            no_equivalent: finding == Standing::NoEquivalent,
            may_lack_equivalent: finding == Standing::NoEquivalent,
            asked,
            moot: answer.moot,
            named: answer.named,
            only: answer.only,
            asks: Vec::new(),
            witnesses: None,
            ends: None,
        }
    }
}

/// What stands of a finding in one completion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Standing {
    Absent,
    Met,
    NotMet,
    Open,
    /// Open, because the text names no equivalent for what the job uses.
    NoEquivalent,
}

impl Standing {
    /// By its number.
    pub(crate) fn of(number: u32) -> Standing {
        match number {
            0 => Standing::Absent,
            1 => Standing::Met,
            2 => Standing::NotMet,
            3 => Standing::Open,
            _ => Standing::NoEquivalent,
        }
    }

    pub(crate) fn number(self) -> u32 {
        self as u32
    }

    pub(crate) fn finding(self) -> Option<Finding> {
        match self {
            Standing::Absent => None,
            Standing::Met => Some(Finding::Met),
            Standing::NotMet => Some(Finding::NotMet),
            Standing::Open | Standing::NoEquivalent => Some(Finding::Open),
        }
    }
}

/// The finding that all completions agree on; a completion without one agrees
/// with met and with others without one.
pub(crate) fn agreed(findings: impl Iterator<Item = Option<Finding>>) -> Option<Finding> {
    let (mut absent, mut met, mut not_met, mut open) = (false, false, false, false);
    for finding in findings {
        match finding {
            None => absent = true,
            Some(Finding::Met) => met = true,
            Some(Finding::NotMet) => not_met = true,
            Some(Finding::Open) => open = true,
        }
    }
    match (absent, met, not_met, open) {
        (_, false, false, false) => None,
        (_, true, false, false) => Some(Finding::Met),
        (false, false, true, false) => Some(Finding::NotMet),
        _ => Some(Finding::Open),
    }
}
