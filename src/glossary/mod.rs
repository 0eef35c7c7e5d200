//! What a job may say and what the law may be asked: choices, facts, questions
//! and their orders of strictness, and conditions over them.
//!
//! This module refuses to know codes and instruments. Of places it knows only
//! that a declaration may hold in one of them and within (a [`model::Scope`]),
//! and asks a [`Territory`] for the rest.

mod build;
mod check;
mod choices;
mod circle;
mod condition;
mod definitions;
pub(crate) mod demand;
mod demands;
pub(crate) mod expr;
mod fields;
mod forms;
pub(crate) mod misread;
pub(crate) mod model;
mod names;
mod questions;
mod read;
mod roles;
mod subjects;
mod tested;
mod values;
mod walk;

#[cfg(test)]
pub(crate) mod tests;

pub(crate) use condition::Context;
pub(crate) use read::{Fault, code, common, cut, date, measure, name, past, yes_no};
pub(crate) use values::{day, figure, span, written};

use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::tree::Reference;
use definitions::Definition;
use model::{Choice, Field, Group, PlaceId, Question, Roles, Subject};
use names::Names;

/// What the glossary asks of the module that knows places.
pub(crate) trait Territory {
    /// The place that a file names.
    ///
    /// # Errors
    /// Where no place fits, or several do; the finding names the candidates.
    fn resolve(&self, reference: &Reference, from: FileId) -> Result<PlaceId, Diagnostic>;

    /// Whether `inner` lies in `outer`, at any depth; a place lies in itself.
    fn within(&self, inner: PlaceId, outer: PlaceId) -> bool;
}

/// Everything that the files loaded together declare for jobs and questions.
///
/// Numbers follow the names in byte order (terms as declared, added terms after
/// them by name), so that they do not depend on the order of files.
#[derive(Clone, Debug, Default)]
pub(crate) struct Glossary {
    pub(crate) choices: Vec<Choice>,
    pub(crate) subjects: Vec<Subject>,
    pub(crate) fields: Vec<Field>,
    pub(crate) groups: Vec<Group>,
    pub(crate) questions: Vec<Question>,
    pub(crate) roles: Roles,
    definitions: Vec<Definition>,
    names: Names,
}

impl Glossary {
    /// The conditions with a name: what a definition is called in print, and the
    /// condition that stands for it.
    pub(crate) fn defined(&self) -> impl Iterator<Item = (&str, &expr::Expr)> {
        self.definitions.iter().filter_map(|definition| Some((&*definition.title, definition.expr.as_ref()?)))
    }

    /// What the definition of this name is called in print, and the condition that
    /// stands for it.
    pub(crate) fn definition(&self, name: &str) -> Option<(&str, &expr::Expr)> {
        let definition = self.definitions.get(*self.names.definitions.get(name)?)?;
        Some((&definition.title, definition.expr.as_ref()?))
    }
}
