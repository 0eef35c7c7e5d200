//! Jobs from files and standard input: job sheets and JSON.

use super::files;
use crate::engine::reading;
use crate::job::Defaults;
use crate::job::model::Job;
use crate::report::finding::Finding;
use crate::rules::Rules;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::{Item, JobEntry};
use crate::syntax::{Kind, parse_bytes};
use serde_json::Value;
use std::path::Path;

/// A job and where it was read.
#[derive(Debug)]
pub(crate) struct Given {
    pub(crate) job: Job,
    pub(crate) from: String,
}

/// Reads all jobs of the files, `-` being standard input.
///
/// # Errors
/// What is wrong with any of them; then none is used.
pub(crate) fn read(paths: &[String], rules: &Rules, defaults: &Defaults) -> Result<Vec<Given>, Vec<Finding>> {
    let mut jobs = Vec::new();
    let mut problems = Vec::new();
    for path in paths {
        match read_one(path, rules, defaults) {
            Ok(found) => jobs.extend(found),
            Err(found) => problems.extend(found),
        }
    }
    if problems.is_empty() { Ok(jobs) } else { Err(problems) }
}

fn read_one(path: &str, rules: &Rules, defaults: &Defaults) -> Result<Vec<Given>, Vec<Finding>> {
    let text = text(path)?;
    let jobs = text.jobs(rules, defaults)?;
    Ok(jobs.into_iter().map(|job| Given { job, from: text.name.clone() }).collect())
}

/// The text of jobs, to be read once or against several defaults.
#[derive(Debug)]
pub(crate) struct Text {
    pub(crate) name: String,
    bytes: Vec<u8>,
    json: bool,
}

/// The text of a file, `-` being standard input.
///
/// # Errors
/// Where it cannot be read.
pub(crate) fn text(path: &str) -> Result<Text, Vec<Finding>> {
    let (name, bytes) = match path {
        "-" => (files::STANDARD_INPUT.to_owned(), files::standard_input().map_err(|problem| vec![problem])?),
        path => (files::name(Path::new(path)), files::read(Path::new(path)).map_err(|problem| vec![problem])?),
    };
    let json = is_json(path, &bytes);
    Ok(Text { name, bytes, json })
}

impl Text {
    /// The jobs of it.
    ///
    /// # Errors
    /// What is wrong with any of them.
    pub(crate) fn jobs(&self, rules: &Rules, defaults: &Defaults) -> Result<Vec<Job>, Vec<Finding>> {
        let read = if self.json { reading::json } else { reading::sheet };
        read(&self.name, &self.bytes, rules, defaults)
    }

    /// Whether the first job of it says where it is; nothing where it holds no job that can be read.
    pub(crate) fn says_its_place(&self) -> Option<bool> {
        if !self.json {
            let parsed = parse_bytes(FileId::default(), &self.bytes, Kind::Job);
            let first = parsed.tree.items.iter().find_map(|item| match item {
                Item::Job(sheet) => Some(sheet),
                _ => None,
            });
            let said = first?.entries.iter().any(|entry| matches!(entry, JobEntry::Place(_)));
            return parsed.diagnostics.is_empty().then_some(said);
        }
        let whole: Value = serde_json::from_slice(&self.bytes).ok()?;
        let job = whole.as_array().map_or(Some(&whole), |jobs| jobs.first())?;
        job.is_object().then(|| job.get("place").is_some_and(|place| !place.is_null()))
    }
}

/// Whether the first job of a file can be read and says no place.
///
/// # Errors
/// Where the file cannot be read.
pub(crate) fn lacks_place(path: &str) -> Result<bool, Vec<Finding>> {
    Ok(text(path)?.says_its_place() == Some(false))
}

/// A name tells the form; where it tells nothing, the first letter does.
fn is_json(path: &str, bytes: &[u8]) -> bool {
    match Path::new(path).extension().and_then(|ending| ending.to_str()) {
        Some("json") => true,
        Some("job") => false,
        _ => matches!(bytes.iter().find(|byte| !byte.is_ascii_whitespace()), Some(b'{' | b'[')),
    }
}
