//! Conditions read against a job that says everything.

use crate::glossary::Glossary;
use crate::glossary::expr::{Check, Expr, Say};
use crate::glossary::model::{FieldId, GroupId, QuestionId};
use crate::job::model::{Given, Job};
use std::sync::Arc;

/// What a condition comes to where every fact is known: it may still turn on a
/// question that is left to the authority.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Holds {
    No,
    Refers,
    Yes,
}

impl Holds {
    pub(super) fn of(value: bool) -> Holds {
        if value { Holds::Yes } else { Holds::No }
    }

    pub(super) fn and(self, other: Holds) -> Holds {
        self.min(other)
    }

    pub(super) fn or(self, other: Holds) -> Holds {
        self.max(other)
    }

    pub(super) fn not(self) -> Holds {
        match self {
            Holds::No => Holds::Yes,
            Holds::Refers => Holds::Refers,
            Holds::Yes => Holds::No,
        }
    }
}

/// What a condition may ask beside the facts.
pub(super) trait Around {
    /// The final rung of a ladder question; nothing where it is referred.
    fn rung(&self, question: QuestionId) -> Option<u16>;
    /// `instructions say …`.
    fn say(&self, say: &Say) -> Holds;
    /// A definition of the text in which the condition stands.
    fn defined(&self, name: &Arc<str>) -> Holds;
}

/// A text that may ask nothing but facts: what decides over reach.
pub(super) struct FactsOnly;

impl Around for FactsOnly {
    fn rung(&self, question: QuestionId) -> Option<u16> {
        panic!("reach reads the answer to {question:?}")
    }

    fn say(&self, say: &Say) -> Holds {
        panic!("reach reads {say:?}")
    }

    fn defined(&self, name: &Arc<str>) -> Holds {
        panic!("reach reads the definition {name}")
    }
}

/// The facts of one job.
#[derive(Clone, Copy)]
pub(super) struct Facts<'a> {
    pub(super) glossary: &'a Glossary,
    pub(super) job: &'a Job,
}

/// The entry of a list in which a condition stands.
type Entry<'e> = Option<(GroupId, &'e [Given])>;

impl<'a> Facts<'a> {
    pub(super) fn value<'e>(&self, field: FieldId, entry: Entry<'e>) -> &'e Given
    where
        'a: 'e,
    {
        let about = &self.glossary.fields[usize::from(field.0)];
        match entry {
            Some((group, values)) if about.group == Some(group) => &values[usize::from(about.column)],
            _ => &self.job.values[usize::from(field.0)],
        }
    }

    pub(super) fn entries(&self, group: GroupId) -> &'a [Vec<Given>] {
        let list = &self.job.lists[usize::from(group.0)];
        assert!(!list.more, "the job does not say everything");
        &list.entries
    }

    /// Whether the facts alone fulfil a condition.
    pub(super) fn hold(&self, expr: &Expr) -> bool {
        self.read(expr, &FactsOnly, None) == Holds::Yes
    }

    pub(super) fn read(&self, expr: &Expr, around: &dyn Around, entry: Entry<'_>) -> Holds {
        match expr {
            Expr::Constant(value) => Holds::of(*value),
            Expr::And(parts) => parts.iter().map(|part| self.read(part, around, entry)).fold(Holds::Yes, Holds::and),
            Expr::Or(parts) => parts.iter().map(|part| self.read(part, around, entry)).fold(Holds::No, Holds::or),
            Expr::Not(part) => self.read(part, around, entry).not(),
            Expr::Field(field, check) => Holds::of(self.passes(*field, check, entry)),
            Expr::Entries { any, group, with } => {
                let some = self
                    .entries(*group)
                    .iter()
                    .map(|values| self.read(with, around, Some((*group, values))))
                    .fold(Holds::No, Holds::or);
                if *any { some } else { some.not() }
            }
            Expr::Answer { question, rungs } => {
                around.rung(*question).map_or(Holds::Refers, |rung| Holds::of(rungs.has(rung)))
            }
            Expr::Say(say) => around.say(say),
            Expr::Defined(name, _) => around.defined(name),
        }
    }

    fn passes(&self, field: FieldId, check: &Check, entry: Entry<'_>) -> bool {
        let value = self.value(field, entry);
        assert!(*value != Given::Unknown, "the job does not say `{}`", self.glossary.fields[usize::from(field.0)].path);
        match (check, value) {
            (Check::Among(terms) | Check::Includes(terms), Given::Term(term)) => terms.has(*term),
            (Check::Includes(terms), Given::Set(held)) => held.iter().any(|term| terms.has(term)),
            (Check::AtLeast(limit), Given::Measure(held)) => held.amount >= *limit,
            (Check::AtMost(limit), Given::Measure(held)) => held.amount <= *limit,
            (Check::Over(limit), Given::Measure(held)) => held.amount > *limit,
            (Check::Under(limit), Given::Measure(held)) => held.amount < *limit,
            (Check::Before(day), Given::Date(held)) => held < day,
            (Check::From(day), Given::Date(held)) => held >= day,
            (Check::Within(period, after), Given::Date(held)) => match self.value(*after, entry) {
                Given::Date(start) => start <= held && *held <= start.after(*period),
                _ => false,
            },
            (Check::Named(names), Given::Name(held)) => names.contains(held),
            // A date that there is none of is neither before nor from anything.
            (_, Given::NoDate) => false,
            _ => panic!("{check:?} does not fit {value:?}"),
        }
    }
}
