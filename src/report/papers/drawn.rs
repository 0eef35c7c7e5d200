//! What a paper is written from.

use crate::glossary::model::{FieldId, GroupId};
use crate::job::model::Given;
use crate::report::facts::Facts;
use crate::report::sheet::{Line, Sheet};
use crate::report::speech::Reader;
use crate::verdict::Matter;
use crate::verdict::found::State;
use crate::verdict::model::{Answered, Verdict};
use crate::verdict::value::{Item, Items};

/// A verdict, the job that it is on, and the verdict spelled out for the same reader,
/// each answer by itself.
#[derive(Clone, Copy)]
pub(crate) struct Drawn<'m, 'a> {
    pub(crate) verdict: &'m Verdict<'a>,
    pub(crate) matter: &'m Matter<'a>,
    pub(crate) sheet: &'m Sheet,
}

impl<'m, 'a> Drawn<'m, 'a> {
    /// The spelled-out answer to a question.
    pub(super) fn line(&self, question: &str) -> Option<&'m Line> {
        self.sheet.answers.iter().find(|line| line.question == question)
    }

    pub(super) fn answered(&self, question: &str) -> Option<&'m Answered<'a>> {
        self.verdict.answers.iter().find(|answer| *answer.question.name == *question)
    }

    /// The rung on which a ladder question is settled.
    pub(super) fn rung(&self, question: &str) -> Option<&'a str> {
        let answer = self.answered(question).filter(|answer| answer.found.state == State::Settled)?;
        match answer.value.as_ref()?.items {
            Items::One(Item::Rung(rung)) => Some(rung),
            _ => None,
        }
    }

    /// Whether a question is settled on this rung.
    pub(super) fn is(&self, question: &str, rung: &str) -> bool {
        self.rung(question) == Some(rung)
    }

    /// The answers that are told to whoever does the work, in the order of the work: what
    /// is settled at asking nothing is left out.
    pub(super) fn asked(&self) -> impl Iterator<Item = &'m Line> {
        let told = *self;
        self.sheet.answers.iter().filter(move |line| told.told(line) && !line.silent && !line.loosest)
    }

    /// Whether an answer is told to whoever does the work: it is asked of the job, or of a
    /// jumper that is still to be put in.
    pub(super) fn told(&self, line: &Line) -> bool {
        line.asked || self.sheet.jumper.to_come()
    }

    /// What the rules say of a jumper that is there though no direct bond requires it.
    pub(super) fn beside(&self) -> impl Iterator<Item = &'m Line> {
        let there = self.sheet.jumper.is_there();
        self.sheet.answers.iter().filter(move |line| there && !line.asked && !line.silent && !line.loosest)
    }

    /// The word for how an answer stands, where it does not stand as asked. What is not
    /// asked of the job stands no way at all, unless the jumper is still to come.
    pub(super) fn flag(&self, line: &Line) -> Option<String> {
        (!matches!(line.mark, "met" | "none") && self.told(line)).then(|| line.word.clone())
    }

    /// Whether some run is CSST, or may be: the job does not say of each what it is.
    pub(super) fn may_have_tubing(&self) -> bool {
        let lexicon = &self.matter.lexicon;
        let group = (0u16..).zip(lexicon.groups).find(|(_, group)| &*group.name == "run" && group.list);
        let list = group.and_then(|(number, _)| self.matter.list(GroupId(number)));
        let field = (0u16..).zip(lexicon.fields).find(|(_, field)| &*field.path == "run.material");
        let (Some(list), Some((number, field))) = (list, field) else { return true };
        let choice = lexicon.choice_of(FieldId(number)).and_then(|choice| lexicon.choice(choice));
        let csst = choice.and_then(|choice| choice.terms.iter().position(|term| &*term.name == "csst"));
        let other = |entry: &Vec<Given>| match entry.get(usize::from(field.column)) {
            Some(Given::Term(term)) => Some(usize::from(*term)) != csst,
            _ => false,
        };
        list.more || !list.entries.iter().all(other)
    }

    pub(super) fn facts(&self, reader: Reader) -> Facts<'m, 'a> {
        Facts { matter: self.matter, reader }
    }
}
