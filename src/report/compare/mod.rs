//! One job at many places or on many days, side by side: a column for each place and day, a row
//! for each question, those first that are answered otherwise.
//!
//! Every form (text, HTML, CSV, JSON) lays out the same [`Comparison`]. This module refuses to
//! know how a verdict was reached and how a job was read.

mod ban;
mod cell;
mod column;
mod csv;
mod groups;
mod html;
mod rank;
mod sides;
#[cfg(test)]
mod tests;
mod text;

pub(crate) use csv::csv;
pub(crate) use html::{Sheet, html, sheet};
pub(crate) use sides::{Axes, Side, sides};
pub(crate) use text::page;

use super::cures;
use super::screen::order;
use super::sheet::closing;
use super::sheet::facts::{Echo, echo};
use super::speech::Reader;
use crate::cure::Cures;
use crate::glossary::model::{Order, PlaceId, Question, QuestionId};
use crate::job::to_json;
use crate::rules::Rules;
use crate::values::Date;
use crate::verdict::Matter;
use crate::verdict::found::State;
use crate::verdict::model::{Outcome, Verdict};
use cell::Cell;
use column::Column;
use rank::{Stand, rank};
use serde::Serialize;
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// The name of the JSON form.
pub(crate) const SCHEMA: &str = "groundrule/compare/1";

/// The most columns for which choices are looked for that satisfy all of them: each multiplies the work.
pub(crate) const TOGETHER: usize = 12;

/// The most columns that are laid side by side.
pub(crate) const COLUMNS: usize = 200;

/// The whole comparison.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Comparison {
    pub(crate) schema: &'static str,
    /// The worst of all columns.
    pub(crate) outcome: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) reference: Option<String>,
    pub(crate) library: String,
    pub(crate) engine: &'static str,
    /// What the job says in every column, as it is written in a job.
    pub(crate) job: Value,
    pub(crate) columns: Vec<Column>,
    /// Those that are answered otherwise somewhere first, each kind in the order of the work.
    pub(crate) rows: Vec<Row>,
    pub(crate) cautions: Vec<String>,
    /// The fewest choices after which every column has what it asks, or that there are none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) for_all: Option<cures::Json>,
    /// The same in words.
    #[serde(skip)]
    pub(crate) for_all_words: Vec<String>,
    /// What the job says in every column, in words.
    #[serde(skip)]
    facts: Vec<Echo>,
    #[serde(skip)]
    pub(crate) worst: Outcome,
}

/// One question.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Row {
    pub(crate) question: String,
    pub(crate) title: String,
    /// Which answers are stricter: `ladder`, `at-least`, `at-most`, `only`, `all-of`.
    pub(crate) order: &'static str,
    /// Whether some column answers otherwise than another.
    pub(crate) differs: bool,
    /// The columns, counted from 0, whose answer is as strict as that of every other that is
    /// ranked, and stricter than some.
    pub(crate) strictest: Vec<usize>,
    /// Whether the ranked answers differ and none is as strict as all others.
    pub(crate) not_comparable: bool,
    /// One for each column.
    pub(crate) cells: Vec<Cell>,
    /// Whether it is asked only under a condition.
    #[serde(skip)]
    conditional: bool,
    /// Whether somebody advises on it in some column.
    #[serde(skip)]
    advised: bool,
}

/// A comparison that is being gathered, column by column.
pub(crate) struct Gathering<'r> {
    rules: &'r Rules,
    reader: Reader,
    today: Date,
    worst: Outcome,
    reference: Option<String>,
    job: Option<Map<String, Value>>,
    facts: Option<Vec<Echo>>,
    places: Vec<PlaceId>,
    columns: Vec<Column>,
    /// For each question the columns that know it.
    answers: BTreeMap<QuestionId, Vec<(usize, Cell, Stand)>>,
}

impl<'r> Gathering<'r> {
    /// Nothing yet, for a reader on a day.
    pub(crate) fn new(rules: &'r Rules, reader: Reader, today: Date) -> Gathering<'r> {
        Gathering {
            rules,
            reader,
            today,
            worst: Outcome::Complies,
            reference: None,
            job: None,
            facts: None,
            places: Vec::new(),
            columns: Vec::new(),
            answers: BTreeMap::new(),
        }
    }

    /// Adds a column: what the law of the side says to its job.
    pub(crate) fn add(&mut self, side: &Side, verdict: &Verdict<'_>, matter: &Matter<'_>) {
        let at = self.columns.len();
        self.worst = self.worst.max(verdict.outcome);
        self.reference = verdict.reference.map(str::to_owned);
        for place in self.rules.library().places.path(matter.job.place) {
            if !self.places.contains(&place) {
                self.places.push(place);
            }
        }
        self.keep_common(&to_json(&side.job, self.rules.desk()), echo(verdict, matter, self.reader));
        self.columns.push(column::column(self.rules, self.reader, side, verdict, matter));
        let banned = ban::of(verdict, matter);
        for answer in &verdict.answers {
            let Some(law) = matter.law.questions.get(answer.number) else { continue };
            let banned = banned && answer.found.state != State::Silent && ban::falls(&answer.question.name);
            let told = cell::cell(self.reader, answer, verdict, matter, banned);
            let stand = cell::stand(answer, law, banned);
            self.answers.entry(law.question).or_default().push((at, told, stand));
        }
    }

    /// Of the facts, those that every column has alike.
    fn keep_common(&mut self, job: &Value, words: Vec<Echo>) {
        if let Some(job) = job.as_object() {
            let known = self.job.get_or_insert_with(|| job.clone());
            known.retain(|name, value| job.get(name) == Some(value));
        }
        match &mut self.facts {
            None => self.facts = Some(words),
            Some(known) => known.retain(|fact| words.contains(fact)),
        }
    }

    /// The comparison of all columns.
    ///
    /// `for_all` is what makes every column have what it asks, told as of the first of them;
    /// nothing where it was not looked for.
    pub(crate) fn finish(self, for_all: Option<(Cures, &Matter<'_>)>) -> Comparison {
        let told = for_all.filter(|(found, _)| !is_so_already(found));
        let for_all_words = match &told {
            None => Vec::new(),
            Some((found, matter)) => {
                let each = found.list().iter().map(|cure| cures::mend(cure, matter, self.reader).text);
                each.chain(cures::why_none(found, self.reader)).collect()
            }
        };
        let for_all = told.map(|(found, matter)| cures::json(&found, matter));
        let width = self.columns.len();
        let questions = &self.rules.library().glossary.questions;
        let mut rows: Vec<Row> = self
            .answers
            .into_iter()
            .filter_map(|(id, cells)| Some(row(questions.get(usize::from(id.0))?, cells, width, self.reader)))
            .collect();
        rows.sort_by(|one, two| {
            (!one.differs, order::rank(&one.question)).cmp(&(!two.differs, order::rank(&two.question)))
        });
        let mut columns = self.columns;
        column::label(&mut columns);
        let mut job = self.job.unwrap_or_default();
        for beside in ["schema", "place", "reference"] {
            job.shift_remove(beside);
        }
        Comparison {
            schema: SCHEMA,
            outcome: self.worst.word(),
            reference: self.reference,
            library: self.rules.hash().to_owned(),
            engine: env!("CARGO_PKG_VERSION"),
            job: Value::Object(job),
            columns,
            rows,
            cautions: closing::standing(&self.places, &self.rules.library().places, self.today, self.reader),
            for_all,
            for_all_words,
            facts: self.facts.unwrap_or_default(),
            worst: self.worst,
        }
    }
}

/// Whether every column has what it asks as the job stands.
fn is_so_already(found: &Cures) -> bool {
    matches!(found, Cures::Found(all) if all.iter().all(|cure| cure.changes.is_empty()))
}

/// A row of the cells that some columns have of a question.
fn row(question: &Question, known: Vec<(usize, Cell, Stand)>, width: usize, reader: Reader) -> Row {
    let mut cells: Vec<Cell> = Vec::with_capacity(width);
    let mut stands: Vec<Stand> = Vec::with_capacity(width);
    for (at, cell, stand) in known {
        while cells.len() < at {
            cells.push(cell::absent(reader));
            stands.push(Stand::Unranked { why: rank::Unranked::Absent, floor: None });
        }
        cells.push(cell);
        stands.push(stand);
    }
    while cells.len() < width {
        cells.push(cell::absent(reader));
        stands.push(Stand::Unranked { why: rank::Unranked::Absent, floor: None });
    }
    cell::set_idle_apart(&cells, &mut stands);
    let ranking = rank(&question.order, &stands);
    for ((cell, stand), strictest) in cells.iter_mut().zip(&stands).zip(&ranking.strictest) {
        cell.strictest = *strictest;
        cell.unranked = match stand {
            Stand::Unranked { why, .. } => Some(why.word()),
            _ => None,
        };
    }
    let marked = ranking.strictest.iter().enumerate().filter(|(_, marked)| **marked);
    Row {
        question: question.name.to_string(),
        title: if question.title.is_empty() { question.name.to_string() } else { question.title.to_string() },
        order: match question.order {
            Order::Ladder(_) => "ladder",
            Order::AtLeast(_) => "at-least",
            Order::AtMost(_) => "at-most",
            Order::Only(_) => "only",
            Order::AllOf(_) => "all-of",
        },
        differs: cells.iter().zip(cells.iter().skip(1)).any(|(one, next)| !one.says_the_same(next)),
        strictest: marked.map(|(at, _)| at).collect(),
        not_comparable: ranking.torn,
        conditional: question.asked.is_some(),
        advised: cells.iter().any(|cell| cell.advised),
        cells,
    }
}

impl Row {
    /// Whether no column asks it of this job, and some answers it all the same.
    fn idle(&self) -> bool {
        self.cells.iter().all(|cell| !cell.asked) && self.cells.iter().any(Cell::is_idle)
    }
}

impl Comparison {
    /// The comparison as a JSON value; every name in it is a text, so that writing it does not
    /// fail.
    pub(crate) fn to_value(&self) -> Value {
        serde_json::to_value(self).unwrap_or_else(|problem| problem.to_string().into())
    }

    /// The rows that some column answers otherwise.
    pub(crate) fn differing(&self) -> impl Iterator<Item = &Row> {
        self.rows.iter().filter(|row| row.differs)
    }
}

/// The first sentence: how much is compared and how much differs.
fn headline(comparison: &Comparison, reader: Reader) -> String {
    let distinct = |of: &dyn Fn(&Column) -> String| {
        let mut all: Vec<String> = comparison.columns.iter().map(of).collect();
        all.sort();
        all.dedup();
        all.len()
    };
    let places = distinct(&|column| column.place.join("/")).to_string();
    let days = distinct(&|column| column.date.clone().unwrap_or_default()).to_string();
    let parts = [
        ("places", &*places),
        ("days", &*days),
        ("some", &*comparison.differing().count().to_string()),
        ("all", &*comparison.rows.len().to_string()),
    ];
    reader.say_with("compare-headline", &parts)
}

/// What all columns have alike.
fn shared<'c>(comparison: &'c Comparison, of: &dyn Fn(&'c Column) -> Option<&'c String>) -> Option<&'c String> {
    let mut all = comparison.columns.iter().map(of);
    let first = all.next()??;
    all.all(|other| other == Some(first)).then_some(first)
}

/// The labels of some columns.
fn labels(columns: &[Column], some: &[usize]) -> String {
    let labels: Vec<&str> = some.iter().filter_map(|at| columns.get(*at)).map(|column| &*column.label).collect();
    labels.join("; ")
}

/// The finding of a cell; none where there is no use in it.
fn finding_words(cell: &Cell, reader: Reader) -> Option<String> {
    let finding = cell.finding.filter(|_| cell.not_applicable.is_none())?;
    Some(match finding {
        "met" => reader.say("sheet-mark-met"),
        "not-met" => reader.say("sheet-mark-not-met"),
        _ => reader.say("sheet-mark-open"),
    })
}

/// The answer of a cell; what is not asked of the job there is said beside, where other columns
/// ask it.
fn answer_words(cell: &Cell, row: &Row, reader: Reader) -> String {
    if cell.is_idle() && !row.idle() {
        return reader.say_with("compare-idle", &[("answer", &cell.words)]);
    }
    cell.words.clone()
}

/// The same with its finding and its mark.
fn cell_words(cell: &Cell, row: &Row, reader: Reader) -> String {
    let answer = answer_words(cell, row, reader);
    let words = match finding_words(cell, reader) {
        Some(finding) => format!("{finding}: {answer}"),
        None => answer,
    };
    if cell.strictest { format!("{words} ({})", reader.say("compare-strictest")) } else { words }
}

/// That facts of the job could change a cell, and which.
fn hangs_words(cell: &Cell, reader: Reader) -> Option<String> {
    let settled = cell.state == "settled";
    match (cell.may_change, cell.hangs_on.as_slice()) {
        (false, _) => None,
        (true, facts @ [_, ..]) if settled => {
            Some(reader.say_with("compare-finding-hangs-on", &[("facts", &facts.join(", "))]))
        }
        (true, []) => Some(reader.say("compare-may-change")),
        (true, facts) => Some(reader.say_with("compare-hangs-on", &[("facts", &facts.join(", "))])),
    }
}

/// What keeps answers of a row from being ranked.
fn ranking_words(row: &Row, columns: &[Column], reader: Reader) -> Option<String> {
    let mut words: Vec<String> = Vec::new();
    if row.not_comparable {
        words.push(reader.say("compare-not-comparable"));
    }
    // That no rule is known, or that there is no such question, the answer itself says.
    let told = |why: &str| !matches!(why, "silent" | "no-such-question");
    for (why, some) in groups::unranked(row).into_iter().filter(|(why, _)| told(why)) {
        let parts = [("columns", &*labels(columns, &some)), ("why", &*why_words(why, reader))];
        words.push(reader.say_with("compare-unranked", &parts));
    }
    (!words.is_empty()).then(|| words.join(". "))
}

/// Why an answer is not ranked, in words.
fn why_words(why: &str, reader: Reader) -> String {
    match why {
        "open" => reader.say("compare-unranked-open"),
        "referred" => reader.say("sheet-left-to-authority"),
        "conflict" => reader.say("sheet-contradict"),
        "silent" => reader.say("sheet-silent"),
        "not-asked" => reader.say("compare-unranked-idle"),
        _ => reader.say("compare-no-such-question"),
    }
}

/// Notes with the columns that have them.
fn notes(columns: &[Column]) -> Vec<(Vec<usize>, &str)> {
    let mut told: Vec<(Vec<usize>, &str)> = Vec::new();
    for (at, column) in columns.iter().enumerate() {
        for note in &column.notes {
            match told.iter_mut().find(|(_, known)| known == note) {
                Some((some, _)) => some.push(at),
                None => told.push((vec![at], note)),
            }
        }
    }
    told
}
