//! What a review finds over all jobs against trying every completion: which
//! provisions bind, which change an answer, where nothing reaches, where the law
//! contradicts itself.

use super::brute::completions;
use super::completion::{Completion, Judge};
use super::generate;
use super::reads::Reads;
use super::world::World;
use crate::law::model::ProvisionId;
use crate::verdict::survey::{Ground, Survey, Window};
use crate::verdict::{Matter, Memo};
use proptest::prelude::*;
use std::cell::RefCell;

/// The most completions of one question that are tried.
const MOST: usize = 6_000;

fn cases() -> u32 {
    super::cases(384)
}

/// How often each thing was held, and how often it was so.
#[derive(Debug, Default)]
struct Tally {
    questions: u64,
    passed_over: u64,
    contradict: u64,
    silent: u64,
    provisions: u64,
    dead: u64,
    idle: u64,
    idle_powers: u64,
}

/// A world in which every fact may be stated either way, and no day is before all law:
/// to a job of such a day no law speaks, which these laws do not know.
fn world(numbers: &[u16]) -> World {
    let mut world = generate::world(numbers);
    world.law.presumed.clear();
    world.law.first_day = None;
    world
}

/// The same without a provision on a question.
fn without(numbers: &[u16], question: usize, id: ProvisionId) -> World {
    let mut world = world(numbers);
    let own = &mut world.law.questions[question];
    own.whole.retain(|other| *other != id);
    own.powers.iter_mut().for_each(|power| power.outer.retain(|other| *other != id));
    world
}

/// The same without one of the powers over a question.
fn without_power(numbers: &[u16], question: usize, power: usize) -> World {
    let mut world = world(numbers);
    world.law.questions[question].powers.remove(power);
    world
}

/// Whether the answers to a question are the same in all of these completions.
fn alike(one: &World, two: &World, question: usize, all: &[Completion]) -> bool {
    let answer = |world: &World, facts: &Completion| Judge { world, facts }.case(question).answer;
    all.iter().all(|facts| answer(one, facts) == answer(two, facts))
}

fn held(numbers: &[u16], tally: &mut Tally) -> Result<(), TestCaseError> {
    let world = world(numbers);
    let lexicon = world.lexicon();
    let ground = Ground::new(&world.law, lexicon, world.law.place);
    let matter = Matter { job: &world.job, ..ground.matter() };
    for (question, own) in world.law.questions.iter().enumerate() {
        let Some((_, all)) = completions(&world, &Reads::of(&world, question), MOST) else {
            tally.passed_over += 1;
            continue;
        };
        tally.questions += 1;
        let all: Vec<Completion> = all.into_iter().map(|(_, facts)| facts).collect();
        let mut memo = Memo::default();
        let cone = ground.cone([question], []);
        let mut survey = Survey::new(&matter, &mut memo, cone, Window::default()).expect("few jobs");
        let cases: Vec<_> = all.iter().map(|facts| Judge { world: &world, facts }.case(question)).collect();
        let contradicts = survey.conflict(question).expect("few jobs");
        let contradicts = survey.first(contradicts).expect("few jobs");
        prop_assert_eq!(contradicts.is_some(), cases.iter().any(|case| case.answer.conflict));
        if let Some(walk) = &contradicts {
            // The job that is shown contradicts itself however the rest turns out.
            tally.contradict += 1;
            let mut shown = self::world(numbers);
            shown.job = survey.job_of(walk);
            if let Some((unknown, all)) = completions(&shown, &Reads::of(&shown, question), MOST) {
                let spans = unknown.iter().any(|each| each.name == "in-force");
                let all: Vec<_> = all.iter().map(|(_, facts)| Judge { world: &shown, facts }.case(question)).collect();
                prop_assert!(spans || all.iter().all(|case| case.answer.conflict), "{:?}", shown.job);
            }
        }
        let reach = survey.reach(question).expect("few jobs");
        let reaches = survey.somewhere(reach).expect("few jobs");
        prop_assert_eq!(reaches, cases.iter().any(|case| case.reach));
        tally.silent += u64::from(!reaches);
        for id in own.whole.iter().chain(own.powers.iter().flat_map(|power| &power.outer)) {
            tally.provisions += 1;
            let provision = &world.law.provisions[id.0 as usize];
            let guard = survey.condition(provision.guard).expect("few jobs");
            let binds = survey.somewhere(guard).expect("few jobs");
            let judged = |facts| Judge { world: &world, facts }.condition(provision.guard, None) != Some(false);
            prop_assert_eq!(binds, all.iter().any(judged), "{:?}", provision);
            tally.dead += u64::from(!binds);
            let changes = survey.changed_by(question, &|other| other == *id).expect("few jobs").is_some();
            let same = alike(&world, &without(numbers, question, *id), question, &all);
            // Of a `per` question it also matters which terms are named.
            let per = world.questions[usize::from(own.question.0)].per.is_some();
            prop_assert!(if per { changes || same } else { changes != same }, "{:?}", provision);
            tally.idle += u64::from(!changes);
        }
        for power in 0..own.powers.len() {
            let changes = survey.changed_by_power(question, power).expect("few jobs").is_some();
            let same = alike(&world, &without_power(numbers, question, power), question, &all);
            let per = world.questions[usize::from(own.question.0)].per.is_some();
            prop_assert!(if per { changes || same } else { changes != same }, "{:?}", own.powers[power]);
            tally.idle_powers += u64::from(!changes);
        }
    }
    Ok(())
}

#[test]
fn a_review_agrees_with_trying_every_job() {
    let tally = RefCell::new(Tally::default());
    super::holds(cases(), |numbers| held(numbers, &mut tally.borrow_mut()));
    let tally = tally.into_inner();
    println!("{tally:#?}");
    // Each of these must go on coming about.
    assert!(tally.questions > 3 * tally.passed_over, "{tally:?}");
    for so in [tally.contradict, tally.silent, tally.dead, tally.idle, tally.idle_powers] {
        assert!(so > 0, "{tally:?}");
    }
}
