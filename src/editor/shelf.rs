//! The files that the editor works on: found in its folders, given beside them, or
//! open. Keeps each with the tree that was read of it, and reads a file again only
//! when it changed.
//!
//! Which of the files that ship with the program stand aside is decided here. A
//! file of the editor's folders whose bytes equal a shipped file's is that file,
//! and goes on being it while it is changed; so does one that lies at the same end
//! of a path and declares the same things. Folders that hold a glossary and codes
//! of the library are a library of their own, and nothing shipped is loaded.

use super::Settings;
use super::address::Address;
use super::boundaries::Boundaries;
use super::document::Document;
use super::files::{self, Wanted};
use super::view::{Face, SHEETS, Sheet, View};
use crate::rules::{Loaded, Rules, Source, read_all, shipped_files};
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::{File, Item, Reference, Role};
use crate::syntax::{Kind, parse_bytes};
use lsp_types::{TextDocumentContentChangeEvent, Uri};
use std::collections::{BTreeMap, HashMap, HashSet};
use std::path::PathBuf;
use std::sync::{Arc, OnceLock};

/// One rule file beside the shipped ones.
struct Slot {
    face: Arc<Face>,
    loaded: Arc<Loaded>,
    state: State,
    /// The shipped file that it is.
    instead_of: Option<usize>,
}

/// Where what is known of a file comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum State {
    /// From the disk.
    Kept,
    /// From the editor; true where it has changed since it was read.
    Open(bool),
    Gone,
}

/// The files that the editor works on.
pub(super) struct Shelf {
    settings: Settings,
    roots: Vec<PathBuf>,
    shipped: Vec<Arc<Loaded>>,
    /// Stands where a file is left out.
    blank: Arc<Loaded>,
    /// Numbered behind the shipped files; a number is never given again.
    slots: Vec<Slot>,
    by_address: HashMap<Address, usize>,
    sheets: BTreeMap<Address, Arc<Sheet>>,
    open_sheets: HashSet<Address>,
    boundaries: Boundaries,
    /// The next view has this number.
    number: u64,
    stale: bool,
}

impl Shelf {
    /// A shelf with the files of these folders.
    pub(super) fn new(settings: Settings, roots: Vec<PathBuf>) -> Shelf {
        let mut shelf = Shelf {
            settings,
            roots: Vec::new(),
            shipped: shipped_files(),
            blank: Arc::new(Loaded::blank()),
            slots: Vec::new(),
            by_address: HashMap::new(),
            sheets: BTreeMap::new(),
            open_sheets: HashSet::new(),
            boundaries: Boundaries::default(),
            number: 0,
            stale: true,
        };
        for given in shelf.settings.rules.clone() {
            shelf.find(&given, Wanted::Rules, false);
        }
        for root in roots {
            shelf.add_root(root);
        }
        shelf
    }

    /// Whether something changed since the last view.
    pub(super) fn is_stale(&self) -> bool {
        self.stale
    }

    /// Adds a folder of the editor's.
    pub(super) fn add_root(&mut self, root: PathBuf) {
        self.find(&root, Wanted::RulesAndJobs, true);
        self.roots.push(root);
    }

    /// Takes a folder of the editor's out, with all in it that is not open.
    pub(super) fn remove_root(&mut self, root: &PathBuf) {
        self.roots.retain(|kept| kept != root);
        let roots = self.roots.clone();
        let outside = |address: &Address| {
            address
                .path()
                .is_some_and(|path| path.starts_with(root) && !roots.iter().any(|kept| path.starts_with(kept)))
        };
        let leaving: Vec<Address> =
            self.by_address.keys().chain(self.sheets.keys()).filter(|address| outside(address)).cloned().collect();
        for address in leaving {
            self.drop_file(&address);
        }
    }

    fn find(&mut self, root: &std::path::Path, wanted: Wanted, own: bool) {
        let mut fresh = Vec::new();
        for path in files::found(root, wanted) {
            let address = Address::of_path(&path);
            let (Some(uri), Some(bytes)) = (address.uri(), files::bytes(&path)) else { continue };
            if address.is_job() {
                self.put_sheet(uri, address, None, bytes, own);
            } else if !self.by_address.contains_key(&address) {
                fresh.push((uri, address, bytes));
            } else if own {
                self.claim(&address);
            }
        }
        let first = self.shipped.len() + self.slots.len();
        let sources = fresh.iter().map(|(_, address, bytes)| {
            let source = Source::new(address.name(), bytes.clone());
            let hash = source.hash();
            (source, hash)
        });
        let read = read_all(sources.collect(), first as u32);
        for ((uri, address, bytes), loaded) in fresh.into_iter().zip(read) {
            let document = Arc::new(Document::new(String::from_utf8_lossy(&bytes).into_owned()));
            let face = Arc::new(Face { uri, address, version: None, document, own });
            self.put(face, loaded, State::Kept);
        }
        self.stale = true;
    }

    /// A file given beside the folders lies in one of them after all.
    fn claim(&mut self, address: &Address) {
        if let Some(slot) = self.by_address.get(address).and_then(|at| self.slots.get_mut(*at)) {
            Arc::make_mut(&mut slot.face).own = true;
        }
    }

    fn put(&mut self, face: Arc<Face>, loaded: Arc<Loaded>, state: State) {
        let instead_of = if face.own { self.shipped_as(&loaded) } else { None };
        self.by_address.insert(face.address.clone(), self.slots.len());
        self.slots.push(Slot { face, loaded, state, instead_of });
        self.stale = true;
    }

    /// The shipped file that a file is: by its bytes, or by the end of its path and
    /// something that both declare.
    fn shipped_as(&self, loaded: &Loaded) -> Option<usize> {
        let same = self.shipped.iter().position(|shipped| shipped.hash == loaded.hash);
        same.or_else(|| {
            self.shipped.iter().position(|shipped| {
                loaded.name.strip_suffix(&*shipped.name).is_some_and(|rest| rest.is_empty() || rest.ends_with('/'))
                    && shipped.tree.items.iter().any(|item| declares(&loaded.tree, item))
            })
        })
    }

    fn put_sheet(&mut self, uri: Uri, address: Address, version: Option<i32>, bytes: Vec<u8>, own: bool) {
        // The number is set when a view is made.
        let parsed = parse_bytes(FileId(SHEETS), &bytes, Kind::Job);
        let text = String::from_utf8(bytes).unwrap_or_else(|bad| String::from_utf8_lossy(bad.as_bytes()).into_owned());
        let face = Face { uri, address: address.clone(), version, document: Arc::new(Document::new(text)), own };
        self.sheets.insert(address, Arc::new(Sheet { face, tree: parsed.tree, diagnostics: parsed.diagnostics }));
        self.stale = true;
    }

    /// The editor opened a document.
    pub(super) fn open(&mut self, uri: Uri, version: i32, text: String) {
        let address = Address::of(&uri);
        if address.is_job() {
            self.open_sheets.insert(address.clone());
            return self.put_sheet(uri, address, Some(version), text.into_bytes(), true);
        }
        let document = Arc::new(Document::new(text));
        let face = Face { uri, address: address.clone(), version: Some(version), document, own: true };
        match self.by_address.get(&address).copied() {
            Some(at) => {
                if let Some(slot) = self.slots.get_mut(at) {
                    slot.face = Arc::new(face);
                    slot.state = State::Open(true);
                }
                self.read_again(at);
                let instead_of =
                    self.slots.get(at).and_then(|slot| slot.instead_of.or_else(|| self.shipped_as(&slot.loaded)));
                if let Some(slot) = self.slots.get_mut(at) {
                    slot.instead_of = instead_of;
                }
            }
            None => {
                let loaded = self.read(self.slots.len(), &face);
                self.put(Arc::new(face), loaded, State::Open(false));
            }
        }
        self.stale = true;
    }

    /// The editor changed a document; of one that is not open nothing is known.
    pub(super) fn change(&mut self, uri: &Uri, version: i32, changes: Vec<TextDocumentContentChangeEvent>) {
        let address = Address::of(uri);
        if let Some(sheet) = self.sheets.get(&address).filter(|_| self.open_sheets.contains(&address)) {
            let (mut document, uri) = ((*sheet.face.document).clone(), sheet.face.uri.clone());
            changes.into_iter().for_each(|change| document.change(change));
            return self.put_sheet(uri, address, Some(version), document.text().as_bytes().to_vec(), true);
        }
        let Some(slot) = self.by_address.get(&address).and_then(|at| self.slots.get_mut(*at)) else { return };
        if matches!(slot.state, State::Open(_)) {
            let face = Arc::make_mut(&mut slot.face);
            face.version = Some(version);
            let document = Arc::make_mut(&mut face.document);
            changes.into_iter().for_each(|change| document.change(change));
            slot.state = State::Open(true);
            self.stale = true;
        }
    }

    /// The editor closed a document: what is on the disk counts again.
    pub(super) fn close(&mut self, uri: &Uri) {
        let address = Address::of(uri);
        self.open_sheets.remove(&address);
        if let Some(slot) = self.by_address.get(&address).and_then(|at| self.slots.get_mut(*at)) {
            slot.state = State::Kept;
        }
        self.look_again(&address);
    }

    /// A file on the disk was made, changed or taken away. An open document is
    /// what the editor says it is.
    pub(super) fn look_again(&mut self, address: &Address) {
        let is_open = |at: &usize| self.slots.get(*at).is_some_and(|slot| matches!(slot.state, State::Open(_)));
        if self.open_sheets.contains(address) || self.by_address.get(address).is_some_and(is_open) {
            return;
        }
        let path = address.path();
        self.stale |= path.as_deref().is_some_and(|path| self.boundaries.holds(path));
        let given = |path: &PathBuf| self.settings.rules.iter().any(|given| path.starts_with(given));
        let own = path.as_ref().is_some_and(|path| self.roots.iter().any(|root| path.starts_with(root)));
        let wanted = own || path.as_ref().is_some_and(given);
        let bytes = path.filter(|_| wanted).and_then(|path| files::bytes(&path));
        let (Some(bytes), Some(uri)) = (bytes, address.uri()) else { return self.drop_file(address) };
        if address.is_job() {
            return self.put_sheet(uri, address.clone(), None, bytes, own);
        }
        if !address.is_rules() {
            return self.drop_file(address);
        }
        let document = Arc::new(Document::new(String::from_utf8_lossy(&bytes).into_owned()));
        let face = Arc::new(Face { uri, address: address.clone(), version: None, document, own });
        let at = self.by_address.get(address).copied();
        let number = self.shipped.len() + at.unwrap_or(self.slots.len());
        let loaded = Arc::new(Loaded::read(FileId(number as u32), Source::new(address.name(), bytes)));
        match at.and_then(|at| self.slots.get_mut(at)) {
            Some(slot) => {
                let face = Face { uri: slot.face.uri.clone(), ..(*face).clone() };
                (slot.face, slot.loaded, slot.state) = (Arc::new(face), loaded, State::Kept);
            }
            None => self.put(face, loaded, State::Kept),
        }
        self.stale = true;
    }

    /// A folder or file is gone from the disk.
    pub(super) fn look_again_under(&mut self, gone: &Address) {
        let Some(folder) = gone.path() else { return };
        let inside = |address: &&Address| address.path().is_some_and(|path| path.starts_with(&folder));
        let all: Vec<Address> = self.by_address.keys().chain(self.sheets.keys()).filter(inside).cloned().collect();
        for address in all {
            self.look_again(&address);
        }
    }

    fn drop_file(&mut self, address: &Address) {
        if !self.open_sheets.contains(address) && self.sheets.remove(address).is_some() {
            self.stale = true;
        }
        if let Some(slot) = self.by_address.get(address).and_then(|at| self.slots.get_mut(*at))
            && !matches!(slot.state, State::Open(_) | State::Gone)
        {
            slot.state = State::Gone;
            slot.loaded = Arc::new(Loaded::blank());
            slot.instead_of = None;
            Arc::make_mut(&mut slot.face).document = Arc::default();
            self.stale = true;
        }
    }

    fn read(&self, at: usize, face: &Face) -> Arc<Loaded> {
        let number = FileId((self.shipped.len() + at) as u32);
        Arc::new(Loaded::read(number, Source::new(face.address.name(), face.document.text())))
    }

    fn read_again(&mut self, at: usize) {
        let Some(face) = self.slots.get(at).map(|slot| Arc::clone(&slot.face)) else { return };
        let loaded = self.read(at, &face);
        if let Some(slot) = self.slots.get_mut(at) {
            slot.loaded = loaded;
            slot.state = State::Open(false);
        }
    }

    /// All files as they are now. Only what changed is read, and only what it can
    /// touch is linked anew.
    pub(super) fn view(&mut self, before: Option<&View>) -> View {
        let changed = |slot: &Slot| slot.state == State::Open(true);
        let again: Vec<usize> =
            self.slots.iter().enumerate().filter(|(_, slot)| changed(slot)).map(|(at, _)| at).collect();
        for at in again {
            self.read_again(at);
        }
        self.stale = false;
        self.number += 1;
        let blank = Arc::clone(&self.blank);
        let replaced: HashSet<usize> = self.slots.iter().filter_map(|slot| slot.instead_of).collect();
        let alone = self.settings.without_library || self.is_library();
        let shipped = self
            .shipped
            .iter()
            .enumerate()
            .map(|(at, file)| if alone || replaced.contains(&at) { Arc::clone(&blank) } else { Arc::clone(file) });
        let mut files: Vec<Arc<Loaded>> = shipped.collect();
        let mut faces: Vec<Option<Arc<Face>>> = vec![None; files.len()];
        let mut twins = HashMap::new();
        let mut known: HashMap<[u8; 32], FileId> = files
            .iter()
            .zip(0u32..)
            .filter(|(file, _)| file.shipped)
            .map(|(file, at)| (file.hash, FileId(at)))
            .collect();
        for slot in &self.slots {
            let number = FileId(files.len() as u32);
            let twin = known.get(&slot.loaded.hash).copied().filter(|_| slot.state != State::Gone);
            match twin {
                Some(twin) => {
                    twins.insert(number, twin);
                    files.push(Arc::clone(&blank));
                }
                None => {
                    known.insert(slot.loaded.hash, number);
                    files.push(Arc::clone(&slot.loaded));
                }
            }
            faces.push(Some(Arc::clone(&slot.face)));
        }
        let first = self.shipped.len() as u32;
        let mut by_address: HashMap<Address, FileId> = self
            .by_address
            .iter()
            .filter(|(_, at)| self.slots.get(**at).is_some_and(|slot| slot.state != State::Gone))
            .map(|(address, at)| (address.clone(), FileId(first + *at as u32)))
            .collect();
        by_address.extend(self.sheets.keys().cloned().zip((SHEETS..).map(FileId)));
        let sheets = self.sheets.values().cloned().collect();
        let rules = self.rules(files, &faces, before);
        View { number: self.number, rules, faces, twins, sheets, by_address, declared: OnceLock::new() }
    }

    /// The files linked, with the boundaries that they name.
    fn rules(&mut self, files: Vec<Arc<Loaded>>, faces: &[Option<Arc<Face>>], before: Option<&View>) -> Arc<Rules> {
        if let Some(before) = before.filter(|before| before.rules.is_of(&files)) {
            let (_, fresh) = self.boundaries.look(&before.rules, faces);
            if !fresh {
                return Arc::clone(&before.rules);
            }
        }
        let rules = match before {
            Some(before) => Rules::again(files, &before.rules),
            None => Rules::of(files),
        };
        let (boundaries, _) = self.boundaries.look(&rules, faces);
        Arc::new(rules.with_boundaries(boundaries))
    }

    /// Whether the editor's folders hold a library: the fact by which its instruments
    /// are dated, and an edition of one of its codes.
    fn is_library(&self) -> bool {
        let own = || self.slots.iter().filter(|slot| slot.face.own).flat_map(|slot| &slot.loaded.tree.items);
        let dates = |item: &&Item| matches!(item, Item::Fact(fact) if fact.roles.contains(&Role::DatesInstruments));
        let edition = |item: &&Item| matches!(item, Item::Edition(_));
        let shipped = |kind: &dyn Fn(&&Item) -> bool| {
            let all: Vec<&Item> = self.shipped.iter().flat_map(|file| &file.tree.items).filter(kind).collect();
            own().filter(kind).any(|item| all.iter().any(|known| same(item, known)))
        };
        shipped(&dates) && shipped(&edition)
    }
}

/// Whether a file declares what an item of another declares.
fn declares(tree: &File, item: &Item) -> bool {
    tree.items.iter().any(|own| same(own, item))
}

fn named(place: &Option<Reference>) -> Option<&str> {
    place.as_ref().map(|place| &*place.text)
}

/// Whether two items declare the same thing.
fn same(one: &Item, other: &Item) -> bool {
    match (one, other) {
        (Item::Choice(one), Item::Choice(other)) => one.name.text == other.name.text,
        (Item::Fact(one), Item::Fact(other)) => {
            one.name.text == other.name.text && named(&one.place) == named(&other.place)
        }
        (Item::Question(one), Item::Question(other)) => {
            one.name.text == other.name.text && named(&one.place) == named(&other.place)
        }
        (Item::Edition(one), Item::Edition(other)) => {
            one.name.code.text == other.name.code.text && one.name.year.text == other.name.year.text
        }
        (Item::Code(one), Item::Code(other)) => one.name.text == other.name.text,
        (Item::Place(one), Item::Place(other)) => {
            one.name.text == other.name.text && named(&one.within) == named(&other.within)
        }
        (Item::Issuer(one), Item::Issuer(other)) => one.name.text == other.name.text && one.maker == other.maker,
        (Item::Instrument(one), Item::Instrument(other)) => {
            one.id.text == other.id.text && named(&one.of) == named(&other.of)
        }
        _ => false,
    }
}
