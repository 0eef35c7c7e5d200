//! `groundrule walk-through`: asks what still matters of a job, one question at a
//! time, and writes the job sheet.

mod console;
mod keep;
mod keys;
mod talk;

use self::console::Console;
use self::keep::Keeper;
use self::talk::{End, Talk};
use super::jobs;
use super::options::{As, JobOptions, ReaderOptions, RulesOptions};
use super::screen;
use super::status::Status;
use crate::interview::{Asker, SoFar};
use crate::job::Defaults;
use crate::report::cures::Mending;
use crate::report::finding::{Finding, Spot};
use crate::report::screen::{Frame, verdict};
use crate::report::walk::STAGES;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::verdict::Scratch;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Ask what still matters of a job, one question at a time, and write the job sheet
#[derive(Args, Debug)]
pub(crate) struct WalkThrough {
    /// A job sheet (.job) or JSON file of one job to go on from; without it the job begins with its place.
    #[arg(value_name = "JOB")]
    file: Option<String>,
    #[command(flatten)]
    rules: RulesOptions,
    #[command(flatten)]
    job: JobOptions,
    #[command(flatten)]
    reader: ReaderOptions,
    /// Who answers: what this person can know is asked first.
    #[arg(long = "for", value_name = "WHO", value_enum, default_value_t)]
    who: Who,
    /// The file in which the job sheet is kept; without it the sheet is printed.
    #[arg(long, value_name = "FILE")]
    to: Option<PathBuf>,
    /// Write over the file if it exists.
    #[arg(long, requires = "to")]
    over: bool,
}

/// Who answers, in the words of the glossary.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
enum Who {
    /// Whoever does the gas piping.
    #[default]
    Contractor,
    /// Whoever does the electrical work.
    Electrician,
    /// Whoever inspects the job.
    Inspector,
    /// Whoever owns the building.
    Owner,
}

impl Who {
    fn word(self) -> &'static str {
        match self {
            Who::Contractor => "contractor",
            Who::Electrician => "electrician",
            Who::Inspector => "inspector",
            Who::Owner => "owner",
        }
    }
}

impl WalkThrough {
    /// Asks until nothing matters any more; the status is that of the verdict.
    pub(crate) fn run(self) -> Status {
        if self.file.as_deref() == Some("-") {
            return usage("the job cannot be read from standard input, where the answers come from", "name a file");
        }
        let keeper = match Keeper::new(self.to.clone(), self.over) {
            Ok(keeper) => keeper,
            Err(problem) => return usage(&problem, "name another file, or write over it with `--over`"),
        };
        let Some(rules) = self.rules.load_or_tell(As::Text) else { return Status::Unusable };
        match self.talk(&rules, &keeper) {
            Ok(status) => status,
            Err(findings) => {
                screen::report(&findings, As::Text);
                Status::Unusable
            }
        }
    }

    fn talk(&self, rules: &Rules, keeper: &Keeper) -> Result<Status, Vec<Finding>> {
        let mut console = Console::new(self.reader.reader());
        let voice = console.voice();
        keeper.heed(voice);
        let defaults = self.job.defaults(rules).map_err(|problem| vec![problem])?;
        let begun = self.begun(rules, &defaults, &mut console)?;
        let asker = Asker { who: self.who.word(), stages: STAGES };
        let mut talk = Talk::new(rules, defaults, asker, keeper, begun);
        let end = talk.run(&mut console)?;
        let Some(so_far) = talk.now else {
            let message = voice.reader.say("walk-no-place");
            let told = Finding::new(codes::JOB, Spot::argument("PLACE"), message);
            return Err(vec![told.help("name it, or begin with `--place`")]);
        };
        let matter = rules.matter(&so_far.job).map_err(|told| Finding::of(rules, std::iter::once(told)))?;
        let found = rules.weighed(&matter, &mut Scratch::default());
        if end == End::Verdict {
            let sheet = rules.sheet(&found, &matter, screen::today(), voice.reader, false);
            let mending = Mending::of(&found, &matter, voice.reader);
            let frame = Frame { why: false, mending, from: None, reader: voice.reader };
            screen::print(&verdict(&sheet, &frame, screen::look()));
        }
        keeper.close(&mut console, end);
        Ok(found.outcome.into())
    }

    /// The job with which it begins; nothing where even the place has to be asked.
    fn begun(&self, rules: &Rules, defaults: &Defaults, console: &mut Console) -> Result<Option<SoFar>, Vec<Finding>> {
        let Some(file) = &self.file else {
            let Some(place) = defaults.place else { return Ok(None) };
            let begun = SoFar::at(rules.desk(), place, defaults);
            return Ok(Some(begun.map_err(|refused| vec![talk::contradiction(&refused)])?));
        };
        let mut defaults = *defaults;
        if defaults.place.is_none() && jobs::lacks_place(file)? {
            let Some(place) = talk::ask_place(rules, console) else { return Ok(None) };
            defaults.place = Some(place);
        }
        let found = jobs::read(std::slice::from_ref(file), rules, &defaults)?;
        match <[_; 1]>::try_from(found) {
            Ok([one]) => Ok(Some(SoFar::of(one.job))),
            Err(several) => {
                let message = format!("the file holds {} jobs", several.len());
                let told = Finding::new(codes::JOB, Spot::file(file.clone()), message);
                Err(vec![told.help("one walk-through is about one job: put it into a file of its own")])
            }
        }
    }
}

fn usage(message: &str, help: &str) -> Status {
    screen::complain(&format!("error: {message}\n  help: {help}\n"));
    Status::Usage
}
