//! How far cures are looked for. Beyond these bounds it is said that it is not
//! decided; nothing is guessed.

/// The most changes in one cure of one finding. Entries of a list that are changed
/// alike count once.
pub(crate) const CHANGES: u32 = 3;

/// The most changes in one cure of a whole job, or of several places at once.
pub(crate) const CHANGES_OF_A_JOB: u32 = 12;

/// The most changed jobs that are looked at for one finding.
pub(crate) const JOBS: usize = 20_000;

/// The most steps that go into the diagrams of one job.
pub(crate) const STEPS: usize = 3_000_000;

/// The most terms of a set that are put in or taken out in every combination; of
/// larger sets at most two terms are changed at once.
pub(crate) const TERMS: u32 = 6;

/// The most ways that are laid side by side.
pub(crate) const WAYS: usize = 400;
