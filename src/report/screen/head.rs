//! The head of a page: the outcome in words, the place, the dates, the codes.

use super::super::look::{Page, Tone};
use super::Frame;
use crate::report::sheet::Sheet;

/// Writes the head.
pub(super) fn write(page: &mut Page, sheet: &Sheet, frame: &Frame<'_>) {
    let tone = match sheet.outcome {
        "complies" => Tone::Good,
        "corrections" | "conflict" => Tone::Bad,
        _ => Tone::Doubt,
    };
    page.paragraph(0, &format!("{}: {}", sheet.heading, sheet.sentence), tone);
    if let Some(reference) = &sheet.reference {
        page.labeled("Job", Tone::Quiet, 9, reference, Tone::Plain);
    }
    if let Some(from) = frame.from {
        page.labeled("File", Tone::Quiet, 9, from, Tone::Plain);
    }
    page.labeled("Place", Tone::Quiet, 9, &sheet.place.join(", "), Tone::Plain);
    page.labeled("Dates", Tone::Quiet, 9, &sheet.dates, Tone::Plain);
    page.labeled("Codes", Tone::Quiet, 9, &sheet.codes, Tone::Plain);
}
