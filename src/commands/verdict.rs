//! `groundrule verdict`: what the rules in force ask of a job, and how it stands.

use super::options::{JobOptions, RulesOptions, Sheet};
use super::status::Status;
use super::{jobs, screen};
use crate::report::cures;
use crate::report::finding::{Files, Finding};
use crate::report::papers::{self, Drawn, Paper};
use crate::report::screen::{Frame, verdict};
use crate::report::sheet;
use crate::report::speech::{Language, Reader, Units};
use crate::rules::Rules;
use crate::verdict::model::Outcome;
use crate::verdict::{Matter, Scratch, model};
use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};
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
    /// In which form to answer; html is a paper to look at in a browser and to print.
    #[arg(long = "as", value_enum, default_value_t)]
    form: Sheet,
    /// Tell all reasons: what governs, what was weaker or set aside, by whom, where it was read.
    #[arg(long, alias = "reasons")]
    why: bool,
    /// Lay the lawful ways side by side instead, for a bid: every choice of piping that the job leaves open.
    #[arg(long, conflicts_with = "why")]
    ways: bool,
    /// Which paper, for html; without it the reasoned answer.
    #[arg(long, value_name = "NAME", value_parser = names(&Paper::ALL.map(Paper::name)).try_map(paper))]
    paper: Option<Paper>,
    /// In which language a paper is written; texts of the rules stay as they were published.
    #[arg(long, value_name = "LANGUAGE", value_parser = names(&Language::ALL.map(Language::tag)).try_map(language))]
    language: Option<Language>,
    /// In which units a paper or a page tells lengths.
    #[arg(long, value_name = "UNITS", value_parser = names(&Units::ALL.map(Units::name)).try_map(units))]
    units: Option<Units>,
}

fn names(names: &[&'static str]) -> PossibleValuesParser {
    PossibleValuesParser::new(names)
}

fn paper(name: String) -> Result<Paper, String> {
    Paper::find(&name).ok_or(name)
}

fn language(tag: String) -> Result<Language, String> {
    Language::find(&tag).ok_or(tag)
}

fn units(name: String) -> Result<Units, String> {
    Units::find(&name).ok_or(name)
}

/// Why nothing is answered.
enum Trouble {
    Findings(Vec<Finding>),
    /// A paper does not come out of its template.
    Paper(minijinja::Error),
}

impl From<Vec<Finding>> for Trouble {
    fn from(findings: Vec<Finding>) -> Trouble {
        Trouble::Findings(findings)
    }
}

impl Verdict {
    /// Answers for every job; the worst outcome is the status.
    pub(crate) fn run(self) -> Status {
        if let Some((message, help)) = self.misused() {
            screen::complain(&format!("error: {message}\n  help: {help}\n"));
            return Status::Usage;
        }
        let Some(rules) = self.rules.load_or_tell(self.form.findings()) else { return Status::Unusable };
        match self.answer(&rules) {
            Ok((text, outcome)) => {
                screen::print(&text);
                outcome.into()
            }
            Err(Trouble::Findings(findings)) => {
                screen::report(&findings, self.form.findings());
                Status::Unusable
            }
            Err(Trouble::Paper(problem)) => {
                screen::complain(&format!("error: the paper cannot be written: {problem:#}\n"));
                Status::Unusable
            }
        }
    }

    /// Options that make no sense together, with what would.
    fn misused(&self) -> Option<(&'static str, &'static str)> {
        let html = self.form == Sheet::Html;
        if self.paper.is_some() && !html {
            return Some(("`--paper` names a paper, and only `--as html` writes one", "add `--as html`"));
        }
        if self.language.is_some() && !html {
            return Some(("`--language` is for papers, and only `--as html` writes one", "add `--as html`"));
        }
        if self.units.is_some() && self.form == Sheet::Json {
            return Some(("figures in JSON stay as they were written", "leave `--units` out"));
        }
        if self.ways && html {
            return Some(("the ways side by side are no paper", "leave `--ways` or `--as html` out"));
        }
        if self.why && html {
            return Some(("a paper is told in full anyway", "leave `--why` out; the paper `answer` has all reasons"));
        }
        None
    }

    fn answer(&self, rules: &Rules) -> Result<(String, Outcome), Trouble> {
        let defaults = self.job.defaults(rules).map_err(|problem| vec![problem])?;
        let jobs = jobs::read(&self.files, rules, &defaults)?;
        let reader = Reader { language: self.language.unwrap_or_default(), units: self.units.unwrap_or_default() };
        let mut scratch = Scratch::default();
        let mut worst = Outcome::Complies;
        let mut objects: Vec<Value> = Vec::new();
        let mut pages: Vec<String> = Vec::new();
        let mut drawn: Vec<(model::Verdict<'_>, Matter<'_>, sheet::Sheet)> = Vec::new();
        for given in &jobs {
            let no_law = |told: &_| vec![Files::new(rules, HashMap::new()).finding(told)];
            let matter = rules.matter(&given.job).map_err(no_law)?;
            let found = rules.weighed(&matter, &mut scratch);
            worst = worst.max(found.outcome);
            let spelled = |all| rules.sheet(&found, &matter, screen::today(), reader, all);
            match self.form {
                Sheet::Json if self.ways => objects.push(cures::ways(&matter, &mut scratch, reader).to_value()),
                Sheet::Json => objects.push(rules.told_of(&found, &matter, &mut scratch).to_value()),
                Sheet::Html => {
                    let sheet = spelled(true);
                    drawn.push((found, matter, sheet));
                }
                Sheet::Text | Sheet::Plain if self.ways => {
                    pages.push(cures::page(&cures::ways(&matter, &mut scratch, reader), screen::look(), reader));
                }
                Sheet::Text | Sheet::Plain => {
                    let frame = Frame { why: self.why, from: (jobs.len() > 1).then_some(&*given.from) };
                    pages.push(verdict(&spelled(self.why), &frame, screen::look()));
                }
            }
        }
        let text = match (self.form, objects.as_slice()) {
            (Sheet::Html, _) => {
                let drawn: Vec<Drawn<'_, '_>> =
                    drawn.iter().map(|(verdict, matter, sheet)| Drawn { verdict, matter, sheet }).collect();
                papers::write(self.paper.unwrap_or_default(), &drawn, reader, true).map_err(Trouble::Paper)?
            }
            (_, []) => pages.join(&format!("\n{}\n\n", "=".repeat(screen::look().width))),
            (_, [one]) => format!("{one:#}\n"),
            _ => format!("{:#}\n", Value::Array(objects)),
        };
        Ok((text, worst))
    }
}
