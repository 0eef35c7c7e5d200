//! A letter to the owner in plain words: what bonding is, what was done and what was not,
//! what it does not do, when to call somebody.

use super::Drawn;
use crate::report::facts::Term;
use crate::report::speech::Reader;
use serde::Serialize;

/// What stands on it.
#[derive(Serialize)]
pub(super) struct Body {
    parts: Vec<Part>,
}

#[derive(Serialize)]
struct Part {
    title: String,
    text: Vec<String>,
    list: bool,
}

/// The letter.
pub(super) fn body(drawn: &Drawn<'_, '_>, reader: Reader) -> Body {
    let part = |title: String, text: Vec<String>| Part { title, text, list: false };
    let list = |title: String, text: Vec<String>| Part { title, text, list: true };
    Body {
        parts: vec![
            part(
                reader.say("papers-letter-what"),
                vec![reader.say("papers-letter-what-1"), reader.say("papers-letter-what-2")],
            ),
            part(reader.say("papers-letter-asked"), asked(drawn, reader)),
            part(reader.say("papers-letter-done"), done(drawn, reader)),
            list(reader.say("papers-letter-not-done"), not_done(drawn, reader)),
            part(reader.say("papers-letter-then"), then(drawn, reader)),
            part(
                reader.say("papers-letter-limits"),
                vec![reader.say("papers-letter-limits-1"), reader.say("papers-letter-limits-2")],
            ),
            list(
                reader.say("papers-letter-call"),
                vec![
                    reader.say("papers-letter-call-gas"),
                    reader.say("papers-letter-call-strike"),
                    reader.say("papers-letter-call-loose"),
                    reader.say("papers-letter-call-work"),
                ],
            ),
        ],
    }
}

/// What the rules ask of this piping.
fn asked(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<String> {
    let answer = match drawn.rung("direct-bond") {
        Some("required") => reader.say("papers-letter-required"),
        Some("not-required") => reader.say("papers-letter-not-required"),
        _ => reader.say("papers-letter-open"),
    };
    let line = drawn.line("direct-bond");
    let mut text = vec![match line.filter(|line| !line.silent) {
        Some(line) => format!("{answer} [{}]", line.section),
        None => answer,
    }];
    if drawn.is("tubing-use", "prohibited") {
        text.push(reader.say("papers-letter-prohibited"));
    }
    text.push(reader.say_with("papers-letter-dates", &[("dates", &drawn.sheet.dates), ("codes", &drawn.sheet.codes)]));
    text
}

/// What there is of a bond.
fn done(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<String> {
    let facts = drawn.facts(reader);
    let mut text = match facts.says("jumper.present") {
        Some(true) => {
            let parts = [
                ("size", &*facts.or_blank("jumper.size")),
                ("metal", &*facts.or_blank("jumper.material")),
                ("length", &*facts.or_blank("jumper.length")),
                ("spot", &*facts.or_blank("jumper.attached-to")),
                ("landing", &*facts.or_blank("jumper.landed-on")),
            ];
            vec![reader.say_with("papers-letter-present", &parts)]
        }
        Some(false) => vec![reader.say("papers-letter-absent")],
        None => vec![reader.say("papers-letter-unknown")],
    };
    let wrong: Vec<&str> =
        drawn.sheet.answers.iter().filter(|line| line.mark == "not-met").map(|line| &*line.title).collect();
    if !wrong.is_empty() {
        let parts = [("count", &*wrong.len().to_string()), ("titles", &*wrong.join("; "))];
        text.push(reader.say_with("papers-letter-wrong", &parts));
    }
    if drawn.sheet.answers.iter().any(|line| line.asked && matches!(line.mark, "open" | "refer" | "conflict")) {
        text.push(reader.say("papers-letter-unsettled"));
    }
    text
}

/// What nobody looked at.
fn not_done(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<String> {
    let mut text = vec![reader.say("papers-letter-no-inspection"), reader.say("papers-letter-no-circuits")];
    if drawn.facts(reader).says("concealed") != Some(false) {
        text.push(reader.say("papers-letter-no-walls"));
    }
    text.push(reader.say("papers-letter-no-rods"));
    text
}

/// What was lawful then, and what is advice now.
fn then(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<String> {
    let mut text = match drawn.facts(reader).term("work").told().map(Term::name) {
        Some("existing-only") => vec![reader.say("papers-letter-existing")],
        Some("new-system") => vec![reader.say("papers-letter-new")],
        Some(_) => vec![reader.say("papers-letter-partly")],
        None => vec![reader.say("papers-letter-work-unknown")],
    };
    if let Some(line) = drawn.line("retrofit").filter(|line| !line.silent && line.asked) {
        text.push(match drawn.rung("retrofit") {
            Some("required") => format!("{} [{}]", reader.say("papers-letter-retrofit"), line.section),
            Some("not-required") => reader.say("papers-letter-no-retrofit"),
            _ => reader.say("papers-letter-retrofit-open"),
        });
    }
    let mut advice: Vec<String> = Vec::new();
    for told in drawn.sheet.answers.iter().flat_map(|line| &line.reasons).filter(|told| told.group == "advice") {
        if told.condition.is_none() {
            let words = told.summary.as_ref().unwrap_or(&told.demand);
            advice.push(format!("{words} [{}]", told.cite));
        }
    }
    advice.dedup();
    if advice.is_empty() {
        text.push(reader.say("papers-letter-advice-none"));
    } else {
        text.push(reader.say_with("papers-letter-advice", &[("advice", &advice.join(" "))]));
    }
    text
}
