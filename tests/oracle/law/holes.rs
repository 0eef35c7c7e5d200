//! Which holes a review is to tell: those of a place that speaks on the subject and
//! does not leave it to places within, unless a place around it tells the same hole.

use super::governed::{Place, Tried};
use crate::rules::Rules;
use crate::verdict::survey::Window;

/// What the review is to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Should {
    Tell,
    /// It keeps quiet, for this reason.
    Keep(&'static str),
    Either,
}

/// Whether a hole is for a place to tell; nothing where that hangs on how its law is put.
fn tells(at: &Place<'_>, tried: &Tried) -> Option<bool> {
    match at.speaks() {
        true if at.adopted_within() && !at.adopted() => Some(false),
        true if at.adopted_within() && !tried.governed => None,
        speaks => Some(speaks),
    }
}

/// Whether a place around has the same hole; nothing where that is not clear.
fn same(at: &Place<'_>, tried: &Tried, around: &Place<'_>, theirs: &Tried) -> Option<bool> {
    if theirs.holes == 0 {
        return Some(false);
    }
    if !at.adopted() {
        return Some(true);
    }
    let date = at.library.glossary.roles.dates?;
    // Days that no instrument is in force by, and days before all law, are not told
    // apart everywhere.
    let bounded = |at: &Place<'_>| at.dating.contains(&date) && at.window.from.is_some();
    let days = tried.open.iter().eq(theirs.open.intersection(&tried.days));
    ((days || tried.governed) && bounded(at) && bounded(around)).then_some(days)
}

/// What the review is to tell of a hole, by what was tried at the place and around it.
pub(super) fn should(rules: &Rules, at: &Place<'_>, asked: Window, tried: &Tried, most: usize) -> Should {
    let library = rules.library();
    if tried.holes == 0 {
        return Should::Keep("no hole");
    }
    let own = tells(at, tried);
    if own == Some(false) {
        return Should::Keep("left to places within");
    }
    for place in library.places.path(at.place).into_iter().rev().skip(1) {
        if rules.ground(place).is_err() {
            break;
        }
        let around = Place::new(library, place, at.subject, asked);
        let Ok(theirs) = around.all(&tried.days, most) else { return Should::Either };
        match (same(at, tried, &around, &theirs), tells(&around, &theirs)) {
            (Some(false), _) => break,
            (Some(true), Some(false)) => {}
            (Some(true), Some(true)) => return Should::Keep("told around"),
            _ => return Should::Either,
        }
    }
    if own == Some(true) { Should::Tell } else { Should::Either }
}
