//! What papers ask of the facts of a job beside what pictures ask too.

use crate::job::model::Given;
use crate::report::facts::Facts;
use crate::report::screen::words::spoken_title;
use crate::values::Measure;

impl<'a> Facts<'_, 'a> {
    /// A fact in words, or the blank that stands for what is not known.
    pub(super) fn or_blank(self, path: &str) -> String {
        self.words(path).unwrap_or_else(|| self.reader.say("papers-blank"))
    }

    /// A fact as a row of a table, beside what it is called there.
    pub(super) fn row(self, label: String, path: &str) -> [String; 2] {
        [label, self.or_blank(path)]
    }

    /// A yes or no that the job itself says: a paper presumes nothing.
    pub(super) fn says(self, path: &str) -> Option<bool> {
        self.yes(path).given().copied()
    }

    pub(super) fn measure(self, path: &str) -> Option<&'a Measure> {
        match self.given(path)?.1 {
            Given::Measure(measure) => Some(measure),
            _ => None,
        }
    }

    /// Every term of the choice that a fact holds: its number, its name, and its name with
    /// what it stands for.
    pub(super) fn choices(self, path: &str) -> Vec<(u16, &'a str, String)> {
        let choice = self.field(path).and_then(|(id, _)| self.choice(id));
        let terms = choice.map(|choice| choice.terms.as_slice()).unwrap_or_default();
        let known = (0u16..).zip(terms).filter(|(_, term)| self.matter.lexicon.known(term.scope));
        known.map(|(number, term)| (number, &*term.name, spoken_title(&term.title, &term.name))).collect()
    }

    /// The numbers of the terms that a fact holds; nothing where it is not known.
    pub(super) fn held(self, path: &str) -> Option<Vec<u16>> {
        match self.given(path)?.1 {
            Given::Set(terms) => Some(terms.iter().collect()),
            Given::Term(number) => Some(vec![*number]),
            _ => None,
        }
    }

    /// The values of an attribute over the entries of a list that say it, each once.
    pub(super) fn over(self, list: &str, attribute: &str) -> Vec<String> {
        let mut found: Vec<String> = Vec::new();
        for words in self.list(list).0.iter().filter_map(|row| row.words(attribute)) {
            if !found.contains(&words) {
                found.push(words);
            }
        }
        found
    }
}
