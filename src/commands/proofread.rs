//! `groundrule proofread`: what is wrong or doubtful in rule files, and whether
//! their examples come out.

use super::options::As;
use super::status::Status;
use super::{files, screen};
use crate::report::finding::{Files, Finding, json};
use crate::review;
use crate::rules::Rules;
use crate::syntax::diagnostic::{Diagnostic, FileId, Severity};
use clap::Args;
use std::collections::HashMap;
use std::path::PathBuf;

/// Errors and doubts in rule files, and whether the examples in them come out
#[derive(Args, Debug)]
pub(crate) struct Proofread {
    /// Rule files, or folders of them.
    #[arg(value_name = "PATH", required = true)]
    paths: Vec<PathBuf>,
    /// Further rule files to read these with; nothing is reported of them.
    #[arg(long = "rules", value_name = "DIR", action = clap::ArgAction::Append)]
    rules: Vec<PathBuf>,
    /// Load nothing but what is given.
    #[arg(long)]
    without_library: bool,
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
}

impl Proofread {
    /// Reports every finding of the given files, by file and place.
    pub(crate) fn run(self) -> Status {
        let own = files::rule_files(&self.paths);
        let beside = files::rule_files(&self.rules);
        let given: Vec<(String, [u8; 32])> =
            own.sources.iter().map(|source| (source.name().to_owned(), source.hash())).collect();
        let mut findings: Vec<Finding> = own.problems;
        findings.extend(beside.problems);
        let sources = own.sources.into_iter().chain(beside.sources).collect();
        let rules = if self.without_library { Rules::only(sources) } else { Rules::with(sources) };
        let names: HashMap<FileId, String> =
            given.iter().filter_map(|(name, hash)| Some((rules.file_with(hash)?, name.clone()))).collect();
        let ran = self.read(&rules, names, &mut findings);
        self.tell(&findings, given.len(), &ran)
    }

    /// Collects the findings; gives how many examples were run, and what is passed over.
    fn read(&self, rules: &Rules, names: HashMap<FileId, String>, findings: &mut Vec<Finding>) -> Ran {
        let own = |file: FileId| names.contains_key(&file);
        // The library by itself has no error, so that every error is of what was
        // given beside it, wherever it comes to light.
        let wanted = |told: &&Diagnostic| {
            told.severity() == Severity::Error || own(told.at.file) || told.also.iter().any(|(at, _)| own(at.file))
        };
        let mut told: Vec<Diagnostic> = rules.diagnostics().to_vec();
        let (mut examples, mut silenced) = (0, Vec::new());
        if rules.linked() && findings.is_empty() {
            told.extend(rules.wrong().iter().cloned());
            let doubts = review::doubts(rules);
            told.extend(doubts.told);
            silenced = doubts.silenced;
            if told.iter().all(|told| told.severity() != Severity::Error) {
                let ran = review::examples::run(rules, own);
                examples = ran.examples;
                told.extend(ran.findings);
            }
        }
        told.retain(|told| wanted(&told));
        silenced.retain(|(told, _)| wanted(&told));
        told.sort_by_key(|told| told.at);
        told.dedup();
        let mut files = Files::new(rules, names);
        findings.extend(told.iter().map(|told| files.finding(told)));
        let silenced = silenced.into_iter().map(|(told, why)| (files.finding(&told), why)).collect();
        Ran { examples, silenced }
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
        }
        match (errors, warnings) {
            (0, 0) => Status::Done,
            (0, _) => Status::Warnings,
            _ => Status::Unusable,
        }
    }
}
