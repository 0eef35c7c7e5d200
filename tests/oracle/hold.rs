//! The evaluator against the plain one.

use super::brute::{self, Result, shown};
use super::completion::Finding;
use super::generate;
use super::reads::Reads;
use super::world::{HOT, World};
use crate::glossary::model::Order;
use crate::job::model::Given;
use crate::verdict::found::{self, Found, State};
use crate::verdict::model::Outcome;
use crate::verdict::paths::Told;
use crate::verdict::{Matter, Plan, Scratch};
use proptest::prelude::*;
use std::cell::RefCell;
use std::collections::BTreeMap;

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
    super::cases(512)
}

/// The outcome that these results come to.
fn outcome(world: &World, results: &[Result]) -> Option<Outcome> {
    let mut worst = Outcome::Complies;
    for (_, cond) in &world.law.governed {
        worst = worst.max(match brute::holds(world, *cond, MOST)? {
            (true, _) => Outcome::Complies,
            (false, true) => Outcome::Open,
            (false, false) => Outcome::Refer,
        });
    }
    for (result, own) in results.iter().zip(&world.law.questions) {
        let known = &world.questions[usize::from(own.question.0)];
        if result.state == "conflict" {
            worst = worst.max(Outcome::Conflict);
        }
        // An idle question holds nothing up, unless its law contradicts itself.
        if !result.asked || result.state == "silent" {
            continue;
        }
        let shows = known.met.is_some() || known.measures.is_some();
        let bad = [
            (result.finding == Finding::NotMet, Outcome::Corrections),
            (result.state == "referred" || result.no_equivalent, Outcome::Refer),
            (result.finding == Finding::Open || result.state == "open" && (!shows || result.may_refer), Outcome::Open),
        ];
        worst = bad.into_iter().filter(|(holds, _)| *holds).map(|(_, outcome)| outcome).fold(worst, Outcome::max);
    }
    Some(worst)
}

/// The questions for which the presumed fact is asked: those that a statement
/// closes, where it leaves fewer of its questions open.
fn presumed(world: &mut World, results: &[Result]) -> Option<Vec<usize>> {
    let place = usize::from(HOT.0);
    if world.law.presumed.is_empty() || world.job.values[place] != Given::Unknown {
        return Some(Vec::new());
    }
    let open = |result: &Result| result.state == "open" || result.finding == Finding::Open;
    let own: Vec<usize> = (0..results.len())
        .filter(|question| open(&results[*question]) && Reads::of(world, *question).reads_field(HOT))
        .collect();
    let mut closed = Vec::new();
    for statement in [0, 1] {
        world.job.values[place] = Given::Term(statement);
        let after: Option<Vec<Result>> = own.iter().map(|question| brute::weigh(world, *question, MOST)).collect();
        world.job.values[place] = Given::Unknown;
        closed.extend(own.iter().zip(after?).filter(|(_, after)| !open(after)).map(|(question, _)| *question));
    }
    closed.sort_unstable();
    closed.dedup();
    Some(closed)
}

/// Bounds must hold whatever the completions come to, and settle nothing.
fn within(world: &World, question: usize, expected: &Result, bounds: &Found) -> std::result::Result<(), TestCaseError> {
    prop_assert!(bounds.state == State::Open && bounds.bounds_only && bounds.witnesses.is_none());
    let (low, high) = bounds.between.as_ref().expect("bounds of a question that there is");
    let order = &world.questions[usize::from(world.law.questions[question].question.0)].order;
    let tighter = |one: u128, two: u128| match order {
        Order::Only(_) => one & two == one,
        Order::AllOf(_) => one | two == one,
        _ => one >= two,
    };
    let ends = match (&expected.between, &expected.value) {
        (Some((loosest, strictest)), _) => Some((loosest, strictest)),
        (None, Some(value)) if expected.state != "referred" => Some((value, value)),
        _ => None,
    };
    if let Some((loosest, strictest)) = ends {
        let below = loosest.iter().zip(low.as_slice()).all(|(one, two)| tighter(*one, *two));
        let above = strictest.iter().zip(high.as_slice()).all(|(one, two)| tighter(*two, *one));
        prop_assert!(below && above, "{:?} not within {:?}", expected, bounds.between);
    }
    prop_assert!(bounds.may_refer || !(expected.may_refer || expected.state == "referred"));
    prop_assert!(bounds.may_conflict || !(expected.may_conflict || expected.state == "conflict"));
    prop_assert!(bounds.finding.is_some() || expected.finding == Finding::None, "{:?} against {:?}", bounds, expected);
    let named: Vec<String> = bounds.asks.iter().map(|path| path.write(&world.lexicon())).collect();
    prop_assert!(expected.asks.iter().all(|ask| named.contains(ask)));
    Ok(())
}

/// How often each thing was held.
#[derive(Debug, Default)]
struct Tally {
    questions: u64,
    passed_over: u64,
    outcomes: BTreeMap<&'static str, u64>,
    states: BTreeMap<&'static str, u64>,
    presumed_asked: u64,
    witnesses: u64,
}

fn held(numbers: &[u16], tally: &mut Tally) -> std::result::Result<(), TestCaseError> {
    let mut world = generate::world(numbers);
    let results: Vec<Option<Result>> =
        (0..world.law.questions.len()).map(|question| brute::weigh(&world, question, MOST)).collect();
    let all: Option<Vec<Result>> = results.iter().cloned().collect();
    let asked = all.as_deref().and_then(|all| presumed(&mut world, all));
    let lexicon = world.lexicon();
    let plan = Plan::new(&world.law, &lexicon);
    let matter = Matter { plan: &plan, law: &world.law, lexicon, job: &world.job };
    let mut scratch = Scratch::default();
    let quick = crate::verdict::quick(&matter, &mut scratch);
    for (question, expected) in results.iter().enumerate() {
        let Some(expected) = expected else {
            tally.passed_over += 1;
            continue;
        };
        tally.questions += 1;
        tally.witnesses += u64::from(expected.witnesses.is_some());
        *tally.states.entry(expected.state).or_default() += 1;
        prop_assert_eq!(
            &plain(&world, &scratch.found[question]),
            expected,
            "question {} of\n{:#?}\n{:#?}\n{:#?}",
            question,
            world.law.questions[question],
            world.law.nodes.iter().enumerate().collect::<Vec<_>>(),
            (&world.job, &world.law.provisions, &world.law.presumed, &world.law.spans, &world.law.days)
        );
    }
    for (question, expected) in results.iter().enumerate() {
        if let Some(expected) = expected {
            within(&world, question, expected, &scratch.bounds(&matter, question))?;
        }
    }
    let verdict = crate::verdict::full(&matter, &mut Scratch::default());
    prop_assert_eq!(verdict.outcome, quick);
    if let Some(expected) = all.as_deref().and_then(|all| outcome(&world, all)) {
        *tally.outcomes.entry(expected.word()).or_default() += 1;
        prop_assert_eq!(quick, expected, "{:#?}", results);
    }
    if let (Some(all), Some(asked)) = (all, asked) {
        tally.presumed_asked += asked.len() as u64;
        for answer in &verdict.answers {
            let mut expected = all[answer.number].asks.clone();
            expected.extend(asked.contains(&answer.number).then(|| "hot".to_string()));
            expected.sort();
            prop_assert_eq!(&plain(&world, &answer.found).asks, &expected);
        }
    }
    Ok(())
}

#[test]
fn the_evaluator_agrees_with_trying_every_completion() {
    let tally = RefCell::new(Tally::default());
    super::holds(cases(), |numbers| held(numbers, &mut tally.borrow_mut()));
    let tally = tally.into_inner();
    println!("{tally:#?}");
    // The generator must go on making worlds of every kind that can be tried.
    assert!(tally.questions > 5 * tally.passed_over);
    if cases() >= 5_000 {
        assert_eq!((tally.states.len(), tally.outcomes.len()), (5, 5));
        assert!(tally.presumed_asked > 0 && tally.witnesses > 100);
    }
}
