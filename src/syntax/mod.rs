//! Text to tree and tree to text, spans and diagnostics.
//!
//! This module refuses to know what any word means: it knows the forms of the
//! language and nothing of glossaries, places or law.

pub(crate) mod codes;
pub(crate) mod diagnostic;
pub(crate) mod tree;
