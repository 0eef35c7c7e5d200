//! All jobs of a place at once: conditions and answers as diagrams over every
//! completion of a job that says nothing.
//!
//! A fact that is presumed where a job leaves it unsaid is free here, since a job
//! may state it either way. Of the dates by which instruments are in force one may
//! lie before the first law, but not all. A date that a job says there is none of is
//! no completion, as everywhere.

mod texts;

pub(crate) use texts::Walk;

use super::answer::Answer;
use super::cells::TooMany;
use super::complete::Session;
use super::cone::Cone;
use super::dates::{Calendar, with_spans};
use super::diagram::Ref;
use super::hash::Table;
use super::lexicon::Lexicon;
use super::limits::SURVEY_STEPS;
use super::logic::{Logic, NO, YES};
use super::paths::Path;
use super::plan::Plan;
use super::truth::{Matter, Memo};
use super::variables::Cells;
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, PlaceId};
use crate::job::model::{Entries, Given, Job};
use crate::law::model::{CondId, Law};
use crate::values::Date;

/// A law made ready for all jobs of its place.
#[derive(Debug)]
pub(crate) struct Ground<'a> {
    law: &'a Law,
    lexicon: Lexicon<'a>,
    plan: Plan,
    blank: Job,
}

impl<'a> Ground<'a> {
    /// The law of a place as seen by the glossary there.
    pub(crate) fn new(law: &'a Law, lexicon: Lexicon<'a>, place: PlaceId) -> Ground<'a> {
        let blank = Job {
            place,
            reference: None,
            values: vec![Given::Unknown; lexicon.fields.len()],
            lists: vec![Entries { entries: Vec::new(), more: true }; lexicon.groups.len()],
        };
        Ground { law, lexicon, plan: Plan::of_stated_jobs(law, &lexicon), blank }
    }

    /// The law before the job that says nothing.
    pub(crate) fn matter(&self) -> Matter<'_> {
        Matter { plan: &self.plan, law: self.law, lexicon: self.lexicon, job: &self.blank }
    }

    /// What these answers and conditions read.
    pub(crate) fn cone(
        &self,
        questions: impl IntoIterator<Item = usize>,
        conditions: impl IntoIterator<Item = CondId>,
    ) -> Cone {
        Cone::of_answers(&self.plan, self.law, &self.lexicon, questions, conditions)
    }
}

/// A stretch of days in which the dates by which instruments are in force lie.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Window {
    pub(crate) from: Option<Date>,
    /// This day included.
    pub(crate) through: Option<Date>,
}

impl Window {
    fn checks(self) -> impl Iterator<Item = Check> {
        self.from.map(Check::From).into_iter().chain(self.through.map(|day| Check::Before(day.next())))
    }
}

/// All jobs of a place, as far as some answers and conditions tell them apart.
#[derive(Debug)]
pub(crate) struct Survey<'a, 'm> {
    session: Session<'a, 'm>,
    care: Ref,
}

impl<'a, 'm> Survey<'a, 'm> {
    /// Opens a survey; `cone` is what the answers and conditions read that will be
    /// asked for.
    ///
    /// # Errors
    /// Where the jobs are too many to be told apart.
    pub(crate) fn new(
        matter: &'m Matter<'a>,
        memo: &'m mut Memo,
        mut cone: Cone,
        window: Window,
    ) -> Result<Survey<'a, 'm>, TooMany> {
        memo.reset(matter.law);
        let first = matter.law.first_day;
        for field in matter.law.dating.iter().filter(|_| first.is_some()) {
            cone.facts.entry(*field).or_default().checks.extend(first.map(Check::From));
        }
        let bounded: Vec<FieldId> = matter.law.dating.iter().copied().filter(|_| window != Window::default()).collect();
        for field in &bounded {
            let reads = cone.facts.entry(*field).or_default();
            reads.checks.extend(window.checks());
        }
        let mut calendar = Calendar::new(matter.plan, matter.law, matter.job);
        // Dates that lie within a period after others are told apart at its days as well.
        let ends = window.from.into_iter().chain(window.through.map(Date::next)).collect();
        calendar.points.extend(with_spans(ends, &matter.law.periods));
        calendar.points.sort();
        calendar.points.dedup();
        let mut session = Session::within(matter, memo, &cone, &calendar, SURVEY_STEPS)?;
        let mut care = session.care()?;
        if let Some(first) = first.filter(|_| !matter.law.dating.is_empty()) {
            // To a job all of whose dates lie before the first law none speaks.
            let mut spoken_to = Ref::end(NO);
            for field in &matter.law.dating {
                let from = session.fact(*field, &Check::From(first))?;
                spoken_to = session.logic.or(spoken_to, from)?;
            }
            care = session.logic.and(care, spoken_to)?;
        }
        for field in bounded {
            for check in window.checks() {
                let inside = session.fact(field, &check)?;
                care = session.logic.and(care, inside)?;
            }
        }
        Ok(Survey { session, care })
    }

    /// The jobs that can be: dates stand in their order and lie in the window.
    pub(crate) fn care(&self) -> Ref {
        self.care
    }

    /// Where a condition holds: ends are [`NO`], turns on a referred question, [`YES`].
    pub(crate) fn condition(&mut self, id: CondId) -> Result<Ref, TooMany> {
        self.session.condition(id)
    }

    /// The final answer of a question, its ends being numbers for [`Self::answer_at`],
    /// and where some provision reaches.
    pub(crate) fn answer(&mut self, question: usize) -> Result<(Ref, Ref), TooMany> {
        self.session.settle_beside(question)
    }

    /// The answer with this number.
    pub(crate) fn answer_at(&self, number: u32) -> Option<&Answer> {
        self.session.answers.get(number as usize)
    }

    /// The diagrams and their joining.
    pub(crate) fn logic(&mut self) -> &mut Logic {
        &mut self.session.logic
    }

    /// Whether some job that can be fulfils it.
    pub(crate) fn somewhere(&mut self, of: Ref) -> Result<bool, TooMany> {
        let (care, logic) = (self.care, self.logic());
        let both = logic.and(of, care)?;
        Ok(both != Ref::end(NO))
    }

    /// How many facts are told apart.
    pub(crate) fn facts(&self) -> u32 {
        self.session.variables.list.len() as u32
    }

    /// How many values of a fact, by its number, are told apart.
    pub(crate) fn cells(&self, fact: u32) -> usize {
        self.session.variables.get(fact).and_then(|variable| usize::try_from(variable.cells.count()).ok()).unwrap_or(0)
    }

    /// How many jobs end in what is wanted, each fact by its cells.
    pub(crate) fn count(&self, of: Ref, wanted: &dyn Fn(u32) -> bool) -> Option<u128> {
        let sizes: Vec<u128> = self.session.variables.list.iter().map(|variable| variable.cells.count()).collect();
        let mut memo = Table::default();
        let (under, top) = self.count_from(of, wanted, &sizes, &mut memo)?;
        between(&sizes, 0, top)?.checked_mul(under)
    }

    /// The number of walks from a node on, and the variable that it looks at.
    fn count_from(
        &self,
        of: Ref,
        wanted: &dyn Fn(u32) -> bool,
        sizes: &[u128],
        memo: &mut Table<Ref, u128>,
    ) -> Option<(u128, usize)> {
        let diagrams = &self.session.logic.diagrams;
        let Some(variable) = diagrams.variable(of) else {
            return Some((u128::from(of.value().is_some_and(wanted)), sizes.len()));
        };
        let variable = variable as usize;
        if let Some(done) = memo.get(&of) {
            return Some((*done, variable));
        }
        let mut all: u128 = 0;
        for branch in diagrams.branches(of) {
            let (under, at) = self.count_from(*branch, wanted, sizes, memo)?;
            all = all.checked_add(under.checked_mul(between(sizes, variable + 1, at)?)?)?;
        }
        memo.insert(of, all);
        Some((all, variable))
    }

    /// The first job that ends in what is wanted: every fact that was read has a
    /// value, all others stay unsaid.
    pub(crate) fn job(&self, of: Ref, wanted: &dyn Fn(u32) -> bool) -> Option<Job> {
        let walk = self.session.logic.diagrams.first(of, wanted)?;
        let mut job = self.session.matter.job.clone();
        for (number, variable) in (0u32..).zip(&self.session.variables.list) {
            let cell = walk.iter().find(|(at, _)| *at == number).map_or(0, |(_, cell)| *cell);
            match (&variable.cells, variable.path) {
                (Cells::Values(values), Path::Fact(field)) => {
                    if let Some(slot) = job.values.get_mut(usize::from(field.0)) {
                        *slot = values.get(cell).cloned().unwrap_or_default();
                    }
                }
                (Cells::Sets(sets), Path::List(group)) => {
                    let columns = self.session.matter.lexicon.group(group).map_or(0, |group| group.fields.len());
                    let kinds = sets.sets.get(cell).map_or(&[][..], Vec::as_slice);
                    let entries = kinds.iter().filter_map(|kind| sets.kinds.get(*kind)).map(|kind| {
                        let mut row = vec![Given::Unknown; columns];
                        for (field, value) in kind {
                            let column = self.session.matter.lexicon.field(*field).map(|field| field.column);
                            if let Some(slot) = column.and_then(|column| row.get_mut(usize::from(column))) {
                                *slot = value.clone();
                            }
                        }
                        row
                    });
                    if let Some(slot) = job.lists.get_mut(usize::from(group.0)) {
                        *slot = Entries { entries: entries.collect(), more: false };
                    }
                }
                _ => {}
            }
        }
        Some(job)
    }
}

/// The product of the sizes of the variables from one up to another.
fn between(sizes: &[u128], from: usize, to: usize) -> Option<u128> {
    sizes.get(from..to)?.iter().try_fold(1u128, |all, size| all.checked_mul(*size))
}

/// The jobs that end in a truth that holds.
pub(crate) fn holds(end: u32) -> bool {
    end == YES
}
