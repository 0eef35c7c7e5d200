//! Where along the piping a clamp may go, by the answers to the two questions that say so.

use super::bond::required;
use super::marks;
use crate::report::facts::Facts;
use crate::report::speech::Reader;
use crate::values::Terms;
use crate::verdict::Matter;
use crate::verdict::found::State;
use crate::verdict::model::{Answered, Verdict};

/// Whether a clamp may go somewhere, the graver last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Leave {
    /// No rule known here speaks of it.
    Silent,
    /// Rules speak of it, and what they say leaves every place free.
    Free,
    May,
    /// It hangs on what the job does not say.
    Open,
    Refer,
    Conflict,
    MayNot,
}

/// A stretch of the piping, in the way of the gas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stretch {
    Supplier,
    Entry,
    Before,
    Manifold,
    Fitting,
    Tubing,
    /// The fitting at the far end of the first tubing.
    FarFitting,
    After,
    Appliance,
}

/// Every stretch, with what a clamp there is clamped to and where that is, in the names
/// of the shipped glossary.
const STRETCHES: [(Stretch, &str, Option<&str>); 9] = [
    (Stretch::Supplier, "supplier-side", None),
    (Stretch::Entry, "rigid-pipe", Some("gas-entry")),
    (Stretch::Before, "rigid-pipe", Some("before-first-csst")),
    (Stretch::Manifold, "manifold", None),
    (Stretch::Fitting, "csst-fitting", None),
    (Stretch::Tubing, "csst-tubing", None),
    (Stretch::FarFitting, "csst-fitting", Some("after-first-csst")),
    (Stretch::After, "rigid-pipe", Some("after-first-csst")),
    (Stretch::Appliance, "appliance", None),
];

/// Where a clamp may go.
pub(super) struct Spots {
    /// Each stretch with whether a clamp may go there.
    pub(super) each: Vec<(Stretch, Leave)>,
    /// Whether this is told of a jumper that nothing surely requires.
    pub(super) idle: bool,
}

/// Where a clamp may go, by the answers, whether or not they are held against the job: a jumper that is still to be
/// put in is clamped by them as well.
pub(super) fn spots(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> Spots {
    let facts = Facts { matter, reader };
    let leave = |question: &str, path: &str, name: &str| leave(verdict, facts, question, path, name);
    let each = STRETCHES
        .iter()
        .map(|(stretch, on, place)| {
            let on = leave("attachment", "jumper.attached-to", on);
            let place = place.map_or(Leave::Silent, |place| leave("attachment-position", "jumper.position", place));
            (*stretch, on.max(place))
        })
        .collect();
    let asked = |question| answered(verdict, question).is_some_and(|answer| answer.found.asked);
    let idle = !asked("attachment") && !asked("attachment-position") && !required(verdict);
    Spots { each, idle }
}

fn answered<'v, 'a>(verdict: &'v Verdict<'a>, question: &str) -> Option<&'v Answered<'a>> {
    verdict.answers.iter().find(|answer| &*answer.question.name == question)
}

fn leave(verdict: &Verdict<'_>, facts: Facts<'_, '_>, question: &str, path: &str, name: &str) -> Leave {
    let Some(answer) = answered(verdict, question) else {
        return Leave::Silent;
    };
    let found = &answer.found;
    let has = |set: u128| facts.which(path, &[name], Terms(set)) == [name];
    match found.state {
        State::Silent => Leave::Silent,
        State::Referred => Leave::Refer,
        State::Conflict => Leave::Conflict,
        State::Settled if marks::loosest(answer, facts) => Leave::Free,
        State::Settled | State::Open => {
            let one = found.value.as_ref().and_then(|parts| parts.part(0));
            let between = found.between.as_ref().and_then(|(loose, strict)| Some((loose.part(0)?, strict.part(0)?)));
            match (one, between) {
                (Some(set), _) if found.state == State::Settled => {
                    if has(set) {
                        Leave::May
                    } else {
                        Leave::MayNot
                    }
                }
                // What even the loosest answer leaves out is never permitted.
                (_, Some((loose, _))) if !has(loose) => Leave::MayNot,
                (_, Some((_, strict))) if has(strict) && !found.may_refer && !found.may_conflict => Leave::May,
                _ => Leave::Open,
            }
        }
    }
}
