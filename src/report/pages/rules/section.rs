//! One section through all editions of its code: its numbers, what each edition says,
//! who amends it, and how it stands at a place on a day.

use super::Missing;
use super::amends::{self, Amended};
use super::clause::{Said, said};
use super::desk::{Desk, Pointer};
use super::lookup;
use super::numbers::{self, Numbered};
use super::stands::{Stands, stands};
use crate::glossary::cut;
use crate::law::text::{Code, Edition, Lineage, Printed, is_under};
use crate::report::in_force::Key;
use crate::report::pages::frame::Frame;
use crate::syntax::diagnostic::Location;
use crate::syntax::nearest::nearest;
use crate::verdict::by_parts;
use serde::Serialize;
use std::collections::BTreeSet;

#[derive(Debug, Serialize)]
struct View {
    frame: Frame,
    trail: Vec<Pointer>,
    code: Pointer,
    number: String,
    title: String,
    /// Where the number stood for more than one section, each of them.
    lives: Vec<Life>,
    under: Vec<Pointer>,
    around: Option<Pointer>,
    left_out: Vec<Left>,
    stands: Stands,
}

/// One section over the editions.
#[derive(Debug, Serialize)]
struct Life {
    title: String,
    numbers: Vec<Numbered>,
    /// What the editions say, the newest first.
    texts: Vec<Text>,
    /// Editions without it, behind those with it.
    gone: Vec<Pointer>,
    amended: Vec<Amended>,
}

/// What editions in a row say alike.
#[derive(Debug, Serialize)]
struct Text {
    editions: Vec<Pointer>,
    number: String,
    said: Said,
}

/// A number that editions hold and the library passed over or did not read.
#[derive(Debug, Serialize)]
struct Left {
    edition: Pointer,
    number: String,
    /// Nothing where it was not read.
    why: Option<String>,
}

/// The page.
pub(super) fn page(desk: &Desk<'_>, code: &str, number: &str) -> Result<String, Missing> {
    let code = lookup::code(desk, code)?;
    let editions = editions(desk, code);
    let mut keys: Vec<Key> = Vec::new();
    for (_, edition) in editions.iter().rev() {
        let key = edition.section(number).map(|printed| Key::Lineage(printed.lineage));
        keys.extend(key.filter(|key| !keys.contains(key)));
    }
    let added = amends::added_numbers(desk, &code.name);
    if keys.is_empty() && added.contains(&number) {
        keys.push(Key::Number(number.into()));
    }
    let left_out = left_out(desk, code, &editions, &keys, number);
    if keys.is_empty() && left_out.is_empty() {
        return Err(missing(desk, code, &editions, &added, number));
    }
    let lives: Vec<Life> = keys.iter().map(|key| life(desk, code, &editions, key)).collect();
    let title = lives.first().map(|life| life.title.clone()).unwrap_or_default();
    let (under, around) = neighbours(desk, code, &editions, &added, number);
    let view = View {
        frame: desk.frame(None),
        trail: vec![desk.start(), desk.code(&code.name)],
        code: desk.code(&code.name),
        number: number.to_owned(),
        title,
        lives,
        under,
        around,
        left_out,
        stands: stands(desk, &code.name, number),
    };
    desk.lay("rules/section.html", view)
}

/// The editions of a code, the oldest first.
fn editions<'a>(desk: &Desk<'a>, code: &'a Code) -> Vec<(i32, &'a Edition)> {
    let codes = &desk.library().codes;
    let mut all: Vec<(i32, &Edition)> =
        code.editions.iter().filter_map(|(year, id)| Some((*year, codes.edition(*id)?))).collect();
    all.sort_by_key(|(year, _)| *year);
    all
}

fn life(desk: &Desk<'_>, code: &Code, editions: &[(i32, &Edition)], key: &Key) -> Life {
    let amended = amends::of_section(desk, &code.name, key);
    let Key::Lineage(lineage) = key else {
        return Life { title: String::new(), numbers: Vec::new(), texts: Vec::new(), gone: Vec::new(), amended };
    };
    let mut texts: Vec<(Text, Location)> = Vec::new();
    for (year, edition) in editions.iter().rev() {
        let Some(printed) = edition.by_lineage(*lineage) else { continue };
        let pointer = desk.edition(&code.name, *year);
        match texts.last_mut() {
            Some((last, at)) if *at == printed.section.at && *last.number == *printed.number => {
                last.editions.push(pointer);
            }
            _ => {
                let said = said(desk, &printed.section, Some((&code.name, *year)));
                let text = Text { editions: vec![pointer], number: printed.number.to_string(), said };
                texts.push((text, printed.section.at));
            }
        }
    }
    Life {
        title: newest(editions, *lineage).map(|printed| printed.section.title.to_string()).unwrap_or_default(),
        numbers: numbers::of(desk, code, *lineage),
        texts: texts.into_iter().map(|(text, _)| text).collect(),
        gone: gone(desk, code, editions, *lineage),
        amended,
    }
}

fn newest<'e>(editions: &[(i32, &'e Edition)], lineage: Lineage) -> Option<&'e Printed> {
    editions.iter().rev().find_map(|(_, edition)| edition.by_lineage(lineage))
}

/// The editions of its line behind the last one that has it, their text being here.
fn gone(desk: &Desk<'_>, code: &Code, editions: &[(i32, &Edition)], lineage: Lineage) -> Vec<Pointer> {
    let behind = editions.iter().rev().take_while(|(_, edition)| edition.by_lineage(lineage).is_none());
    let mut behind: Vec<Pointer> =
        behind.filter(|(_, edition)| !edition.text_not_here).map(|(year, _)| desk.edition(&code.name, *year)).collect();
    behind.reverse();
    behind
}

/// The sections right under a number, and the one around it.
fn neighbours(
    desk: &Desk<'_>,
    code: &Code,
    editions: &[(i32, &Edition)],
    added: &[&str],
    number: &str,
) -> (Vec<Pointer>, Option<Pointer>) {
    let printed = editions.iter().flat_map(|(_, edition)| &edition.sections);
    let known: BTreeSet<&str> = printed
        .filter(|printed| !printed.section.definition)
        .map(|printed| &*printed.number)
        .chain(added.iter().copied())
        .collect();
    let mut under: Vec<&str> = known.iter().copied().filter(|other| is_under(other, number)).collect();
    under.sort_by(|one, two| by_parts(one, two));
    let around = known.iter().copied().filter(|other| is_under(number, other)).max_by_key(|other| other.len());
    (
        under.into_iter().map(|number| desk.section(&code.name, number)).collect(),
        around.map(|number| desk.section(&code.name, number)),
    )
}

/// The editions that hold the number without its text being here.
fn left_out(desk: &Desk<'_>, code: &Code, editions: &[(i32, &Edition)], keys: &[Key], number: &str) -> Vec<Left> {
    let mut found = Vec::new();
    for (year, edition) in editions {
        // What has the section, whatever its number there, does not leave it out.
        let held = keys.iter().any(|key| match key {
            Key::Lineage(lineage) => edition.by_lineage(*lineage).is_some(),
            Key::Number(_) => false,
        });
        let of = |at: &str| at == number || !held && is_under(number, at);
        let pointer = || desk.edition(&code.name, *year);
        for (at, why, _) in edition.left_out.iter().filter(|(at, ..)| of(at)) {
            found.push(Left { edition: pointer(), number: at.to_string(), why: Some(why.to_string()) });
        }
        for (at, ..) in edition.unread.iter().filter(|(at, ..)| of(at)) {
            found.push(Left { edition: pointer(), number: at.to_string(), why: None });
        }
    }
    found
}

fn missing(desk: &Desk<'_>, code: &Code, editions: &[(i32, &Edition)], added: &[&str], number: &str) -> Missing {
    let known = editions.iter().flat_map(|(_, edition)| &edition.sections).map(|printed| &*printed.number);
    let near = nearest(number, known.chain(added.iter().copied()));
    let near: Vec<Pointer> = near.into_iter().map(|number| desk.section(&code.name, number)).collect();
    let message = desk.reader.say_with("browse-no-section", &[("code", &code.name), ("number", &cut(number))]);
    let help = lookup::help(desk, &near);
    desk.missing(message, help, if near.is_empty() { vec![desk.code(&code.name)] } else { near })
}
