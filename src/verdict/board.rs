//! All questions of a job at once over what is unknown in it, each with every case
//! that can come about, so that many changes of a job can be looked at without
//! weighing each anew.

use super::answer::Parts;
use super::cells::TooMany;
use super::complete::Session;
use super::cone::{Cone, Reads};
use super::dates::Calendar;
use super::diagram::Ref;
use super::found::{Standing, agreed};
use super::hash::Table;
use super::logic::{NO, YES};
use super::paths::Path;
use super::plan::Show;
use super::trouble::Trouble;
use super::truth::{Matter, Memo};
use super::variables::Cells;
use crate::glossary::model::{FieldId, GroupId};
use crate::job::model::Given;
use crate::law::model::CondId;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The end of what cannot be: the dates stand out of order.
const NEVER: u32 = 0;

/// What is the case with a question in some completions.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
struct Case {
    parts: Parts,
    refer: bool,
    conflict: bool,
    standing: Standing,
    asked: bool,
}

/// A question or a condition made ready, to be looked at with [`Board::ends`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) struct Sheet(Ref);

/// What is asked for at a fact when a sheet is followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Turn {
    /// The value with this number.
    Cell(usize),
    /// Every value: it stays unknown.
    All,
}

/// What one change costs where a sheet is followed to its cheapest end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Price {
    /// It stays as it is.
    Fixed(Turn),
    /// It can be left as it is, or be changed at this cost.
    Free(Turn, u32),
}

/// What changes cost, and which are to be had.
pub(crate) struct Prices<'p> {
    pub(crate) price: &'p dyn Fn(u32) -> Price,
    /// Whether a fact may be changed to this value.
    pub(crate) offered: &'p dyn Fn(u32, usize) -> bool,
}

/// Never to be had.
pub(crate) const NO_PRICE: u32 = u32::MAX;

/// The questions of one job over all that is unknown in it.
#[derive(Debug)]
pub(crate) struct Board<'a, 'm> {
    session: Session<'a, 'm>,
    care: Ref,
    cases: Vec<Case>,
    known: std::collections::HashMap<Case, u32>,
}

impl<'a, 'm> Board<'a, 'm> {
    /// Opens a board; `cone` is what the questions read that will be asked for, and
    /// `instead` has the values that some facts range over here.
    ///
    /// # Errors
    /// Where too much is unknown to tell all cases apart.
    pub(crate) fn new(
        matter: &'m Matter<'a>,
        memo: &'m mut Memo,
        cone: &Cone,
        instead: &BTreeMap<Path, Arc<[Given]>>,
        steps: usize,
    ) -> Result<Board<'a, 'm>, TooMany> {
        memo.reset(matter.law);
        let calendar = Calendar::new(matter.plan, matter.law, matter.job);
        let mut session = Session::within(matter, memo, cone, &calendar, steps)?;
        for variable in &mut session.variables.list {
            if let Some(values) = instead.get(&variable.path) {
                variable.cells = Cells::Values(Arc::clone(values));
            }
        }
        let care = session.care()?;
        Ok(Board { session, care, cases: Vec::new(), known: std::collections::HashMap::new() })
    }

    /// The number by which a fact is known here, where it is unknown.
    pub(crate) fn find(&self, path: Path) -> Option<u32> {
        self.session.variables.find(path)
    }

    /// A question with all its cases.
    ///
    /// # Errors
    /// Where the steps are used up.
    pub(crate) fn question(&mut self, question: usize) -> Result<Sheet, TooMany> {
        let law = self.session.matter.law;
        let own = law.questions.get(question).ok_or(TooMany)?;
        let (answer, _) = self.session.settle_beside(question)?;
        let asked = self.session.condition(own.asked)?;
        let standing = self.session.standing(question, answer, asked)?;
        let answers = &self.session.answers;
        let (cases, known) = (&mut self.cases, &mut self.known);
        let mut pairs: Vec<(u32, u32)> = Vec::new();
        let mut numbers: Table<(u32, u32), u32> = Table::default();
        let both = self.session.logic.diagrams.join(answer, standing, &mut |answer, standing| {
            *numbers.entry((answer, standing)).or_insert_with(|| {
                pairs.push((answer, standing));
                pairs.len() as u32 - 1
            })
        })?;
        let whole = self.session.logic.diagrams.join(both, asked, &mut |at, asked| {
            let (answer, standing) = pairs.get(at as usize).copied().unwrap_or_default();
            let Some(answer) = answers.get(answer as usize) else { return NEVER };
            let case = Case {
                parts: answer.parts.clone(),
                refer: answer.refer,
                conflict: answer.conflict,
                standing: Standing::of(standing),
                asked: asked != NO,
            };
            *known.entry(case).or_insert_with_key(|case| {
                cases.push(case.clone());
                cases.len() as u32
            })
        })?;
        self.within_care(whole).map(Sheet)
    }

    /// A condition.
    ///
    /// # Errors
    /// Where the steps are used up.
    pub(crate) fn condition(&mut self, cond: CondId) -> Result<Sheet, TooMany> {
        let held = self.session.condition(cond)?;
        let shifted = self.session.logic.diagrams.map(held, &mut |end| end + 1)?;
        self.within_care(shifted).map(Sheet)
    }

    fn within_care(&mut self, of: Ref) -> Result<Ref, TooMany> {
        if self.care == Ref::end(YES) {
            return Ok(of);
        }
        self.session.logic.diagrams.join(of, self.care, &mut |value, care| if care == NO { NEVER } else { value })
    }

    /// The facts that a sheet looks at, by their numbers.
    pub(crate) fn looks_at(&self, sheet: Sheet) -> Vec<u32> {
        let mut all: Vec<u32> =
            self.session.logic.diagrams.looked_at(sheet.0).into_iter().map(|(variable, _)| variable).collect();
        all.dedup();
        all
    }

    /// For every place of a sheet that looks at this fact, what follows each of its values.
    pub(crate) fn places(&self, sheet: Sheet, variable: u32) -> Vec<Vec<Sheet>> {
        let diagrams = &self.session.logic.diagrams;
        let all = diagrams.looked_at(sheet.0).into_iter().filter(|(at, _)| *at == variable);
        all.map(|(_, node)| diagrams.branches(node).iter().copied().map(Sheet).collect()).collect()
    }

    /// The cases that come about where each fact turns as told.
    pub(crate) fn ends(&self, sheet: Sheet, turn: &dyn Fn(u32) -> Turn) -> Vec<u32> {
        let diagrams = &self.session.logic.diagrams;
        let mut found: Vec<u32> = Vec::new();
        let mut seen: Table<Ref, ()> = Table::default();
        let mut left = vec![sheet.0];
        while let Some(at) = left.pop() {
            if seen.insert(at, ()).is_some() {
                continue;
            }
            match (at.value(), diagrams.variable(at)) {
                (Some(end), _) if end != NEVER => found.push(end),
                (None, Some(variable)) => match turn(variable) {
                    Turn::Cell(cell) => left.extend(diagrams.branches(at).get(cell)),
                    Turn::All => left.extend(diagrams.branches(at)),
                },
                _ => {}
            }
        }
        found
    }

    /// The least cost of changes after which every case passes (`all`), or some case;
    /// what is unknown may be told apart by the changes, so that it is never too high.
    pub(crate) fn least(&self, sheet: Sheet, prices: &Prices<'_>, passes: &dyn Fn(u32) -> bool, all: bool) -> u32 {
        self.least_from(sheet.0, prices, passes, all, &mut Table::default())
    }

    fn least_from(
        &self,
        at: Ref,
        prices: &Prices<'_>,
        passes: &dyn Fn(u32) -> bool,
        all: bool,
        memo: &mut Table<Ref, u32>,
    ) -> u32 {
        let diagrams = &self.session.logic.diagrams;
        if let Some(end) = at.value() {
            let passed = if end == NEVER { all } else { passes(end) };
            return if passed { 0 } else { NO_PRICE };
        }
        if let Some(done) = memo.get(&at) {
            return *done;
        }
        let Some(variable) = diagrams.variable(at) else { return NO_PRICE };
        let branches = diagrams.branches(at);
        let (turn, change) = match (prices.price)(variable) {
            Price::Fixed(turn) => (turn, None),
            Price::Free(turn, cost) => (turn, Some(cost)),
        };
        let mut best = match turn {
            Turn::Cell(cell) => {
                branches.get(cell).map_or(NO_PRICE, |branch| self.least_from(*branch, prices, passes, all, memo))
            }
            Turn::All => {
                let costs = branches.iter().map(|branch| self.least_from(*branch, prices, passes, all, memo));
                if all { costs.max() } else { costs.min() }.unwrap_or(NO_PRICE)
            }
        };
        if let Some(cost) = change
            && best > cost
        {
            for (_, branch) in branches.iter().enumerate().filter(|(cell, _)| (prices.offered)(variable, *cell)) {
                best = best.min(self.least_from(*branch, prices, passes, all, memo).saturating_add(cost));
            }
        }
        memo.insert(at, best);
        best
    }

    /// What is amiss with a question in these cases together.
    pub(crate) fn trouble(&self, question: usize, ends: &[u32]) -> Trouble {
        let show = self.session.matter.plan.asks.get(question).map_or(Show::Nothing, |ask| ask.show);
        let cases: Vec<&Case> = ends.iter().filter_map(|end| self.case(*end)).collect();
        let Some(first) = cases.first() else { return Trouble::default() };
        let asked = cases.iter().any(|case| case.asked);
        let conflict = cases.iter().all(|case| case.conflict);
        let referred = !conflict && cases.iter().all(|case| case.refer);
        let class = |case: &Case| (case.refer, case.conflict);
        let differ = cases.iter().any(|case| class(case) != class(first) || case.parts != first.parts);
        let open = differ && !conflict && !referred;
        let may_refer = cases.iter().any(|case| case.refer);
        let finding = agreed(cases.iter().map(|case| case.standing.finding()));
        Trouble {
            refer: referred && asked || cases.iter().all(|case| case.standing == Standing::NoEquivalent),
            conflict,
            not_met: finding == Some(super::found::Finding::NotMet),
            open: open && asked && (may_refer || show == Show::Nothing) || finding == Some(super::found::Finding::Open),
        }
    }

    /// Whether, in a case by itself, nothing is amiss but that the question may be idle.
    pub(crate) fn passes(&self, end: u32, idle: bool) -> bool {
        self.case(end).is_some_and(|case| {
            matches!(case.standing, Standing::Absent | Standing::Met) && if idle { !case.asked } else { !case.refer }
        })
    }

    /// Whether the question is asked in a case.
    pub(crate) fn asks(&self, end: u32) -> bool {
        self.case(end).is_some_and(|case| case.asked)
    }

    /// What is amiss in a case by itself.
    pub(crate) fn alone(&self, question: usize, end: u32) -> Trouble {
        self.trouble(question, &[end])
    }

    fn case(&self, end: u32) -> Option<&Case> {
        self.cases.get((end as usize).checked_sub(1)?)
    }

    /// Whether a condition that was made ready holds in no case: in each it does not, or
    /// turns on a referred question.
    pub(crate) fn fails(ends: &[u32]) -> bool {
        !ends.is_empty() && ends.iter().all(|end| *end != YES + 1)
    }
}

/// What several cones read together.
pub(crate) fn together<'c>(cones: impl IntoIterator<Item = &'c Cone>) -> Cone {
    let mut all = Cone::default();
    for cone in cones {
        all.questions.extend(&cone.questions);
        for (field, reads) in &cone.facts {
            take_in(all.facts.entry(*field).or_default(), reads);
        }
        for (group, reads) in &cone.lists {
            let list = all.lists.entry(*group).or_default();
            list.answer |= reads.answer;
            for condition in &reads.conditions {
                if !list.conditions.contains(condition) {
                    list.conditions.push(*condition);
                }
            }
            for (field, reads) in &reads.attributes {
                take_in(list.attributes.entry(*field).or_default(), reads);
            }
        }
        for (span, answer) in &cone.spans {
            *all.spans.entry(*span).or_default() |= answer;
        }
    }
    all
}

/// Adds what is read elsewhere of the same fact.
pub(crate) fn take_in(all: &mut Reads, reads: &Reads) {
    all.answer |= reads.answer;
    all.whole |= reads.whole;
    for check in &reads.checks {
        if !all.checks.contains(check) {
            all.checks.push(check.clone());
        }
    }
    for limit in &reads.limits {
        if !all.limits.contains(limit) {
            all.limits.push(*limit);
        }
    }
}

/// How a cone reads a fact, or an attribute of a list.
pub(crate) fn reads_of(cone: &Cone, field: FieldId, list: Option<GroupId>) -> Option<&Reads> {
    match list {
        Some(list) => cone.lists.get(&list)?.attributes.get(&field),
        None => cone.facts.get(&field),
    }
}
