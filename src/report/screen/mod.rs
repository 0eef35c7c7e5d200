//! A verdict as a page for a person on the job: the outcome first, then the
//! answers in the order of the work, what to ask, and the cautions.

mod answer;
mod closing;
mod head;
pub(crate) mod order;
pub(in crate::report) mod reasons;
pub(crate) mod words;

use super::cures::Mending;
use super::look::{Look, Page};
use super::sheet::Sheet;
use super::speech::Reader;
use textwrap::core::display_width;

/// What a page takes from outside the verdict.
pub(crate) struct Frame<'a> {
    /// Whether all reasons are told.
    pub(crate) why: bool,
    /// What could be chosen otherwise so that what is not met is.
    pub(crate) mending: Mending,
    /// Where the job was read, where there are several.
    pub(crate) from: Option<&'a str>,
    pub(crate) reader: Reader,
}

/// The page on one job.
pub(crate) fn verdict(sheet: &Sheet, frame: &Frame<'_>, look: Look) -> String {
    let mut page = Page::new(look);
    let column = column(sheet);
    head::write(&mut page, sheet, frame, column);
    answer::write_all(&mut page, sheet, frame, column);
    closing::write(&mut page, sheet, frame.reader);
    page.finish()
}

/// Where the text behind a mark or a label begins, where none is longer.
pub(in crate::report) const COLUMN: usize = 9;

/// The same for a sheet, one of whose marks may be longer.
fn column(sheet: &Sheet) -> usize {
    let marks = sheet.answers.iter().map(|line| display_width(&line.word) + 1);
    marks.fold(COLUMN, usize::max)
}
