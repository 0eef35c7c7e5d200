//! What stands below the answers: what to ask, notes, cautions of the rules, what
//! is on its way, and what every page ends with.

use super::super::look::{Page, Tone};
use crate::report::sheet::Sheet;
use crate::report::speech::Reader;

/// Writes what follows the answers.
pub(super) fn write(page: &mut Page, sheet: &Sheet, reader: Reader) {
    asks(page, sheet, reader);
    if !sheet.notes.is_empty() {
        page.blank();
        page.paragraph(0, &reader.say("pages-notes"), Tone::Strong);
    }
    for note in &sheet.notes {
        let about = note.about.as_ref().map_or_else(String::new, |about| format!("{about}: "));
        let mut text = format!("{about}{}", note.text);
        if let Some(condition) = &note.condition {
            text.push_str(&format!(" ({})", reader.say_with("sheet-if", &[("condition", condition)])));
        }
        if let Some(cite) = &note.cite {
            text.push_str(&format!(" [{cite}]"));
        }
        page.hung(2, 4, &text, Tone::Plain);
    }
    if !sheet.pending.is_empty() {
        page.blank();
        page.paragraph(0, &reader.say("pages-pending"), Tone::Strong);
    }
    for coming in &sheet.pending {
        page.hung(2, 4, coming, Tone::Plain);
    }
    if matches!(sheet.outcome, "refer" | "conflict")
        && let Some(office) = &sheet.office
    {
        page.blank();
        page.paragraph(0, &format!("{} {office}", reader.say("pages-office")), Tone::Strong);
    }
    if !sheet.cautions.is_empty() {
        page.blank();
        page.hung(0, 2, &format!("{}: {}.", reader.say("pages-cautions"), sheet.cautions.join("; ")), Tone::Plain);
    }
    if !sheet.memory.is_empty() {
        let text = format!("{} {}.", reader.say("pages-memory"), sheet.memory);
        page.hung(0, 2, &text, Tone::Quiet);
    }
    page.blank();
    for caution in &sheet.standing {
        page.hung(0, 2, caution, Tone::Plain);
    }
}

fn asks(page: &mut Page, sheet: &Sheet, reader: Reader) {
    let (telling, idle): (Vec<_>, Vec<_>) = sheet.ask.iter().partition(|ask| ask.telling);
    if !sheet.ask.is_empty() {
        page.blank();
    }
    if !telling.is_empty() {
        page.paragraph(0, &reader.say("pages-ask"), Tone::Strong);
    }
    for ask in telling {
        let known: String = ask.known.iter().map(|known| format!("; {known}")).collect();
        page.hung(2, 4, &format!("{} ({}{known})", ask.prompt, ask.fact), Tone::Plain);
    }
    if !idle.is_empty() {
        let facts: Vec<&str> = idle.iter().map(|ask| &*ask.fact).collect();
        let text = format!("{}: {}.", sheet.idle_facts_lead, facts.join(", "));
        page.hung(0, 2, &text, Tone::Quiet);
    }
}
