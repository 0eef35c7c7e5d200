//! Patches of one section at one time: GR5102 where two instruments of a place
//! make them, GR0601 where one instrument does.

use super::overlap::meet;
use super::story::Story;
use crate::law::Line;
use crate::law::instrument::Patch;
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::Action;

/// Patches of this instrument and of another of the same place that change the
/// same section on the same day: both bind.
pub(super) fn by_one_place(library: &Library, story: &Story) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    if !story.own.is_law() {
        return found;
    }
    for block in story.mine() {
        for other in story.blocks.iter().filter(|other| other.instrument < story.id) {
            let Some(theirs) = library.instruments.get(other.instrument.0 as usize) else { continue };
            let same_time = theirs.issuer == story.own.issuer && theirs.rank() == story.own.rank();
            let conditions: Vec<_> = story.own.applies.iter().chain(&theirs.applies).collect();
            if !same_time || meet(library, &conditions) != Some(true) {
                continue;
            }
            for (patch, lines) in changing(&block.amend.patches, &block.lines) {
                let twin = changing(&other.amend.patches, &other.lines)
                    .find(|(_, theirs)| theirs.iter().any(|line| lines.contains(line)));
                if let Some((twin, _)) = twin {
                    let message = format!(
                        "`{}` of {} is patched by `{}` and by `{}` on the same day, and both bind",
                        patch.number,
                        story.name(library),
                        theirs.id,
                        story.own.id
                    );
                    found.push(
                        Diagnostic::new(codes::SAME_DAY, patch.at, message)
                            .also(twin.at, format!("`{}` patches it here", theirs.id))
                            .help("give `adopted` days that differ, or write one patch"),
                    );
                }
            }
        }
    }
    found
}

/// Patches of one section in two blocks of one instrument.
pub(super) fn by_one_instrument(library: &Library, story: &Story) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (at, block) in story.mine().enumerate() {
        for earlier in story.mine().take(at) {
            for (patch, lines) in changing(&block.amend.patches, &block.lines) {
                let twin = changing(&earlier.amend.patches, &earlier.lines)
                    .find(|(_, theirs)| theirs.iter().any(|line| lines.contains(line)));
                if let Some((twin, _)) = twin {
                    let message =
                        format!("`{}` of {} is patched twice by `{}`", patch.number, story.name(library), story.own.id);
                    found.push(
                        Diagnostic::new(codes::DUPLICATE_ID, patch.at, message)
                            .also(twin.at, "the other patch stands here")
                            .help("one instrument patches a section once; only an `except` may stand beside another patch"),
                    );
                }
            }
        }
    }
    found
}

/// The patches that change a section, with what they mean.
fn changing<'p>(patches: &'p [Patch], lines: &'p [Vec<Line>]) -> impl Iterator<Item = (&'p Patch, &'p Vec<Line>)> {
    patches.iter().zip(lines).filter(|(patch, _)| !matches!(patch.action, Action::Except | Action::Reads))
}
