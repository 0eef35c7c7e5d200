//! What the contractor could change in a job, and the values that the law tells apart
//! there.
//!
//! A date is no lever: when a thing was done is not chosen afterwards. Nor is a fact
//! that is presumed where it is left unsaid. A term that no rule names is not offered:
//! that nothing here is against it does not make it lawful.

use super::limits::TERMS;
use crate::glossary::model::{ChoiceId, FieldId, GroupId, Shape};
use crate::job::model::{Given, Job};
use crate::values::{Exact, Terms};
use crate::verdict::board::{reads_of, take_in};
use crate::verdict::check::passes;
use crate::verdict::cone::{Cone, Reads};
use crate::verdict::paths::Path;
use crate::verdict::{Matter, TooMany, cells};
use num_traits::CheckedSub;
use std::cmp::Ordering;
use std::collections::BTreeSet;

/// One fact, or one attribute of one entry, that could be changed.
#[derive(Clone, Debug)]
pub(crate) struct Lever {
    pub(crate) path: Path,
    pub(crate) field: FieldId,
    /// What the job says.
    pub(crate) base: Given,
    /// How the law reads it, at all places that are looked at.
    pub(crate) reads: Reads,
    /// One value for each cell.
    pub(crate) cells: Vec<Given>,
    /// The cell of what the job says; nothing where it is unknown.
    pub(crate) cell: Option<usize>,
    /// The first lever of the same attribute of which the job says the same.
    pub(crate) kin: usize,
    /// Whether it is a choice of one term.
    pub(crate) choice: bool,
    /// For a choice every term that is known at all places and named by some rule.
    pub(crate) terms: Terms,
}

/// The levers, and whether there are more values than are looked at.
#[derive(Clone, Debug, Default)]
pub(crate) struct Levers {
    pub(crate) all: Vec<Lever>,
    /// Some values or facts were left out, so that nothing can be proven impossible.
    pub(crate) partial: bool,
}

impl Levers {
    /// The levers that these cones read, each cone with its matter. The jobs say the
    /// same of all that is ours to choose; values are those known at every place.
    ///
    /// # Errors
    /// Where the values of a fact cannot be told apart exactly.
    pub(crate) fn new(matters: &[(Matter<'_>, Cone)], targets: &[(usize, &Cone)]) -> Result<Levers, TooMany> {
        let mut levers = Levers::default();
        let Some((first, _)) = matters.first() else { return Ok(levers) };
        let fields: BTreeSet<FieldId> = targets
            .iter()
            .flat_map(|(_, cone)| cone.facts.keys().chain(cone.lists.values().flat_map(|list| list.attributes.keys())))
            .copied()
            .collect();
        for field in fields {
            let Some(known) = first.lexicon.field(field).filter(|known| known.ours && known.shape != Shape::Date)
            else {
                continue;
            };
            if matters.iter().any(|(matter, _)| matter.plan.presumption(field).is_some()) {
                levers.partial = true;
                continue;
            }
            let list = first.lexicon.list_of(field);
            let mut reads = Reads::default();
            for (_, cone) in matters {
                if let Some(own) = reads_of(cone, field, list) {
                    take_in(&mut reads, own);
                }
            }
            let mut aimed = Reads::default();
            for (_, cone) in targets {
                if let Some(own) = reads_of(cone, field, list) {
                    take_in(&mut aimed, own);
                }
            }
            let places: Vec<(Path, Given)> = match list {
                None => vec![(Path::Fact(field), first.fact(field).clone())],
                Some(group) => entries(first.job, group, field, known.column),
            };
            let terms = first.lexicon.choice_of(field).map_or(Terms::NONE, |choice| terms(matters, choice));
            let terms = named(terms, &reads);
            let choice = matches!(known.shape, Shape::Choice(_));
            for (path, base) in places {
                let Some(all) = levers.values(matters, field, &base, &reads, &aimed)? else {
                    levers.partial = true;
                    continue;
                };
                let mut lever =
                    Lever { path, field, base, reads: reads.clone(), cells: all, cell: None, kin: 0, choice, terms };
                lever.place();
                let same = |other: &Lever| other.field == field && other.base == lever.base;
                lever.kin = levers.all.iter().position(same).unwrap_or(levers.all.len());
                levers.all.push(lever);
            }
        }
        Ok(levers)
    }

    /// The values that are tried; nothing where the fact is no lever here.
    fn values(
        &mut self,
        matters: &[(Matter<'_>, Cone)],
        field: FieldId,
        base: &Given,
        reads: &Reads,
        aimed: &Reads,
    ) -> Result<Option<Vec<Given>>, TooMany> {
        let Some((first, _)) = matters.first() else { return Ok(None) };
        let shape = first.lexicon.field(field).map(|known| known.shape);
        match (shape, base) {
            (Some(Shape::Several(choice)), Given::Set(held)) => {
                let (sets, partial) = toggled(*held, &terms(matters, choice), aimed);
                self.partial |= partial;
                return Ok(Some(sets));
            }
            (Some(Shape::Several(choice)), Given::Unknown)
                if terms(matters, choice).iter().count() > TERMS as usize =>
            {
                return Ok(None);
            }
            (Some(Shape::Choice(choice)), _) if matters.len() > 1 => {
                return Ok(Some(terms(matters, choice).iter().map(Given::Term).collect()));
            }
            _ => {}
        }
        // What several places offer or name of it is offered only where all do.
        let mut all: Option<Vec<Given>> = None;
        for (matter, _) in matters {
            let own = cells(field, reads, matter.plan, &matter.lexicon)?;
            all = Some(match all {
                None => own,
                Some(before) => before.into_iter().filter(|value| own.contains(value)).collect(),
            });
        }
        Ok(all)
    }
}

impl Lever {
    /// Whether one cell puts into a set, or takes out of it, all that the other does,
    /// and more.
    pub(crate) fn turns_more(&self, cell: usize, other: usize) -> bool {
        let turned = |cell: usize| match (&self.base, self.cells.get(cell)) {
            (Given::Set(base), Some(Given::Set(held))) => Some(held.without(*base).union(base.without(*held))),
            _ => None,
        };
        turned(cell).zip(turned(other)).is_some_and(|(own, other)| own != other && other.within(own))
    }

    /// Whether a cell may be offered instead of what the job says.
    pub(crate) fn offers(&self, cell: usize) -> bool {
        !matches!(self.cells.get(cell), Some(Given::Term(term)) if self.choice && !self.terms.has(*term))
    }

    /// The value of these cells that is nearest to what the job says; the first where that
    /// is no figure.
    pub(crate) fn nearest(&self, cells: &BTreeSet<usize>) -> Given {
        let offered = cells.iter().filter(|cell| self.offers(**cell)).filter_map(|cell| self.cells.get(*cell));
        let far = |value: &&Given| match (value, &self.base) {
            (Given::Measure(own), Given::Measure(base)) => {
                let (low, high) = (own.amount.min(base.amount), own.amount.max(base.amount));
                high.checked_sub(&low)
            }
            _ => None,
        };
        offered.min_by_key(far).cloned().unwrap_or_default()
    }

    /// Finds the cell of what the job says; where none is like it, it becomes one.
    fn place(&mut self) {
        if self.base == Given::Unknown {
            return;
        }
        let like = sign(&self.base, &self.reads);
        let found = self.cells.iter().position(|cell| *cell == self.base);
        let found = found.or_else(|| self.cells.iter().position(|cell| sign(cell, &self.reads) == like));
        self.cell = Some(found.unwrap_or(self.cells.len()));
        match found.and_then(|at| self.cells.get_mut(at)) {
            // Told apart from the cell by nothing, and what the job really has.
            Some(slot) => *slot = self.base.clone(),
            None => self.cells.push(self.base.clone()),
        }
    }
}

/// Everything by which the law could tell a value from another.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Sign {
    checks: Vec<bool>,
    limits: Vec<Option<Ordering>>,
    itself: Option<Given>,
}

/// The sign of a value.
pub(crate) fn sign(value: &Given, reads: &Reads) -> Sign {
    let against = |limit: &Exact| match value {
        Given::Measure(measure) => Some(measure.amount.cmp(limit)),
        _ => None,
    };
    Sign {
        checks: reads.checks.iter().map(|check| passes(value, check)).collect(),
        limits: reads.limits.iter().map(against).collect(),
        itself: (reads.whole && !matches!(value, Given::Measure(_))).then(|| value.clone()),
    }
}

/// The attribute of every entry, with what the job says of it.
fn entries(job: &Job, group: GroupId, field: FieldId, column: u16) -> Vec<(Path, Given)> {
    let rows = job.lists.get(usize::from(group.0)).map_or(&[][..], |list| &list.entries);
    rows.iter()
        .enumerate()
        .map(|(entry, row)| {
            let value = row.get(usize::from(column)).cloned().unwrap_or_default();
            (Path::Attribute { group, entry, field }, value)
        })
        .collect()
}

/// The terms that are known at every place.
fn terms(matters: &[(Matter<'_>, Cone)], choice: ChoiceId) -> Terms {
    let mut known = matters.iter().map(|(matter, _)| matter.lexicon.terms(choice));
    let first = known.next().unwrap_or(Terms::NONE);
    known.fold(first, Terms::common)
}

/// The terms of these that some rule names. Where every term is told from every other, as
/// by a question that measures the fact, all are.
pub(crate) fn named(terms: Terms, reads: &Reads) -> Terms {
    use crate::glossary::expr::Check;
    let by = |term: u16| {
        reads.whole || reads.checks.iter().any(|check| matches!(check, Check::Among(terms) if terms.has(term)))
    };
    terms.iter().filter(|term| by(*term)).fold(Terms::NONE, |all, term| all.union(Terms::one(term)))
}

/// A set with terms put in and taken out, itself first, fewest changes first; only
/// terms that some test names. Whether combinations were left out is told beside.
fn toggled(held: Terms, known: &Terms, aimed: &Reads) -> (Vec<Given>, bool) {
    use crate::glossary::expr::Check;
    let named = |term: u16| {
        aimed.whole
            || aimed
                .checks
                .iter()
                .any(|check| matches!(check, Check::Includes(terms) | Check::Among(terms) if terms.has(term)))
    };
    let turning: Vec<u16> = known.union(held).iter().filter(|term| named(*term)).collect();
    let full = turning.len() as u32 <= TERMS;
    let most = if full { turning.len() } else { 2 };
    let mut sets = vec![Given::Set(held)];
    let mut level: Vec<Vec<u16>> = vec![Vec::new()];
    for _ in 0..most {
        let mut next = Vec::new();
        for set in &level {
            for term in turning.iter().filter(|term| set.last().is_none_or(|last| *term > last)) {
                let mut larger = set.clone();
                larger.push(*term);
                let turned = larger.iter().fold(Terms::NONE, |all, term| all.union(Terms::one(*term)));
                sets.push(Given::Set(held.without(turned).union(turned.without(held))));
                next.push(larger);
            }
        }
        level = next;
    }
    (sets, !full)
}
