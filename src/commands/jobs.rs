//! Jobs from files and standard input: job sheets and JSON.

use super::files;
use crate::engine::reading;
use crate::job::Defaults;
use crate::job::model::Job;
use crate::report::finding::Finding;
use crate::rules::Rules;
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
    let (name, bytes) = match path {
        "-" => (files::STANDARD_INPUT.to_owned(), files::standard_input().map_err(|problem| vec![problem])?),
        path => (files::name(Path::new(path)), files::read(Path::new(path)).map_err(|problem| vec![problem])?),
    };
    let jobs = if is_json(path, &bytes) {
        reading::json(&name, &bytes, rules, defaults)
    } else {
        reading::sheet(&name, &bytes, rules, defaults)
    };
    Ok(jobs?.into_iter().map(|job| Given { job, from: name.clone() }).collect())
}

/// A name tells the form; where it tells nothing, the first letter does.
fn is_json(path: &str, bytes: &[u8]) -> bool {
    match Path::new(path).extension().and_then(|ending| ending.to_str()) {
        Some("json") => true,
        Some("job") => false,
        _ => matches!(bytes.iter().find(|byte| !byte.is_ascii_whitespace()), Some(b'{' | b'[')),
    }
}
