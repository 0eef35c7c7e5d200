//! Which section each patch means: numbers are those of the text on the patch's
//! own day, and later renumberings carry them along.

use super::Compiler;
use crate::glossary::model::PlaceId;
use crate::law::instrument::{Amend, Instrument, InstrumentId, Patch, Target};
use crate::law::library::Library;
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
pub(crate) struct Numbered {
    pub(crate) line: Line,
    pub(crate) number: Box<str>,
    /// The place whose patch added it.
    pub(crate) by: Option<crate::glossary::model::PlaceId>,
    pub(crate) deleted: bool,
}

/// A block of amendments as it meets the text.
pub(crate) struct Meeting<'m, 'l> {
    pub(crate) instrument: InstrumentId,
    pub(crate) amend: usize,
    pub(crate) block: &'l Amend,
    /// The text just before, the block's own renumbering carried out.
    pub(crate) text: &'m [Numbered],
    /// The renumberings of the block that find no section, by their place there.
    pub(crate) unmoved: &'m [usize],
    /// What each patch of the block means.
    pub(crate) lines: &'m [Vec<Line>],
}

/// Shows every block that amends a text on the path of a place, from the earliest
/// day; an instrument that is not law yet, if one is named, comes last.
pub(crate) fn meetings<'l>(
    library: &'l Library,
    place: PlaceId,
    pending: Option<InstrumentId>,
    target: &Target,
    see: &mut dyn FnMut(&Meeting<'_, 'l>),
) {
    let compiler = Compiler::new(library, place);
    let base = match target {
        Target::Edition(id) | Target::Any { numbered: id, .. } => Base::Edition(*id),
        Target::Instrument(id) => match compiler.instrument(*id) {
            Some(own) => Base::Instrument(*id, own),
            None => return,
        },
    };
    let law: Vec<InstrumentId> = compiler
        .path
        .iter()
        .flat_map(|place| library.of_issuer(*place))
        .copied()
        .filter(|id| compiler.instrument(*id).is_some_and(Instrument::is_law))
        .collect();
    let mut list = blocks(&compiler, &law, base);
    if let Some(pending) = pending.filter(|id| !law.contains(id)) {
        list.extend(blocks(&compiler, &[pending], base));
    }
    walk(&compiler, base, &list, see);
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
    let mut found = Numbering::default();
    walk(compiler, base, blocks, &mut |met| {
        for (patch, lines) in met.lines.iter().enumerate() {
            let name = PatchName { instrument: met.instrument, amend: met.amend, patch };
            found.lines.insert(name, lines.clone());
        }
    });
    found
}

/// Carries the blocks out on the numbers of the text, one after another.
fn walk<'l>(compiler: &Compiler<'l>, base: Base<'l>, blocks: &[Block<'l>], see: &mut dyn FnMut(&Meeting<'_, 'l>)) {
    let mut text: Vec<Numbered> = match base {
        Base::Edition(id) => compiler
            .library
            .codes
            .edition(id)
            .map(|edition| edition.sections.as_slice())
            .unwrap_or_default()
            .iter()
            .map(|printed| Numbered {
                line: Line::Printed(printed.lineage),
                number: printed.number.clone(),
                by: None,
                deleted: false,
            })
            .collect(),
        Base::Instrument(_, own) => own
            .sections
            .iter()
            .enumerate()
            .map(|(at, (number, _))| Numbered { line: Line::Own(at), number: number.clone(), by: None, deleted: false })
            .collect(),
    };
    for block in blocks {
        let Some(own) = compiler.instrument(block.instrument) else { continue };
        let has = |number: &str| text.iter().any(|section| *section.number == *number);
        let pairs = block.block.renumbers.iter().enumerate();
        let unmoved: Vec<usize> = pairs.filter(|(_, (from, _))| !has(from)).map(|(at, _)| at).collect();
        for section in &mut text {
            if let Some(number) = renumbered(&section.number, &block.block.renumbers) {
                section.number = number;
            }
        }
        let mut lines: Vec<Vec<Line>> = Vec::new();
        // What patches of this very block have taken away by then.
        let mut gone: Vec<Line> = Vec::new();
        for (at, patch) in block.block.patches.iter().enumerate() {
            let name = PatchName { instrument: block.instrument, amend: block.amend, patch: at };
            let stands = |section: &Numbered| !section.deleted && !gone.contains(&section.line);
            let meant = match (&block.block.target, patch.action) {
                (_, Action::Add) => {
                    let again = text.iter().rev().find(|section| {
                        *section.number == *patch.number && section.by == Some(own.issuer) && stands(section)
                    });
                    vec![again.map_or(Line::Added(name), |section| section.line)]
                }
                (Target::Any { numbered, .. }, _) => in_edition(compiler, base, *numbered, patch, &text, &stands),
                _ => named(&text, patch, &stands),
            };
            if patch.action == Action::Delete {
                gone.extend(meant.iter().copied());
            }
            lines.push(meant);
        }
        see(&Meeting {
            instrument: block.instrument,
            amend: block.amend,
            block: block.block,
            text: &text,
            unmoved: &unmoved,
            lines: &lines,
        });
        for (patch, lines) in block.block.patches.iter().zip(&lines) {
            match patch.action {
                Action::Add => {
                    for line in lines.iter().filter(|line| matches!(line, Line::Added(_))) {
                        if !text.iter().any(|section| section.line == *line) {
                            let (line, number) = (*line, patch.number.clone());
                            text.push(Numbered { line, number, by: Some(own.issuer), deleted: false });
                        }
                    }
                }
                Action::Delete => {
                    for section in text.iter_mut().filter(|section| lines.contains(&section.line)) {
                        section.deleted = true;
                    }
                }
                _ => {}
            }
        }
    }
}

/// The sections of the text that have the patch's number now, those that stand or
/// else one that was taken away, and all under it if it says so: what has been
/// deleted may stand for some jobs all the same.
fn named(text: &[Numbered], patch: &Patch, stands: &dyn Fn(&Numbered) -> bool) -> Vec<Line> {
    let same = |section: &&Numbered| *section.number == *patch.number;
    let mut found: Vec<Line> =
        text.iter().filter(same).filter(|section| stands(section)).map(|section| section.line).collect();
    if found.is_empty() {
        found.extend(text.iter().rev().filter(same).map(|section| section.line).take(1));
    }
    let under = text.iter().filter(|section| patch.and_under && is_under(&section.number, &patch.number));
    found.extend(under.map(|section| section.line));
    found
}

/// The sections that a patch of any edition means in this one, its number being
/// one of another edition.
fn in_edition(
    compiler: &Compiler,
    base: Base,
    numbered: EditionId,
    patch: &Patch,
    text: &[Numbered],
    stands: &dyn Fn(&Numbered) -> bool,
) -> Vec<Line> {
    let Base::Edition(here) = base else { return Vec::new() };
    let codes = &compiler.library.codes;
    let (Some(theirs), Some(ours)) = (codes.edition(numbered), codes.edition(here)) else { return Vec::new() };
    if here == numbered || theirs.family != ours.family {
        return named(text, patch, stands);
    }
    let meant: Vec<Lineage> = printed_lines(theirs, patch);
    if meant.is_empty() {
        return named(text, patch, stands);
    }
    meant.into_iter().filter(|lineage| ours.by_lineage(*lineage).is_some()).map(Line::Printed).collect()
}

fn printed_lines(edition: &Edition, patch: &Patch) -> Vec<Lineage> {
    edition
        .sections
        .iter()
        .filter(|printed| {
            *printed.number == *patch.number || (patch.and_under && is_under(&printed.number, &patch.number))
        })
        .map(|printed| printed.lineage)
        .collect()
}
