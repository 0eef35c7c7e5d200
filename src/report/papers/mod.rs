//! The papers of the trade: one verdict laid out for whoever needs it on paper.
//!
//! Each paper is one file that says what stands on it, with its template beside it;
//! what all share (head, facts, cautions, place to sign) stands in `page` and
//! `paper.html`. A paper refuses to know how a verdict was reached, files and the
//! clock; what a job does not say is a blank on it.

mod answer;
mod checklist;
mod clause;
mod detail;
mod drawn;
mod facts;
mod materials;
mod notice;
mod owners_letter;
mod page;
mod plan_notes;
mod quantities;
#[cfg(test)]
mod tests;
mod work_split;

pub(crate) use drawn::Drawn;

use super::speech::{Reader, template};
use minijinja::value::Serde;
use minijinja::{Error, Value};
use serde::Serialize;

/// How all papers look; it goes into each file.
const STYLE: &str = include_str!("paper.css");

/// A paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Paper {
    #[default]
    Answer,
    PlanNotes,
    Detail,
    Materials,
    WorkSplit,
    Checklist,
    Notice,
    OwnersLetter,
}

impl Paper {
    /// Every one, in the order of the work.
    pub(crate) const ALL: [Paper; 8] = [
        Paper::Answer,
        Paper::PlanNotes,
        Paper::Detail,
        Paper::Materials,
        Paper::WorkSplit,
        Paper::Checklist,
        Paper::Notice,
        Paper::OwnersLetter,
    ];

    /// The name in links and arguments.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Paper::Answer => "answer",
            Paper::PlanNotes => "plan-notes",
            Paper::Detail => "detail",
            Paper::Materials => "materials",
            Paper::WorkSplit => "work-split",
            Paper::Checklist => "checklist",
            Paper::Notice => "notice",
            Paper::OwnersLetter => "owners-letter",
        }
    }

    /// The paper with this name.
    pub(crate) fn find(name: &str) -> Option<Paper> {
        Paper::ALL.into_iter().find(|paper| paper.name() == name)
    }

    /// What stands above it.
    pub(crate) fn title(self, reader: Reader) -> String {
        match self {
            Paper::Answer => reader.say("papers-answer"),
            Paper::PlanNotes => reader.say("papers-plan-notes"),
            Paper::Detail => reader.say("papers-detail"),
            Paper::Materials => reader.say("papers-materials"),
            Paper::WorkSplit => reader.say("papers-work-split"),
            Paper::Checklist => reader.say("papers-checklist"),
            Paper::Notice => reader.say("papers-notice"),
            Paper::OwnersLetter => reader.say("papers-owners-letter"),
        }
    }

    /// For whom it is, and what it is not.
    fn lead(self, reader: Reader) -> String {
        match self {
            Paper::Answer => reader.say("papers-answer-lead"),
            Paper::PlanNotes => reader.say("papers-plan-notes-lead"),
            Paper::Detail => reader.say("papers-detail-lead"),
            Paper::Materials => reader.say("papers-materials-lead"),
            Paper::WorkSplit => reader.say("papers-work-split-lead"),
            Paper::Checklist => reader.say("papers-checklist-lead"),
            Paper::Notice => reader.say("papers-notice-lead"),
            Paper::OwnersLetter => reader.say("papers-owners-letter-lead"),
        }
    }

    /// Who signs it.
    fn signed(self, drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<String> {
        match self {
            Paper::Answer | Paper::Materials => Vec::new(),
            Paper::PlanNotes | Paper::Detail => vec![reader.say("papers-sign-prepared")],
            Paper::WorkSplit => vec![reader.say("papers-sign-gas"), reader.say("papers-sign-electrical")],
            Paper::Checklist if checklist::one_visit(drawn) => vec![reader.say("papers-sign-final")],
            Paper::Checklist => vec![reader.say("papers-sign-rough"), reader.say("papers-sign-final")],
            Paper::Notice => vec![reader.say("papers-sign-inspector"), reader.say("papers-sign-received")],
            Paper::OwnersLetter => vec![reader.say("papers-sign-contractor")],
        }
    }

    /// What stands on it, and the template that lays it out.
    fn body(self, drawn: &Drawn<'_, '_>, reader: Reader) -> (&'static str, Value) {
        match self {
            Paper::Answer => ("answer.html", Value::from(Serde(answer::body(drawn)))),
            Paper::PlanNotes => ("plan_notes.html", Value::from(Serde(plan_notes::body(drawn, reader)))),
            Paper::Detail => ("detail.html", Value::from(Serde(detail::body(drawn, reader)))),
            Paper::Materials => ("materials.html", Value::from(Serde(materials::body(drawn, reader)))),
            Paper::WorkSplit => ("work_split.html", Value::from(Serde(work_split::body(drawn, reader)))),
            Paper::Checklist => ("checklist.html", Value::from(Serde(checklist::body(drawn, reader)))),
            Paper::Notice => ("notice.html", Value::from(Serde(notice::body(drawn, reader)))),
            Paper::OwnersLetter => ("owners_letter.html", Value::from(Serde(owners_letter::body(drawn, reader)))),
        }
    }
}

/// A document of one paper for each job.
#[derive(Serialize)]
struct Document<'d> {
    title: String,
    pages: Vec<page::Page<'d>>,
    style: &'static str,
    foot: String,
}

/// One paper for each job, each on a page of its own: a file that needs nothing else.
///
/// # Errors
/// Where a template does not fit what is put in, which the tests of the papers show.
pub(crate) fn write(paper: Paper, drawn: &[Drawn<'_, '_>], reader: Reader) -> Result<String, Error> {
    let title = paper.title(reader);
    let document = Document {
        foot: page::foot(&title, drawn),
        title,
        pages: drawn.iter().map(|drawn| page::Page::new(paper, drawn, reader)).collect(),
        style: STYLE,
    };
    template::render("paper.html", &document, reader)
}
