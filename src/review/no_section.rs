//! GR0602: a patch that names a section which the text lacks on its day.

use super::story::{Block, Story};
use super::times::Times;
use crate::law::instrument::Patch;
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::nearest::{did_you_mean, nearest};
use crate::syntax::tree::Action;

/// The patches and renumberings of an instrument that find no section: none ever
/// had the number, or the place itself took it away before, for good.
pub(super) fn missing(library: &Library, times: &Times, story: &Story) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for block in story.mine() {
        for at in &block.unmoved {
            if let Some((from, _)) = block.amend.renumbers.get(*at) {
                let message = format!("{} has no section `{from}` to renumber", story.name(library));
                found.push(near(Diagnostic::new(codes::NO_SECTION, block.amend.at, message), from, block));
            }
        }
        for (patch, lines) in block.amend.patches.iter().zip(&block.lines) {
            if patch.action == Action::Add {
                continue;
            }
            if lines.is_empty() {
                let message = format!("{} has no section `{}` to patch", story.name(library), patch.number);
                found.push(near(Diagnostic::new(codes::NO_SECTION, patch.at, message), &patch.number, block));
            } else {
                found.extend(taken(library, times, story, block, patch, lines));
            }
        }
    }
    found
}

fn near(told: Diagnostic, number: &str, block: &Block) -> Diagnostic {
    let known = block.before.iter().filter(|section| !section.deleted).map(|section| &*section.number);
    let help = did_you_mean(&nearest(number, known));
    told.help(help.unwrap_or_else(|| "use `add` for a section that the text does not have".to_owned()))
}

/// What an earlier instrument of the same place deleted for good is not there to
/// be patched.
fn taken(
    library: &Library,
    times: &Times,
    story: &Story,
    block: &Block,
    patch: &Patch,
    lines: &[crate::law::Line],
) -> Option<Diagnostic> {
    let gone = |line| block.before.iter().any(|section| section.line == line && section.deleted);
    if !lines.iter().all(|line| gone(*line)) {
        return None;
    }
    let (by, deleted) = story
        .blocks
        .iter()
        .take_while(|other| !std::ptr::eq(*other, block))
        .filter(|other| other.instrument != story.id)
        .filter_map(|other| Some((other, library.instruments.get(other.instrument.0 as usize)?)))
        .filter(|(other, by)| by.issuer == story.own.issuer && times.for_good(other.instrument))
        .find_map(|(other, by)| {
            let patches = other.amend.patches.iter().zip(&other.lines);
            let mut deleting = patches.filter(|(patch, _)| patch.action == Action::Delete);
            let (patch, _) = deleting.find(|(_, theirs)| lines.iter().all(|line| theirs.contains(line)))?;
            Some((by, patch))
        })?;
    let message = format!("section `{}` was deleted before by `{}`", patch.number, by.id);
    Some(
        Diagnostic::new(codes::NO_SECTION, patch.at, message)
            .also(deleted.at, "it was deleted here")
            .help("use `add` to write it anew"),
    )
}
