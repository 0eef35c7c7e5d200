//! The answers: what is asked, how the job stands, and by which text.

use super::super::look::{Page, Tone};
use super::Frame;
use super::reasons;
use crate::report::cures::CureTold;
use crate::report::sheet::jumper::Jumper;
use crate::report::sheet::{Line, Missing, Sheet};

/// Writes every answer in the order of the work; silent questions and those that
/// ask nothing share a line at the end.
pub(super) fn write_all(page: &mut Page, sheet: &Sheet, frame: &Frame<'_>, column: usize) {
    page.blank();
    for line in &sheet.answers {
        write(page, line, frame, column);
    }
    let reader = frame.reader;
    // Of a jumper that is there, or is to be, each answer has to be found.
    let each = sheet.jumper != Jumper::Otherwise;
    if each && !sheet.idle.is_empty() {
        page.hung(0, 2, &format!("{}:", sheet.idle_lead), Tone::Plain);
        sheet.idle.iter().for_each(|told| page.hung(2, 4, told, Tone::Plain));
    }
    let together: &[String] = if each { &[] } else { &sheet.idle };
    for (lead, titles) in [
        (format!("{}:", sheet.idle_lead), together),
        (reader.say("pages-loose"), &sheet.loose),
        (reader.say("pages-silent"), &sheet.silent),
    ] {
        if !titles.is_empty() {
            page.hung(0, 2, &format!("{lead} {}.", titles.join("; ")), Tone::Quiet);
        }
    }
    for told in &sheet.against {
        page.hung(0, 2, &format!("{} {told}", reader.say("pages-against")), Tone::Doubt);
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
        text.push_str(&format!("; {} {}", reader.say("pages-job-unsaid"), paths(&line.unsaid)));
    }
    if line.silent {
        text.push_str(&format!("; {}", line.cite));
    } else if !frame.why {
        let more = if line.cites_more { " (--why)" } else { "" };
        text.push_str(&format!(" [{}{more}]", line.cite));
    }
    page.labeled(&line.word, tone(line.mark), column, &text, Tone::Plain);
    for told in line.needs.iter().chain(&line.referrals).chain(&line.carries) {
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
        let hangs = reader.say_with("sheet-hangs-on", &[("facts", &paths(&line.hangs_on))]);
        page.hung(column + 2, column + 4, &hangs, Tone::Plain);
    }
    if frame.why {
        reasons::write(page, &line.reasons, column);
    }
}

/// Facts as a job writes them.
fn paths(facts: &[Missing]) -> String {
    facts.iter().map(|missing| &*missing.fact).collect::<Vec<_>>().join(", ")
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
