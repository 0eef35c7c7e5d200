//! `groundrule verdict`: what the rules in force ask of a job, and how it stands.

use super::options::{As, JobOptions, RulesOptions};
use super::status::Status;
use super::{jobs, screen};
use crate::report::cures;
use crate::report::finding::{Files, Finding};
use crate::report::screen::{Frame, verdict};
use crate::report::sheet::closing::standing;
use crate::report::speech::Reader;
use crate::rules::Rules;
use crate::verdict::Scratch;
use crate::verdict::model::Outcome;
use clap::Args;
use serde_json::Value;
use std::collections::HashMap;

/// What the rules in force ask of a job, and how the job stands
#[derive(Args, Debug)]
pub(crate) struct Verdict {
    /// Job sheets (.job) or JSON files; - reads standard input.
    #[arg(value_name = "JOB", required = true)]
    files: Vec<String>,
    #[command(flatten)]
    rules: RulesOptions,
    #[command(flatten)]
    job: JobOptions,
    /// In which form to answer.
    #[arg(long = "as", value_enum, default_value_t)]
    form: As,
    /// Tell all reasons: what governs, what was weaker or set aside, by whom, where it was read.
    #[arg(long, alias = "reasons")]
    why: bool,
    /// Lay the lawful ways side by side instead, for a bid: every choice of piping that the job leaves open.
    #[arg(long, conflicts_with = "why")]
    ways: bool,
}

impl Verdict {
    /// Answers for every job; the worst outcome is the status.
    pub(crate) fn run(self) -> Status {
        let Some(rules) = self.rules.load_or_tell(self.form) else { return Status::Unusable };
        match self.answer(&rules) {
            Ok((text, outcome)) => {
                screen::print(&text);
                outcome.into()
            }
            Err(findings) => {
                screen::report(&findings, self.form);
                Status::Unusable
            }
        }
    }

    fn answer(&self, rules: &Rules) -> Result<(String, Outcome), Vec<Finding>> {
        let defaults = self.job.defaults(rules).map_err(|problem| vec![problem])?;
        let jobs = jobs::read(&self.files, rules, &defaults)?;
        let mut scratch = Scratch::default();
        let mut worst = Outcome::Complies;
        let mut objects: Vec<Value> = Vec::new();
        let mut pages: Vec<String> = Vec::new();
        for given in &jobs {
            let no_law = |told: &_| vec![Files::new(rules, HashMap::new()).finding(told)];
            let matter = rules.matter(&given.job).map_err(no_law)?;
            let found = rules.weighed(&matter, &mut scratch);
            worst = worst.max(found.outcome);
            if self.ways {
                let told = cures::ways(&matter, &mut scratch, Reader::default());
                if self.form == As::Json {
                    objects.push(told.to_value());
                } else {
                    let places = &rules.library().places;
                    let path = places.path(matter.job.place);
                    let standing = standing(&path, places, screen::today(), Reader::default());
                    pages.push(cures::page(&told, &standing, screen::look(), Reader::default()));
                }
            } else if self.form == As::Json {
                objects.push(rules.told_of(&found, &matter, &mut scratch).to_value());
            } else {
                let frame = Frame { why: self.why, from: (jobs.len() > 1).then_some(&*given.from) };
                let sheet = rules.sheet(&found, &matter, screen::today(), Reader::default(), self.why);
                pages.push(verdict(&sheet, &frame, screen::look()));
            }
        }
        let text = match objects.as_slice() {
            [] => pages.join(&format!("\n{}\n\n", "=".repeat(screen::look().width))),
            [one] => format!("{one:#}\n"),
            _ => format!("{:#}\n", Value::Array(objects)),
        };
        Ok((text, worst))
    }
}
