//! Jobs from files and standard input: job sheets and JSON.

use super::files;
use crate::job::model::Job;
use crate::job::{Defaults, read_json, read_sheet};
use crate::report::finding::Finding;
use crate::rules::Rules;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::Item;
use crate::syntax::{Kind, codes, parse_bytes};
use std::path::Path;
use std::sync::Arc;

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
        json(&name, &bytes, rules, defaults)
    } else {
        sheet(&name, &bytes, rules, defaults)
    };
    Ok(jobs?.into_iter().map(|job| Given { job, from: name.clone() }).collect())
}

/// Whether the first job of a file can be read and says no place.
///
/// # Errors
/// Where the file cannot be read.
pub(crate) fn lacks_place(path: &str) -> Result<bool, Vec<Finding>> {
    let bytes = files::read(Path::new(path)).map_err(|problem| vec![problem])?;
    if is_json(path, &bytes) {
        let whole: Option<serde_json::Value> = serde_json::from_slice(&bytes).ok();
        let said = |one: &serde_json::Value| one.get("place").is_some_and(|place| !place.is_null());
        return Ok(whole.is_some_and(|one| one.is_object() && !said(&one)));
    }
    let parsed = parse_bytes(FileId::default(), &bytes, Kind::Job);
    let mut sheets = parsed.tree.items.iter().filter_map(|item| match item {
        Item::Job(sheet) => Some(sheet),
        _ => None,
    });
    let said = |sheet: &crate::syntax::tree::JobSheet| {
        sheet.entries.iter().any(|entry| matches!(entry, crate::syntax::tree::JobEntry::Place(_)))
    };
    Ok(parsed.diagnostics.is_empty() && sheets.next().is_some_and(|sheet| !said(sheet)))
}

/// A name tells the form; where it tells nothing, the first letter does.
fn is_json(path: &str, bytes: &[u8]) -> bool {
    match Path::new(path).extension().and_then(|ending| ending.to_str()) {
        Some("json") => true,
        Some("job") => false,
        _ => matches!(bytes.iter().find(|byte| !byte.is_ascii_whitespace()), Some(b'{' | b'[')),
    }
}

fn json(name: &str, bytes: &[u8], rules: &Rules, defaults: &Defaults) -> Result<Vec<Job>, Vec<Finding>> {
    match std::str::from_utf8(bytes) {
        Ok(text) => {
            let told = |problems: Vec<_>| problems.into_iter().map(|problem| Finding::of_json(problem, name)).collect();
            read_json(text, rules.desk(), defaults).map_err(told)
        }
        // The reader of rule files words it, and shows the place.
        Err(_) => {
            Err(sheet_problems(name, bytes, parse_bytes(FileId::default(), bytes, Kind::Job).diagnostics.into_iter()))
        }
    }
}

fn sheet(name: &str, bytes: &[u8], rules: &Rules, defaults: &Defaults) -> Result<Vec<Job>, Vec<Finding>> {
    let parsed = parse_bytes(FileId::default(), bytes, Kind::Job);
    if !parsed.diagnostics.is_empty() {
        return Err(sheet_problems(name, bytes, parsed.diagnostics.into_iter()));
    }
    let mut jobs = Vec::new();
    for item in &parsed.tree.items {
        if let Item::Job(sheet) = item {
            let read = read_sheet(sheet, FileId::default(), rules.desk(), defaults);
            jobs.push(read.map_err(|told| sheet_problems(name, bytes, told.into_iter()))?);
        }
    }
    if jobs.is_empty() {
        let spot = crate::report::finding::Spot::file(name.to_owned());
        return Err(vec![
            Finding::new(codes::JOB, spot, "the sheet holds no job")
                .help("write at least `place` and the name of the place"),
        ]);
    }
    Ok(jobs)
}

fn sheet_problems(
    name: &str,
    bytes: &[u8],
    told: impl Iterator<Item = crate::syntax::diagnostic::Diagnostic>,
) -> Vec<Finding> {
    let text: Arc<str> = String::from_utf8_lossy(bytes).into();
    told.map(|told| Finding::of_sheet(&told, name, &text)).collect()
}
