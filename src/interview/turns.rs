//! What a condition that is left open waits for.

use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId};
use crate::job::model::Given;
use crate::law::model::{CondId, Node};
use crate::verdict::paths::Path;
use crate::verdict::{Look, Matter, Phrase};
use std::collections::BTreeSet;

/// Whether the condition that a reason waits for tests a fact, or entries of a list.
pub(crate) fn turns_on(matter: &Matter<'_>, waits: &Phrase, path: Path) -> bool {
    match waits {
        Phrase::All(parts) | Phrase::Any(parts) => parts.iter().any(|part| turns_on(matter, part, path)),
        Phrase::Test { cond, .. } => tests(matter, *cond, path, &mut BTreeSet::new()),
    }
}

fn tests(matter: &Matter<'_>, cond: CondId, path: Path, seen: &mut BTreeSet<CondId>) -> bool {
    if !seen.insert(cond) {
        return false;
    }
    let mut any = |parts: &[CondId]| parts.iter().any(|part| tests(matter, *part, path, seen));
    match (matter.law.node(cond), path) {
        (Node::Field(field, _), Path::Fact(wanted) | Path::Attribute { field: wanted, .. }) => *field == wanted,
        (Node::Entries { group, .. }, Path::List(wanted) | Path::Further(wanted)) if *group == wanted => true,
        (Node::Entries { with, .. }, _) => any(&[*with]),
        (Node::And(parts) | Node::Or(parts), _) => any(parts),
        (Node::Not(part), _) => any(&[*part]),
        _ => false,
    }
}

/// The unknown facts that an open condition tests.
pub(crate) fn waits_for(matter: &Matter<'_>, waits: &Phrase) -> BTreeSet<Path> {
    let mut unknown = Unknown { matter, found: BTreeSet::new(), seen: BTreeSet::new() };
    unknown.phrase(waits);
    unknown.found
}

/// The entry of a list in which a condition is read.
type Entry = Option<(GroupId, usize)>;

struct Unknown<'m, 'a> {
    matter: &'m Matter<'a>,
    found: BTreeSet<Path>,
    seen: BTreeSet<(CondId, Entry)>,
}

impl Unknown<'_, '_> {
    fn phrase(&mut self, phrase: &Phrase) {
        match phrase {
            Phrase::All(parts) | Phrase::Any(parts) => parts.iter().for_each(|part| self.phrase(part)),
            Phrase::Test { cond, entry, .. } => self.condition(*cond, *entry),
        }
    }

    fn condition(&mut self, cond: CondId, entry: Entry) {
        if !self.seen.insert((cond, entry)) {
            return;
        }
        match self.matter.law.node(cond) {
            Node::Field(field, check) => {
                self.field(*field, entry);
                if let Check::Within(_, other) = check {
                    self.field(*other, entry);
                }
            }
            Node::Entries { group, with, .. } => {
                let Some(list) = self.matter.list(*group) else { return };
                if list.more {
                    let none = list.entries.is_empty();
                    self.found.insert(if none { Path::List(*group) } else { Path::Further(*group) });
                }
                (0..list.entries.len()).for_each(|number| self.condition(*with, Some((*group, number))));
            }
            Node::And(parts) | Node::Or(parts) => parts.iter().for_each(|part| self.condition(*part, entry)),
            Node::Not(part) => self.condition(*part, entry),
            Node::Span(span) => {
                if let Some(span) = self.matter.law.spans.get(*span) {
                    self.condition(span.within, None);
                }
            }
            Node::True | Node::False | Node::Answer { .. } => {}
        }
    }

    fn field(&mut self, field: FieldId, entry: Entry) {
        let known = self.matter.lexicon.field(field);
        let path = match (entry, known.and_then(|known| known.group)) {
            (Some((group, number)), Some(own)) if own == group => Path::Attribute { group, entry: number, field },
            _ => Path::Fact(field),
        };
        let given = match path {
            Path::Attribute { group, entry, .. } => {
                let values = self.matter.list(group).and_then(|list| list.entries.get(entry));
                values.and_then(|values| values.get(known.map_or(0, |known| usize::from(known.column))))
            }
            _ => Some(self.matter.fact(field)),
        };
        if given.is_none_or(|given| *given == Given::Unknown) {
            self.found.insert(path);
        }
    }
}
