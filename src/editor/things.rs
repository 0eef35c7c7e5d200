//! What a word of a rule file can stand for, and where that is declared.

use super::view::View;
use crate::glossary::model::{ChoiceId, FieldId, GroupId, Order, PlaceId, QuestionId, SubjectId};
use crate::law::PatchName;
use crate::law::instrument::{Instrument, InstrumentId};
use crate::law::text::{EditionId, Lineage, Printed};
use crate::syntax::diagnostic::Location;

/// What a word stands for. Equal words of different places stand for different
/// things, and a section is one through all numbers that it has had.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(super) enum Thing {
    Choice(ChoiceId),
    Term(ChoiceId, u16),
    Subject(SubjectId),
    /// A fact, or an attribute of a list or record.
    Field(FieldId),
    /// A list or record.
    Group(GroupId),
    Question(QuestionId),
    /// An answer of a ladder question.
    Rung(QuestionId, u16),
    /// A definition of the glossary; those of editions are sections.
    Definition(Box<str>),
    /// A place, maker or supplier.
    Issuer(PlaceId),
    Instrument(InstrumentId),
    Code(usize),
    Edition(EditionId),
    Section(Part),
}

/// A section of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) enum Part {
    /// Of an edition, whichever prints it.
    Printed(Lineage),
    /// Of an instrument, by its place there.
    Own(InstrumentId, usize),
    /// Added by a patch.
    Added(PatchName),
}

/// A word of a file, and what it stands for.
#[derive(Clone, Debug)]
pub(super) struct Mention {
    pub(super) at: Location,
    pub(super) thing: Thing,
    /// Whether it is declared here.
    pub(super) declares: bool,
    /// The edition in which a section is named.
    pub(super) edition: Option<EditionId>,
}

impl View {
    /// An instrument of the library.
    pub(super) fn instrument(&self, id: InstrumentId) -> Option<&Instrument> {
        self.rules.library().instruments.get(id.0 as usize)
    }

    /// A section as an edition prints it: the edition named, else the first that
    /// has it.
    pub(super) fn printed(&self, lineage: Lineage, edition: Option<EditionId>) -> Option<(EditionId, &Printed)> {
        let codes = &self.rules.library().codes;
        let in_it = |id: EditionId| Some((id, codes.edition(id)?.by_lineage(lineage)?));
        edition.and_then(in_it).or_else(|| {
            let mut all: Vec<(i32, EditionId, &Printed)> = codes
                .editions
                .iter()
                .zip(0u32..)
                .filter_map(|(edition, id)| Some((edition.year, EditionId(id), edition.by_lineage(lineage)?)))
                .collect();
            all.sort_by_key(|(year, id, _)| (*year, *id));
            all.first().map(|(_, id, printed)| (*id, *printed))
        })
    }

    /// The name of a thing as rules write it.
    pub(super) fn called(&self, mention: &Mention) -> Option<String> {
        let library = self.rules.library();
        let glossary = &library.glossary;
        Some(match &mention.thing {
            Thing::Choice(id) => glossary[*id].name.to_string(),
            Thing::Term(choice, term) => glossary[*choice].terms.get(usize::from(*term))?.name.to_string(),
            Thing::Subject(id) => glossary[*id].name.to_string(),
            Thing::Field(id) => glossary[*id].name.to_string(),
            Thing::Group(id) => glossary[*id].name.to_string(),
            Thing::Question(id) => glossary[*id].name.to_string(),
            Thing::Rung(question, rung) => match &glossary[*question].order {
                Order::Ladder(rungs) => rungs.get(usize::from(*rung))?.to_string(),
                _ => return None,
            },
            Thing::Definition(name) => name.to_string(),
            Thing::Issuer(id) => library.places.issuer(*id)?.name.to_string(),
            Thing::Instrument(id) => self.instrument(*id)?.id.to_string(),
            Thing::Code(code) => library.codes.codes.get(*code)?.name.to_string(),
            Thing::Edition(id) => {
                let edition = library.codes.edition(*id)?;
                format!("{} {}", library.codes.code_of(edition)?.name, edition.year)
            }
            Thing::Section(part) => match part {
                Part::Printed(lineage) => self.printed(*lineage, mention.edition)?.1.number.to_string(),
                Part::Own(id, at) => self.instrument(*id)?.sections.get(*at)?.0.to_string(),
                Part::Added(name) => self.added(*name)?.number.to_string(),
            },
        })
    }

    /// A patch by its name.
    pub(super) fn added(&self, name: PatchName) -> Option<&crate::law::instrument::Patch> {
        self.instrument(name.instrument)?.amends.get(name.amend)?.patches.get(name.patch)
    }

    /// Where a thing is declared, as far as the library keeps that.
    pub(super) fn declared(&self, mention: &Mention) -> Option<Location> {
        let library = self.rules.library();
        let glossary = &library.glossary;
        Some(match &mention.thing {
            Thing::Choice(id) => glossary[*id].at,
            Thing::Term(choice, term) => glossary[*choice].terms.get(usize::from(*term))?.at,
            Thing::Subject(id) => glossary[*id].at,
            Thing::Field(id) => glossary[*id].at,
            Thing::Group(id) => glossary[*id].at,
            Thing::Question(id) => glossary[*id].at,
            // The library keeps no place of these.
            Thing::Rung(..) | Thing::Definition(_) => return None,
            Thing::Issuer(id) => library.places.issuer(*id)?.at,
            Thing::Instrument(id) => self.instrument(*id)?.at,
            Thing::Code(code) => library.codes.codes.get(*code)?.at,
            Thing::Edition(id) => library.codes.edition(*id)?.at,
            Thing::Section(part) => match part {
                Part::Printed(lineage) => self.printed(*lineage, mention.edition)?.1.section.at,
                Part::Own(id, at) => self.instrument(*id)?.sections.get(*at)?.1.at,
                Part::Added(name) => self.added(*name)?.at,
            },
        })
    }
}

impl Thing {
    /// What people call such a thing.
    pub(super) fn kind(&self) -> &'static str {
        match self {
            Thing::Choice(_) => "choice",
            Thing::Term(..) => "term",
            Thing::Subject(_) => "subject",
            Thing::Field(_) => "fact",
            Thing::Group(_) => "list or record",
            Thing::Question(_) => "question",
            Thing::Rung(..) => "answer",
            Thing::Definition(_) => "definition",
            Thing::Issuer(_) => "place or issuer",
            Thing::Instrument(_) => "instrument",
            Thing::Code(_) => "code",
            Thing::Edition(_) => "edition",
            Thing::Section(_) => "section",
        }
    }
}
