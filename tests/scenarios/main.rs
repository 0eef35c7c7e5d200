//! Worked scenarios of the trade, as rule files with their answers inside, and
//! cases over the JSON of jobs and verdicts. Every place is invented; the
//! editions are those that ship with the program.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test that meets the unexpected stops there")]

mod cases;
mod cures;
mod examples;
#[path = "../rule_files.rs"]
mod files;
