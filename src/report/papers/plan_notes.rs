//! Notes for the plans: what is asked, in numbered sentences, and the bond as it will be
//! built, with a blank for whatever the job does not say.

use super::Drawn;
use super::clause::{clause, this_job};
use crate::report::sheet::Line;
use crate::report::speech::Reader;
use serde::Serialize;

/// What stands on it.
#[derive(Serialize)]
pub(super) struct Body {
    /// The bond as it will be built; empty where none is asked for and none is there.
    built: Vec<[String; 2]>,
    groups: Vec<Group>,
    /// What the rules say beside, with where.
    beside: Vec<Note>,
}

#[derive(Serialize)]
struct Group {
    title: String,
    notes: Vec<Note>,
}

#[derive(Serialize)]
struct Note {
    text: String,
    job: Option<String>,
    /// The word for how it stands, where it does not stand as asked.
    flag: Option<String>,
    /// What it hangs on, the cases, the readings.
    more: Vec<String>,
    cite: Option<String>,
}

/// The questions of each group of notes.
const GENERAL: &[&str] = &["tubing-use", "direct-bond", "equipment-bond", "electrode-use", "retrofit"];
const WIRE: &[&str] = &["jumper-size", "jumper-metal", "jumper-length", "splicing", "protection"];
const CLAMP: &[&str] = &["attachment", "attachment-position", "clamp", "contact", "access"];
const LANDING: &[&str] = &["landing", "joint"];
const PAPERS: &[&str] = &["performer", "permits", "inspection", "report"];

/// The notes.
pub(super) fn body(drawn: &Drawn<'_, '_>, reader: Reader) -> Body {
    let group = |title: String, questions: &[&str]| Group {
        title,
        notes: questions
            .iter()
            .filter_map(|question| told(drawn, question))
            .map(|line| note(drawn, line, reader))
            .collect(),
    };
    let named = |line: &&Line| [GENERAL, WIRE, CLAMP, LANDING, PAPERS].concat().contains(&&*line.question);
    let others = drawn.asked().filter(|line| !named(line)).map(|line| note(drawn, line, reader)).collect();
    let mut groups = vec![
        group(reader.say("papers-group-general"), GENERAL),
        group(reader.say("papers-group-wire"), WIRE),
        group(reader.say("papers-group-clamp"), CLAMP),
        group(reader.say("papers-group-landing"), LANDING),
        group(reader.say("papers-group-papers"), PAPERS),
        Group { title: reader.say("papers-group-others"), notes: others },
    ];
    groups.retain(|group| !group.notes.is_empty());
    Body { built: built(drawn, reader), groups, beside: beside(drawn) }
}

/// An answer that a plan tells: one that is asked, and of the three that come first also
/// that nothing is asked.
fn told<'d>(drawn: &Drawn<'d, '_>, question: &str) -> Option<&'d Line> {
    let main = ["tubing-use", "direct-bond", "equipment-bond", "inspection"].contains(&question);
    drawn.line(question).filter(|line| line.asked && !line.silent && (main || !line.loosest))
}

fn note(drawn: &Drawn<'_, '_>, line: &Line, reader: Reader) -> Note {
    let mut more: Vec<String> = line.referrals.clone();
    more.extend(line.cases.shared.clone());
    more.extend(line.cases.each.iter().cloned());
    Note {
        text: clause(drawn, line, reader),
        job: this_job(drawn, line, reader),
        flag: (!matches!(line.mark, "met" | "none")).then(|| line.word.clone()),
        more,
        cite: Some(line.cite.clone()),
    }
}

/// Whether a bond is asked for, may be, or is there all the same.
pub(super) fn concerns_a_jumper(drawn: &Drawn<'_, '_>, reader: Reader) -> bool {
    !drawn.is("direct-bond", "not-required") || drawn.facts(reader).says("jumper.present") == Some(true)
}

/// The bond as it will be built, fact by fact; nothing where it concerns none.
fn built(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<[String; 2]> {
    if !concerns_a_jumper(drawn, reader) {
        return Vec::new();
    }
    let facts = drawn.facts(reader);
    vec![
        facts.row(reader.say("papers-built-size"), "jumper.size"),
        facts.row(reader.say("papers-built-metal"), "jumper.material"),
        facts.row(reader.say("papers-built-length"), "jumper.length"),
        facts.row(reader.say("papers-built-clamped"), "jumper.attached-to"),
        facts.row(reader.say("papers-built-position"), "jumper.position"),
        facts.row(reader.say("papers-built-pipe-size"), "jumper.pipe-size"),
        facts.row(reader.say("papers-built-listing"), "jumper.clamp-listing"),
        facts.row(reader.say("papers-built-landing"), "jumper.landed-on"),
        facts.row(reader.say("papers-built-concealed"), "concealed"),
    ]
}

fn beside(drawn: &Drawn<'_, '_>) -> Vec<Note> {
    let cited = drawn.sheet.notes.iter().filter(|note| note.cite.is_some());
    cited
        .map(|note| Note {
            text: note.condition.as_ref().map_or_else(|| note.text.clone(), |held| format!("{} ({held})", note.text)),
            job: None,
            flag: None,
            more: Vec::new(),
            cite: note.cite.clone(),
        })
        .collect()
}
