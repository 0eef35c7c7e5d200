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

/// What a page takes from outside the verdict.
pub(crate) struct Frame<'a> {
    /// Whether all reasons are told.
    pub(crate) why: bool,
    /// What could be chosen otherwise so that what is not met is.
    pub(crate) mending: Mending,
    /// Where the job was read, where there are several.
    pub(crate) from: Option<&'a str>,
}

/// The page on one job.
pub(crate) fn verdict(sheet: &Sheet, frame: &Frame<'_>, look: Look) -> String {
    let mut page = Page::new(look);
    head::write(&mut page, sheet, frame);
    answer::write_all(&mut page, sheet, frame);
    closing::write(&mut page, sheet);
    page.finish()
}
