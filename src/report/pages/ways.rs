//! The lawful ways side by side, before anything is chosen: for a bid.

use super::frame::{Frame, Room};
use super::link::Link;
use super::problems::Told;
use crate::report::cures::{Required, WayTold, WaysTold};
use crate::report::sheet::Sheet;
use crate::report::speech::template::render;
use minijinja::Error;
use serde::Serialize;

#[derive(Serialize)]
struct View<'v> {
    frame: Frame,
    sheet: &'v Sheet,
    too_many: bool,
    ways: Vec<WayView<'v>>,
    wrong: &'v [Told],
    job: String,
}

/// One way as the page shows it.
#[derive(Serialize)]
struct WayView<'v> {
    heading: &'v str,
    lawful: bool,
    prohibited: &'v [Required],
    requires: &'v [Required],
    not_settled: &'v [Required],
    refers: &'v [String],
    to_know: &'v [String],
    to_choose: &'v [String],
}

fn view(way: &WayTold) -> WayView<'_> {
    WayView {
        heading: &way.heading,
        lawful: way.lawful,
        prohibited: &way.prohibited,
        requires: &way.requires,
        not_settled: &way.not_settled,
        refers: &way.refers,
        to_know: &way.to_know_words,
        to_choose: &way.to_choose_words,
    }
}

/// The page on the ways that a job leaves open.
///
/// # Errors
/// Where the template does not fit, which a test would show.
pub(crate) fn page(ways: &WaysTold, sheet: &Sheet, wrong: &[Told], link: &Link) -> Result<String, Error> {
    let frame = Frame::new(Room::Ways.path(), Room::Ways, link, &sheet.library, Some(sheet.standing.clone()));
    let (too_many, ways) = (ways.too_many, ways.ways.iter().map(view).collect());
    let view = View { frame, sheet, too_many, ways, wrong, job: link.to(Room::Job.path()) };
    render("ways.html", view, link.reader())
}
