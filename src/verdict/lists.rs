//! The sets of entries that a list of which nothing is known can hold, as far
//! as the conditions on its entries tell them apart.

use super::cells::{TooMany, cells};
use super::check::{passes, within};
use super::cone::ListReads;
use super::diagram::Ref;
use super::hash::Table;
use super::lexicon::Lexicon;
use super::limits::{DIAGRAM_STEPS, ENTRY_KINDS, ENTRY_SETS};
use super::logic::{Logic, NO, REFERS, YES};
use super::plan::{Look, Plan};
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, Shape};
use crate::job::model::Given;
use crate::law::model::{CondId, Law, Node};
use crate::values::{Date, Period};
use std::collections::BTreeSet;

/// Something outside the entry that a condition on an entry hangs on.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Outside {
    Condition(CondId),
    /// The entry's date is within a period after the date of a fact.
    After {
        date: Given,
        period: Period,
        start: FieldId,
    },
    /// The date of a fact is within a period after the entry's date.
    Before {
        date: FieldId,
        period: Period,
        start: Given,
    },
}

/// The cells of a list.
#[derive(Debug)]
pub(crate) struct Sets {
    pub(crate) conditions: Vec<CondId>,
    /// Kinds of entries, each with the values that conditions test, in order.
    pub(crate) kinds: Vec<Vec<(FieldId, Given)>>,
    /// Sets of kinds by size, then by kind; the empty one first.
    pub(crate) sets: Vec<Vec<usize>>,
    /// For each set and condition whether some entry fulfils it, as a diagram
    /// over what is outside.
    pub(crate) truths: Vec<Vec<Ref>>,
    pub(crate) outside: Vec<Outside>,
    pub(crate) logic: Logic,
}

struct Kinds<'a> {
    plan: &'a Plan,
    law: &'a Law,
    attributes: Vec<FieldId>,
    logic: Logic,
    outside: Vec<Outside>,
}

impl Sets {
    /// Works out the sets that the conditions tell apart.
    pub(crate) fn new(
        plan: &Plan,
        law: &Law,
        lexicon: &Lexicon<'_>,
        reads: &ListReads,
        dates: &[Date],
    ) -> Result<Sets, TooMany> {
        let mut named: Vec<(&str, FieldId)> =
            reads.attributes.keys().filter_map(|id| lexicon.field(*id).map(|field| (&*field.name, *id))).collect();
        named.sort();
        let mut columns: Vec<Vec<Given>> = Vec::new();
        let mut kinds_in_all = 1usize;
        for (_, id) in &named {
            let Some(attribute) = reads.attributes.get(id) else { continue };
            let column = if lexicon.field(*id).is_some_and(|field| field.shape == Shape::Date) {
                dates.iter().copied().map(Given::Date).collect()
            } else {
                cells(*id, attribute, plan, lexicon)?
            };
            kinds_in_all = kinds_in_all.saturating_mul(column.len());
            columns.push(column);
        }
        if kinds_in_all > ENTRY_KINDS {
            return Err(TooMany);
        }
        let mut work = Kinds {
            plan,
            law,
            attributes: named.iter().map(|(_, id)| *id).collect(),
            logic: Logic::new(DIAGRAM_STEPS),
            outside: Vec::new(),
        };
        let mut seen: BTreeSet<Vec<Ref>> = BTreeSet::new();
        let mut kinds = Vec::new();
        let mut signatures: Vec<Vec<Ref>> = Vec::new();
        for number in 0..kinds_in_all {
            let kind = decode(number, &columns);
            let signature: Vec<Ref> =
                reads.conditions.iter().map(|cond| work.residue(*cond, &kind)).collect::<Result<_, _>>()?;
            // An entry that fulfils nothing is as good as none.
            if signature.iter().any(|truth| *truth != Ref::end(NO)) && seen.insert(signature.clone()) {
                kinds.push(work.attributes.iter().copied().zip(kind).collect());
                signatures.push(signature);
            }
        }
        let none = vec![Ref::end(NO); reads.conditions.len()];
        let (sets, truths) = work.sets(&signatures, none)?;
        Ok(Sets { conditions: reads.conditions.clone(), kinds, sets, truths, outside: work.outside, logic: work.logic })
    }
}

/// The kind with this number; the first attribute counts most.
fn decode(mut number: usize, columns: &[Vec<Given>]) -> Vec<Given> {
    let mut kind: Vec<Given> = Vec::with_capacity(columns.len());
    for column in columns.iter().rev() {
        kind.push(column.get(number % column.len().max(1)).cloned().unwrap_or_default());
        number /= column.len().max(1);
    }
    kind.reverse();
    kind
}

impl Kinds<'_> {
    /// Takes sets in order and keeps the first of those that are alike. A set
    /// that is alike to an earlier one needs no larger sets: the earlier one has them.
    #[expect(clippy::type_complexity, reason = "the two halves of one list")]
    fn sets(&mut self, signatures: &[Vec<Ref>], none: Vec<Ref>) -> Result<(Vec<Vec<usize>>, Vec<Vec<Ref>>), TooMany> {
        let mut seen: BTreeSet<Vec<Ref>> = BTreeSet::from([none.clone()]);
        let mut sets = Vec::new();
        let mut truths = Vec::new();
        let mut level: Vec<(Vec<usize>, Vec<Ref>)> = vec![(Vec::new(), none)];
        while !level.is_empty() {
            let mut next = Vec::new();
            for (set, truth) in level {
                let from = set.last().map_or(0, |last| last + 1);
                for (kind, signature) in signatures.iter().enumerate().skip(from) {
                    let mut joined = Vec::with_capacity(truth.len());
                    for (one, two) in truth.iter().zip(signature) {
                        joined.push(self.logic.or(*one, *two)?);
                    }
                    if seen.insert(joined.clone()) {
                        if seen.len() > ENTRY_SETS {
                            return Err(TooMany);
                        }
                        let mut larger = set.clone();
                        larger.push(kind);
                        next.push((larger, joined));
                    }
                }
                sets.push(set);
                truths.push(truth);
            }
            level = next;
        }
        Ok((sets, truths))
    }

    fn attribute<'k>(&self, field: FieldId, kind: &'k [Given]) -> Option<&'k Given> {
        kind.get(self.attributes.iter().position(|id| *id == field)?)
    }

    fn hangs_on(&mut self, outside: Outside) -> Result<Ref, TooMany> {
        let number = self.outside.iter().position(|known| *known == outside).unwrap_or_else(|| {
            self.outside.push(outside);
            self.outside.len() - 1
        });
        self.logic.diagrams.node(number as u32, &[Ref::end(NO), Ref::end(REFERS), Ref::end(YES)])
    }

    /// What remains of a condition for an entry of this kind.
    fn residue(&mut self, id: CondId, kind: &[Given]) -> Result<Ref, TooMany> {
        let law = self.law;
        match (id, self.plan.inner.get(id.0 as usize)) {
            (CondId::FALSE, _) => return Ok(Ref::end(NO)),
            (CondId::TRUE, _) => return Ok(Ref::end(YES)),
            (_, Some(true)) => {}
            _ => return self.hangs_on(Outside::Condition(id)),
        }
        match law.node(id) {
            Node::Not(part) => {
                let part = self.residue(*part, kind)?;
                self.logic.not(part)
            }
            Node::And(parts) => {
                let mut all = Ref::end(YES);
                for part in parts {
                    let part = self.residue(*part, kind)?;
                    all = self.logic.and(all, part)?;
                }
                Ok(all)
            }
            Node::Or(parts) => {
                let mut any = Ref::end(NO);
                for part in parts {
                    let part = self.residue(*part, kind)?;
                    any = self.logic.or(any, part)?;
                }
                Ok(any)
            }
            Node::Field(field, check) => self.test(*field, check, kind),
            _ => Ok(Ref::end(NO)),
        }
    }

    fn test(&mut self, field: FieldId, check: &Check, kind: &[Given]) -> Result<Ref, TooMany> {
        let truth = |held: bool| Ok(Ref::end(if held { YES } else { NO }));
        let own = self.attribute(field, kind).cloned();
        match (check, own) {
            (Check::Within(period, other), own) => match (own, self.attribute(*other, kind).cloned()) {
                (Some(date), Some(start)) => truth(within(&date, *period, &start)),
                (Some(date), None) => self.hangs_on(Outside::After { date, period: *period, start: *other }),
                (None, Some(start)) => self.hangs_on(Outside::Before { date: field, period: *period, start }),
                (None, None) => truth(false),
            },
            (check, Some(own)) => truth(passes(&own, check)),
            (_, None) => truth(false),
        }
    }
}

impl Sets {
    /// What a condition hangs on outside the entry, by number.
    pub(crate) fn needed(&self, condition: usize) -> BTreeSet<usize> {
        let mut needed = BTreeSet::new();
        for truths in &self.truths {
            if let Some(residue) = truths.get(condition) {
                needed.extend(self.logic.diagrams.looked_at(*residue).iter().map(|(number, _)| *number as usize));
            }
        }
        needed
    }

    /// Puts diagrams in the place of what is outside.
    pub(crate) fn truth(
        &self,
        set: usize,
        condition: usize,
        outside: &[Ref],
        logic: &mut Logic,
    ) -> Result<Ref, TooMany> {
        let residue = self.truths.get(set).and_then(|truths| truths.get(condition)).copied().unwrap_or(Ref::end(NO));
        self.substitute(residue, outside, logic, &mut Table::default())
    }

    fn substitute(
        &self,
        of: Ref,
        outside: &[Ref],
        logic: &mut Logic,
        memo: &mut Table<Ref, Ref>,
    ) -> Result<Ref, TooMany> {
        if of.value().is_some() {
            return Ok(of);
        }
        if let Some(done) = memo.get(&of) {
            return Ok(*done);
        }
        let variable = self.logic.diagrams.variable(of).unwrap_or(0);
        let test = outside.get(variable as usize).copied().unwrap_or(Ref::end(NO));
        let mut cases = Vec::with_capacity(3);
        for branch in self.logic.diagrams.branches(of) {
            cases.push(self.substitute(*branch, outside, logic, memo)?);
        }
        let made = select(logic, test, &cases)?;
        memo.insert(of, made);
        Ok(made)
    }
}

/// The case that the test's end points to.
fn select(logic: &mut Logic, test: Ref, cases: &[Ref]) -> Result<Ref, TooMany> {
    let mut made = Ref::end(NO);
    for (number, case) in (0u32..).zip(cases) {
        let here = logic.diagrams.map(test, &mut |value| if value == number { YES } else { NO })?;
        let part = logic.and(here, *case)?;
        made = logic.or(made, part)?;
    }
    Ok(made)
}
