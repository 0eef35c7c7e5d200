//! One section as it stands at a place on a day: each clause with its author, and
//! what the section said before it was amended or taken over.

use super::super::screen::words::provenance;
use super::Inquest;
use crate::law::model::{Clause, Fate, Provision, Source};
use crate::law::text::is_under;
use crate::syntax::nearest::nearest;
use crate::verdict::{Scratch, condition, held};
use serde::Serialize;

/// One section, and those under it.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct AsItStands {
    pub(crate) place: String,
    pub(crate) on: String,
    pub(crate) code: String,
    pub(crate) section: String,
    /// What stands, clause by clause.
    pub(crate) stands: Vec<Line>,
    /// What was replaced, deleted or suspended, and by whom.
    pub(crate) before: Vec<Line>,
}

/// One clause.
#[derive(Debug, PartialEq, Eq, Serialize)]
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
}

/// Why there is nothing to show.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum NoSection {
    /// No text of this code is law at the place on the day.
    NoCode(Vec<String>),
    /// The code has no such section there; the nearest numbers.
    NoNumber(Vec<String>),
}

/// The section of a code with this number and those under it.
///
/// # Errors
/// Where no such text is law at the place on the day.
pub(crate) fn section(inquest: &Inquest<'_>, code: &str, number: &str) -> Result<AsItStands, NoSection> {
    let law = inquest.matter.law;
    let mut scratch = Scratch::default();
    scratch.weigh(inquest.matter);
    let mut answer = AsItStands {
        place: inquest.library.places.path_text(inquest.matter.job.place),
        on: inquest.on.to_string(),
        code: code.to_owned(),
        section: number.to_owned(),
        stands: Vec::new(),
        before: Vec::new(),
    };
    let mut known: Vec<&str> = Vec::new();
    let mut codes: Vec<&str> = Vec::new();
    for provision in &law.provisions {
        let Some(source) = law.sources.get(provision.source.0 as usize) else { continue };
        let (Some(own), Some(at), Some(edition)) = (&source.code, &source.section, source.edition) else { continue };
        let became = became(inquest, &mut scratch, provision);
        if became == Became::Foreign {
            continue;
        }
        codes.push(own);
        if **own != *code {
            continue;
        }
        known.push(at);
        if **at != *number && !is_under(at, number) {
            continue;
        }
        let line = line(inquest, &mut scratch, provision, source, edition, &became);
        let into = if matches!(became, Became::Stands(_)) { &mut answer.stands } else { &mut answer.before };
        if !into.contains(&line) {
            into.push(line);
        }
    }
    if answer.stands.is_empty() && answer.before.is_empty() {
        codes.sort_unstable();
        codes.dedup();
        return Err(if known.is_empty() {
            NoSection::NoCode(codes.into_iter().map(str::to_owned).collect())
        } else {
            NoSection::NoNumber(nearest(number, known).into_iter().map(str::to_owned).collect())
        });
    }
    // Stable, so that the rows of a table stay in their order.
    for lines in [&mut answer.stands, &mut answer.before] {
        lines.sort_by(|one, two| {
            (&one.section, one.edition, &one.author).cmp(&(&two.section, two.edition, &two.author))
        });
    }
    Ok(answer)
}

/// What became of a provision on the day.
#[derive(Debug, PartialEq, Eq)]
enum Became {
    /// It stands, under these facts of a job where it is not for all.
    Stands(String),
    /// It was set aside, by this text.
    SetAside(Fate, Option<String>),
    /// Its instrument or edition is not law here on the day.
    Foreign,
}

fn became(inquest: &Inquest<'_>, scratch: &mut Scratch, provision: &Provision) -> Became {
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

fn author(inquest: &Inquest<'_>, clause: &Clause) -> Option<String> {
    let source = inquest.matter.law.sources.get(clause.by?.0 as usize)?;
    Some(source.instrument.to_string())
}

fn line(
    inquest: &Inquest<'_>,
    scratch: &mut Scratch,
    provision: &Provision,
    source: &Source,
    edition: i32,
    became: &Became,
) -> Line {
    let (reaches, fate) = match became {
        Became::Stands(words) => (words.clone(), String::new()),
        Became::SetAside(fate, by) => (String::new(), fate_in_words(*fate, by.as_deref())),
        Became::Foreign => (String::new(), String::new()),
    };
    let mut conditions: Vec<String> = Vec::new();
    for clause in &provision.clauses {
        let words = match (clause.fate, author(inquest, clause)) {
            (Fate::Excepted, Some(by)) if by != *source.instrument => {
                format!("{} (an exception by {by})", condition(inquest.matter, clause.cond))
            }
            _ if own_condition(clause) => condition(inquest.matter, clause.cond),
            // The row of a table; what else is here is told as the reach.
            _ => held(inquest.matter, scratch, clause.cond).unwrap_or_default(),
        };
        if !words.is_empty() && words != "always" && !reaches.contains(&words) && !conditions.contains(&words) {
            conditions.push(words);
        }
    }
    Line {
        section: source.section.as_ref().map_or_else(String::new, ToString::to_string),
        title: source.title.to_string(),
        summary: source.summary.to_string(),
        demand: provision.words.to_string(),
        conditions,
        reaches,
        edition,
        author: format!("{} of {}", source.instrument, source.issuer),
        in_force: source.in_force.to_string(),
        adopted_by: source.adopted_by.as_ref().map(ToString::to_string),
        fate,
        provenance: provenance(&source.provenance),
    }
}

fn fate_in_words(fate: Fate, by: Option<&str>) -> String {
    let word = match fate {
        Fate::NotInForce => "not in force",
        Fate::PassedOver => "passed over",
        Fate::Replaced => "replaced",
        Fate::Deleted => "deleted",
        Fate::Excepted => "excepted",
        Fate::Superseded => "superseded",
        Fate::Suspended => "suspended",
        Fate::Repealed => "repealed",
        Fate::PreEmpted => "pre-empted",
        Fate::ReadAs => "read otherwise",
    };
    by.map_or_else(|| word.to_owned(), |by| format!("{word} by {by}"))
}
