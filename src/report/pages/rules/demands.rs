//! What a text demands, in the reader's words, each with the question that it answers.

use super::conditions::names;
use super::desk::{Desk, Pointer};
use crate::glossary::demand::{Asked, AskedKind};
use crate::glossary::model::{ChoiceId, Order};
use crate::law::text::{Demanded, DemandedKind, Section, Table};
use crate::report::screen::words::{spoken, spoken_title};
use crate::values::Terms;
use serde::Serialize;

/// One demand.
#[derive(Debug, PartialEq, Serialize)]
pub(super) struct Demand {
    /// The questions that it answers; none for a note.
    questions: Vec<Pointer>,
    says: String,
    /// The table that gives the figures.
    table: Option<Pointer>,
}

/// The demands of a text of this code and year.
pub(super) fn demands(desk: &Desk<'_>, all: &[Demanded], of: Option<(&str, i32)>) -> Vec<Demand> {
    all.iter().map(|demand| told(desk, &demand.kind, of)).collect()
}

fn told(desk: &Desk<'_>, kind: &DemandedKind, of: Option<(&str, i32)>) -> Demand {
    let reader = desk.reader;
    let questions = kind.questions().into_iter().map(|question| desk.question(question)).collect();
    let (says, table) = match kind {
        DemandedKind::Value(asked) => (value(desk, asked), None),
        DemandedKind::Table { from, .. } => {
            let own = of.map(|(code, year)| (code.to_owned(), Some(year)));
            let code = from.code.as_ref().map(|code| (code.to_string(), from.year)).or(own);
            let pointer = code.map(|(code, year)| {
                let year = year.map_or_else(String::new, |year| format!(" {year}"));
                let section = desk.section(&code, &from.number);
                Pointer { words: format!("{code}{year} {}", from.number), ..section }
            });
            match pointer {
                Some(pointer) => (reader.say("browse-by-table"), Some(pointer)),
                None => (reader.say_with("browse-by-own-table", &[("number", &from.number)]), None),
            }
        }
        DemandedKind::Refer { why, .. } => (format!("{}: {why}", reader.say("sheet-left-to-authority")), None),
        DemandedKind::Bind(_) => (reader.say("browse-instructions-bind"), None),
        DemandedKind::Note(text) => (text.to_string(), None),
    };
    Demand { questions, says, table }
}

/// What is asked of a question.
pub(super) fn value(desk: &Desk<'_>, asked: &Asked) -> String {
    let reader = desk.reader;
    let question = &desk.library().glossary[asked.question];
    let list = |terms: Terms| match question.order {
        Order::Only(choice) | Order::AllOf(choice) => names(desk, choice, terms).join(", "),
        _ => String::new(),
    };
    match &asked.kind {
        AskedKind::Rung(rung) => match &question.order {
            Order::Ladder(ladder) => ladder.get(usize::from(*rung)).map(|rung| spoken(rung)).unwrap_or_default(),
            _ => String::new(),
        },
        AskedKind::Limits(limits) => {
            let figures: Vec<String> = limits
                .iter()
                .map(|(measure, terms)| {
                    let figure = reader.amount(&measure.shown);
                    match terms.zip(question.per) {
                        Some((terms, (_, choice))) => {
                            let terms = names(desk, choice, terms).join(", ");
                            reader.say_with("browse-figure-for", &[("figure", &figure), ("terms", &terms)])
                        }
                        None => figure,
                    }
                })
                .collect();
            let figures = figures.join(", ");
            match question.order {
                Order::AtMost(_) => reader.say_with("value-at-most", &[("figure", &figures)]),
                _ => reader.say_with("value-at-least", &[("figure", &figures)]),
            }
        }
        AskedKind::Permitted { only: true, terms } if terms.is_empty() => reader.say("value-nothing-permitted"),
        AskedKind::Permitted { only: true, terms } => reader.say_with("value-only", &[("names", &list(*terms))]),
        AskedKind::Permitted { only: false, terms } => reader.say_with("value-none-of", &[("names", &list(*terms))]),
        AskedKind::Required(terms) if terms.is_empty() => reader.say("value-none-asked"),
        AskedKind::Required(terms) => list(*terms),
    }
}

/// A table as it is printed.
#[derive(Debug, PartialEq, Serialize)]
pub(super) struct Printed {
    gives: Pointer,
    /// The heads of the columns of limits, then of those of results.
    limits: Vec<String>,
    results: Vec<String>,
    rows: Vec<Row>,
}

#[derive(Debug, PartialEq, Serialize)]
struct Row {
    limits: Vec<String>,
    gives: Vec<String>,
}

/// The table of a section; nothing where it has none.
pub(super) fn table(desk: &Desk<'_>, section: &Section) -> Option<Printed> {
    let table: &Table = section.table.as_ref()?;
    let (reader, glossary) = (desk.reader, &desk.library().glossary);
    let of = |choice: ChoiceId, terms: Terms| names(desk, choice, terms).join(", ");
    let key = &glossary[table.key];
    let key = spoken_title(&key.title, &key.path);
    let limits = match &table.per {
        Some((field, columns)) => {
            let choice = glossary.choice_of(glossary[*field].shape);
            let name = |terms: &Terms| choice.map_or_else(String::new, |choice| of(choice, *terms));
            columns.iter().map(|terms| format!("{key}, {}", name(terms))).collect()
        }
        None => vec![key],
    };
    let gives = desk.question(table.gives);
    let per = glossary[table.gives].per;
    let results = table.columns.iter().map(|terms| match terms.zip(per) {
        Some((terms, (_, choice))) => format!("{}, {}", gives.words, of(choice, terms)),
        None => gives.words.clone(),
    });
    let rows = table.rows.iter().map(|row| {
        let limit = |figure: String| {
            let parts = [("figure", &*figure)];
            if row.over { reader.say_with("browse-over", &parts) } else { reader.say_with("browse-through", &parts) }
        };
        Row {
            limits: row.limits.iter().map(|one| limit(reader.amount(&one.shown))).collect(),
            gives: row.gives.iter().map(|one| reader.amount(&one.shown)).collect(),
        }
    });
    Some(Printed { results: results.collect(), rows: rows.collect(), limits, gives })
}
