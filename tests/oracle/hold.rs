//! The evaluator against the plain one.

use super::brute::{self, Result, shown};
use super::completion::Finding;
use super::generate;
use super::world::World;
use crate::verdict::found::{self, Found, State};
use crate::verdict::paths::Told;
use crate::verdict::{Matter, Plan, Scratch};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use std::cell::Cell;

/// The most completions of one question that are tried.
const MOST: usize = 6_000;

fn told(world: &World, told: &[Told]) -> Vec<String> {
    let lexicon = world.lexicon();
    told.iter()
        .map(|each| match each {
            Told::Value(path, value) => format!("{} {}", path.write(&lexicon), shown(value)),
            Told::InForce(_, holds) => format!("in-force {holds}"),
            Told::Entries(path, rows) => {
                let rows: Vec<Vec<String>> = rows
                    .iter()
                    .map(|row| {
                        let mut row = row.clone();
                        row.sort_by_key(|(field, _)| world.fields[usize::from(field.0)].column);
                        row.iter().map(|(_, value)| shown(value)).collect()
                    })
                    .collect();
                format!("{} {rows:?}", path.write(&lexicon))
            }
        })
        .collect()
}

/// What the evaluator found, in the plain one's words.
fn plain(world: &World, found: &Found) -> Result {
    let mut asks: Vec<String> = found.asks.iter().map(|path| path.write(&world.lexicon())).collect();
    asks.sort();
    Result {
        state: match found.state {
            State::Silent => "silent",
            State::Settled => "settled",
            State::Open => "open",
            State::Referred => "referred",
            State::Conflict => "conflict",
        },
        value: found.value.as_ref().map(|parts| parts.as_slice().to_vec()),
        between: found.between.as_ref().map(|(low, high)| (low.as_slice().to_vec(), high.as_slice().to_vec())),
        may_refer: found.may_refer,
        may_conflict: found.may_conflict,
        finding: match found.finding {
            None => Finding::None,
            Some(found::Finding::Met) => Finding::Met,
            Some(found::Finding::NotMet) => Finding::NotMet,
            Some(found::Finding::Open) => Finding::Open,
        },
        no_equivalent: found.no_equivalent,
        asked: found.asked,
        asks,
        witnesses: found.witnesses.as_ref().map(|[one, two]| [told(world, one), told(world, two)]),
    }
}

fn cases() -> u32 {
    std::env::var("ORACLE_CASES").ok().and_then(|count| count.parse().ok()).unwrap_or(512)
}

#[test]
fn the_evaluator_agrees_with_trying_every_completion() {
    let (tried, passed) = (Cell::new(0u64), Cell::new(0u64));
    let states = std::cell::RefCell::new(std::collections::BTreeMap::<&str, u64>::new());
    let mut runner = TestRunner::new(Config { cases: cases(), failure_persistence: None, ..Config::default() });
    let outcome = runner.run(&prop::collection::vec(any::<u16>(), 0..700), |numbers| {
        let world = generate::world(&numbers);
        let lexicon = world.lexicon();
        let plan = Plan::new(&world.law, &lexicon);
        let matter = Matter { plan: &plan, law: &world.law, lexicon, job: &world.job };
        let mut scratch = Scratch::default();
        scratch.weigh(&matter);
        for question in 0..world.law.questions.len() {
            let Some(expected) = brute::weigh(&world, question, MOST) else {
                passed.set(passed.get() + 1);
                continue;
            };
            tried.set(tried.get() + 1);
            *states.borrow_mut().entry(expected.state).or_default() += 1;
            let found = plain(&world, &scratch.found[question]);
            prop_assert_eq!(
                &found,
                &expected,
                "question {} of\n{:#?}\n{:#?}\n{:#?}",
                question,
                world.law.questions[question],
                world.law.nodes.iter().enumerate().collect::<Vec<_>>(),
                (&world.job, &world.law.provisions, &world.law.presumed, &world.law.spans, &world.law.days)
            );
        }
        Ok(())
    });
    if let Err(error) = outcome {
        panic!("{error}");
    }
    println!("{} questions held, {} passed over as too large; {:?}", tried.get(), passed.get(), states.borrow());
    // The generator must not grow past what can be tried.
    assert!(tried.get() > passed.get(), "{} against {}", tried.get(), passed.get());
}
