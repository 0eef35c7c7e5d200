//! The compiler of law against a clerk: libraries are made at random as text, and
//! for jobs that say everything the verdict of the engine, which reads compiled
//! conditions, is held against the answer that is worked out step by step.
//!
//! This module refuses to share a step with the compiler: it reads the resolved
//! library alone.

mod adopt;
mod answer;
mod clerk;
mod compare;
mod effect;
mod facts;
mod force;
mod gaps;
mod generate;
mod governed;
mod holes;
mod instruments;
mod interview;
mod jobs;
mod laws;
mod mutate;
mod provisions;
mod review;
mod text;

use self::compare::{Whole, clerk, engine};
use self::generate::{Rows, Without, World, rows, world};
use crate::rules::{Rules, Source};
use crate::syntax::Kind;
use crate::syntax::layout::tests::holds_scrambled;
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestError, TestRng, TestRunner};
use std::cell::Cell;

const GLOSSARY: &str = include_str!("glossary.rule");

/// How many libraries are tried where nothing else is asked for.
const CASES: u32 = 300;

/// The same libraries in every run, so that a failure stays one; others, and as
/// many as are asked for, where `PROPTEST_CASES` is set.
fn runner(cases: u32) -> TestRunner {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|text| text.parse().ok());
    let config = Config {
        cases: asked.unwrap_or(cases),
        max_global_rejects: 1_000_000,
        max_shrink_iters: 20_000,
        failure_persistence: None,
        ..Config::default()
    };
    match asked {
        Some(_) => TestRunner::new(config),
        None => TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha)),
    }
}

fn rules(world: &World) -> Result<Rules, TestCaseError> {
    let rules = Rules::only(vec![Source::new("glossary.rule", GLOSSARY), Source::new("law.rule", world.text())]);
    let problems: Vec<String> = rules.problems().collect();
    if rules.usable() {
        return Ok(rules);
    }
    // A second patch of a section, and one of what was deleted, is refused; no other
    // mistake is made.
    let told = format!("{problems:#?}\n{}", world.text());
    let refused = rules.linked()
        && rules.wrong().iter().all(|told| ["GR0601", "GR0602"].contains(&told.code.to_string().as_str()));
    Err(if refused { TestCaseError::reject(told) } else { TestCaseError::fail(told) })
}

/// Runs a property and shows the smallest library that breaks it. What is tried
/// holds the rows of a library and whatever else the property needs.
fn holds<S: Strategy>(
    strategy: &S,
    rows: impl Fn(&S::Value) -> &Rows,
    without: Without,
    cases: u32,
    check: impl Fn(&World, &Rules, &S::Value) -> Result<(), String>,
) {
    let outcome = runner(cases).run(strategy, |tried| {
        let world = world(rows(&tried), without);
        let shown = |told: String| TestCaseError::fail(format!("{told}\n{}", trimmed(&world)));
        check(&world, &rules(&world)?, &tried).map_err(shown)
    });
    match outcome {
        Ok(()) => {}
        Err(TestError::Fail(why, _)) => panic!("{why}"),
        Err(problem) => panic!("{problem}"),
    }
}

/// Generated libraries say the same once they are laid out, and white space does
/// not count in them.
#[test]
fn generated_libraries_are_laid_out() {
    let outcome = runner(CASES / 10).run(&(rows(), any::<u64>()), |(rows, seed)| {
        holds_scrambled(&world(&rows, Without::default()).text(), Kind::Rules, seed);
        Ok(())
    });
    if let Err(problem) = outcome {
        panic!("{problem}");
    }
}

#[test]
fn the_engine_answers_as_the_clerk_does() {
    let (compared, skipped) = (Cell::new(0u32), Cell::new(0u32));
    holds(
        &rows(),
        |rows| rows,
        Without::default(),
        CASES,
        |world, rules, _| {
            for job in &world.jobs {
                let text = serde_json::Value::Object(job.clone()).to_string();
                let read = rules.read_jobs(&text).map_err(|problems| format!("{problems:?}"))?;
                let job = &read[0];
                let ours = clerk(rules, job);
                let shown = |told: String| format!("{told}\n{text}");
                let theirs = engine(rules, job).map_err(shown)?;
                if ours.circular {
                    skipped.set(skipped.get() + 1);
                    continue;
                }
                compared.set(compared.get() + 1);
                differences(&ours, &theirs).map_err(shown)?;
            }
            Ok(())
        },
    );
    println!("{} jobs compared, {} left out", compared.get(), skipped.get());
    assert!(compared.get() > 10 * skipped.get());
}

/// A library without the items that are always the same.
fn trimmed(world: &World) -> String {
    world.items[9..].join("\n")
}

fn differences(clerk: &Whole, engine: &Whole) -> Result<(), String> {
    for (ours, theirs) in clerk.answers.iter().zip(&engine.answers) {
        if ours != theirs {
            return Err(format!("clerk {ours:?}\nengine {theirs:?}"));
        }
    }
    if clerk.answers.len() != engine.answers.len() {
        return Err("not the same questions".to_owned());
    }
    if !clerk.powers && clerk.codes != engine.codes {
        return Err(format!("clerk {:?}\nengine {:?}", clerk.codes, engine.codes));
    }
    Ok(())
}
