//! The answers: what is asked, how the job stands, and by which text.

use super::super::look::{Page, Tone};
use super::Frame;
use super::reasons;
use crate::report::sheet::jumper::Jumper;
use crate::report::sheet::{Line, Missing, Sheet};

/// Where the text of an answer begins.
pub(super) const COLUMN: usize = 9;

/// Writes every answer in the order of the work; silent questions and those that
/// ask nothing share a line at the end.
pub(super) fn write_all(page: &mut Page, sheet: &Sheet, frame: &Frame<'_>) {
    page.blank();
    for line in &sheet.answers {
        write(page, line, frame);
    }
    // Of a jumper that is there, or is to be, each answer has to be found.
    if sheet.jumper != Jumper::Otherwise && !sheet.idle.is_empty() {
        page.hung(0, 2, &format!("{}:", sheet.idle_lead), Tone::Plain);
        sheet.idle.iter().for_each(|told| page.hung(2, 4, told, Tone::Plain));
    }
    let mut together = |lead: &str, titles: &[String]| {
        if !titles.is_empty() {
            page.hung(0, 2, &format!("{lead}: {}.", titles.join("; ")), Tone::Quiet);
        }
    };
    if sheet.jumper == Jumper::Otherwise {
        together(&sheet.idle_lead, &sheet.idle);
    }
    together("Nothing asked of this job", &sheet.loose);
    together("No rule known here speaks of", &sheet.silent);
    for told in &sheet.against {
        page.hung(0, 2, &format!("Against what is advised: {told}"), Tone::Doubt);
    }
}

/// How a mark looks.
fn tone(mark: &str) -> Tone {
    match mark {
        "not-met" | "conflict" => Tone::Bad,
        "refer" | "open" => Tone::Doubt,
        "met" => Tone::Good,
        _ => Tone::Quiet,
    }
}

fn write(page: &mut Page, line: &Line, frame: &Frame<'_>) {
    let mut text = format!("{}: {}", line.title, line.value);
    if let Some(has) = &line.has {
        text.push_str(&format!("; the job has {has}"));
    }
    if !line.unsaid.is_empty() {
        text.push_str(&format!("; the job does not say {}", paths(&line.unsaid)));
    }
    if line.silent {
        text.push_str(&format!("; {}", line.cite));
    } else if !frame.why {
        let more = if line.cites_more { " (--why)" } else { "" };
        text.push_str(&format!(" [{}{more}]", line.cite));
    }
    page.labeled(&line.word, tone(line.mark), COLUMN, &text, Tone::Plain);
    for told in line.needs.iter().chain(&line.referrals).chain(&line.carries) {
        page.hung(COLUMN + 2, COLUMN + 4, told, Tone::Plain);
    }
    mends(page, line, frame);
    let mut column = COLUMN + 2;
    if let Some(shared) = &line.cases.shared {
        page.hung(column, column + 2, shared, Tone::Plain);
        column += 2;
    }
    for case in &line.cases.each {
        page.hung(column, column + 2, case, Tone::Plain);
    }
    if !line.hangs_on.is_empty() {
        page.hung(COLUMN + 2, COLUMN + 4, &format!("hangs on {}", paths(&line.hangs_on)), Tone::Plain);
    }
    if frame.why {
        reasons::write(page, &line.reasons);
    }
}

/// Facts as a job writes them.
fn paths(facts: &[Missing]) -> String {
    facts.iter().map(|missing| &*missing.fact).collect::<Vec<_>>().join(", ")
}

/// What could be chosen otherwise so that it is met.
fn mends(page: &mut Page, line: &Line, frame: &Frame<'_>) {
    const MOST: usize = 3;
    let most = if frame.why { line.mends.len() } else { MOST };
    for told in line.mends.iter().take(most) {
        page.hung(COLUMN + 2, COLUMN + 4, &format!("mend: {}", told.text), Tone::Plain);
    }
    if line.mends.len() > most {
        let more = line.mends.len() - most;
        page.hung(COLUMN + 2, COLUMN + 4, &format!("and {more} more (--why)"), Tone::Quiet);
    }
    if let Some(none) = &line.no_mend {
        page.hung(COLUMN + 2, COLUMN + 4, &format!("mend: {none}"), Tone::Plain);
    }
}
