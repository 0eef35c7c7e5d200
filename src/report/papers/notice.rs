//! What is not done as the rules ask, for whoever has to mend it, and the list by which
//! it is looked at again.
//!
//! It tells what follows from the facts of the job; that somebody saw it stands there
//! only once an inspector signs.

use super::Drawn;
use super::clause::clause;
use crate::report::cures::{ChangeTold, MendTold, Mending};
use crate::report::sheet::Line;
use crate::report::speech::Reader;
use serde::Serialize;

/// What stands on it.
#[derive(Serialize)]
pub(super) struct Body {
    lead: String,
    /// What is to be mended.
    wrong: Vec<Correction>,
    /// What the authority has to say first.
    left: Vec<Correction>,
    /// What is to be shown, because the job does not say it.
    open: Vec<Correction>,
    /// What other piping would mend, told once and not under each correction.
    piping: Vec<String>,
    /// What to bring to the next look.
    conditions: Vec<String>,
}

#[derive(Serialize)]
struct Correction {
    /// Through all three groups.
    number: usize,
    title: String,
    observed: String,
    required: String,
    cite: String,
    who: String,
    mends: Vec<String>,
    /// How the text is read, and the cases.
    readings: Vec<String>,
    /// What is looked at again.
    again: String,
}

/// The notice.
pub(super) fn body(drawn: &Drawn<'_, '_>, reader: Reader) -> Body {
    let mending = Mending::of(drawn.verdict, drawn.matter, reader);
    let of = |marks: &[&str]| -> Vec<Correction> {
        let lines = drawn.sheet.answers.iter().filter(|line| marks.contains(&line.mark));
        lines.map(|line| correction(drawn, line, &mending, reader)).collect()
    };
    // An open question is to be shown only where it bears on how the job stands.
    let open = drawn.sheet.answers.iter().filter(|line| line.mark == "open" && line.asked);
    let open: Vec<Correction> = open.map(|line| correction(drawn, line, &mending, reader)).collect();
    let (mut wrong, mut left, mut open) = (of(&["not-met"]), of(&["conflict", "refer"]), open);
    for (one, number) in wrong.iter_mut().chain(&mut left).chain(&mut open).zip(1..) {
        one.number = number;
    }
    let lead = if wrong.is_empty() {
        reader.say("papers-notice-none")
    } else {
        reader.say_with("papers-notice-count", &[("count", &wrong.len().to_string())])
    };
    let concealed = drawn.facts(reader).says("concealed") != Some(false);
    let mut conditions = vec![reader.say("papers-again-all")];
    if concealed {
        conditions.push(reader.say("papers-again-uncovered"));
    }
    conditions.push(reader.say("papers-again-leak"));
    conditions.push(reader.say("papers-again-fee"));
    let piping = piping(drawn, &mending, reader);
    Body { lead, wrong, left, open, piping, conditions }
}

fn correction(drawn: &Drawn<'_, '_>, line: &Line, mending: &Mending, reader: Reader) -> Correction {
    Correction {
        number: 0,
        title: line.title.clone(),
        observed: observed(line, reader),
        required: clause(drawn, line, reader),
        cite: line.section.clone(),
        who: line.who.join(", "),
        mends: mends(line, mending, reader),
        readings: line.referrals.iter().chain(&line.cases.shared).chain(&line.cases.each).cloned().collect(),
        again: again(line, reader),
    }
}

/// What the job says; where it says nothing, that it is not known.
fn observed(line: &Line, reader: Reader) -> String {
    let missing: Vec<&str> = line.unsaid.iter().chain(&line.hangs_on).map(|missing| &*missing.title).collect();
    let unsaid = (!missing.is_empty()).then(|| reader.say_with("papers-not-said", &[("facts", &missing.join(", "))]));
    match line.own.iter().cloned().chain(unsaid).collect::<Vec<_>>() {
        said if said.is_empty() => reader.say("papers-blank"),
        said => said.join("; "),
    }
}

/// The choices that would mend it, the smallest first; where none is found what the answer
/// itself tells.
fn mends(line: &Line, mending: &Mending, reader: Reader) -> Vec<String> {
    let told = mending.of_question(&line.question);
    let mut mends: Vec<String> = kept(line, mending).map(|mend| choice(mend, reader)).collect();
    if line.mark == "not-met" && mends.is_empty() {
        mends.extend(told.and_then(|told| told.none.clone()));
        mends.extend(line.needs.clone());
        if line.measured {
            mends.push(reader.say_with("papers-mend-measured", &[("value", &line.value)]));
        }
    }
    mends
}

/// The corrections that are about the piping itself, or about what other piping would spare.
const OF_PIPING: &[&str] = &["tubing-use", "direct-bond", "jumper-size", "jumper-length"];

/// The changes of a choice that are of the piping.
fn of_piping(mend: &MendTold) -> impl Iterator<Item = &ChangeTold> {
    mend.changes.iter().filter(|change| change.list.as_deref() == Some("run"))
}

/// Whether a choice is one of other piping.
fn repipes(mend: &MendTold) -> bool {
    of_piping(mend).next().is_some()
}

/// The choices that are told under a correction: nobody pipes a house anew for a permit or
/// for paint under a clamp, unless nothing else mends it.
fn kept<'m>(line: &Line, mending: &'m Mending) -> impl Iterator<Item = &'m MendTold> {
    let cures = cures(line, mending);
    let every = OF_PIPING.contains(&&*line.question) || cures.iter().all(repipes);
    cures.iter().filter(move |mend| every || !repipes(mend))
}

fn cures<'m>(line: &Line, mending: &'m Mending) -> &'m [MendTold] {
    mending.of_question(&line.question).map(|told| &*told.cures).unwrap_or_default()
}

/// The choices of other piping that stand under no correction, each once.
fn piping(drawn: &Drawn<'_, '_>, mending: &Mending, reader: Reader) -> Vec<String> {
    let changes = |mend: &MendTold| of_piping(mend).map(|change| change.words(reader)).collect::<Vec<_>>();
    let lines = || drawn.sheet.answers.iter().filter(|line| matches!(line.mark, "not-met" | "conflict" | "refer"));
    let mut told: Vec<Vec<String>> = lines().flat_map(|line| kept(line, mending)).map(changes).collect();
    let mut piping: Vec<String> = Vec::new();
    for one in lines().flat_map(|line| cures(line, mending)).filter(|mend| repipes(mend)).map(changes) {
        if !told.contains(&one) {
            piping.push(one.join(&format!(" {} ", reader.say("sheet-and"))));
            told.push(one);
        }
    }
    piping
}

/// One choice, with what it mends beside and what it leaves.
fn choice(mend: &MendTold, reader: Reader) -> String {
    let mut text = mend.text.clone();
    if !mend.mends.is_empty() {
        text.push_str(&format!("; {}", reader.say_with("papers-mends-too", &[("titles", &mend.mends.join("; "))])));
    }
    text
}

fn again(line: &Line, reader: Reader) -> String {
    match &*line.question {
        "jumper-size" | "jumper-metal" => reader.say("papers-again-wire"),
        "jumper-length" | "splicing" | "protection" => reader.say("papers-again-route"),
        "attachment" | "attachment-position" | "clamp" | "contact" | "access" => reader.say("papers-again-clamp"),
        "landing" | "joint" | "electrode-use" => reader.say("papers-again-landing"),
        "performer" | "permits" | "inspection" | "report" => reader.say("papers-again-papers"),
        "tubing-use" => reader.say("papers-again-tubing"),
        _ => reader.say("papers-again-shown"),
    }
}
