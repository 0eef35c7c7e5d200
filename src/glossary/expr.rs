//! Conditions with every name resolved.

use super::model::{FieldId, GroupId, QuestionId};
use crate::syntax::diagnostic::Location;
use crate::values::{Date, Exact, Period, Terms};
use std::sync::Arc;

/// A condition over facts, entries of lists, and answers.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Expr {
    Constant(bool),
    And(Vec<Expr>),
    Or(Vec<Expr>),
    Not(Box<Expr>),
    /// A test of a fact or record attribute; inside [`Expr::Entries`] also of an
    /// attribute of that list's entry.
    Field(FieldId, Check),
    /// Some entry (`any`) or no entry of the list fulfils the condition.
    Entries {
        any: bool,
        group: GroupId,
        with: Box<Expr>,
    },
    /// The final answer of a ladder question is one of these rungs.
    Answer {
        question: QuestionId,
        rungs: Terms,
    },
    /// `instructions say …`; the law's business.
    Say(Say),
    /// A definition of the edition in which the condition stands, by its name;
    /// the law's business. Definitions of the glossary are put in place at once.
    Defined(Arc<str>, Location),
}

/// `instructions say Q is W`, with the demand still as the tree gave it resolved.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Say {
    pub(crate) question: QuestionId,
    pub(crate) demand: Box<super::demand::Asked>,
    pub(crate) at: Location,
}

/// What is tested of one fact.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Check {
    /// A choice, or yes-no with 0 for no and 1 for yes: the value is among these.
    Among(Terms),
    /// A set holds at least one of these.
    Includes(Terms),
    AtLeast(Exact),
    AtMost(Exact),
    Over(Exact),
    Under(Exact),
    /// The date is earlier than this day.
    Before(Date),
    /// The date is this day or later.
    From(Date),
    /// The date is not before the other's, and not later than the other's plus the period.
    Within(Period, FieldId),
    /// A name or code is one of these.
    Named(Arc<[Arc<str>]>),
}
