//! Jobs in links.

use crate::Rules;
use crate::interview::link::{ENTRIES_OF_A_LINK, Heard, Unheard, Why, from_pairs, to_pairs};
use crate::job::model::Job;
use crate::job::{Defaults, read_json, to_json};
use crate::syntax::codes::{self, Code};

fn heard(rules: &Rules, pairs: &[(&str, &str)]) -> Heard {
    from_pairs(rules, pairs.iter().copied(), None)
}

/// The paths that could not be read, each with its code.
fn wrong(heard: &Heard) -> Vec<(&str, Code)> {
    heard.wrong.iter().map(|one| (&*one.path, one.code())).collect()
}

fn job(rules: &Rules, text: &str) -> Job {
    let read = read_json(text, rules.desk(), &Defaults::default());
    read.unwrap_or_else(|told| panic!("{text}: {told:#?}")).remove(0)
}

/// The job once it went through a link.
fn carried(rules: &Rules, job: &Job) -> Job {
    let place = rules.library().places.path_text(job.place);
    let matter = rules.matter(job).expect("the law of the place");
    let pairs = to_pairs(job, &matter, &place);
    let heard = from_pairs(rules, pairs.iter().map(|(path, typed)| (&**path, &**typed)), None);
    assert!(heard.is_whole(), "{pairs:?}: {:?}", heard.wrong);
    heard.so_far.expect("it is whole").job
}

#[test]
fn a_link_loses_nothing_of_a_job() {
    let rules = Rules::shipped();
    for text in [
        format!(r#"{{"place":"stonecroft","reference":"{}"}}"#, "x".repeat(4_000)),
        r#"{"place":"stonecroft","reference":"größe, \"11\" & <b>"}"#.to_owned(),
        r#"{"place":"stonecroft","gas-supplier":"not-known"}"#.to_owned(),
        r#"{"place":"stonecroft","gas-supplier":"no-se"}"#.to_owned(),
        r#"{"place":"stonecroft","gas-supplier":"none"}"#.to_owned(),
        r#"{"place":"stonecroft","run":[{"product":"desconocido"},{"product":"none"},null]}"#.to_owned(),
        r#"{"place":"stonecroft","contract-date":"none","permits-held":[],"run":[]}"#.to_owned(),
    ] {
        let before = job(&rules, &text);
        let after = carried(&rules, &before);
        assert_eq!(to_json(&after, rules.desk()), to_json(&before, rules.desk()), "{text}");
    }
}

#[test]
fn what_stands_twice_is_told() {
    let rules = Rules::shipped();
    let told = heard(&rules, &[("place", "stonecroft"), ("reference", "a"), ("reference", "b"), ("work", "repair")]);
    assert_eq!(wrong(&told), [("reference", codes::JOB_TWICE)]);
    let so_far = told.so_far.as_ref().expect("a job");
    assert_eq!(so_far.job.reference, None, "neither of the two is taken");
    let told = heard(&rules, &[("place", "stonecroft"), ("place", "osier")]);
    assert!(matches!(&*told.wrong, [Unheard { why: Why::Twice, .. }]), "{told:?}");
    assert!(told.so_far.is_none());
}

#[test]
fn a_reference_that_no_job_takes_is_told() {
    let rules = Rules::shipped();
    let long = "x".repeat(4_001);
    for (text, code) in [("a\tb", codes::JOB_VALUE), (&*long, codes::LIMIT)] {
        let told = heard(&rules, &[("place", "stonecroft"), ("reference", text)]);
        assert_eq!(wrong(&told), [("reference", code)], "{text}");
    }
}

#[test]
fn a_link_opens_so_many_entries_and_no_more() {
    let rules = Rules::shipped();
    let of = |count: usize| heard(&rules, &[("place", "stonecroft"), ("run", &format!("{count}+"))]);
    assert!(of(ENTRIES_OF_A_LINK).is_whole());
    let told = of(ENTRIES_OF_A_LINK + 1);
    assert_eq!(wrong(&told), [("run", codes::LIMIT)]);
    let runs = told.so_far.expect("a job").job.lists.iter().map(|list| list.entries.len()).sum::<usize>();
    assert_eq!(runs, 0);
}

#[test]
fn what_is_offered_for_an_unknown_path_can_be_said() {
    let rules = Rules::shipped();
    for (typed, offered) in [
        ("run.material", "run[0].material"),
        ("run[2].materail", "run[2].material"),
        ("jumper.sise", "jumper.size"),
        ("appliances", "appliance"),
        ("occupansy", "occupancy"),
    ] {
        let told = heard(&rules, &[("place", "stonecroft"), (typed, "x")]);
        let [one] = &*told.wrong else { panic!("{typed}: {told:?}") };
        assert_eq!(one.near().first().map(String::as_str), Some(offered), "{typed}: {:?}", one.near());
    }
    // A record is no fact: its attributes are.
    let told = heard(&rules, &[("place", "stonecroft"), ("jumper", "1")]);
    let [one] = &*told.wrong else { panic!("{told:?}") };
    assert!(!one.near().is_empty() && one.near().iter().all(|path| path.starts_with("jumper.")), "{:?}", one.near());
}
