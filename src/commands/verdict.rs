//! `groundrule verdict`: what the rules in force ask of a job, and how it stands.

use super::options::{Drawing, JobOptions, ReaderOptions, RulesOptions, names};
use super::status::Status;
use super::trouble::Trouble;
use super::{jobs, screen};
use crate::report::cures;
use crate::report::finding::Files;
use crate::report::papers::{self, Drawn, Paper};
use crate::report::picture::{self, Kind};
use crate::report::screen::{Frame, verdict};
use crate::report::sheet::Sheet;
use crate::report::sheet::closing::standing;
use crate::verdict::model::Outcome;
use crate::verdict::{Matter, Scratch, model};
use clap::Args;
use clap::builder::TypedValueParser;
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
    /// With --as html: which paper; without it the reasoned answer.
    #[arg(long, value_name = "NAME", value_parser = names(&Paper::ALL.map(Paper::name)).try_map(paper))]
    paper: Option<Paper>,
    #[command(flatten)]
    reader: ReaderOptions,
    /// Tell all reasons: what governs, what was weaker or set aside, by whom, where it was read.
    #[arg(long, alias = "reasons")]
    why: bool,
    /// Lay the lawful ways side by side instead, for a bid: every choice of piping that the job leaves open.
    #[arg(long, conflicts_with = "why")]
    ways: bool,
}

fn paper(name: String) -> Result<Paper, String> {
    Paper::find(&name).ok_or(name)
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
        let reader = self.reader.reader();
        let (places, today) = (&rules.library().places, screen::today());
        let mut scratch = Scratch::default();
        let mut worst = Outcome::Complies;
        let mut objects: Vec<Value> = Vec::new();
        let mut pages: Vec<String> = Vec::new();
        let mut drawn: Vec<(model::Verdict<'_>, Matter<'_>, Sheet)> = Vec::new();
        for given in &jobs {
            let no_law = |told: &_| vec![Files::new(rules, HashMap::new()).finding(told)];
            let matter = rules.matter(&given.job).map_err(no_law)?;
            let found = rules.weighed(&matter, &mut scratch);
            worst = worst.max(found.outcome);
            match self.form {
                Drawing::Json if self.ways => objects.push(cures::ways(&matter, &mut scratch, reader).to_value()),
                Drawing::Json => objects.push(rules.told_of(&found, &matter, &mut scratch).to_value()),
                Drawing::Svg => {
                    let kind = if self.detail { Kind::Detail } else { Kind::Picture };
                    pages.push(picture::sheet(kind, &found, &matter, reader, rules, today));
                }
                Drawing::Html => {
                    let sheet = rules.sheet(&found, &matter, today, reader, true);
                    drawn.push((found, matter, sheet));
                }
                Drawing::Text | Drawing::Plain if self.ways => {
                    let told = cures::ways(&matter, &mut scratch, reader);
                    let standing = standing(&places.path(matter.job.place), places, today, reader);
                    pages.push(cures::page(&told, &standing, screen::look(), reader));
                }
                Drawing::Text | Drawing::Plain => {
                    let mending = cures::Mending::of(&found, &matter, reader);
                    let from = (jobs.len() > 1).then_some(&*given.from);
                    let frame = Frame { why: self.why, mending, from, reader };
                    let sheet = rules.sheet(&found, &matter, today, reader, self.why);
                    pages.push(verdict(&sheet, &frame, screen::look()));
                }
            }
        }
        let text = match (self.form, objects.as_slice()) {
            (Drawing::Html, _) => {
                let drawn: Vec<Drawn<'_, '_>> =
                    drawn.iter().map(|(verdict, matter, sheet)| Drawn { verdict, matter, sheet }).collect();
                papers::write(self.paper.unwrap_or_default(), &drawn, reader)? + "\n"
            }
            (_, []) => pages.join(&format!("\n{}\n\n", "=".repeat(screen::look().width))),
            (_, [one]) => format!("{one:#}\n"),
            _ => format!("{:#}\n", Value::Array(objects)),
        };
        Ok((text, worst))
    }

    /// Whether the arguments make sense together, as far as they can tell by themselves.
    fn fits(&self) -> Result<(), Trouble> {
        let (drawing, paper) = (self.form == Drawing::Svg, self.form == Drawing::Html);
        if drawing && self.files.len() > 1 {
            return Err(one_picture());
        }
        if self.detail && !drawing {
            return Err(Trouble::usage("--detail is for a drawing", "add --as svg, or leave --detail out"));
        }
        if self.paper.is_some() && !paper {
            return Err(Trouble::usage("--paper names a paper, and only --as html writes one", "add --as html"));
        }
        if self.form == Drawing::Json {
            self.reader.not_for_programs()?;
        }
        if self.ways && (paper || drawing) {
            let message = "the ways side by side are neither a paper nor a drawing";
            return Err(Trouble::usage(message, "leave --as out, or --ways"));
        }
        if self.why && paper {
            let help = "leave --why out; the paper `answer` has all reasons";
            return Err(Trouble::usage("a paper is told in full anyway", help));
        }
        Ok(())
    }
}

fn one_picture() -> Trouble {
    Trouble::usage("a picture shows one job", "draw each job by itself, into a file of its own")
}
