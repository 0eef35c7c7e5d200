//! The evaluator held against a plain one that tries every completion, on
//! generated laws and jobs.
//!
//! `ORACLE_CASES` sets how many worlds are tried; 512 where it is not set.

mod brute;
mod cells;
mod completion;
pub(crate) mod effect;
mod generate;
mod hold;
mod laws;
mod reads;
mod review;
mod tape;
pub(crate) mod world;
