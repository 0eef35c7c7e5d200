//! Look-ups by name, as seen from a place: a declaration that holds in a place
//! is known there and within, and nowhere else.

use super::model::{
    Choice, ChoiceId, Field, FieldId, Group, GroupId, PlaceId, Question, QuestionId, Scope, Subject, SubjectId,
};
use super::{Glossary, Territory};
use crate::values::Terms;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Index;

/// The index of names.
#[derive(Clone, Debug, Default)]
pub(super) struct Names {
    pub(super) choices: BTreeMap<Box<str>, ChoiceId>,
    pub(super) subjects: BTreeMap<Box<str>, SubjectId>,
    /// By path: `concealed`, `jumper.length`, `run.length`.
    pub(super) fields: BTreeMap<Box<str>, Vec<FieldId>>,
    pub(super) groups: BTreeMap<Box<str>, Vec<GroupId>>,
    pub(super) questions: BTreeMap<Box<str>, Vec<QuestionId>>,
    pub(super) definitions: BTreeMap<Box<str>, usize>,
    /// Names whose declaration has an error that is already reported: what rests
    /// on them is passed over in silence, so that the root cause stands alone.
    pub(super) broken: BTreeSet<Box<str>>,
}

/// Whether a declaration of this scope is known at a place.
pub(super) fn sees(from: Scope, scope: Scope, territory: &dyn Territory) -> bool {
    match (scope, from) {
        (None, _) => true,
        (Some(_), None) => false,
        (Some(scope), Some(from)) => scope == from || territory.within(from, scope),
    }
}

impl Glossary {
    /// The choice with this name.
    pub(crate) fn choice(&self, name: &str) -> Option<ChoiceId> {
        self.names.choices.get(name).copied()
    }

    /// The subject with this name.
    pub(crate) fn subject(&self, name: &str) -> Option<SubjectId> {
        self.names.subjects.get(name).copied()
    }

    /// The fact or attribute with this path: `concealed`, `jumper.length`, `run.length`.
    pub(crate) fn field(&self, path: &str, from: Scope, territory: &dyn Territory) -> Option<FieldId> {
        let all = self.names.fields.get(path)?;
        all.iter().copied().find(|id| sees(from, self[*id].scope, territory))
    }

    /// The list or record with this name.
    pub(crate) fn group(&self, name: &str, from: Scope, territory: &dyn Territory) -> Option<GroupId> {
        let all = self.names.groups.get(name)?;
        all.iter().copied().find(|id| sees(from, self[*id].scope, territory))
    }

    /// The attribute of a list or record with this name.
    pub(crate) fn attribute(
        &self,
        group: GroupId,
        name: &str,
        from: Scope,
        territory: &dyn Territory,
    ) -> Option<FieldId> {
        self[group].fields.iter().copied().find(|id| {
            let field = &self[*id];
            &*field.name == name && sees(from, field.scope, territory)
        })
    }

    /// The question with this name.
    pub(crate) fn question(&self, name: &str, from: Scope, territory: &dyn Territory) -> Option<QuestionId> {
        let all = self.names.questions.get(name)?;
        all.iter().copied().find(|id| sees(from, self[*id].scope, territory))
    }

    /// The term of a choice with this name.
    pub(crate) fn term(&self, choice: ChoiceId, name: &str, from: Scope, territory: &dyn Territory) -> Option<u16> {
        let terms = &self[choice].terms;
        terms
            .iter()
            .zip(0u16..)
            .find(|(term, _)| &*term.name == name && sees(from, term.scope, territory))
            .map(|(_, at)| at)
    }

    /// The terms of a choice that are known at a place.
    pub(crate) fn terms_at(&self, choice: ChoiceId, from: Scope, territory: &dyn Territory) -> Terms {
        let known = self[choice].terms.iter().zip(0u16..).filter(|(term, _)| sees(from, term.scope, territory));
        known.fold(Terms::NONE, |all, (_, at)| all.union(Terms::one(at)))
    }

    /// Whether what a declaration of this scope says is known at a place.
    pub(crate) fn known_at(&self, scope: Scope, place: PlaceId, territory: &dyn Territory) -> bool {
        sees(Some(place), scope, territory)
    }

    /// Whether the glossary has a definition of this name.
    pub(crate) fn defines(&self, name: &str) -> bool {
        self.names.definitions.contains_key(name)
    }

    /// The names of the glossary's definitions.
    pub(crate) fn definitions(&self) -> impl Iterator<Item = &str> {
        self.names.definitions.keys().map(|name| &**name)
    }

    pub(super) fn is_broken(&self, name: &str) -> bool {
        self.names.broken.contains(name)
    }
}

macro_rules! numbered {
    ($($id:ty => $field:ident: $item:ty;)*) => {$(
        impl Index<$id> for Glossary {
            type Output = $item;

            #[expect(clippy::indexing_slicing, reason = "the glossary alone gives these numbers")]
            fn index(&self, id: $id) -> &$item {
                &self.$field[usize::from(id.0)]
            }
        }
    )*};
}

numbered! {
    ChoiceId => choices: Choice;
    SubjectId => subjects: Subject;
    FieldId => fields: Field;
    GroupId => groups: Group;
    QuestionId => questions: Question;
}
