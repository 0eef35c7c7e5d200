//! Proofreading: what is doubtful in rule files although it can be read, and
//! whether the examples in them come out as they say.
//!
//! This module refuses to know commands and screens, and reads the same law that
//! the verdict reads.

pub(crate) mod examples;
#[cfg(test)]
#[expect(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may panic")]
mod tests;
