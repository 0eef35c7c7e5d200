//! The shipped rules and the measures held against what others published: the
//! bonding clauses edition by edition, what the trade disputes about them, the
//! conductor tables row by row, and the physics behind wire sizes. Beside them real
//! instruments of states, cities and makers, as far as they were seen.
//!
//! Each fact stands in a file of this folder with its source beside it. Nothing
//! here is taken from the rules under test.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test that meets the unexpected stops there"
)]

mod ask;
mod conductors;
mod editions;
mod examples;
#[path = "../rule_files.rs"]
mod files;
mod instruments;
mod patterns;
mod tables;
