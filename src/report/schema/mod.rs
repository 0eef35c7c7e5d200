//! JSON Schemas (draft 2020-12) of what goes in and comes out.
//!
//! The schema of a job is made from the glossary, those of a verdict, of ways, of a comparison and of
//! an effect stand here.

mod compare;
mod effect;
mod finding;
mod job;
mod verdict;
mod ways;

pub(crate) use compare::compare;
pub(crate) use effect::effect;
pub(crate) use finding::finding;
pub(crate) use job::job;
pub(crate) use verdict::verdict;
pub(crate) use ways::ways;

/// The dialect of the schemas.
const DIALECT: &str = "https://json-schema.org/draft/2020-12/schema";
