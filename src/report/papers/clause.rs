//! What an answer asks, as a sentence for a drawing, a checklist or a notice.

use super::Drawn;
use crate::report::screen::words::spoken;
use crate::report::sheet::Line;
use crate::report::speech::Reader;
use crate::verdict::found::State;
use crate::verdict::value::{Item, Items};

/// The sentence; for what is not settled the title and what is known of the answer.
pub(super) fn clause(drawn: &Drawn<'_, '_>, line: &Line, reader: Reader) -> String {
    settled(drawn, line, reader)
        .unwrap_or_else(|| reader.say_with("papers-clause-other", &[("title", &*line.title), ("value", &*line.value)]))
}

/// The sentence for a settled answer to a question of the shipped glossary.
fn settled(drawn: &Drawn<'_, '_>, line: &Line, reader: Reader) -> Option<String> {
    let answer = drawn.answered(&line.question).filter(|answer| answer.found.state == State::Settled)?;
    let joined = |names: &[&str]| names.iter().map(|name| spoken(name)).collect::<Vec<_>>().join(", ");
    match &answer.value.as_ref()?.items {
        Items::One(Item::Rung(rung)) => ladder(&line.question, rung, reader),
        Items::One(Item::Only { names, but }) if but.is_empty() && !names.is_empty() => {
            let names = joined(names);
            let names = [("names", &*names)];
            Some(match &*line.question {
                "attachment" => reader.say_with("papers-clause-attachment", &names),
                "attachment-position" => reader.say_with("papers-clause-position", &names),
                "landing" => reader.say_with("papers-clause-landing", &names),
                "jumper-metal" => reader.say_with("papers-clause-metal", &names),
                "performer" => reader.say_with("papers-clause-performer", &names),
                _ => return None,
            })
        }
        Items::One(Item::AllOf(names)) if !names.is_empty() => {
            let names = joined(names);
            let names = [("names", &*names)];
            Some(match &*line.question {
                "clamp" => reader.say_with("papers-clause-clamp", &names),
                "permits" => reader.say_with("papers-clause-permits", &names),
                _ => return None,
            })
        }
        _ => match &*line.question {
            "jumper-size" => Some(reader.say_with("papers-clause-size", &[("value", &line.value)])),
            "jumper-length" => Some(reader.say_with("papers-clause-length", &[("value", &line.value)])),
            _ => None,
        },
    }
}

fn ladder(question: &str, rung: &str, reader: Reader) -> Option<String> {
    Some(match (question, rung) {
        ("tubing-use", "permitted") => reader.say("papers-clause-tubing-permitted"),
        ("tubing-use", "prohibited") => reader.say("papers-clause-tubing-prohibited"),
        ("direct-bond", "required") => reader.say("papers-clause-direct-required"),
        ("direct-bond", "not-required") => reader.say("papers-clause-direct-not-required"),
        ("equipment-bond", "required") => reader.say("papers-clause-path-required"),
        ("equipment-bond", "not-required") => reader.say("papers-clause-path-not-required"),
        ("splicing", "prohibited") => reader.say("papers-clause-splicing-prohibited"),
        ("electrode-use", "prohibited") => reader.say("papers-clause-electrode-prohibited"),
        ("retrofit", "required") => reader.say("papers-clause-retrofit-required"),
        ("contact", "bare-metal") => reader.say("papers-clause-contact-bare-metal"),
        ("joint", "listed-means") => reader.say("papers-clause-joint-listed-means"),
        ("access", "accessible") => reader.say("papers-clause-access-accessible"),
        ("protection", "in-raceway") => reader.say("papers-clause-protection-in-raceway"),
        ("inspection", "not-required") => reader.say("papers-clause-inspection-not-required"),
        ("inspection", "final") => reader.say("papers-clause-inspection-final"),
        ("inspection", "rough-and-final") => reader.say("papers-clause-inspection-rough-and-final"),
        ("report", "required") => reader.say("papers-clause-report-required"),
        _ => return None,
    })
}

/// What the job has to an answer that measures a fact, whether or not it was held against
/// it, or the blank for it; nothing where the answer measures none.
pub(super) fn this_job(line: &Line, reader: Reader) -> Option<String> {
    line.measured.then(|| line.own.clone().unwrap_or_else(|| reader.say("papers-blank")))
}

/// The same also of an answer that single facts of the job show to be done.
pub(super) fn job_says(line: &Line, reader: Reader) -> Option<String> {
    (line.measured || line.shown).then(|| line.own.clone().unwrap_or_else(|| reader.say("papers-blank")))
}
