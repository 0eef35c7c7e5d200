//! Why a question is asked, in full: every answer that it could change, with the
//! texts behind it.

use super::super::look::{Page, Tone};
use super::super::screen::order::rank;
use super::super::screen::{COLUMN, reasons};
use super::super::sheet::reasons as spelled;
use super::Voice;
use super::question::could;
use crate::interview::{Step, turns_on};
use crate::verdict::Matter;
use crate::verdict::model::{Answered, Reason, Role, Verdict};

/// The reasons behind a step: of each answer the texts that wait for it, or where
/// none does, because only the job is held against it or another answer stands
/// between, the names of the texts that govern. With `all` every text in full, also
/// what is weaker and what was set aside.
pub(crate) fn why(step: &Step<'_>, verdict: &Verdict<'_>, matter: &Matter<'_>, all: bool, voice: Voice) -> String {
    let mut page = Page::new(voice.look);
    let mut changes: Vec<_> = step.changes.iter().collect();
    changes.sort_by_key(|change| rank(&change.question.name));
    if changes.is_empty() {
        page.hung(0, 2, &voice.reader.say("walk-why-nothing"), Tone::Plain);
    }
    for change in changes {
        page.hung(2, 4, &could(voice.reader, change), Tone::Strong);
        let Some(answer) = verdict.answers.iter().find(|answer| answer.question.name == change.question.name) else {
            continue;
        };
        let told: Vec<spelled::Told> = if all {
            spelled::all(answer, matter, voice.reader)
        } else {
            waiting(step, answer, matter).into_iter().map(|it| spelled::told(it, matter, voice.reader)).collect()
        };
        if told.is_empty() {
            page.hung(4, 6, &standing(answer, voice), Tone::Plain);
        }
        reasons::write(&mut page, &told, COLUMN);
    }
    if !all && !step.changes.is_empty() {
        page.hung(0, 2, &voice.reader.say("walk-why-more"), Tone::Quiet);
    }
    page.finish()
}

/// The texts that wait for a step.
fn waiting<'v, 'a>(step: &Step<'_>, answer: &'v Answered<'a>, matter: &Matter<'_>) -> Vec<&'v Reason<'a>> {
    let waits = |reason: &&Reason<'a>| {
        let path = step.topic.path();
        path.zip(reason.condition.as_ref()).is_some_and(|(path, phrase)| turns_on(matter, phrase, path))
    };
    answer.because.iter().filter(waits).collect()
}

/// How many texts are named where they are not told.
const NAMED: usize = 4;

/// The names of the texts on which an answer stands.
fn standing(answer: &Answered<'_>, voice: Voice) -> String {
    let mut names: Vec<String> = Vec::new();
    for reason in answer.because.iter().filter(|reason| reason.role == Role::Governs) {
        let name = voice.reader.cite(reason.source);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let others = names.len().saturating_sub(NAMED);
    names.truncate(NAMED);
    let mut text = voice.reader.say_with("walk-why-stands-on", &[("texts", &names.join("; "))]);
    if others > 0 {
        text.push_str(&voice.reader.say_with("walk-why-and-texts", &[("count", &others.to_string())]));
    }
    text
}
