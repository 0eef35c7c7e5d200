//! What is in force, as a page.

use super::super::look::{Look, Page, Tone};
use super::super::screen::words::spoken;
use super::super::sheet::closing::ages;
use super::super::speech::Reader;
use super::{Clause, InForce, Inquest, InstrumentLine, Standing};
use crate::values::Date;

/// The page on a place.
pub(crate) fn page(answer: &InForce, inquest: &Inquest<'_>, today: Date, look: Look) -> String {
    let mut page = Page::new(look);
    page.paragraph(0, &format!("Rules in force at {}, on {}", answer.title, answer.on), Tone::Strong);
    codes(&mut page, answer);
    clauses(&mut page, "Amendments of codes, section by section", &answer.amendments);
    clauses(&mut page, "Sections of the instruments themselves", &answer.sections);
    clauses(&mut page, "Powers over places within", &answer.powers);
    clauses(&mut page, "Advice, which does not bind", &answer.advisory);
    instruments(&mut page, "Coming, and not in force on that day", &answer.pending);
    instruments(&mut page, "How it came about", &answer.history);
    page.blank();
    for place in &answer.places {
        if !place.nothing_of_its_own.is_empty() {
            let subjects: Vec<String> = place.nothing_of_its_own.iter().map(|subject| spoken(subject)).collect();
            page.hung(
                0,
                2,
                &format!("{} has nothing of its own on {}.", place.title, subjects.join(", ")),
                Tone::Plain,
            );
        }
        if let Some(office) = &place.office {
            page.hung(0, 2, &format!("The office of {}: {office}.", place.title), Tone::Plain);
        }
    }
    close(&mut page, inquest, today);
    page.finish()
}

/// How old the rules are, and that the authority decides.
pub(super) fn close(page: &mut Page, inquest: &Inquest<'_>, today: Date) {
    let path = inquest.library().places.path(inquest.matter.job.place);
    page.hung(0, 2, &ages(&path, &inquest.library().places, today, Reader::default()), Tone::Plain);
    page.hung(0, 2, "This is about written rules on a date; the authority having jurisdiction decides.", Tone::Plain);
}

fn codes(page: &mut Page, answer: &InForce) {
    page.blank();
    page.paragraph(0, "Codes", Tone::Strong);
    if answer.codes.is_empty() {
        page.hung(2, 4, "no code that is known here is in force on that day", Tone::Plain);
    }
    let mut subject = "";
    for line in &answer.codes {
        if line.subject != subject {
            subject = &line.subject;
            page.hung(2, 4, &format!("on {}", spoken(subject)), Tone::Plain);
        }
        let scope = if line.scope.is_empty() { String::new() } else { format!(", where {}", line.scope) };
        let title = if line.title.is_empty() { String::new() } else { format!(" ({})", line.title) };
        page.hung(4, 6, &format!("{} {}{title}, adopted by {}{scope}", line.code, line.edition, line.by), Tone::Plain);
    }
}

fn clauses(page: &mut Page, head: &str, clauses: &[Clause]) {
    if clauses.is_empty() {
        return;
    }
    page.blank();
    page.paragraph(0, head, Tone::Strong);
    for clause in clauses {
        let title = if clause.title.is_empty() { String::new() } else { format!(": {}", clause.title) };
        let doubt =
            if clause.standing == Standing::InForce { String::new() } else { format!("; {}", clause.standing.words()) };
        page.hung(2, 4, &format!("{} {}{title}{doubt}", clause.by, clause.does), Tone::Plain);
        if !clause.summary.is_empty() {
            page.paragraph(4, &clause.summary, Tone::Quiet);
        }
    }
}

fn instruments(page: &mut Page, head: &str, lines: &[InstrumentLine]) {
    if lines.is_empty() {
        return;
    }
    page.blank();
    page.paragraph(0, head, Tone::Strong);
    for line in lines {
        let title = if line.title.is_empty() { String::new() } else { format!(", {}", line.title) };
        page.hung(
            2,
            4,
            &format!("{} of {}: {}{title}", line.instrument, line.issuer, line.kind.replace('-', " ")),
            Tone::Plain,
        );
        let adopted = line.adopted.as_ref().map_or_else(String::new, |day| format!("adopted {day}; "));
        let force = if line.in_force.is_empty() { String::new() } else { format!("in force {}; ", line.in_force) };
        let by = line.ended_by.as_ref().map_or_else(String::new, |by| format!(" by {by}"));
        let past = if line.superseded { ", its editions given way to others" } else { "" };
        page.hung(4, 6, &format!("{adopted}{force}on that day {}{by}{past}", line.standing.words()), Tone::Plain);
        if !line.does.is_empty() {
            page.hung(4, 6, &line.does.join("; "), Tone::Plain);
        }
        page.hung(4, 6, &line.provenance, Tone::Quiet);
    }
}
