//! What the library holds of each code, edition by edition: which sections, on
//! what each rests, which were passed over on purpose and which were not read.
//!
//! An edition is seen as it stands, what it takes over from the one that it
//! revises included.

use crate::glossary::Glossary;
use crate::law::library::Library;
use crate::law::model::Provenance;
use crate::law::text::{Code, Edition, Section};
use crate::syntax::diagnostic::Location;
use std::collections::BTreeSet;
use std::ops::AddAssign;

/// What the library holds of one edition.
#[derive(Debug)]
pub(crate) struct Account<'a> {
    pub(crate) code: &'a Code,
    pub(crate) edition: &'a Edition,
    /// The year of the edition that it revises.
    pub(crate) revises: Option<i32>,
    /// Sections and tables, in the order of their numbers.
    pub(crate) sections: Vec<Held<'a>>,
    /// The names that it defines.
    pub(crate) definitions: Vec<&'a str>,
    /// What was passed over on purpose, in the edition itself or in one that it revises.
    pub(crate) left_out: Vec<LeftOut<'a>>,
    /// What was not read, likewise.
    pub(crate) unread: Vec<Unread<'a>>,
    pub(crate) tally: Tally,
}

/// A section that is held.
#[derive(Debug)]
pub(crate) struct Held<'a> {
    pub(crate) number: &'a str,
    pub(crate) section: &'a Section,
    /// How many of its demands answer or refer a question; one that names several
    /// counts for each. A table counts once, whatever its rows.
    pub(crate) provisions: usize,
}

/// A section passed over on purpose.
#[derive(Debug)]
pub(crate) struct LeftOut<'a> {
    pub(crate) number: &'a str,
    pub(crate) why: &'a str,
    /// The year of the edition that says so.
    pub(crate) since: i32,
}

/// A section not read.
#[derive(Debug)]
pub(crate) struct Unread<'a> {
    pub(crate) number: &'a str,
    /// The questions that it refers.
    pub(crate) questions: Vec<&'a str>,
    /// Whether these are all of the code's subjects, since none was named.
    pub(crate) all: bool,
    /// The year of the edition that says so.
    pub(crate) since: i32,
}

/// How many provisions there are, and on what they rest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    pub(crate) sections: usize,
    pub(crate) provisions: usize,
    pub(crate) read: usize,
    pub(crate) memory: usize,
    pub(crate) practice: usize,
    pub(crate) no_source: usize,
    pub(crate) left_out: usize,
    pub(crate) unread: usize,
}

impl AddAssign for Tally {
    fn add_assign(&mut self, other: Tally) {
        self.sections += other.sections;
        self.provisions += other.provisions;
        self.read += other.read;
        self.memory += other.memory;
        self.practice += other.practice;
        self.no_source += other.no_source;
        self.left_out += other.left_out;
        self.unread += other.unread;
    }
}

/// What the library holds of every edition that is wanted, by code and year.
pub(crate) fn coverage(library: &Library, wanted: impl Fn(&str, i32) -> bool) -> Vec<Account<'_>> {
    let mut codes: Vec<&Code> = library.codes.codes.iter().collect();
    codes.sort_by_key(|code| &code.name);
    let editions = codes.into_iter().flat_map(|code| code.editions.iter().map(move |(year, id)| (code, *year, *id)));
    editions
        .filter(|(code, year, _)| wanted(&code.name, *year))
        .filter_map(|(code, _, id)| Some(account(library, code, library.codes.edition(id)?)))
        .collect()
}

fn account<'a>(library: &'a Library, code: &'a Code, edition: &'a Edition) -> Account<'a> {
    let base = edition.revises.and_then(|id| library.codes.edition(id));
    let mut sections: Vec<Held<'a>> = edition
        .sections
        .iter()
        .filter(|printed| !printed.section.definition)
        .map(|printed| Held {
            number: &printed.number,
            section: &printed.section,
            provisions: provisions(&printed.section),
        })
        .collect();
    sections.sort_by(|one, two| crate::verdict::by_parts(one.number, two.number));
    let mut definitions: Vec<&str> =
        edition.sections.iter().filter(|printed| printed.section.definition).map(|printed| &*printed.number).collect();
    definitions.sort_unstable();
    let left_out = left_out(library, edition);
    let unread: Vec<Unread<'a>> = edition
        .unread
        .iter()
        .map(|(number, questions, at)| Unread {
            number,
            since: said_in(library, edition, *at),
            questions: if questions.is_empty() {
                of_subjects(&library.glossary, code)
            } else {
                questions.iter().map(|question| &*library.glossary[*question].name).collect()
            },
            all: questions.is_empty(),
        })
        .collect();
    let mut tally = Tally { left_out: left_out.len(), unread: unread.len(), ..Tally::default() };
    for held in &sections {
        let count = held.provisions;
        tally.sections += 1;
        tally.provisions += count;
        *match held.section.provenance {
            Provenance::Read { .. } => &mut tally.read,
            Provenance::Memory => &mut tally.memory,
            Provenance::CommonPractice => &mut tally.practice,
            Provenance::Missing => &mut tally.no_source,
        } += count;
    }
    Account { code, edition, revises: base.map(|base| base.year), sections, definitions, left_out, unread, tally }
}

fn provisions(section: &Section) -> usize {
    let demands = section.demands.iter().chain(section.cases.iter().flat_map(|case| &case.demands));
    demands.map(|demand| demand.kind.questions().len()).sum::<usize>() + usize::from(section.table.is_some())
}

/// What was left out, here or in the editions revised, each as long as no later one
/// holds it anew or speaks of it.
fn left_out<'a>(library: &'a Library, edition: &'a Edition) -> Vec<LeftOut<'a>> {
    let mut left: Vec<LeftOut<'a>> = Vec::new();
    let mut spoken: BTreeSet<&str> = edition.unread.iter().map(|(number, ..)| &**number).collect();
    for here in line(library, edition) {
        let own = here.year == edition.year;
        for (number, why, _) in &here.left_out {
            let held_since = here.section(number).is_none() && edition.section(number).is_some();
            if own || !held_since && !spoken.contains(&**number) {
                left.push(LeftOut { number, why, since: here.year });
            }
        }
        spoken.extend(here.left_out.iter().map(|(number, ..)| &**number));
    }
    left.sort_by(|one, two| crate::verdict::by_parts(one.number, two.number));
    left
}

/// The year of the edition, among those revised, that says a thing.
fn said_in(library: &Library, edition: &Edition, at: Location) -> i32 {
    let said = line(library, edition).filter(|here| here.unread.iter().any(|(.., of)| *of == at));
    said.last().map_or(edition.year, |here| here.year)
}

/// An edition and those that it revises, the newest first.
fn line<'a>(library: &'a Library, edition: &'a Edition) -> impl Iterator<Item = &'a Edition> {
    std::iter::successors(Some(edition), |here| here.revises.and_then(|id| library.codes.edition(id)))
}

/// The questions that all places know on the subjects of a code.
fn of_subjects<'a>(glossary: &'a Glossary, code: &Code) -> Vec<&'a str> {
    let known = glossary.questions.iter().filter(|question| question.scope.is_none());
    known.filter(|question| code.subjects.contains(&question.subject)).map(|question| &*question.name).collect()
}
