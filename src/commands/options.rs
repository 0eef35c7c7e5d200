//! Options that mean the same for every command.

use super::files;
use super::screen;
use super::trouble::Trouble;
use crate::atlas::Point;
use crate::glossary::model::PlaceId;
use crate::job::Defaults;
use crate::report::finding::{Finding, Spot, asked};
use crate::report::speech::{Language, Reader, Units};
use crate::rules::{Rules, Source};
use crate::syntax::codes;
use crate::syntax::diagnostic::Severity;
use crate::values::Date;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// In which form a command answers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(crate) enum As {
    /// For people; findings are drawn on a terminal and plain elsewhere.
    #[default]
    Text,
    /// For people, findings in whole sentences, one a paragraph.
    Plain,
    /// For programs.
    Json,
}

/// In which form a command answers whose answer is also a page to print.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(crate) enum Sheet {
    /// For people.
    #[default]
    Text,
    /// For people, findings in whole sentences, one a paragraph.
    Plain,
    /// For programs.
    Json,
    /// For people, as one file to look at in a browser and to print.
    Html,
}

impl Sheet {
    /// The form of what is found wrong.
    pub(crate) fn findings(self) -> As {
        match self {
            Sheet::Text | Sheet::Html => As::Text,
            Sheet::Plain => As::Plain,
            Sheet::Json => As::Json,
        }
    }
}

/// In which form a command answers whose answer can also be drawn, or laid out on paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(crate) enum Drawing {
    /// For people.
    #[default]
    Text,
    /// For people, findings in whole sentences, one a paragraph.
    Plain,
    /// For programs.
    Json,
    /// For people, as a picture of the job, or with --detail of its bond alone.
    Svg,
    /// For people, as a paper to look at in a browser and to print; --paper says which.
    Html,
}

impl Drawing {
    /// The form of what is found wrong.
    pub(crate) fn findings(self) -> As {
        match self {
            Drawing::Text | Drawing::Svg | Drawing::Html => As::Text,
            Drawing::Plain => As::Plain,
            Drawing::Json => As::Json,
        }
    }
}

/// Which rules are loaded.
#[derive(Args, Clone, Debug, Default)]
pub(crate) struct RulesOptions {
    /// Rule files to load beside the built-in library: a folder or a file; may be given several times.
    #[arg(long = "rules", value_name = "DIR", action = clap::ArgAction::Append)]
    pub(crate) rules: Vec<PathBuf>,
    /// Load nothing but what is given.
    #[arg(long)]
    pub(crate) without_library: bool,
}

/// For whom a command writes what people read.
#[derive(Args, Clone, Copy, Debug, Default)]
pub(crate) struct ReaderOptions {
    /// In which language to speak to people; texts of the rules stay as they were published.
    #[arg(long, value_name = "LANGUAGE", value_parser = names(&Language::ALL.map(Language::tag)).try_map(language))]
    language: Option<Language>,
    /// In which units lengths are told to people.
    #[arg(long, value_name = "UNITS", value_parser = names(&Units::ALL.map(Units::name)).try_map(units))]
    units: Option<Units>,
}

/// What an option takes.
pub(crate) fn names(names: &[&'static str]) -> PossibleValuesParser {
    PossibleValuesParser::new(names)
}

fn language(tag: String) -> Result<Language, String> {
    Language::find(&tag).ok_or(tag)
}

fn units(name: String) -> Result<Units, String> {
    Units::find(&name).ok_or(name)
}

impl ReaderOptions {
    /// The reader.
    pub(crate) fn reader(self) -> Reader {
        Reader { language: self.language.unwrap_or_default(), units: self.units.unwrap_or_default() }
    }

    /// Refuses what JSON does not take: programs get one form.
    ///
    /// # Errors
    /// Where a language or units are asked for.
    pub(crate) fn not_for_programs(self) -> Result<(), Trouble> {
        if self.language.is_some() {
            return Err(Trouble::usage("JSON is written in one language", "leave --language out"));
        }
        if self.units.is_some() {
            return Err(Trouble::usage("figures in JSON stay as they were written", "leave --units out"));
        }
        Ok(())
    }
}

/// What jobs leave unsaid.
#[derive(Args, Clone, Debug, Default)]
pub(crate) struct JobOptions {
    /// The place of jobs that do not say theirs.
    #[arg(long, value_name = "PLACE")]
    pub(crate) place: Option<String>,
    /// The day of every date that a job leaves unsaid, such as 2024-03-01.
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(crate) date: Option<Date>,
}

/// Reads a date of the command line.
///
/// # Errors
/// Where it does not exist or has another form.
pub(crate) fn date(text: &str) -> Result<Date, String> {
    Date::parse(text).ok_or_else(|| "write a date that exists as year, month and day, such as 2024-03-01".to_owned())
}

impl RulesOptions {
    /// Loads the rules and refuses those with an error.
    ///
    /// # Errors
    /// What is wrong with the rules, and what could not be read.
    pub(crate) fn load(&self) -> Result<Rules, Vec<Finding>> {
        let found = files::rule_files(&self.rules);
        if !found.problems.is_empty() {
            return Err(found.problems);
        }
        self.usable(found.sources)
    }

    /// Loads the rules with the boundaries that given rule files name, for those who ask which
    /// place a point lies in; what is wrong with a boundary is told where it is asked for.
    ///
    /// # Errors
    /// What is wrong with the rules, and what could not be read.
    pub(crate) fn load_with_areas(&self) -> Result<Rules, Vec<Finding>> {
        let found = files::rule_files(&self.rules);
        if !found.problems.is_empty() {
            return Err(found.problems);
        }
        let given = files::named(&found.sources);
        Ok(files::with_boundaries(self.usable(found.sources)?, &given))
    }

    /// The rules made of these files and, unless it is left out, the library; refuses
    /// those with an error.
    ///
    /// # Errors
    /// What is wrong with the rules.
    pub(crate) fn usable(&self, sources: Vec<Source>) -> Result<Rules, Vec<Finding>> {
        let rules = if self.without_library { Rules::only(sources) } else { Rules::with(sources) };
        if rules.usable() {
            return Ok(rules);
        }
        let errors = rules.diagnostics().iter().filter(|told| told.severity() == Severity::Error).chain(rules.wrong());
        Err(Finding::of(&rules, errors))
    }

    /// Loads the rules; tells what is wrong and gives nothing where they cannot be used.
    pub(crate) fn load_or_tell(&self, form: As) -> Option<Rules> {
        self.load().map_err(|findings| screen::report(&findings, form)).ok()
    }
}

impl JobOptions {
    /// The defaults of a job.
    ///
    /// # Errors
    /// Where the place is not known or fits several.
    pub(crate) fn defaults(&self, rules: &Rules) -> Result<Defaults, Finding> {
        let place = self.place.as_deref().map(|text| place(rules, text)).transpose()?;
        Ok(Defaults { place, date: self.date })
    }
}

/// Reads a point of the command line.
///
/// # Errors
/// Where it is none.
pub(crate) fn point(text: &str) -> Result<Point, String> {
    Point::parse(text)
        .ok_or_else(|| "write latitude, then longitude, in degrees with a comma between, such as -0.72,0.60".to_owned())
}

/// The one place in whose area a point lies.
///
/// # Errors
/// Where it lies outside all areas, on a border or where areas overlap; and where a
/// boundary cannot be used, since the point may lie behind it.
pub(crate) fn place_at(rules: &Rules, point: Point) -> Result<PlaceId, Vec<Finding>> {
    let (atlas, places) = (rules.atlas(), &rules.library().places);
    if !atlas.wrong().is_empty() {
        return Err(Finding::of(rules, atlas.wrong().iter()));
    }
    let text = format!("{}, {}", point.latitude(), point.longitude());
    let found = atlas.places_at(point, places);
    let paths: Vec<String> = found.places.iter().map(|place| format!("`{}`", places.path_text(*place))).collect();
    let told =
        |code, message: String, help: String| vec![Finding::new(code, Spot::argument("--at"), message).help(help)];
    match found.places.as_slice() {
        [one] if !found.outside => Ok(*one),
        [] => Err(told(
            codes::UNKNOWN_PLACE,
            format!("the point `{text}` lies outside every area that is known here"),
            "name the place instead; the latitude comes first".to_owned(),
        )),
        _ if found.on_border => Err(told(
            codes::AMBIGUOUS_PLACE,
            format!("the point `{text}` lies on a border"),
            format!("ask on which side it is, and name the place: {}", paths.join(", ")),
        )),
        _ => Err(told(
            codes::AMBIGUOUS_PLACE,
            format!("the point `{text}` lies where areas overlap"),
            format!("ask which of them it is, and name the place: {}", paths.join(", ")),
        )),
    }
}

/// The place that an argument names.
///
/// # Errors
/// Where no place fits, with the nearest names, or several do, with all of them.
pub(crate) fn place(rules: &Rules, text: &str) -> Result<PlaceId, Finding> {
    asked::place(rules, text, Spot::argument("PLACE"))
}
