//! Verdicts and findings for people and for programs: JSON, pages of text,
//! schemas.
//!
//! This module refuses to know how a verdict was reached; it reads no file, no
//! clock and no network.

pub(crate) mod compare;
pub(crate) mod coverage;
pub(crate) mod cures;
pub(crate) mod effect;
mod facts;
pub(crate) mod finding;
pub(crate) mod glossary;
pub(crate) mod in_force;
pub(crate) mod json;
pub(crate) mod look;
pub(crate) mod map;
pub(crate) mod markup;
pub(crate) mod pages;
pub(crate) mod papers;
pub(crate) mod picture;
pub(crate) mod places;
pub(crate) mod schema;
pub(crate) mod screen;
pub(crate) mod sheet;
pub(crate) mod speech;
pub(crate) mod starter;
pub(crate) mod timeline;
pub(crate) mod visible;
pub(crate) mod walk;
