//! What stands below the answers: what to ask and whom, notes, cautions, what is
//! on its way.

use super::answers::question_title;
use super::head::matters;
use super::jumper::Jumper;
use crate::glossary::model::PlaceId;
use crate::law::places::Places;
use crate::report::coverage::fold;
use crate::report::speech::Reader;
use crate::syntax::tree::ProvenanceKind;
use crate::values::Date;
use crate::verdict::aside::Aside;
use crate::verdict::model::{Inquiry, Verdict};
use crate::verdict::paths::Path;
use crate::verdict::{Matter, by_parts};
use serde::Serialize;

/// A fact to find out.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Asked {
    /// As a job writes it.
    pub(crate) fact: String,
    pub(crate) prompt: String,
    /// Who can know it, and when at the earliest.
    pub(crate) known: Vec<String>,
    /// The titles of the questions that it could change.
    pub(crate) changes: Vec<String>,
    /// Whether it could change an answer that is asked of this job.
    pub(crate) telling: bool,
}

/// Something to know beside the answers.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Note {
    /// The title of the question that it belongs to.
    pub(crate) about: Option<String>,
    pub(crate) text: String,
    pub(crate) condition: Option<String>,
    pub(crate) cite: Option<String>,
}

/// The facts to find out, those that tell most first.
pub(super) fn asks(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> Vec<Asked> {
    let mut all: Vec<Asked> = verdict
        .ask
        .iter()
        .map(|ask| Asked {
            fact: ask.fact.clone(),
            prompt: prompt(ask, reader),
            known: known(ask, matter, reader),
            changes: ask.changes.iter().map(|name| question_title(name, &verdict.answers)).collect(),
            telling: matters(ask, verdict),
        })
        .collect();
    all.sort_by_key(|ask| !ask.telling);
    all
}

/// What is asked, with what is to be done about a list.
pub(crate) fn prompt(ask: &Inquiry<'_>, reader: Reader) -> String {
    match ask.path {
        Path::List(_) => reader.say_with("sheet-list-each", &[("prompt", ask.prompt)]),
        Path::Further(_) => reader.say_with("sheet-list-further", &[("prompt", ask.prompt)]),
        _ => ask.prompt.to_owned(),
    }
}

/// Who can know a fact, and when at the earliest.
pub(crate) fn known(ask: &Inquiry<'_>, matter: &Matter<'_>, reader: Reader) -> Vec<String> {
    let field = match ask.path {
        Path::Fact(field) | Path::Attribute { field, .. } => matter.lexicon.field(field),
        Path::List(_) | Path::Further(_) | Path::Span(_) => None,
    };
    let known = field.map(|field| &*field.known).unwrap_or_default();
    known
        .iter()
        .map(|(who, when)| {
            let who: Vec<String> = who.iter().map(|who| reader.who(who)).collect();
            let who = who.join(&format!(" {} ", reader.say("sheet-or")));
            match when {
                Some(when) => reader.say_with("sheet-known-at", &[("who", &who), ("when", &reader.stage(when))]),
                None => who,
            }
        })
        .collect()
}

/// What is said beside the answers.
pub(super) fn notes(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> Vec<Note> {
    let note = |note: &crate::verdict::model::Remark<'_>| Note {
        about: note.question.map(|name| question_title(name, &verdict.answers)),
        text: reader.aside(&note.aside),
        condition: note.condition.as_ref().map(|held| held.write(matter)),
        cite: note.source.map(|source| reader.cite_short(source, &verdict.codes)),
    };
    verdict.notes.iter().map(note).collect()
}

/// What is proposed or enacted and not yet in force.
pub(super) fn pending(verdict: &Verdict<'_>, reader: Reader) -> Vec<String> {
    let pending = verdict.pending.iter().map(|coming| {
        let source = coming.source;
        let parts =
            [("instrument", &*source.instrument), ("issuer", &*source.issuer), ("title", &*source.instrument_title)];
        if &*coming.pending.status == "proposed" {
            reader.say_with("sheet-proposed", &parts)
        } else {
            reader.say_with("sheet-enacted", &parts)
        }
    });
    pending.collect()
}

/// A caution of the shipped glossary that stands at the end of every page.
const SAID_BELOW: &str = "a bond lowers the risk of arc damage from nearby lightning and removes none";

/// What the rules themselves warn of, without what every page ends with anyway; and
/// what was written down from memory, in one line. Where there is a jumper that nothing
/// requires, what is warned of one is told all the same: it is no less true of it.
pub(crate) fn cautions(verdict: &Verdict<'_>, jumper: Jumper, reader: Reader) -> (Vec<String>, String) {
    let mut told = Vec::new();
    let mut memory = Vec::new();
    for caution in &verdict.cautions {
        match caution {
            Aside::Memory(source) => memory.push(reader.remembered(source)),
            Aside::Published(SAID_BELOW) => {}
            other => told.push(reader.aside(other)),
        }
    }
    let idle = verdict.answers.iter().filter(|answer| jumper.is_there() && !answer.found.asked);
    for caution in idle.filter_map(|answer| answer.question.caution.as_deref()) {
        if !told.iter().any(|known| known == caution) {
            told.push(caution.to_owned());
        }
    }
    let memory: Vec<&str> = memory.iter().map(String::as_str).collect();
    (told, by_edition(&memory))
}

/// Sections with the name of their edition told once:
/// `IFGC 2021 310.2.2 to 310.2.5; NEC 2020 250.12`.
fn by_edition(sections: &[&str]) -> String {
    let mut groups: Vec<(String, Vec<&str>)> = Vec::new();
    for section in sections {
        let (name, number) = match section.splitn(3, ' ').collect::<Vec<_>>().as_slice() {
            [code, year, number] if year.parse::<i32>().is_ok() => (format!("{code} {year}"), *number),
            _ => (String::new(), *section),
        };
        match groups.iter_mut().find(|(known, _)| *known == name && !name.is_empty()) {
            Some((_, numbers)) => numbers.push(number),
            None => groups.push((name, vec![number])),
        }
    }
    let words = groups.into_iter().map(|(name, mut numbers)| {
        numbers.sort_by(|one, two| by_parts(one, two));
        format!("{name} {}", fold(numbers)).trim_start().to_owned()
    });
    words.collect::<Vec<_>>().join("; ")
}

/// Whom to ask: the office of the place, else that of the nearest around it.
pub(crate) fn office(matter: &Matter<'_>, places: &Places) -> Option<String> {
    let path = places.path(matter.job.place);
    let found = path.iter().rev().filter_map(|place| places.issuer(*place)).find_map(|place| place.office.as_ref());
    found.map(|office| office.to_string())
}

/// What is said at the end of every page on a job, the age of the rules last.
pub(crate) fn standing(path: &[PlaceId], places: &Places, today: Date, reader: Reader) -> Vec<String> {
    let mut words = always(reader);
    words.push(ages(path, places, today, reader));
    words
}

/// What is always said, in this order.
pub(crate) fn always(reader: Reader) -> Vec<String> {
    vec![
        reader.say("sheet-caution-gas"),
        reader.say("sheet-caution-panel"),
        reader.say("sheet-caution-risk"),
        reader.say("sheet-caution-rules"),
    ]
}

/// After so many days a place's rules are called old.
const OLD: i32 = 365;

/// How old the rules of these places are, in one sentence for each day.
pub(crate) fn ages(path: &[PlaceId], places: &Places, today: Date, reader: Reader) -> String {
    let mut read: Vec<(Date, Vec<&str>)> = Vec::new();
    let mut unread: Vec<&str> = Vec::new();
    for issuer in path.iter().filter_map(|place| places.issuer(*place)) {
        match issuer.provenance.as_ref().and_then(|provenance| day(&provenance.kind)) {
            Some(day) => match read.iter_mut().find(|(known, _)| *known == day) {
                Some((_, titles)) => titles.push(&issuer.title),
                None => read.push((day, vec![&issuer.title])),
            },
            None => unread.push(&issuer.title),
        }
    }
    let and = format!(" {} ", reader.say("sheet-and"));
    let mut words: Vec<String> = read
        .iter()
        .map(|(day, titles)| {
            let (titles, on, age) = (row(titles, &and), day.to_string(), ago(*day, today, reader));
            let parts = [("places", &*titles), ("day", &*on), ("age", &*age)];
            if today.0.saturating_sub(day.0) > OLD {
                reader.say_with("sheet-rules-read-long-ago", &parts)
            } else {
                reader.say_with("sheet-rules-read", &parts)
            }
        })
        .collect();
    if !unread.is_empty() {
        words.push(reader.say_with("sheet-rules-unread", &[("places", &row(&unread, &and))]));
    }
    words.join(" ")
}

/// Names in a row: `one`, `one and two`, `one, two and three`.
fn row(names: &[&str], and: &str) -> String {
    match names {
        [first @ .., last] if !first.is_empty() => format!("{}{and}{last}", first.join(", ")),
        all => all.concat(),
    }
}

fn day(kind: &ProvenanceKind) -> Option<Date> {
    match kind {
        ProvenanceKind::Read { on, .. } => Date::parse(&on.text),
        ProvenanceKind::Memory | ProvenanceKind::CommonPractice => None,
    }
}

/// How long ago a day was.
pub(super) fn ago(day: Date, today: Date, reader: Reader) -> String {
    match i64::from(today.0) - i64::from(day.0) {
        i64::MIN..0 => reader.say("sheet-after-today"),
        0 => reader.say("sheet-today"),
        1 => reader.say("sheet-yesterday"),
        days @ 2..60 => reader.say_with("sheet-days-ago", &[("count", &days.to_string())]),
        days @ 60..730 => reader.say_with("sheet-months-ago", &[("count", &(days / 30).to_string())]),
        days => reader.say_with("sheet-years-ago", &[("count", &(days / 365).to_string())]),
    }
}
