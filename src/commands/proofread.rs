//! `groundrule proofread`: what is wrong or doubtful in rule files, and whether
//! their examples come out.

use super::options::{As, RulesOptions, date};
use super::status::Status;
use super::{files, screen, starter};
use crate::report::finding::{Files, Finding, json};
use crate::review;
use crate::review::changes::Tried;
use crate::review::survey::Asked;
use crate::rules::Rules;
use crate::syntax::diagnostic::{Diagnostic, FileId, Severity};
use crate::values::Date;
use crate::verdict::survey::Window;
use clap::Args;
use std::collections::HashMap;
use std::path::PathBuf;

/// Errors and doubts in rule files, and whether the examples in them come out
#[derive(Args, Debug)]
pub(crate) struct Proofread {
    /// Rule files, or folders of them.
    #[arg(value_name = "PATH", required_unless_present = "new")]
    paths: Vec<PathBuf>,
    /// Further rule files to read these with; nothing is reported of them.
    #[arg(long = "rules", value_name = "DIR", action = clap::ArgAction::Append)]
    rules: Vec<PathBuf>,
    /// Load nothing but what is given.
    #[arg(long)]
    without_library: bool,
    /// Look at jobs of this day and later alone.
    #[arg(long, value_name = "DATE", value_parser = date)]
    from: Option<Date>,
    /// Look at jobs up to this day alone.
    #[arg(long, value_name = "DATE", value_parser = date)]
    through: Option<Date>,
    /// Tell of places whose rules nobody has read since this day.
    #[arg(long, value_name = "DATE", value_parser = date)]
    read_since: Option<Date>,
    /// Change each clause of the files a little, and tell which changes no example of theirs notices.
    #[arg(long)]
    changes: bool,
    /// Let the examples of everything that is loaded notice, and not only those of the files.
    #[arg(long, requires = "changes")]
    all_examples: bool,
    /// Write a first rule file for a place, a town of yours, instead of reading any.
    #[arg(long, value_name = "PLACE", conflicts_with_all = ["paths", "changes"])]
    new: Option<String>,
    /// The state or county that the place of the new file lies within.
    #[arg(long, value_name = "STATE", requires = "new", conflicts_with = "paths")]
    within: Option<String>,
    /// The day on which its ordinance was adopted; today where it is not given.
    #[arg(long, value_name = "DATE", value_parser = date, requires = "new", conflicts_with = "paths")]
    date: Option<Date>,
    /// The file to write; standard output where it is not given.
    #[arg(long, value_name = "FILE", requires = "new", conflicts_with = "paths")]
    to: Option<PathBuf>,
    /// In which form to answer: text is drawn on a terminal and plain elsewhere.
    #[arg(long = "as", value_enum, default_value_t)]
    form: As,
    /// Draw the findings beside the text, without color, where no terminal is; --as plain is the contrary.
    #[arg(long, conflicts_with = "form")]
    drawn: bool,
}

/// What came of reading, beside the findings.
struct Ran {
    /// How many examples were run.
    examples: usize,
    /// The warnings that the files pass over, each with the reason.
    silenced: Vec<(Finding, String)>,
    /// What came of changing the files, where that was asked for.
    tried: Option<Tried>,
}

impl Proofread {
    /// Reports every finding of the given files, by file and place, or begins a new one.
    pub(crate) fn run(self) -> Status {
        if let Some(new) = &self.new {
            let rules = RulesOptions { rules: self.rules.clone(), without_library: self.without_library };
            let begun = starter::begin(&rules, new, self.within.as_deref(), self.date, self.to.as_deref());
            return match begun {
                Ok(()) => Status::Done,
                Err(findings) => {
                    screen::report(&findings, self.form);
                    Status::Unusable
                }
            };
        }
        let own = files::rule_files(&self.paths);
        let beside = files::rule_files(&self.rules);
        let given = files::named(&own.sources);
        let all: Vec<_> = files::named(&beside.sources).into_iter().chain(given.iter().cloned()).collect();
        let mut findings: Vec<Finding> = own.problems;
        findings.extend(beside.problems);
        let sources = own.sources.into_iter().chain(beside.sources).collect();
        let rules = if self.without_library { Rules::only(sources) } else { Rules::with(sources) };
        let rules = files::with_boundaries(rules, &all);
        let names: HashMap<FileId, String> =
            given.iter().filter_map(|(name, hash)| Some((rules.file_with(hash)?, name.clone()))).collect();
        let ran = self.read(&rules, names, &mut findings);
        self.tell(&findings, given.len(), &ran)
    }

    /// Collects the findings; gives what else came of reading.
    fn read(&self, rules: &Rules, names: HashMap<FileId, String>, findings: &mut Vec<Finding>) -> Ran {
        let own = |file: FileId| names.contains_key(&file);
        // The library by itself has no error, so that every error is of what was
        // given beside it, wherever it comes to light.
        let wanted = |told: &&Diagnostic| {
            told.severity() == Severity::Error || own(told.at.file) || told.also.iter().any(|(at, _)| own(at.file))
        };
        let mut told: Vec<Diagnostic> = rules.diagnostics().to_vec();
        let (mut examples, mut tried, mut silenced) = (0, None, Vec::new());
        if rules.linked() && findings.is_empty() {
            told.extend(rules.wrong().iter().cloned());
            let mut found = review::Found::default();
            if told.iter().all(|told| told.severity() != Severity::Error) {
                let window = Window { from: self.from, through: self.through };
                let asked = Asked { window, read_since: self.read_since };
                found.of_all_jobs = Some(review::survey::findings(rules, &own, asked));
                found.in_window = window != Window::default();
                let ran = review::examples::run(rules, own);
                examples = ran.examples;
                if self.changes && ran.findings.is_empty() {
                    let mut changed = review::changes::run(rules, own, self.all_examples);
                    found.of_changes = Some(std::mem::take(&mut changed.findings));
                    tried = Some(changed);
                }
                told.extend(ran.findings);
            }
            let doubts = review::doubts(rules, found);
            told.extend(doubts.told);
            silenced = doubts.silenced;
        }
        told.retain(|told| wanted(&told));
        silenced.retain(|(told, _)| wanted(&told));
        told.sort_by_key(|told| told.at);
        told.dedup();
        let mut files = Files::new(rules, names);
        findings.extend(told.iter().map(|told| files.finding(told)));
        let silenced = silenced.into_iter().map(|(told, why)| (files.finding(&told), why)).collect();
        Ran { examples, silenced, tried }
    }

    fn tell(&self, findings: &[Finding], files: usize, ran: &Ran) -> Status {
        let errors = findings.iter().filter(|finding| finding.severity() == Severity::Error).count();
        let warnings = findings.len() - errors;
        if self.form == As::Json {
            screen::print(&json::list(findings, &ran.silenced));
        } else if !findings.is_empty() {
            screen::list(findings, self.form, self.drawn);
        }
        if self.form != As::Json {
            let count = crate::report::screen::words::count;
            let mut words = vec![count(files, "file", "files"), count(ran.examples, "example run", "examples run")];
            words.push(if errors == 0 { "no errors".to_owned() } else { count(errors, "error", "errors") });
            words.push(if warnings == 0 { "no warnings".to_owned() } else { count(warnings, "warning", "warnings") });
            if !ran.silenced.is_empty() {
                let number = count(ran.silenced.len(), "warning", "warnings");
                words.push(format!("{number} silenced with a reason"));
            }
            let gap = if findings.is_empty() { "" } else { "\n" };
            screen::print(&format!("{gap}{}\n", words.join(", ")));
            if let Some(tried) = &ran.tried {
                let Tried { noticed, unnoticed, equal, .. } = tried;
                let (clauses, changes) =
                    (count(tried.clauses, "clause", "clauses"), count(tried.changes, "change", "changes"));
                screen::print(&format!(
                    "{clauses}, {changes} tried: {noticed} noticed, {unnoticed} not, {equal} that no job can tell\n"
                ));
            }
        }
        match (errors, warnings) {
            (0, 0) => Status::Done,
            (0, _) => Status::Warnings,
            _ => Status::Unusable,
        }
    }
}
