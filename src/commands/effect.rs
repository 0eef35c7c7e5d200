//! `groundrule effect`: what an amendment, another place or another day answers
//! otherwise.

use super::options::{ReaderOptions, RulesOptions, Sheet, date, place};
use super::status::Status;
use super::trouble::Trouble;
use super::{files, screen};
use crate::glossary::model::PlaceId;
use crate::report::effect::{Account, Between, Frame, Length, html, json, page};
use crate::report::finding::{Files, Finding, Spot};
use crate::review::effect::Side;
use crate::rules::{Rules, Source};
use crate::syntax::codes;
use crate::values::Date;
use crate::verdict::survey::Window;
use clap::{ArgGroup, Args};
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};

/// Every kind of job whose answer changes, in words, with a job that shows it
///
/// Compares two sets of rules (BEFORE and AFTER), the rules with and without one
/// amendment (its file alone), two places (--against), or two days (--dates).
#[derive(Args, Debug)]
#[command(group(ArgGroup::new("comparison").required(true).args(["paths", "against", "dates"])))]
pub(crate) struct Effect {
    /// Rule files or folders before and after; one alone is an amendment, and the rules without it are compared with
    /// those with it.
    #[arg(value_name = "BEFORE AFTER", num_args = 0..=2)]
    paths: Vec<PathBuf>,
    /// The place of the jobs.
    #[arg(long, value_name = "PLACE")]
    place: String,
    /// Another place, whose answers are held against those of the first.
    #[arg(long, value_name = "PLACE")]
    against: Option<String>,
    /// Two days: jobs all of whose dates are the first are held against the same jobs on the second.
    #[arg(long, value_name = "DATE,DATE", value_parser = two_days, conflicts_with_all = ["from", "through"])]
    dates: Option<Days>,
    /// Look only at jobs whose dates are this day or later.
    #[arg(long, value_name = "DATE", value_parser = date)]
    from: Option<Date>,
    /// Look only at jobs whose dates are not after this day.
    #[arg(long, value_name = "DATE", value_parser = date)]
    through: Option<Date>,
    #[command(flatten)]
    rules: RulesOptions,
    #[command(flatten)]
    reader: ReaderOptions,
    /// In which form to answer.
    #[arg(long = "as", value_enum, default_value_t)]
    form: Sheet,
    /// Tell every change and every case; without it a page of text tells the gravest.
    #[arg(long)]
    all: bool,
    /// Show with each change a job, to be pasted into a rule file as an example; HTML and JSON always have it.
    #[arg(long)]
    jobs: bool,
}

/// Two different days.
#[derive(Clone, Copy, Debug)]
struct Days(Date, Date);

fn two_days(text: &str) -> Result<Days, String> {
    let Some((one, other)) = text.split_once(',') else {
        return Err("write two days with a comma between them, such as 2022-06-30,2023-01-01".to_owned());
    };
    let (one, other) = (date(one)?, date(other)?);
    if one == other {
        return Err("both days are the same: nothing can change between them".to_owned());
    }
    Ok(Days(one, other))
}

/// A set of rules before, and one after where it is another.
struct Sets {
    before: Rules,
    after: Option<Rules>,
    between: Between,
}

impl Effect {
    /// Answers for the place.
    pub(crate) fn run(self) -> Status {
        match self.answer() {
            Ok(text) => {
                screen::print(&text);
                Status::Done
            }
            Err(trouble) => trouble.tell(self.form.findings()),
        }
    }

    fn answer(&self) -> Result<String, Trouble> {
        if self.form == Sheet::Json {
            self.reader.not_for_programs()?;
        }
        let window = self.window()?;
        let sets = self.sets()?;
        let (before, after) = (&sets.before, sets.after.as_ref().unwrap_or(&sets.before));
        let places = self.places(before, after)?;
        let days = self.dates.map_or([None, None], |Days(one, other)| [Some(one), Some(other)]);
        let sides = [
            Side { rules: before, place: places[0], on: days[0] },
            Side { rules: after, place: places[1], on: days[1] },
        ];
        let frame =
            Frame { sides, between: sets.between, window, today: screen::today(), reader: self.reader.reader() };
        let account = Account::new(&frame).map_err(|(number, told)| {
            let rules = if number == 0 { before } else { after };
            vec![Files::new(rules, HashMap::new()).finding(&told)]
        })?;
        Ok(match self.form {
            Sheet::Text | Sheet::Plain => page(&account, screen::look(), Length { all: self.all, jobs: self.jobs }),
            Sheet::Json => format!("{:#}\n", json(&account)),
            Sheet::Html => html(&account),
        })
    }

    fn window(&self) -> Result<Window, Finding> {
        if let (Some(from), Some(through)) = (self.from, self.through)
            && from > through
        {
            let message = format!("the days end on {through}, before they begin on {from}");
            return Err(Finding::new(codes::DATE_ORDER, Spot::argument("--through"), message)
                .help("give --from the earlier day and --through the later"));
        }
        Ok(Window { from: self.from, through: self.through })
    }

    /// Loads the rules of both sides.
    fn sets(&self) -> Result<Sets, Trouble> {
        let common = files::rule_files(&self.rules.rules);
        if !common.problems.is_empty() {
            return Err(common.problems.into());
        }
        match self.paths.as_slice() {
            [] => {
                let between = if self.dates.is_some() { Between::Days } else { Between::Places };
                Ok(Sets { before: self.rules.usable(common.sources)?, after: None, between })
            }
            [only] => self.amendment(common.sources, only),
            [one, two, ..] => {
                let load = |path: &PathBuf, side: &str| {
                    let found = files::rule_files(std::slice::from_ref(path));
                    if !found.problems.is_empty() {
                        return Err(of_side(found.problems, side));
                    }
                    let all = common.sources.iter().cloned().chain(found.sources).collect();
                    self.rules.usable(all).map_err(|problems| of_side(problems, side))
                };
                let (before, after) = (load(one, "before")?, load(two, "after")?);
                if before.hash() == after.hash() {
                    return Err(Trouble::usage(
                        "BEFORE and AFTER hold the same rules: nothing can differ",
                        "name the rules as they were before the change, then as they are after it",
                    ));
                }
                let between = Between::Files { before: files::name(one), after: files::name(two) };
                Ok(Sets { before, after: Some(after), between })
            }
        }
    }

    /// The rules without one amendment and with it. Where a folder given with `--rules`
    /// holds the amendment too, it is left out before.
    fn amendment(&self, common: Vec<Source>, path: &Path) -> Result<Sets, Trouble> {
        let found = files::rule_files(&[path.to_owned()]);
        if !found.problems.is_empty() {
            return Err(found.problems.into());
        }
        let own: HashSet<[u8; 32]> = found.sources.iter().map(Source::hash).collect();
        let others: Vec<Source> = common.into_iter().filter(|source| !own.contains(&source.hash())).collect();
        let before = self.rules.usable(others.clone()).map_err(|problems| of_side(problems, "before"))?;
        let all = others.into_iter().chain(found.sources).collect();
        let after = self.rules.usable(all).map_err(|problems| of_side(problems, "after"))?;
        let name = files::name(path);
        if before.hash() == after.hash() {
            return Err(Trouble::usage(
                format!("the built-in library holds {} already", crate::glossary::cut(&name)),
                "compare two days with --dates; or give --without-library, and the other rules with --rules",
            ));
        }
        // Its file says enough: the folders before it are the reader's own.
        let short = name.rsplit('/').next().unwrap_or(&name).to_owned();
        Ok(Sets { before, after: Some(after), between: Between::Amendment(short) })
    }

    /// The place of each side.
    fn places(&self, before: &Rules, after: &Rules) -> Result<[PlaceId; 2], Trouble> {
        let Some(against) = &self.against else {
            if std::ptr::eq(before, after) {
                let own = place(before, &self.place)?;
                return Ok([own, own]);
            }
            let later = place(after, &self.place).map_err(|problem| side(problem, "after"))?;
            let earlier = place(before, &self.place).map_err(|problem| {
                side(problem, "before").help(format!(
                    "the rules after declare `{}`, those before do not: give the file that declares it with --rules",
                    crate::glossary::cut(&self.place)
                ))
            })?;
            return Ok([earlier, later]);
        };
        let one = place(before, &self.place)?;
        let two = place(after, against).map_err(|problem| {
            let spot = Box::new(Spot::argument("--against"));
            Finding { spot, ..problem }
        })?;
        if one == two {
            return Err(Trouble::usage("--against names the place itself", "name another place"));
        }
        Ok([one, two])
    }
}

/// The same findings, each telling which side it is about.
fn of_side(findings: Vec<Finding>, of: &str) -> Vec<Finding> {
    findings.into_iter().map(|finding| side(finding, of)).collect()
}

fn side(mut finding: Finding, of: &str) -> Finding {
    finding.message = format!("in the rules {of}, {}", finding.message);
    finding
}
