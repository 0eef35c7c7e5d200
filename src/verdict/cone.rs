//! What a question reads: facts and their tests, lists and their conditions,
//! and the questions whose answers it tests.

use super::lexicon::Lexicon;
use super::plan::{Look, Plan, Show};
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId};
use crate::law::model::{CondId, Law, Node, ProvisionId};
use crate::values::Exact;
use std::collections::{BTreeMap, BTreeSet};

/// How one fact, or one attribute of a list, is read.
#[derive(Clone, Debug, Default)]
pub(crate) struct Reads {
    /// Whether the answer reads it, and not only the finding.
    pub(crate) answer: bool,
    pub(crate) checks: Vec<Check>,
    /// Amounts that a finding compares with.
    pub(crate) limits: Vec<Exact>,
    /// Whether every value is told from every other.
    pub(crate) whole: bool,
}

/// How one list is read.
#[derive(Clone, Debug, Default)]
pub(crate) struct ListReads {
    pub(crate) answer: bool,
    /// The conditions on an entry.
    pub(crate) conditions: Vec<CondId>,
    pub(crate) attributes: BTreeMap<FieldId, Reads>,
}

/// Everything that bears on one question.
#[derive(Clone, Debug, Default)]
pub(crate) struct Cone {
    /// The questions whose answers are needed, itself among them, in order.
    pub(crate) questions: BTreeSet<usize>,
    pub(crate) facts: BTreeMap<FieldId, Reads>,
    pub(crate) lists: BTreeMap<GroupId, ListReads>,
    /// Unknown spans, and whether the answer reads them.
    pub(crate) spans: BTreeMap<usize, bool>,
}

struct Walk<'a> {
    plan: &'a Plan,
    law: &'a Law,
    lexicon: &'a Lexicon<'a>,
    cone: Cone,
    seen: Vec<bool>,
    answer: bool,
}

impl Cone {
    /// The cone of a question: its provisions with the outer sets of powers, the
    /// questions that these depend on, and what its finding reads.
    pub(crate) fn of_question(plan: &Plan, law: &Law, lexicon: &Lexicon<'_>, question: usize) -> Cone {
        let mut walk = Walk::new(plan, law, lexicon);
        walk.question(question);
        if let Some(own) = law.questions.get(question) {
            for other in &own.contrary {
                walk.question(*other);
            }
            walk.answer = false;
            walk.cond(own.asked, None);
            walk.finding(question);
        }
        walk.cone
    }

    /// The cone of several answers, without their findings, and of several conditions.
    pub(crate) fn of_answers(
        plan: &Plan,
        law: &Law,
        lexicon: &Lexicon<'_>,
        questions: impl IntoIterator<Item = usize>,
        conditions: impl IntoIterator<Item = CondId>,
    ) -> Cone {
        let mut walk = Walk::new(plan, law, lexicon);
        for question in questions {
            walk.question(question);
            for other in law.questions.get(question).map_or(&[][..], |own| &own.contrary) {
                walk.question(*other);
            }
        }
        for cond in conditions {
            walk.cond(cond, None);
        }
        walk.cone
    }

    /// The cone of a condition.
    pub(crate) fn of_condition(plan: &Plan, law: &Law, lexicon: &Lexicon<'_>, cond: CondId) -> Cone {
        let mut walk = Walk::new(plan, law, lexicon);
        walk.cond(cond, None);
        walk.cone
    }
}

impl<'a> Walk<'a> {
    fn new(plan: &'a Plan, law: &'a Law, lexicon: &'a Lexicon<'a>) -> Walk<'a> {
        Walk { plan, law, lexicon, cone: Cone::default(), seen: vec![false; law.nodes.len()], answer: true }
    }

    fn question(&mut self, question: usize) {
        if !self.cone.questions.insert(question) {
            return;
        }
        let law = self.law;
        let Some(own) = law.questions.get(question) else { return };
        self.provisions(&own.whole);
        for power in &own.powers {
            self.cond(power.cond, None);
            self.provisions(&power.outer);
        }
    }

    fn provisions(&mut self, list: &[ProvisionId]) {
        let law = self.law;
        for id in list {
            if let Some(provision) = law.provision(*id) {
                self.cond(provision.reach, None);
                self.cond(provision.guard, None);
            }
        }
    }

    fn finding(&mut self, question: usize) {
        let Some(ask) = self.plan.asks.get(question) else { return };
        match ask.show {
            Show::Nothing | Show::Never => {}
            Show::Where(cond) => self.cond(cond, None),
            Show::Measure(field) => {
                let scale = self.law.questions.get(question).map_or(&[][..], |own| &own.scale);
                let reads = self.reads(field, None);
                reads.whole = true;
                reads.limits.extend(scale.iter().map(|limit| limit.amount));
                self.presumption(field);
                if let Some(per) = ask.per {
                    self.reads(per, None).whole = true;
                    self.presumption(per);
                }
            }
        }
    }

    fn reads(&mut self, field: FieldId, within: Option<GroupId>) -> &mut Reads {
        let list = self.lexicon.list_of(field);
        let reads = match list.filter(|list| within.is_none() || within == Some(*list)) {
            Some(list) => self.cone.lists.entry(list).or_default().attributes.entry(field).or_default(),
            None => self.cone.facts.entry(field).or_default(),
        };
        reads.answer |= self.answer;
        reads
    }

    fn presumption(&mut self, field: FieldId) {
        if let Some(cond) = self.plan.presumption(field) {
            self.cond(cond, None);
        }
    }

    fn cond(&mut self, id: CondId, within: Option<GroupId>) {
        match self.seen.get_mut(id.0 as usize) {
            Some(seen) if !*seen => *seen = true,
            _ => return,
        }
        let law = self.law;
        match law.node(id) {
            Node::False | Node::True => {}
            Node::Not(part) => self.cond(*part, within),
            Node::And(parts) | Node::Or(parts) => parts.iter().for_each(|part| self.cond(*part, within)),
            Node::Field(field, check) => {
                let reads = self.reads(*field, within);
                if !reads.checks.contains(check) {
                    reads.checks.push(check.clone());
                }
                self.presumption(*field);
                if let Check::Within(_, other) = check {
                    self.reads(*other, within);
                    self.presumption(*other);
                }
            }
            Node::Entries { group, with, .. } => {
                let reads = self.cone.lists.entry(*group).or_default();
                reads.answer |= self.answer;
                if !reads.conditions.contains(with) {
                    reads.conditions.push(*with);
                }
                self.cond(*with, Some(*group));
            }
            Node::Answer { question, .. } => self.question(*question),
            Node::Span(span) => {
                *self.cone.spans.entry(law.begun(*span)).or_default() |= self.answer;
                if let Some(span) = law.spans.get(*span) {
                    self.cond(span.within, None);
                }
            }
        }
    }
}
