//! Verdicts for people and for programs.
//!
//! This module refuses to know how a verdict was reached.

pub(crate) mod json;
