//! The facts that a provision turned on, as far as the job says them.

use super::hash::Table;
use super::paths::Path;
use super::plan::Look;
use super::truth::{Entry, Mark, Matter, Memo};
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId};
use crate::job::model::Given;
use crate::law::model::{CondId, Node, Provision};

/// The facts of a job that decided what became of a provision, up to the first
/// part of its condition that failed.
pub(crate) fn turned_on<'a>(matter: &Matter<'a>, memo: &mut Memo, provision: &Provision) -> Vec<(Path, &'a Given)> {
    let mut walk = Walk { matter, memo, facts: Vec::new(), seen: Table::default() };
    for clause in &provision.clauses {
        walk.condition(clause.cond, None);
        if walk.memo.read(matter, clause.cond) == Mark::No {
            break;
        }
    }
    walk.facts.sort_unstable_by_key(|(path, _)| *path);
    walk.facts.dedup_by_key(|(path, _)| *path);
    walk.facts
}

struct Walk<'a, 'm> {
    matter: &'m Matter<'a>,
    memo: &'m mut Memo,
    facts: Vec<(Path, &'a Given)>,
    seen: Table<(CondId, Option<(GroupId, usize)>), ()>,
}

impl Walk<'_, '_> {
    fn condition(&mut self, id: CondId, entry: Option<(GroupId, usize)>) {
        if self.seen.insert((id, entry), ()).is_some() {
            return;
        }
        match self.matter.law.node(id) {
            Node::False | Node::True | Node::Answer { .. } => {}
            Node::Not(part) => self.condition(*part, entry),
            // What failed of all, or what held of several, decides alone.
            Node::And(parts) => self.parts(parts, Mark::No, entry),
            Node::Or(parts) => self.parts(parts, Mark::Yes, entry),
            Node::Field(field, check) => {
                self.field(*field, entry);
                if let Check::Within(_, other) = check {
                    self.field(*other, entry);
                }
            }
            Node::Entries { group, with, .. } => self.entries(*group, *with),
            Node::Span(span) => {
                if let Some(span) = self.matter.law.spans.get(*span) {
                    self.condition(span.within, None);
                }
            }
        }
    }

    /// The parts that decide by themselves; where none does, all.
    fn parts(&mut self, parts: &[CondId], deciding: Mark, entry: Option<(GroupId, usize)>) {
        let alone: Vec<CondId> = parts.iter().copied().filter(|part| self.mark(*part, entry) == deciding).collect();
        for part in if alone.is_empty() { parts } else { &alone } {
            self.condition(*part, entry);
        }
    }

    fn mark(&mut self, id: CondId, entry: Option<(GroupId, usize)>) -> Mark {
        let row = entry.and_then(|(group, number)| {
            let values = self.matter.list(group)?.entries.get(number)?;
            Some(Entry { group, values })
        });
        self.memo.read_in(self.matter, id, row)
    }

    /// The first entry that fulfils the condition; where none surely does, all.
    fn entries(&mut self, group: GroupId, with: CondId) {
        let Some(list) = self.matter.list(group) else { return };
        let fulfils = list
            .entries
            .iter()
            .position(|values| self.memo.read_in(self.matter, with, Some(Entry { group, values })) == Mark::Yes);
        match fulfils {
            Some(number) => self.condition(with, Some((group, number))),
            None => (0..list.entries.len()).for_each(|number| self.condition(with, Some((group, number)))),
        }
    }

    fn field(&mut self, field: FieldId, entry: Option<(GroupId, usize)>) {
        let known = self.matter.lexicon.field(field);
        let (path, value) = match (entry, known) {
            (Some((group, number)), Some(known)) if known.group == Some(group) => {
                let row = self.matter.list(group).and_then(|list| list.entries.get(number));
                let value = row.and_then(|row| row.get(usize::from(known.column)));
                (Path::Attribute { group, entry: number, field }, value)
            }
            _ => (Path::Fact(field), Some(self.matter.fact(field))),
        };
        match value {
            None | Some(Given::Unknown) => {
                if let Some(cond) = self.matter.presumed(field) {
                    self.condition(cond, None);
                }
            }
            Some(value) => {
                self.facts.push((path, value));
            }
        }
    }
}
