//! A place and a day: what stands at the head of a column.

use super::super::sheet::head;
use super::super::speech::Reader;
use super::Side;
use crate::glossary::model::{FieldId, Shape};
use crate::job::model::Given;
use crate::job::to_json;
use crate::law::places::Issuer;
use crate::rules::Rules;
use crate::syntax::tree::ProvenanceKind;
use crate::verdict::Matter;
use crate::verdict::model::Verdict;
use serde::Serialize;
use serde_json::{Map, Value};

/// The head of a column.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Column {
    /// Names, outermost first.
    pub(crate) place: Vec<String>,
    /// The printed name, behind it those of the places around it.
    pub(crate) title: String,
    /// What tells the column from the others, short.
    pub(crate) label: String,
    /// The day that chooses the texts, where it is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) date: Option<String>,
    /// Every date of the job there.
    pub(crate) dates: Map<String, Value>,
    pub(crate) outcome: &'static str,
    pub(crate) outcome_words: String,
    /// The editions that may apply, with the instrument that adopted each.
    pub(crate) codes: Vec<CodeHere>,
    /// When the rules of the place, and of those around it, were last read.
    pub(crate) read: Vec<ReadOn>,
    /// What the job says and the place does not know, in words.
    pub(crate) notes: Vec<String>,
    /// The cautions of the verdict.
    pub(crate) cautions: Vec<String>,
    /// Facts to ask, the most telling first.
    pub(crate) ask: Vec<String>,
    /// The hash of the files whose provisions took part.
    pub(crate) rests_on: String,
}

/// An edition in force in a column.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct CodeHere {
    pub(crate) code: String,
    pub(crate) edition: i32,
    pub(crate) subjects: Vec<String>,
    pub(crate) by: String,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub(crate) possible: bool,
    /// All of it in words.
    pub(crate) words: String,
}

/// When the rules of a place were last read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct ReadOn {
    pub(crate) place: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) on: Option<String>,
}

/// The head of the column of a side.
pub(super) fn column(rules: &Rules, reader: Reader, side: &Side, verdict: &Verdict<'_>, matter: &Matter<'_>) -> Column {
    let places = &rules.library().places;
    let path = places.path(matter.job.place);
    let issuers: Vec<&Issuer> = path.iter().filter_map(|place| places.issuer(*place)).collect();
    let date = matter.lexicon.roles.dates.and_then(|field| reader.given(matter.fact(field), field, &matter.lexicon));
    Column {
        place: issuers.iter().map(|issuer| issuer.name.to_string()).collect(),
        title: issuers.iter().rev().map(|issuer| &*issuer.title).collect::<Vec<_>>().join(", "),
        label: String::new(),
        date: date
            .filter(|_| matter.lexicon.roles.dates.is_some_and(|field| matches!(matter.fact(field), Given::Date(_)))),
        dates: dates(rules, side, matter),
        outcome: verdict.outcome.word(),
        outcome_words: head::word(verdict.outcome, reader),
        codes: codes(reader, verdict),
        read: issuers.iter().map(|issuer| read(issuer)).collect(),
        notes: side.left.iter().map(|left| note(rules, reader, left)).collect(),
        cautions: verdict.cautions.iter().map(|caution| reader.aside(caution)).collect(),
        ask: verdict.ask.iter().map(|ask| ask.fact.clone()).collect(),
        rests_on: rules.hash_of_files(verdict.files.iter().copied()),
    }
}

/// The dates that the job has in a column.
fn dates(rules: &Rules, side: &Side, matter: &Matter<'_>) -> Map<String, Value> {
    let Value::Object(job) = to_json(&side.job, rules.desk()) else { return Map::new() };
    let is_date = |name: &str| {
        let known = (0u16..).zip(matter.lexicon.fields).find(|(_, field)| &*field.path == name);
        known.is_some_and(|(id, field)| field.shape == Shape::Date && matter.lexicon.list_of(FieldId(id)).is_none())
    };
    job.into_iter().filter(|(name, _)| is_date(name)).collect()
}

/// The editions, those of several subjects told once.
fn codes(reader: Reader, verdict: &Verdict<'_>) -> Vec<CodeHere> {
    let mut told: Vec<CodeHere> = Vec::new();
    for edition in &verdict.codes {
        let code = edition.code;
        let same = |known: &&mut CodeHere| {
            *known.code == *code.code
                && known.edition == code.edition
                && *known.by == *code.by
                && known.possible == edition.possible
        };
        match told.iter_mut().find(same) {
            Some(known) => known.subjects.push(edition.subject.to_owned()),
            None => told.push(CodeHere {
                code: code.code.to_string(),
                edition: code.edition,
                subjects: vec![edition.subject.to_owned()],
                by: code.by.to_string(),
                possible: edition.possible,
                words: String::new(),
            }),
        }
    }
    for code in &mut told {
        let subjects: Vec<String> =
            code.subjects.iter().map(|subject| super::super::screen::words::spoken(subject)).collect();
        let edition = format!("{} {}", code.code, code.edition);
        let parts = [("edition", &*edition), ("by", &*code.by), ("subjects", &*subjects.join(", "))];
        code.words = if code.possible {
            reader.say_with("compare-code-perhaps", &parts)
        } else {
            reader.say_with("compare-code", &parts)
        };
    }
    told
}

fn read(issuer: &Issuer) -> ReadOn {
    let on = issuer.provenance.as_ref().and_then(|provenance| match &provenance.kind {
        ProvenanceKind::Read { on, .. } => Some(on.text.to_string()),
        ProvenanceKind::Memory | ProvenanceKind::CommonPractice => None,
    });
    ReadOn { place: issuer.title.to_string(), on }
}

fn note(rules: &Rules, reader: Reader, left: &crate::job::Left) -> String {
    let home = rules.library().places.issuer(left.known_in).map_or("", |issuer| &*issuer.title);
    match &left.term {
        Some(term) => reader.say_with("compare-left-term", &[("term", term), ("fact", &left.path), ("place", home)]),
        None => reader.say_with("compare-left-fact", &[("fact", &left.path), ("place", home)]),
    }
}

/// Labels every column with what tells it from the others.
pub(super) fn label(columns: &mut [Column]) {
    let several = |of: &dyn Fn(&Column) -> String| {
        let mut all: Vec<String> = columns.iter().map(of).collect();
        all.sort();
        all.dedup();
        all.len() > 1
    };
    let places = several(&|column| column.place.join("/"));
    let dates = several(&|column| column.date.clone().unwrap_or_default());
    let own = |column: &Column| column.title.split(", ").next().unwrap_or_default().to_owned();
    let labels: Vec<String> = columns
        .iter()
        .map(|column| {
            let namesake = |other: &&Column| other.place != column.place && own(other) == own(column);
            let place = if columns.iter().any(|other| namesake(&other)) { column.title.clone() } else { own(column) };
            match &column.date {
                Some(date) if dates && places => format!("{place}, {date}"),
                Some(date) if dates => date.clone(),
                _ => place,
            }
        })
        .collect();
    for (column, label) in columns.iter_mut().zip(labels) {
        column.label = label;
    }
}

impl Column {
    /// When the rules were last read, in words: one day where all are of that day.
    pub(super) fn read_words(&self, reader: Reader) -> String {
        let day = |read: &ReadOn| read.on.clone().unwrap_or_else(|| reader.say("compare-not-recorded"));
        match self.read.as_slice() {
            [first, rest @ ..] if rest.iter().all(|other| other.on == first.on) => day(first),
            all => {
                all.iter().rev().map(|read| format!("{} ({})", day(read), read.place)).collect::<Vec<_>>().join("; ")
            }
        }
    }

    /// The editions in words.
    pub(super) fn codes_words(&self, reader: Reader) -> Vec<String> {
        if self.codes.is_empty() {
            return vec![reader.say("sheet-no-code")];
        }
        self.codes.iter().map(|code| code.words.clone()).collect()
    }
}
