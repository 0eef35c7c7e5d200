//! Truth in diagrams: ends are no, turns on a referred question, and yes.

use super::cells::TooMany;
use super::diagram::{Diagrams, Ref};
use super::hash::Table;
use super::truth::Mark;

/// It does not hold.
pub(crate) const NO: u32 = 0;
/// It turns on a question that is referred.
pub(crate) const REFERS: u32 = 1;
/// It holds.
pub(crate) const YES: u32 = 2;

/// Diagrams with the memory of what was joined.
#[derive(Debug)]
pub(crate) struct Logic {
    pub(crate) diagrams: Diagrams,
    least: Table<(Ref, Ref), Ref>,
    greatest: Table<(Ref, Ref), Ref>,
}

impl Logic {
    pub(crate) fn new(limit: usize) -> Logic {
        Logic { diagrams: Diagrams::new(limit), least: Table::default(), greatest: Table::default() }
    }

    /// The diagram of a truth that is decided.
    pub(crate) fn decided(mark: Mark) -> Option<Ref> {
        match mark {
            Mark::No => Some(Ref::end(NO)),
            Mark::Refers => Some(Ref::end(REFERS)),
            Mark::Yes => Some(Ref::end(YES)),
            Mark::Open => None,
        }
    }

    /// Both hold.
    pub(crate) fn and(&mut self, one: Ref, two: Ref) -> Result<Ref, TooMany> {
        let (one, two) = if one <= two { (one, two) } else { (two, one) };
        self.diagrams.join_with(one, two, &mut self.least, &mut |a, b| match (a.value(), b.value()) {
            (Some(NO), _) | (_, Some(NO)) => Some(Ref::end(NO)),
            (Some(YES), _) => Some(b),
            (_, Some(YES)) => Some(a),
            _ if a == b => Some(a),
            _ => None,
        })
    }

    /// One holds at least.
    pub(crate) fn or(&mut self, one: Ref, two: Ref) -> Result<Ref, TooMany> {
        let (one, two) = if one <= two { (one, two) } else { (two, one) };
        self.diagrams.join_with(one, two, &mut self.greatest, &mut |a, b| match (a.value(), b.value()) {
            (Some(YES), _) | (_, Some(YES)) => Some(Ref::end(YES)),
            (Some(NO), _) => Some(b),
            (_, Some(NO)) => Some(a),
            _ if a == b => Some(a),
            _ => None,
        })
    }

    /// It does not hold.
    pub(crate) fn not(&mut self, of: Ref) -> Result<Ref, TooMany> {
        self.diagrams.map(of, &mut |value| YES.saturating_sub(value))
    }
}
