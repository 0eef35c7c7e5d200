//! On which questions it turns whether another is asked.

use super::plan::Look;
use super::truth::Matter;
use crate::law::model::{CondId, Node};
use std::collections::BTreeSet;

/// The questions on whose answers it turns whether another is asked.
pub(crate) fn gates(matter: &Matter<'_>, question: usize) -> BTreeSet<usize> {
    fn go(matter: &Matter<'_>, cond: CondId, into: &mut BTreeSet<usize>) {
        match matter.law.node(cond) {
            Node::Answer { question, .. } => {
                into.insert(*question);
            }
            Node::Not(part) => go(matter, *part, into),
            Node::And(parts) | Node::Or(parts) => parts.iter().for_each(|part| go(matter, *part, into)),
            Node::Entries { with, .. } => go(matter, *with, into),
            Node::Span(_) | Node::Field(..) | Node::False | Node::True => {}
        }
    }
    let mut gates = BTreeSet::new();
    if let Some(own) = matter.law.questions.get(question) {
        go(matter, own.asked, &mut gates);
    }
    gates
}
