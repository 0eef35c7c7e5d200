//! What stands where no page is.

use super::frame::{Frame, Room};
use super::link::Link;
use super::rules::Missing;
use crate::report::speech::template::render;
use minijinja::Error;
use serde::Serialize;

#[derive(Serialize)]
struct View<'v> {
    frame: Frame,
    place: &'v str,
    message: &'v str,
    help: &'v str,
    near: Vec<(&'v str, &'v str)>,
}

/// The page where an address of the rules leads nowhere.
///
/// # Errors
/// Where the template does not fit, which a test would show.
pub(crate) fn page(told: &Missing, link: &Link, library: &str) -> Result<String, Error> {
    let view = View {
        frame: Frame::new(Room::Rules.path(), Room::Rules, link, library, None),
        place: &told.place,
        message: &told.message,
        help: &told.help,
        near: told.near.iter().map(|near| (&*near.words, &*near.href)).collect(),
    };
    render("missing.html", view, link.reader())
}
