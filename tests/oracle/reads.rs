//! What a question reads, found by walking its conditions as they stand.

use super::world::World;
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId, Met};
use crate::job::model::Given;
use crate::law::model::{CondId, Node};
use crate::values::Exact;

#[derive(Default)]
pub(crate) struct Reads {
    /// Every field read, and whether the answer reads it.
    pub(crate) fields: Vec<(FieldId, bool)>,
    pub(crate) checks: Vec<(FieldId, Check)>,
    pub(crate) limits: Vec<(FieldId, Exact)>,
    pub(crate) lists: Vec<(GroupId, bool)>,
    pub(crate) spans: Vec<(usize, bool)>,
}

impl Reads {
    pub(crate) fn of(world: &World, question: usize) -> Reads {
        let mut reads = Reads::default();
        let own = &world.law.questions[question];
        reads.question(world, question, true);
        for other in &own.contrary {
            reads.question(world, *other, true);
        }
        reads.condition(world, own.asked, false);
        let known = &world.questions[usize::from(own.question.0)];
        match (&known.met, own.met) {
            (Some(Met::Never), _) => {}
            (Some(Met::Where(_)), Some(cond)) => reads.condition(world, cond, false),
            _ => {
                if let Some(field) = known.measures {
                    reads.fields.push((field, false));
                    for limit in &own.scale {
                        reads.limits.push((field, limit.amount));
                    }
                    if let Some((field, _)) = known.per {
                        reads.fields.push((field, false));
                    }
                }
            }
        }
        reads
    }

    pub(crate) fn of_condition(world: &World, cond: CondId) -> Reads {
        let mut reads = Reads::default();
        reads.condition(world, cond, true);
        reads
    }

    fn question(&mut self, world: &World, question: usize, answer: bool) {
        let own = &world.law.questions[question];
        let mut provisions = own.whole.clone();
        for power in &own.powers {
            self.condition(world, power.cond, answer);
            provisions.extend(&power.outer);
        }
        for id in provisions {
            let provision = &world.law.provisions[id.0 as usize];
            self.condition(world, provision.reach, answer);
            self.condition(world, provision.guard, answer);
        }
    }

    fn condition(&mut self, world: &World, cond: CondId, answer: bool) {
        match &world.law.nodes[cond.0 as usize] {
            Node::False | Node::True => {}
            Node::Not(part) => self.condition(world, *part, answer),
            Node::And(parts) | Node::Or(parts) => parts.iter().for_each(|part| self.condition(world, *part, answer)),
            Node::Field(field, check) => {
                self.field(world, *field, answer);
                self.checks.push((*field, check.clone()));
                if let Check::Within(_, other) = check {
                    self.field(world, *other, answer);
                }
            }
            Node::Entries { group, with, .. } => {
                self.lists.push((*group, answer));
                self.condition(world, *with, answer);
            }
            Node::Answer { question, .. } => self.question(world, *question, answer),
            Node::Span(span) => {
                self.spans.push((*span, answer));
                self.condition(world, world.law.spans[*span].within, answer);
            }
        }
    }

    fn field(&mut self, world: &World, field: FieldId, answer: bool) {
        self.fields.push((field, answer));
        if let Some((_, cond)) = world.law.presumed.iter().find(|(presumed, _)| *presumed == field) {
            self.condition(world, *cond, answer);
        }
    }

    pub(crate) fn reads_field(&self, field: FieldId) -> bool {
        self.fields.iter().any(|(known, _)| *known == field)
    }

    pub(crate) fn in_answer(&self, field: FieldId) -> bool {
        self.fields.contains(&(field, true))
    }
}

/// What a job says of a fact; a choice of a code that is not offered is nothing.
pub(crate) fn said(world: &World, field: FieldId) -> Given {
    let value = world.job.values[usize::from(field.0)].clone();
    match &value {
        Given::Name(name)
            if world.roles.code == Some(field)
                && !world.law.code_choices.is_empty()
                && !world.law.code_choices.contains(name) =>
        {
            Given::Unknown
        }
        _ => value,
    }
}
