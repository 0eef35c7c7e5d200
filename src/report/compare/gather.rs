//! The comparison as it is gathered, column by column, and put together in rows.

use super::super::cures;
use super::super::screen::order;
use super::super::sheet::closing;
use super::super::sheet::facts::{Echo, echo};
use super::super::speech::Reader;
use super::cell::{self, Cell};
use super::column::{self, Column};
use super::rank::{Stand, Unranked, rank};
use super::{Comparison, Row, SCHEMA, Side, ban};
use crate::cure::Cures;
use crate::glossary::model::{Order, PlaceId, Question, QuestionId};
use crate::job::to_json;
use crate::rules::Rules;
use crate::values::Date;
use crate::verdict::Matter;
use crate::verdict::found::State;
use crate::verdict::model::{Outcome, Verdict};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

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
            stands.push(Stand::Unranked { why: Unranked::Absent, floor: None });
        }
        cells.push(cell);
        stands.push(stand);
    }
    while cells.len() < width {
        cells.push(cell::absent(reader));
        stands.push(Stand::Unranked { why: Unranked::Absent, floor: None });
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
        title: question.printed().to_owned(),
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
