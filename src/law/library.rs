//! A library of rule files, linked: its glossary, places, codes and instruments,
//! and the law of each place, made when it is first asked for and kept.

use super::compile::compile;
use super::instrument::{InstrumentId, Instruments};
use super::model::Law;
use super::places::{IssuerKind, Places};
use super::resolve::codes::read_codes;
use super::resolve::instruments::{ReadBefore, read_instruments};
use super::resolve::patches::read_amends;
use super::resolve::{Reader, Standing};
use super::text::Codes;
use crate::glossary::Glossary;
use crate::glossary::model::PlaceId;
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::tree;
use std::collections::HashMap;
use std::sync::{Arc, OnceLock};

mod again;

/// One parsed file as it is linked.
pub(crate) struct Linked<'t> {
    pub(crate) id: FileId,
    pub(crate) tree: &'t tree::File,
    /// The folder that it lies in, so that names are looked up nearby first.
    pub(crate) folder: Box<str>,
}

/// A linked library. It never changes once it is made.
pub(crate) struct Library {
    pub(crate) glossary: Arc<Glossary>,
    pub(crate) places: Places,
    pub(crate) codes: Arc<Codes>,
    pub(crate) instruments: Instruments,
    issuers: Arc<Issuers>,
    laws: Vec<OnceLock<Result<Box<Law>, Box<Diagnostic>>>>,
    told: Told,
}

/// Whose the instruments are.
struct Issuers {
    by_issuer: HashMap<PlaceId, Vec<InstrumentId>>,
    /// The instruments of makers and suppliers.
    outsiders: Vec<InstrumentId>,
    /// For every place the one whose law it shares: itself, or the nearest around
    /// it where it has no instrument and no word of its own.
    lawgiver: Vec<PlaceId>,
}

/// What was told while a library was linked, step by step.
#[derive(Default)]
struct Told {
    places: Vec<Diagnostic>,
    /// Of the glossary, and of the subjects on which places have nothing.
    words: Vec<Diagnostic>,
    codes: Vec<Diagnostic>,
    instruments: Vec<Diagnostic>,
}

impl Told {
    fn all(&self) -> impl Iterator<Item = &Diagnostic> {
        [&self.places, &self.words, &self.codes, &self.instruments].into_iter().flatten()
    }
}

/// A library as it was before one of its files changed.
pub(crate) struct Before<'b> {
    pub(crate) library: &'b Library,
    pub(crate) file: FileId,
    pub(crate) tree: &'b tree::File,
}

impl Library {
    /// Links parsed files. What is wrong is told; a library of which an error was
    /// told gives no verdict.
    pub(crate) fn link(files: &[Linked], diagnostics: &mut Vec<Diagnostic>) -> Library {
        let library = Library::linked(files, None);
        diagnostics.extend(library.told.all().cloned());
        library
    }

    /// Links files of which all but one are those of a library that was linked
    /// before. The library is the same as if all were linked anew.
    pub(crate) fn link_again(before: &Before<'_>, files: &[Linked], diagnostics: &mut Vec<Diagnostic>) -> Library {
        let library = Library::linked(files, Some(before));
        diagnostics.extend(library.told.all().cloned());
        library
    }

    fn linked(files: &[Linked], before: Option<&Before<'_>>) -> Library {
        let trees: Vec<(FileId, &tree::File)> = files.iter().map(|file| (file.id, file.tree)).collect();
        let mut told = Told::default();
        let kept_places = before.and_then(|before| again::places(before, &trees));
        let same_places = kept_places.is_some();
        let mut places = kept_places.unwrap_or_else(|| {
            let most = files.iter().map(|file| file.id.0 as usize + 1).max().unwrap_or(0);
            let mut folders: Vec<Box<str>> = vec![Box::default(); most];
            for file in files {
                if let Some(folder) = folders.get_mut(file.id.0 as usize) {
                    *folder = file.folder.clone();
                }
            }
            Places::build(&trees, folders, &mut told.places)
        });
        let before = before.filter(|_| same_places);
        let same_words = before.filter(|before| again::same_words(before, &trees));
        let (glossary, codes) = match same_words {
            Some(before) => {
                let own: Vec<_> = trees.iter().filter(|(file, _)| *file == before.file).copied().collect();
                let glossary = Arc::clone(&before.library.glossary);
                nothing_of_their_own(&own, &glossary, &mut places, &mut told.words);
                (glossary, Arc::clone(&before.library.codes))
            }
            None => {
                let glossary = Glossary::build(&trees, &places, &mut told.words);
                nothing_of_their_own(&trees, &glossary, &mut places, &mut told.words);
                let mut reader = Reader { glossary: &glossary, places: &places, diagnostics: &mut told.codes };
                let codes = read_codes(&trees, &mut reader);
                (Arc::new(glossary), Arc::new(codes))
            }
        };
        let again = same_words.map(|before| again::touched(before, &trees)).unwrap_or_default();
        let read = same_words.map(|before| ReadBefore { instruments: &before.library.instruments, again: &again });
        let mut reader = Reader { glossary: &glossary, places: &places, diagnostics: &mut told.instruments };
        let (mut register, same) = read_instruments(&trees, &codes, read, &mut reader);
        read_amends(&mut register, &codes, &mut reader);
        let instruments = register.instruments;
        let issuers = match same_words.filter(|_| same) {
            Some(before) => Arc::clone(&before.library.issuers),
            None => Arc::new(Issuers::of(&instruments, &places, &glossary)),
        };
        let laws = (0..issuers.lawgiver.len()).map(|_| OnceLock::new()).collect();
        Library { glossary, places, codes, instruments, issuers, laws, told }
    }

    /// The instruments of an issuer.
    pub(crate) fn of_issuer(&self, issuer: PlaceId) -> &[InstrumentId] {
        self.issuers.by_issuer.get(&issuer).map_or(&[], Vec::as_slice)
    }

    /// The instruments of makers and suppliers.
    pub(crate) fn outsiders(&self) -> &[InstrumentId] {
        &self.issuers.outsiders
    }

    /// The law of a place.
    ///
    /// # Errors
    /// Where its questions depend on each other in a circle.
    pub(crate) fn law(&self, place: PlaceId) -> Result<&Law, &Diagnostic> {
        let giver = self.issuers.lawgiver.get(place.0 as usize).copied().unwrap_or(place);
        match self.laws.get(giver.0 as usize) {
            Some(slot) => {
                let law = slot.get_or_init(|| compile(self, giver).map(Box::new).map_err(Box::new));
                law.as_ref().map(|law| &**law).map_err(|told| &**told)
            }
            None => Err(&UNKNOWN),
        }
    }

    /// The places that give law of their own.
    pub(crate) fn lawgivers(&self) -> impl Iterator<Item = PlaceId> {
        self.places
            .all()
            .filter(|(id, issuer)| {
                issuer.kind == IssuerKind::Place && self.issuers.lawgiver.get(id.0 as usize) == Some(id)
            })
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

impl Issuers {
    fn of(instruments: &Instruments, places: &Places, glossary: &Glossary) -> Issuers {
        let mut by_issuer: HashMap<PlaceId, Vec<InstrumentId>> = HashMap::new();
        for (number, instrument) in instruments.iter().enumerate() {
            by_issuer.entry(instrument.issuer).or_default().push(InstrumentId(number as u32));
        }
        let lawgiver = lawgivers(places, glossary, &by_issuer);
        let outsiders = instruments
            .iter()
            .zip(0u32..)
            .filter(|(own, _)| places.issuer(own.issuer).is_some_and(|issuer| issuer.kind != IssuerKind::Place))
            .map(|(_, number)| InstrumentId(number))
            .collect();
        Issuers { by_issuer, outsiders, lawgiver }
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
