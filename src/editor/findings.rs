//! What is wrong or doubtful in the editor's files: asked of the reviewer, told as
//! the protocol tells it.

use super::view::{SHEETS, View};
use crate::job::{Defaults, read_sheet};
use crate::review;
use crate::syntax::diagnostic::{Diagnostic, FileId, Severity};
use crate::syntax::tree::Item;
use lsp_types::{DiagnosticRelatedInformation, DiagnosticSeverity, NumberOrString, Range};

/// What can be told of one rule file at once: all but what only a look at the
/// whole library shows.
pub(super) fn of_file(view: &View, file: FileId) -> Vec<Diagnostic> {
    let rules = &view.rules;
    let touches = |told: &&Diagnostic| told.at.file == file || told.also.iter().any(|(at, _)| at.file == file);
    let mut found: Vec<Diagnostic> = rules.diagnostics().iter().filter(touches).cloned().collect();
    if rules.linked() {
        found.extend(review::of_file(rules, file));
        if found.iter().all(|told| told.severity() != Severity::Error) {
            found.extend(review::examples::run(rules, |own| own == file).findings);
        }
    }
    found
}

/// What can be told of everything; nothing where it was stopped on the way.
pub(super) fn of_all(view: &View, stopped: &(dyn Fn() -> bool + Sync)) -> Option<Vec<Diagnostic>> {
    let rules = &view.rules;
    let mut found = rules.diagnostics().to_vec();
    if rules.linked() {
        found.extend(review::errors_unless(rules, stopped)?);
        let right = found.iter().all(|told| told.severity() != Severity::Error);
        let of_all_jobs = if right { over_all_jobs(view, stopped)? } else { Vec::new() };
        // Only open files were looked at in this way: no line is told to pass nothing over.
        let further = review::Found { of_all_jobs: Some(of_all_jobs), in_window: true, of_changes: None };
        found.extend(review::doubts_unless(rules, further, stopped)?.told);
        if found.iter().all(|told| told.severity() != Severity::Error) {
            for (file, tree) in rules.trees() {
                let own = view.face(file).is_some_and(|face| face.own);
                if own && tree.items.iter().any(|item| matches!(item, Item::Example(_))) {
                    if stopped() {
                        return None;
                    }
                    found.extend(review::examples::run(rules, |wanted| wanted == file).findings);
                }
            }
        }
    }
    found.extend(of_sheets(view));
    found.sort_by(|one, other| (one.at, one.code, &one.message).cmp(&(other.at, other.code, &other.message)));
    found.dedup();
    Some(found)
}

/// What shows of the open files over all jobs of their places.
fn over_all_jobs(view: &View, stopped: &(dyn Fn() -> bool + Sync)) -> Option<Vec<Diagnostic>> {
    let mut found = Vec::new();
    for (file, _) in view.rules.trees() {
        if view.face(file).is_some_and(|face| face.own && face.version.is_some()) {
            let own = |wanted: FileId| wanted == file;
            let asked = review::survey::Asked::default();
            found.extend(review::survey::findings_unless(&view.rules, &own, asked, stopped)?);
        }
    }
    Some(found)
}

/// What is wrong with the job sheets.
pub(super) fn of_sheets(view: &View) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (sheet, number) in view.sheets.iter().zip(SHEETS..) {
        let file = FileId(number);
        found.extend(sheet.diagnostics.iter().map(|told| moved(told, file)));
        if sheet.diagnostics.is_empty() && view.rules.linked() {
            for item in &sheet.tree.items {
                if let Item::Job(job) = item
                    && let Err(problems) = read_sheet(job, file, view.rules.desk(), &Defaults::default())
                {
                    found.extend(problems);
                }
            }
        }
    }
    found
}

/// A finding of a sheet under the number that the sheet has in this view.
fn moved(told: &Diagnostic, file: FileId) -> Diagnostic {
    let mut told = told.clone();
    told.at.file = file;
    for (at, _) in &mut told.also {
        at.file = file;
    }
    told
}

/// A finding as the protocol tells it, with the file at which it is told: its own,
/// or the first of those that belong to it where its own is not the editor's.
pub(super) fn told(view: &View, told: &Diagnostic) -> Option<(FileId, lsp_types::Diagnostic)> {
    let own = |file: FileId| view.face(file).filter(|face| face.own);
    let mut message = told.message.clone();
    let mut at = told.at;
    if own(at.file).is_none() {
        let (place, note) = told.also.iter().find(|(place, _)| own(place.file).is_some())?;
        message = format!("{message}, in `{}`; {note}", view.name(at.file));
        at = *place;
    }
    if let Some(help) = &told.help {
        message = format!("{message}\nhelp: {help}");
    }
    let mut related = Vec::new();
    for (place, note) in told.also.iter().filter(|(place, _)| *place != at) {
        match view.face(place.file) {
            Some(face) => related.push(DiagnosticRelatedInformation {
                location: lsp_types::Location { uri: face.uri.clone(), range: face.document.range(place.span) },
                message: note.clone(),
            }),
            // A file of the library is nowhere an editor could open it as it stands.
            None => {
                let text = view.rules.file_text(place.file);
                let before = text.get(..place.span.start as usize).unwrap_or_default();
                let line = before.bytes().filter(|byte| *byte == b'\n').count() + 1;
                message = format!("{message}\n{note}: {}:{line}", view.name(place.file));
            }
        }
    }
    let severity = match told.severity() {
        Severity::Error => DiagnosticSeverity::ERROR,
        Severity::Warning => DiagnosticSeverity::WARNING,
    };
    let range = own(at.file).map_or_else(Range::default, |face| face.document.range(at.span));
    let told = lsp_types::Diagnostic {
        range,
        severity: Some(severity),
        code: Some(NumberOrString::String(told.code.to_string())),
        source: Some("groundrule".to_owned()),
        message,
        related_information: (!related.is_empty()).then_some(related),
        ..lsp_types::Diagnostic::default()
    };
    Some((at.file, told))
}
