//! What a section demands of a question, with every name resolved and every
//! value read, before it is put on the question's own scale.

use super::model::QuestionId;
use crate::values::{Measure, Terms};

/// A demand on one question.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Asked {
    pub(crate) question: QuestionId,
    pub(crate) kind: AskedKind,
}

/// The forms of a demand with a value. For a `per` question the last part of
/// `Limits` names the terms that the limit is for; for another it is `None`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum AskedKind {
    /// A rung by its number.
    Rung(u16),
    /// `at least` or `at most`, as the question's order has it; one limit, or one
    /// for each group of terms named.
    Limits(Vec<(Measure, Option<Terms>)>),
    /// What is permitted: `only` (true), or everything but these, `none of` (false).
    Permitted {
        only: bool,
        terms: Terms,
    },
    Required(Terms),
}
