//! Lists of clauses: the parts of a guard, each with what became of a provision
//! where it fails.

use super::arena::Arena;
use crate::law::model::{Clause, CondId, Fate, SourceId};

/// The parts of a guard, in the order in which a reader is told of them.
pub(crate) type Clauses = Vec<Clause>;

/// One part.
pub(crate) fn clause(cond: CondId, fate: Fate, by: Option<SourceId>) -> Clause {
    Clause { cond, fate, by }
}

/// The condition that all parts hold.
pub(crate) fn cond_of(arena: &mut Arena, clauses: &[Clause]) -> CondId {
    arena.and(clauses.iter().map(|clause| clause.cond))
}

/// The same parts, those that always hold left out and every part once.
pub(crate) fn tidy(clauses: Clauses) -> Clauses {
    let mut kept: Clauses = Vec::with_capacity(clauses.len());
    for part in clauses {
        let known = part.cond == CondId::TRUE || kept.iter().any(|other| other.cond == part.cond);
        if !known {
            kept.push(part);
        }
    }
    kept
}
