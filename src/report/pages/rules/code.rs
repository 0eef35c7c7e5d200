//! One code: its editions in order, whose text is taken from which, and the numbers
//! that changed.

use super::Missing;
use super::desk::{Desk, Pointer};
use super::lookup;
use super::numbers::{self, Numbered};
use crate::law::text::{Code, EditionId, Lineage};
use crate::report::pages::frame::Frame;
use crate::review::coverage::{Account, coverage};
use crate::syntax::tree::{EditionName, Item, TextClause, Word};
use crate::verdict::by_parts;
use serde::Serialize;

#[derive(Debug, Serialize)]
struct View {
    frame: Frame,
    trail: Vec<Pointer>,
    name: String,
    title: String,
    subjects: Vec<String>,
    editions: Vec<Edition>,
    taken: Vec<Taken>,
    given: Vec<Taken>,
    renumbered: Vec<Renumbered>,
}

#[derive(Debug, Serialize)]
struct Edition {
    name: Pointer,
    published: Option<String>,
    revises: Option<Pointer>,
    text_not_here: bool,
    sections: usize,
    read: usize,
    memory: usize,
    practice: usize,
    no_source: usize,
    left_out: usize,
    unread: usize,
    adopted_by: Vec<Pointer>,
}

/// Sections of one edition that are those of another.
#[derive(Debug, Serialize)]
struct Taken {
    here: Pointer,
    from: Pointer,
    pairs: Vec<(Pointer, Pointer)>,
}

/// A section that had several numbers.
#[derive(Debug, Serialize)]
struct Renumbered {
    title: String,
    numbers: Vec<Numbered>,
}

/// The page.
pub(super) fn page(desk: &Desk<'_>, name: &str) -> Result<String, Missing> {
    let code = lookup::code(desk, name)?;
    let glossary = &desk.library().glossary;
    let accounts = coverage(desk.library(), |of, _| *of == *code.name);
    let all = extracts(desk);
    let view = View {
        frame: desk.frame(None),
        trail: vec![desk.start()],
        name: code.name.to_string(),
        title: code.title.to_string(),
        subjects: code.subjects.iter().map(|subject| glossary[*subject].title.to_string()).collect(),
        editions: accounts.iter().map(|account| edition(desk, code, account)).collect(),
        taken: grouped(desk, all.iter().filter(|one| *one.here.code.text == *code.name)),
        given: grouped(
            desk,
            all.iter().filter(|one| *one.from.code.text == *code.name && *one.here.code.text != *code.name),
        ),
        renumbered: renumbered(desk, code),
    };
    desk.lay("rules/code.html", view)
}

fn edition(desk: &Desk<'_>, code: &Code, account: &Account<'_>) -> Edition {
    let id = desk.library().codes.find(&code.name, account.edition.year);
    Edition {
        name: desk.edition(&code.name, account.edition.year),
        published: account.edition.published.map(|day| day.to_string()),
        revises: account.revises.map(|year| desk.edition(&code.name, year)),
        text_not_here: account.edition.text_not_here,
        sections: account.tally.sections,
        read: account.tally.read,
        memory: account.tally.memory,
        practice: account.tally.practice,
        no_source: account.tally.no_source,
        left_out: account.tally.left_out,
        unread: account.tally.unread,
        adopted_by: id.map(|id| adopted_by(desk, id)).unwrap_or_default(),
    }
}

/// The instruments that adopt an edition, the oldest first, each with its issuer.
pub(super) fn adopted_by(desk: &Desk<'_>, id: EditionId) -> Vec<Pointer> {
    let mut all: Vec<_> = desk
        .library()
        .instruments
        .iter()
        .filter(|own| own.adoptions.iter().any(|adoption| adoption.edition == id))
        .collect();
    all.sort_by(|one, two| (one.rank(), &one.id).cmp(&(two.rank(), &two.id)));
    let named = all.into_iter().map(|own| {
        let issuer = desk.issuer(own.issuer).words;
        let pointer = desk.instrument(own);
        let words = desk.reader.say_with("browse-of", &[("what", &pointer.words), ("whose", &issuer)]);
        Pointer { words, ..pointer }
    });
    named.collect()
}

/// A section that is written as that of another edition.
struct Extract<'t> {
    here: &'t EditionName,
    number: &'t Word,
    from: &'t EditionName,
    of: &'t Word,
}

/// Every section that is taken over from the edition of another code, or of another line.
fn extracts<'a>(desk: &Desk<'a>) -> Vec<Extract<'a>> {
    let mut found = Vec::new();
    for (_, tree) in desk.rules.trees() {
        for item in &tree.items {
            let Item::Edition(edition) = item else { continue };
            for clause in &edition.clauses {
                let (number, extract) = match clause {
                    TextClause::Section(section) => (&section.number, &section.extract),
                    TextClause::Patch(patch) => (&patch.number, &patch.extract),
                    _ => continue,
                };
                if let Some((from, of)) = extract {
                    found.push(Extract { here: &edition.name, number, from, of });
                }
            }
        }
    }
    let year = |name: &EditionName| name.year.text.parse::<i32>().unwrap_or_default();
    found.sort_by(|one, two| {
        (&one.here.code.text, year(one.here), &one.from.code.text, year(one.from))
            .cmp(&(&two.here.code.text, year(two.here), &two.from.code.text, year(two.from)))
            .then_with(|| by_parts(&one.number.text, &two.number.text))
    });
    found
}

/// Those of the same two editions together.
fn grouped<'e, 't: 'e>(desk: &Desk<'_>, all: impl Iterator<Item = &'e Extract<'t>>) -> Vec<Taken> {
    let edition = |name: &EditionName| {
        let pointer = desk.code(&name.code.text);
        match name.year.text.parse() {
            Ok(year) => desk.edition(&name.code.text, year),
            Err(_) => pointer,
        }
    };
    let mut groups: Vec<Taken> = Vec::new();
    for one in all {
        let (here, from) = (edition(one.here), edition(one.from));
        let pair =
            (desk.section(&one.here.code.text, &one.number.text), desk.section(&one.from.code.text, &one.of.text));
        match groups.last_mut() {
            Some(last) if last.here == here && last.from == from => last.pairs.push(pair),
            _ => groups.push(Taken { here, from, pairs: vec![pair] }),
        }
    }
    groups
}

/// The sections of a code that had more than one number.
fn renumbered(desk: &Desk<'_>, code: &Code) -> Vec<Renumbered> {
    let codes = &desk.library().codes;
    let mut lineages: Vec<(Lineage, String)> = Vec::new();
    for (_, id) in code.editions.iter().rev() {
        for printed in codes.edition(*id).map(|edition| edition.sections.as_slice()).unwrap_or_default() {
            if !printed.section.definition && !lineages.iter().any(|(known, _)| *known == printed.lineage) {
                lineages.push((printed.lineage, printed.section.title.to_string()));
            }
        }
    }
    let mut found: Vec<Renumbered> = lineages
        .into_iter()
        .map(|(lineage, title)| Renumbered { title, numbers: numbers::of(desk, code, lineage) })
        .filter(|one| one.numbers.len() > 1)
        .collect();
    let first = |one: &Renumbered| one.numbers.first().map(|one| one.number.words.clone()).unwrap_or_default();
    found.sort_by(|one, two| by_parts(&first(one), &first(two)));
    found
}
