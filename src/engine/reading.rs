//! Jobs from the bytes of a text: job sheets and JSON, and what is wrong with them
//! by file, place and help.
//!
//! This file refuses to open anything: it is given the bytes and their name.

use crate::job::model::Job;
use crate::job::{Defaults, read_json, read_sheet};
use crate::report::finding::{Finding, Spot};
use crate::rules::Rules;
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::tree::Item;
use crate::syntax::{Kind, codes, parse_bytes};
use std::sync::Arc;

/// The jobs of a JSON text: one object, or a list of them.
///
/// # Errors
/// What is wrong with any of them; then none is used.
pub(crate) fn json(name: &str, bytes: &[u8], rules: &Rules, defaults: &Defaults) -> Result<Vec<Job>, Vec<Finding>> {
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

/// The job of a job sheet.
///
/// # Errors
/// What is wrong with it.
pub(crate) fn sheet(name: &str, bytes: &[u8], rules: &Rules, defaults: &Defaults) -> Result<Vec<Job>, Vec<Finding>> {
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
        return Err(vec![
            Finding::new(codes::JOB, Spot::file(name.to_owned()), "the sheet holds no job")
                .help("write at least `place` and the name of the place"),
        ]);
    }
    Ok(jobs)
}

fn sheet_problems(name: &str, bytes: &[u8], told: impl Iterator<Item = Diagnostic>) -> Vec<Finding> {
    let text: Arc<str> = String::from_utf8_lossy(bytes).into();
    told.map(|told| Finding::of_sheet(&told, name, &text)).collect()
}
