//! Facts of a job by the names that the shipped glossary gives them. What the job
//! leaves unsaid stays unknown here, unless the glossary presumes it.
//!
//! Names that a set of rules does not declare are unknown too.

use crate::glossary::model::{Choice, Field, FieldId, GroupId, Shape};
use crate::job::model::Given;
use crate::report::speech::Reader;
use crate::values::Terms;
use crate::verdict::{Mark, Matter, Memo};

/// What is known of something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Known<T> {
    Given(T),
    /// The job leaves it unsaid, and the glossary says from what it follows.
    Presumed(T),
    Unknown,
}

impl<T> Known<T> {
    /// The value, where the job itself says it.
    pub(super) fn given(&self) -> Option<&T> {
        match self {
            Known::Given(value) => Some(value),
            Known::Presumed(_) | Known::Unknown => None,
        }
    }

    /// The value, given or presumed.
    pub(super) fn told(&self) -> Option<&T> {
        match self {
            Known::Given(value) | Known::Presumed(value) => Some(value),
            Known::Unknown => None,
        }
    }
}

impl Known<bool> {
    pub(super) fn is(&self, value: bool) -> bool {
        self.told() == Some(&value)
    }
}

/// A term of a choice: its name and those of the terms that it lies under.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Term {
    names: Vec<Box<str>>,
    /// What the rules call it.
    pub(super) title: String,
}

impl Term {
    /// Its own name.
    pub(super) fn name(&self) -> &str {
        self.names.first().map_or("", |name| name)
    }

    /// The first of these names that it bears, itself or by a term that it lies under.
    pub(super) fn among<'n>(&self, names: &[&'n str]) -> Option<&'n str> {
        self.names.iter().find_map(|own| names.iter().copied().find(|name| **name == **own))
    }

    pub(super) fn is(&self, name: &str) -> bool {
        self.among(&[name]).is_some()
    }
}

/// The facts of one job.
#[derive(Clone, Copy)]
pub(super) struct Facts<'m, 'a> {
    pub(super) matter: &'m Matter<'a>,
    pub(super) reader: Reader,
}

/// An entry of a list.
#[derive(Clone, Copy)]
pub(super) struct Row<'m, 'a> {
    facts: Facts<'m, 'a>,
    list: &'m str,
    values: &'a [Given],
}

impl<'m, 'a> Facts<'m, 'a> {
    /// The number of a fact by its path, such as `jumper.length`.
    pub(super) fn field(self, path: &str) -> Option<(FieldId, &'a Field)> {
        let lexicon = &self.matter.lexicon;
        let (number, field) = (0u16..).zip(lexicon.fields).find(|(_, field)| *field.path == *path)?;
        lexicon.known(field.scope).then_some((FieldId(number), field))
    }

    /// What the job says of a fact.
    pub(super) fn given(self, path: &str) -> Option<(FieldId, &'a Given)> {
        let (id, _) = self.field(path)?;
        Some((id, self.matter.fact(id)))
    }

    /// A fact in words; nothing where it is not known.
    pub(super) fn words(self, path: &str) -> Option<String> {
        let (id, given) = self.given(path)?;
        self.reader.given(given, id, &self.matter.lexicon)
    }

    /// A yes or no.
    pub(super) fn yes(self, path: &str) -> Known<bool> {
        let Some((id, given)) = self.given(path) else { return Known::Unknown };
        match given {
            Given::Term(number) => Known::Given(*number == 1),
            _ => self.presumed(id).map_or(Known::Unknown, Known::Presumed),
        }
    }

    fn presumed(self, id: FieldId) -> Option<bool> {
        let cond = self.matter.presumed(id)?;
        let mut memo = Memo::default();
        memo.reset(self.matter.law);
        match memo.read(self.matter, cond) {
            Mark::Yes => Some(true),
            Mark::No => Some(false),
            Mark::Open | Mark::Refers => None,
        }
    }

    /// A term of a choice.
    pub(super) fn term(self, path: &str) -> Known<Term> {
        let Some((id, given)) = self.given(path) else { return Known::Unknown };
        self.one(id, given)
    }

    fn one(self, id: FieldId, given: &Given) -> Known<Term> {
        match given {
            Given::Term(number) => self.named(id, *number).map_or(Known::Unknown, Known::Given),
            _ => Known::Unknown,
        }
    }

    /// Several terms of a choice.
    pub(super) fn terms(self, path: &str) -> Known<Vec<Term>> {
        match self.given(path) {
            Some((id, Given::Set(set))) => Known::Given(set.iter().filter_map(|term| self.named(id, term)).collect()),
            _ => Known::Unknown,
        }
    }

    /// The choice whose terms a fact holds.
    pub(super) fn choice(self, id: FieldId) -> Option<&'a Choice> {
        self.matter.lexicon.choice(self.matter.lexicon.choice_of(id)?)
    }

    fn named(self, id: FieldId, number: u16) -> Option<Term> {
        let choice = self.choice(id)?;
        let mut names: Vec<Box<str>> = Vec::new();
        let mut next = Some(number);
        while let Some(term) = next.and_then(|number| choice.terms.get(usize::from(number))) {
            // Terms never lie under each other in a circle; the count makes sure that this ends.
            if names.len() > choice.terms.len() {
                break;
            }
            names.push(term.name.clone());
            next = term.under;
        }
        let own = choice.terms.get(usize::from(number))?;
        let title = if own.title.is_empty() { own.name.to_string() } else { own.title.to_string() };
        Some(Term { names, title })
    }

    /// Which of these terms of the choice that a fact holds are in a set.
    pub(super) fn which<'n>(self, path: &str, names: &[&'n str], set: Terms) -> Vec<&'n str> {
        let Some(choice) = self.field(path).and_then(|(id, _)| self.choice(id)) else { return Vec::new() };
        let of =
            |name: &str| (0u16..).zip(&choice.terms).find(|(_, term)| *term.name == *name).map(|(number, _)| number);
        names.iter().copied().filter(|name| of(name).is_some_and(|number| set.has(number))).collect()
    }

    /// The known entries of a list, and whether there may be more.
    pub(super) fn list(self, name: &'m str) -> (Vec<Row<'m, 'a>>, bool) {
        let lexicon = &self.matter.lexicon;
        let group = (0u16..).zip(lexicon.groups).find(|(_, group)| *group.name == *name && group.list);
        let entries = group.and_then(|(number, _)| self.matter.list(GroupId(number)));
        match entries {
            Some(entries) => {
                let rows = entries.entries.iter().map(|values| Row { facts: self, list: name, values });
                (rows.collect(), entries.more)
            }
            None => (Vec::new(), true),
        }
    }
}

impl<'a> Row<'_, 'a> {
    fn given(self, name: &str) -> Option<(FieldId, &'a Given)> {
        let (id, field) = self.facts.field(&format!("{}.{name}", self.list))?;
        Some((id, self.values.get(usize::from(field.column))?))
    }

    pub(super) fn words(self, name: &str) -> Option<String> {
        let (id, given) = self.given(name)?;
        self.facts.reader.given(given, id, &self.facts.matter.lexicon)
    }

    pub(super) fn yes(self, name: &str) -> Known<bool> {
        match self.given(name) {
            Some((id, Given::Term(number))) if self.shape(id) == Some(Shape::YesNo) => Known::Given(*number == 1),
            _ => Known::Unknown,
        }
    }

    fn shape(self, id: FieldId) -> Option<Shape> {
        self.facts.matter.lexicon.field(id).map(|field| field.shape)
    }

    pub(super) fn term(self, name: &str) -> Known<Term> {
        match self.given(name) {
            Some((id, given)) => self.facts.one(id, given),
            None => Known::Unknown,
        }
    }
}
