//! Which section each patch means: numbers are those of the text on the patch's
//! own day, and later renumberings carry them along.

use super::Compiler;
use crate::law::instrument::{Amend, Instrument, InstrumentId, Patch, Target};
use crate::law::resolve::codes::renumbered;
use crate::law::text::{Edition, EditionId, Lineage, is_under};
use crate::syntax::tree::Action;
use std::collections::HashMap;

/// The identity of a section of a text as it is amended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(crate) enum Line {
    /// A section of the edition.
    Printed(Lineage),
    /// A section of the instrument, by its place there.
    Own(usize),
    /// What a patch added.
    Added(PatchName),
}

/// A patch by its instrument and its place there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(crate) struct PatchName {
    pub(crate) instrument: InstrumentId,
    pub(crate) amend: usize,
    pub(crate) patch: usize,
}

/// The text that is amended.
#[derive(Clone, Copy)]
pub(crate) enum Base<'l> {
    Edition(EditionId),
    Instrument(InstrumentId, &'l Instrument),
}

/// An `amend` block that reaches the text.
#[derive(Clone, Copy)]
pub(crate) struct Block<'l> {
    pub(crate) instrument: InstrumentId,
    pub(crate) amend: usize,
    pub(crate) block: &'l Amend,
}

/// What each patch means, and the first number of each section.
#[derive(Debug, Default)]
pub(crate) struct Numbering {
    pub(crate) lines: HashMap<PatchName, Vec<Line>>,
}

/// A section as it is numbered at some day.
struct Numbered {
    line: Line,
    number: Box<str>,
    /// The place whose patch added it.
    by: Option<crate::glossary::model::PlaceId>,
    deleted: bool,
}

/// The blocks of a level that amend a text, from the earliest day.
pub(crate) fn blocks<'l>(compiler: &Compiler<'l>, instruments: &[InstrumentId], base: Base<'l>) -> Vec<Block<'l>> {
    let code = match base {
        Base::Edition(id) => compiler.library.codes.edition(id).map(|edition| edition.code),
        Base::Instrument(..) => None,
    };
    let mut found = Vec::new();
    for id in instruments {
        let Some(own) = compiler.instrument(*id) else { continue };
        for (number, block) in own.amends.iter().enumerate() {
            let hits = match (&block.target, base) {
                (Target::Edition(of), Base::Edition(id)) => *of == id,
                (Target::Any { code: of, .. }, Base::Edition(_)) => Some(*of) == code,
                (Target::Instrument(of), Base::Instrument(id, _)) => *of == id,
                _ => false,
            };
            if hits {
                found.push(Block { instrument: *id, amend: number, block });
            }
        }
    }
    found.sort_by_key(|block| {
        compiler.instrument(block.instrument).map(|own| (own.rank(), compiler.depth(own.issuer), own.id.clone()))
    });
    found
}

/// Finds out what every patch of the blocks means.
pub(crate) fn numbering<'l>(compiler: &Compiler<'l>, base: Base<'l>, blocks: &[Block<'l>]) -> Numbering {
    let mut text: Vec<Numbered> = match base {
        Base::Edition(id) => compiler
            .library
            .codes
            .edition(id)
            .map(|edition| edition.sections.as_slice())
            .unwrap_or_default()
            .iter()
            .map(|printed| Numbered { line: Line::Printed(printed.lineage), number: printed.number.clone(), by: None, deleted: false })
            .collect(),
        Base::Instrument(_, own) => own
            .sections
            .iter()
            .enumerate()
            .map(|(at, (number, _))| Numbered { line: Line::Own(at), number: number.clone(), by: None, deleted: false })
            .collect(),
    };
    let mut found = Numbering::default();
    for block in blocks {
        let Some(own) = compiler.instrument(block.instrument) else { continue };
        for section in &mut text {
            if let Some(number) = renumbered(&section.number, &block.block.renumbers) {
                section.number = number;
            }
        }
        let mut later = Vec::new();
        for (at, patch) in block.block.patches.iter().enumerate() {
            let name = PatchName { instrument: block.instrument, amend: block.amend, patch: at };
            if patch.action == Action::Add {
                let again = text.iter().rev().find(|section| *section.number == *patch.number && section.by == Some(own.issuer) && !section.deleted);
                let line = again.map_or(Line::Added(name), |section| section.line);
                if again.is_none() {
                    later.push(Numbered { line, number: patch.number.clone(), by: Some(own.issuer), deleted: false });
                }
                found.lines.insert(name, vec![line]);
                continue;
            }
            let lines = match &block.block.target {
                Target::Any { numbered, .. } => in_edition(compiler, base, *numbered, patch, &text),
                _ => named(&text, patch),
            };
            if patch.action == Action::Delete {
                for section in text.iter_mut().filter(|section| lines.contains(&section.line)) {
                    section.deleted = true;
                }
            }
            found.lines.insert(name, lines);
        }
        text.extend(later);
    }
    found
}

/// The sections of the text that have the patch's number now: those that stand,
/// or else one that was taken away.
fn named(text: &[Numbered], patch: &Patch) -> Vec<Line> {
    let fits = |section: &&Numbered| {
        *section.number == *patch.number || (patch.and_under && is_under(&section.number, &patch.number))
    };
    let standing: Vec<Line> = text.iter().filter(fits).filter(|section| !section.deleted).map(|section| section.line).collect();
    if standing.is_empty() { text.iter().rev().filter(fits).map(|section| section.line).take(1).collect() } else { standing }
}

/// The sections that a patch of any edition means in this one, its number being
/// one of another edition.
fn in_edition(compiler: &Compiler, base: Base, numbered: EditionId, patch: &Patch, text: &[Numbered]) -> Vec<Line> {
    let Base::Edition(here) = base else { return Vec::new() };
    let codes = &compiler.library.codes;
    let (Some(theirs), Some(ours)) = (codes.edition(numbered), codes.edition(here)) else { return Vec::new() };
    if here == numbered || theirs.family != ours.family {
        return named(text, patch);
    }
    let meant: Vec<Lineage> = printed_lines(theirs, patch);
    if meant.is_empty() {
        return named(text, patch);
    }
    meant.into_iter().filter(|lineage| ours.by_lineage(*lineage).is_some()).map(Line::Printed).collect()
}

fn printed_lines(edition: &Edition, patch: &Patch) -> Vec<Lineage> {
    edition
        .sections
        .iter()
        .filter(|printed| *printed.number == *patch.number || (patch.and_under && is_under(&printed.number, &patch.number)))
        .map(|printed| printed.lineage)
        .collect()
}
