//! The compare page: one job at several places and on several days.

use super::frame::{Frame, Room, Way};
use super::link::{DAYS, Link, PLACES};
use super::problems::Told;
use crate::report::compare::{Comparison, Sheet, sheet};
use crate::report::speech::template::render;
use minijinja::Error;
use serde::Serialize;

/// How a comparison looks beyond what all pages have.
pub(crate) const STYLE: &str = include_str!("../compare/compare.css");

/// A place to tick.
#[derive(Debug, Serialize)]
pub(crate) struct Tick {
    pub(crate) path: String,
    pub(crate) title: String,
    pub(crate) ticked: bool,
}

#[derive(Serialize)]
struct View<'v> {
    frame: Frame,
    /// What of the link goes on with the form.
    hidden: Vec<(&'v str, &'v str)>,
    places: &'v [Tick],
    days: String,
    wrong: &'v [Told],
    compared: Option<Sheet<'v>>,
    files: Vec<Way>,
    job: String,
}

/// The page; without a comparison the form alone. `wrong` is what could not be read.
///
/// # Errors
/// Where the template does not fit, which a test would show.
pub(crate) fn page(
    comparison: Option<&Comparison>,
    places: &[Tick],
    wrong: &[Told],
    link: &Link,
    library: &str,
) -> Result<String, Error> {
    let reader = link.reader();
    let cautions = comparison.map(|comparison| comparison.cautions.clone());
    let file = |title: String, path: &str| Way { title, href: link.to(path), here: false, lang: None };
    let own = |name: &str| name == PLACES || name == DAYS;
    let view = View {
        frame: Frame::new(Room::Compare.path(), Room::Compare, link, library, cautions),
        hidden: link.0.iter().filter(|(name, _)| !own(name)).map(|(name, value)| (&**name, &**value)).collect(),
        places,
        days: link.all(DAYS).collect::<Vec<_>>().join(", "),
        wrong,
        compared: comparison.map(|comparison| sheet(comparison, reader)),
        files: comparison.map_or_else(Vec::new, |_| {
            vec![
                file(reader.say("pages-file-print"), "/compare.html"),
                file(reader.say("pages-file-csv"), "/compare.csv"),
            ]
        }),
        job: link.to(Room::Job.path()),
    };
    render("compare-page.html", view, reader)
}
