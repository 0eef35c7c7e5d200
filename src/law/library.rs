//! A library of rule files, linked: its glossary, places, codes and instruments,
//! and the law of each place, made when it is first asked for and kept.

use super::compile::compile;
use super::instrument::{Instrument, InstrumentId};
use super::model::Law;
use super::places::{IssuerKind, Places};
use super::resolve::codes::read_codes;
use super::resolve::instruments::read_instruments;
use super::resolve::patches::read_amends;
use super::resolve::{Reader, Standing};
use super::text::Codes;
use crate::glossary::Glossary;
use crate::glossary::model::PlaceId;
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::tree;
use std::collections::HashMap;
use std::sync::OnceLock;

/// One parsed file as it is linked.
pub(crate) struct Linked<'t> {
    pub(crate) id: FileId,
    pub(crate) tree: &'t tree::File,
    /// The folder that it lies in, so that names are looked up nearby first.
    pub(crate) folder: Box<str>,
}

/// A linked library. It never changes once it is made.
pub(crate) struct Library {
    pub(crate) glossary: Glossary,
    pub(crate) places: Places,
    pub(crate) codes: Codes,
    pub(crate) instruments: Vec<Instrument>,
    by_issuer: HashMap<PlaceId, Vec<InstrumentId>>,
    /// The instruments of makers and suppliers.
    outsiders: Vec<InstrumentId>,
    /// For every place the one whose law it shares: itself, or the nearest around
    /// it where it has no instrument and no word of its own.
    lawgiver: Vec<PlaceId>,
    laws: Vec<OnceLock<Result<Law, Box<Diagnostic>>>>,
}

impl Library {
    /// Links parsed files. What is wrong is told; a library of which an error was
    /// told gives no verdict.
    pub(crate) fn link(files: &[Linked], diagnostics: &mut Vec<Diagnostic>) -> Library {
        let trees: Vec<(FileId, &tree::File)> = files.iter().map(|file| (file.id, file.tree)).collect();
        let most = files.iter().map(|file| file.id.0 as usize + 1).max().unwrap_or(0);
        let mut folders: Vec<Box<str>> = vec![Box::default(); most];
        for file in files {
            if let Some(folder) = folders.get_mut(file.id.0 as usize) {
                *folder = file.folder.clone();
            }
        }
        let mut places = Places::build(&trees, folders, diagnostics);
        let glossary = Glossary::build(&trees, &places, diagnostics);
        nothing_of_their_own(&trees, &glossary, &mut places, diagnostics);
        let (codes, instruments) = {
            let mut reader = Reader { glossary: &glossary, places: &places, diagnostics };
            let codes = read_codes(&trees, &mut reader);
            let mut register = read_instruments(&trees, &codes, &mut reader);
            read_amends(&mut register, &codes, &mut reader);
            (codes, register.instruments)
        };
        let mut by_issuer: HashMap<PlaceId, Vec<InstrumentId>> = HashMap::new();
        for (number, instrument) in instruments.iter().enumerate() {
            by_issuer.entry(instrument.issuer).or_default().push(InstrumentId(number as u32));
        }
        let lawgiver = lawgivers(&places, &glossary, &by_issuer);
        let laws = (0..lawgiver.len()).map(|_| OnceLock::new()).collect();
        let outsiders = instruments
            .iter()
            .zip(0u32..)
            .filter(|(own, _)| places.issuer(own.issuer).is_some_and(|issuer| issuer.kind != IssuerKind::Place))
            .map(|(_, number)| InstrumentId(number))
            .collect();
        Library { glossary, places, codes, instruments, by_issuer, outsiders, lawgiver, laws }
    }

    /// The instruments of an issuer.
    pub(crate) fn of_issuer(&self, issuer: PlaceId) -> &[InstrumentId] {
        self.by_issuer.get(&issuer).map_or(&[], Vec::as_slice)
    }

    /// The instruments of makers and suppliers.
    pub(crate) fn outsiders(&self) -> &[InstrumentId] {
        &self.outsiders
    }

    /// The law of a place.
    ///
    /// # Errors
    /// Where its questions depend on each other in a circle.
    pub(crate) fn law(&self, place: PlaceId) -> Result<&Law, &Diagnostic> {
        let giver = self.lawgiver.get(place.0 as usize).copied().unwrap_or(place);
        match self.laws.get(giver.0 as usize) {
            Some(slot) => slot.get_or_init(|| compile(self, giver).map_err(Box::new)).as_ref().map_err(|told| &**told),
            None => Err(&UNKNOWN),
        }
    }

    /// The places that give law of their own.
    pub(crate) fn lawgivers(&self) -> impl Iterator<Item = PlaceId> {
        self.places
            .all()
            .filter(|(id, issuer)| issuer.kind == IssuerKind::Place && self.lawgiver.get(id.0 as usize) == Some(id))
            .map(|(id, _)| id)
    }
}

/// No place has a number that the library did not give.
pub(crate) static UNKNOWN: std::sync::LazyLock<Diagnostic> = std::sync::LazyLock::new(|| {
    Diagnostic::new(
        crate::syntax::codes::UNKNOWN_PLACE,
        crate::syntax::diagnostic::Location::default(),
        "the place is not of this library",
    )
});

/// Reads on which subjects places say that they have nothing of their own.
fn nothing_of_their_own(
    files: &[(FileId, &tree::File)],
    glossary: &Glossary,
    places: &mut Places,
    diagnostics: &mut Vec<Diagnostic>,
) {
    let mut found = Vec::new();
    for (file, tree) in files {
        for item in &tree.items {
            let tree::Item::Place(place) = item else { continue };
            if place.nothing.is_empty() {
                continue;
            }
            let declared =
                places.all().find(|(_, issuer)| issuer.at.file == *file && issuer.at.span == place.name.span);
            let Some(id) = declared.map(|(id, _)| id) else { continue };
            let mut reader = Reader { glossary, places, diagnostics };
            let standing = Standing::plain(*file, Some(id));
            let mut subjects = Vec::new();
            for line in &place.nothing {
                subjects.extend(reader.subjects(&line.subjects, &standing));
                reader.provenance(line.provenance.as_ref(), &super::model::Provenance::Missing, &standing);
            }
            found.push((id, subjects));
        }
    }
    for (id, subjects) in found {
        places.set_nothing(id, subjects);
    }
}

fn lawgivers(places: &Places, glossary: &Glossary, by_issuer: &HashMap<PlaceId, Vec<InstrumentId>>) -> Vec<PlaceId> {
    let mut own: Vec<bool> = places.all().map(|(id, _)| by_issuer.contains_key(&id)).collect();
    let scopes = glossary
        .fields
        .iter()
        .map(|field| field.scope)
        .chain(glossary.questions.iter().map(|question| question.scope))
        .chain(glossary.groups.iter().map(|group| group.scope))
        .chain(glossary.choices.iter().flat_map(|choice| choice.terms.iter().map(|term| term.scope)));
    for scope in scopes.flatten() {
        if let Some(slot) = own.get_mut(scope.0 as usize) {
            *slot = true;
        }
    }
    places
        .all()
        .map(|(id, issuer)| {
            let mut at = id;
            let mut parent = issuer.parent;
            while !own.get(at.0 as usize).copied().unwrap_or(true) {
                match parent {
                    Some(outer) => {
                        at = outer;
                        parent = places.issuer(outer).and_then(|issuer| issuer.parent);
                    }
                    None => break,
                }
            }
            at
        })
        .collect()
}

impl Library {
    /// The sections for which no source is found, neither their own nor one of the
    /// texts around them.
    pub(crate) fn without_provenance(&self) -> Vec<Diagnostic> {
        use super::model::Provenance;
        let printed = self
            .codes
            .editions
            .iter()
            .flat_map(|edition| edition.sections.iter().map(|printed| (&printed.number, &printed.section)));
        let own = self.instruments.iter().flat_map(|own| {
            let patched =
                own.amends.iter().flat_map(|amend| &amend.patches).filter(|patch| patch.action != tree::Action::Delete);
            own.sections
                .iter()
                .map(|(number, section)| (number, section))
                .chain(patched.map(|patch| (&patch.number, &patch.section)))
        });
        let mut told: Vec<Diagnostic> = printed
            .chain(own)
            .filter(|(_, section)| section.provenance == Provenance::Missing)
            .map(|(number, section)| {
                Diagnostic::new(
                    crate::syntax::codes::PROVENANCE_MISSING,
                    section.at,
                    format!("`{number}` does not say where it was read"),
                )
                .help(
                    "add `read \"where\" on DATE`, `from memory` or `common practice` to it, its edition or its place",
                )
            })
            .collect();
        told.sort_by_key(|told| told.at);
        told.dedup_by_key(|told| told.at);
        told
    }
}
