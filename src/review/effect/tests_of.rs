//! The tests that answers hang on: of facts, of the entries of lists as a whole, and
//! whether an instrument of an unknown span is in force.

use crate::law::model::{CondId, Law, Node, ProvisionId};
use crate::verdict::Look;
use std::collections::BTreeSet;

/// Every test that bears on the answers to these questions, in the law's order.
pub(super) fn tests(law: &Law, questions: impl IntoIterator<Item = usize>) -> Vec<CondId> {
    walk(law, questions).found.into_iter().collect()
}

/// The tests of other questions' answers that bear on these.
pub(super) fn tests_of_answers(law: &Law, questions: impl IntoIterator<Item = usize>) -> Vec<(CondId, usize)> {
    walk(law, questions).answers.into_iter().collect()
}

fn walk(law: &Law, questions: impl IntoIterator<Item = usize>) -> Walk<'_> {
    let mut walk = Walk {
        law,
        seen: BTreeSet::new(),
        questions: BTreeSet::new(),
        found: BTreeSet::new(),
        answers: BTreeSet::new(),
    };
    for question in questions {
        walk.question(question);
        for other in law.questions.get(question).map_or(&[][..], |own| &own.contrary) {
            walk.question(*other);
        }
    }
    walk
}

/// How gladly a test is left out of a condition: what takes many words first.
pub(super) fn weight(law: &Law, cond: CondId) -> usize {
    match law.node(cond) {
        Node::Span(_) => 1_000,
        Node::Entries { with, .. } => 2 + weight(law, *with),
        Node::Answer { .. } => 0,
        Node::Not(part) => 1 + weight(law, *part),
        Node::And(parts) | Node::Or(parts) => parts.iter().map(|part| 1 + weight(law, *part)).sum(),
        _ => 1,
    }
}

struct Walk<'l> {
    law: &'l Law,
    seen: BTreeSet<CondId>,
    questions: BTreeSet<usize>,
    found: BTreeSet<CondId>,
    answers: BTreeSet<(CondId, usize)>,
}

impl Walk<'_> {
    fn question(&mut self, question: usize) {
        if !self.questions.insert(question) {
            return;
        }
        let law = self.law;
        let Some(own) = law.questions.get(question) else { return };
        self.provisions(&own.whole);
        for power in &own.powers {
            self.cond(power.cond);
            self.provisions(&power.outer);
        }
    }

    fn provisions(&mut self, list: &[ProvisionId]) {
        for id in list {
            if let Some(provision) = self.law.provision(*id) {
                self.cond(provision.reach);
                self.cond(provision.guard);
            }
        }
    }

    fn cond(&mut self, id: CondId) {
        if !self.seen.insert(id) {
            return;
        }
        let law = self.law;
        match law.node(id) {
            Node::False | Node::True => {}
            Node::Not(part) => self.cond(*part),
            Node::And(parts) | Node::Or(parts) => parts.iter().for_each(|part| self.cond(*part)),
            Node::Field(..) | Node::Entries { .. } => {
                self.found.insert(id);
            }
            Node::Span(span) => {
                self.found.insert(id);
                if let Some(span) = law.spans.get(*span) {
                    self.cond(span.within);
                }
            }
            Node::Answer { question, .. } => {
                self.answers.insert((id, *question));
                self.question(*question);
            }
        }
    }
}
