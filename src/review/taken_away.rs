//! GR5103: a patch whose target an outer place took away: it acts as a section
//! of its own.

use super::story::Story;
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::Action;

/// The patches of an instrument whose section a place around its own deletes.
pub(super) fn patches(library: &Library, story: &Story) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for block in story.mine() {
        for (patch, lines) in block.amend.patches.iter().zip(&block.lines) {
            if matches!(patch.action, Action::Add | Action::Delete) {
                continue;
            }
            let taken = story.blocks.iter().find_map(|other| {
                let by = library.instruments.get(other.instrument.0 as usize)?;
                if by.issuer == story.own.issuer {
                    return None;
                }
                let deleting = other.amend.patches.iter().zip(&other.lines);
                let mut deleting = deleting.filter(|(patch, _)| patch.action == Action::Delete);
                let (deleted, _) = deleting.find(|(_, theirs)| lines.iter().any(|line| theirs.contains(line)))?;
                Some((by, deleted))
            });
            if let Some((by, deleted)) = taken {
                let outer = library.places.issuer(by.issuer).map(|place| place.title.to_string()).unwrap_or_default();
                let message = format!(
                    "`{}` of {} is taken away by `{}` of {outer}: this stands as a section of its own then",
                    patch.number,
                    story.name(library),
                    by.id
                );
                found.push(
                    Diagnostic::new(codes::TAKEN_AWAY, patch.at, message).also(deleted.at, "it is deleted here").help(
                        "write it as a section of the instrument, or leave it out if the outer place means to end it",
                    ),
                );
            }
        }
    }
    found
}
