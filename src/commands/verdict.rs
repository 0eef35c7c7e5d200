//! `groundrule verdict`: what the rules in force ask of a job, and how it stands.

use super::options::{Drawing, JobOptions, RulesOptions};
use super::status::Status;
use super::trouble::Trouble;
use super::{jobs, screen};
use crate::report::finding::Files;
use crate::report::picture::{self, Kind};
use crate::report::screen::{Frame, verdict};
use crate::report::speech::Reader;
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
    form: Drawing,
    /// With --as svg: the bond alone, larger, with measures and the texts that ask for it.
    #[arg(long)]
    detail: bool,
    /// Tell all reasons: what governs, what was weaker or set aside, by whom, where it was read.
    #[arg(long, alias = "reasons")]
    why: bool,
}

impl Verdict {
    /// Answers for every job; the worst outcome is the status.
    pub(crate) fn run(self) -> Status {
        match self.answer() {
            Ok((text, outcome)) => {
                screen::print(&text);
                outcome.into()
            }
            Err(trouble) => trouble.tell(self.form.findings()),
        }
    }

    fn answer(&self) -> Result<(String, Outcome), Trouble> {
        self.fits()?;
        let rules = &self.rules.load()?;
        let defaults = self.job.defaults(rules)?;
        let jobs = jobs::read(&self.files, rules, &defaults)?;
        if self.form == Drawing::Svg && jobs.len() != 1 {
            return Err(one_picture());
        }
        let mut scratch = Scratch::default();
        let mut worst = Outcome::Complies;
        let mut objects: Vec<Value> = Vec::new();
        let mut pages: Vec<String> = Vec::new();
        for given in &jobs {
            let no_law = |told: &_| vec![Files::new(rules, HashMap::new()).finding(told)];
            let matter = rules.matter(&given.job).map_err(no_law)?;
            let found = rules.weighed(&matter, &mut scratch);
            worst = worst.max(found.outcome);
            let places = &rules.library().places;
            match self.form {
                Drawing::Json => objects.push(rules.told_of(&found, &matter, &mut scratch).to_value()),
                Drawing::Svg => {
                    let kind = if self.detail { Kind::Detail } else { Kind::Picture };
                    pages.push(picture::sheet(kind, &found, &matter, Reader::default(), places, screen::today()));
                }
                Drawing::Text | Drawing::Plain => {
                    let from = (jobs.len() > 1).then_some(&*given.from);
                    let frame = Frame { places, today: screen::today(), why: self.why, from };
                    pages.push(verdict(&found, &matter, &frame, screen::look()));
                }
            }
        }
        let text = match objects.as_slice() {
            [] => pages.join(&format!("\n{}\n\n", "=".repeat(screen::look().width))),
            [one] => format!("{one:#}\n"),
            _ => format!("{:#}\n", Value::Array(objects)),
        };
        Ok((text, worst))
    }

    /// Whether the arguments make sense together, as far as they can tell by themselves.
    fn fits(&self) -> Result<(), Trouble> {
        match self.form {
            Drawing::Svg if self.files.len() > 1 => Err(one_picture()),
            Drawing::Svg => Ok(()),
            _ if self.detail => Err(Trouble::usage("--detail is for a drawing", "add --as svg, or leave --detail out")),
            _ => Ok(()),
        }
    }
}

fn one_picture() -> Trouble {
    Trouble::usage("a picture shows one job", "draw each job by itself, into a file of its own")
}
