//! The clauses of some sections as they stand on one day: each with its author,
//! and what became of those that do not stand.

use super::Inquest;
use crate::law::library::Library;
use crate::law::model::{Clause, Fate, Provenance, Provision, Source};
use crate::law::text::{Edition, Lineage};
use crate::report::speech::Reader;
use crate::verdict::model::Role;
use crate::verdict::{Look, Scratch, condition, held};
use serde::Serialize;
use std::collections::BTreeMap;
use utoipa::ToSchema;

/// Which section it is, whatever its number in one edition or the other.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Key {
    Lineage(Lineage),
    /// A section that only an amendment has.
    Number(Box<str>),
}

/// One clause.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Line {
    pub(crate) section: String,
    pub(crate) title: String,
    pub(crate) summary: String,
    pub(crate) demand: String,
    /// The section's own condition.
    #[serde(rename = "where", skip_serializing_if = "Vec::is_empty")]
    pub(crate) conditions: Vec<String>,
    /// Under which other facts of a job the text is law at all.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub(crate) reaches: String,
    pub(crate) edition: i32,
    pub(crate) author: String,
    pub(crate) in_force: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) adopted_by: Option<String>,
    /// What became of it, such as `replaced by HC-22-118`.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub(crate) fate: String,
    pub(crate) provenance: String,
    /// The same for a page that says it in words of its own.
    #[serde(skip)]
    pub(in crate::report) bare: Bare,
}

/// From what a line was told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::report) struct Bare {
    pub(in crate::report) instrument: String,
    pub(in crate::report) issuer: String,
    pub(in crate::report) fate: Option<(Fate, Option<String>)>,
    pub(in crate::report) provenance: Provenance,
}

/// A clause on a day.
#[derive(Debug)]
pub(super) struct Stood {
    /// Its provision, which is the same on every day.
    pub(super) provision: usize,
    pub(super) key: Key,
    pub(super) became: Became,
    /// What it says and where, without who says so.
    pub(super) says: String,
    /// The exceptions that other instruments make that day, and by whom.
    pub(super) exceptions: Vec<(String, String)>,
    /// The instrument whose words these are.
    pub(super) instrument: String,
    pub(super) line: Line,
}

/// What became of a provision on the day.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Became {
    /// It stands, under these facts of a job where it is not for all.
    Stands(String),
    /// It was set aside, by this text.
    SetAside(Fate, Option<String>),
    /// Its instrument or edition is not law here on the day.
    Foreign,
}

impl Stood {
    pub(super) fn stands(&self) -> bool {
        matches!(self.became, Became::Stands(_))
    }
}

/// The source of a provision where it belongs to a section of a code.
pub(super) fn of_code<'l>(
    inquest: &Inquest<'l>,
    provision: &Provision,
    code: &str,
) -> Option<(&'l Source, &'l str, i32)> {
    let source = inquest.matter.law.source(provision.source)?;
    let own = source.code.as_deref().is_some_and(|own| own == code);
    own.then_some(())?;
    Some((source, source.section.as_deref()?, source.edition?))
}

/// Which section a source is of.
pub(super) fn key(library: &Library, source: &Source, number: &str, year: i32) -> Key {
    let edition = edition(library, source.code.as_deref().unwrap_or_default(), year);
    let printed = edition.and_then(|edition| {
        let as_published = edition.sections.iter().find(|printed| printed.section.at == source.at);
        as_published.or_else(|| edition.section(number))
    });
    printed.map_or_else(|| Key::Number(number.into()), |printed| Key::Lineage(printed.lineage))
}

/// An edition by its name.
pub(super) fn edition<'l>(library: &'l Library, code: &str, year: i32) -> Option<&'l Edition> {
    library.codes.find(code, year).and_then(|id| library.codes.edition(id))
}

/// The clauses of these provisions on the day of the inquest.
pub(super) fn on_the_day(inquest: &Inquest<'_>, code: &str, provisions: &BTreeMap<usize, Key>) -> Vec<Stood> {
    let mut scratch = Scratch::default();
    scratch.weigh(inquest.matter);
    let mut stood = Vec::new();
    for (number, key) in provisions {
        let Some(provision) = inquest.matter.law.provisions.get(*number) else { continue };
        let Some((source, _, edition)) = of_code(inquest, provision, code) else { continue };
        let became = became(inquest, &mut scratch, provision);
        let exceptions = exceptions(inquest, &mut scratch, provision, source);
        let line = line(inquest, &mut scratch, provision, source, edition, &became, &exceptions);
        stood.push(Stood {
            provision: *number,
            key: key.clone(),
            says: says(inquest, &mut scratch, provision, source, &exceptions),
            instrument: source.instrument.to_string(),
            became,
            exceptions,
            line,
        });
    }
    stood
}

/// What became of a provision on the day of the inquest.
pub(super) fn became(inquest: &Inquest<'_>, scratch: &mut Scratch, provision: &Provision) -> Became {
    for clause in &provision.clauses {
        if own_condition(clause) || held(inquest.matter, scratch, clause.cond).is_some() {
            continue;
        }
        return match clause.fate {
            Fate::NotInForce | Fate::Superseded => Became::Foreign,
            fate => Became::SetAside(fate, author(inquest, clause)),
        };
    }
    match held(inquest.matter, scratch, provision.reach) {
        Some(words) => Became::Stands(words),
        None => Became::Foreign,
    }
}

/// Whether a part of the condition is the section's own and not its standing.
fn own_condition(clause: &Clause) -> bool {
    matches!(clause.fate, Fate::PassedOver | Fate::Excepted)
}

/// The instrument by which a part of the condition came.
fn author(inquest: &Inquest<'_>, clause: &Clause) -> Option<String> {
    let source = inquest.matter.law.source(clause.by?)?;
    Some(source.instrument.to_string())
}

/// The instrument, where it is another than that of the words themselves.
fn by_another(inquest: &Inquest<'_>, clause: &Clause, source: &Source) -> Option<String> {
    (clause.fate == Fate::Excepted).then(|| author(inquest, clause)).flatten().filter(|by| *by != *source.instrument)
}

/// What other instruments except on the day, and who does.
fn exceptions(
    inquest: &Inquest<'_>,
    scratch: &mut Scratch,
    provision: &Provision,
    source: &Source,
) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for clause in &provision.clauses {
        let Some(by) = by_another(inquest, clause, source) else { continue };
        // What an instrument that is not in force excepts, leaves nothing to tell.
        let words = held(inquest.matter, scratch, clause.cond).unwrap_or_else(|| "never".to_owned());
        if !words.is_empty() {
            found.push((words, by));
        }
    }
    found
}

/// What a clause says, whoever says it: the demand, its row, its own conditions and
/// the exceptions of the day.
fn says(
    inquest: &Inquest<'_>,
    scratch: &mut Scratch,
    provision: &Provision,
    source: &Source,
    exceptions: &[(String, String)],
) -> String {
    let mut parts = vec![provision.words.to_string()];
    let row = provision.clauses.first().filter(|clause| clause.fate == Fate::NotInForce);
    let reach = held(inquest.matter, scratch, provision.reach).unwrap_or_default();
    parts.extend(row.and_then(|row| held(inquest.matter, scratch, row.cond)).filter(|row| !reach.contains(row)));
    let own = provision.clauses.iter().filter(|clause| own_condition(clause));
    let own = own.filter(|clause| by_another(inquest, clause, source).is_none());
    parts.extend(own.map(|clause| condition(inquest.matter, clause.cond)));
    parts.extend(exceptions.iter().map(|(words, _)| words.clone()));
    parts.join("\n")
}

fn line(
    inquest: &Inquest<'_>,
    scratch: &mut Scratch,
    provision: &Provision,
    source: &Source,
    edition: i32,
    became: &Became,
    exceptions: &[(String, String)],
) -> Line {
    let (reaches, fate) = match became {
        Became::Stands(words) => (words.clone(), String::new()),
        Became::SetAside(fate, by) => (String::new(), fate_in_words(*fate, by.as_deref())),
        Became::Foreign => (String::new(), String::new()),
    };
    let mut conditions: Vec<String> = Vec::new();
    for clause in &provision.clauses {
        if by_another(inquest, clause, source).is_some() {
            continue;
        }
        let words = if own_condition(clause) {
            condition(inquest.matter, clause.cond)
        } else {
            // The row of a table; what else is here is told as the reach.
            held(inquest.matter, scratch, clause.cond).unwrap_or_default()
        };
        if !words.is_empty() && words != "always" && !reaches.contains(&words) && !conditions.contains(&words) {
            conditions.push(words);
        }
    }
    conditions.extend(exceptions.iter().map(|(words, by)| format!("{words} (an exception by {by})")));
    Line {
        section: source.section.as_ref().map_or_else(String::new, ToString::to_string),
        title: source.title.to_string(),
        summary: source.summary.to_string(),
        demand: provision.words.to_string(),
        conditions,
        reaches,
        edition,
        author: format!("{} of {}", source.instrument, source.issuer),
        in_force: source.in_force.map(|days| days.to_string()).unwrap_or_default(),
        adopted_by: source.adopted_by.as_ref().map(ToString::to_string),
        fate,
        provenance: Reader::default().provenance(&source.provenance),
        bare: Bare {
            instrument: source.instrument.to_string(),
            issuer: source.issuer.to_string(),
            fate: match became {
                Became::SetAside(fate, by) => Some((*fate, by.clone())),
                Became::Stands(_) | Became::Foreign => None,
            },
            provenance: source.provenance.clone(),
        },
    }
}

/// What became of a clause, and by whom.
pub(super) fn fate_in_words(fate: Fate, by: Option<&str>) -> String {
    let word = match fate {
        Fate::NotInForce => "not in force",
        Fate::PassedOver => "passed over",
        Fate::ReadAs => "read otherwise",
        fate => Role::SetAside(fate).word(),
    };
    by.map_or_else(|| word.to_owned(), |by| format!("{word} by {by}"))
}
