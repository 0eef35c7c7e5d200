//! All files as they are at one moment, linked. A view never changes; the next
//! change makes another, which shares what is the same.

use super::address::Address;
use super::document::Document;
use crate::glossary::model::PlaceId;
use crate::law::instrument::InstrumentId;
use crate::rules::Rules;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::tree::{File, Span};
use lsp_types::{Position, Uri};
use std::collections::HashMap;
use std::sync::{Arc, OnceLock};

/// A file as the editor knows it.
#[derive(Clone, Debug)]
pub(super) struct Face {
    /// As the editor spells it, where it told of it.
    pub(super) uri: Uri,
    pub(super) address: Address,
    /// Of an open document.
    pub(super) version: Option<i32>,
    pub(super) document: Arc<Document>,
    /// Whether it lies in the editor's folders or is open, so that findings of it
    /// are told.
    pub(super) own: bool,
}

/// A job sheet.
#[derive(Clone, Debug)]
pub(super) struct Sheet {
    pub(super) face: Face,
    pub(super) tree: File,
    pub(super) diagnostics: Vec<Diagnostic>,
}

/// Job sheets are numbered from here on, behind all rule files.
pub(super) const SHEETS: u32 = 1 << 31;

/// All files at one moment.
pub(super) struct View {
    pub(super) number: u64,
    pub(super) rules: Arc<Rules>,
    /// By the numbers of the rule files; nothing for those that ship with the program.
    pub(super) faces: Vec<Option<Arc<Face>>>,
    /// Files whose bytes are those of another, with it.
    pub(super) twins: HashMap<FileId, FileId>,
    pub(super) sheets: Vec<Arc<Sheet>>,
    pub(super) by_address: HashMap<Address, FileId>,
    /// Where instruments and issuers are declared, looked up when first asked for.
    pub(super) declared: OnceLock<Declared>,
}

/// Instruments and issuers by where they are declared.
#[derive(Default)]
pub(super) struct Declared {
    instruments: HashMap<Location, InstrumentId>,
    issuers: HashMap<Location, PlaceId>,
}

/// A place in a file at which an editor asks.
#[derive(Clone, Copy)]
pub(super) struct Spot<'v> {
    /// The file whose tree it is: of files with the same bytes the first.
    pub(super) file: FileId,
    pub(super) document: &'v Document,
    pub(super) offset: u32,
}

impl View {
    /// The file of an address and its tree.
    pub(super) fn file(&self, uri: &Uri) -> Option<(FileId, &File, &Document)> {
        let file = *self.by_address.get(&Address::of(uri))?;
        let face = self.face(file)?;
        let file = self.twins.get(&file).copied().unwrap_or(file);
        Some((file, self.tree(file)?, &face.document))
    }

    /// The place that an editor asks of.
    pub(super) fn spot(&self, uri: &Uri, place: Position) -> Option<Spot<'_>> {
        let (file, _, document) = self.file(uri)?;
        Some(Spot { file, document, offset: document.offset(place) as u32 })
    }

    /// The tree of a rule file or job sheet.
    pub(super) fn tree(&self, file: FileId) -> Option<&File> {
        match file.0.checked_sub(SHEETS) {
            Some(sheet) => self.sheets.get(sheet as usize).map(|sheet| &sheet.tree),
            None => self.rules.tree(file),
        }
    }

    /// Every rule file and job sheet with its tree.
    pub(super) fn trees(&self) -> impl Iterator<Item = (FileId, &File)> {
        let sheets = self.sheets.iter().zip(SHEETS..).map(|(sheet, number)| (FileId(number), &sheet.tree));
        self.rules.trees().chain(sheets)
    }

    /// The face of a file; nothing for those that ship with the program.
    pub(super) fn face(&self, file: FileId) -> Option<&Face> {
        match file.0.checked_sub(SHEETS) {
            Some(sheet) => self.sheets.get(sheet as usize).map(|sheet| &sheet.face),
            None => self.faces.get(file.0 as usize)?.as_deref(),
        }
    }

    /// The file as the editor spells it, and all others with the same bytes.
    pub(super) fn copies(&self, file: FileId) -> Vec<Uri> {
        let twins = self.twins.iter().filter(|(_, of)| **of == file).map(|(twin, _)| *twin);
        let faces = std::iter::once(file).chain(twins).filter_map(|file| self.face(file));
        faces.filter(|face| face.own).map(|face| face.uri.clone()).collect()
    }

    /// Whether a file ships with the program.
    pub(super) fn is_shipped(&self, file: FileId) -> bool {
        self.rules.is_shipped(file)
    }

    fn declared_here(&self) -> &Declared {
        self.declared.get_or_init(|| {
            let library = self.rules.library();
            let instruments = library.instruments.iter().zip(0u32..);
            Declared {
                instruments: instruments.map(|(own, number)| (own.at, InstrumentId(number))).collect(),
                issuers: library.places.all().map(|(id, issuer)| (issuer.at, id)).collect(),
            }
        })
    }

    /// The instrument whose id stands there.
    pub(super) fn instrument_at(&self, at: Location) -> Option<InstrumentId> {
        self.declared_here().instruments.get(&at).copied()
    }

    /// The place, maker or supplier whose name stands there.
    pub(super) fn issuer_at(&self, at: Location) -> Option<PlaceId> {
        self.declared_here().issuers.get(&at).copied()
    }

    /// What people call a file.
    pub(super) fn name(&self, file: FileId) -> String {
        match self.face(file) {
            Some(face) => face.address.name(),
            None => self.rules.file_name(file).to_owned(),
        }
    }

    /// The text of a span of a file.
    pub(super) fn written(&self, at: Location) -> String {
        match self.face(at.file) {
            Some(face) => face.document.part(at.span).unwrap_or_default().to_owned(),
            None => {
                let text = self.rules.file_text(at.file);
                text.get(at.span.start as usize..at.span.end as usize).unwrap_or_default().to_owned()
            }
        }
    }

    /// A place of a file for an editor. A file that ships with the program is laid
    /// where the editor can open it.
    pub(super) fn place(&self, at: Location) -> Option<lsp_types::Location> {
        if let Some(face) = self.face(at.file) {
            return Some(lsp_types::Location { uri: face.uri.clone(), range: face.document.range(at.span) });
        }
        let text = self.rules.file_text(at.file);
        let library = self.rules.hash_of_files([at.file]);
        let library = library.trim_start_matches("sha256:").get(..16)?.to_owned();
        let path = super::files::laid_out(&library, self.rules.file_name(at.file), &text)?;
        let range = Document::new(text).range(at.span);
        Some(lsp_types::Location { uri: Address::of_path(&path).uri()?, range })
    }
}

/// Whether a span holds a place, its end included: a cursor stands behind the last
/// letter of a word as well as before the first.
pub(super) fn holds(span: Span, offset: u32) -> bool {
    span.start <= offset && offset <= span.end
}
