//! A section as it stands at a place on a day: each clause with its author, what it
//! said before, and what is set aside.

use super::asked::{self, Form, no_inquest};
use super::desk::{Desk, Pointer};
use super::times;
use crate::law::instrument::Instrument;
use crate::law::model::Fate;
use crate::report::in_force::{How, Line, NoSection, Remark, inquire, section};
use crate::report::sheet::reasons::became;
use serde::Serialize;

/// The answer to the form of the page.
#[derive(Debug, Serialize)]
pub(super) struct Stands {
    form: Form,
    /// Why there is nothing to show, where a place and a day were asked of.
    none: Option<String>,
    here: Option<Here>,
}

/// What stands at a place on a day.
#[derive(Debug, Serialize)]
struct Here {
    place: Pointer,
    on: String,
    /// Where it has another number there on that day.
    other_numbers: Vec<Pointer>,
    stands: Vec<Block>,
    before: Vec<Before>,
    aside: Vec<Block>,
    remarks: Vec<String>,
}

/// The clauses of one author in one section.
#[derive(Debug, Serialize)]
struct Block {
    section: Pointer,
    edition: String,
    title: String,
    /// The instrument by which it is law, and whose that is.
    by: Pointer,
    issuer: String,
    span: String,
    adopted_by: Option<String>,
    fate: Option<String>,
    summary: String,
    provenance: String,
    says: Vec<Says>,
}

/// One demand, its question under its printed name.
#[derive(Debug, Serialize)]
struct Says {
    question: Option<Pointer>,
    what: String,
    /// What holds together, each as the law puts it.
    wheres: Vec<String>,
    /// Under which other facts of a job the text is law at all.
    reaches: String,
}

/// What a section said before, and who changed it.
#[derive(Debug, Serialize)]
struct Before {
    section: String,
    on: String,
    how: String,
    /// Whether it is gone and nothing stands in its place.
    gone: bool,
    said: Vec<Block>,
}

/// The section at the place and on the day that the form asks of.
pub(super) fn stands(desk: &Desk<'_>, code: &str, number: &str) -> Stands {
    let (form, place, day) = asked::place_and_day(desk);
    let (Some(place), Some(day)) = (place, day) else { return Stands { form, none: None, here: None } };
    let found = inquire(desk.rules, place, day, |inquest| {
        section(inquest, code, number).map_err(|told| match told {
            NoSection::NoCode(codes) => {
                let parts = [("code", code), ("codes", &*codes.join(", "))];
                if codes.is_empty() {
                    desk.reader.say_with("browse-no-code-there", &parts)
                } else {
                    desk.reader.say_with("browse-other-codes-there", &parts)
                }
            }
            NoSection::NoNumber(_) => {
                desk.reader.say_with("browse-no-section-there", &[("code", code), ("number", number)])
            }
        })
    });
    let found = match found {
        Ok(Ok(found)) => found,
        Ok(Err(none)) => return Stands { form, none: Some(none), here: None },
        Err(told) => return Stands { form, none: Some(no_inquest(desk, &told)), here: None },
    };
    let told = |line: &Line| {
        let same = |before: &Line| (&before.section, &before.demand) == (&line.section, &line.demand);
        found.changes.iter().any(|change| change.before.iter().any(same))
    };
    let aside: Vec<&Line> = found.before.iter().filter(|line| !told(line)).collect();
    let changes = found.changes.iter().map(|change| Before {
        section: change.section.clone(),
        on: change.on.clone(),
        how: change.how.iter().map(|how| done(desk, how)).collect::<Vec<_>>().join("; "),
        gone: !found.standing.contains(&change.key),
        said: blocks(desk, code, &change.before),
    });
    let here = Here {
        place: desk.issuer(place),
        on: found.on.clone(),
        other_numbers: found.stands_as.iter().map(|number| desk.section(code, number)).collect(),
        stands: blocks(desk, code, &found.stands),
        before: changes.collect(),
        aside: blocks(desk, code, aside),
        remarks: found.remarks.iter().map(|remark| remarked(desk, remark)).collect(),
    };
    Stands { form, none: None, here: Some(here) }
}

/// Lines of one author in one section stand together.
fn blocks<'l>(desk: &Desk<'_>, code: &str, lines: impl IntoIterator<Item = &'l Line>) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for line in lines {
        let says = says(desk, line);
        let edition = format!("{code} {}", line.edition);
        let fate = line.bare.fate.as_ref().map(|(fate, by)| set_aside(desk, *fate, by.as_deref()));
        let same = |last: &&mut Block| {
            (&last.section.words, &last.edition, &last.by.words, &last.issuer, &last.fate)
                == (&line.section, &edition, &line.bare.instrument, &line.bare.issuer, &fate)
        };
        if let Some(last) = blocks.last_mut().filter(same) {
            last.says.push(says);
            continue;
        }
        let own = instrument(desk, &line.bare.instrument, &line.bare.issuer);
        let bare = Pointer { words: line.bare.instrument.clone(), href: desk.to(&[]) };
        blocks.push(Block {
            section: desk.section(code, &line.section),
            edition,
            title: line.title.clone(),
            by: own.map_or(bare, |own| desk.instrument(own)),
            issuer: line.bare.issuer.clone(),
            span: own.map_or_else(|| line.in_force.clone(), |own| times::span(desk, own)),
            adopted_by: line.adopted_by.as_ref().map(|by| desk.reader.say_with("browse-edition-by", &[("by", by)])),
            fate,
            summary: line.summary.clone(),
            provenance: desk.reader.provenance(&line.bare.provenance),
            says: vec![says],
        });
    }
    blocks
}

/// What a line demands. Its words begin with the name of the question.
fn says(desk: &Desk<'_>, line: &Line) -> Says {
    let places = &desk.library().places;
    let asked = line.demand.split_once(' ').and_then(|(name, what)| {
        let question = desk.library().glossary.question(name, None, places)?;
        Some((desk.question(question), what.strip_prefix("is ").unwrap_or(what).to_owned()))
    });
    let (question, what) = match asked {
        Some((question, what)) => (Some(question), what),
        None => (None, line.demand.clone()),
    };
    Says { question, what, wheres: line.conditions.clone(), reaches: line.reaches.clone() }
}

/// The instrument that a line names, by its id and whose it is.
fn instrument<'a>(desk: &Desk<'a>, id: &str, issuer: &str) -> Option<&'a Instrument> {
    let library = desk.library();
    let of = |own: &Instrument| library.places.issuer(own.issuer).is_some_and(|known| *known.title == *issuer);
    library.instruments.iter().find(|own| *own.id == *id && of(own))
}

fn set_aside(desk: &Desk<'_>, fate: Fate, by: Option<&str>) -> String {
    let word = became(fate, desk.reader);
    match by {
        Some(by) => desk.reader.say_with("browse-standing-by", &[("word", &word), ("by", by)]),
        None => word,
    }
}

/// What was done to a section, in the reader's words.
fn done(desk: &Desk<'_>, how: &How) -> String {
    let reader = desk.reader;
    let (said, beside) = match how {
        How::SetAside(fate, by) => (set_aside(desk, *fate, by.as_deref()), false),
        How::Excepted { by } => (reader.say_with("browse-how-excepted", &[("by", by)]), false),
        How::ExceptionEnded { by } => (reader.say_with("browse-how-exception-ended", &[("by", by)]), false),
        How::TookPlace { new, by, old } => {
            (reader.say_with("browse-how-took-place", &[("new", new), ("by", by), ("old", old)]), false)
        }
        How::NoSuchSection { new, by } => (reader.say_with("browse-how-no-such", &[("new", new), ("by", by)]), false),
        How::Ended { by } => (reader.say_with("browse-how-ended", &[("by", by)]), false),
        How::Added { by, beside } => (reader.say_with("browse-how-added", &[("by", by)]), *beside),
        How::Came { new, by, beside } => (reader.say_with("browse-how-came", &[("new", new), ("by", by)]), *beside),
    };
    if beside { reader.say_with("browse-how-beside", &[("how", &said)]) } else { said }
}

fn remarked(desk: &Desk<'_>, remark: &Remark) -> String {
    let reader = desk.reader;
    match remark {
        Remark::LeftOut { edition, number, why } => {
            reader.say_with("browse-remark-left-out", &[("edition", edition), ("number", number), ("why", why)])
        }
        Remark::NotInForce { section, editions } => {
            let named = editions
                .iter()
                .map(|(edition, by)| reader.say_with("browse-remark-edition", &[("edition", edition), ("by", by)]));
            let editions = named.collect::<Vec<_>>().join("; ");
            reader.say_with("browse-remark-not-in-force", &[("section", section), ("editions", &editions)])
        }
    }
}
