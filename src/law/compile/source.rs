//! Where provisions come from, told once each.

use super::Compiler;
use crate::law::instrument::{DaysInForce, InstrumentId};
use crate::law::model::{Provenance, Source, SourceId};
use crate::law::text::{EditionId, Section};
use crate::syntax::diagnostic::Location;

/// What makes a source one of its own.
#[derive(Clone, PartialEq, Eq, Hash)]
pub(crate) struct Key {
    instrument: InstrumentId,
    edition: Option<EditionId>,
    section: Option<Box<str>>,
    amended_by: Option<InstrumentId>,
    at: Location,
}

impl Compiler<'_> {
    /// The source that is a whole instrument.
    pub(crate) fn instrument_source(&mut self, id: InstrumentId) -> SourceId {
        let Some(own) = self.instrument(id) else { return SourceId(0) };
        let key = Key { instrument: id, edition: None, section: None, amended_by: None, at: own.at };
        self.source(key, None)
    }

    /// The source that is a section, of an edition or of the instrument itself.
    pub(crate) fn section_source(
        &mut self,
        adopter: InstrumentId,
        edition: Option<EditionId>,
        number: &str,
        section: &Section,
        amended_by: Option<InstrumentId>,
    ) -> SourceId {
        let number = (!number.is_empty()).then(|| number.into());
        let key = Key { instrument: adopter, edition, section: number, amended_by, at: section.at };
        self.source(key, Some(section))
    }

    fn source(&mut self, key: Key, section: Option<&Section>) -> SourceId {
        if let Some(known) = self.source_index.get(&key) {
            return *known;
        }
        let teller = key.amended_by.unwrap_or(key.instrument);
        let adopter = self.instrument(key.instrument).map(|own| own.id.clone());
        let Some(own) = self.instrument(teller) else { return SourceId(0) };
        let library = self.library;
        let edition = key.edition.and_then(|id| library.codes.edition(id));
        let source = Source {
            depth: self.depth(own.issuer),
            issuer: library.places.issuer(own.issuer).map(|issuer| issuer.title.clone()).unwrap_or_default(),
            instrument: own.id.clone(),
            instrument_title: own.title.clone(),
            kind: own.kind,
            adopted_by: key.amended_by.and(adopter),
            code: edition.and_then(|edition| library.codes.code_of(edition)).map(|code| code.name.clone()),
            edition: edition.map(|edition| edition.year),
            section: key.section.clone(),
            title: section.map(|section| section.title.clone()).unwrap_or_default(),
            summary: section.map(|section| section.summary.clone()).unwrap_or_default(),
            provenance: section.map_or_else(|| own.provenance.clone(), |section| section.provenance.clone()),
            in_force: DaysInForce::of(own),
            at: key.at,
        };
        let id = SourceId(self.sources.len() as u32);
        self.sources.push(source);
        self.source_index.insert(key, id);
        id
    }
}

impl Section {
    /// A section that says nothing, to stand for what is not told.
    pub(crate) fn bare(provenance: &Provenance, at: Location) -> Section {
        Section {
            title: Box::default(),
            summary: Box::default(),
            subjects: Vec::new(),
            wheres: Vec::new(),
            excepts: Vec::new(),
            demands: Vec::new(),
            table: None,
            cases: Vec::new(),
            definition: false,
            provenance: provenance.clone(),
            at,
        }
    }
}
