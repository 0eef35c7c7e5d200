//! What the evaluator needs of the glossary.

use crate::glossary::model::{
    Choice, ChoiceId, Field, FieldId, Group, GroupId, PlaceId, Question, QuestionId, Roles, Scope, Shape, Subject,
    SubjectId,
};
use crate::values::Terms;

/// A view of the glossary from one place.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Lexicon<'a> {
    pub(crate) choices: &'a [Choice],
    pub(crate) subjects: &'a [Subject],
    pub(crate) fields: &'a [Field],
    pub(crate) groups: &'a [Group],
    pub(crate) questions: &'a [Question],
    pub(crate) roles: Roles,
    /// The place and all places around it, outermost first: what is declared in
    /// one of these is known.
    pub(crate) path: &'a [PlaceId],
}

impl<'a> Lexicon<'a> {
    pub(crate) fn choice(&self, id: ChoiceId) -> Option<&'a Choice> {
        self.choices.get(usize::from(id.0))
    }

    pub(crate) fn field(&self, id: FieldId) -> Option<&'a Field> {
        self.fields.get(usize::from(id.0))
    }

    pub(crate) fn group(&self, id: GroupId) -> Option<&'a Group> {
        self.groups.get(usize::from(id.0))
    }

    pub(crate) fn question(&self, id: QuestionId) -> Option<&'a Question> {
        self.questions.get(usize::from(id.0))
    }

    pub(crate) fn subject(&self, id: SubjectId) -> Option<&'a Subject> {
        self.subjects.get(usize::from(id.0))
    }

    /// Whether what is declared with this scope is known at the place.
    pub(crate) fn known(&self, scope: Scope) -> bool {
        scope.is_none_or(|place| self.path.contains(&place))
    }

    /// The terms of a choice that are known at the place.
    pub(crate) fn terms(&self, id: ChoiceId) -> Terms {
        let mut terms = Terms::NONE;
        if let Some(choice) = self.choice(id) {
            for (number, term) in (0u16..).zip(&choice.terms) {
                if self.known(term.scope) {
                    terms = terms.union(Terms::one(number));
                }
            }
        }
        terms
    }

    /// The list that a field is an attribute of; nothing for facts and for
    /// attributes of records.
    pub(crate) fn list_of(&self, id: FieldId) -> Option<GroupId> {
        let group = self.field(id)?.group?;
        self.group(group)?.list.then_some(group)
    }

    /// The choice whose terms a field holds.
    pub(crate) fn choice_of(&self, id: FieldId) -> Option<ChoiceId> {
        match self.field(id)?.shape {
            Shape::Choice(choice) | Shape::Several(choice) => Some(choice),
            _ => None,
        }
    }
}
