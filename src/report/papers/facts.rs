//! Facts of a job by the names that the shipped glossary gives them.
//!
//! Names that a set of rules does not declare are not known, like facts that the job
//! leaves unsaid.

use crate::glossary::model::{Field, FieldId, GroupId};
use crate::job::model::Given;
use crate::report::screen::words::spoken;
use crate::report::speech::Reader;
use crate::values::Measure;
use crate::verdict::Matter;

/// The facts of one job for a reader.
#[derive(Clone, Copy)]
pub(super) struct Facts<'m, 'a> {
    pub(super) matter: &'m Matter<'a>,
    pub(super) reader: Reader,
}

impl<'a> Facts<'_, 'a> {
    fn field(self, path: &str) -> Option<(FieldId, &'a Field)> {
        let lexicon = &self.matter.lexicon;
        let (number, field) = (0u16..).zip(lexicon.fields).find(|(_, field)| *field.path == *path)?;
        lexicon.known(field.scope).then_some((FieldId(number), field))
    }

    fn given(self, path: &str) -> Option<&'a Given> {
        Some(self.matter.fact(self.field(path)?.0))
    }

    /// A fact in words.
    pub(super) fn words(self, path: &str) -> Option<String> {
        let (id, _) = self.field(path)?;
        self.reader.given(self.matter.fact(id), id, &self.matter.lexicon)
    }

    /// A fact in words, or the blank that stands for what is not known.
    pub(super) fn or_blank(self, path: &str) -> String {
        self.words(path).unwrap_or_else(|| self.reader.say("papers-blank"))
    }

    pub(super) fn yes(self, path: &str) -> Option<bool> {
        match self.given(path)? {
            Given::Term(number) => Some(*number == 1),
            _ => None,
        }
    }

    pub(super) fn measure(self, path: &str) -> Option<&'a Measure> {
        match self.given(path)? {
            Given::Measure(measure) => Some(measure),
            _ => None,
        }
    }

    /// The name of the term that a fact holds.
    pub(super) fn term(self, path: &str) -> Option<&'a str> {
        let (id, _) = self.field(path)?;
        let Given::Term(number) = self.matter.fact(id) else { return None };
        let choice = self.matter.lexicon.choice(self.matter.lexicon.choice_of(id)?)?;
        Some(&choice.terms.get(usize::from(*number))?.name)
    }

    /// Every term of the choice that a fact holds: its number, its name, and its name with
    /// what it stands for.
    pub(super) fn choices(self, path: &str) -> Vec<(u16, &'a str, String)> {
        let lexicon = &self.matter.lexicon;
        let choice =
            self.field(path).and_then(|(id, _)| lexicon.choice_of(id)).and_then(|choice| lexicon.choice(choice));
        let terms = choice.map(|choice| choice.terms.as_slice()).unwrap_or_default();
        let known = (0u16..).zip(terms).filter(|(_, term)| lexicon.known(term.scope));
        let told = |title: &str, name: &str| if title.is_empty() { spoken(name) } else { title.to_owned() };
        known.map(|(number, term)| (number, &*term.name, told(&term.title, &term.name))).collect()
    }

    /// The numbers of the terms that a fact holds; nothing where it is not known.
    pub(super) fn held(self, path: &str) -> Option<Vec<u16>> {
        match self.given(path)? {
            Given::Set(terms) => Some(terms.iter().collect()),
            Given::Term(number) => Some(vec![*number]),
            _ => None,
        }
    }

    /// The values of an attribute over the entries of a list that say it, each once.
    pub(super) fn over(self, list: &str, attribute: &str) -> Vec<String> {
        let lexicon = &self.matter.lexicon;
        let Some((id, field)) = self.field(&format!("{list}.{attribute}")) else { return Vec::new() };
        let group = (0u16..).zip(lexicon.groups).find(|(_, group)| *group.name == *list && group.list);
        let Some(entries) = group.and_then(|(number, _)| self.matter.list(GroupId(number))) else { return Vec::new() };
        let mut found: Vec<String> = Vec::new();
        for entry in &entries.entries {
            let held = entry.get(usize::from(field.column)).unwrap_or(&Given::Unknown);
            if let Some(words) = self.reader.given(held, id, lexicon)
                && !found.contains(&words)
            {
                found.push(words);
            }
        }
        found
    }
}
