//! The lawful ways side by side, before anything is chosen: for a bid.

use super::frame::{Frame, Room};
use super::link::Link;
use super::problems::Told;
use crate::report::cures::WaysTold;
use crate::report::sheet::Sheet;
use crate::report::speech::template::render;
use minijinja::Error;
use serde::Serialize;

#[derive(Serialize)]
struct View<'v> {
    frame: Frame,
    sheet: &'v Sheet,
    ways: &'v WaysTold,
    wrong: &'v [Told],
    job: String,
}

/// The page on the ways that a job leaves open.
///
/// # Errors
/// Where the template does not fit, which a test would show.
pub(crate) fn page(ways: &WaysTold, sheet: &Sheet, wrong: &[Told], link: &Link) -> Result<String, Error> {
    let frame = Frame::new(Room::Ways.path(), Room::Ways, link, &sheet.library, Some(sheet.standing.clone()));
    let view = View { frame, sheet, ways, wrong, job: link.to(Room::Job.path()) };
    render("ways.html", view, link.reader())
}
