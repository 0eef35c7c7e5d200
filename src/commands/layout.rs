//! `groundrule layout`: rule files and job sheets laid out in one way.

use super::options::As;
use super::status::Status;
use super::{files, screen};
use crate::report::finding::Finding;
use crate::report::screen::words::count;
use crate::report::visible;
use crate::syntax::diagnostic::FileId;
use crate::syntax::layout::lay_out;
use crate::syntax::{Kind, parse_bytes};
use clap::{Args, CommandFactory};
use serde_json::json;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Lays rule files and job sheets out: indents, blanks, line breaks, no words
#[derive(Args, Debug)]
pub(crate) struct Layout {
    /// Rule files, job sheets, or folders of them; - alone reads standard input and prints.
    #[arg(value_name = "PATH", required = true)]
    paths: Vec<PathBuf>,
    /// Change nothing; say which files would change, with status 15 if there are any.
    #[arg(long)]
    dry: bool,
    /// In which form to answer.
    #[arg(long = "as", value_enum, default_value_t)]
    form: As,
}

impl Layout {
    /// Lays every file out that can be; the others are left as they are.
    pub(crate) fn run(self) -> Status {
        let standard_input = |path: &PathBuf| path == Path::new("-");
        match self.paths.as_slice() {
            [only] if standard_input(only) => return self.standard_input(),
            paths if paths.iter().any(standard_input) => {
                let message = "`-` reads standard input and stands alone: nothing is beside it";
                super::Line::command().error(clap::error::ErrorKind::ArgumentConflict, message).exit();
            }
            _ => {}
        }
        let (paths, mut problems) = files::rule_files_and_sheets(&self.paths);
        let mut told = Vec::new();
        for path in &paths {
            match self.one(path) {
                Ok(changed) => told.push((files::name(path), changed)),
                Err(found) => problems.extend(found),
            }
        }
        self.tell(&told, paths.len());
        if !problems.is_empty() {
            screen::report(&problems, self.form);
            return Status::Unusable;
        }
        self.status(told.iter().any(|(_, changed)| *changed))
    }

    fn status(&self, changed: bool) -> Status {
        if changed && self.dry { Status::WouldChange } else { Status::Done }
    }

    /// Lays one file out; gives whether it is another now, or would be.
    fn one(&self, path: &Path) -> Result<bool, Vec<Finding>> {
        let bytes = files::read(path).map_err(|problem| vec![problem])?;
        let kind = if files::is_job_sheet(path) { Kind::Job } else { Kind::Rules };
        let laid = laid_out(&files::name(path), &bytes, kind)?;
        let changed = laid.as_bytes() != bytes;
        if changed && !self.dry {
            files::replace(path, laid.as_bytes()).map_err(|problem| vec![problem])?;
        }
        Ok(changed)
    }

    /// Prints what stands on standard input laid out, or says whether it would change.
    fn standard_input(&self) -> Status {
        let name = files::STANDARD_INPUT;
        let read = files::standard_input().map_err(|problem| vec![problem]);
        match read.and_then(|bytes| Ok((laid_out(name, &bytes, kind_of(&bytes))?, bytes))) {
            Err(problems) => {
                screen::report(&problems, self.form);
                Status::Unusable
            }
            Ok((laid, bytes)) if self.dry => {
                let changed = laid.as_bytes() != bytes;
                self.tell(&[(name.to_owned(), changed)], 1);
                self.status(changed)
            }
            Ok((laid, _)) => {
                screen::print(&laid);
                Status::Done
            }
        }
    }

    fn tell(&self, told: &[(String, bool)], files: usize) {
        if self.form == As::Json {
            let one = |(name, changed): &(String, bool)| json!({ "file": name, "changed": changed });
            return screen::print(&format!("{:#}\n", told.iter().map(one).collect::<serde_json::Value>()));
        }
        let verb = if self.dry { "would change" } else { "laid out" };
        let mut text = String::new();
        let mut changed = 0;
        for (name, _) in told.iter().filter(|(_, changed)| *changed) {
            text.push_str(&format!("{verb}: {}\n", visible::line(name)));
            changed += 1;
        }
        if changed > 0 {
            text.push('\n');
        }
        let number = if changed == 0 { "none".to_owned() } else { changed.to_string() };
        let mut words = vec![count(files, "file", "files"), format!("{number} {verb}")];
        if files > told.len() {
            words.push(format!("{} refused and left as before", files - told.len()));
        }
        screen::print(&format!("{text}{}\n", words.join(", ")));
    }
}

/// The text of a file laid out.
fn laid_out(name: &str, bytes: &[u8], kind: Kind) -> Result<String, Vec<Finding>> {
    let file = FileId::default();
    let told = match std::str::from_utf8(bytes) {
        Ok(text) => match lay_out(file, text, kind) {
            Ok(laid) => return Ok(laid),
            Err(told) => told,
        },
        // The reader of rule files words it, and shows the place.
        Err(_) => parse_bytes(file, bytes, kind).diagnostics,
    };
    let text: Arc<str> = String::from_utf8_lossy(bytes).into();
    Err(told.iter().map(|told| Finding::of_sheet(told, name, &text)).collect())
}

/// Whether a text of which no name tells it is rules or a job: rules, unless only
/// the other way it can be read.
fn kind_of(bytes: &[u8]) -> Kind {
    let problems = |kind| parse_bytes(FileId::default(), bytes, kind).diagnostics.len();
    if problems(Kind::Rules) > 0 && problems(Kind::Job) == 0 { Kind::Job } else { Kind::Rules }
}
