//! One rule file of a set: read once, and shared by every set that holds it.

use super::Source;
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::tree::File;
use crate::syntax::{Kind, parse_bytes};
use sha2::{Digest, Sha256};

/// One file of a set.
#[derive(Clone, Debug)]
pub(crate) struct Loaded {
    pub(crate) name: Box<str>,
    pub(crate) hash: [u8; 32],
    pub(crate) tree: File,
    /// What is wrong with the file by its form alone.
    pub(crate) diagnostics: Vec<Diagnostic>,
    /// Nothing for a shipped file, whose text is unpacked when it is needed.
    pub(crate) bytes: Option<Vec<u8>>,
    pub(crate) shipped: bool,
}

impl Loaded {
    /// Reads a file that has this number in its set.
    pub(crate) fn read(file: FileId, source: Source) -> Loaded {
        let hash = source.hash();
        Loaded::hashed(file, source, hash)
    }

    /// Reads a file whose hash is known.
    pub(super) fn hashed(file: FileId, source: Source, hash: [u8; 32]) -> Loaded {
        let parsed = parse_bytes(file, &source.bytes, Kind::Rules);
        Loaded {
            name: source.name.into(),
            hash,
            tree: parsed.tree,
            diagnostics: parsed.diagnostics,
            bytes: Some(source.bytes),
            shipped: false,
        }
    }

    /// Holds the number of a file that the set does without.
    pub(crate) fn blank() -> Loaded {
        Loaded {
            name: Box::default(),
            hash: Sha256::digest([]).into(),
            tree: File::default(),
            diagnostics: Vec::new(),
            bytes: Some(Vec::new()),
            shipped: false,
        }
    }
}
