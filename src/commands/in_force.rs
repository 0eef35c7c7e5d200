//! `groundrule in-force`: what is in force at a place on a day.

use super::options::{As, RulesOptions, date, place, place_at, point};
use super::screen;
use super::status::Status;
use crate::atlas::Point;
use crate::glossary::model::PlaceId;
use crate::law::text::Code;
use crate::report::coverage;
use crate::report::finding::{Finding, Spot, asked};
use crate::report::in_force::{Inquest, NoSection, collect, inquire, page, section, section_page};
use crate::report::speech::Reader;
use crate::report::timeline::{Marked, svg, time_line};
use crate::review;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::nearest::{did_you_mean, nearest};
use crate::values::Date;
use clap::{ArgGroup, Args, ValueEnum};

/// Codes, editions, amendments and powers in force at a place on a day, and their history
#[derive(Args, Debug)]
#[command(group(ArgGroup::new("where").args(["place", "at"])))]
pub(crate) struct InForce {
    /// The place: its name, printed name or path.
    #[arg(value_name = "PLACE", required_unless_present_any = ["coverage", "at"], requires = "on")]
    place: Option<String>,
    /// The place in whose area a point lies, instead of its name: latitude and longitude in degrees, such as
    /// -0.72,0.60.
    #[arg(long, value_name = "LAT,LON", value_parser = point, requires = "on", allow_hyphen_values = true)]
    at: Option<Point>,
    /// The day, such as 2024-03-01; every date of a job is taken to be this day.
    #[arg(long, value_name = "DATE", value_parser = date, required_unless_present = "coverage", requires = "where")]
    on: Option<Date>,
    /// One section as it stands there on that day, each clause with its author: a code and a number.
    #[arg(long, num_args = 2, value_names = ["CODE", "N"])]
    section: Option<Vec<String>>,
    /// What the library holds of the codes, edition by edition: of those in force at a place, of one code, of one of
    /// its editions, or of all.
    #[arg(long, num_args = 0..=2, value_names = ["CODE", "YEAR"], conflicts_with = "section")]
    coverage: Option<Vec<String>>,
    #[command(flatten)]
    rules: RulesOptions,
    /// In which form to answer; `svg` draws the time line of the place.
    #[arg(long = "as", value_enum, default_value_t)]
    form: Form,
}

/// In which form is told what is in force.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
enum Form {
    /// For people.
    #[default]
    Text,
    /// For people, findings in whole sentences, one a paragraph.
    Plain,
    /// For programs.
    Json,
    /// For people: the time line of the place, drawn.
    Svg,
}

impl Form {
    /// The form of what is found wrong.
    fn findings(self) -> As {
        match self {
            Form::Text | Form::Svg => As::Text,
            Form::Plain => As::Plain,
            Form::Json => As::Json,
        }
    }
}

impl InForce {
    /// Answers for the place.
    pub(crate) fn run(self) -> Status {
        if self.form == Form::Svg && (self.section.is_some() || self.coverage.is_some()) {
            screen::complain(
                "error: a time line is drawn of a place, not of a section or of what the library holds\n  help: leave --section and --coverage out, or ask for another form\n",
            );
            return Status::Usage;
        }
        let loaded = if self.at.is_some() { self.rules.load_with_areas() } else { self.rules.load() };
        let rules = match loaded {
            Ok(rules) => rules,
            Err(findings) => {
                screen::report(&findings, self.form.findings());
                return Status::Unusable;
            }
        };
        match self.answer(&rules) {
            Ok(text) => {
                screen::print(&text);
                Status::Done
            }
            Err(findings) => {
                screen::report(&findings, self.form.findings());
                Status::Unusable
            }
        }
    }

    fn answer(&self, rules: &Rules) -> Result<String, Vec<Finding>> {
        let (Some(place), Some(on)) = (self.place(rules)?, self.on) else {
            return self.covered(rules, None).map_err(|problem| vec![problem]);
        };
        if self.form == Form::Svg {
            let reader = Reader::default();
            let line = time_line(rules, place, on, marks(on, screen::today(), reader), reader);
            return line.map(|line| svg(&line, reader, "time-line")).map_err(|problem| problem.findings(rules));
        }
        inquire(rules, place, on, |inquest| self.asked(rules, inquest).map_err(|problem| vec![problem]))
            .unwrap_or_else(|problem| Err(problem.findings(rules)))
    }

    /// The place that is asked about, by its name or by a point.
    fn place(&self, rules: &Rules) -> Result<Option<PlaceId>, Vec<Finding>> {
        match (&self.place, self.at) {
            (Some(name), _) => place(rules, name).map(Some).map_err(|problem| vec![problem]),
            (None, Some(point)) => place_at(rules, point).map(Some),
            (None, None) => Ok(None),
        }
    }

    /// What is asked of the place on the day.
    fn asked(&self, rules: &Rules, inquest: &Inquest<'_>) -> Result<String, Finding> {
        if self.coverage.is_some() {
            return self.covered(rules, Some(inquest));
        }
        if let Some([code, number]) = self.section.as_deref() {
            let found = section(inquest, code, number).map_err(|problem| none(&problem, code, number))?;
            return Ok(match self.form {
                Form::Json => json(&found),
                Form::Text | Form::Plain | Form::Svg => section_page(&found, inquest, screen::today(), screen::look()),
            });
        }
        let found = collect(inquest);
        Ok(match self.form {
            Form::Json => json(&found),
            Form::Text | Form::Plain | Form::Svg => page(&found, inquest, screen::today(), screen::look()),
        })
    }

    /// What the library holds of the editions that are asked for.
    fn covered(&self, rules: &Rules, inquest: Option<&Inquest<'_>>) -> Result<String, Finding> {
        let asked = self.coverage.as_deref().unwrap_or_default();
        let known = asked.first().map(|code| known_code(rules, code)).transpose()?;
        let year = known.zip(asked.get(1)).map(|(code, year)| known_edition(code, year)).transpose()?;
        let code = known.map(|code| &*code.name);
        let there = inquest.map(collect);
        let wanted = |name: &str, of: i32| {
            let stands = there
                .as_ref()
                .is_none_or(|there| there.codes.iter().any(|line| *line.code == *name && line.edition == of));
            stands && code.is_none_or(|code| code == name) && year.is_none_or(|year| year == of)
        };
        let accounts = review::coverage::coverage(rules.library(), wanted);
        let path = there.as_ref().map(|there| there.place.join("/"));
        let at = there.as_ref().zip(path.as_ref()).map(|(there, path)| (&**path, &*there.title, &*there.on));
        let scope = coverage::Scope { at, code, year };
        Ok(match self.form {
            Form::Json => json(&coverage::json(&accounts, scope)),
            Form::Text | Form::Plain | Form::Svg => coverage::page(&accounts, scope, screen::look()),
        })
    }
}

fn known_code<'r>(rules: &'r Rules, code: &str) -> Result<&'r Code, Finding> {
    let codes = &rules.library().codes;
    codes.code(code).ok_or_else(|| {
        let near = nearest(code, codes.codes.iter().map(|code| &*code.name));
        let mut names: Vec<&str> = codes.codes.iter().map(|code| &*code.name).collect();
        names.sort_unstable();
        let help = did_you_mean(&near).unwrap_or_else(|| format!("the codes are {}", names.join(", ")));
        let message = format!("no code is named `{}`", crate::glossary::cut(code));
        Finding::new(codes::UNKNOWN_CODE, Spot::argument("CODE"), message).help(help)
    })
}

fn known_edition(code: &Code, year: &str) -> Result<i32, Finding> {
    let found = year.parse::<i32>().ok().filter(|year| code.editions.iter().any(|(of, _)| of == year));
    found.ok_or_else(|| {
        let years: Vec<String> = code.editions.iter().map(|(year, _)| year.to_string()).collect();
        let message = format!("`{}` has no edition `{}`", code.name, crate::glossary::cut(year));
        Finding::new(codes::UNKNOWN_CODE, Spot::argument("YEAR"), message)
            .help(format!("its editions are {}", years.join(", ")))
    })
}

fn json(answer: &impl serde::Serialize) -> String {
    let text = serde_json::to_string_pretty(answer).unwrap_or_default();
    format!("{text}\n")
}

fn none(problem: &NoSection, code: &str, number: &str) -> Finding {
    let list = "`groundrule in-force` without `--section` lists what is amended there";
    asked::no_section(problem, [code, number], [Spot::argument("CODE"), Spot::argument("N")], list)
}

/// The day that is asked about and today, where they differ.
fn marks(on: Date, today: Date, reader: Reader) -> Vec<Marked> {
    let now = reader.say_with("time-line-today", &[("day", &today.to_string())]);
    let now = Marked { on: today, label: now, today: true };
    let asked = reader.say_with("time-line-asked", &[("day", &on.to_string())]);
    let asked = Marked { on, label: asked, today: false };
    if on == today { vec![now] } else { vec![now, asked] }
}
