//! A verdict as a page for a person on the job: the outcome first, then the
//! answers in the order of the work, what to ask, and the cautions.

mod answer;
pub(crate) mod cautions;
mod closing;
mod head;
pub(crate) mod order;
pub(in crate::report) mod reasons;
pub(crate) mod words;

use super::look::{Look, Page};
use crate::law::places::Places;
use crate::values::Date;
use crate::verdict::Matter;
use crate::verdict::model::Verdict;

/// What a page takes from outside the verdict.
pub(crate) struct Frame<'a> {
    pub(crate) places: &'a Places,
    /// The day against which the age of rules is told.
    pub(crate) today: Date,
    /// Whether all reasons are told.
    pub(crate) why: bool,
    /// Where the job was read, where there are several.
    pub(crate) from: Option<&'a str>,
}

/// The page on one job.
pub(crate) fn verdict(verdict: &Verdict<'_>, matter: &Matter<'_>, frame: &Frame<'_>, look: Look) -> String {
    let mut page = Page::new(look);
    head::write(&mut page, verdict, matter, frame);
    answer::write_all(&mut page, verdict, matter, frame);
    closing::write(&mut page, verdict, matter, frame);
    let path = frame.places.path(matter.job.place);
    cautions::write(&mut page, &path, frame.places, frame.today);
    page.finish()
}
