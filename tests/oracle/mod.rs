//! The evaluator held against a plain one that tries every completion, on
//! generated laws and jobs.
//!
//! `ORACLE_CASES` sets how many worlds are tried, drawn afresh. `ORACLE_WORLD` tries one: the
//! numbers that a failing run ends with, separated by commas.

mod brute;
mod cells;
mod completion;
mod cures;
pub(crate) mod effect;
mod generate;
mod hold;
mod laws;
mod reads;
mod review;
mod tape;
pub(crate) mod world;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed, TestRunner};

/// How many cases are tried, where nothing else is asked for so many.
fn cases(usual: u32) -> u32 {
    std::env::var("ORACLE_CASES").ok().and_then(|count| count.parse().ok()).unwrap_or(usual)
}

/// Whether one world alone is tried, of which no tally says anything.
fn one_world() -> bool {
    std::env::var_os("ORACLE_WORLD").is_some()
}

/// Holds something against as many worlds, each drawn from a list of numbers.
fn holds(cases: u32, held: impl Fn(&[u16]) -> Result<(), TestCaseError>) {
    if let Ok(world) = std::env::var("ORACLE_WORLD") {
        let numbers: Vec<u16> = world.split(',').map(|number| number.trim().parse().unwrap()).collect();
        return held(&numbers).unwrap();
    }
    // The usual run tries the same worlds each time; one that asks for a number of its own draws fresh ones.
    let rng_seed = if std::env::var_os("ORACLE_CASES").is_some() { RngSeed::Random } else { RngSeed::Fixed(1) };
    let mut runner = TestRunner::new(Config { cases, failure_persistence: None, rng_seed, ..Config::default() });
    if let Err(error) = runner.run(&prop::collection::vec(any::<u16>(), 0..700), |numbers| held(&numbers)) {
        panic!("{error}");
    }
}
