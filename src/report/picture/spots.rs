//! Where along the piping a clamp may go, by the answers to the two questions that say so.

use crate::report::facts::Facts;
use crate::report::speech::Reader;
use crate::values::Terms;
use crate::verdict::Matter;
use crate::verdict::found::State;
use crate::verdict::model::Verdict;

/// Whether a clamp may go somewhere, the graver last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Leave {
    /// No rule known here speaks of it.
    Unasked,
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
    /// Piping of the supplier.
    Supplier,
    /// The main line, where it enters the building.
    Entry,
    /// The main line, further on.
    Before,
    Manifold,
    /// The fitting at the near end of the first tubing.
    Fitting,
    Tubing,
    /// Behind the first tubing.
    After,
    Appliance,
}

/// Every stretch, with what a clamp there is clamped to and where that is, in the names
/// of the shipped glossary.
const STRETCHES: [(Stretch, &str, Option<&str>); 8] = [
    (Stretch::Supplier, "supplier-side", None),
    (Stretch::Entry, "rigid-pipe", Some("gas-entry")),
    (Stretch::Before, "rigid-pipe", Some("before-first-csst")),
    (Stretch::Manifold, "manifold", None),
    (Stretch::Fitting, "csst-fitting", None),
    (Stretch::Tubing, "csst-tubing", None),
    (Stretch::After, "rigid-pipe", Some("after-first-csst")),
    (Stretch::Appliance, "appliance", None),
];

/// Each stretch with whether a clamp may go there.
pub(super) fn spots(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> Vec<(Stretch, Leave)> {
    let facts = Facts { matter, reader };
    let leave = |question: &str, path: &str, name: &str| leave(verdict, facts, question, path, name);
    STRETCHES
        .iter()
        .map(|(stretch, on, place)| {
            let on = leave("attachment", "jumper.attached-to", on);
            let place = place.map_or(Leave::Unasked, |place| leave("attachment-position", "jumper.position", place));
            (*stretch, on.max(place))
        })
        .collect()
}

fn leave(verdict: &Verdict<'_>, facts: Facts<'_, '_>, question: &str, path: &str, name: &str) -> Leave {
    let Some(answer) = verdict.answers.iter().find(|answer| &*answer.question.name == question) else {
        return Leave::Unasked;
    };
    let found = &answer.found;
    if !found.asked {
        return Leave::Unasked;
    }
    let has = |set: u128| facts.which(path, &[name], Terms(set)) == [name];
    match found.state {
        State::Silent => Leave::Unasked,
        State::Referred => Leave::Refer,
        State::Conflict => Leave::Conflict,
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
