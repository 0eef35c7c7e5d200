//! GR0601: `add` of a number that the text has already.

use super::story::{Story, Text};
use crate::law::Line;
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::syntax::tree::Action;

/// The `add` patches whose number is taken, other than by an earlier patch of the
/// same place, which they replace.
pub(super) fn twice(library: &Library, story: &Story) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for block in story.mine() {
        for (patch, lines) in block.amend.patches.iter().zip(&block.lines) {
            let gone = |line: &Line| {
                let own = block.amend.patches.iter().zip(&block.lines);
                own.clone().any(|(other, lines)| other.action == Action::Delete && lines.contains(line))
            };
            let taken = block.before.iter().find(|section| {
                !section.deleted
                    && section.by != Some(story.own.issuer)
                    && *section.number == *patch.number
                    && !lines.contains(&section.line)
                    && !gone(&section.line)
            });
            let Some(taken) = taken.filter(|_| patch.action == Action::Add) else { continue };
            let message = format!("{} has a section `{}` already", story.name(library), patch.number);
            let mut told = Diagnostic::new(codes::DUPLICATE_ID, patch.at, message)
                .help("write `replace` to put this in its place, or give it another number");
            if let Some(at) = place_of(library, story, taken.line) {
                told = told.also(at, "it stands here");
            }
            found.push(told);
        }
    }
    found
}

/// Where a section stands in the files.
pub(super) fn place_of(library: &Library, story: &Story, line: Line) -> Option<Location> {
    match (line, story.text) {
        (Line::Printed(lineage), Text::Edition(id)) => {
            library.codes.edition(id)?.by_lineage(lineage).map(|printed| printed.section.at)
        }
        (Line::Own(at), Text::Instrument(id)) => {
            library.instruments.get(id.0 as usize)?.sections.get(at).map(|(_, section)| section.at)
        }
        (Line::Added(name), _) => {
            let own = library.instruments.get(name.instrument.0 as usize)?;
            own.amends.get(name.amend)?.patches.get(name.patch).map(|patch| patch.at)
        }
        _ => None,
    }
}
