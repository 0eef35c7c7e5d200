//! How far the evaluator goes for exactness. Beyond these limits an answer is
//! open and marked `bounds-only`; it is never settled on a guess.

/// The most steps that go into one question's diagram.
pub(crate) const DIAGRAM_STEPS: usize = 3_000_000;

/// The most steps that go into the diagrams of all jobs of a place.
pub(crate) const SURVEY_STEPS: usize = 20_000_000;

/// The most unknown facts that one question may turn on.
pub(crate) const UNKNOWN_FACTS: usize = 1_000;

/// The most kinds of entries of a list, before those that no test tells apart
/// are taken together.
pub(crate) const ENTRY_KINDS: usize = 60_000;

/// The most sets of entries of a list that the tests tell apart.
pub(crate) const ENTRY_SETS: usize = 10_000;

/// The most terms of a set that tests tell apart.
pub(crate) const SET_TERMS: u32 = 12;
