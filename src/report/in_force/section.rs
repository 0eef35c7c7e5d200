//! One section as it stands at a place on a day: each clause with its author, what
//! it said before, and where it went if it has another number or is gone.

use super::Inquest;
use super::changes::{Change, Day, changes, lines};
use super::clauses::{Became, Key, Line, became, edition, key, of_code};
use super::numbers::{Numbers, numbers};
use crate::law::text::{Code, is_under};
use crate::review::coverage::coverage;
use crate::syntax::nearest::nearest;
use crate::verdict::{Look, Scratch};
use serde::{Serialize, Serializer};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use utoipa::ToSchema;

/// One section, and those under it.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct AsItStands {
    pub(crate) place: String,
    pub(crate) on: String,
    pub(crate) code: String,
    /// The number asked of.
    pub(crate) section: String,
    /// The numbers under which it stands, where it has others there that day.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) stands_as: Vec<String>,
    /// What stands, clause by clause.
    pub(crate) stands: Vec<Line>,
    /// What is set aside on the day, and by whom.
    pub(crate) before: Vec<Line>,
    /// The last change of each section.
    pub(crate) changes: Vec<Change>,
    /// The numbers of each section over the editions.
    pub(crate) numbers: Vec<Numbers>,
    /// What else there is to say of it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(value_type = Vec<String>)]
    pub(in crate::report) remarks: Vec<Remark>,
    /// The sections of which some clause stands.
    #[serde(skip)]
    pub(crate) standing: BTreeSet<Key>,
}

/// What else there is to say of a section.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::report) enum Remark {
    /// The library passed over the number, and says why.
    LeftOut { edition: String, number: String, why: String },
    /// No text of it was in force up to that day; in force are these editions, each with
    /// who adopted it.
    NotInForce { section: String, editions: Vec<(String, String)> },
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Remark::LeftOut { edition, number, why } => {
                write!(f, "{edition} {number} is left out of the library: {why}")
            }
            Remark::NotInForce { section, editions } => {
                let names: Vec<String> =
                    editions.iter().map(|(edition, by)| format!("{edition}, adopted by {by}")).collect();
                write!(f, "{section} was not in force there up to that day; in force is {}", names.join("; "))
            }
        }
    }
}

impl Serialize for Remark {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// Why there is nothing to show.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum NoSection {
    /// No text of this code is law at the place on the day.
    NoCode(Vec<String>),
    /// The code has no such section there; the nearest numbers.
    NoNumber(Vec<String>),
}

/// Numbers, each with the line of editions in which the section has it.
type Names = BTreeSet<(Box<str>, Option<u32>)>;

/// The sections that are meant by a number.
#[derive(Default)]
struct Meant {
    /// Each with its numbers.
    keys: BTreeMap<Key, Names>,
    /// Whether they stand there that day under the number asked of.
    here: bool,
}

/// The section of a code with this number and those under it.
///
/// # Errors
/// Where no such text is law at the place on the day, and none was.
pub(crate) fn section(inquest: &Inquest<'_>, code: &str, number: &str) -> Result<AsItStands, NoSection> {
    let library = inquest.library();
    let (codes, known) = standing(inquest, code);
    if !codes.contains(code) {
        return Err(NoSection::NoCode(codes.into_iter().map(str::to_owned).collect()));
    }
    let Some(about) = library.codes.code(code) else { return Err(NoSection::NoCode(Vec::new())) };
    let meant = meant(inquest, about, number);
    let provisions = provisions(inquest, code, &meant);
    let today = Day::of(inquest, code, &provisions);
    let changes = changes(inquest, code, &provisions, &today);
    let editions = &today.editions;
    let stood = || today.stood.iter().filter(|stood| stood.stands());
    let stands = lines(stood());
    let before = lines(today.stood.iter().filter(|stood| matches!(stood.became, Became::SetAside(..))));
    let mut remarks = left_out(inquest, code, number, editions);
    if meant.keys.is_empty() && remarks.is_empty() {
        return Err(NoSection::NoNumber(nearest(number, known).into_iter().map(str::to_owned).collect()));
    }
    if stands.is_empty() && before.is_empty() && changes.is_empty() && !meant.keys.is_empty() {
        let editions = editions.iter().map(|(year, by)| (format!("{code} {year}"), by.clone())).collect();
        remarks.push(Remark::NotInForce { section: format!("{code} {number}"), editions });
    }
    let sections: BTreeSet<&str> = stands.iter().map(|line| &*line.section).collect();
    let mut stands_as: Vec<String> = sections.into_iter().map(str::to_owned).collect();
    stands_as.sort_by(|one, two| crate::verdict::by_parts(one, two));
    stands_as.retain(|_| !meant.here);
    let mut numbers: Vec<Numbers> = meant.keys.keys().filter_map(|key| numbers(library, about, key)).collect();
    let first = |of: &Numbers| of.numbers.first().map(|number| number.number.clone()).unwrap_or_default();
    numbers.sort_by(|one, two| crate::verdict::by_parts(&first(one), &first(two)));
    Ok(AsItStands {
        place: library.places.path_text(inquest.matter.job.place),
        on: inquest.on.to_string(),
        code: code.to_owned(),
        section: number.to_owned(),
        stands_as,
        standing: stood().map(|stood| stood.key.clone()).collect(),
        stands,
        before,
        changes: in_order(changes),
        numbers,
        remarks,
    })
}

fn in_order(mut changes: Vec<Change>) -> Vec<Change> {
    changes.sort_by(|one, two| crate::verdict::by_parts(&one.section, &two.section));
    changes
}

/// Whether a section has the number or one under it.
fn within(at: &str, number: &str) -> bool {
    *at == *number || is_under(at, number)
}

/// The codes of which some text is law there that day, and the sections of the one
/// asked of.
fn standing<'l>(inquest: &Inquest<'l>, code: &str) -> (BTreeSet<&'l str>, BTreeSet<&'l str>) {
    let law = inquest.matter.law;
    let mut scratch = Scratch::default();
    scratch.weigh(inquest.matter);
    let (mut codes, mut known) = (BTreeSet::new(), BTreeSet::new());
    for provision in &law.provisions {
        let Some(source) = law.source(provision.source) else { continue };
        let (Some(own), Some(at)) = (&source.code, &source.section) else { continue };
        if became(inquest, &mut scratch, provision) == Became::Foreign {
            continue;
        }
        codes.insert(&**own);
        if **own == *code {
            known.insert(&**at);
        }
    }
    (codes, known)
}

/// The sections that stand there that day with the number or under it; where none
/// does, all that had it in some edition or amendment.
fn meant(inquest: &Inquest<'_>, code: &Code, number: &str) -> Meant {
    let library = inquest.library();
    let fits = |at: &str| within(at, number);
    let family = |year: i32| edition(library, &code.name, year).map(|edition| edition.family);
    let mut scratch = Scratch::default();
    scratch.weigh(inquest.matter);
    let mut meant = Meant::default();
    let mut elsewhere = Meant::default();
    for provision in &inquest.matter.law.provisions {
        let Some((source, at, year)) = of_code(inquest, provision, &code.name) else { continue };
        if !fits(at) {
            continue;
        }
        let key = key(library, source, at, year);
        let here = became(inquest, &mut scratch, provision) != Became::Foreign;
        let into = if here { &mut meant } else { &mut elsewhere };
        into.here |= here;
        into.keys.entry(key).or_default().insert((at.into(), family(year)));
    }
    if meant.here {
        return meant;
    }
    for (year, id) in &code.editions {
        let sections = library.codes.edition(*id).map(|edition| edition.sections.as_slice()).unwrap_or_default();
        for printed in sections.iter().filter(|printed| !printed.section.definition && fits(&printed.number)) {
            let known = elsewhere.keys.entry(Key::Lineage(printed.lineage)).or_default();
            known.insert((printed.number.clone(), family(*year)));
        }
    }
    elsewhere
}

/// The provisions of the sections that are meant, of all editions and amendments of
/// the place. Editions that do not build on each other are tied by their numbers.
fn provisions(inquest: &Inquest<'_>, code: &str, meant: &Meant) -> BTreeMap<usize, Key> {
    let library = inquest.library();
    let mut found = BTreeMap::new();
    for (number, provision) in inquest.matter.law.provisions.iter().enumerate() {
        let Some((source, at, year)) = of_code(inquest, provision, code) else { continue };
        let own = key(library, source, at, year);
        if meant.keys.contains_key(&own) {
            found.insert(number, own);
            continue;
        }
        let family = edition(library, code, year).map(|edition| edition.family);
        let tied =
            |names: &Names| names.iter().any(|(name, _)| **name == *at) && names.iter().all(|(_, of)| *of != family);
        if let Some((key, _)) = meant.keys.iter().find(|(_, names)| tied(names)) {
            found.insert(number, key.clone());
        }
    }
    found
}

/// What the editions in force say of a number that the library passed over.
fn left_out(inquest: &Inquest<'_>, code: &str, number: &str, editions: &[(i32, String)]) -> Vec<Remark> {
    let in_force = |name: &str, year: i32| name == code && editions.iter().any(|(of, _)| *of == year);
    let mut remarks = Vec::new();
    for account in coverage(inquest.library(), in_force) {
        let of = |at: &str| within(at, number) || is_under(number, at);
        for left in account.left_out.iter().filter(|left| of(left.number)) {
            let edition = format!("{code} {}", account.edition.year);
            let (number, why) = (left.number.to_owned(), left.why.to_owned());
            remarks.push(Remark::LeftOut { edition, number, why });
        }
    }
    remarks
}
