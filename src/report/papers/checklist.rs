//! What an inspector looks at, by stage, each item with its section, boxes to tick, and a
//! place for the number of a photo.

use super::Drawn;
use super::clause::{clause, job_says};
use super::plan_notes::concerns_a_jumper;
use crate::report::sheet::Line;
use crate::report::speech::Reader;
use serde::Serialize;

/// What stands on it.
#[derive(Serialize)]
pub(super) struct Body {
    /// When somebody comes to look.
    when: String,
    cite: Option<String>,
    stages: Vec<Stage>,
}

#[derive(Serialize)]
struct Stage {
    title: String,
    items: Vec<Item>,
}

#[derive(Serialize)]
pub(super) struct Item {
    pub(super) text: String,
    /// What the job says of it.
    pub(super) job: Option<String>,
    /// The word for how it stands, where it does not stand as asked.
    pub(super) flag: Option<String>,
    pub(super) basis: String,
}

/// What is seen before anything is covered; the rest is looked at in the end.
const ROUGH: &[&str] = &[
    "tubing-use",
    "attachment",
    "attachment-position",
    "clamp",
    "contact",
    "jumper-size",
    "jumper-metal",
    "jumper-length",
    "splicing",
    "joint",
    "landing",
    "protection",
    "electrode-use",
];

/// The list.
pub(super) fn body(drawn: &Drawn<'_, '_>, reader: Reader) -> Body {
    let line = drawn.line("inspection").filter(|line| !line.silent);
    let when = match line {
        Some(line) => clause(drawn, line, reader),
        None => reader.say("papers-inspection-ask"),
    };
    let mut rough = own_rough(drawn, reader);
    let mut done = Vec::new();
    for line in drawn.asked().filter(|line| line.question != "inspection") {
        let item = item(drawn, line, reader);
        if ROUGH.contains(&&*line.question) { rough.push(item) } else { done.push(item) }
    }
    done.extend(own_final(drawn, reader));
    let mut stages = if one_visit(drawn) {
        rough.extend(done);
        vec![Stage { title: reader.say("papers-stage-final-alone"), items: rough }]
    } else {
        vec![
            Stage { title: reader.say("papers-stage-rough"), items: rough },
            Stage { title: reader.say("papers-stage-final"), items: done },
        ]
    };
    let beside: Vec<Item> = drawn.beside().map(|line| item(drawn, line, reader)).collect();
    if !beside.is_empty() {
        stages.push(Stage { title: format!("{}. {}", stages.len() + 1, drawn.sheet.idle_lead), items: beside });
    }
    Body { when, cite: line.map(|line| line.section.clone()), stages }
}

/// Whether everything is seen at one visit.
pub(super) fn one_visit(drawn: &Drawn<'_, '_>) -> bool {
    drawn.is("inspection", "final") || drawn.is("inspection", "not-required")
}

fn item(drawn: &Drawn<'_, '_>, line: &Line, reader: Reader) -> Item {
    Item {
        text: clause(drawn, line, reader),
        job: job_says(line, reader),
        flag: drawn.flag(line),
        basis: line.section.clone(),
    }
}

fn own(text: String, job: Option<String>, reader: Reader) -> Item {
    Item { text, job, flag: None, basis: reader.say("papers-practice") }
}

/// What the trade looks at in any case before anything is covered.
fn own_rough(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<Item> {
    let facts = drawn.facts(reader);
    let mut items = Vec::new();
    let materials = facts.over("run", "material");
    if materials.is_empty() || materials.iter().any(|material| material.to_lowercase().contains("csst")) {
        let jackets = facts.over("run", "jacket");
        let jackets = if jackets.is_empty() { reader.say("papers-blank") } else { jackets.join(", ") };
        items.push(own(reader.say("papers-look-print"), Some(jackets), reader));
    }
    items.push(own(reader.say("papers-look-continuous"), Some(facts.or_blank("electrically-continuous")), reader));
    if concerns_a_jumper(drawn, reader) {
        items.push(own(reader.say("papers-look-route"), None, reader));
        items.push(own(reader.say("papers-look-uncut"), None, reader));
    }
    items
}

/// What the trade looks at in any case in the end.
fn own_final(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<Item> {
    let mut items = Vec::new();
    if drawn.line("equipment-bond").is_some_and(|line| line.asked && !line.loosest) {
        items.push(own(reader.say("papers-look-circuit"), None, reader));
    }
    items.push(own(reader.say("papers-look-test"), None, reader));
    if concerns_a_jumper(drawn, reader) {
        items.push(own(reader.say("papers-look-leak"), None, reader));
    }
    items.push(own(reader.say("papers-look-license"), Some(drawn.facts(reader).or_blank("performer")), reader));
    items.push(own(reader.say("papers-look-photos"), None, reader));
    items
}
