//! `groundrule compare`: one job at several places, on several days, or both.

use super::options::{As, JobOptions, ReaderOptions, RulesOptions, date, place};
use super::status::Status;
use super::trouble::Trouble;
use super::{jobs, screen};
use crate::glossary::model::PlaceId;
use crate::job::{Defaults, JobProblem};
use crate::report::compare::{Axes, COLUMNS, Side, csv, html, page, sides};
use crate::report::finding::{Files, Finding, Spot};
use crate::rules::Rules;
use crate::syntax::codes;
use crate::values::Date;
use crate::verdict::model::Outcome;
use clap::{ArgGroup, Args, ValueEnum};
use std::collections::HashMap;

/// One job at several places or on several days, side by side; differences first
///
/// With --places the places stand instead of the job's own, which is compared where it is listed.
/// With --dates each day stands for every date that the job leaves unsaid. With both, each place is
/// looked at on each day. The status is that of the worst column.
#[derive(Args, Debug)]
#[command(group(ArgGroup::new("axes").required(true).multiple(true).args(["places", "dates"])))]
pub(crate) struct Compare {
    /// A job sheet (.job) or a JSON file with one job; - reads standard input.
    #[arg(value_name = "JOB")]
    file: String,
    /// The places, by name, printed name or path; with commas between them, or each for itself.
    #[arg(long, value_name = "PLACE,PLACE", value_delimiter = ',', conflicts_with = "place")]
    places: Vec<String>,
    /// The days, such as 2024-03-01,2027-01-01.
    #[arg(long, value_name = "DATE,DATE", value_delimiter = ',', value_parser = date, conflicts_with = "date")]
    dates: Vec<Date>,
    #[command(flatten)]
    rules: RulesOptions,
    #[command(flatten)]
    job: JobOptions,
    #[command(flatten)]
    reader: ReaderOptions,
    /// In which form to answer.
    #[arg(long = "as", value_enum, default_value_t)]
    form: Form,
}

/// In which form a comparison is told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
enum Form {
    /// For people.
    #[default]
    Text,
    /// For people, findings in whole sentences, one a paragraph.
    Plain,
    /// For programs.
    Json,
    /// For spreadsheets.
    Csv,
    /// For people, as one file to look at in a browser and to print.
    Html,
}

impl Form {
    /// The form of what is found wrong.
    fn findings(self) -> As {
        match self {
            Form::Text | Form::Csv | Form::Html => As::Text,
            Form::Plain => As::Plain,
            Form::Json => As::Json,
        }
    }
}

impl Compare {
    /// Answers for every column; the worst outcome is the status.
    pub(crate) fn run(self) -> Status {
        let Some(rules) = self.rules.load_or_tell(self.form.findings()) else { return Status::Unusable };
        match self.answer(&rules) {
            Ok((text, outcome)) => {
                screen::print(&text);
                outcome.into()
            }
            Err(trouble) => trouble.tell(self.form.findings()),
        }
    }

    fn answer(&self, rules: &Rules) -> Result<(String, Outcome), Trouble> {
        if self.form == Form::Json {
            self.reader.not_for_programs()?;
        }
        let places = self.places(rules)?;
        self.sensible(rules, &places)?;
        let defaults = self.job.defaults(rules).map_err(|problem| vec![problem])?;
        let sides = self.sides(rules, &places, defaults)?;
        let reader = self.reader.reader();
        let comparison = rules
            .compared(&sides, reader, screen::today())
            .map_err(|told| vec![Files::new(rules, HashMap::new()).finding(&told)])?;
        let text = match self.form {
            Form::Text | Form::Plain => page(&comparison, reader, screen::look()),
            Form::Json => format!("{:#}\n", comparison.to_value()),
            Form::Csv => csv(&comparison, reader),
            Form::Html => html(&comparison, reader),
        };
        Ok((text, comparison.worst))
    }

    /// The places; every one that is not known is told.
    fn places(&self, rules: &Rules) -> Result<Vec<PlaceId>, Vec<Finding>> {
        let mut found = Vec::with_capacity(self.places.len());
        let mut problems = Vec::new();
        for name in &self.places {
            match place(rules, name) {
                Ok(place) => found.push(place),
                Err(problem) => {
                    let spot = Box::new(Spot::argument("--places"));
                    problems.push(Finding { spot, ..problem });
                }
            }
        }
        if problems.is_empty() { Ok(found) } else { Err(problems) }
    }

    /// Whether there is something to compare, and not too much.
    fn sensible(&self, rules: &Rules, places: &[PlaceId]) -> Result<(), Trouble> {
        if let Some(twice) = twice(places) {
            let path = rules.library().places.path_text(*twice);
            return Err(Trouble::usage(format!("`{path}` stands twice in --places"), "name each place once"));
        }
        if let Some(twice) = twice(&self.dates) {
            return Err(Trouble::usage(format!("{twice} stands twice in --dates"), "name each day once"));
        }
        let columns = places.len().max(1).saturating_mul(self.dates.len().max(1));
        if columns > COLUMNS {
            let message = format!("{columns} columns are asked for, and at most {COLUMNS} are laid side by side");
            return Err(Trouble::usage(
                message,
                "name fewer places or days; for many jobs and places run `verdict` on each",
            ));
        }
        if columns < 2 {
            return Err(Trouble::usage(
                "one column compares nothing",
                "name at least two places or two days, such as --places osier,tarn or --dates 2018-06-01,2024-03-01",
            ));
        }
        Ok(())
    }

    /// The job of each column.
    fn sides(&self, rules: &Rules, places: &[PlaceId], defaults: Defaults) -> Result<Vec<Side>, Vec<Finding>> {
        let text = jobs::text(&self.file)?;
        let axes = Axes { places, dates: &self.dates };
        let one = |defaults: &Defaults| {
            let mut all = text.jobs(rules, defaults)?;
            match (all.pop(), all.len()) {
                (Some(job), 0) => Ok(job),
                (_, rest) => {
                    let message = format!("it holds {} jobs, and one is compared", rest + 1);
                    Err(vec![
                        Finding::new(codes::JOB, Spot::file(text.name.clone()), message)
                            .help("keep the job that is meant in a file of its own"),
                    ])
                }
            }
        };
        let told = |problems: Vec<JobProblem>| -> Vec<Finding> {
            problems.into_iter().map(|problem| Finding::of_json(problem, &text.name)).collect()
        };
        sides(axes, defaults, text.says_its_place() == Some(true), rules.desk(), one, told)
    }
}

/// The first that stands twice.
fn twice<T: PartialEq>(all: &[T]) -> Option<&T> {
    all.iter().enumerate().find(|(at, one)| all.iter().take(*at).any(|before| before == *one)).map(|(_, one)| one)
}
