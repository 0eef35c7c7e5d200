//! The head of a page: the outcome in words, the place, the dates, the codes.

use super::super::look::{Page, Tone};
use super::Frame;
use crate::report::sheet::Sheet;

/// Writes the head.
pub(super) fn write(page: &mut Page, sheet: &Sheet, frame: &Frame<'_>, column: usize) {
    let reader = frame.reader;
    let tone = match sheet.outcome {
        "complies" => Tone::Good,
        "corrections" | "conflict" => Tone::Bad,
        _ => Tone::Doubt,
    };
    page.paragraph(0, &format!("{}: {}", sheet.heading, sheet.sentence), tone);
    if let Some(reference) = &sheet.reference {
        page.labeled(&reader.say("screen-job"), Tone::Quiet, column, reference, Tone::Plain);
    }
    if let Some(from) = frame.from {
        page.labeled(&reader.say("screen-file"), Tone::Quiet, column, from, Tone::Plain);
    }
    page.labeled(&reader.say("pages-place"), Tone::Quiet, column, &sheet.place.join(", "), Tone::Plain);
    page.labeled(&reader.say("pages-dates"), Tone::Quiet, column, &sheet.dates, Tone::Plain);
    page.labeled(&reader.say("pages-codes"), Tone::Quiet, column, &sheet.codes, Tone::Plain);
}
