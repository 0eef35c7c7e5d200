//! Laws that hold for every library and job: the order of files and items never
//! matters, a binding section never loosens, and a stated fact never unsettles.

#![expect(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may panic")]

mod library;

use groundrule::{Rules, Scratch, Source};
use library::{Extra, jobs, library};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};
use serde_json::Value;

/// The verdict on a job of a set of rules, as JSON.
fn verdict(rules: &Rules, job: &Value) -> Value {
    let jobs = rules.read_jobs(&job.to_string()).unwrap_or_else(|problems| panic!("{problems:?}\n{job}"));
    let text = rules.verdict_json(&jobs[0], &mut Scratch::default()).unwrap();
    serde_json::from_str(&text).unwrap()
}

fn rules(files: &[(String, String)]) -> Rules {
    let rules = Rules::only(files.iter().map(|(name, text)| Source::new(name.clone(), text.clone())).collect());
    assert!(rules.usable(), "{:#?}\n{files:#?}", rules.problems().collect::<Vec<_>>());
    rules
}

/// The strictness of an answer that is settled, as far as one number tells it.
fn strictness(answer: &Value) -> Option<(u32, u32)> {
    let one = |value: &Value| -> u32 {
        if value == "required" {
            return 1;
        }
        if let Some(limit) = value.get("at-most") {
            let feet: u32 = limit.as_str().unwrap().trim_end_matches(" ft").parse().unwrap_or(1000);
            return 1000 - feet;
        }
        if let Some(only) = value.get("only") {
            return only.as_array().map_or(0, |names| 100 - names.len() as u32);
        }
        value.get("all-of").and_then(Value::as_array).map_or(0, |names| names.len() as u32)
    };
    match answer["state"].as_str()? {
        "silent" => Some((0, 0)),
        "settled" => Some((one(&answer["value"]), one(&answer["value"]))),
        "open" => answer.get("between").map(|both| (one(&both[0]), one(&both[1]))),
        _ => None,
    }
}

/// A value as it is meant: who is left where some are taken out, whichever way it
/// is said.
fn meant(value: &Value) -> Value {
    match value.get("none-of").and_then(Value::as_array) {
        Some(out) if value.get("only").is_none() => {
            let left: Vec<&str> =
                library::TRADES.into_iter().filter(|trade| out.iter().all(|name| name != trade)).collect();
            serde_json::json!({ "only": left })
        }
        _ => value.clone(),
    }
}

fn cases(most: u32) -> Config {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|text| text.parse().ok());
    // The same libraries at every run, other ones where more are asked for.
    let rng_seed = if asked.is_some() { RngSeed::Random } else { RngSeed::Fixed(11) };
    Config { cases: asked.unwrap_or(most), failure_persistence: None, rng_seed, ..Config::default() }
}

proptest! {
    #![proptest_config(cases(200))]

    #[test]
    fn the_order_of_files_and_items_never_matters(made in library(), job in jobs(), seed in any::<u64>()) {
        let (given, shuffled) = (rules(&made.files()), rules(&made.shuffled(seed)));
        let (mut one, mut other) = (verdict(&given, &job), verdict(&shuffled, &job));
        // The bytes of the files differ, and so do the hashes that name them.
        for told in [&mut one, &mut other] {
            told.as_object_mut().unwrap().retain(|name, _| name != "library" && name != "rests-on");
        }
        prop_assert_eq!(one, other);
    }

    #[test]
    fn the_same_job_gives_the_same_bytes(made in library(), job in jobs()) {
        let files = made.files();
        let (one, other) = (rules(&files), rules(&files));
        prop_assert_eq!(verdict(&one, &job).to_string(), verdict(&other, &job).to_string());
    }

    #[test]
    fn a_binding_section_never_loosens(made in library(), extra in any::<Extra>(), job in jobs()) {
        // A ceiling takes the looser of two answers once the outer place answers at all.
        prop_assume!(!made.has_a_ceiling());
        let without = verdict(&rules(&made.files()), &job);
        let with = verdict(&rules(&made.with(extra).files()), &job);
        for (question, before) in without["answers"].as_object().unwrap() {
            let after = &with["answers"][question];
            if let (Some(before), Some(after)) = (strictness(before), strictness(after)) {
                prop_assert!(after.0 >= before.0 && after.1 >= before.1, "{}: {:?} then {:?}", question, before, after);
            }
        }
    }

    #[test]
    fn a_stated_fact_never_unsettles(made in library(), job in jobs(), fact in library::fact()) {
        let rules = rules(&made.files());
        let (name, value) = fact;
        let mut stated = job.clone();
        let told = stated.as_object_mut().unwrap();
        prop_assume!(!told.contains_key(&name));
        told.insert(name, value);
        let (before, after) = (verdict(&rules, &job), verdict(&rules, &stated));
        for (question, answer) in before["answers"].as_object().unwrap() {
            if answer["state"] == "settled" {
                prop_assert_ne!(&after["answers"][question]["state"], "open", "{}", question);
                if after["answers"][question]["state"] == "settled" {
                    prop_assert_eq!(meant(&after["answers"][question]["value"]), meant(&answer["value"]), "{}", question);
                }
            }
        }
    }
}
