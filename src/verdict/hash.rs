//! Tables that live for one verdict and hold only our own numbers, with a quick hash.

/// Hashes our own small keys.
pub(crate) use rustc_hash::FxHasher as Quick;

/// A table with the quick hash.
pub(crate) use rustc_hash::FxHashMap as Table;
