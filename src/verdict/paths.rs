//! Names of the unknown facts of a job, as a job writes them.

use super::lexicon::Lexicon;
use crate::glossary::model::{FieldId, Group, GroupId};
use crate::job::model::Given;

/// A fact of a job, or what stands for a fact among the unknown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Path {
    Fact(FieldId),
    /// An attribute of a known entry, counted from 0.
    Attribute {
        group: GroupId,
        entry: usize,
        field: FieldId,
    },
    /// A list of which nothing is known.
    List(GroupId),
    /// Further entries beside known ones.
    Further(GroupId),
    /// Whether the instrument of an unknown span is in force; no fact to ask.
    Span(usize),
}

impl Path {
    /// The path as a job writes it.
    pub(crate) fn write(&self, lexicon: &Lexicon<'_>) -> String {
        let group = |id: &GroupId| lexicon.group(*id).map_or("", |group| &*group.name);
        match self {
            Path::Fact(field) => lexicon.field(*field).map_or(String::new(), |field| field.path.to_string()),
            Path::Attribute { group: list, entry, field } => {
                format!("{}[{entry}].{}", group(list), lexicon.field(*field).map_or("", |field| &*field.name))
            }
            Path::List(list) => group(list).to_string(),
            Path::Further(list) => format!("{}[]", group(list)),
            Path::Span(_) => "in-force".to_string(),
        }
    }

    /// What a person is asked: the question of the fact, else its title.
    pub(crate) fn prompt<'a>(&self, lexicon: &Lexicon<'a>) -> &'a str {
        match self {
            Path::Fact(field) | Path::Attribute { field, .. } => {
                lexicon.field(*field).map_or("", |field| field.ask.as_deref().unwrap_or(field.printed()))
            }
            Path::List(group) | Path::Further(group) => lexicon.group(*group).map_or("", Group::printed),
            Path::Span(_) => "",
        }
    }
}

/// What a witness says of one unknown fact.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Told {
    Value(Path, Given),
    /// The entries of a list, or its further entries, each with the values that are tested.
    Entries(Path, Vec<Vec<(FieldId, Given)>>),
    /// Whether the instrument of an unknown span is in force in it.
    InForce(usize, bool),
}
