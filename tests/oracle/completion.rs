//! One completion of a job, and what the law says of it, by the plainest code.

use super::world::World;
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId, Met, Order};
use crate::job::model::Given;
use crate::law::model::{CondId, Effect, Node, ProvisionId};
use crate::syntax::tree::PowerKind;
use crate::values::Terms;

/// Everything known.
#[derive(Clone)]
pub(crate) struct Completion {
    pub(crate) values: Vec<Given>,
    pub(crate) lists: Vec<Vec<Vec<Given>>>,
    pub(crate) spans: Vec<bool>,
}

#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answer {
    pub(crate) parts: Vec<u128>,
    pub(crate) refer: bool,
    pub(crate) conflict: bool,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Finding {
    None,
    Met,
    NotMet,
    Open,
}

/// What one completion comes to for a question.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Case {
    pub(crate) answer: Answer,
    pub(crate) reach: bool,
    pub(crate) finding: Finding,
    pub(crate) no_equivalent: bool,
    pub(crate) asked: bool,
}

struct Sum {
    answer: Answer,
    reach: bool,
    /// The sets of terms that demands name.
    named: Vec<Terms>,
}

pub(crate) struct Judge<'w> {
    pub(crate) world: &'w World,
    pub(crate) facts: &'w Completion,
}

/// Yes, no, or turning on a referred question.
type Truth = Option<bool>;

impl Judge<'_> {
    pub(crate) fn condition(&self, cond: CondId, entry: Option<(GroupId, &[Given])>) -> Truth {
        match &self.world.law.nodes[cond.0 as usize] {
            Node::False => Some(false),
            Node::True => Some(true),
            Node::Not(part) => self.condition(*part, entry).map(|held| !held),
            Node::And(parts) => all(parts.iter().map(|part| self.condition(*part, entry))),
            Node::Or(parts) => any(parts.iter().map(|part| self.condition(*part, entry))),
            Node::Field(field, check) => self.test(*field, check, entry),
            Node::Entries { any: some, group, with } => {
                let rows = &self.facts.lists[usize::from(group.0)];
                let held = any(rows.iter().map(|row| self.condition(*with, Some((*group, row)))));
                if *some { held } else { held.map(|held| !held) }
            }
            Node::Answer { question, rungs } => {
                let answer = self.before_contradictions(*question).answer;
                (!answer.refer).then(|| rungs.has(answer.parts[0] as u16))
            }
            Node::Span(span) => {
                all([self.condition(self.world.law.spans[*span].within, None), Some(self.facts.spans[*span])]
                    .into_iter())
            }
        }
    }

    fn value(&self, field: FieldId, entry: Option<(GroupId, &[Given])>) -> Given {
        let known = &self.world.fields[usize::from(field.0)];
        match entry {
            Some((group, row)) if known.group == Some(group) => row[usize::from(known.column)].clone(),
            _ => self.facts.values[usize::from(field.0)].clone(),
        }
    }

    fn test(&self, field: FieldId, check: &Check, entry: Option<(GroupId, &[Given])>) -> Truth {
        let value = self.value(field, entry);
        if value == Given::Unknown {
            let presumed = self.world.law.presumed.iter().find(|(presumed, _)| *presumed == field);
            let Check::Among(terms) = check else { panic!("only yes-no facts are presumed") };
            let held = self.condition(presumed.expect("all else is completed").1, None);
            return match (terms.has(0), terms.has(1)) {
                (true, true) => Some(true),
                (false, false) => Some(false),
                (false, true) => held,
                (true, false) => held.map(|held| !held),
            };
        }
        Some(match (check, &value) {
            (Check::Among(terms), Given::Term(term)) => terms.has(*term),
            (Check::Includes(terms), Given::Set(held)) => held.iter().any(|term| terms.has(term)),
            (Check::AtLeast(at), Given::Measure(measure)) => measure.amount >= *at,
            (Check::AtMost(at), Given::Measure(measure)) => measure.amount <= *at,
            (Check::Over(at), Given::Measure(measure)) => measure.amount > *at,
            (Check::Under(at), Given::Measure(measure)) => measure.amount < *at,
            (Check::Before(day), Given::Date(date)) => date < day,
            (Check::From(day), Given::Date(date)) => date >= day,
            (Check::Within(period, other), Given::Date(date)) => match self.value(*other, entry) {
                Given::Date(start) => *date >= start && *date <= start.after(*period),
                _ => false,
            },
            (Check::Named(names), Given::Name(name)) => names.contains(name),
            _ => false,
        })
    }

    fn order(&self, question: usize) -> &Order {
        &self.world.questions[usize::from(self.world.law.questions[question].question.0)].order
    }

    fn tighter(&self, question: usize, one: u128, two: u128) -> u128 {
        match self.order(question) {
            Order::Only(_) => one & two,
            Order::AllOf(_) => one | two,
            _ => one.max(two),
        }
    }

    fn looser(&self, question: usize, one: u128, two: u128) -> u128 {
        match self.order(question) {
            Order::Only(_) => one | two,
            Order::AllOf(_) => one & two,
            _ => one.min(two),
        }
    }

    pub(crate) fn loosest(&self, question: usize) -> Vec<u128> {
        let own = &self.world.law.questions[question];
        vec![if matches!(self.order(question), Order::Only(_)) { own.terms.0 } else { 0 }; own.parts]
    }

    fn sum(&self, question: usize, provisions: &[ProvisionId]) -> Sum {
        let own = &self.world.law.questions[question];
        let mut sum = Sum {
            answer: Answer { parts: self.loosest(question), refer: false, conflict: false },
            reach: false,
            named: Vec::new(),
        };
        for id in provisions {
            let provision = &self.world.law.provisions[id.0 as usize];
            if self.condition(provision.reach, None) != Some(true) {
                continue;
            }
            sum.reach = true;
            match (self.condition(provision.guard, None), &provision.effect) {
                (Some(false), _) => {}
                (Some(true), Effect::Demand(demand)) => {
                    for (number, part) in sum.answer.parts.iter_mut().enumerate() {
                        // Of a term that it does not name a demand says nothing.
                        if own.parts > 1 && !demand.named.has(number as u16) {
                            continue;
                        }
                        let mut asked = demand.parts[number];
                        if matches!(self.order(question), Order::Only(_) | Order::AllOf(_)) {
                            asked &= own.terms.0;
                        }
                        *part = self.tighter(question, *part, asked);
                    }
                    sum.named.push(demand.named);
                }
                _ => sum.answer.refer = true,
            }
        }
        sum
    }

    fn before_contradictions(&self, question: usize) -> Sum {
        let own = &self.world.law.questions[question];
        let mut sum = self.sum(question, &own.whole);
        for power in &own.powers {
            if self.condition(power.cond, None) != Some(true) {
                continue;
            }
            let outer = self.sum(question, &power.outer);
            let join = |one: u128, two: u128| match power.kind {
                PowerKind::Floor => self.tighter(question, one, two),
                _ => self.looser(question, one, two),
            };
            match power.kind {
                PowerKind::Preempts => sum = outer,
                PowerKind::Ceiling if !outer.reach => {}
                PowerKind::Floor | PowerKind::Ceiling => {
                    for (part, other) in sum.answer.parts.iter_mut().zip(&outer.answer.parts) {
                        *part = join(*part, *other);
                    }
                    sum.answer.refer |= outer.answer.refer;
                    sum.reach |= outer.reach;
                    sum.named.extend(outer.named);
                }
            }
        }
        if self.at_strict_end(question, &sum.answer) {
            sum.answer.refer = false;
        }
        if matches!(self.order(question), Order::Only(_)) {
            sum.answer.conflict = sum.answer.parts.contains(&0);
        }
        sum
    }

    fn at_strict_end(&self, question: usize, answer: &Answer) -> bool {
        let Order::Ladder(rungs) = self.order(question) else { return false };
        answer.parts[0] == rungs.len() as u128 - 1
    }

    /// The answer, contradictions with other questions among it.
    pub(crate) fn answer(&self, question: usize) -> Answer {
        self.closed(question).answer
    }

    fn closed(&self, question: usize) -> Sum {
        let own = &self.world.law.questions[question];
        let mut sum = self.before_contradictions(question);
        if self.at_strict_end(question, &sum.answer) {
            for other in &own.contrary {
                let against = self.before_contradictions(*other).answer;
                sum.answer.conflict |= self.at_strict_end(*other, &against);
            }
        }
        sum
    }

    pub(crate) fn case(&self, question: usize) -> Case {
        let own = &self.world.law.questions[question];
        let sum = self.closed(question);
        let asked = self.condition(own.asked, None);
        let (mut finding, mut no_equivalent) = self.finding(question, &sum);
        match asked {
            Some(true) => {}
            Some(false) => (finding, no_equivalent) = (Finding::None, false),
            None => {
                no_equivalent = false;
                if matches!(finding, Finding::NotMet) {
                    finding = Finding::Open;
                }
            }
        }
        Case { answer: sum.answer, reach: sum.reach, finding, no_equivalent, asked: asked != Some(false) }
    }

    fn finding(&self, question: usize, sum: &Sum) -> (Finding, bool) {
        let own = &self.world.law.questions[question];
        let known = &self.world.questions[usize::from(own.question.0)];
        if known.met.is_none() && known.measures.is_none() {
            return (Finding::None, false);
        }
        if sum.answer.conflict {
            return (Finding::Open, false);
        }
        if sum.answer.parts == self.loosest(question) {
            return (Finding::None, false);
        }
        let met = |held: bool| if held { Finding::Met } else { Finding::NotMet };
        match (&known.met, own.met) {
            (Some(Met::Never), _) => return (Finding::NotMet, false),
            (Some(Met::Where(_)), Some(cond)) => {
                return (self.condition(cond, None).map_or(Finding::Open, met), false);
            }
            _ => {}
        }
        let part = match known.per {
            None => 0,
            Some((field, _)) => match self.value(field, None) {
                Given::Term(term) => {
                    if sum.named.iter().any(|named| !named.is_empty() && !named.has(term)) {
                        return (Finding::Open, true);
                    }
                    usize::from(term)
                }
                _ => return (Finding::Open, false),
            },
        };
        let asked = sum.answer.parts[part];
        let value = self.value(known.measures.unwrap(), None);
        let held = |value: &Given| match value {
            Given::Term(term) => Terms::one(*term),
            Given::Set(terms) => *terms,
            _ => panic!("no set"),
        };
        (
            met(match &known.order {
                Order::Ladder(_) => panic!("no ladder is measured"),
                Order::AtLeast(_) | Order::AtMost(_) => {
                    let Given::Measure(measure) = value else { panic!("no measure") };
                    match asked {
                        0 => true,
                        rank => {
                            let limit = own.scale[rank as usize - 1].amount;
                            if matches!(known.order, Order::AtLeast(_)) {
                                measure.amount >= limit
                            } else {
                                measure.amount <= limit
                            }
                        }
                    }
                }
                Order::Only(_) => held(&value).iter().all(|term| Terms(asked).has(term)),
                Order::AllOf(_) => Terms(asked).iter().all(|term| held(&value).has(term)),
            }),
            false,
        )
    }
}

fn all(mut parts: impl Iterator<Item = Truth>) -> Truth {
    parts
        .try_fold(Some(true), |all, part| match (all, part) {
            (_, Some(false)) => Err(()),
            (Some(true), part) => Ok(part),
            (all, _) => Ok(all),
        })
        .unwrap_or(Some(false))
}

fn any(parts: impl Iterator<Item = Truth>) -> Truth {
    all(parts.map(|part| part.map(|held| !held))).map(|held| !held)
}
