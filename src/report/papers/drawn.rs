//! What a paper is written from.

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

    /// The answers that are asked of the job, or stand beside what is asked, in the order
    /// of the work: what is settled at asking nothing is left out.
    pub(super) fn asked(&self) -> impl Iterator<Item = &'m Line> {
        self.sheet.answers.iter().filter(|line| line.asked && !line.silent && !line.loosest)
    }

    pub(super) fn facts(&self, reader: Reader) -> Facts<'m, 'a> {
        Facts { matter: self.matter, reader }
    }
}
