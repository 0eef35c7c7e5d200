//! A section as it stands at a place on a day: each clause with its author, what it
//! said before, and what is set aside.

use super::asked::{self, Form, no_inquest};
use super::desk::{Desk, Pointer};
use crate::report::in_force::{Line, NoSection, inquire, section};
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
    author: String,
    in_force: String,
    adopted_by: Option<String>,
    fate: String,
    summary: String,
    provenance: String,
    says: Vec<String>,
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
        how: change.how.join("; "),
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
        remarks: found.remarks.clone(),
    };
    Stands { form, none: None, here: Some(here) }
}

/// Lines of one author in one section stand together.
fn blocks<'l>(desk: &Desk<'_>, code: &str, lines: impl IntoIterator<Item = &'l Line>) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for line in lines {
        let mut says = line.demand.clone();
        if !line.conditions.is_empty() {
            let parts = [("what", &*says), ("where", &*line.conditions.join("; "))];
            says = desk.reader.say_with("browse-says-where", &parts);
        }
        if !line.reaches.is_empty() {
            says = desk.reader.say_with("browse-says-for-jobs", &[("what", &says), ("where", &line.reaches)]);
        }
        let edition = format!("{code} {}", line.edition);
        let same = |last: &&mut Block| {
            (&last.section.words, &last.edition, &last.author, &last.fate)
                == (&line.section, &edition, &line.author, &line.fate)
        };
        if let Some(last) = blocks.last_mut().filter(same) {
            last.says.push(says);
            continue;
        }
        blocks.push(Block {
            section: desk.section(code, &line.section),
            edition,
            title: line.title.clone(),
            author: line.author.clone(),
            in_force: line.in_force.clone(),
            adopted_by: line.adopted_by.clone(),
            fate: line.fate.clone(),
            summary: line.summary.clone(),
            provenance: line.provenance.clone(),
            says: vec![says],
        });
    }
    blocks
}
