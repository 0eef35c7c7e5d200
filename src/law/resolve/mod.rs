//! From trees to resolved texts and instruments: every name looked up, every
//! value read, every error told with its place.

mod adoptions;
pub(crate) mod codes;
mod dates;
pub(crate) mod instruments;
pub(crate) mod patches;
pub(crate) mod sections;
mod words;

use crate::glossary::expr::Expr;
use crate::glossary::model::{FieldId, PlaceId, QuestionId, SubjectId};
use crate::glossary::{Context, Glossary};
use crate::law::model::Provenance;
use crate::law::places::Places;
use crate::syntax::codes as errors;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::nearest::nearest;
use crate::syntax::tree;
use crate::values::Date;

/// What reading a text needs at hand.
pub(crate) struct Reader<'a> {
    pub(crate) glossary: &'a Glossary,
    pub(crate) places: &'a Places,
    pub(crate) diagnostics: &'a mut Vec<Diagnostic>,
}

/// Where a text stands: its file, the place whose words it may use, and the
/// definitions of its edition.
#[derive(Clone, Copy)]
pub(crate) struct Standing<'a> {
    pub(crate) file: FileId,
    pub(crate) from: Option<PlaceId>,
    pub(crate) definitions: &'a dyn Fn(&str) -> bool,
}

impl<'a> Standing<'a> {
    /// A standing without definitions of its own.
    pub(crate) fn plain(file: FileId, from: Option<PlaceId>) -> Standing<'a> {
        Standing { file, from, definitions: &|_| false }
    }

    /// The place of a span in the file.
    pub(crate) fn at(&self, span: tree::Span) -> Location {
        Location { file: self.file, span }
    }
}

impl<'a> Reader<'a> {
    /// Records a finding.
    pub(crate) fn tell(&mut self, diagnostic: Diagnostic) {
        self.diagnostics.push(diagnostic);
    }

    /// Reads a condition of a rule: facts, answers and instructions.
    pub(crate) fn condition(&mut self, cond: &tree::Cond, standing: &Standing) -> Expr {
        let context = self.context(standing, true);
        // What could not be read was told; the file is not used then.
        self.glossary.condition(cond, &context, self.diagnostics).unwrap_or(Expr::Constant(false))
    }

    /// Reads a condition of reach: facts only.
    pub(crate) fn reach(&mut self, cond: &tree::Cond, standing: &Standing) -> Expr {
        let context = self.context(standing, false);
        self.glossary.condition(cond, &context, self.diagnostics).unwrap_or(Expr::Constant(false))
    }

    /// What the glossary needs to read words that stand there.
    pub(crate) fn context<'c>(&self, standing: &Standing<'c>, answers: bool) -> Context<'c>
    where
        'a: 'c,
    {
        Context {
            file: standing.file,
            from: standing.from,
            territory: self.places,
            definitions: standing.definitions,
            answers,
            says: answers,
        }
    }

    /// Looks up subjects.
    pub(crate) fn subjects(&mut self, words: &[tree::Word], standing: &Standing) -> Vec<SubjectId> {
        let mut found = Vec::new();
        for word in words {
            match self.glossary.subject(&word.text) {
                Some(subject) => found.push(subject),
                None => {
                    let near = nearest(&word.text, self.glossary.subjects.iter().map(|subject| &*subject.name));
                    self.tell(
                        Diagnostic::new(
                            errors::UNKNOWN_NAME,
                            standing.at(word.span),
                            format!("no subject is named `{}`", word.text),
                        )
                        .help(did_you_mean(&near, "declare it with `subject`")),
                    );
                }
            }
        }
        found
    }

    /// Looks up a question.
    pub(crate) fn question(&mut self, word: &tree::Word, standing: &Standing) -> Option<QuestionId> {
        let context = self.context(standing, true);
        self.glossary.question_named(word, &context, self.diagnostics)
    }

    /// Looks up a question where a subject could have stood as well.
    pub(crate) fn question_or_subject(&mut self, word: &tree::Word, standing: &Standing) -> Option<QuestionId> {
        let before = self.diagnostics.len();
        let found = self.question(word, standing);
        let questions = || self.glossary.questions.iter().map(|question| &*question.name);
        if let Some(told) = self.diagnostics.get_mut(before)
            && questions().all(|name| *name != *word.text)
        {
            let subjects = self.glossary.subjects.iter().map(|subject| &*subject.name);
            let near = nearest(&word.text, questions().chain(subjects));
            told.message = format!("no question and no subject has the name `{}`", word.text);
            told.help = Some(did_you_mean(&near, "name a question or a subject of the glossary"));
        }
        found
    }

    /// Looks up a fact or record attribute, outside any list.
    pub(crate) fn field(&mut self, path: &tree::Path, standing: &Standing) -> Option<FieldId> {
        let context = self.context(standing, true);
        self.glossary.fact_named(path, &context, self.diagnostics)
    }

    /// Reads a date.
    pub(crate) fn date(&mut self, word: &tree::Word, standing: &Standing) -> Option<Date> {
        let date = Date::parse(&word.text);
        if date.is_none() {
            self.tell(
                Diagnostic::new(errors::DATE, standing.at(word.span), format!("`{}` is no date", word.text))
                    .help("write the year, the month and the day, such as `2024-07-01`"),
            );
        }
        date
    }

    /// Reads a year.
    pub(crate) fn year(&mut self, word: &tree::Word, standing: &Standing) -> Option<i32> {
        let year = word.text.parse::<i32>().ok().filter(|year| word.text.len() == 4 && (1..=9999).contains(year));
        if year.is_none() {
            self.tell(
                Diagnostic::new(errors::NUMBER, standing.at(word.span), format!("`{}` is no year", word.text))
                    .help("write the year of the edition in four figures, such as `2018`"),
            );
        }
        year
    }

    /// Reads a provenance; what is missing is taken from the first of the texts
    /// around that has one.
    pub(crate) fn provenance(
        &mut self,
        own: Option<&tree::Provenance>,
        around: &Provenance,
        standing: &Standing,
    ) -> Provenance {
        match own.map(|own| &own.kind) {
            None => around.clone(),
            Some(tree::ProvenanceKind::Memory) => Provenance::Memory,
            Some(tree::ProvenanceKind::CommonPractice) => Provenance::CommonPractice,
            Some(tree::ProvenanceKind::Read { place, on }) => match self.date(on, standing) {
                Some(on) => Provenance::Read { place: place.text.clone(), on },
                None => around.clone(),
            },
        }
    }
}

/// The help for an unknown name: the nearest ones, or else what to do.
pub(crate) fn did_you_mean(near: &[&str], otherwise: &str) -> String {
    match near {
        [] => otherwise.to_owned(),
        names => {
            let names: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
            format!("did you mean {}?", names.join(" or "))
        }
    }
}
