//! The head: the outcome in words, the dates, the codes.

use super::answers::title;
use crate::glossary::model::{FieldId, Shape};
use crate::job::model::Given;
use crate::report::screen::order;
use crate::report::screen::words::spoken;
use crate::report::speech::Reader;
use crate::verdict::Matter;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Edition, Inquiry, Outcome, Verdict};

/// The outcome's words.
pub(crate) fn word(outcome: Outcome, reader: Reader) -> String {
    match outcome {
        Outcome::Complies => reader.say("sheet-complies"),
        Outcome::Corrections => reader.say("sheet-corrections"),
        Outcome::Conflict => reader.say("sheet-conflict"),
        Outcome::Refer => reader.say("sheet-refer"),
        Outcome::Open => reader.say("sheet-open"),
    }
}

/// What the outcome comes from.
pub(crate) fn sentence(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> String {
    let answers = &verdict.answers;
    match verdict.outcome {
        Outcome::Complies => reader.say("sheet-complies-why"),
        Outcome::Corrections => {
            let mut wrong: Vec<&Answered<'_>> =
                answers.iter().filter(|answer| answer.found.finding == Some(Finding::NotMet)).collect();
            wrong.sort_by_key(|answer| order::rank(&answer.question.name));
            let titles: Vec<&str> = wrong.iter().map(|answer| title(answer)).collect();
            let parts = [("count", &*wrong.len().to_string()), ("titles", &*titles.join("; "))];
            reader.say_with("sheet-corrections-why", &parts)
        }
        Outcome::Conflict => reader.say("sheet-conflict-why"),
        Outcome::Refer => {
            let left = answers
                .iter()
                .filter(|answer| answer.found.state == State::Referred || answer.found.no_equivalent)
                .count();
            if left > 0 {
                return reader.say_with("sheet-refer-why", &[("count", &left.to_string())]);
            }
            let ungoverned = matter.law.governed.iter().filter_map(|(subject, _)| matter.lexicon.subject(*subject));
            let titles: Vec<String> = ungoverned.map(|subject| subject.title.to_lowercase()).collect();
            reader.say_with("sheet-no-code-reaches", &[("subjects", &titles.join(", "))])
        }
        Outcome::Open => {
            let telling: Vec<_> = verdict.ask.iter().filter(|ask| matters(ask, verdict)).collect();
            let Some(first) = telling.first() else {
                return reader.say("sheet-open-no-fact");
            };
            let parts = [("count", &*telling.len().to_string()), ("prompt", first.prompt)];
            reader.say_with("sheet-open-why", &parts)
        }
    }
}

/// Whether a fact could change an answer to a question that is asked of this job.
pub(crate) fn matters(ask: &Inquiry<'_>, verdict: &Verdict<'_>) -> bool {
    let asked = |name: &str| verdict.answers.iter().any(|it| &*it.question.name == name && it.found.asked);
    ask.changes.iter().any(|name| asked(name))
}

/// The dates that the job gives, the default one first.
pub(crate) fn dates(matter: &Matter<'_>, reader: Reader) -> String {
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
                told.push(reader.say_with("sheet-fact-not-known", &[("fact", &spoken(&field.path))]));
            }
            continue;
        }
        match same.iter_mut().find(|(known, _)| *known == value) {
            Some((_, names)) => names.push(&field.path),
            None => same.push((value, vec![&field.path])),
        }
    }
    for (value, names) in same {
        let names: Vec<String> = names.iter().map(|name| spoken(name)).collect();
        // Every date of a job has the same shape, so any field words it.
        let shown = lexicon.roles.dates.and_then(|field| reader.given(value, field, lexicon)).unwrap_or_default();
        told.push(format!("{} {shown}", names.join(", ")));
    }
    if told.is_empty() { reader.say("sheet-no-dates") } else { told.join("; ") }
}

/// The codes in force, by instrument.
pub(crate) fn codes(codes: &[Edition<'_>], reader: Reader) -> String {
    let mut told: Vec<(String, Vec<&str>)> = Vec::new();
    for edition in codes {
        let code = edition.code;
        let name = format!("{} {}", code.code, code.edition);
        let parts = [("edition", &*name), ("instrument", &*code.by)];
        let name = if edition.possible {
            reader.say_with("sheet-edition-perhaps-by", &parts)
        } else {
            reader.say_with("sheet-edition-by", &parts)
        };
        match told.iter_mut().find(|(known, _)| *known == name) {
            Some((_, subjects)) => subjects.push(edition.subject),
            None => told.push((name, vec![edition.subject])),
        }
    }
    if told.is_empty() {
        return reader.say("sheet-no-code");
    }
    let words: Vec<String> = told
        .iter()
        .map(|(name, subjects)| {
            let subjects: Vec<String> = subjects.iter().map(|subject| spoken(subject)).collect();
            format!("{name} ({})", subjects.join(", "))
        })
        .collect();
    words.join("; ")
}
