//! Every form of the language, one by one.

mod glossary;
mod jobs;
mod knowingly;
mod law;
mod letters;
mod text;

use super::item;
use crate::syntax::tree::*;

pub(super) fn section(body: &str) -> Section {
    let Item::Edition(mut edition) = item(&format!("edition IFGC 2021\n section 310.1 {body}")) else { panic!() };
    assert_eq!(edition.clauses.len(), 1, "{body}");
    match edition.clauses.remove(0) {
        TextClause::Section(section) => section,
        other => panic!("{other:?}"),
    }
}

pub(super) fn cond(text: &str) -> Cond {
    section(&format!("where {text}")).body.wheres.remove(0)
}

pub(super) fn test(text: &str) -> Test {
    match cond(text).kind {
        CondKind::Test { test, .. } => test,
        other => panic!("{other:?}"),
    }
}

pub(super) fn demand(text: &str) -> DemandKind {
    let mut body = section(text).body;
    assert_eq!(body.demands.len(), 1, "{text}");
    body.demands.remove(0).kind
}

pub(super) fn instrument(lines: &str) -> Instrument {
    match item(&format!("instrument LK-1 of larkspur kind ordinance in force from 2020-01-01 {lines}")) {
        Item::Instrument(instrument) => instrument,
        other => panic!("{other:?}"),
    }
}

pub(super) fn clause(lines: &str) -> Clause {
    let mut clauses = instrument(lines).clauses;
    assert_eq!(clauses.len(), 1, "{lines}\n{clauses:#?}");
    clauses.remove(0)
}

pub(super) fn fact(text: &str) -> Fact {
    match item(text) {
        Item::Fact(fact) => fact,
        other => panic!("{other:?}"),
    }
}

pub(super) fn question(text: &str) -> Question {
    match item(text) {
        Item::Question(question) => question,
        other => panic!("{other:?}"),
    }
}

pub(super) fn place(text: &str) -> Place {
    match item(text) {
        Item::Place(place) => place,
        other => panic!("{other:?}"),
    }
}

pub(super) fn texts(words: &[Word]) -> Vec<&str> {
    words.iter().map(|word| &*word.text).collect()
}

pub(super) fn word(value: &Value) -> &str {
    match value {
        Value::Word(word) | Value::Date(word) => &word.text,
        Value::Figure { number, .. } => &number.text,
        Value::Text(text) => &text.text,
    }
}

pub(super) fn figure(value: &Value) -> (&str, Option<&str>) {
    match value {
        Value::Figure { number, unit } => (&number.text, unit.as_ref().map(|unit| &*unit.text)),
        other => panic!("{other:?}"),
    }
}
