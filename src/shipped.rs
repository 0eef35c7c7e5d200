//! The form in which the rules that ship with the program are kept inside it.

use crate::syntax::tree::File;
use serde::{Deserialize, Serialize};

/// The shipped rule files, parsed and checked when the program was built.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) struct Shipped {
    pub(crate) files: Vec<ShippedFile>,
}

/// One shipped rule file.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) struct ShippedFile {
    /// Its path from the repository's top, such as `rules/codes/ifgc.rule`.
    pub(crate) name: Box<str>,
    /// SHA-256 of its bytes.
    pub(crate) hash: [u8; 32],
    pub(crate) tree: File,
}

/// The boundaries that ship with the program, each file under its path from the
/// repository's top. They lie by themselves, since few commands ask for them.
pub(crate) type ShippedAreas<'a> = Vec<(&'a str, &'a [u8])>;
