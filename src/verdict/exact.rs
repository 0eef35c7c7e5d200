//! State, value, bounds, finding, witnesses and what to ask, read off a
//! question's diagram.

use super::answer::{Answer, Parts};
use super::cells::TooMany;
use super::complete::Session;
use super::diagram::Ref;
use super::finding::{Need, compare, held_back, need, shown};
use super::found::{Ends, Finding, Found, Standing, State, Witnesses, agreed};
use super::hash::Table;
use super::logic::{NO, YES};
use super::paths::{Path, Told};
use super::plan::{Ask, Show};
use crate::glossary::model::FieldId;
use crate::job::model::Given;
use crate::values::Terms;
use std::collections::BTreeMap;

/// The end of what cannot be: the dates stand out of order.
const NEVER: u32 = 0;

/// What is the case in some completions: an answer and a finding.
struct Case {
    answer: Answer,
    standing: Standing,
    /// Cases with the same value, referral and conflict have the same number.
    class: usize,
    /// Cases with the same class and finding have the same number.
    result: u32,
}

impl Session<'_, '_> {
    /// Everything that is found of a question.
    pub(crate) fn find(&mut self, question: usize) -> Result<Found, TooMany> {
        let (law, plan) = (self.matter.law, self.matter.plan);
        let (Some(own), Some(ask)) = (law.questions.get(question), plan.asks.get(question)) else {
            return Err(TooMany);
        };
        let (answer, reach) = self.settle_beside(question)?;
        let asked = self.condition(own.asked)?;
        let standing = self.standing(question, answer, asked)?;
        let care = self.care()?;
        let mut pairs: Vec<(u32, u32)> = vec![(0, 0)];
        let mut known: BTreeMap<(u32, u32), u32> = BTreeMap::new();
        let joined = self.logic.diagrams.join(answer, standing, &mut |answer, standing| {
            *known.entry((answer, standing)).or_insert_with(|| {
                pairs.push((answer, standing));
                pairs.len() as u32 - 1
            })
        })?;
        let whole = self.within_care(joined, care)?;
        let reaches = self.holds_somewhere(reach, care)?;
        let asked = self.holds_somewhere(asked, care)?;
        self.read_off(ask, whole, &pairs, reaches, asked)
    }

    /// The final answer of a question, contradictions with others among it, and
    /// whether some provision reaches.
    pub(crate) fn settle_beside(&mut self, question: usize) -> Result<(Ref, Ref), TooMany> {
        let (mut answer, reach) = self.settle(question)?;
        let law = self.matter.law;
        for other in law.questions.get(question).map_or(&[][..], |own| &own.contrary) {
            answer = self.contradict(question, *other, answer)?;
        }
        Ok((answer, reach))
    }

    fn within_care(&mut self, of: Ref, care: Ref) -> Result<Ref, TooMany> {
        if care == Ref::end(YES) {
            return Ok(of);
        }
        self.logic.diagrams.join(of, care, &mut |value, care| if care == NO { NEVER } else { value })
    }

    /// Whether a condition is not plainly false in every completion.
    pub(crate) fn holds_somewhere(&mut self, cond: Ref, care: Ref) -> Result<bool, TooMany> {
        let within = self.logic.and(cond, care)?;
        Ok(self.logic.diagrams.ends(within).iter().any(|end| *end != NO))
    }

    /// Whether a condition plainly holds in some completion.
    pub(crate) fn holds_plainly(&mut self, cond: Ref, care: Ref) -> Result<bool, TooMany> {
        let within = self.logic.and(cond, care)?;
        Ok(self.logic.diagrams.ends(within).contains(&YES))
    }

    /// Whether a condition holds in every completion.
    pub(crate) fn holds_everywhere(&mut self, cond: Ref, care: Ref) -> Result<bool, TooMany> {
        if care == Ref::end(YES) {
            return Ok(cond == Ref::end(YES));
        }
        let without = self.logic.not(care)?;
        let either = self.logic.or(cond, without)?;
        Ok(either == Ref::end(YES))
    }

    fn contradict(&mut self, question: usize, other: usize, answer: Ref) -> Result<Ref, TooMany> {
        let asks = &self.matter.plan.asks;
        let (Some(mine), Some(theirs)) = (asks.get(question), asks.get(other)) else { return Ok(answer) };
        let (against, _) = self.settle(other)?;
        let strict: Vec<bool> = self.answers.iter().map(|answer| theirs.form.at_strict_end(&answer.parts)).collect();
        let marks = self
            .logic
            .diagrams
            .map(against, &mut |at| if strict.get(at as usize).copied().unwrap_or(false) { YES } else { NO })?;
        let mut made: Vec<(u32, Answer)> = Vec::new();
        for end in self.logic.diagrams.ends(answer) {
            if let Some(known) = self.answers.get(end as usize)
                && mine.form.at_strict_end(&known.parts)
            {
                let mut conflict = known.clone();
                conflict.conflict = true;
                made.push((end, conflict));
            }
        }
        let made: BTreeMap<u32, u32> = made.into_iter().map(|(end, answer)| (end, self.number(answer))).collect();
        self.logic.diagrams.join(answer, marks, &mut |at, mark| {
            if mark == YES { made.get(&at).copied().unwrap_or(at) } else { at }
        })
    }

    /// The finding, by its number, given the answer and whether the question is asked.
    pub(super) fn standing(&mut self, question: usize, answer: Ref, asked: Ref) -> Result<Ref, TooMany> {
        let (law, plan) = (self.matter.law, self.matter.plan);
        let (Some(own), Some(ask)) = (law.questions.get(question), plan.asks.get(question)) else {
            return Err(TooMany);
        };
        let truth = |value: u32| match value {
            YES => Some(true),
            NO => Some(false),
            _ => None,
        };
        let answers = self.answers.clone();
        let fetch = |at: u32| answers.get(at as usize);
        let standing = match ask.show {
            Show::Nothing => return Ok(Ref::end(Standing::Absent.number())),
            Show::Never => self.logic.diagrams.map(answer, &mut |at| {
                fetch(at).map_or(Standing::Absent, |answer| shown(ask, answer, Some(false))).number()
            })?,
            Show::Where(cond) => {
                let cond = self.condition(cond)?;
                self.logic.diagrams.join(answer, cond, &mut |at, cond| {
                    fetch(at).map_or(Standing::Absent, |answer| shown(ask, answer, truth(cond))).number()
                })?
            }
            Show::Measure(field) => {
                let (needs, needed) = self.needs(ask, answer)?;
                let mut values = Vec::new();
                let told = self.told(field, &mut values)?;
                self.logic.diagrams.join(needed, told, &mut |at, value| match (
                    needs.get(at as usize),
                    values.get(value as usize),
                ) {
                    (Some(need), Some(value)) => compare(ask, own, *need, value).number(),
                    _ => Standing::Open.number(),
                })?
            }
        };
        self.logic
            .diagrams
            .join(standing, asked, &mut |standing, asked| held_back(Standing::of(standing), truth(asked)).number())
    }

    /// What the answer asks of the job's own term.
    fn needs(&mut self, ask: &Ask, answer: Ref) -> Result<(Vec<Need>, Ref), TooMany> {
        let mut needs: Vec<Need> = Vec::new();
        let mut place = |need: Need| {
            let at = needs.iter().position(|known| *known == need).unwrap_or_else(|| {
                needs.push(need);
                needs.len() - 1
            });
            at as u32
        };
        let mut terms: Vec<Given> = Vec::new();
        let per: Option<FieldId> = ask.per;
        let answers = self.answers.clone();
        let diagram = match per {
            None => self.logic.diagrams.map(answer, &mut |at| {
                place(answers.get(at as usize).map_or(Need::Untold, |answer| need(ask, answer, None)))
            })?,
            Some(field) => {
                let told = self.told(field, &mut terms)?;
                self.logic.diagrams.join(answer, told, &mut |at, term| {
                    place(
                        answers
                            .get(at as usize)
                            .map_or(Need::Untold, |answer| need(ask, answer, terms.get(term as usize))),
                    )
                })?
            }
        };
        Ok((needs, diagram))
    }

    fn read_off(
        &mut self,
        ask: &Ask,
        whole: Ref,
        pairs: &[(u32, u32)],
        reaches: bool,
        asked: bool,
    ) -> Result<Found, TooMany> {
        let cases = self.cases(whole, pairs);
        let classes: BTreeMap<usize, &Answer> = cases.values().map(|case| (case.class, &case.answer)).collect();
        let all = |test: &dyn Fn(&Answer) -> bool| classes.values().all(|answer| test(answer));
        let any = |test: &dyn Fn(&Answer) -> bool| classes.values().any(|answer| test(answer));
        let Some(first) = classes.values().next() else { return Err(TooMany) };
        let state = if all(&|answer| answer.conflict) {
            State::Conflict
        } else if all(&|answer| answer.refer) {
            State::Referred
        } else if classes.len() > 1 {
            State::Open
        } else if reaches {
            State::Settled
        } else {
            State::Silent
        };
        let value = all(&|answer| answer.parts == first.parts).then(|| first.parts.clone());
        let between = (state == State::Open).then(|| bounds(ask, classes.values().copied())).flatten();
        let results: BTreeMap<u32, u32> = cases.iter().map(|(end, case)| (*end, case.result)).collect();
        let told = self
            .logic
            .diagrams
            .map(whole, &mut |end| if end == NEVER { NEVER } else { results.get(&end).copied().unwrap_or(NEVER) })?;
        let asks = self.asks(told)?;
        let pair = (state == State::Open).then(|| self.witnesses(whole, &cases, between.as_ref())).flatten();
        let (witnesses, ends) = pair.unzip();
        let standings = || cases.values().map(|case| case.standing);
        Ok(Found {
            state,
            value,
            between,
            may_refer: state == State::Open && any(&|answer| answer.refer),
            may_conflict: matches!(state, State::Open | State::Referred) && any(&|answer| answer.conflict),
            bounds_only: false,
            finding: agreed(standings().map(Standing::finding)),
            no_equivalent: standings().all(|standing| standing == Standing::NoEquivalent),
            may_lack_equivalent: standings().any(|standing| standing == Standing::NoEquivalent),
            asked,
            moot: cases.values().any(|case| case.answer.moot),
            named: cases.values().fold(Terms::NONE, |named, case| named.union(case.answer.named)),
            only: cases.values().any(|case| case.answer.only),
            asks,
            witnesses,
            ends,
        })
    }

    /// The cases that occur, by the end of the diagram.
    fn cases(&self, whole: Ref, pairs: &[(u32, u32)]) -> BTreeMap<u32, Case> {
        let mut classes: Vec<(Parts, bool, bool)> = Vec::new();
        let mut results: Vec<(usize, Option<Finding>)> = Vec::new();
        let mut cases = BTreeMap::new();
        for end in self.logic.diagrams.ends(whole) {
            let Some((answer, standing)) = pairs.get(end as usize) else { continue };
            let Some(answer) = self.answers.get(*answer as usize).filter(|_| end != NEVER) else { continue };
            let key = (answer.parts.clone(), answer.refer, answer.conflict);
            let class = place(&mut classes, key);
            let standing = Standing::of(*standing);
            // The number 0 is kept for what cannot be.
            let result = place(&mut results, (class, standing.finding())) as u32 + 1;
            cases.insert(end, Case { answer: answer.clone(), standing, class, result });
        }
        cases
    }

    /// The unknown facts whose change alone changes the result.
    fn asks(&mut self, told: Ref) -> Result<Vec<Path>, TooMany> {
        let bounded = self.logic.diagrams.ends(told).contains(&NEVER);
        let mut asks: Vec<u32> = Vec::new();
        let mut memo = Table::default();
        for (variable, node) in self.logic.diagrams.looked_at(told) {
            if asks.last() == Some(&variable) {
                continue;
            }
            if !bounded || self.changes(node, &mut memo)? {
                asks.push(variable);
            }
        }
        Ok(asks
            .into_iter()
            .filter_map(|variable| self.variables.get(variable).map(|variable| variable.path))
            .filter(|path| !matches!(path, Path::Span(_)))
            .collect())
    }

    /// Whether two cells of a node lead to different results in some completion
    /// of the rest that both allow.
    fn changes(&mut self, node: Ref, memo: &mut Table<(Ref, Ref), Ref>) -> Result<bool, TooMany> {
        let branches = self.logic.diagrams.branches(node).to_vec();
        for (at, one) in branches.iter().enumerate() {
            for two in branches.iter().skip(at + 1) {
                if one == two {
                    continue;
                }
                let differ =
                    self.logic.diagrams.join_with(*one, *two, memo, &mut |a, b| match (a.value(), b.value()) {
                        (Some(NEVER), _) | (_, Some(NEVER)) => Some(Ref::end(NO)),
                        _ if a == b => Some(Ref::end(NO)),
                        (Some(_), Some(_)) => Some(Ref::end(YES)),
                        _ => None,
                    })?;
                if differ != Ref::end(NO) {
                    return Ok(true);
                }
            }
        }
        Ok(false)
    }

    /// Two completions that differ: the first that gives the loosest and the first
    /// that gives the strictest answer, else the first two that differ; each with its
    /// own answer, none where that is referred.
    fn witnesses(
        &self,
        whole: Ref,
        cases: &BTreeMap<u32, Case>,
        between: Option<&(Parts, Parts)>,
    ) -> Option<(Witnesses, Ends)> {
        let walk = |wanted: &dyn Fn(&Case) -> bool| {
            self.logic.diagrams.first(whole, &|end| end != NEVER && cases.get(&end).is_some_and(wanted))
        };
        if let Some((low, high)) = between
            && low != high
        {
            let at = |parts: &Parts| walk(&|case: &Case| !case.answer.refer && case.answer.parts == *parts);
            if let (Some(loosest), Some(strictest)) = (at(low), at(high)) {
                let ends = [Some(low.clone()), Some(high.clone())];
                return Some(([self.tell(&loosest), self.tell(&strictest)], ends));
            }
        }
        let first = walk(&|_| true)?;
        let one = cases.get(&self.end_of(whole, &first)?)?;
        let second = walk(&|case: &Case| case.class != one.class)?;
        let two = cases.get(&self.end_of(whole, &second)?)?;
        let ends = [one, two].map(|case| (!case.answer.refer).then(|| case.answer.parts.clone()));
        Some(([self.tell(&first), self.tell(&second)], ends))
    }

    fn end_of(&self, whole: Ref, walk: &[(u32, usize)]) -> Option<u32> {
        let mut at = whole;
        for (_, cell) in walk {
            at = self.logic.diagrams.branches(at).get(*cell).copied()?;
        }
        at.value()
    }

    /// The facts that the question's provisions test, as a completion has them.
    fn tell(&self, walk: &[(u32, usize)]) -> Vec<Told> {
        let cells: BTreeMap<u32, usize> = walk.iter().copied().collect();
        (0u32..)
            .zip(&self.variables.list)
            .filter(|(_, variable)| variable.answer)
            .map(|(number, variable)| variable.told(cells.get(&number).copied().unwrap_or(0)))
            .collect()
    }
}

/// The loosest and the strictest part by part over answers that are not referred.
fn bounds<'x>(ask: &Ask, answers: impl Iterator<Item = &'x Answer>) -> Option<(Parts, Parts)> {
    let mut bounds: Option<(Parts, Parts)> = None;
    for answer in answers.filter(|answer| !answer.refer) {
        match &mut bounds {
            None => bounds = Some((answer.parts.clone(), answer.parts.clone())),
            Some((low, high)) => {
                low.merge(&answer.parts, |a, b| ask.form.way.loosen(a, b));
                high.merge(&answer.parts, |a, b| ask.form.way.tighten(a, b));
            }
        }
    }
    bounds
}

fn place<T: PartialEq>(list: &mut Vec<T>, item: T) -> usize {
    list.iter().position(|known| *known == item).unwrap_or_else(|| {
        list.push(item);
        list.len() - 1
    })
}
