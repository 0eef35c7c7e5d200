//! The answers: what is asked, how the job stands, and by which text.

use super::super::look::{Page, Tone};
use super::Frame;
use super::reasons;
use crate::report::cures::CureTold;
use crate::report::sheet::{Line, Sheet};

/// Writes every answer in the order of the work; silent questions and those that
/// ask nothing share a line at the end.
pub(super) fn write_all(page: &mut Page, sheet: &Sheet, frame: &Frame<'_>, column: usize) {
    page.blank();
    for line in &sheet.answers {
        write(page, line, frame, column);
    }
    let reader = frame.reader;
    for (lead, titles) in [
        (reader.say("pages-idle"), &sheet.idle),
        (reader.say("pages-loose"), &sheet.loose),
        (reader.say("pages-silent"), &sheet.silent),
    ] {
        if !titles.is_empty() {
            page.hung(0, 2, &format!("{lead} {}.", titles.join("; ")), Tone::Quiet);
        }
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

fn write(page: &mut Page, line: &Line, frame: &Frame<'_>, column: usize) {
    let reader = frame.reader;
    let mut text = format!("{}: {}", line.title, line.value);
    if let Some(has) = &line.has {
        text.push_str(&format!("; {} {has}", reader.say("pages-job-has")));
    }
    if !line.unsaid.is_empty() {
        text.push_str(&format!("; {} {}", reader.say("pages-job-unsaid"), line.unsaid.join(", ")));
    }
    if line.silent {
        text.push_str(&format!("; {}", line.cite));
    } else if !frame.why {
        let more = if line.cites_more { " (--why)" } else { "" };
        text.push_str(&format!(" [{}{more}]", line.cite));
    }
    page.labeled(&line.word, tone(line.mark), column, &text, Tone::Plain);
    for told in line.needs.iter().chain(&line.referrals) {
        page.hung(column + 2, column + 4, told, Tone::Plain);
    }
    if let Some(told) = frame.mending.of_question(&line.question) {
        mends(page, told, frame, column);
    }
    let mut inner = column + 2;
    if let Some(shared) = &line.cases.shared {
        page.hung(inner, inner + 2, shared, Tone::Plain);
        inner += 2;
    }
    for case in &line.cases.each {
        page.hung(inner, inner + 2, case, Tone::Plain);
    }
    if !line.hangs_on.is_empty() {
        let hangs = reader.say_with("sheet-hangs-on", &[("facts", &line.hangs_on.join(", "))]);
        page.hung(column + 2, column + 4, &hangs, Tone::Plain);
    }
    if frame.why {
        reasons::write(page, &line.reasons, column);
    }
}

/// What could be chosen otherwise so that it is met.
fn mends(page: &mut Page, told: &CureTold, frame: &Frame<'_>, column: usize) {
    const MOST: usize = 3;
    let reader = frame.reader;
    let most = if frame.why { told.cures.len() } else { MOST };
    let mut tell = |text: &str, tone| page.hung(column + 2, column + 4, text, tone);
    for cure in told.cures.iter().take(most) {
        tell(&reader.say_with("screen-mend", &[("change", &cure.text)]), Tone::Plain);
    }
    if told.cures.len() > most {
        let more = (told.cures.len() - most).to_string();
        tell(&reader.say_with("screen-more-mends", &[("count", &more)]), Tone::Quiet);
    }
    if let Some(none) = &told.none {
        tell(&reader.say_with("screen-mend", &[("change", none)]), Tone::Plain);
    }
}
