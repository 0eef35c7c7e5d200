//! What is in force at a place on a day: codes, amendments, powers, what is
//! pending, the history of the place's instruments, and when each was read.
//!
//! Everything here holds for no particular job. What hangs on facts of a job is
//! told with the condition under which it holds.

mod changes;
mod clauses;
mod collect;
mod instruments;
mod numbers;
mod section;
mod section_text;
mod text;

pub(in crate::report) use changes::How;
pub(in crate::report) use clauses::{Key, Line};
pub(in crate::report) use collect::codes;
pub(crate) use collect::collect;
pub(in crate::report) use instruments::{always, by_time};
pub(crate) use instruments::{edition, power_in_words};
pub(in crate::report) use numbers::numbers;
pub(in crate::report) use section::Remark;
pub(crate) use section::{AsItStands, NoSection, section};
pub(crate) use section_text::section_page;
pub(crate) use text::page;

use crate::glossary::model::PlaceId;
use crate::job::{Defaults, JobProblem, read_json};
use crate::law::library::Library;
use crate::report::finding::{Files, Finding};
use crate::rules::Rules;
use crate::syntax::diagnostic::Diagnostic;
use crate::values::Date;
use crate::verdict::Matter;
use serde::Serialize;
use std::collections::HashMap;
use utoipa::ToSchema;

/// The name of the JSON form.
pub(crate) const SCHEMA: &str = "groundrule/in-force/1";

/// What is asked of.
#[derive(Clone, Copy)]
pub(crate) struct Inquest<'a> {
    pub(crate) rules: &'a Rules,
    /// A job at the place of which the dates are known and nothing else.
    pub(crate) matter: &'a Matter<'a>,
    pub(crate) on: Date,
}

/// Why nothing can be asked of a place on a day.
#[derive(Debug)]
pub(crate) enum NoInquest {
    /// No job can be of that day.
    Dates(Vec<JobProblem>),
    /// The law of the place cannot be made.
    Law(Diagnostic),
}

impl NoInquest {
    /// The same as findings.
    pub(crate) fn findings(self, rules: &Rules) -> Vec<Finding> {
        match self {
            NoInquest::Dates(problems) => {
                problems.into_iter().map(|problem| Finding::of_json(problem, "the dates")).collect()
            }
            NoInquest::Law(told) => vec![Files::new(rules, HashMap::new()).finding(&told)],
        }
    }
}

/// Looks at a place on a day, by a job of which nothing is known but its place and its dates.
///
/// # Errors
/// Where no job can be of that day, or the law of the place cannot be made.
pub(crate) fn inquire<R>(
    rules: &Rules,
    place: PlaceId,
    on: Date,
    look: impl FnOnce(&Inquest<'_>) -> R,
) -> Result<R, NoInquest> {
    let defaults = Defaults { place: Some(place), date: Some(on) };
    let jobs = read_json("{}", rules.desk(), &defaults).map_err(NoInquest::Dates)?;
    let Some(job) = jobs.first() else { return Err(NoInquest::Dates(Vec::new())) };
    let matter = rules.matter(job).map_err(|told| NoInquest::Law(told.clone()))?;
    Ok(look(&Inquest { rules, matter: &matter, on }))
}

impl<'a> Inquest<'a> {
    fn library(&self) -> &'a Library {
        self.rules.library()
    }

    /// The same place on another day; nothing where no job can be of that day.
    fn at<R>(&self, day: Date, look: impl FnOnce(&Inquest<'_>) -> R) -> Option<R> {
        inquire(self.rules, self.matter.job.place, day, look).ok()
    }
}

/// The whole answer.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct InForce {
    pub(crate) schema: &'static str,
    /// Names, outermost first.
    pub(crate) place: Vec<String>,
    pub(crate) title: String,
    pub(crate) on: String,
    pub(crate) codes: Vec<CodeLine>,
    pub(crate) amendments: Vec<Clause>,
    pub(crate) sections: Vec<Clause>,
    pub(crate) powers: Vec<Clause>,
    pub(crate) advisory: Vec<Clause>,
    pub(crate) pending: Vec<InstrumentLine>,
    pub(crate) history: Vec<InstrumentLine>,
    pub(crate) places: Vec<PlaceLine>,
}

/// An edition on one subject.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct CodeLine {
    pub(crate) subject: String,
    pub(crate) code: String,
    pub(crate) edition: i32,
    pub(crate) title: String,
    pub(crate) by: String,
    pub(crate) issuer: String,
    /// Under which facts of a job; none where it holds for every job.
    #[serde(rename = "where", skip_serializing_if = "String::is_empty")]
    pub(crate) scope: String,
}

/// One thing that one instrument does.
#[derive(Clone, Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Clause {
    /// What is done to what: `replaces IFGC 2021 310.3`.
    pub(crate) does: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub(crate) title: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub(crate) summary: String,
    pub(crate) by: String,
    pub(crate) issuer: String,
    pub(crate) standing: Standing,
}

/// How an instrument stands on the day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Standing {
    InForce,
    /// It hangs on a day that is not known.
    Possible,
    /// An applicant may still choose the text before it.
    Elective,
    NotYet,
    Ended,
    Repealed,
    Suspended,
    Proposed,
    Enacted,
}

impl Standing {
    /// Whether it is law on the day, perhaps.
    pub(crate) fn holds(self) -> bool {
        matches!(self, Standing::InForce | Standing::Possible | Standing::Elective)
    }

    /// The standing in words.
    pub(crate) fn words(self) -> &'static str {
        match self {
            Standing::InForce => "in force",
            Standing::Possible => "perhaps in force: its days are not established",
            Standing::Elective => "in force, or the text before it where the applicant so elects",
            Standing::NotYet => "not yet in force",
            Standing::Ended => "ended",
            Standing::Repealed => "repealed",
            Standing::Suspended => "suspended",
            Standing::Proposed => "proposed",
            Standing::Enacted => "enacted, its day to come",
        }
    }
}

/// An instrument with all that it does.
#[derive(Clone, Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct InstrumentLine {
    pub(crate) instrument: String,
    pub(crate) issuer: String,
    pub(crate) kind: String,
    pub(crate) title: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) adopted: Option<String>,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub(crate) in_force: String,
    pub(crate) standing: Standing,
    /// Whether no edition that it adopted stands for any job on the day.
    pub(crate) superseded: bool,
    /// The instrument that repealed or suspended it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) ended_by: Option<String>,
    /// What it does, each in words.
    pub(crate) does: Vec<String>,
    /// Where it was read.
    pub(crate) provenance: String,
}

/// A place of the path.
#[derive(Clone, Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct PlaceLine {
    pub(crate) place: String,
    pub(crate) title: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) office: Option<String>,
    /// When and where its rules were last read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) read: Option<String>,
    /// Subjects on which it says that it has nothing of its own.
    pub(crate) nothing_of_its_own: Vec<String>,
}
