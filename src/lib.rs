//! Groundrule answers, for one gas-piping job at one place and date: what
//! bonding the rules in force require, how, by whom, with which papers, why, and
//! what is still unknown.

mod atlas;
mod commands;
mod cure;
mod editor;
mod engine;
mod glossary;
mod interview;
mod job;
mod law;
mod report;
mod review;
mod rules;
mod shipped;
mod syntax;
mod values;
mod verdict;
mod web;

pub use commands::run;
pub use engine::{Job, NoJob, NoVerdict, Outcome, Scratch, Verdict, syntax_problems};
pub use rules::{Rules, Source};

#[cfg(test)]
#[path = "../tests/oracle/mod.rs"]
mod oracle;

#[cfg(test)]
#[path = "../tests/oracle/law/mod.rs"]
#[expect(clippy::string_slice, reason = "a test may panic")]
mod law_oracle;

#[cfg(test)]
#[path = "../tests/published/effect.rs"]
mod published_effect;
