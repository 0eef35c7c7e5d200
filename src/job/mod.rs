//! A job description checked against the glossary.
//!
//! This module refuses to know the law.

pub(crate) mod model;
