//! JSON Schemas (draft 2020-12) of what goes in and comes out.
//!
//! The schema of a job is made from the glossary, that of a verdict stands here.

mod job;
mod verdict;

pub(crate) use job::job;
pub(crate) use verdict::verdict;

/// The dialect of the schemas.
const DIALECT: &str = "https://json-schema.org/draft/2020-12/schema";
