//! What of a library stays as it is when one of its files changes.
//!
//! Nothing is kept on a guess: where what a file declares for others may have
//! changed, what rests on it is read again.

use super::Before;
use crate::glossary::model::PlaceId;
use crate::law::instrument::{InstrumentId, Target};
use crate::law::places::Places;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::{self, Item};
use std::collections::HashSet;

/// The tree of the changed file as it is now.
fn now<'t>(before: &Before<'_>, trees: &[(FileId, &'t tree::File)]) -> Option<&'t tree::File> {
    trees.iter().find(|(file, _)| *file == before.file).map(|(_, tree)| *tree)
}

/// The places, where the file declares the same ones, nothing was wrong with any of
/// them and there are no further files.
pub(super) fn places(before: &Before<'_>, trees: &[(FileId, &tree::File)]) -> Option<Places> {
    let known = before.library.places.knows(trees.iter().map(|(file, _)| file.0 as usize + 1).max().unwrap_or(0));
    if !known || !before.library.told.places.is_empty() {
        return None;
    }
    before.library.places.again(before.file, before.tree, now(before, trees)?, trees)
}

/// Whether the file declares no word that others use, now or before, and nothing was
/// wrong but in it.
pub(super) fn same_words(before: &Before<'_>, trees: &[(FileId, &tree::File)]) -> bool {
    let told = &before.library.told;
    if !told.codes.is_empty() || told.words.iter().chain(&told.instruments).any(|told| told.at.file != before.file) {
        return false;
    }
    let words = |item: &Item| {
        !matches!(item, Item::Place(_) | Item::Issuer(_) | Item::Instrument(_) | Item::Example(_) | Item::Job(_))
    };
    let now = now(before, trees);
    !before.tree.items.iter().any(words) && now.is_some_and(|tree| !tree.items.iter().any(words))
}

/// The files whose instruments may read otherwise now: the changed one, those of the
/// issuers that it touches and of all places within these, and those that name an
/// instrument of it.
pub(super) fn touched(before: &Before<'_>, trees: &[(FileId, &tree::File)]) -> HashSet<FileId> {
    let library = before.library;
    let mut issuers: HashSet<PlaceId> =
        library.places.all().filter(|(_, issuer)| issuer.at.file == before.file).map(|(id, _)| id).collect();
    let all = || library.instruments.iter().zip((0u32..).map(InstrumentId));
    let own: HashSet<InstrumentId> = all().filter(|(own, _)| own.at.file == before.file).map(|(_, id)| id).collect();
    issuers.extend(all().filter(|(_, id)| own.contains(id)).map(|(own, _)| own.issuer));
    let mut files: HashSet<FileId> = all()
        .filter(|(other, _)| {
            let within = || library.places.path(other.issuer).iter().any(|place| issuers.contains(place));
            let ends = || other.ends.iter().any(|ends| own.contains(&ends.target));
            let amends =
                || other.amends.iter().any(|amend| matches!(amend.target, Target::Instrument(id) if own.contains(&id)));
            within() || ends() || amends()
        })
        .map(|(other, _)| other.at.file)
        .collect();
    files.insert(before.file);
    files.retain(|file| trees.iter().any(|(known, _)| known == file));
    files
}
