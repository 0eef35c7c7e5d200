//! Whether a change can be told at all: where no job at any place can see it, no example
//! could.
//!
//! It says yes only where that is proven. What it cannot decide it leaves open.

use crate::glossary::model::PlaceId;
use crate::rules::Rules;

/// Whether the law of a place answers every job alike before and after a change; nothing
/// where that is not decided.
pub(super) fn equivalent(before: &Rules, after: &Rules, place: PlaceId) -> Option<bool> {
    let (Ok(one), Ok(two)) = (before.library().law(place), after.library().law(place)) else { return None };
    (one == two).then_some(true)
}

/// Whether no job at any place can tell the change. Names are looked up and jobs are read
/// against the glossary, so that of it too nothing may have changed but what the law of
/// the places holds.
pub(super) fn everywhere(before: &Rules, after: &Rules) -> bool {
    if !jobs_read_alike(before, after) {
        return false;
    }
    let places: Vec<PlaceId> = before.library().lawgivers().chain(after.library().lawgivers()).collect();
    places.into_iter().all(|place| equivalent(before, after, place) == Some(true))
}

/// Whether the same jobs can be read, with the same completions.
fn jobs_read_alike(before: &Rules, after: &Rules) -> bool {
    let bounds =
        |rules: &Rules| -> Vec<_> { rules.library().glossary.fields.iter().map(|field| field.never_before).collect() };
    bounds(before) == bounds(after)
}
