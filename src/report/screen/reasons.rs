//! All reasons of an answer, for whoever has to look them up.

use super::super::look::{Page, Tone};
use super::answer::COLUMN;
use crate::report::sheet::reasons::Told;

/// Writes the reasons of one answer.
pub(in crate::report) fn write(page: &mut Page, reasons: &[Told]) {
    for reason in reasons {
        let head = format!("{}: {} – {}", reason.role, reason.cite, reason.demand);
        page.hung(COLUMN + 2, COLUMN + 4, &head, Tone::Plain);
        let further = [&reason.by, &reason.failed, &reason.condition, &reason.summary, &reason.source];
        for text in further.into_iter().flatten() {
            page.hung(COLUMN + 4, COLUMN + 6, text, Tone::Quiet);
        }
    }
}
