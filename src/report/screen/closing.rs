//! What stands below the answers: what to ask, notes, cautions of the rules, and
//! what is on its way.

use super::super::coverage::fold;
use super::super::look::{Page, Tone};
use super::Frame;
use super::head::matters;
use super::words::{cite_short, spoken};
use crate::verdict::model::{Inquiry, Outcome, Verdict};
use crate::verdict::paths::Path;
use crate::verdict::{MEMORY, Matter, by_parts};

/// Writes what follows the answers.
pub(super) fn write(page: &mut Page, verdict: &Verdict<'_>, matter: &Matter<'_>, frame: &Frame<'_>) {
    asks(page, verdict, matter);
    if !verdict.notes.is_empty() {
        page.blank();
        page.paragraph(0, "Notes", Tone::Strong);
    }
    for note in &verdict.notes {
        let about = verdict.answers.iter().find(|answer| note.question == Some(&*answer.question.name));
        let about = about.map_or_else(String::new, |answer| format!("{}: ", answer.question.title));
        let mut text = format!("{about}{}", note.text);
        if let Some(condition) = &note.condition {
            text.push_str(&format!(" (if {})", condition.write(matter)));
        }
        if let Some(source) = note.source {
            text.push_str(&format!(" [{}]", cite_short(source, &verdict.codes)));
        }
        page.hung(2, 4, &text, Tone::Plain);
    }
    if !verdict.pending.is_empty() {
        page.blank();
        page.paragraph(0, "On its way, and not in force", Tone::Strong);
    }
    for coming in &verdict.pending {
        let text = format!(
            "{}: {} of {}, {}",
            coming.pending.status, coming.source.instrument, coming.source.issuer, coming.source.instrument_title
        );
        page.hung(2, 4, &text, Tone::Plain);
    }
    if verdict.outcome == Outcome::Refer || verdict.outcome == Outcome::Conflict {
        office(page, matter, frame);
    }
    cautions(page, verdict);
}

/// What the rules themselves warn of, in one paragraph; what every page ends with
/// anyway is not said twice.
fn cautions(page: &mut Page, verdict: &Verdict<'_>) {
    let (memory, others): (Vec<&str>, Vec<&str>) =
        verdict.cautions.iter().map(|caution| &**caution).partition(|caution| caution.ends_with(MEMORY));
    let told: Vec<&str> = others.into_iter().filter(|caution| *caution != SAID_BELOW).collect();
    if !told.is_empty() {
        page.blank();
        page.hung(0, 2, &format!("Cautions: {}.", told.join("; ")), Tone::Plain);
    }
    let memory: Vec<&str> = memory.iter().filter_map(|caution| caution.strip_suffix(MEMORY)).collect();
    if !memory.is_empty() {
        let text = format!("Written down from memory, look at the text itself: {}.", by_edition(&memory));
        page.hung(0, 2, &text, Tone::Quiet);
    }
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

/// A caution of the shipped glossary that stands at the end of every page.
const SAID_BELOW: &str = "a bond lowers the risk of arc damage from nearby lightning and removes none";

/// Whom to ask: the office of the place, else that of the nearest around it.
fn office(page: &mut Page, matter: &Matter<'_>, frame: &Frame<'_>) {
    let path = frame.places.path(matter.job.place);
    let found =
        path.iter().rev().filter_map(|place| frame.places.issuer(*place)).find_map(|place| place.office.as_ref());
    if let Some(office) = found {
        page.blank();
        page.paragraph(0, &format!("The authority to ask: {office}"), Tone::Strong);
    }
}

fn asks(page: &mut Page, verdict: &Verdict<'_>, matter: &Matter<'_>) {
    let (telling, idle): (Vec<&Inquiry<'_>>, Vec<&Inquiry<'_>>) =
        verdict.ask.iter().partition(|ask| matters(ask, verdict));
    if !verdict.ask.is_empty() {
        page.blank();
    }
    if !telling.is_empty() {
        page.paragraph(0, "To find out, the most telling first", Tone::Strong);
    }
    for ask in telling {
        let lead = match ask.path {
            Path::List(_) => "List each, or say that there is none: ",
            Path::Further(_) => "List each that is not yet named: ",
            _ => "",
        };
        let text = format!("{lead}{} ({}{})", ask.prompt, ask.fact, known(ask, matter));
        page.hung(2, 4, &text, Tone::Plain);
    }
    if !idle.is_empty() {
        let facts: Vec<&str> = idle.iter().map(|ask| &*ask.fact).collect();
        let text = format!("Only if a jumper is put in all the same: {}.", facts.join(", "));
        page.hung(0, 2, &text, Tone::Quiet);
    }
}

/// Who can know a fact, and when at the earliest.
fn known(ask: &Inquiry<'_>, matter: &Matter<'_>) -> String {
    let field = match ask.path {
        Path::Fact(field) | Path::Attribute { field, .. } => matter.lexicon.field(field),
        Path::List(_) | Path::Further(_) | Path::Span(_) => None,
    };
    let Some(field) = field else { return String::new() };
    let words: Vec<String> = field
        .known
        .iter()
        .map(|(who, when)| {
            let who: Vec<String> = who.iter().map(|who| spoken(who)).collect();
            let when = when.as_ref().map_or_else(String::new, |when| format!(" at {}", spoken(when)));
            format!("; {}{when}", who.join(" or "))
        })
        .collect();
    words.concat()
}
