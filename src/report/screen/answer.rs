//! The answers: what is asked, how the job stands, and by which text.

use super::super::look::{Page, Tone};
use super::Frame;
use super::reasons;
use crate::report::cures::CureTold;
use crate::report::sheet::{Line, Sheet};

/// Where the text of an answer begins.
pub(super) const COLUMN: usize = 9;

/// Writes every answer in the order of the work; silent questions and those that
/// ask nothing share a line at the end.
pub(super) fn write_all(page: &mut Page, sheet: &Sheet, frame: &Frame<'_>) {
    page.blank();
    for line in &sheet.answers {
        write(page, line, frame);
    }
    let mut together = |lead: &str, titles: &[String]| {
        if !titles.is_empty() {
            page.hung(0, 2, &format!("{lead}: {}.", titles.join("; ")), Tone::Quiet);
        }
    };
    together("Only for a jumper that is put in all the same", &sheet.idle);
    together("Nothing asked of this job", &sheet.loose);
    together("No rule known here speaks of", &sheet.silent);
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
        text.push_str(&format!("; the job does not say {}", line.unsaid.join(", ")));
    }
    if line.silent {
        text.push_str(&format!("; {}", line.cite));
    } else if !frame.why {
        let more = if line.cites_more { " (--why)" } else { "" };
        text.push_str(&format!(" [{}{more}]", line.cite));
    }
    page.labeled(&line.word, tone(line.mark), COLUMN, &text, Tone::Plain);
    for told in line.needs.iter().chain(&line.referrals) {
        page.hung(COLUMN + 2, COLUMN + 4, told, Tone::Plain);
    }
    if let Some(told) = frame.mending.of_question(&line.question) {
        mends(page, told, frame);
    }
    let mut column = COLUMN + 2;
    if let Some(shared) = &line.cases.shared {
        page.hung(column, column + 2, shared, Tone::Plain);
        column += 2;
    }
    for case in &line.cases.each {
        page.hung(column, column + 2, case, Tone::Plain);
    }
    if !line.hangs_on.is_empty() {
        page.hung(COLUMN + 2, COLUMN + 4, &format!("hangs on {}", line.hangs_on.join(", ")), Tone::Plain);
    }
    if frame.why {
        reasons::write(page, &line.reasons);
    }
}

/// What could be chosen otherwise so that it is met.
fn mends(page: &mut Page, told: &CureTold, frame: &Frame<'_>) {
    const MOST: usize = 3;
    let most = if frame.why { told.cures.len() } else { MOST };
    for cure in told.cures.iter().take(most) {
        page.hung(COLUMN + 2, COLUMN + 4, &format!("mend: {}", cure.text), Tone::Plain);
    }
    if told.cures.len() > most {
        let more = told.cures.len() - most;
        page.hung(COLUMN + 2, COLUMN + 4, &format!("and {more} more (--why)"), Tone::Quiet);
    }
    if let Some(none) = &told.none {
        page.hung(COLUMN + 2, COLUMN + 4, &format!("mend: {none}"), Tone::Plain);
    }
}
