//! A question answered for all completions at once: its conditions, answer and
//! finding as diagrams over the unknown facts.

use super::answer::Answer;
use super::cells::TooMany;
use super::check::{passes, within};
use super::cone::Cone;
use super::dates::Calendar;
use super::diagram::Ref;
use super::hash::Table;
use super::limits::DIAGRAM_STEPS;
use super::logic::{Logic, NO, REFERS, YES};
use super::paths::Path;
use super::plan::Look;
use super::truth::{Entry, Matter, Memo, follow};
use super::variables::{Cells, Variables};
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId};
use crate::job::model::Given;
use crate::law::model::{CondId, Effect, Node, ProvisionId};
use crate::syntax::tree::PowerKind;
use std::sync::Arc;

/// The work on one question.
#[derive(Debug)]
pub(crate) struct Session<'a, 'm> {
    pub(crate) matter: &'m Matter<'a>,
    pub(crate) memo: &'m mut Memo,
    pub(crate) variables: Variables,
    pub(crate) logic: Logic,
    nodes: Vec<Option<Ref>>,
    in_entry: Table<(u32, u32, u32), Ref>,
    pub(crate) answers: Vec<Answer>,
    known_answers: std::collections::HashMap<Answer, u32>,
    finals: Vec<Option<(Ref, Ref)>>,
}

/// Where a value comes from.
enum Origin<'v> {
    Known(&'v Given),
    Unknown(u32),
    Nowhere,
}

impl<'a, 'm> Session<'a, 'm> {
    pub(crate) fn new(
        matter: &'m Matter<'a>,
        memo: &'m mut Memo,
        cone: &Cone,
        calendar: &Calendar,
    ) -> Result<Session<'a, 'm>, TooMany> {
        Session::within(matter, memo, cone, calendar, DIAGRAM_STEPS)
    }

    /// The same with a bound of its own on the steps.
    pub(crate) fn within(
        matter: &'m Matter<'a>,
        memo: &'m mut Memo,
        cone: &Cone,
        calendar: &Calendar,
        steps: usize,
    ) -> Result<Session<'a, 'm>, TooMany> {
        let variables = Variables::new(matter, cone, calendar)?;
        Ok(Session {
            matter,
            memo,
            variables,
            logic: Logic::new(steps),
            nodes: vec![None; matter.law.nodes.len()],
            in_entry: Table::default(),
            answers: Vec::new(),
            known_answers: std::collections::HashMap::new(),
            finals: vec![None; matter.law.questions.len()],
        })
    }

    /// The number of an answer.
    pub(crate) fn number(&mut self, answer: Answer) -> u32 {
        number(&mut self.answers, &mut self.known_answers, answer)
    }

    /// A condition as a diagram.
    pub(crate) fn condition(&mut self, id: CondId) -> Result<Ref, TooMany> {
        if let Some(Some(done)) = self.nodes.get(id.0 as usize) {
            return Ok(*done);
        }
        let made = match Logic::decided(self.memo.read(self.matter, id)) {
            Some(decided) => decided,
            None => self.build(id, None)?,
        };
        if let Some(slot) = self.nodes.get_mut(id.0 as usize) {
            *slot = Some(made);
        }
        Ok(made)
    }

    fn condition_in(&mut self, id: CondId, entry: Option<(GroupId, usize)>) -> Result<Ref, TooMany> {
        let inner = self.matter.plan.inner.get(id.0 as usize).copied().unwrap_or(false);
        let (true, Some((group, number))) = (inner, entry) else { return self.condition(id) };
        let key = (id.0, u32::from(group.0), number as u32);
        if let Some(done) = self.in_entry.get(&key) {
            return Ok(*done);
        }
        let made = self.build(id, entry)?;
        self.in_entry.insert(key, made);
        Ok(made)
    }

    fn build(&mut self, id: CondId, entry: Option<(GroupId, usize)>) -> Result<Ref, TooMany> {
        let law = self.matter.law;
        match law.node(id) {
            Node::False => Ok(Ref::end(NO)),
            Node::True => Ok(Ref::end(YES)),
            Node::Not(part) => {
                let part = self.condition_in(*part, entry)?;
                self.logic.not(part)
            }
            Node::And(parts) => {
                let mut all = Ref::end(YES);
                for part in parts {
                    let part = self.condition_in(*part, entry)?;
                    all = self.logic.and(all, part)?;
                    if all == Ref::end(NO) {
                        break;
                    }
                }
                Ok(all)
            }
            Node::Or(parts) => {
                let mut any = Ref::end(NO);
                for part in parts {
                    let part = self.condition_in(*part, entry)?;
                    any = self.logic.or(any, part)?;
                    if any == Ref::end(YES) {
                        break;
                    }
                }
                Ok(any)
            }
            Node::Field(field, check) => self.test(*field, check, entry),
            Node::Entries { any, group, with } => {
                let found = self.any_entry(*group, *with)?;
                if *any { Ok(found) } else { self.logic.not(found) }
            }
            Node::Answer { question, rungs } => {
                let (answer, _) = self.settle(*question)?;
                let answers = &self.answers;
                self.logic.diagrams.map(answer, &mut |number| match answers.get(number as usize) {
                    Some(answer) if answer.refer => REFERS,
                    Some(answer) => {
                        let rung = answer.parts.part(0).and_then(|part| u16::try_from(part).ok());
                        if rung.is_some_and(|rung| rungs.has(rung)) { YES } else { NO }
                    }
                    None => NO,
                })
            }
            Node::Span(span) => {
                let Some(known) = law.spans.get(*span) else { return Ok(Ref::end(NO)) };
                let within = self.condition(known.within)?;
                let Some(variable) = self.variables.find(Path::Span(*span)) else { return Ok(Ref::end(NO)) };
                let free = self.logic.diagrams.node(variable, &[Ref::end(NO), Ref::end(YES)])?;
                self.logic.and(within, free)
            }
        }
    }

    fn source(&self, field: FieldId, entry: Option<(GroupId, usize)>) -> Origin<'a> {
        let path = match (entry, self.matter.lexicon.field(field)) {
            (Some((group, number)), Some(known)) if known.group == Some(group) => {
                let row = self.matter.list(group).and_then(|list| list.entries.get(number));
                match row.and_then(|row| row.get(usize::from(known.column))) {
                    None | Some(Given::Unknown) => Path::Attribute { group, entry: number, field },
                    Some(value) => return Origin::Known(value),
                }
            }
            _ => match self.matter.fact(field) {
                Given::Unknown => Path::Fact(field),
                value => return Origin::Known(value),
            },
        };
        self.variables.find(path).map_or(Origin::Nowhere, Origin::Unknown)
    }

    fn values(&self, variable: u32) -> Arc<[Given]> {
        match self.variables.get(variable).map(|variable| &variable.cells) {
            Some(Cells::Values(values)) => Arc::clone(values),
            _ => Arc::from([]),
        }
    }

    fn test(&mut self, field: FieldId, check: &Check, entry: Option<(GroupId, usize)>) -> Result<Ref, TooMany> {
        let end = |held: bool| Ref::end(if held { YES } else { NO });
        let own = self.source(field, entry);
        if let Check::Within(period, other) = check {
            return match (own, self.source(*other, entry)) {
                (Origin::Known(date), Origin::Known(start)) => Ok(end(within(date, *period, start))),
                (Origin::Unknown(variable), Origin::Known(start)) => {
                    let cells: Vec<Ref> =
                        self.values(variable).iter().map(|date| end(within(date, *period, start))).collect();
                    self.logic.diagrams.node(variable, &cells)
                }
                (Origin::Known(date), Origin::Unknown(variable)) => {
                    let cells: Vec<Ref> =
                        self.values(variable).iter().map(|start| end(within(date, *period, start))).collect();
                    self.logic.diagrams.node(variable, &cells)
                }
                (Origin::Unknown(date), Origin::Unknown(start)) => {
                    self.pair(date, start, &|date, start| within(date, *period, start))
                }
                _ => Ok(end(false)),
            };
        }
        match own {
            Origin::Known(value) => Ok(end(passes(value, check))),
            Origin::Unknown(variable) => {
                let cells: Vec<Ref> = self.values(variable).iter().map(|value| end(passes(value, check))).collect();
                self.logic.diagrams.node(variable, &cells)
            }
            Origin::Nowhere => match (self.matter.presumed(field), check) {
                (Some(cond), Check::Among(terms)) => {
                    let followed = self.condition(cond)?;
                    self.logic.diagrams.map(followed, &mut |value| {
                        let mark = match value {
                            NO => super::truth::Mark::No,
                            YES => super::truth::Mark::Yes,
                            _ => super::truth::Mark::Refers,
                        };
                        Logic::decided(follow(mark, *terms)).and_then(Ref::value).unwrap_or(REFERS)
                    })
                }
                _ => Ok(end(false)),
            },
        }
    }

    /// A test of a fact outside any entry.
    pub(crate) fn fact(&mut self, field: FieldId, check: &Check) -> Result<Ref, TooMany> {
        self.test(field, check, None)
    }

    /// A test of two unknown facts against each other.
    fn pair(&mut self, one: u32, two: u32, holds: &dyn Fn(&Given, &Given) -> bool) -> Result<Ref, TooMany> {
        let (ones, twos) = (self.values(one), self.values(two));
        if one == two {
            let cells: Vec<Ref> =
                ones.iter().map(|value| Ref::end(if holds(value, value) { YES } else { NO })).collect();
            return self.logic.diagrams.node(one, &cells);
        }
        let flip = one > two;
        let (upper, lower) = if flip { (&twos, &ones) } else { (&ones, &twos) };
        let mut branches = Vec::with_capacity(upper.len());
        for high in upper.iter() {
            let cells: Vec<Ref> = lower
                .iter()
                .map(|low| {
                    let held = if flip { holds(low, high) } else { holds(high, low) };
                    Ref::end(if held { YES } else { NO })
                })
                .collect();
            branches.push(self.logic.diagrams.node(one.max(two), &cells)?);
        }
        self.logic.diagrams.node(one.min(two), &branches)
    }

    fn any_entry(&mut self, group: GroupId, with: CondId) -> Result<Ref, TooMany> {
        let Some(list) = self.matter.list(group) else { return Ok(Ref::end(NO)) };
        let mut all = Vec::new();
        for (number, values) in list.entries.iter().enumerate() {
            let mark = self.memo.read_in(self.matter, with, Some(Entry { group, values }));
            let here = match Logic::decided(mark) {
                Some(decided) => decided,
                None => self.condition_in(with, Some((group, number)))?,
            };
            match here.value() {
                Some(YES) => return Ok(here),
                Some(NO) => {}
                _ => all.push((self.logic.diagrams.variable(here), here)),
            }
        }
        // From the last name upwards, so that each entry is put on top of the rest.
        all.sort_unstable_by(|one, two| two.cmp(one));
        let mut any = Ref::end(NO);
        for (_, here) in all {
            any = self.logic.or(any, here)?;
        }
        if list.more {
            let path = if list.entries.is_empty() { Path::List(group) } else { Path::Further(group) };
            let further = self.further(path, with)?;
            any = self.logic.or(any, further)?;
        }
        Ok(any)
    }

    /// Whether some entry of an unknown list fulfils the condition.
    fn further(&mut self, path: Path, with: CondId) -> Result<Ref, TooMany> {
        let Some(variable) = self.variables.find(path) else { return Ok(Ref::end(NO)) };
        let Some(Cells::Sets(sets)) = self.variables.get(variable).map(|variable| variable.cells.clone()) else {
            return Ok(Ref::end(NO));
        };
        let Some(place) = sets.conditions.iter().position(|cond| *cond == with) else { return Ok(Ref::end(NO)) };
        // Only what this condition hangs on: another may test an answer that is
        // being worked out just now.
        let needed = sets.needed(place);
        let mut outside = Vec::with_capacity(sets.outside.len());
        for (number, part) in sets.outside.iter().enumerate() {
            outside.push(if needed.contains(&number) { self.outside(part)? } else { Ref::end(NO) });
        }
        let mut cases = Vec::with_capacity(sets.sets.len());
        for set in 0..sets.sets.len() {
            cases.push(sets.truth(set, place, &outside, &mut self.logic)?);
        }
        self.logic.diagrams.choose(variable, &cases)
    }

    fn outside(&mut self, part: &super::lists::Outside) -> Result<Ref, TooMany> {
        use super::lists::Outside;
        let end = |held: bool| Ref::end(if held { YES } else { NO });
        type Test<'t> = Box<dyn Fn(&Given) -> bool + 't>;
        let (field, holds): (FieldId, Test<'_>) = match part {
            Outside::Condition(cond) => return self.condition(*cond),
            Outside::After { date, period, start } => (*start, Box::new(|value| within(date, *period, value))),
            Outside::Before { date, period, start } => (*date, Box::new(|value| within(value, *period, start))),
        };
        match self.source(field, None) {
            Origin::Known(value) => Ok(end(holds(value))),
            Origin::Unknown(variable) => {
                let cells: Vec<Ref> = self.values(variable).iter().map(|value| end(holds(value))).collect();
                self.logic.diagrams.node(variable, &cells)
            }
            Origin::Nowhere => Ok(end(false)),
        }
    }

    /// The final answer of a question before contradictions with others, and
    /// whether some provision reaches.
    pub(crate) fn settle(&mut self, question: usize) -> Result<(Ref, Ref), TooMany> {
        if let Some(Some(done)) = self.finals.get(question) {
            return Ok(*done);
        }
        let made = self.settle_of(question, &|_| true, &|_| true)?;
        if let Some(slot) = self.finals.get_mut(question) {
            *slot = Some(made);
        }
        Ok(made)
    }

    /// The final answer and whether a provision reaches, where only these provisions
    /// and only these powers, by their place, are law.
    pub(crate) fn settle_of(
        &mut self,
        question: usize,
        kept: &dyn Fn(ProvisionId) -> bool,
        held_over: &dyn Fn(usize) -> bool,
    ) -> Result<(Ref, Ref), TooMany> {
        let (law, plan) = (self.matter.law, self.matter.plan);
        let (Some(own), Some(ask)) = (law.questions.get(question), plan.asks.get(question)) else {
            return Err(TooMany);
        };
        let form = ask.form;
        let (mut answer, mut reach) = self.combine(question, &own.whole, kept)?;
        for (_, power) in own.powers.iter().enumerate().filter(|(place, _)| held_over(*place)) {
            let held = self.condition(power.cond)?;
            if held == Ref::end(NO) {
                continue;
            }
            let (outer, outer_reach) = self.combine(question, &power.outer, kept)?;
            let (then, then_reach) = match power.kind {
                PowerKind::Preempts => (outer, outer_reach),
                PowerKind::Floor => {
                    let both = self.merge(answer, outer, &|one, two| form.both(one.clone(), two))?;
                    (both, self.logic.or(reach, outer_reach)?)
                }
                PowerKind::Ceiling => {
                    let either = self.merge(answer, outer, &|one, two| form.either(one.clone(), two))?;
                    (self.switch(outer_reach, either, answer)?, self.logic.or(reach, outer_reach)?)
                }
            };
            answer = self.switch(held, then, answer)?;
            let kept = self.logic.not(held)?;
            let (inside, outside) = (self.logic.and(held, then_reach)?, self.logic.and(kept, reach)?);
            reach = self.logic.or(inside, outside)?;
        }
        let (answers, known) = (&mut self.answers, &mut self.known_answers);
        answer = self.logic.diagrams.map(answer, &mut |at| {
            let mut closed = fetch(answers, at, &form);
            form.close(&mut closed);
            number(answers, known, closed)
        })?;
        Ok((answer, reach))
    }

    /// All demands of these provisions together, and whether one reaches.
    fn combine(
        &mut self,
        question: usize,
        list: &[ProvisionId],
        kept: &dyn Fn(ProvisionId) -> bool,
    ) -> Result<(Ref, Ref), TooMany> {
        let law = self.matter.law;
        let Some(form) = self.matter.plan.asks.get(question).map(|ask| ask.form) else { return Err(TooMany) };
        let mut answer = Ref::end(self.number(form.loosest()));
        let mut reach = Ref::end(NO);
        for id in list.iter().filter(|id| kept(**id)) {
            let Some(provision) = law.provision(*id) else { continue };
            let reaches = self.condition(provision.reach)?;
            if reaches == Ref::end(NO) {
                continue;
            }
            reach = self.logic.or(reach, reaches)?;
            let guard = self.condition(provision.guard)?;
            if guard == Ref::end(NO) {
                continue;
            }
            let (answers, known) = (&mut self.answers, &mut self.known_answers);
            answer = self.logic.diagrams.join_with(answer, guard, &mut Table::default(), &mut |at, truth| match (
                at.value(),
                truth.value(),
            ) {
                (_, Some(NO)) => Some(at),
                (Some(at), Some(truth)) => {
                    let mut next = fetch(answers, at, &form);
                    match &provision.effect {
                        Effect::Demand(demand) if truth == YES => form.add(&mut next, demand),
                        _ => next.refer = true,
                    }
                    Some(Ref::end(number(answers, known, next)))
                }
                _ => None,
            })?;
        }
        Ok((answer, reach))
    }

    fn merge(&mut self, one: Ref, two: Ref, op: &dyn Fn(&Answer, &Answer) -> Answer) -> Result<Ref, TooMany> {
        let (answers, known) = (&mut self.answers, &mut self.known_answers);
        self.logic.diagrams.join(one, two, &mut |a, b| {
            let merged = match (answers.get(a as usize), answers.get(b as usize)) {
                (Some(a), Some(b)) => op(a, b),
                _ => return a,
            };
            number(answers, known, merged)
        })
    }

    /// One answer where the condition holds, else the other; where it turns on a
    /// referred question, the other as referred.
    fn switch(&mut self, cond: Ref, then: Ref, otherwise: Ref) -> Result<Ref, TooMany> {
        match cond.value() {
            Some(YES) => return Ok(then),
            Some(NO) => return Ok(otherwise),
            _ => {}
        }
        let marked = self.logic.diagrams.join(cond, then, &mut |truth, answer| answer * 3 + truth)?;
        let (answers, known) = (&mut self.answers, &mut self.known_answers);
        self.logic.diagrams.join(marked, otherwise, &mut |marked, other| match marked % 3 {
            YES => marked / 3,
            NO => other,
            _ => match answers.get(other as usize).cloned() {
                Some(mut referred) => {
                    referred.refer = true;
                    number(answers, known, referred)
                }
                None => other,
            },
        })
    }

    /// The dates stand in their order.
    pub(crate) fn care(&mut self) -> Result<Ref, TooMany> {
        let mut care = Ref::end(YES);
        for (later, earlier) in self.variables.order.clone() {
            let pair = self.pair(later, earlier, &|later, earlier| match (later, earlier) {
                (Given::Date(later), Given::Date(earlier)) => later >= earlier,
                _ => true,
            })?;
            care = self.logic.and(care, pair)?;
        }
        Ok(care)
    }

    /// A fact's values as a diagram whose ends are numbers among `values`.
    pub(crate) fn told(&mut self, field: FieldId, values: &mut Vec<Given>) -> Result<Ref, TooMany> {
        let mut place = |value: &Given| {
            let at = values.iter().position(|known| known == value).unwrap_or_else(|| {
                values.push(value.clone());
                values.len() - 1
            });
            Ref::end(at as u32)
        };
        match self.source(field, None) {
            Origin::Known(value) => Ok(place(value)),
            Origin::Unknown(variable) => {
                let cells: Vec<Ref> = self.values(variable).iter().map(&mut place).collect();
                self.logic.diagrams.node(variable, &cells)
            }
            Origin::Nowhere => Ok(place(&Given::Unknown)),
        }
    }
}

fn number(answers: &mut Vec<Answer>, known: &mut std::collections::HashMap<Answer, u32>, answer: Answer) -> u32 {
    if let Some(number) = known.get(&answer) {
        return *number;
    }
    let number = answers.len() as u32;
    answers.push(answer.clone());
    known.insert(answer, number);
    number
}

fn fetch(answers: &[Answer], at: u32, form: &super::answer::Form) -> Answer {
    answers.get(at as usize).cloned().unwrap_or_else(|| form.loosest())
}
