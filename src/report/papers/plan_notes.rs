//! Notes for the plans: what is asked, in numbered sentences, and the bond as it will be
//! built, with a blank for whatever the job does not say.

use super::Drawn;
use super::clause::{clause, job_says, this_job};
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
    groups.push(Group {
        title: drawn.sheet.idle_lead.clone(),
        notes: drawn.beside().map(|line| note(drawn, line, reader)).collect(),
    });
    groups.retain(|group| !group.notes.is_empty());
    Body { built: built(drawn, reader), groups, beside: beside(drawn, reader) }
}

/// An answer that a plan tells: one that is asked of the job or of a jumper that is still to
/// be put in, and of the three that come first also that nothing is asked.
fn told<'d>(drawn: &Drawn<'d, '_>, question: &str) -> Option<&'d Line> {
    let main = ["tubing-use", "direct-bond", "equipment-bond", "inspection"].contains(&question);
    let told = drawn.line(question).filter(|line| drawn.told(line) && !line.silent && (main || !line.loosest))?;
    // Of tubing that the job does not have a plan says nothing.
    (question != "tubing-use" || !told.loosest || drawn.may_have_tubing()).then_some(told)
}

fn note(drawn: &Drawn<'_, '_>, line: &Line, reader: Reader) -> Note {
    let mut more: Vec<String> = line.referrals.clone();
    more.extend(line.carries.clone());
    more.extend(line.cases.shared.clone());
    more.extend(line.cases.each.iter().cloned());
    Note {
        text: clause(drawn, line, reader),
        // Nobody marks what is not asked, so that what the job has stands beside it.
        job: if line.asked { this_job(line, reader) } else { job_says(line, reader) },
        flag: drawn.flag(line),
        more,
        cite: Some(line.section.clone()),
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
        facts.row(reader.say("papers-built-raceway"), "jumper.in-raceway"),
        facts.row(reader.say("papers-built-spliced"), "jumper.spliced"),
        facts.row(reader.say("papers-built-concealed"), "concealed"),
    ]
}

fn beside(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<Note> {
    let plain = |text: String, cite: Option<String>| Note { text, job: None, flag: None, more: Vec::new(), cite };
    let against = drawn.sheet.against.iter();
    let against = against.map(|told| plain(format!("{} {told}", reader.say("pages-against")), None));
    let cited = drawn.sheet.notes.iter().filter(|note| note.cite.is_some());
    let cited = cited.map(|note| {
        let held = note.condition.as_ref().map_or_else(String::new, |held| format!(" ({held})"));
        plain(format!("{}{held}", note.text), note.cite.clone())
    });
    against.chain(cited).collect()
}
