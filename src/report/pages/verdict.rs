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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interview::link::from_pairs;
    use crate::rules::Rules;
    use crate::values::Date;
    use crate::verdict::Scratch;

    /// The page on the job of a link.
    fn shown(rules: &Rules, query: &str) -> String {
        let link = Link::from(query);
        let job = from_pairs(rules, link.facts(), None).so_far.unwrap().job;
        let matter = rules.matter(&job).unwrap();
        let found = rules.weighed(&matter, &mut Scratch::default());
        let today = Date::parse("2026-11-27").unwrap();
        let sheet = rules.sheet(&found, &matter, today, link.reader(), false);
        page(&sheet, &Mending::of(&found, &matter, link.reader()), "", &[], &link).unwrap()
    }

    #[test]
    fn what_is_open_of_a_jumper_that_nothing_requires_stands_apart() {
        let rules = Rules::shipped();
        let html = shown(
            &rules,
            "place=halloway&application-date=2026-03-02&occupancy=one-or-two-family&work=appliance-swap&building=main\
             &run=1&run%5B0%5D.material=steel&run%5B0%5D.role=distribution&appliance=1&appliance%5B0%5D.powered=yes\
             &jumper.present=no",
        );
        let (before, idle) = html.split_once("Only if a jumper is put in all the same:").unwrap();
        let size = "What size is the conductor of the jumper?";
        assert!(!before.contains(size) && idle.split("</ul>").next().unwrap().contains(size), "{html}");
        assert!(before.contains("Who will install the clamp"), "{html}");
    }

    #[test]
    fn a_question_at_the_end_of_a_sentence_is_its_end() {
        let rules = Rules::shipped();
        let html = shown(
            &rules,
            "place=stonecroft&application-date=2026-04-20&occupancy=one-or-two-family&work=new-system&building=main\
             &run=1&run%5B0%5D.material=csst&run%5B0%5D.role=distribution&appliance=1&appliance%5B0%5D.powered=yes",
        );
        assert!(html.contains("first of all: ") && html.contains("?</p>") && !html.contains("?.</p>"), "{html}");
    }
}
