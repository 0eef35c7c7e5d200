//! The verdict page: the outcome, the work in order with its reasons, what to ask
//! and whom, the papers.

use super::frame::{Frame, Room, Way};
use super::link::Link;
use super::problems::Told;
use crate::report::cures::Mending;
use crate::report::papers::Paper;
use crate::report::sheet::Sheet;
use crate::report::speech::template::render;
use minijinja::Error;
use serde::Serialize;

/// What stands on the page.
#[derive(Serialize)]
struct View<'v> {
    frame: Frame,
    sheet: &'v Sheet,
    mending: &'v Mending,
    wrong: &'v [Told],
    /// Back to the questions.
    job: String,
    /// The picture of the job, as SVG.
    picture: &'v str,
    /// Where the picture stands by itself.
    drawing: String,
    papers: Vec<Way>,
    /// The job as a job sheet, and as JSON.
    files: Vec<Way>,
}

/// The page on a verdict with what would mend it and its picture; `wrong` is what could not be
/// read of the job.
///
/// # Errors
/// Where the template does not fit, which a test would show.
pub(crate) fn page(
    sheet: &Sheet,
    mending: &Mending,
    picture: &str,
    wrong: &[Told],
    link: &Link,
) -> Result<String, Error> {
    let reader = link.reader();
    let file = |title: String, path: &str| Way { title, href: link.to(path), here: false, lang: None };
    let view = View {
        frame: Frame::new(Room::Verdict.path(), Room::Verdict, link, &sheet.library, Some(sheet.standing.clone())),
        sheet,
        mending,
        wrong,
        job: link.to(Room::Job.path()),
        picture,
        drawing: link.to("/picture.svg"),
        papers: Paper::ALL
            .into_iter()
            .map(|paper| file(paper.title(reader), &format!("/paper/{}", paper.name())))
            .collect(),
        files: vec![
            file(reader.say("pages-file-sheet"), "/job.job"),
            file(reader.say("pages-file-json"), "/job.json"),
            file(reader.say("pages-file-verdict"), "/verdict.json"),
        ],
    };
    render("verdict.html", view, reader)
}
