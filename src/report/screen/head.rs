//! The head of a page: the outcome in words, the place, the dates, the codes.

use super::super::look::{Page, Tone};
use super::Frame;
use super::words::{count, given};
use crate::glossary::model::{FieldId, Shape};
use crate::job::model::Given;
use crate::verdict::Matter;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Edition, Inquiry, Outcome, Verdict};

/// Writes the head.
pub(super) fn write(page: &mut Page, verdict: &Verdict<'_>, matter: &Matter<'_>, frame: &Frame<'_>) {
    let (word, tone) = word(verdict.outcome);
    page.paragraph(0, &format!("{word}: {}", sentence(verdict, matter)), tone);
    if let Some(reference) = verdict.reference {
        page.labeled("Job", Tone::Quiet, 9, reference, Tone::Plain);
    }
    if let Some(from) = frame.from {
        page.labeled("File", Tone::Quiet, 9, from, Tone::Plain);
    }
    let path = frame.places.path(matter.job.place);
    let titles: Vec<&str> =
        path.iter().rev().filter_map(|id| frame.places.issuer(*id)).map(|place| &*place.title).collect();
    page.labeled("Place", Tone::Quiet, 9, &titles.join(", "), Tone::Plain);
    page.labeled("Dates", Tone::Quiet, 9, &dates(matter), Tone::Plain);
    page.labeled("Codes", Tone::Quiet, 9, &codes(&verdict.codes), Tone::Plain);
}

/// The outcome's word and its color.
fn word(outcome: Outcome) -> (&'static str, Tone) {
    match outcome {
        Outcome::Complies => ("COMPLIES", Tone::Good),
        Outcome::Corrections => ("CORRECTIONS NEEDED", Tone::Bad),
        Outcome::Conflict => ("RULES CONFLICT", Tone::Bad),
        Outcome::Refer => ("ASK THE AUTHORITY", Tone::Doubt),
        Outcome::Open => ("NOT ENOUGH KNOWN", Tone::Doubt),
    }
}

fn sentence(verdict: &Verdict<'_>, matter: &Matter<'_>) -> String {
    let answers = &verdict.answers;
    match verdict.outcome {
        Outcome::Complies => "what the job says does what the rules in force ask".to_owned(),
        Outcome::Corrections => {
            let mut wrong: Vec<&Answered<'_>> =
                answers.iter().filter(|answer| answer.found.finding == Some(Finding::NotMet)).collect();
            wrong.sort_by_key(|answer| super::order::rank(&answer.question.name));
            let titles: Vec<&str> = wrong.iter().map(|answer| &*answer.question.title).collect();
            format!("{} not done as the rules ask: {}", count(wrong.len(), "thing is", "things are"), titles.join("; "))
        }
        Outcome::Conflict => {
            "rules in force contradict each other, and the authority must say which it applies".to_owned()
        }
        Outcome::Refer => {
            let left = answers
                .iter()
                .filter(|answer| answer.found.state == State::Referred || answer.found.no_equivalent)
                .count();
            if left > 0 {
                let left = count(left, "answer is", "answers are");
                return format!("{left} left to it by the rules, or read in two ways");
            }
            let ungoverned = matter.law.governed.iter().filter_map(|(subject, _)| matter.lexicon.subject(*subject));
            let titles: Vec<String> = ungoverned.map(|subject| subject.title.to_lowercase()).collect();
            format!("no code on {} that is known here reaches the job on its dates", titles.join(", "))
        }
        Outcome::Open => {
            let telling: Vec<_> = verdict.ask.iter().filter(|ask| matters(ask, verdict)).collect();
            let Some(first) = telling.first() else {
                return "an answer hangs on what no fact of the job can settle".to_owned();
            };
            let facts = count(telling.len(), "missing fact", "missing facts");
            format!("{facts} could change an answer, first of all: {}", first.prompt)
        }
    }
}

/// Whether a fact could change an answer to a question that is asked of this job.
pub(super) fn matters(ask: &Inquiry<'_>, verdict: &Verdict<'_>) -> bool {
    let asked = |name: &str| verdict.answers.iter().any(|it| &*it.question.name == name && it.found.asked);
    ask.changes.iter().any(|name| asked(name))
}

/// The dates that the job gives, the default one first.
fn dates(matter: &Matter<'_>) -> String {
    let lexicon = &matter.lexicon;
    let mut told: Vec<String> = Vec::new();
    let mut same: Vec<(&Given, Vec<&str>)> = Vec::new();
    for (field, number) in lexicon.fields.iter().zip(0u16..) {
        let id = FieldId(number);
        if field.shape != Shape::Date || field.group.is_some() || !lexicon.known(field.scope) {
            continue;
        }
        let value = matter.fact(id);
        if *value == Given::Unknown {
            if lexicon.roles.dates == Some(id) {
                told.push(format!("{} not known", super::words::spoken(&field.path)));
            }
            continue;
        }
        match same.iter_mut().find(|(known, _)| *known == value) {
            Some((_, names)) => names.push(&field.path),
            None => same.push((value, vec![&field.path])),
        }
    }
    for (value, names) in same {
        let names: Vec<String> = names.iter().map(|name| super::words::spoken(name)).collect();
        // Every date of a job has the same shape, so any field words it.
        let shown = lexicon.roles.dates.and_then(|field| given(value, field, lexicon)).unwrap_or_default();
        told.push(format!("{} {shown}", names.join(", ")));
    }
    if told.is_empty() { "none known".to_owned() } else { told.join("; ") }
}

/// The codes in force, by instrument.
fn codes(codes: &[Edition<'_>]) -> String {
    let mut told: Vec<(String, Vec<&str>)> = Vec::new();
    for edition in codes {
        let code = edition.code;
        let may = if edition.possible { "perhaps " } else { "" };
        let name = format!("{may}{} {} by {}", code.code, code.edition, code.by);
        match told.iter_mut().find(|(known, _)| *known == name) {
            Some((_, subjects)) => subjects.push(edition.subject),
            None => told.push((name, vec![edition.subject])),
        }
    }
    if told.is_empty() {
        return "none known here reaches the job".to_owned();
    }
    let words: Vec<String> = told
        .iter()
        .map(|(name, subjects)| {
            let subjects: Vec<String> = subjects.iter().map(|subject| super::words::spoken(subject)).collect();
            format!("{name} ({})", subjects.join(", "))
        })
        .collect();
    words.join("; ")
}
