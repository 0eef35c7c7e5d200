//! Whether a text waits for a fact: what is left open of its condition tests it.

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
