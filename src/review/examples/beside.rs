//! What an example may expect beside demands: the loosest answer, advice, notes,
//! and instruments that are on their way.
//!
//! Only what surely holds for the job counts: advice and notes that still wait for
//! a fact are not told.

use super::{ANYONE, ANYTHING, Check, NO_LIMIT, NOTHING, Wrong, in_words, is_by, name, same};
use crate::glossary::Context;
use crate::glossary::demand::Asked;
use crate::law::model::Effect;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::{Authority, Demand, Span, Word};
use crate::verdict::Way;
use crate::verdict::found::State;
use crate::verdict::model::{Answered, Reason, Remark};

impl<'a> Check<'a> {
    /// `Q no limit`, `Q anyone`, `Q nothing`: settled, at its loosest.
    pub(super) fn loosest(&self, span: Span, answer: &Answered<'a>, word: &Word) -> Wrong {
        let question = &answer.question.name;
        let form = self.matter.plan.asks.get(answer.number)?.form;
        let fitting: &[&str] = match form.way {
            Way::AtLeast | Way::AtMost => &[NO_LIMIT],
            Way::Only => &[ANYTHING, ANYONE],
            Way::AllOf => &[NOTHING],
            Way::Ladder => &[],
        };
        if !fitting.contains(&&*word.text) {
            let message = format!("`{}` is no answer to `{question}`", word.text);
            let help = match fitting.first() {
                Some(fits) => format!("its loosest answer is written `{question} {fits}`"),
                None => format!("its answers are rungs: write `{question} is` and a rung"),
            };
            return Some(Diagnostic::new(codes::QUESTION, self.at(word.span), message).help(help));
        }
        let loosest = answer.found.value.as_ref().is_some_and(|parts| form.is_loosest(parts));
        let holds = answer.found.state == State::Settled && loosest;
        let wrong = || self.wrong(span, &format!("`{question} {}`", word.text), &in_words(answer));
        (!holds).then(|| self.because(wrong(), answer))
    }

    /// `note by ID N`: some note of this text is told.
    pub(super) fn note(&self, span: Span, by: &Authority) -> Wrong {
        let told = || self.verdict.notes.iter().filter(|note| note.question.is_none() && note.source.is_some());
        let says = |note: &Remark<'_>| note.condition.is_none() && note.source.is_some_and(|source| is_by(source, by));
        if told().any(says) {
            return None;
        }
        let wrong = self.wrong(span, &format!("`{}`", self.written(span)), "no such note");
        let texts: Vec<String> = told().filter_map(|note| note.source).map(name).collect();
        Some(listing(wrong, "the notes told are by", texts, "no note of any text is told for this job"))
    }

    /// `pending ID`: an instrument that is proposed, or enacted without a date.
    pub(super) fn pending(&self, span: Span, id: &Word) -> Wrong {
        if self.verdict.pending.iter().any(|coming| *coming.source.instrument == *id.text) {
            return None;
        }
        let wrong = self.wrong(span, &format!("`pending {}`", id.text), "no such instrument pending there");
        let ids: Vec<String> = self.verdict.pending.iter().map(|coming| coming.source.instrument.to_string()).collect();
        Some(listing(wrong, "pending there", ids, "no instrument is pending there"))
    }

    /// `advised Q is R by ID N`: some text that advises says just this.
    pub(super) fn advised(&self, span: Span, demand: &Demand, by: Option<&Authority>) -> Vec<Diagnostic> {
        let mut told = Vec::new();
        let context = Context::plain(self.file, Some(self.place()), self.rules.desk().territory);
        let Some(asked) = self.rules.library().glossary.demand(demand, &context, &mut told) else { return told };
        let Some(answer) = self.answer_to(asked.question) else { return told };
        let says = |reason: &&Reason<'a>| self.says(&asked, answer, reason);
        let by_it = |reason: &Reason<'a>| by.is_none_or(|by| is_by(reason.source, by));
        if answer.advice.iter().filter(says).any(by_it) {
            return told;
        }
        let found = if answer.advice.iter().any(|reason| says(&reason)) {
            "that advice by another text".to_owned()
        } else {
            "no such advice".to_owned()
        };
        let wrong = self.wrong(span, &format!("`{}`", self.written(span)), &found);
        let texts = answer.advice.iter().map(|reason| format!("{}: {}", name(reason.source), reason.provision.words));
        told.push(listing(wrong, "what advises", texts.collect(), "no text advises on this question"));
        told
    }

    /// Whether a text says just what is asked, term by term.
    fn says(&self, asked: &Asked, answer: &Answered<'a>, reason: &Reason<'a>) -> bool {
        let (Effect::Demand(demand), None) = (&reason.provision.effect, &reason.condition) else { return false };
        let (Some(law), Some(ask)) =
            (self.matter.law.questions.get(answer.number), self.matter.plan.asks.get(answer.number))
        else {
            return false;
        };
        let part = |number: usize| ask.form.demanded(demand, number).unwrap_or(ask.form.loosest);
        same(asked, law, &part, demand.only)
    }
}

/// A finding with what was found instead as help, or that there was nothing.
fn listing(wrong: Diagnostic, lead: &str, mut texts: Vec<String>, none: &str) -> Diagnostic {
    texts.dedup();
    texts.truncate(4);
    if texts.is_empty() { wrong.help(none) } else { wrong.help(format!("{lead}: {}", texts.join("; "))) }
}
