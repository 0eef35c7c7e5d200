//! Single provisions before all jobs of a place: which of them bind, which change
//! an answer, where they contradict each other, each shown by a job.
//!
//! What of it is worth telling is not known here.

use super::Survey;
use crate::glossary::model::FieldId;
use crate::job::model::{Given, Job};
use crate::law::model::{CondId, Effect, ProvisionId};
use crate::values::Date;
use crate::verdict::answer::{Answer, Form};
use crate::verdict::cells::TooMany;
use crate::verdict::complete::Session;
use crate::verdict::diagram::Ref;
use crate::verdict::hash::Table;
use crate::verdict::limits::SURVEY_STEPS;
use crate::verdict::logic::{NO, YES};
use crate::verdict::paths::{Path, Told};
use crate::verdict::plan::Look;
use crate::verdict::variables::Cells;
use std::collections::BTreeMap;
use std::sync::Arc;

/// A cell for each fact that is looked at; the others do not matter.
pub(crate) type Walk = Vec<(u32, usize)>;

impl Survey<'_, '_> {
    /// Grants the whole budget anew: each thing that is asked has its own.
    pub(crate) fn afresh(&mut self) {
        self.session.logic.diagrams.allow(SURVEY_STEPS);
    }

    /// Where all of these hold.
    pub(crate) fn all(&mut self, parts: impl IntoIterator<Item = Ref>) -> Result<Ref, TooMany> {
        let mut all = Ref::end(YES);
        for part in parts {
            all = self.session.logic.and(all, part)?;
        }
        Ok(all)
    }

    /// Where all of these conditions hold.
    pub(crate) fn conditions(&mut self, parts: impl IntoIterator<Item = CondId>) -> Result<Ref, TooMany> {
        let mut all = Ref::end(YES);
        for part in parts {
            let part = self.session.condition(part)?;
            all = self.session.logic.and(all, part)?;
        }
        Ok(all)
    }

    /// The first job that can be in which it holds; where there is none, the first
    /// in which it turns on a referred question.
    pub(crate) fn first(&mut self, of: Ref) -> Result<Option<Walk>, TooMany> {
        let within = self.session.logic.and(of, self.care)?;
        let diagrams = &self.session.logic.diagrams;
        Ok(diagrams.first(within, &|end| end == YES).or_else(|| diagrams.first(within, &|end| end != NO)))
    }

    /// Whether it holds, or turns on a referred question, in the job of a walk that
    /// has every fact that the walk does not name at its first value.
    pub(crate) fn holds_at(&self, of: Ref, walk: &Walk) -> bool {
        let cells: BTreeMap<u32, usize> = walk.iter().copied().collect();
        let diagrams = &self.session.logic.diagrams;
        let mut at = of;
        while let Some(variable) = diagrams.variable(at) {
            let cell = cells.get(&variable).copied().unwrap_or(0);
            let Some(next) = diagrams.branches(at).get(cell) else { return false };
            at = *next;
        }
        at.value().is_some_and(|end| end != NO)
    }

    /// Where some provision on a question reaches.
    pub(crate) fn reach(&mut self, question: usize) -> Result<Ref, TooMany> {
        Ok(self.session.settle(question)?.1)
    }

    /// The first job in which the answer to a question is another without these
    /// provisions.
    pub(crate) fn changed_by(
        &mut self,
        question: usize,
        left_out: &dyn Fn(ProvisionId) -> bool,
    ) -> Result<Option<Walk>, TooMany> {
        let (whole, _) = self.session.settle(question)?;
        let (rest, _) = self.session.settle_of(question, &|id| !left_out(id), &|_| true)?;
        self.differ(whole, rest)
    }

    /// The first job in which the answer to a question is another without one of the
    /// powers over it.
    pub(crate) fn changed_by_power(&mut self, question: usize, power: usize) -> Result<Option<Walk>, TooMany> {
        let (whole, _) = self.session.settle(question)?;
        let (rest, _) = self.session.settle_of(question, &|_| true, &|place| place != power)?;
        self.differ(whole, rest)
    }

    fn differ(&mut self, one: Ref, two: Ref) -> Result<Option<Walk>, TooMany> {
        let alike = |one: &Answer, two: &Answer| {
            (&one.parts, one.refer, one.conflict, one.named, one.unnamed)
                == (&two.parts, two.refer, two.conflict, two.named, two.unnamed)
        };
        let Session { logic, answers, .. } = &mut self.session;
        let differ = logic.diagrams.join_with(one, two, &mut Table::default(), &mut |a, b| {
            if a == b {
                return Some(Ref::end(NO));
            }
            let (a, b) = (a.value()?, b.value()?);
            let same = match (answers.get(a as usize), answers.get(b as usize)) {
                (Some(a), Some(b)) => alike(a, b),
                _ => false,
            };
            Some(Ref::end(if same { NO } else { YES }))
        })?;
        self.first(differ)
    }

    /// Where the answer to a question is referred or stricter than the loosest even
    /// without these provisions.
    pub(crate) fn strict_without(
        &mut self,
        question: usize,
        left_out: &dyn Fn(ProvisionId) -> bool,
    ) -> Result<Ref, TooMany> {
        let form = self.session.matter.plan.asks.get(question).map(|ask| ask.form).ok_or(TooMany)?;
        let (answer, _) = self.session.settle_of(question, &|id| !left_out(id), &|_| true)?;
        self.where_answer(answer, |answer| answer.refer || !form.is_loosest(&answer.parts))
    }

    /// Where the law contradicts itself on a question: nothing is permitted, or both
    /// strict ends of contrary questions are asked.
    pub(crate) fn conflict(&mut self, question: usize) -> Result<Ref, TooMany> {
        let (answer, _) = self.session.settle_beside(question)?;
        self.where_answer(answer, |answer| answer.conflict)
    }

    /// Where the answer to a question, contradictions left aside, permits nothing.
    pub(crate) fn permits_nothing(&mut self, question: usize) -> Result<Ref, TooMany> {
        let (answer, _) = self.session.settle(question)?;
        self.where_answer(answer, |answer| answer.conflict)
    }

    /// Where an answer is such a one.
    fn where_answer(&mut self, of: Ref, such: impl Fn(&Answer) -> bool) -> Result<Ref, TooMany> {
        let Session { logic, answers, .. } = &mut self.session;
        logic.diagrams.map(of, &mut |at| if answers.get(at as usize).is_some_and(&such) { YES } else { NO })
    }

    /// A least set of these provisions that leaves nothing permitted; all of them
    /// where their demands alone do not come to that.
    pub(crate) fn least(&self, question: usize, bind: &[ProvisionId]) -> Vec<ProvisionId> {
        let Some(form) = self.session.matter.plan.asks.get(question).map(|ask| ask.form) else { return bind.to_vec() };
        let law = self.session.matter.law;
        let empty = |list: &[ProvisionId]| {
            let mut answer = form.loosest();
            for id in list {
                if let Some(Effect::Demand(demand)) = law.provision(*id).map(|provision| &provision.effect) {
                    form.add(&mut answer, demand);
                }
            }
            form.close(&mut answer);
            answer.conflict
        };
        let mut least = bind.to_vec();
        if !empty(&least) {
            return least;
        }
        for id in bind {
            let fewer: Vec<ProvisionId> = least.iter().copied().filter(|other| other != id).collect();
            if empty(&fewer) {
                least = fewer;
            }
        }
        least
    }

    /// What a question comes to where a provision alone demands; nothing where it
    /// demands nothing of it.
    fn alone(&self, question: usize, id: ProvisionId) -> Option<(Form, Answer)> {
        let form = self.session.matter.plan.asks.get(question)?.form;
        let Effect::Demand(demand) = &self.session.matter.law.provision(id)?.effect else { return None };
        let mut answer = form.loosest();
        form.add(&mut answer, demand);
        Some((form, answer))
    }

    /// Whether a provision alone asks for the strict end of its question's ladder.
    pub(crate) fn asks_strictest(&self, question: usize, id: ProvisionId) -> bool {
        self.alone(question, id).is_some_and(|(form, answer)| form.at_strict_end(&answer.parts))
    }

    /// Whether a provision that binds makes another one on its question idle: it asks
    /// for as much or more, or refers as the other does.
    pub(crate) fn says_as_much(&self, question: usize, id: ProvisionId, other: ProvisionId) -> bool {
        let law = self.session.matter.law;
        let Some(form) = self.session.matter.plan.asks.get(question).map(|ask| ask.form) else { return false };
        match (law.provision(id).map(|own| &own.effect), law.provision(other).map(|own| &own.effect)) {
            (Some(Effect::Demand(own)), Some(Effect::Demand(other))) => {
                let mut answer = form.loosest();
                form.add(&mut answer, own);
                let before = answer.clone();
                form.add(&mut answer, other);
                before.parts == answer.parts
            }
            (Some(Effect::Refer(_)), Some(Effect::Refer(_))) => true,
            _ => false,
        }
    }

    /// Whether a provision asks for no more than the loosest answer.
    pub(crate) fn asks_nothing(&self, question: usize, id: ProvisionId) -> bool {
        self.alone(question, id).is_some_and(|(form, answer)| form.is_loosest(&answer.parts))
    }

    /// Where it holds whichever instruments are in force of which that is not known.
    pub(crate) fn whatever_began(&mut self, of: Ref) -> Result<Ref, TooMany> {
        let spans = (0u32..).zip(&self.session.variables.list);
        let spans: Vec<u32> =
            spans.filter(|(_, variable)| matches!(variable.path, Path::Span(_))).map(|(number, _)| number).collect();
        let mut of = of;
        for span in spans {
            let out = self.with_cell(of, span, 0, &mut Table::default())?;
            let within = self.with_cell(of, span, 1, &mut Table::default())?;
            of = self.session.logic.and(out, within)?;
        }
        Ok(of)
    }

    /// The same with one fact in one of its cells.
    fn with_cell(&mut self, of: Ref, fact: u32, cell: usize, memo: &mut Table<Ref, Ref>) -> Result<Ref, TooMany> {
        let diagrams = &self.session.logic.diagrams;
        let Some(variable) = diagrams.variable(of).filter(|variable| *variable <= fact) else { return Ok(of) };
        let branches = diagrams.branches(of).to_vec();
        if variable == fact {
            return branches.get(cell).copied().ok_or(TooMany);
        }
        if let Some(done) = memo.get(&of) {
            return Ok(*done);
        }
        let mut made = Vec::with_capacity(branches.len());
        for branch in branches {
            made.push(self.with_cell(branch, fact, cell, memo)?);
        }
        let made = self.session.logic.diagrams.node(variable, &made)?;
        memo.insert(of, made);
        Ok(made)
    }

    /// The job of a walk: what it looks at is said, nothing else. Whether an
    /// instrument in an unknown span is in force cannot be said.
    pub(crate) fn job_of(&self, walk: &Walk) -> Job {
        let matter = self.session.matter;
        let mut job = matter.job.clone();
        for (number, cell) in walk {
            let Some(variable) = self.session.variables.get(*number) else { continue };
            match variable.told(*cell) {
                Told::Value(Path::Fact(field), value) => {
                    if let Some(slot) = job.values.get_mut(usize::from(field.0)) {
                        *slot = value;
                    }
                }
                Told::Value(Path::Attribute { group, entry, field }, value) => {
                    let column = matter.lexicon.field(field).map(|known| usize::from(known.column));
                    let list = job.lists.get_mut(usize::from(group.0));
                    let row = list.and_then(|list| list.entries.get_mut(entry));
                    if let Some(slot) = row.zip(column).and_then(|(row, column)| row.get_mut(column)) {
                        *slot = value;
                    }
                }
                Told::Entries(Path::List(group) | Path::Further(group), rows) => {
                    let width = matter.lexicon.group(group).map_or(0, |group| group.fields.len());
                    let entry = |row: &Vec<(FieldId, Given)>| {
                        let mut entry = vec![Given::Unknown; width];
                        for (field, value) in row {
                            let column = matter.lexicon.field(*field).map(|known| usize::from(known.column));
                            if let Some(slot) = column.and_then(|column| entry.get_mut(column)) {
                                *slot = value.clone();
                            }
                        }
                        entry
                    };
                    if let Some(slot) = job.lists.get_mut(usize::from(group.0)) {
                        slot.entries.extend(rows.iter().map(entry));
                        slot.more = false;
                    }
                }
                _ => {}
            }
        }
        job
    }

    /// The days of a date fact, as far as they are told apart, on which it holds for
    /// some job: the first of each stretch, and the first after it.
    pub(crate) fn days(&mut self, of: Ref, field: FieldId) -> Result<Vec<(Date, Option<Date>)>, TooMany> {
        let Some(variable) = self.session.variables.find(Path::Fact(field)) else { return Ok(Vec::new()) };
        let cells = match self.session.variables.get(variable).map(|variable| &variable.cells) {
            Some(Cells::Values(values)) => Arc::clone(values),
            _ => return Ok(Vec::new()),
        };
        let mut found: Vec<(Date, Option<Date>)> = Vec::new();
        for (place, value) in cells.iter().enumerate() {
            let Given::Date(day) = value else { continue };
            let here: Vec<Ref> = (0..cells.len()).map(|cell| Ref::end(if cell == place { YES } else { NO })).collect();
            let here = self.session.logic.diagrams.node(variable, &here)?;
            let both = self.session.logic.and(of, here)?;
            if !self.somewhere(both)? {
                continue;
            }
            let next = match cells.get(place + 1) {
                Some(Given::Date(day)) => Some(*day),
                _ => None,
            };
            match found.last_mut() {
                Some(last) if last.1 == Some(*day) => last.1 = next,
                _ => found.push((*day, next)),
            }
        }
        Ok(found)
    }
}
