//! The pages of the counter: what stands on each, laid out by the templates
//! beside it.
//!
//! This module refuses to know requests and answers: it is given rules and a job,
//! and the link that carries the job, and gives HTML.

pub(crate) mod compare;
pub(crate) mod frame;
pub(crate) mod job;
pub(crate) mod link;
pub(crate) mod map;
pub(crate) mod missing;
pub(crate) mod problems;
pub(crate) mod rules;
pub(crate) mod verdict;
pub(crate) mod ways;

/// How all pages look.
pub(crate) const STYLE: &str = include_str!("counter.css");

/// The one script: the verdict beside the questions changes as facts arrive.
pub(crate) const SCRIPT: &str = include_str!("counter.js");

/// The small sign at the head of a browser's tab: earth, as drawings show it.
pub(crate) const MARK: &str = include_str!("mark.svg");
