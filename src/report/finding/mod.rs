//! What is wrong with rules, jobs and arguments, shown in three ways: drawn
//! beside the text, plain with one finding a paragraph, and as JSON.
//!
//! This module refuses to find anything itself.

pub(crate) mod asked;
mod drawn;
pub(crate) mod json;
mod plain;

use super::visible;
use crate::job::JobProblem;
use crate::rules::Rules;
use crate::syntax::codes::Code;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location, Severity};
use crate::syntax::look_alike;
use std::collections::HashMap;
use std::sync::Arc;

/// How findings are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Rendering {
    Drawn { color: bool },
    Plain,
    Json,
}

/// Where something is wrong.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Spot {
    /// The file, standard input, or the argument.
    pub(crate) name: String,
    /// The text of the file, where the finding stands in one.
    text: Option<Arc<str>>,
    /// Bytes of the text.
    start: usize,
    end: usize,
    /// The path of a fact of a job, such as `run[0].jacket`.
    pub(crate) path: String,
    /// Line and column where they are known without the text.
    position: Option<(usize, usize)>,
}

impl Spot {
    /// A file as a whole.
    pub(crate) fn file(name: String) -> Spot {
        Spot { name, ..Spot::default() }
    }

    /// An argument of the command line.
    pub(crate) fn argument(name: &str) -> Spot {
        Spot { name: format!("the argument {name}"), ..Spot::default() }
    }

    /// A parameter of a request.
    pub(crate) fn parameter(name: &str) -> Spot {
        Spot { name: format!("the parameter `{name}`"), ..Spot::default() }
    }

    /// A stretch of a file's text.
    fn within(name: String, text: Arc<str>, at: Location) -> Spot {
        let edge = |byte: u32| {
            let mut byte = (byte as usize).min(text.len());
            while !text.is_char_boundary(byte) {
                byte -= 1;
            }
            byte
        };
        let (start, end) = (edge(at.span.start), edge(at.span.end));
        Spot { name, start, end: end.max(start), text: Some(text), ..Spot::default() }
    }

    /// Line and column, counted from 1, columns in letters.
    pub(crate) fn line_and_column(&self) -> Option<(usize, usize)> {
        let Some(text) = &self.text else { return self.position };
        let before = text.get(..self.start)?;
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().map_or(0, |last| last.chars().count()) + 1;
        Some((line, column))
    }

    /// The line that it stands on, and the letters of it that are meant.
    fn line(&self) -> Option<(&str, usize, usize)> {
        let text = self.text.as_deref()?;
        let begin = text.get(..self.start)?.rfind('\n').map_or(0, |newline| newline + 1);
        let rest = text.get(begin..)?;
        let line = rest.split('\n').next()?.trim_end_matches('\r');
        let from = text.get(begin..self.start)?.chars().count();
        let long = text.get(self.start..self.end)?.split('\n').next()?.chars().count();
        Some((line, from, from + long))
    }

    /// The place in words, for a line of text.
    fn in_words(&self) -> String {
        let mut words = visible::line(&self.name);
        if let Some((line, column)) = self.line_and_column() {
            words.push_str(&format!(", line {line}, column {column}"));
        }
        if !self.path.is_empty() {
            words.push_str(&format!(", at {}", visible::line(&self.path)));
        }
        words
    }
}

/// One finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Finding {
    pub(crate) code: Code,
    pub(crate) spot: Box<Spot>,
    pub(crate) message: String,
    pub(crate) help: Option<String>,
    pub(crate) also: Vec<(Spot, String)>,
    /// An `example` block that shows it, ready to be pasted into a rule file.
    pub(crate) example: Option<String>,
}

/// Files by their number, with the names that people gave them.
pub(crate) struct Files<'r> {
    rules: &'r Rules,
    names: HashMap<FileId, String>,
    texts: HashMap<FileId, Arc<str>>,
}

impl<'r> Files<'r> {
    /// The files of a set of rules, some under other names.
    pub(crate) fn new(rules: &'r Rules, names: HashMap<FileId, String>) -> Files<'r> {
        Files { rules, names, texts: HashMap::new() }
    }

    fn spot(&mut self, at: Location) -> Spot {
        let name = self.names.get(&at.file).cloned().unwrap_or_else(|| self.rules.file_name(at.file).to_owned());
        let rules = self.rules;
        let text = self.texts.entry(at.file).or_insert_with(|| rules.file_text(at.file).into());
        Spot::within(name, Arc::clone(text), at)
    }

    /// A finding about one of the files.
    pub(crate) fn finding(&mut self, told: &Diagnostic) -> Finding {
        Finding {
            code: told.code,
            spot: Box::new(self.spot(told.at)),
            message: told.message.clone(),
            help: told.help.clone(),
            also: told.also.iter().map(|(at, note)| (self.spot(*at), note.clone())).collect(),
            example: told.example.clone(),
        }
    }
}

impl Finding {
    /// A finding with a code, a place and a message.
    pub(crate) fn new(code: Code, spot: Spot, message: impl Into<String>) -> Finding {
        Finding { code, spot: Box::new(spot), message: message.into(), help: None, also: Vec::new(), example: None }
    }

    /// The same with a help: what would mend it.
    pub(crate) fn help(mut self, help: impl Into<String>) -> Finding {
        self.help = Some(help.into());
        self
    }

    /// A diagnostic whose place is known better than it says.
    pub(crate) fn at_spot(told: &Diagnostic, spot: Spot) -> Finding {
        Finding {
            code: told.code,
            spot: Box::new(spot),
            message: told.message.clone(),
            help: told.help.clone(),
            also: Vec::new(),
            example: None,
        }
    }

    /// Findings about a set of rules, by file and place.
    pub(crate) fn of<'d>(rules: &Rules, told: impl Iterator<Item = &'d Diagnostic>) -> Vec<Finding> {
        let mut told: Vec<&Diagnostic> = told.collect();
        told.sort_by_key(|told| told.at);
        let mut files = Files::new(rules, HashMap::new());
        told.into_iter().map(|told| files.finding(told)).collect()
    }

    /// A finding about the one text of a job sheet.
    pub(crate) fn of_sheet(told: &Diagnostic, name: &str, text: &Arc<str>) -> Finding {
        let spot = |at: Location| Spot::within(name.to_owned(), Arc::clone(text), at);
        Finding {
            code: told.code,
            spot: Box::new(spot(told.at)),
            message: told.message.clone(),
            help: told.help.clone(),
            also: told.also.iter().map(|(at, note)| (spot(*at), note.clone())).collect(),
            example: told.example.clone(),
        }
    }

    /// A finding about a job in JSON.
    pub(crate) fn of_json(problem: JobProblem, name: &str) -> Finding {
        let spot = Spot { path: problem.path, position: problem.position, ..Spot::file(name.to_owned()) };
        Finding {
            code: problem.code,
            spot: Box::new(spot),
            message: problem.message,
            help: problem.help,
            also: Vec::new(),
            example: None,
        }
        .with_letters()
    }

    /// The same where a letter of the message looks like another: who reads it would
    /// see no difference to the name that is meant.
    pub(crate) fn with_letters(mut self) -> Finding {
        if let Some(told) = look_alike(&self.message) {
            self.help = Some(self.help.map_or(told.clone(), |help| format!("{told}; {help}")));
        }
        self
    }

    /// Place and message in one line.
    pub(crate) fn in_a_line(&self) -> String {
        format!("{}: {}", self.spot.in_words(), visible::line(&self.message))
    }

    /// How grave it is.
    pub(crate) fn severity(&self) -> Severity {
        self.code.severity()
    }
}

/// The word for how grave a finding is.
fn word(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
    }
}

/// The findings as text.
pub(crate) fn render(findings: &[Finding], rendering: Rendering) -> String {
    match rendering {
        Rendering::Drawn { color } => drawn::draw(findings, color),
        Rendering::Plain => findings.iter().map(plain::paragraph).collect::<Vec<_>>().join("\n"),
        Rendering::Json => json::list(findings, &[]),
    }
}

#[cfg(test)]
mod tests;
