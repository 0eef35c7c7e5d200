//! The whole way for a program: from the text of a job to its verdict.
//!
//! This module refuses to read files, the clock and the network.

use crate::cure;
use crate::job::{self, Defaults};
use crate::report::sheet::{self, Sheet};
use crate::report::speech::Reader;
use crate::report::{compare, cures, json};
use crate::rules::Rules;
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::{Kind, parse};
use crate::values::Date;
use crate::verdict;
pub use crate::verdict::model::Outcome;

pub(crate) mod reading;

/// A job that was checked against a set of rules.
#[derive(Clone, Debug)]
pub struct Job(pub(crate) job::model::Job);

/// Room to work in, to be kept from one job to the next.
#[derive(Debug, Default)]
pub struct Scratch(pub(crate) verdict::Scratch);

/// Why a job could not be read: where, what, and what would mend it.
#[derive(Clone, Debug, thiserror::Error)]
#[error("{0}")]
pub struct NoJob(String);

/// Why there is no verdict.
#[derive(Debug, thiserror::Error)]
pub enum NoVerdict {
    /// The law of the job's place cannot be made.
    #[error("{code} {message}")]
    Law {
        /// The code of the finding, such as `GR0700`.
        code: String,
        /// What is wrong.
        message: String,
    },
    /// The verdict cannot be written.
    #[error("the verdict cannot be written: {0}")]
    Json(#[from] serde_json::Error),
}

impl NoVerdict {
    fn of(problem: &Diagnostic) -> NoVerdict {
        NoVerdict::Law { code: problem.code.to_string(), message: problem.message.clone() }
    }
}

/// What the law asks of one job, and how the job stands, with the reasons.
#[derive(Debug)]
pub struct Verdict<'a>(verdict::model::Verdict<'a>);

impl Rules {
    /// Reads the jobs of a JSON text: one object, or a list of them.
    ///
    /// # Errors
    /// Every problem in a line of its own: where, what, and what would mend it.
    pub fn read_jobs(&self, text: &str) -> Result<Vec<Job>, Vec<NoJob>> {
        match job::read_json(text, self.desk(), &Defaults::default()) {
            Ok(jobs) => Ok(jobs.into_iter().map(Job).collect()),
            Err(problems) => Err(problems.iter().map(|problem| NoJob(problem.to_string())).collect()),
        }
    }

    /// How a job stands, without reasons.
    ///
    /// # Errors
    /// Where the law of the job's place cannot be made.
    pub fn outcome(&self, job: &Job, scratch: &mut Scratch) -> Result<Outcome, NoVerdict> {
        let matter = self.matter(&job.0).map_err(NoVerdict::of)?;
        Ok(verdict::quick(&matter, &mut scratch.0))
    }

    /// The verdict on a job, with reasons.
    ///
    /// # Errors
    /// Where the law of the job's place cannot be made.
    pub fn verdict<'a>(&'a self, job: &'a Job, scratch: &mut Scratch) -> Result<Verdict<'a>, NoVerdict> {
        let matter = self.matter(&job.0).map_err(NoVerdict::of)?;
        Ok(Verdict(self.weighed(&matter, &mut scratch.0)))
    }

    /// The verdict on a job as JSON (`groundrule/verdict/1`).
    ///
    /// # Errors
    /// Where the law of the job's place cannot be made.
    pub fn verdict_json(&self, job: &Job, scratch: &mut Scratch) -> Result<String, NoVerdict> {
        let matter = self.matter(&job.0).map_err(NoVerdict::of)?;
        let told = self.weighed(&matter, &mut scratch.0);
        let whole = self.told_of(&told, &matter, &mut scratch.0);
        Ok(serde_json::to_string(&whole)?)
    }

    /// The fewest choices of the contractor after which nothing is not met, referred or
    /// contradictory in any of these jobs, which differ in their place alone, as JSON: the
    /// `cures` or `no-cure` of an answer of `groundrule/verdict/1`. A cure without changes
    /// says that nothing need be changed.
    ///
    /// # Errors
    /// Where the law of a place cannot be made.
    pub fn cures_of_all_json(&self, jobs: &[Job], scratch: &mut Scratch) -> Result<String, NoVerdict> {
        let mut matters = Vec::new();
        for job in jobs {
            matters.push(self.matter(&job.0).map_err(NoVerdict::of)?);
        }
        let found = cure::all_of(&matters, &mut scratch.0);
        let told = matters.first().map(|first| cures::json(&found, first)).unwrap_or_default();
        Ok(serde_json::to_string(&told)?)
    }

    /// A job as JSON (`groundrule/job/1`): what it says, and nothing that is unknown.
    #[must_use]
    pub fn job_json(&self, job: &Job) -> String {
        job::to_json(&job.0, self.desk()).to_string()
    }

    /// A job as the text of a job sheet.
    #[must_use]
    pub fn job_sheet(&self, job: &Job) -> String {
        job::to_sheet(&job.0, self.desk())
    }

    /// The verdict on a job with what must be said of its place: one that has no
    /// instrument, and of which nobody said that it has none, is told.
    pub(crate) fn weighed<'a>(
        &'a self,
        matter: &verdict::Matter<'a>,
        scratch: &mut verdict::Scratch,
    ) -> verdict::model::Verdict<'a> {
        let mut told = verdict::full(matter, scratch);
        let library = self.library();
        let place = matter.job.place;
        if let Some(about) = library.places.issuer(place)
            && library.of_issuer(place).is_empty()
            && about.nothing.is_empty()
        {
            told.cautions.push(verdict::aside::Aside::NothingRecorded(&about.title));
        }
        told
    }

    /// One job side by side in several places or on several days.
    ///
    /// # Errors
    /// Where the law of one of the places cannot be made.
    pub(crate) fn compared(
        &self,
        sides: &[compare::Side],
        reader: Reader,
        today: Date,
    ) -> Result<compare::Comparison, Diagnostic> {
        let mut scratch = verdict::Scratch::default();
        let mut gathering = compare::Gathering::new(self, reader, today);
        let mut matters = Vec::with_capacity(sides.len());
        for side in sides {
            let matter = self.matter(&side.job).map_err(Diagnostic::clone)?;
            let told = self.weighed(&matter, &mut scratch);
            gathering.add(side, &told, &matter);
            matters.push(matter);
        }
        // What some place does not know of the job cannot be chosen for all of them.
        let alike = sides.iter().all(|side| side.left.is_empty()) && sides.len() <= compare::TOGETHER;
        let for_all = matters.first().filter(|_| alike);
        let for_all = for_all.map(|first| (cure::all_of(&matters, &mut scratch), first));
        Ok(gathering.finish(for_all))
    }

    /// A verdict spelled out for a reader; `all` tells each answer by itself, also
    /// those that ask nothing.
    pub(crate) fn sheet(
        &self,
        told: &verdict::model::Verdict<'_>,
        matter: &verdict::Matter<'_>,
        today: Date,
        reader: Reader,
        all: bool,
    ) -> Sheet {
        let rests_on = self.hash_of_files(told.files.iter().copied());
        let places = &self.library().places;
        let frame = sheet::Frame { places, today, reader, all, library: self.hash(), rests_on };
        Sheet::new(told, matter, &frame)
    }

    /// A verdict ready to be written as JSON.
    pub(crate) fn told_of<'a>(
        &'a self,
        told: &'a verdict::model::Verdict<'a>,
        matter: &'a verdict::Matter<'a>,
        scratch: &mut verdict::Scratch,
    ) -> json::Whole<'a> {
        let places = &self.library().places;
        let path = places.path(matter.job.place);
        let names: Vec<&str> =
            path.iter().filter_map(|place| places.issuer(*place)).map(|place| &*place.name).collect();
        let rests_on = self.hash_of_files(told.files.iter().copied());
        let frame = json::Frame { place: names, library: self.hash(), rests_on };
        json::verdict(told, matter, scratch, frame, &cure::of(told, matter))
    }
}

impl Verdict<'_> {
    /// What becomes of the job.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        self.0.outcome
    }
}

/// What is wrong with the text of one rule file by its form alone, a line each.
#[must_use]
pub fn syntax_problems(text: &str) -> Vec<String> {
    parse(FileId::default(), text, Kind::Rules)
        .diagnostics
        .iter()
        .map(|told| format!("{} {}", told.code, told.message))
        .collect()
}
