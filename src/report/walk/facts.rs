//! The facts so far, numbered so that one can be changed.

use super::super::look::{Page, Tone};
use super::Voice;
use super::words::{said, title};
use crate::interview::{Mark, Step};
use crate::verdict::Matter;

/// A step that stands in the list, and whether what it says changes nothing.
pub(crate) struct Numbered<'s, 'a> {
    pub(crate) step: &'s Step<'a>,
    pub(crate) idle: bool,
}

/// The list of what was said.
pub(crate) fn facts(steps: &[Numbered<'_, '_>], matter: &Matter<'_>, voice: Voice) -> String {
    let Voice { reader, look } = voice;
    let mut page = Page::new(look);
    for (number, Numbered { step, idle }) in steps.iter().enumerate() {
        let value = said(reader, step, &matter.lexicon).unwrap_or_else(|| reader.say("walk-not-known"));
        let mut text = format!("{}: {value}", title(reader, step));
        if *idle || step.mark == Mark::Idle {
            text.push_str(&reader.say("walk-idle"));
        }
        page.labeled(&format!("{:>3}", number + 1), Tone::Plain, 5, &text, Tone::Plain);
    }
    page.hung(0, 2, &reader.say("walk-list-change"), Tone::Quiet);
    page.finish()
}

/// One answer as it was understood.
pub(crate) fn noted(step: &Step<'_>, matter: &Matter<'_>, voice: Voice) -> String {
    let reader = voice.reader;
    let value = said(reader, step, &matter.lexicon).unwrap_or_else(|| reader.say("walk-not-known"));
    voice.line(&reader.say_with("walk-noted", &[("title", &title(reader, step)), ("value", &value)]), Tone::Good)
}
