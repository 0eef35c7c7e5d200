//! A set of rule files ready to answer: those that ship with the program, those
//! given beside them, or both, linked, with the hash that names them.
//!
//! This module refuses to read files: it is given their bytes.

use crate::atlas::{Atlas, BoundaryFile};
use crate::glossary::model::PlaceId;
use crate::job::model::Job;
use crate::job::{self, Desk, Gazetteer};
use crate::law::library::{Before, Library, Linked};
use crate::law::model::Law;
use crate::law::places::IssuerKind;
use crate::review;
use crate::shipped::{Shipped, ShippedAreas};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location, Severity};
use crate::syntax::tree::File;
use crate::verdict::survey::Ground;
use crate::verdict::{Lexicon, Matter, Plan};
use sha2::{Digest, Sha256};
use std::borrow::Cow;
use std::collections::{HashMap, HashSet};
use std::sync::{Arc, OnceLock};

mod loaded;
#[cfg(test)]
mod tests;

pub(crate) use loaded::Loaded;

/// The shipped trees, as the build script wrote them.
const TREES: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/rules.bin"));
/// The texts of the shipped files, needed only to draw what is wrong beside them.
const TEXTS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/texts.bin"));

/// The boundaries of shipped places, read when somebody asks for an area.
const AREAS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/areas.bin"));

/// A rule file as given: its name for people, its folder, and its bytes.
#[derive(Clone, Debug)]
pub struct Source {
    name: String,
    bytes: Vec<u8>,
}

impl Source {
    /// A rule file of this name (a path with `/`) and these bytes.
    pub fn new(name: impl Into<String>, bytes: impl Into<Vec<u8>>) -> Source {
        Source { name: name.into(), bytes: bytes.into() }
    }
}

impl Source {
    /// The name for people.
    pub(crate) fn name(&self) -> &str {
        &self.name
    }

    /// SHA-256 of the bytes.
    pub(crate) fn hash(&self) -> [u8; 32] {
        Sha256::digest(&self.bytes).into()
    }
}

/// A linked set of rule files. It never changes once it is made, and any number
/// of threads may ask it.
pub struct Rules {
    files: Vec<Arc<Loaded>>,
    library: Library,
    diagnostics: Vec<Diagnostic>,
    hash: String,
    texts: OnceLock<Vec<Vec<u8>>>,
    /// For every place that gives law, its law made ready for many jobs.
    ready: Vec<OnceLock<Box<Ready>>>,
    /// What is wrong and shows only when all files are seen together.
    wrong: OnceLock<Vec<Diagnostic>>,
    /// Boundary files that were looked for beside given rule files, or why they cannot be read.
    boundaries: HashMap<PlaceId, Result<Arc<[u8]>, String>>,
    atlas: OnceLock<Atlas>,
}

/// What is worked out once for the law of a place.
struct Ready {
    plan: Plan,
    path: Vec<PlaceId>,
}

impl std::fmt::Debug for Rules {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Rules").field("files", &self.files.len()).field("hash", &self.hash).finish_non_exhaustive()
    }
}

impl Rules {
    /// The rules that ship with the program.
    #[must_use]
    pub fn shipped() -> Rules {
        Rules::with(Vec::new())
    }

    /// The rules that ship with the program and these beside them. A file whose
    /// bytes equal those of another is that file.
    #[must_use]
    pub fn with(sources: Vec<Source>) -> Rules {
        Rules::make(true, sources)
    }

    /// These rules alone.
    #[must_use]
    pub fn only(sources: Vec<Source>) -> Rules {
        Rules::make(false, sources)
    }

    fn make(shipped: bool, sources: Vec<Source>) -> Rules {
        let mut files = if shipped { shipped_files() } else { Vec::new() };
        let mut known: HashSet<[u8; 32]> = files.iter().map(|file| file.hash).collect();
        let mut fresh: Vec<(Source, [u8; 32])> = sources
            .into_iter()
            .map(|source| {
                let hash = source.hash();
                (source, hash)
            })
            .collect();
        // The order in which files are given never matters.
        fresh.sort_by(|one, other| (&one.0.name, one.1).cmp(&(&other.0.name, other.1)));
        fresh.retain(|(_, hash)| known.insert(*hash));
        let first = files.len() as u32;
        files.extend(read_all(fresh, first));
        Rules::of(files)
    }

    /// Links files that were read before; the place of each in the row is its
    /// number, and no two have the same bytes.
    pub(crate) fn of(files: Vec<Arc<Loaded>>) -> Rules {
        Rules::put_together(files, None)
    }

    /// Whether it is made of just these files.
    pub(crate) fn is_of(&self, files: &[Arc<Loaded>]) -> bool {
        files.len() == self.files.len() && files.iter().zip(&self.files).all(|(one, other)| Arc::ptr_eq(one, other))
    }

    /// The same, of which all files but one are shared with a set that was linked
    /// before; where more differ all are linked anew.
    pub(crate) fn again(files: Vec<Arc<Loaded>>, before: &Rules) -> Rules {
        let mut other = files.iter().zip(&before.files).zip(0u32..).filter(|((new, old), _)| !Arc::ptr_eq(new, old));
        let changed = other.next().filter(|_| files.len() == before.files.len());
        match changed.zip(Some(other.next())) {
            Some((((new, old), number), None)) if new.name == old.name => {
                let before = Before { library: &before.library, file: FileId(number), tree: &old.tree };
                Rules::put_together(files, Some(&before))
            }
            _ => Rules::of(files),
        }
    }

    /// The same set with another tree for one of its files, whose text stays as it
    /// was. Nothing for a file that is not of the set.
    pub(crate) fn with_tree(&self, file: FileId, tree: File) -> Option<Rules> {
        let mut files = self.files.clone();
        let slot = files.get_mut(file.0 as usize)?;
        *slot = Arc::new(Loaded {
            name: slot.name.clone(),
            hash: slot.hash,
            tree,
            diagnostics: Vec::new(),
            bytes: Some(self.file_text(file).into_bytes()),
            // What is wrong in it has not been looked for when the program was built.
            shipped: false,
        });
        Some(Rules::again(files, self))
    }

    /// These rules and one file more, with its number; the others are not read again. A
    /// file whose bytes equal those of another is that file.
    pub(crate) fn and(&self, source: Source) -> (Rules, FileId) {
        let mut files = self.files.clone();
        let file = self.file_with(&source.hash()).unwrap_or_else(|| {
            let file = FileId(files.len() as u32);
            files.push(Arc::new(Loaded::read(file, source)));
            file
        });
        (Rules::of(files), file)
    }

    fn put_together(files: Vec<Arc<Loaded>>, before: Option<&Before<'_>>) -> Rules {
        let mut diagnostics: Vec<Diagnostic> = files.iter().flat_map(|file| file.diagnostics.iter().cloned()).collect();
        let linked: Vec<Linked> = files
            .iter()
            .zip(0u32..)
            .map(|(file, number)| Linked {
                id: FileId(number),
                tree: &file.tree,
                folder: file.name.rsplit_once('/').map(|(folder, _)| folder).unwrap_or_default().into(),
            })
            .collect();
        let library = match before {
            Some(before) => Library::link_again(before, &linked, &mut diagnostics),
            None => Library::link(&linked, &mut diagnostics),
        };
        quiet_consequences(&mut diagnostics);
        let hash = hash_of(files.iter().map(|file| file.hash));
        let ready = library.places.all().map(|_| OnceLock::new()).collect();
        Rules {
            files,
            library,
            diagnostics,
            hash,
            texts: OnceLock::new(),
            ready,
            wrong: OnceLock::new(),
            boundaries: HashMap::new(),
            atlas: OnceLock::new(),
        }
    }

    /// The same with the bytes of boundary files that were looked for, or why they cannot be
    /// read. Verdicts hang on no boundary, and neither does the hash.
    #[must_use]
    pub(crate) fn with_boundaries(mut self, files: HashMap<PlaceId, Result<Arc<[u8]>, String>>) -> Rules {
        self.boundaries = files;
        self.atlas = OnceLock::new();
        self
    }

    /// The areas of the places, read when they are first asked for.
    pub(crate) fn atlas(&self) -> &Atlas {
        self.atlas.get_or_init(|| {
            // The build script wrote it with the same types.
            let kept: ShippedAreas<'_> = postcard::from_bytes(AREAS).unwrap_or_default();
            let kept: HashMap<&str, &[u8]> = kept.into_iter().collect();
            let places = &self.library.places;
            Atlas::read(places, |place| {
                if let Some(given) = self.boundaries.get(&place) {
                    return match given {
                        Ok(bytes) => BoundaryFile::Bytes(Cow::Borrowed(bytes)),
                        Err(why) => BoundaryFile::Unreadable(why),
                    };
                }
                let boundary = places.issuer(place).and_then(|issuer| issuer.boundary.as_ref());
                let shipped = boundary.filter(|boundary| self.is_shipped(boundary.at.file));
                let path = shipped.and_then(|boundary| boundary.beside(self.file_name(boundary.at.file)));
                match path.and_then(|path| kept.get(&*path).copied()) {
                    Some(bytes) => BoundaryFile::Bytes(Cow::Borrowed(bytes)),
                    None => BoundaryFile::NotLookedAt,
                }
            })
        })
    }

    /// The hash of the sorted hashes of the files' bytes, as `sha256:` and
    /// hexadecimal figures.
    #[must_use]
    pub fn hash(&self) -> &str {
        &self.hash
    }

    /// Whether nothing is wrong that forbids an answer.
    #[must_use]
    pub fn usable(&self) -> bool {
        self.linked() && self.wrong().is_empty()
    }

    /// Whether the files could be read and linked.
    pub(crate) fn linked(&self) -> bool {
        self.diagnostics.iter().all(|told| told.severity() != Severity::Error)
    }

    /// What is wrong and shows only when all files are seen together. The tests
    /// look through the shipped files, so that a cold start need not.
    pub(crate) fn wrong(&self) -> &[Diagnostic] {
        let given = self.files.iter().any(|file| !file.shipped);
        self.wrong.get_or_init(|| if given && self.linked() { review::errors(self) } else { Vec::new() })
    }

    /// What is wrong, a line each: file, line, code, message and help.
    pub fn problems(&self) -> impl Iterator<Item = String> {
        self.diagnostics.iter().chain(self.wrong()).map(|told| {
            let text = self.file_text(told.at.file);
            let line = text.bytes().take(told.at.span.start as usize).filter(|byte| *byte == b'\n').count() + 1;
            let help = told.help.as_ref().map(|help| format!(" ({help})")).unwrap_or_default();
            format!("{}:{line}: {} {}{help}", self.file_name(told.at.file), told.code, told.message)
        })
    }

    /// What is wrong with the files and their linking.
    pub(crate) fn diagnostics(&self) -> &[Diagnostic] {
        &self.diagnostics
    }

    /// The linked library.
    pub(crate) fn library(&self) -> &Library {
        &self.library
    }

    /// The hash of the hashes of some of the files.
    pub(crate) fn hash_of_files(&self, files: impl IntoIterator<Item = FileId>) -> String {
        hash_of(files.into_iter().filter_map(|file| self.files.get(file.0 as usize)).map(|file| file.hash))
    }

    /// The name of a file.
    pub(crate) fn file_name(&self, file: FileId) -> &str {
        self.files.get(file.0 as usize).map_or("", |file| &file.name)
    }

    /// The text of a file; what is not UTF-8 is shown with replacement characters.
    pub(crate) fn file_text(&self, file: FileId) -> String {
        let Some(loaded) = self.files.get(file.0 as usize) else { return String::new() };
        match &loaded.bytes {
            Some(bytes) => String::from_utf8_lossy(bytes).into_owned(),
            None => {
                let texts = self.texts.get_or_init(|| postcard::from_bytes(TEXTS).unwrap_or_default());
                texts.get(file.0 as usize).map(|bytes| String::from_utf8_lossy(bytes).into_owned()).unwrap_or_default()
            }
        }
    }

    /// The file of the set whose bytes have this SHA-256.
    pub(crate) fn file_with(&self, hash: &[u8; 32]) -> Option<FileId> {
        (0u32..).zip(&self.files).find(|(_, file)| file.hash == *hash).map(|(number, _)| FileId(number))
    }

    /// Whether a file ships with the program.
    pub(crate) fn is_shipped(&self, file: FileId) -> bool {
        self.files.get(file.0 as usize).is_some_and(|file| file.shipped)
    }

    /// The tree of a file.
    pub(crate) fn tree(&self, file: FileId) -> Option<&File> {
        self.files.get(file.0 as usize).map(|file| &file.tree)
    }

    /// Every file with its tree.
    pub(crate) fn trees(&self) -> impl Iterator<Item = (FileId, &File)> {
        self.files.iter().zip(0u32..).map(|(file, number)| (FileId(number), &file.tree))
    }

    /// A job before the law of its place.
    ///
    /// # Errors
    /// Where the law of the place cannot be made, its questions going in a circle.
    pub(crate) fn matter<'a>(&'a self, job: &'a Job) -> Result<Matter<'a>, &'a Diagnostic> {
        let (law, ready) = self.ready(job.place)?;
        Ok(Matter { plan: &ready.plan, law, lexicon: self.lexicon(&ready.path), job })
    }

    /// All jobs of a place before its law.
    ///
    /// # Errors
    /// Where the law of the place cannot be made, its questions going in a circle.
    pub(crate) fn ground(&self, place: PlaceId) -> Result<Ground<'_>, &Diagnostic> {
        let (law, ready) = self.ready(place)?;
        Ok(Ground::new(law, self.lexicon(&ready.path), place))
    }

    fn ready(&self, place: PlaceId) -> Result<(&Law, &Ready), &Diagnostic> {
        let law = self.library.law(place)?;
        let ready = self.ready.get(law.place.0 as usize).ok_or(&*crate::law::library::UNKNOWN)?.get_or_init(|| {
            let path = self.library.places.path(law.place);
            Box::new(Ready { plan: Plan::new(law, &self.lexicon(&path)), path })
        });
        Ok((law, ready))
    }

    fn lexicon<'a>(&'a self, path: &'a [PlaceId]) -> Lexicon<'a> {
        let glossary = &self.library.glossary;
        Lexicon {
            choices: &glossary.choices,
            subjects: &glossary.subjects,
            fields: &glossary.fields,
            groups: &glossary.groups,
            questions: &glossary.questions,
            roles: glossary.roles,
            path,
        }
    }

    /// What a job is read against.
    pub(crate) fn desk(&self) -> Desk<'_> {
        Desk { glossary: &self.library.glossary, territory: &self.library.places, gazetteer: self }
    }
}

impl Gazetteer for Rules {
    fn find(&self, text: &str) -> Result<PlaceId, job::NotFound> {
        self.library
            .places
            .find(text)
            .map_err(|problem| job::NotFound { candidates: problem.candidates, nearest: problem.nearest })
    }

    fn path(&self, place: PlaceId) -> String {
        self.library.places.path_text(place)
    }

    fn issuer(&self, printed: &str) -> Option<Box<str>> {
        let printed = printed.to_lowercase();
        let mut found = self
            .library
            .places
            .all()
            .filter(|(_, issuer)| issuer.kind != IssuerKind::Place && issuer.title.to_lowercase() == printed);
        let (_, issuer) = found.next()?;
        found.next().is_none().then(|| issuer.name.clone())
    }

    fn codes(&self) -> Option<Vec<&str>> {
        Some(self.library.codes.codes.iter().map(|code| &*code.name).collect())
    }
}

/// The files that ship with the program, in the order of their numbers.
pub(crate) fn shipped_files() -> Vec<Arc<Loaded>> {
    // The build script wrote it with the same types.
    let kept: Shipped = postcard::from_bytes(TREES).unwrap_or(Shipped { files: Vec::new() });
    kept.files
        .into_iter()
        .map(|file| {
            Arc::new(Loaded {
                name: file.name,
                hash: file.hash,
                tree: file.tree,
                diagnostics: Vec::new(),
                bytes: None,
                shipped: true,
            })
        })
        .collect()
}

/// Reads files on as many threads as the machine has, keeping their order; the
/// first has the number `first`.
pub(crate) fn read_all(fresh: Vec<(Source, [u8; 32])>, first: u32) -> Vec<Arc<Loaded>> {
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(fresh.len().div_ceil(8)).max(1);
    let numbered: Vec<((Source, [u8; 32]), u32)> = fresh.into_iter().zip(first..).collect();
    let read =
        |((source, hash), number): ((Source, [u8; 32]), u32)| Arc::new(Loaded::hashed(FileId(number), source, hash));
    if threads == 1 {
        return numbered.into_iter().map(read).collect();
    }
    let share = numbered.len().div_ceil(threads);
    let mut rest = numbered;
    let mut shares = Vec::new();
    while !rest.is_empty() {
        let tail = rest.split_off(share.min(rest.len()));
        shares.push(std::mem::replace(&mut rest, tail));
    }
    std::thread::scope(|scope| {
        let workers: Vec<_> = shares
            .into_iter()
            .map(|share| scope.spawn(move || share.into_iter().map(read).collect::<Vec<_>>()))
            .collect();
        let joined = workers
            .into_iter()
            .map(|worker| worker.join().unwrap_or_else(|problem| std::panic::resume_unwind(problem)));
        joined.flatten().collect()
    })
}

/// A name in which a letter of another alphabet was found is not known under what is
/// left of it; the letter is told, and that is enough.
fn quiet_consequences(diagnostics: &mut Vec<Diagnostic>) {
    let letters: Vec<Location> =
        diagnostics.iter().filter(|told| told.code == codes::LOOK_ALIKE).map(|told| told.at).collect();
    diagnostics.retain(|told| {
        let holds = |letter: &Location| {
            let (at, inner) = (told.at.span, letter.span);
            letter.file == told.at.file && at.start <= inner.start && inner.end <= at.end
        };
        told.code == codes::LOOK_ALIKE || !UNKNOWN.contains(&told.code) || !letters.iter().any(holds)
    });
}

/// That a name is not known, in every kind of name.
const UNKNOWN: [codes::Code; 5] =
    [codes::UNKNOWN_NAME, codes::UNKNOWN_PLACE, codes::UNKNOWN_TERM, codes::UNKNOWN_CODE, codes::UNKNOWN_INSTRUMENT];

fn hash_of(hashes: impl Iterator<Item = [u8; 32]>) -> String {
    let mut hashes: Vec<[u8; 32]> = hashes.collect();
    hashes.sort_unstable();
    hashes.dedup();
    let mut all = Sha256::new();
    for hash in hashes {
        all.update(hash);
    }
    let figures: String = all.finalize().iter().map(|byte| format!("{byte:02x}")).collect();
    format!("sha256:{figures}")
}
