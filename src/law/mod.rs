//! Codes, editions, places, instruments and powers, compiled for each place to a
//! flat set of guarded provisions.
//!
//! This module refuses to know any particular job, and any clock.

mod compile;
pub(crate) mod instrument;
pub(crate) mod library;
pub(crate) mod model;
pub(crate) mod places;
pub(crate) mod resolve;
#[cfg(test)]
mod tests;
pub(crate) mod text;

pub(crate) use compile::{Arena, Line, Meeting, PatchName, meetings};
