//! An answer as a person types it.

use super::figures::figure;
use super::names::{hyphened, number, parts, pick};
use super::so_far::Reply;
use super::step::{Form, Step, Topic};
use crate::glossary::Fault;
use crate::glossary::model::{FieldId, PlaceId};
use crate::job::{Desk, NotFound, Written};
use crate::verdict::paths::Path;

/// Why an answer could not be read.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Problem {
    Empty,
    /// The list that was shown has no such number.
    NoNumber {
        most: usize,
    },
    /// Several names begin like it.
    SeveralFit {
        names: Vec<String>,
    },
    NoPlace {
        nearest: Vec<String>,
    },
    /// The place cannot be left unknown.
    PlaceNeeded,
    SeveralPlaces {
        paths: Vec<String>,
    },
    /// It is no number of entries.
    NoCount,
    /// The value does not fit the fact; with the reader's message, help and near names.
    Unread(Fault),
}

impl Problem {
    /// What was perhaps meant.
    pub(crate) fn near(&self) -> &[String] {
        match self {
            Problem::NoPlace { nearest } => nearest,
            Problem::SeveralPlaces { paths } => paths,
            Problem::SeveralFit { names } => names,
            Problem::Unread(fault) => &fault.near,
            Problem::PlaceNeeded | Problem::Empty | Problem::NoNumber { .. } | Problem::NoCount => &[],
        }
    }
}

/// An answer that could not be read, as it was typed.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Wrong {
    pub(crate) typed: String,
    pub(crate) problem: Problem,
}

/// Words for what is not known, in the languages of the tool.
const UNKNOWN: [&str; 8] = ["?", "unknown", "not-known", "don't-know", "desconocido", "no-sé", "no-se", "no-se-sabe"];
/// Words for none.
const NONE: [&str; 5] = ["none", "ninguno", "ninguna", "nada", "no-hay"];
/// Words for yes, among them the number under which it is shown.
const YES: [&str; 6] = ["yes", "y", "sí", "si", "s", "1"];
/// Words for no.
const NO: [&str; 3] = ["no", "n", "2"];

/// Reads what a person typed for a step of a job at a place; at a place that is
/// itself asked for there is none yet.
///
/// # Errors
/// What is wrong with it.
pub(crate) fn read(desk: Desk<'_>, place: Option<PlaceId>, step: &Step<'_>, typed: &str) -> Result<Reply, Wrong> {
    let text = typed.trim();
    let wrong = |problem: Problem| Wrong { typed: crate::glossary::cut(text), problem };
    if text.is_empty() {
        return Err(wrong(Problem::Empty));
    }
    match (step.topic, place) {
        (Topic::Place, _) if is_unknown(text) => Err(wrong(Problem::PlaceNeeded)),
        (Topic::Place, _) => named(desk, text).map_err(wrong),
        (Topic::Fact(_), _) if is_unknown(text) => Ok(Reply::Unknown),
        (Topic::Fact(Path::List(_) | Path::Further(_) | Path::Span(_)), _) => {
            entries(&step.form, text).ok_or_else(|| wrong(Problem::NoCount))
        }
        (Topic::Fact(Path::Fact(field) | Path::Attribute { field, .. }), Some(place)) => {
            let written = written(desk, field, &step.form, text).map_err(wrong)?;
            let value = desk.value_written(field, &written, place);
            value.map(Reply::Value).map_err(|fault| wrong(Problem::Unread(fault)))
        }
        (Topic::Fact(_), None) => Err(wrong(Problem::NoPlace { nearest: Vec::new() })),
    }
}

/// Whether a text is a word for what is not known.
pub(super) fn is_unknown(text: &str) -> bool {
    UNKNOWN.contains(&&*hyphened(text))
}

fn named(desk: Desk<'_>, text: &str) -> Result<Reply, Problem> {
    desk.gazetteer.find(text).map(Reply::Place).map_err(|NotFound { candidates, nearest }| {
        if candidates.is_empty() { Problem::NoPlace { nearest } } else { Problem::SeveralPlaces { paths: candidates } }
    })
}

/// A value in the spelling of a job sheet.
fn written(desk: Desk<'_>, field: FieldId, form: &Form<'_>, text: &str) -> Result<Written, Problem> {
    let word = hyphened(text);
    let one = |word: &str| Written::Words(vec![word.to_owned()]);
    let none = NONE.contains(&&*word);
    Ok(match form {
        Form::YesNo if YES.contains(&&*word) => one("yes"),
        Form::YesNo if NO.contains(&&*word) => one("no"),
        Form::Date | Form::Several(_) | Form::Name(_) if none => Written::None,
        Form::Several(_) if word == "no" || word == "0" => Written::None,
        Form::YesNo | Form::Date | Form::Place | Form::Entries { .. } => one(text),
        Form::Count | Form::Gauge | Form::Quantity(_) => match desk.glossary[field].shape.scale() {
            Some(scale) => figure(text, scale),
            None => one(text),
        },
        Form::Choice(picks) => one(pick(picks, text)?.unwrap_or(&word)),
        Form::Code(picks) => one(pick(picks, text)?.unwrap_or(&word.to_uppercase())),
        Form::Several(picks) => {
            let mut names: Vec<String> = Vec::new();
            for part in parts(picks, text) {
                names.push(pick(picks, part)?.map_or_else(|| hyphened(part), str::to_owned));
            }
            if names.is_empty() {
                return Err(Problem::Empty);
            }
            Written::Words(names)
        }
        Form::Name(picks) => name(desk, picks, text),
    })
}

/// A name: one of those that can be picked, a printed name of a maker or supplier,
/// else the text in the spelling of names. A mere beginning of a known name may be
/// another name, and is not taken for it.
fn name(desk: Desk<'_>, picks: &[super::step::Pick<'_>], text: &str) -> Written {
    let by_number = number(text).and_then(|number| picks.get(number.checked_sub(1)?));
    let text = text.trim_matches('"');
    let word = hyphened(text);
    let known = by_number.or_else(|| picks.iter().find(|pick| pick.name == word || hyphened(pick.title) == word));
    let printed = || desk.gazetteer.issuer(text).map(|_| text.to_owned());
    Written::Words(vec![known.map(|pick| pick.name.to_owned()).or_else(printed).unwrap_or(word)])
}

/// How many entries a list has: `none`, `3`, `3+` where there may be others, `+1`
/// for one more than are named.
fn entries(form: &Form<'_>, text: &str) -> Option<Reply> {
    let Form::Entries { known, further } = form else { return None };
    let word = hyphened(text);
    if NONE.contains(&&*word) || word == "no" {
        return Some(Reply::Entries { count: if *further { *known } else { 0 }, more: false });
    }
    let (figures, more) = word.strip_suffix('+').map_or((&*word, false), |figures| (figures, true));
    let (figures, added) = figures.strip_prefix('+').map_or((figures, *further), |figures| (figures, true));
    let count = number(figures)?;
    Some(Reply::Entries { count: if added { known.saturating_add(count) } else { count }, more })
}
