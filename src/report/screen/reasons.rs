//! All reasons of an answer, for whoever has to look them up.

use super::super::look::{Page, Tone};
use crate::report::sheet::reasons::Told;

/// Writes the reasons of one answer, whose text begins at a column.
pub(in crate::report) fn write(page: &mut Page, reasons: &[Told], column: usize) {
    for reason in reasons {
        let head = format!("{}: {} – {}", reason.role, reason.cite, reason.demand);
        page.hung(column + 2, column + 4, &head, Tone::Plain);
        let further = [&reason.by, &reason.failed, &reason.condition, &reason.summary, &reason.source];
        for text in further.into_iter().flatten() {
            page.hung(column + 4, column + 6, text, Tone::Quiet);
        }
    }
}
