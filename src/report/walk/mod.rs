//! What the walk-through in a terminal says: a question with its choices and why
//! it is asked, the facts so far, reasons, and what is wrong with an answer.
//!
//! Everything is plain lines of text, read from top to bottom, so that a screen
//! reader tells the same as the screen. This module refuses to decide what is
//! asked; that is `interview`'s business.

mod facts;
mod question;
mod why;
mod words;
mod wrong;

pub(crate) use facts::{Numbered, facts, noted};
pub(crate) use question::{Count, question};
pub(crate) use why::why;
pub(crate) use wrong::{refused, wrong};

use super::look::{Look, Page, Tone};
use super::speech::Reader;

/// The stages of a job in the order in which they come: the words of the shipped
/// glossary.
pub(crate) const STAGES: &[&str] = &["bid", "permit", "rough", "final"];

/// For whom it is told, and on what.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Voice {
    pub(crate) reader: Reader,
    pub(crate) look: Look,
}

impl Voice {
    /// A paragraph of the tool.
    pub(crate) fn line(self, text: &str, tone: Tone) -> String {
        let mut page = Page::new(self.look);
        page.hung(0, 2, text, tone);
        page.finish()
    }

    /// What stands at the beginning.
    pub(crate) fn greeting(self) -> String {
        let mut page = Page::new(self.look);
        page.paragraph(0, &self.reader.say("walk-greeting"), Tone::Plain);
        page.paragraph(0, &self.reader.say("walk-greeting-keys"), Tone::Plain);
        page.finish()
    }

    /// All words that are no answers.
    pub(crate) fn help(self) -> String {
        let mut page = Page::new(self.look);
        let reader = self.reader;
        for text in [
            reader.say("walk-help-answer"),
            reader.say("walk-help-unknown"),
            reader.say("walk-help-back"),
            reader.say("walk-help-why"),
            reader.say("walk-help-list"),
            reader.say("walk-help-change"),
            reader.say("walk-help-drop"),
            reader.say("walk-help-save"),
            reader.say("walk-help-done"),
            reader.say("walk-help-stop"),
        ] {
            page.hung(2, 4, &text, Tone::Plain);
        }
        page.finish()
    }
}
