//! Laws that hold for every library and every job, also one of which little is
//! known.

use super::answer::Part;
use super::compare::parts_of;
use super::generate::{Without, World, rows};
use super::{GLOSSARY, holds};
use crate::engine::{Job, Scratch};
use crate::glossary::model::Order;
use crate::job::model::Given;
use crate::rules::{Rules, Source};
use crate::verdict::found::{Found, State};
use proptest::prelude::*;
use serde_json::{Map, Value};
use std::cell::Cell;

/// How many libraries are tried where nothing else is asked for.
const CASES: u32 = 100;

/// What is found of one question.
struct Seen {
    question: String,
    order: Order,
    found: Found,
    /// The loosest and the strictest answer, where there is one.
    ends: Option<(Vec<Part>, Vec<Part>)>,
}

fn read(rules: &Rules, job: &Map<String, Value>) -> Result<Job, String> {
    let mut jobs = rules.read_jobs(&Value::Object(job.clone()).to_string()).map_err(|told| format!("{told:?}"))?;
    Ok(jobs.remove(0))
}

/// Whether the questions of the job's place depend on each other in a circle, which is told when its law is made: a law
/// without answers, of which no property speaks.
fn circular(rules: &Rules, job: &Map<String, Value>) -> Result<bool, String> {
    let job = read(rules, job)?;
    Ok(rules.matter(&job.0).is_err_and(|told| told.code == crate::syntax::codes::QUESTION_CIRCLE))
}

fn json(rules: &Rules, job: &Map<String, Value>) -> Result<String, String> {
    rules.verdict_json(&read(rules, job)?, &mut Scratch::default()).map_err(|told| format!("{told:?}"))
}

fn seen(rules: &Rules, job: &Map<String, Value>) -> Result<Vec<Seen>, String> {
    let job = read(rules, job)?;
    let matter = rules.matter(&job.0).map_err(|told| format!("{told:?}"))?;
    let verdict = crate::verdict::full(&matter, &mut crate::verdict::Scratch::default());
    Ok(verdict
        .answers
        .iter()
        .map(|answer| {
            let law = &matter.law.questions[answer.number];
            let found = answer.found.clone();
            let whole = found.value.as_ref().map(|value| (value, value));
            let ends = found.between.as_ref().map(|(loosest, strictest)| (loosest, strictest)).or(whole);
            let ends = ends.map(|(loosest, strictest)| {
                (parts_of(rules, law, loosest.as_slice()), parts_of(rules, law, strictest.as_slice()))
            });
            Seen { question: answer.question.name.to_string(), order: answer.question.order.clone(), found, ends }
        })
        .collect())
}

/// Whether no part of one answer is looser than that of the other.
fn covers(order: &Order, strict: &[Part], loose: &[Part]) -> bool {
    strict.iter().zip(loose).all(|(strict, loose)| match (strict, loose) {
        (Part::Rung(strict), Part::Rung(loose)) => strict >= loose,
        (_, Part::Limit(None)) => true,
        (Part::Limit(None), _) => false,
        (Part::Limit(Some(strict)), Part::Limit(Some(loose))) => match order {
            Order::AtLeast(_) => strict >= loose,
            _ => strict <= loose,
        },
        (Part::Set(strict), Part::Set(loose)) => match order {
            Order::Only(_) => strict.within(*loose),
            _ => loose.within(*strict),
        },
        _ => panic!("answers of two orders"),
    })
}

/// The names of facts that may be left unsaid, in a fixed order.
const FACTS: [&str; 9] = [
    "occupancy",
    "work",
    "concealed",
    "storeys",
    "text-elected",
    "code-chosen",
    "run",
    "permit-date",
    "application-date",
];

/// The job with some facts left out. A date stays where it is `none`, which no
/// completion assumes, or before all law, where none reaches.
fn partial(rules: &Rules, whole: &Map<String, Value>, out: u16) -> Result<Map<String, Value>, String> {
    let job = read(rules, whole)?;
    let law = rules.matter(&job.0).map_err(|told| format!("{told:?}"))?.law;
    let mut partial = whole.clone();
    for (at, name) in FACTS.iter().enumerate() {
        if out >> at & 1 == 0 {
            continue;
        }
        let field = rules.library().glossary.fields.iter().position(|field| &*field.path == *name);
        let stays = match field.map(|field| &job.0.values[field]) {
            Some(Given::Date(day)) => law.first_day.is_none_or(|first| *day < first),
            Some(Given::NoDate) => true,
            _ => false,
        };
        if !stays {
            partial.remove(*name);
        }
    }
    // An attribute of the first entry, rather than the whole list.
    if out >> 10 & 1 == 1
        && let Some(Value::Array(entries)) = partial.get_mut("run")
        && let Some(Value::Object(first)) = entries.first_mut()
    {
        first.remove(["jacket", "product", "length"][usize::from(out >> 11) % 3]);
    }
    Ok(partial)
}

fn shown(job: &Map<String, Value>, told: impl std::fmt::Display) -> String {
    format!("{told}\n{}", Value::Object(job.clone()))
}

#[test]
fn every_completion_lies_within_the_verdict() {
    let (open, all_told) = (Cell::new(0u32), Cell::new(0u32));
    holds(
        &(rows(), any::<u16>()),
        |rows| &rows.0,
        Without::default(),
        CASES,
        |world, rules, (_, out)| {
            for whole in &world.jobs {
                if circular(rules, whole)? {
                    continue;
                }
                let partial = partial(rules, whole, *out)?;
                for (one, all) in seen(rules, whole)?.iter().zip(&seen(rules, &partial)?) {
                    let told = || shown(&partial, format!("{}: {:?} within {:?}", one.question, one.found, all.found));
                    within(one, all).then_some(()).ok_or_else(told)?;
                    all_told.set(all_told.get() + 1);
                    open.set(open.get() + u32::from(all.found.state == State::Open));
                }
            }
            Ok(())
        },
    );
    println!("{} of {} answers were open", open.get(), all_told.get());
    assert!(open.get() > all_told.get() / 100);
}

fn within(one: &Seen, all: &Seen) -> bool {
    let alike = one.found.value == all.found.value;
    let ends = match (&one.ends, &all.ends) {
        (Some((low, high)), Some((loosest, strictest))) => {
            covers(&all.order, low, loosest) && covers(&all.order, strictest, high)
        }
        // Nothing is said of answers that are referred.
        _ => true,
    };
    match all.found.state {
        State::Silent => one.found.state == State::Silent,
        State::Settled => matches!(one.found.state, State::Settled | State::Silent) && alike,
        State::Referred => matches!(one.found.state, State::Referred | State::Conflict),
        State::Conflict => one.found.state == State::Conflict,
        State::Open => {
            let refers = one.found.state == State::Referred || one.found.may_refer;
            let conflicts = one.found.state == State::Conflict || one.found.may_conflict;
            // A contradiction does not tell whether it is referred as well.
            let left_out = refers || conflicts && all.found.may_refer;
            (all.found.may_refer || !refers) && (all.found.may_conflict || !conflicts) && (left_out || ends)
        }
    }
}

#[test]
fn a_stated_fact_never_unsettles() {
    holds(
        &(rows(), any::<u16>()),
        |rows| &rows.0,
        Without::default(),
        CASES,
        |world, rules, (_, out)| {
            for whole in &world.jobs {
                if circular(rules, whole)? {
                    continue;
                }
                let before = partial(rules, whole, *out)?;
                let earlier = seen(rules, &before)?;
                for name in FACTS.iter().filter(|name| !before.contains_key(**name)) {
                    let mut stated = before.clone();
                    stated.insert((*name).to_owned(), whole[*name].clone());
                    for (before, after) in earlier.iter().zip(&seen(rules, &stated)?) {
                        let told = || shown(&stated, format!("{name} unsettles {}", after.question));
                        within(after, before).then_some(()).ok_or_else(told)?;
                    }
                }
            }
            Ok(())
        },
    );
}

/// Sections that demand something on facts alone.
const DEMANDS: [&str; 8] = [
    "bond is required",
    "tubing-use is restricted",
    "jumper-length at most 50 ft",
    "performer only electrician, plumber",
    "permits all of building",
    "where occupancy is shop\n        inspection is final",
    "where any run with (jacket is plain)\n        bond is required",
    "service-size at least 200 A",
];

#[test]
fn a_binding_section_never_loosens() {
    let without = Without { answers: true, priority: true, spans: false };
    holds(
        &(rows(), any::<u16>()),
        |rows| &rows.0,
        without,
        CASES,
        |world, rules, (_, out)| {
            // Once the outer place answers at all, a ceiling takes the looser of two answers.
            let binding = |item: &&String| item.starts_with("instrument I-") && !item.contains("kind opinion");
            let law: Vec<&String> = world.items.iter().filter(binding).collect();
            if law.is_empty() || law.iter().any(|item| item.contains("ceiling")) {
                return Ok(());
            }
            let place = law[usize::from(*out) % law.len()];
            let demand = DEMANDS[usize::from(*out >> 8) % DEMANDS.len()];
            let more: Vec<String> = world
                .items
                .iter()
                .map(|item| match item == place {
                    true => format!("{item}    section 77 \"More\"\n        {demand}\n"),
                    false => item.clone(),
                })
                .collect();
            let tight =
                Rules::only(vec![Source::new("glossary.rule", GLOSSARY), Source::new("law.rule", more.join("\n"))]);
            for whole in &world.jobs {
                if circular(rules, whole)? {
                    continue;
                }
                let partial = partial(rules, whole, *out & 0b10_0111_1111)?;
                for (before, after) in seen(rules, &partial)?.iter().zip(&seen(&tight, &partial)?) {
                    if let (Some(before), Some(after), order) = (&before.ends, &after.ends, &after.order) {
                        let tighter = covers(order, &after.0, &before.0) && covers(order, &after.1, &before.1);
                        tighter.then_some(()).ok_or_else(|| {
                            shown(&partial, format!("{demand} loosens: {before:?} then {after:?}\n{place}"))
                        })?;
                    }
                }
            }
            Ok(())
        },
    );
}

/// The items in as many files as there are letters, in an order that the seed gives.
fn spread(world: &World, mut seed: u64, files: usize) -> Vec<Source> {
    let mut next = |most: usize| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) as usize % most
    };
    let mut texts = vec![String::new(); files];
    let mut rest: Vec<&str> = world.items.iter().map(String::as_str).collect();
    rest.push(GLOSSARY);
    while !rest.is_empty() {
        let item = rest.swap_remove(next(rest.len()));
        let file = next(files);
        texts[file] += item;
        texts[file] += "\n";
    }
    texts.into_iter().enumerate().map(|(at, text)| Source::new(format!("{at}.rule"), text)).collect()
}

#[test]
fn the_order_of_files_and_items_never_matters() {
    holds(
        &(rows(), any::<u64>()),
        |rows| &rows.0,
        Without::default(),
        CASES,
        |world, rules, (_, seed)| {
            let spread = spread(world, *seed, 1 + *seed as usize % 5);
            let mut turned = spread.clone();
            turned.reverse();
            let (spread, turned) = (Rules::only(spread), Rules::only(turned));
            for whole in &world.jobs {
                if circular(rules, whole)? {
                    continue;
                }
                let partial = partial(rules, whole, *seed as u16)?;
                let (plain, one, other) = (json(rules, &partial)?, json(&spread, &partial)?, json(&turned, &partial)?);
                if one != other {
                    return Err(shown(&partial, format!("{one}\n{other}")));
                }
                if json(rules, &partial)? != plain {
                    return Err(shown(&partial, "the same job does not give the same bytes"));
                }
                // Other files have other hashes; all else is the same, byte by byte.
                if unhashed(&plain) != unhashed(&one) {
                    return Err(shown(&partial, format!("{plain}\n{one}")));
                }
            }
            Ok(())
        },
    );
}

fn unhashed(text: &str) -> String {
    let mut verdict: Value = serde_json::from_str(text).expect("a verdict");
    let whole = verdict.as_object_mut().expect("an object");
    whole.retain(|name, _| name != "library" && name != "rests-on");
    verdict.to_string()
}
