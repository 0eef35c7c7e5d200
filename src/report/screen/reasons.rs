//! All reasons of an answer, for whoever has to look them up.

use super::super::look::{Page, Tone};
use super::answer::COLUMN;
use super::words::{cite, provenance, spoken};
use crate::law::model::Source;
use crate::verdict::Matter;
use crate::verdict::model::{Answered, Reason, Role};

/// Writes the reasons of one answer: what governs and what was weaker, advice,
/// then what was set aside and by whom.
pub(in crate::report) fn write(page: &mut Page, answer: &Answered<'_>, matter: &Matter<'_>) {
    let all = answer.because.iter().chain(&answer.advice).chain(&answer.set_aside);
    for reason in all {
        write_one(page, reason, matter);
    }
}

/// Writes one reason.
pub(in crate::report) fn write_one(page: &mut Page, reason: &Reason<'_>, matter: &Matter<'_>) {
    let source = reason.source;
    let head = format!("{}: {} – {}", spoken(reason.role.word()), cite(source), reason.provision.words);
    page.hung(COLUMN + 2, COLUMN + 4, &head, Tone::Plain);
    if let Some(by) = reason.by {
        let text = format!("by {} of {}, {}", cite(by), by.issuer, whole(by));
        page.hung(COLUMN + 4, COLUMN + 6, &text, Tone::Quiet);
    }
    if !reason.failed.is_empty() {
        let failed: Vec<String> = reason.failed.iter().map(|phrase| phrase.write(matter)).collect();
        page.hung(COLUMN + 4, COLUMN + 6, &format!("would need {}", failed.join(" and ")), Tone::Quiet);
    }
    if let Some(condition) = &reason.condition {
        page.hung(COLUMN + 4, COLUMN + 6, &format!("if {}", condition.write(matter)), Tone::Quiet);
    }
    if matches!(reason.role, Role::SetAside(crate::law::model::Fate::PassedOver)) {
        return;
    }
    if !source.summary.is_empty() {
        page.hung(COLUMN + 4, COLUMN + 6, &source.summary, Tone::Quiet);
    }
    let adopted = source.adopted_by.as_ref().map_or_else(String::new, |by| format!("; the edition adopted by {by}"));
    let text =
        format!("{} of {}, {}{adopted}; {}", source.kind, source.issuer, whole(source), provenance(&source.provenance));
    page.hung(COLUMN + 4, COLUMN + 6, &text, Tone::Quiet);
}

/// When the instrument of a source is in force.
fn whole(source: &Source) -> String {
    if source.in_force.is_empty() {
        "no day in force is recorded".to_owned()
    } else {
        format!("in force {}", source.in_force)
    }
}
