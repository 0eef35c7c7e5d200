//! The search of the room: places, codes, sections, instruments and words, by what
//! people type.
//!
//! Every word of the text has to stand in the name, the title or the number; where
//! nothing fits, near names are offered and nothing is guessed.

use super::desk::{Desk, FIND, Pointer};
use super::trade::sayings;
use super::words::{Entry, entries};
use crate::law::places::IssuerKind;
use crate::law::text::Lineage;
use crate::report::effect::words::listed;
use crate::syntax::nearest::nearest;
use crate::verdict::by_parts;
use serde::Serialize;
use std::collections::BTreeSet;

/// So many of a kind are listed.
const MOST: usize = 40;
/// So many letters of the text are looked at.
const LETTERS: usize = 120;

/// What was found.
#[derive(Debug, Serialize)]
pub(super) struct Found {
    trade: Vec<Trade>,
    groups: Vec<Group>,
    /// Texts that would find something, where this one does not.
    near: Vec<Pointer>,
}

/// A saying of the trade in the text.
#[derive(Debug, Serialize)]
struct Trade {
    said: &'static str,
    hint: Option<String>,
}

#[derive(Debug, Serialize)]
struct Group {
    title: String,
    hits: Vec<Hit>,
    more: usize,
}

/// One thing found.
#[derive(Debug, Serialize)]
struct Hit {
    to: Pointer,
    about: String,
}

/// A text that is looked for, in small letters and by its words.
struct Wanted {
    text: String,
    words: Vec<String>,
}

impl Wanted {
    fn new(text: &str) -> Wanted {
        let text: String = text.chars().take(LETTERS).collect::<String>().to_lowercase();
        let words = text.split(|letter: char| letter.is_whitespace() || letter == '/' || letter == ',');
        Wanted { words: words.filter(|word| !word.is_empty()).map(str::to_owned).collect(), text }
    }

    /// Whether every word of it stands in one of these; how well, the best first.
    fn fits<'h>(&self, haystack: impl IntoIterator<Item = &'h str>) -> Option<u8> {
        let texts: Vec<String> = haystack.into_iter().map(str::to_lowercase).collect();
        if self.words.is_empty() || !self.words.iter().all(|word| texts.iter().any(|text| text.contains(&**word))) {
            return None;
        }
        let exact = texts.contains(&self.text);
        let begins = texts.iter().any(|text| text.starts_with(&self.text));
        Some(if exact { 0 } else { u8::from(!begins) + 1 })
    }
}

/// Looks for a text.
pub(super) fn find(desk: &Desk<'_>, text: &str) -> Found {
    let wanted = Wanted::new(text);
    let reader = desk.reader;
    let all = entries(desk.library());
    let said: Vec<_> = sayings(&wanted.text).collect();
    let meant: BTreeSet<&str> = said.iter().flat_map(|(_, (_, names, _))| names.iter().copied()).collect();
    let groups = [
        (reader.say("browse-words"), words(desk, &all, &wanted, &meant)),
        (reader.say("browse-places"), issuers(desk, &wanted)),
        (reader.say("browse-codes"), codes(desk, &wanted)),
        (reader.say("browse-sections"), sections(desk, &wanted)),
        (reader.say("browse-instruments"), instruments(desk, &wanted)),
    ];
    let groups: Vec<Group> = groups
        .into_iter()
        .filter(|(_, hits)| !hits.is_empty())
        .map(|(title, mut hits)| {
            let more = hits.len().saturating_sub(MOST);
            hits.truncate(MOST);
            Group { title, hits, more }
        })
        .collect();
    let near = if groups.is_empty() { near(desk, &all, &wanted) } else { Vec::new() };
    let known: BTreeSet<&str> = all.iter().map(|entry| entry.name).collect();
    let trade = said.into_iter().filter(|(_, (_, names, _))| names.iter().any(|name| known.contains(name)));
    let trade = trade.map(|(said, (_, _, hint))| Trade { said, hint: hint.map(|hint| hint.words(reader)) });
    Found { trade: trade.collect(), groups, near }
}

/// The best first, each in the order in which it was found.
fn ranked(mut hits: Vec<(u8, Hit)>) -> Vec<Hit> {
    hits.sort_by_key(|(rank, _)| *rank);
    hits.into_iter().map(|(_, hit)| hit).collect()
}

fn words(desk: &Desk<'_>, all: &[Entry<'_>], wanted: &Wanted, meant: &BTreeSet<&str>) -> Vec<Hit> {
    let page = desk.to(&["words"]);
    let fits = |entry: &Entry<'_>| {
        if meant.contains(entry.name) {
            return Some(0);
        }
        let spoken = entry.name.replace('-', " ");
        wanted.fits([entry.name, &spoken, entry.title])
    };
    let hits = all.iter().filter_map(|entry| {
        let words = if entry.title.is_empty() { entry.name.to_owned() } else { entry.title.to_owned() };
        let about = format!("{}: {}", entry.kind(desk.reader), entry.name);
        let to = Pointer { words, href: format!("{page}#{}", entry.anchor) };
        Some((fits(entry)?, Hit { to, about }))
    });
    ranked(hits.collect())
}

fn issuers(desk: &Desk<'_>, wanted: &Wanted) -> Vec<Hit> {
    let places = &desk.library().places;
    let hits = places.all().filter_map(|(id, issuer)| {
        let names = [&*issuer.name, &*issuer.title].into_iter().chain(issuer.also.iter().map(|also| &**also));
        let rank = wanted.fits(names)?;
        let outer: Vec<String> = places.path(id).iter().rev().skip(1).map(|id| desk.issuer(*id).words).collect();
        let about = match issuer.kind {
            IssuerKind::Place => outer.join(", "),
            IssuerKind::Maker => desk.reader.say("browse-maker"),
            IssuerKind::Supplier => desk.reader.say("browse-supplier"),
        };
        Some((rank, Hit { to: desk.issuer(id), about }))
    });
    ranked(hits.collect())
}

fn codes(desk: &Desk<'_>, wanted: &Wanted) -> Vec<Hit> {
    let mut hits = Vec::new();
    for code in &desk.library().codes.codes {
        if let Some(rank) = wanted.fits([&*code.name, &*code.title]) {
            hits.push((rank, Hit { to: desk.code(&code.name), about: code.title.to_string() }));
        }
        for (year, _) in &code.editions {
            let name = format!("{} {year}", code.name);
            if wanted.words.len() > 1 && wanted.fits([&*name, &*code.title]).is_some() {
                hits.push((1, Hit { to: desk.edition(&code.name, *year), about: code.title.to_string() }));
            }
        }
    }
    ranked(hits)
}

/// Sections by number, with or without their code and year, and by title; each once,
/// under its newest number that fits.
fn sections(desk: &Desk<'_>, wanted: &Wanted) -> Vec<Hit> {
    let codes = &desk.library().codes;
    let mut hits: Vec<(u8, &str, &str, Hit)> = Vec::new();
    for code in &codes.codes {
        let mut told: BTreeSet<Lineage> = BTreeSet::new();
        let mut years: Vec<_> = code.editions.iter().collect();
        years.sort_by_key(|(year, _)| std::cmp::Reverse(*year));
        for (year, id) in years {
            for printed in codes.edition(*id).map(|edition| edition.sections.as_slice()).unwrap_or_default() {
                if printed.section.definition || told.contains(&printed.lineage) {
                    continue;
                }
                let Some(rank) = fits_section(wanted, &code.name, *year, &printed.number, &printed.section.title)
                else {
                    continue;
                };
                told.insert(printed.lineage);
                let section = desk.section(&code.name, &printed.number);
                let to = Pointer { words: format!("{} {}", code.name, section.words), ..section };
                hits.push((rank, &code.name, &printed.number, Hit { to, about: printed.section.title.to_string() }));
            }
        }
    }
    hits.sort_by(|one, two| (one.0, one.1).cmp(&(two.0, two.1)).then_with(|| by_parts(one.2, two.2)));
    hits.into_iter().map(|(.., hit)| hit).collect()
}

fn fits_section(wanted: &Wanted, code: &str, year: i32, number: &str, title: &str) -> Option<u8> {
    let (code, number) = (code.to_lowercase(), number.to_lowercase());
    let year = year.to_string();
    let mut rank = 3;
    for word in &wanted.words {
        let word = word.strip_prefix('§').unwrap_or(word);
        if *word == number {
            rank = 0;
        } else if number.starts_with(word)
            && word.starts_with(|letter: char| !letter.is_alphabetic() || number.len() > 3)
        {
            rank = rank.min(1);
        } else if *word != code && *word != year && word != "section" && word != "sección" {
            if !title.to_lowercase().contains(word) {
                return None;
            }
            rank = rank.min(2);
        }
    }
    // A code or a year alone names no section.
    (rank < 3).then_some(rank)
}

fn instruments(desk: &Desk<'_>, wanted: &Wanted) -> Vec<Hit> {
    let hits = desk.library().instruments.iter().filter_map(|own| {
        let issuer = desk.issuer(own.issuer).words;
        let rank = wanted.fits([&*own.id, &*own.title]).or_else(|| {
            let with_issuer = wanted.words.len() > 1;
            with_issuer.then(|| wanted.fits([&*own.id, &*own.title, &*issuer])).flatten().map(|rank| rank + 1)
        })?;
        let about = listed(&[own.title.to_string(), issuer], "–").replace(" – ", ", ");
        Some((rank, Hit { to: desk.instrument(own), about }))
    });
    ranked(hits.collect())
}

/// Names that are near to the text, each as a search.
fn near(desk: &Desk<'_>, all: &[Entry<'_>], wanted: &Wanted) -> Vec<Pointer> {
    let library = desk.library();
    let mut names: BTreeSet<String> = BTreeSet::new();
    for (_, issuer) in library.places.all() {
        names.insert(issuer.name.to_lowercase());
        names.extend(std::iter::once(&issuer.title).chain(&issuer.also).map(|name| name.to_lowercase()));
    }
    names.extend(library.codes.codes.iter().map(|code| code.name.to_lowercase()));
    names.extend(library.instruments.iter().map(|own| own.id.to_lowercase()));
    let printed = library.codes.editions.iter().flat_map(|edition| &edition.sections);
    names.extend(printed.filter(|printed| !printed.section.definition).map(|printed| printed.number.to_lowercase()));
    names.extend(all.iter().map(|entry| entry.name.replace('-', " ")));
    names
        .extend(super::trade::SAYINGS.iter().flat_map(|(spellings, ..)| spellings.iter().map(|one| (*one).to_owned())));
    let mut near = nearest(&wanted.text, names.iter().map(|name| &**name));
    if near.is_empty() {
        // Of a text of several words each is looked at by itself.
        near = wanted.words.iter().flat_map(|word| nearest(word, names.iter().map(|name| &**name))).collect();
        near.truncate(5);
    }
    near.into_iter().map(|name| Pointer { words: name.to_owned(), href: desk.to_with(&[], FIND, name) }).collect()
}
