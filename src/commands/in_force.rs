//! `groundrule in-force`: what is in force at a place on a day.

use super::options::{As, RulesOptions, date, place};
use super::screen;
use super::status::Status;
use crate::job::{Defaults, read_json};
use crate::report::finding::{Files, Finding, Spot};
use crate::report::in_force::{Inquest, NoSection, collect, page, section, section_page};
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::nearest::did_you_mean;
use crate::values::Date;
use clap::Args;
use std::collections::HashMap;

/// Codes, editions, amendments and powers in force at a place on a day, and their history
#[derive(Args, Debug)]
pub(crate) struct InForce {
    /// The place: its name, printed name or path.
    #[arg(value_name = "PLACE")]
    place: String,
    /// The day, such as 2024-03-01; every date of a job is taken to be this day.
    #[arg(long, value_name = "DATE", value_parser = date)]
    on: Date,
    /// One section as it stands there on that day, each clause with its author: a code and a number.
    #[arg(long, num_args = 2, value_names = ["CODE", "N"])]
    section: Option<Vec<String>>,
    #[command(flatten)]
    rules: RulesOptions,
    /// In which form to answer.
    #[arg(long = "as", value_enum, default_value_t)]
    form: As,
}

impl InForce {
    /// Answers for the place.
    pub(crate) fn run(self) -> Status {
        let Some(rules) = self.rules.load_or_tell(self.form) else { return Status::Unusable };
        match self.answer(&rules) {
            Ok(text) => {
                screen::print(&text);
                Status::Done
            }
            Err(findings) => {
                screen::report(&findings, self.form);
                Status::Unusable
            }
        }
    }

    fn answer(&self, rules: &Rules) -> Result<String, Vec<Finding>> {
        let place = place(rules, &self.place).map_err(|problem| vec![problem])?;
        let defaults = Defaults { place: Some(place), date: Some(self.on) };
        let told = |problems: Vec<_>| {
            problems.into_iter().map(|problem| Finding::of_json(problem, "the dates")).collect::<Vec<_>>()
        };
        // Of this job nothing is known but its place and its dates.
        let jobs = read_json("{}", rules.desk(), &defaults).map_err(told)?;
        let Some(job) = jobs.first() else { return Ok(String::new()) };
        let matter = rules.matter(job).map_err(|told| vec![Files::new(rules, HashMap::new()).finding(told)])?;
        let inquest = Inquest { library: rules.library(), matter: &matter, on: self.on };
        if let Some([code, number]) = self.section.as_deref() {
            let found = section(&inquest, code, number).map_err(|problem| vec![none(&problem, code, number)])?;
            return Ok(match self.form {
                As::Json => json(&found),
                As::Text | As::Plain => section_page(&found, &inquest, screen::today(), screen::look()),
            });
        }
        let found = collect(&inquest);
        Ok(match self.form {
            As::Json => json(&found),
            As::Text | As::Plain => page(&found, &inquest, screen::today(), screen::look()),
        })
    }
}

fn json(answer: &impl serde::Serialize) -> String {
    let text = serde_json::to_string_pretty(answer).unwrap_or_default();
    format!("{text}\n")
}

fn none(problem: &NoSection, code: &str, number: &str) -> Finding {
    let (shown_code, shown) = (crate::glossary::cut(code), crate::glossary::cut(number));
    match problem {
        NoSection::NoCode(codes_here) => {
            let finding = Finding::new(
                codes::UNKNOWN_CODE,
                Spot::argument("CODE"),
                format!("no text of `{shown_code}` is in force there on that day"),
            );
            if codes_here.is_empty() {
                finding
            } else {
                finding.help(format!("the codes there are {}", codes_here.join(", ")))
            }
        }
        NoSection::NoNumber(near) => {
            let near: Vec<&str> = near.iter().map(String::as_str).collect();
            let help = did_you_mean(&near)
                .unwrap_or_else(|| "`groundrule in-force` without `--section` lists what is amended there".to_owned());
            Finding::new(
                codes::NO_SECTION,
                Spot::argument("N"),
                format!("`{shown_code}` has no section `{shown}` there on that day that answers a question"),
            )
            .help(help)
        }
    }
}
