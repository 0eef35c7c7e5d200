//! The picture of a job, and the detail drawing of its bond, as SVG: drawn from the
//! facts that the job states and the findings on them.
//!
//! What is there (`scene`), where it stands (`layout`) and how it looks (`draw`) know
//! nothing of each other but in this order. What is not known is drawn as not known,
//! and nothing is drawn of what is not there.

mod apart;
mod board;
mod bond;
mod branches;
mod describe;
mod detail;
mod draw;
mod glyphs;
mod layout;
mod legend;
mod marks;
mod metric;
mod power;
mod rows;
mod scene;
mod spots;
mod stretches;
mod supply;
#[cfg(test)]
mod tests;
mod wiring;

use crate::report::sheet::closing::standing;
use crate::report::sheet::head;
use crate::report::speech::Reader;
use crate::rules::Rules;
use crate::values::Date;
use crate::verdict::Matter;
use crate::verdict::model::Verdict;
use layout::Laid;
pub(crate) use legend::Listed;
use scene::Scene;

/// Which of the two drawings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// The whole job.
    Picture,
    /// The bond alone, larger, with the texts that ask for it.
    Detail,
}

/// The picture of a job, for a page that carries place, dates and cautions itself.
pub(crate) fn svg(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> String {
    drawn(Kind::Picture, verdict, matter, reader, None)
}

/// The detail drawing of the bond, for a page that carries place, dates and cautions
/// itself; and the list of its parts, for that page to tell.
pub(crate) fn detail(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> (String, Vec<Listed>) {
    let scene = Scene::new(verdict, matter, reader).only(detail::PARTS);
    (drawn(Kind::Detail, verdict, matter, reader, None), legend::listed(&scene))
}

/// Either drawing as a sheet of its own, with place, dates and codes above it, the cautions
/// and the rules on which it stands below.
pub(crate) fn sheet(
    kind: Kind,
    verdict: &Verdict<'_>,
    matter: &Matter<'_>,
    reader: Reader,
    rules: &Rules,
    today: Date,
) -> String {
    drawn(kind, verdict, matter, reader, Some((rules, today)))
}

fn drawn(
    kind: Kind,
    verdict: &Verdict<'_>,
    matter: &Matter<'_>,
    reader: Reader,
    alone: Option<(&Rules, Date)>,
) -> String {
    let scene = Scene::new(verdict, matter, reader);
    let (head, foot) =
        alone.map_or_else(Default::default, |(rules, today)| frame(verdict, matter, reader, rules, today));
    let (laid, title, described) = laid(kind, scene, verdict, matter, (&head, &foot), alone.is_some());
    let mut description = String::new();
    for line in &head {
        description.push_str(&format!("{line}. "));
    }
    description.push_str(&described);
    for line in &foot {
        description.push(' ');
        description.push_str(line);
    }
    let about = draw::About { reader, title: &title, description: &description, alone: alone.is_some() };
    draw::svg(&laid, &about)
}

/// What stands above and below a drawing that is passed on by itself.
fn frame(
    verdict: &Verdict<'_>,
    matter: &Matter<'_>,
    reader: Reader,
    rules: &Rules,
    today: Date,
) -> (Vec<String>, Vec<String>) {
    let places = &rules.library().places;
    let path = places.path(matter.job.place);
    let titles: Vec<&str> = path.iter().rev().filter_map(|id| places.issuer(*id)).map(|place| &*place.title).collect();
    let head = vec![titles.join(", "), head::dates(matter, reader), head::codes(&verdict.codes, reader)];
    let mut foot = standing(&path, places, today, reader);
    let engine = reader.say_with("papers-imprint", &[("engine", env!("CARGO_PKG_VERSION"))]);
    let (library, rests_on) = (rules.hash(), rules.hash_of_files(verdict.files.iter().copied()));
    foot.push(format!("{engine} {library}. {} {rests_on}.", reader.say("papers-rests-on")));
    (head, foot)
}

/// What stands where, with the title and the sentences that say the same.
fn laid(
    kind: Kind,
    scene: Scene,
    verdict: &Verdict<'_>,
    matter: &Matter<'_>,
    (head, foot): (&[String], &[String]),
    alone: bool,
) -> (Laid, String, String) {
    match kind {
        Kind::Picture => {
            let described = describe::describe(&scene);
            (layout::picture(&scene, head, foot), scene.title, described)
        }
        Kind::Detail => {
            let scene = scene.only(detail::PARTS);
            let spots = spots::spots(verdict, matter, scene.reader);
            let title = detail::title(&scene, verdict.reference);
            let described = detail::describe(&scene, &spots);
            (detail::detail(&scene, &spots, &title, (head, foot), alone), title, described)
        }
    }
}
