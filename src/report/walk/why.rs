//! Why a question is asked, in full: every answer that it could change, with the
//! texts behind it.

use super::super::look::{Page, Tone};
use super::super::screen::{order::rank, reasons};
use super::Voice;
use super::question::could;
use crate::interview::Step;
use crate::verdict::Matter;
use crate::verdict::model::Verdict;

/// All reasons behind a step.
pub(crate) fn why(step: &Step<'_>, verdict: &Verdict<'_>, matter: &Matter<'_>, voice: Voice) -> String {
    let mut page = Page::new(voice.look);
    let mut changes: Vec<_> = step.changes.iter().collect();
    changes.sort_by_key(|change| rank(&change.question.name));
    if changes.is_empty() {
        page.hung(0, 2, &voice.reader.say("walk-why-nothing"), Tone::Plain);
    }
    for change in changes {
        page.hung(2, 4, &could(voice.reader, change), Tone::Strong);
        let answer = verdict.answers.iter().find(|answer| answer.question.name == change.question.name);
        if let Some(answer) = answer {
            reasons::write(&mut page, answer, matter);
        }
    }
    page.finish()
}
