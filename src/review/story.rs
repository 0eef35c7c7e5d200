//! What the amendments of one instrument meet: the text that they patch, as all
//! blocks of the place's path change it, in the order of their days.

use crate::glossary::model::PlaceId;
use crate::law::instrument::{Amend, Instrument, InstrumentId, Target};
use crate::law::library::Library;
use crate::law::text::EditionId;
use crate::law::{Line, meetings};

/// The history of one text on the path of an instrument that amends it.
pub(super) struct Story<'l> {
    pub(super) id: InstrumentId,
    pub(super) own: &'l Instrument,
    pub(super) text: Text,
    pub(super) blocks: Vec<Block<'l>>,
}

/// The text that is amended; for amendments of any edition the one whose numbers
/// they use.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Text {
    Edition(EditionId),
    Instrument(InstrumentId),
}

/// One block of amendments.
pub(super) struct Block<'l> {
    pub(super) instrument: InstrumentId,
    pub(super) amend: &'l Amend,
    /// What each patch means.
    pub(super) lines: Vec<Vec<Line>>,
    /// The text just before; told for the blocks of the instrument itself.
    pub(super) before: Vec<Stood>,
    /// Renumberings that find no section, by their place in the block.
    pub(super) unmoved: Vec<usize>,
}

/// A section as it stood on the day of a block.
pub(super) struct Stood {
    pub(super) line: Line,
    pub(super) number: Box<str>,
    /// The place whose patch added it.
    pub(super) by: Option<PlaceId>,
    pub(super) deleted: bool,
}

impl Target {
    fn text(&self) -> Text {
        match self {
            Target::Edition(id) | Target::Any { numbered: id, .. } => Text::Edition(*id),
            Target::Instrument(id) => Text::Instrument(*id),
        }
    }
}

/// Every instrument that amends and is wanted, with every text that it amends.
pub(super) fn stories<'l>(
    library: &'l Library,
    wanted: &dyn Fn(&Instrument) -> bool,
) -> impl Iterator<Item = Story<'l>> {
    let all = library.instruments.iter().zip(0u32..);
    all.filter(|(own, _)| wanted(own)).flat_map(move |(own, number)| {
        let mut texts: Vec<Text> = Vec::new();
        for amend in &own.amends {
            if !texts.contains(&amend.target.text()) {
                texts.push(amend.target.text());
            }
        }
        texts.into_iter().map(move |text| story(library, InstrumentId(number), own, text))
    })
}

fn story<'l>(library: &'l Library, id: InstrumentId, own: &'l Instrument, text: Text) -> Story<'l> {
    let mut blocks = Vec::new();
    let target = match text {
        Text::Edition(id) => Target::Edition(id),
        Text::Instrument(id) => Target::Instrument(id),
    };
    let pending = (!own.is_law()).then_some(id);
    meetings(library, own.issuer, pending, &target, &mut |met| {
        let mine = met.instrument == id;
        let before = met.text.iter().filter(|_| mine).map(|section| Stood {
            line: section.line,
            number: section.number.clone(),
            by: section.by,
            deleted: section.deleted,
        });
        blocks.push(Block {
            instrument: met.instrument,
            amend: met.block,
            lines: met.lines.to_vec(),
            before: before.collect(),
            unmoved: met.unmoved.to_vec(),
        });
    });
    Story { id, own, text, blocks }
}

impl<'l> Story<'l> {
    /// The instrument's own blocks whose numbers are those of the text itself.
    pub(super) fn mine(&self) -> impl Iterator<Item = &Block<'l>> {
        self.blocks.iter().filter(|block| block.instrument == self.id && block.amend.target.text() == self.text)
    }

    /// The text in words: `IFGC 2018`, or the id of an instrument.
    pub(super) fn name(&self, library: &Library) -> String {
        match self.text {
            Text::Edition(id) => edition_name(library, id),
            Text::Instrument(id) => {
                library.instruments.get(id.0 as usize).map(|own| own.id.to_string()).unwrap_or_default()
            }
        }
    }
}

/// An edition in words.
pub(super) fn edition_name(library: &Library, id: EditionId) -> String {
    let edition = library.codes.edition(id);
    let code = edition.and_then(|edition| library.codes.code_of(edition)).map_or("", |code| &*code.name);
    format!("{code} {}", edition.map_or(0, |edition| edition.year))
}
