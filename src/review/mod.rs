//! Proofreading: what is wrong in a whole library although each file can be
//! read, what is doubtful, and whether the examples in rule files come out as
//! they say.
//!
//! This module refuses to know commands and screens, and reads the same law that
//! the verdict reads. It tells nothing on a guess: where it cannot be shown that
//! a finding holds, there is none.

mod added_twice;
mod bare_any;
mod before_adopted;
mod before_published;
pub(crate) mod changes;
mod circles;
pub(crate) mod coverage;
mod defeated;
mod displaced;
pub(crate) mod effect;
pub(crate) mod examples;
mod knowingly;
mod left_behind;
mod no_section;
mod no_source;
mod no_table;
mod overlap;
mod same_day;
pub(crate) mod show;
mod stays;
mod story;
pub(crate) mod survey;
mod suspensions;
mod taken_away;
mod tied;
mod times;
mod twin;
mod undated;

#[cfg(test)]
mod tests;

use crate::law::library::Library;
use crate::rules::Rules;
use crate::syntax::codes::Code;
use crate::syntax::diagnostic::{Diagnostic, FileId};
pub(crate) use knowingly::Doubts;
use story::{Story, stories};
use times::Times;
use twin::Extract;

/// What is wrong and shows only when all files are seen together, in the order of
/// the files. A library that has any of it gives no verdict that can be relied on.
pub(crate) fn errors(rules: &Rules) -> Vec<Diagnostic> {
    errors_unless(rules, &|| false).unwrap_or_default()
}

/// The same, unless it is stopped on the way.
pub(crate) fn errors_unless(rules: &Rules, stopped: &dyn Fn() -> bool) -> Option<Vec<Diagnostic>> {
    let library = rules.library();
    let times = Times::of(library);
    let mut found = circles::circles(library, stopped)?;
    found.extend(suspensions::circles(library));
    found.extend(no_table::missing(library));
    for story in stories(library, &|_| true) {
        if stopped() {
            return None;
        }
        found.extend(errors_of(library, &times, &story));
    }
    Some(in_order(found))
}

/// What is doubtful and not passed over, in the order of the files.
#[cfg(test)]
pub(crate) fn lints(rules: &Rules) -> Vec<Diagnostic> {
    doubts(rules, Found::default()).told
}

/// What was found of some files by other means.
#[derive(Debug, Default)]
pub(crate) struct Found {
    /// Over all jobs of their places, where that was looked at.
    pub(crate) of_all_jobs: Option<Vec<Diagnostic>>,
    /// Whether only jobs of some days were looked at.
    pub(crate) in_window: bool,
    /// By changing their clauses, where that was tried.
    pub(crate) of_changes: Option<Vec<Diagnostic>>,
}

impl Found {
    /// Whether every warning of this code was looked for.
    fn is_complete(&self, code: Code) -> bool {
        match u16::from(code) {
            5200..5300 => self.of_all_jobs.is_some() && !self.in_window,
            5300..5400 => self.of_changes.is_some(),
            _ => true,
        }
    }
}

/// What is doubtful, with what was found by other means, and what the files pass over
/// with a reason.
pub(crate) fn doubts(rules: &Rules, found: Found) -> Doubts {
    doubts_unless(rules, found, &|| false).unwrap_or_default()
}

/// The same, unless it is stopped on the way.
pub(crate) fn doubts_unless(rules: &Rules, mut found: Found, stopped: &dyn Fn() -> bool) -> Option<Doubts> {
    let mut all = all_unless(rules, stopped)?;
    all.extend(found.of_all_jobs.iter_mut().chain(&mut found.of_changes).flat_map(std::mem::take));
    let mut doubts = knowingly::passed_over(rules, all, &|code| found.is_complete(code));
    doubts.told = in_order(doubts.told);
    Some(doubts)
}

/// What is doubtful, whatever the files say of it; and what is wrong with boundaries, on
/// which no verdict hangs.
fn all_unless(rules: &Rules, stopped: &dyn Fn() -> bool) -> Option<Vec<Diagnostic>> {
    let library = rules.library();
    let times = Times::of(library);
    let mut found = lints_of_texts(rules, &times);
    found.extend(rules.atlas().wrong().iter().cloned());
    found.extend(rules.atlas().doubts(&library.places));
    let extracts = twin::extracts(rules);
    for story in stories(library, &|_| true) {
        if stopped() {
            return None;
        }
        found.extend(lints_of(library, &times, &story, &extracts));
    }
    Some(in_order(found))
}

/// What is wrong or doubtful in one file, without a look at the histories of all
/// texts: of those only the ones in which an instrument of the file has a part.
/// Circles of questions are not looked for.
pub(crate) fn of_file(rules: &Rules, file: FileId) -> Vec<Diagnostic> {
    let library = rules.library();
    let times = Times::of(library);
    let mut found = suspensions::circles(library);
    found.extend(no_table::missing(library));
    found.extend(lints_of_texts(rules, &times));
    let extracts = twin::extracts(rules);
    for story in stories(library, &|own| own.at.file == file) {
        found.extend(errors_of(library, &times, &story));
        found.extend(lints_of(library, &times, &story, &extracts));
    }
    found.retain(|told| told.at.file == file || told.also.iter().any(|(at, _)| at.file == file));
    // Not all is looked for here, so that no line is told to pass nothing over.
    in_order(knowingly::passed_over(rules, found, &|_| false).told)
}

fn errors_of(library: &Library, times: &Times, story: &Story) -> Vec<Diagnostic> {
    let mut found = no_section::missing(library, times, story);
    found.extend(added_twice::twice(library, story));
    found.extend(same_day::by_one_instrument(library, story));
    found
}

fn lints_of(library: &Library, times: &Times, story: &Story, extracts: &[Extract]) -> Vec<Diagnostic> {
    let mut found = left_behind::in_amendments(library, story);
    found.extend(same_day::by_one_place(library, story));
    found.extend(taken_away::patches(library, story));
    found.extend(defeated::amendments(library, times, story));
    found.extend(twin::patches(library, times, story, extracts));
    found
}

fn lints_of_texts(rules: &Rules, times: &Times) -> Vec<Diagnostic> {
    let library = rules.library();
    let mut found = no_source::sections(rules);
    found.extend(left_behind::in_editions(rules));
    found.extend(before_adopted::instruments(library));
    found.extend(before_published::adoptions(library));
    found.extend(undated::editions(library));
    found.extend(bare_any::instructions(library));
    found.extend(tied::adoptions(library, times));
    found.extend(displaced::adoptions(rules, times));
    found.extend(stays::amendments(library, times));
    found
}

/// Findings by file and place, each once.
fn in_order(mut found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    found.sort_by(|one, other| (one.at, one.code, &one.message).cmp(&(other.at, other.code, &other.message)));
    found.dedup_by(|one, other| one.at == other.at && one.code == other.code && one.message == other.message);
    found
}
