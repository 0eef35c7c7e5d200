//! Jobs in names and plain values, and a law with its glossary made ready for
//! the plain evaluator.

use crate::glossary::expr::Check;
use crate::glossary::model::{ChoiceId, FieldId, Shape};
use crate::job::model::{Entries, Given, Job};
use crate::law::model::Law;
use crate::oracle::completion::Completion;
use crate::oracle::world::World;
use crate::rules::Rules;
use crate::values::{Date, Exact, Measure, Terms};
use crate::verdict::Lexicon;
use std::collections::{BTreeMap, BTreeSet};

/// What a job says of one fact, in words that every glossary has.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Plain {
    Term(String),
    Set(BTreeSet<String>),
    Amount(Exact),
    Date(Date),
    Name(String),
}

/// A job of which everything that counts is said.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct PlainJob {
    pub(crate) facts: BTreeMap<String, Plain>,
    pub(crate) lists: BTreeMap<String, Vec<BTreeMap<String, Plain>>>,
    /// Whether an instrument of an unknown span has begun.
    pub(crate) spans: BTreeMap<String, bool>,
}

/// The law of a place, for the plain evaluator.
pub(crate) fn world(law: &Law, lexicon: &Lexicon<'_>) -> World {
    World {
        choices: lexicon.choices.to_vec(),
        subjects: lexicon.subjects.to_vec(),
        fields: lexicon.fields.to_vec(),
        groups: lexicon.groups.to_vec(),
        questions: lexicon.questions.to_vec(),
        roles: lexicon.roles,
        path: lexicon.path.to_vec(),
        law: law.clone(),
        job: Job {
            place: law.place,
            reference: None,
            values: vec![Given::Unknown; lexicon.fields.len()],
            lists: vec![Entries { entries: Vec::new(), more: true }; lexicon.groups.len()],
        },
    }
}

/// The law of a place of a library.
pub(crate) fn world_of(rules: &Rules, place: crate::glossary::model::PlaceId) -> Option<World> {
    let library = rules.library();
    let law = library.law(place).ok()?;
    let path = library.places.path(place);
    let glossary = &library.glossary;
    let lexicon = Lexicon {
        choices: &glossary.choices,
        subjects: &glossary.subjects,
        fields: &glossary.fields,
        groups: &glossary.groups,
        questions: &glossary.questions,
        roles: glossary.roles,
        path: &path,
    };
    Some(world(law, &lexicon))
}

impl World {
    fn knows(&self, scope: crate::glossary::model::Scope) -> bool {
        scope.is_none_or(|place| self.path.contains(&place))
    }

    pub(crate) fn field_named(&self, path: &str) -> Option<FieldId> {
        let at = self.fields.iter().position(|field| &*field.path == path && self.knows(field.scope))?;
        Some(FieldId(at as u16))
    }

    pub(crate) fn terms_of(&self, choice: ChoiceId) -> Vec<(u16, String)> {
        let terms = &self.choices[usize::from(choice.0)].terms;
        let known = (0u16..).zip(terms).filter(|(_, term)| self.knows(term.scope));
        known.map(|(number, term)| (number, term.name.to_string())).collect()
    }

    /// Whether the field is an attribute of the entries of a list.
    pub(crate) fn listed(&self, field: FieldId) -> bool {
        let group = self.fields[usize::from(field.0)].group;
        group.is_some_and(|group| self.groups[usize::from(group.0)].list)
    }

    /// A plain value in this glossary's numbers; a term that it does not know is
    /// none of its terms.
    pub(crate) fn given(&self, field: FieldId, value: &Plain) -> Given {
        let of = |choice: ChoiceId, name: &String| {
            let terms = self.terms_of(choice);
            terms.iter().find(|(_, known)| known == name).map(|(number, _)| *number)
        };
        match (self.fields[usize::from(field.0)].shape, value) {
            (Shape::YesNo, Plain::Term(name)) => Given::Term(u16::from(name == "yes")),
            (Shape::Choice(choice), Plain::Term(name)) => Given::Term(of(choice, name).unwrap_or(u16::MAX)),
            (Shape::Several(choice), Plain::Set(names)) => Given::Set(
                names
                    .iter()
                    .filter_map(|name| of(choice, name))
                    .fold(Terms::NONE, |all, term| all.union(Terms::one(term))),
            ),
            (_, Plain::Amount(amount)) => Given::Measure(Measure { amount: *amount, shown: "".into() }),
            (_, Plain::Date(date)) => Given::Date(*date),
            (_, Plain::Name(name)) => Given::Name(name.as_str().into()),
            other => panic!("{other:?}"),
        }
    }

    /// The job as this law sees it; where a day is given, every date is that day.
    pub(crate) fn complete(&self, job: &PlainJob, on: Option<Date>) -> Completion {
        let values = (0u16..).map(FieldId).zip(&self.fields).map(|(field, known)| {
            if let Some(day) = on.filter(|_| known.shape == Shape::Date && !self.listed(field)) {
                return Given::Date(day);
            }
            match job.facts.get(&*known.path).filter(|_| self.knows(known.scope)) {
                Some(value) => self.given(field, value),
                // Nothing reads it.
                None => Given::NoDate,
            }
        });
        let lists = self.groups.iter().map(|group| {
            let Some(rows) = job.lists.get(&*group.name).filter(|_| self.knows(group.scope)) else { return Vec::new() };
            rows.iter()
                .map(|row| {
                    let column = |field: &FieldId| {
                        let known = &self.fields[usize::from(field.0)];
                        row.get(&*known.path).map_or(Given::NoDate, |value| self.given(*field, value))
                    };
                    group.fields.iter().map(column).collect()
                })
                .collect()
        });
        let spans = self.law.spans.iter().map(|span| job.spans.get(&span_name(span)).copied().unwrap_or(false));
        Completion { values: values.collect(), lists: lists.collect(), spans: spans.collect() }
    }
}

pub(crate) fn span_name(span: &crate::law::model::UnknownSpan) -> String {
    format!("{} {}", span.issuer, span.instrument)
}

/// Whether a value passes a test that reads nothing else.
pub(crate) fn passes(check: &Check, value: &Given) -> bool {
    match (check, value) {
        (Check::Among(terms), Given::Term(term)) => terms.has(*term),
        (Check::Includes(terms), Given::Set(held)) => held.iter().any(|term| terms.has(term)),
        (Check::AtLeast(at), Given::Measure(measure)) => measure.amount >= *at,
        (Check::AtMost(at), Given::Measure(measure)) => measure.amount <= *at,
        (Check::Over(at), Given::Measure(measure)) => measure.amount > *at,
        (Check::Under(at), Given::Measure(measure)) => measure.amount < *at,
        (Check::Before(day), Given::Date(date)) => date < day,
        (Check::From(day), Given::Date(date)) => date >= day,
        (Check::Named(names), Given::Name(name)) => names.contains(name),
        _ => false,
    }
}
