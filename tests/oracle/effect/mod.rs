//! What two laws answer otherwise, held against trying every job: the laws of
//! both sides are judged one by one by the plain evaluator, and what changes is
//! compared with what is told of it.
//!
//! `ORACLE_CASES` sets how many pairs of libraries are tried; 48 where it is not
//! set.

mod forms;
pub(crate) mod generate;
mod jobs;
mod plain;
pub(crate) mod words;

use self::jobs::{Reads, Seen, Truths, jobs, names};
use self::plain::{PlainJob, world, world_of};
use super::completion::{Answer, Judge};
use super::world::World;
use crate::glossary::model::{Order, Shape};
use crate::job::model::Given;
use crate::law::model::{CondId, Node};
use crate::review::effect::{Bench, Changed, Condition, Joint, Side};
use crate::values::{Exact, Terms};
use crate::verdict::found::State;
use crate::verdict::survey::Window;
use crate::verdict::{Scratch, full};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestError, TestRng, TestRunner};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

/// The most jobs of one question that are tried, where many pairs are asked for and
/// where not.
const MOST: [usize; 2] = [3_000, 600];

/// The most tests for which all conditions are tried to find fewer.
const TESTS_TRIED: usize = 8;

/// One part of an answer.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Part {
    Rung(u128),
    Limit(Exact),
    Terms(BTreeSet<String>),
}

/// An answer in words that both sides have; a part at its loosest is left out.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Told {
    parts: BTreeMap<String, Part>,
    refer: bool,
    conflict: bool,
}

/// How often each thing was held.
#[derive(Debug, Default)]
pub(crate) struct Tally {
    pub(crate) pairs: u64,
    pub(crate) questions: u64,
    pub(crate) too_large: u64,
    pub(crate) undecided: u64,
    pub(crate) jobs: u64,
    pub(crate) changed: u64,
    pub(crate) changes: u64,
    pub(crate) conditions: u64,
    pub(crate) several: u64,
    pub(crate) not_proven: u64,
    pub(crate) searched: u64,
    pub(crate) counted: u64,
    pub(crate) counted_all: u64,
    pub(crate) uncounted: u64,
    pub(crate) witnesses: u64,
    pub(crate) open_witnesses: u64,
    pub(crate) with: BTreeMap<&'static str, u64>,
}

/// What a question's answer comes to, by the numbers of a law.
fn told(world: &World, question: usize, parts: &[u128], refer: bool, conflict: bool) -> Told {
    let own = &world.law.questions[question];
    let known = &world.questions[usize::from(own.question.0)];
    let names_of_parts: Vec<(usize, String)> = match known.per {
        None => vec![(0, String::new())],
        Some((_, choice)) => {
            world.terms_of(choice).into_iter().map(|(number, name)| (usize::from(number), name)).collect()
        }
    };
    let part = |value: u128| match &known.order {
        Order::Ladder(_) => (value > 0).then_some(Part::Rung(value)),
        Order::AtLeast(_) | Order::AtMost(_) => (value > 0).then(|| Part::Limit(own.scale[value as usize - 1].amount)),
        Order::Only(choice) => {
            let all = names(world, *choice, own.terms);
            let held = names(world, *choice, Terms(value));
            (held != all).then_some(Part::Terms(held))
        }
        Order::AllOf(choice) => (value > 0).then(|| Part::Terms(names(world, *choice, Terms(value)))),
    };
    let parts = names_of_parts.into_iter().filter_map(|(at, name)| Some((name, part(parts[at])?))).collect();
    Told { parts, refer, conflict }
}

fn told_of(world: &World, question: usize, answer: &Answer) -> Told {
    told(world, question, &answer.parts, answer.refer, answer.conflict)
}

/// Two answers as they are told of a change: of required sets what goes and what
/// comes.
fn as_told(order: &Order, one: &Told, two: &Told) -> (Told, Told) {
    if !matches!(order, Order::AllOf(_)) {
        return (one.clone(), two.clone());
    }
    let without = |one: &Told, two: &Told| {
        let parts = one.parts.iter().filter_map(|(name, part)| {
            let (Part::Terms(held), none) = (part, BTreeSet::new()) else { panic!("no set") };
            let other = match two.parts.get(name) {
                Some(Part::Terms(other)) => other,
                _ => &none,
            };
            let left: BTreeSet<String> = held.difference(other).cloned().collect();
            (!left.is_empty()).then(|| (name.clone(), Part::Terms(left)))
        });
        Told { parts: parts.collect(), ..one.clone() }
    };
    (without(one, two), without(two, one))
}

/// One job: what it is told before and after, and which tests of the joint law it
/// passes.
struct Case {
    before: Told,
    after: Told,
    truths: Truths,
}

/// The laws of both sides and of the two together.
struct Held<'r> {
    sides: [Side<'r>; 2],
    worlds: [World; 2],
    joint: &'r Joint,
    both: World,
    bench: Bench<'r>,
}

pub(crate) fn hold(before: Side<'_>, after: Side<'_>, most: usize, tally: &mut Tally) -> Result<(), String> {
    let (Some(one), Some(two)) = (world_of(before.rules, before.place), world_of(after.rules, after.place)) else {
        // Its questions go in a circle.
        return Ok(());
    };
    let joint = Joint::new(before, after).map_err(|told| format!("{told:?}"))?;
    let held = Held {
        sides: [before, after],
        worlds: [one, two],
        both: world(&joint.law, &joint.common.lexicon()),
        bench: Bench::new(&joint),
        joint: &joint,
    };
    tally.pairs += 1;
    held.all(most, tally)
}

impl Held<'_> {
    fn name(&self, side: usize, question: usize) -> &str {
        let world = &self.worlds[side];
        &world.questions[usize::from(world.law.questions[question].question.0)].name
    }

    fn all(&self, most: usize, tally: &mut Tally) -> Result<(), String> {
        let effect = self.bench.effect(Window::default());
        let known = |side: usize| -> BTreeMap<String, usize> {
            (0..self.worlds[side].law.questions.len()).map(|at| (self.name(side, at).to_owned(), at)).collect()
        };
        let (before, after) = (known(0), known(1));
        let both: Vec<&String> = before.keys().filter(|name| after.contains_key(*name)).collect();
        let named = |id| self.bench.question(id).map(|question| question.name.to_string());
        let changed: BTreeMap<String, &Changed> =
            effect.changed.iter().filter_map(|changed| Some((named(changed.question)?, changed))).collect();
        let undecided: Vec<String> = effect.undecided.iter().filter_map(|id| named(*id)).collect();
        if effect.alike + changed.len() + undecided.len() != both.len() {
            return Err(format!(
                "{} alike, {} changed, {} undecided of {}",
                effect.alike,
                changed.len(),
                undecided.len(),
                both.len()
            ));
        }
        for name in both {
            if undecided.contains(name) {
                tally.undecided += 1;
                // Only the entries of a list can be too many, or turn on an answer.
                if self.joint_reads(name).is_none_or(|reads| reads.lists.is_empty()) {
                    return Err(format!("{name}: is not decided"));
                }
                continue;
            }
            self.question(name, [before[name], after[name]], changed.get(name).copied(), most, tally)
                .map_err(|told| format!("{name}: {told}"))?;
        }
        self.all_kinds(&before, &after, effect.kinds, most, tally)
    }

    fn seen(&self, side: usize, questions: &[usize]) -> Seen<'_> {
        let mut reads = Reads::default();
        for question in questions {
            reads.question(&self.worlds[side], *question);
        }
        Seen { world: &self.worlds[side], reads, on: self.sides[side].on }
    }

    fn answer(&self, side: usize, question: usize, job: &PlainJob) -> Told {
        let world = &self.worlds[side];
        let facts = world.complete(job, self.sides[side].on);
        told_of(world, question, &Judge { world, facts: &facts }.answer(question))
    }

    /// Whether a condition may speak of an answer: where the law asks the same on both
    /// sides.
    fn may_be_told(&self, cond: CondId) -> bool {
        match &self.both.law.nodes[cond.0 as usize] {
            Node::Answer { question, .. } => !self.joint.pairs.iter().any(|pair| pair.sides.contains(&Some(*question))),
            _ => false,
        }
    }

    /// What the joint law reads for the question on both sides.
    fn joint_reads(&self, name: &str) -> Option<Reads> {
        let pair = self
            .joint
            .pairs
            .iter()
            .find(|pair| self.bench.question(pair.question).is_some_and(|question| &*question.name == name))?;
        let mut reads = Reads::default();
        for at in pair.sides.into_iter().flatten() {
            reads.question(&self.both, at);
        }
        Some(reads)
    }

    fn question(
        &self,
        name: &str,
        at: [usize; 2],
        changed: Option<&Changed>,
        most: usize,
        tally: &mut Tally,
    ) -> Result<(), String> {
        let (one, two) = (self.seen(0, &at[..1]), self.seen(1, &at[1..]));
        let Some(jobs) = jobs([&one, &two], most) else {
            tally.too_large += 1;
            return Ok(());
        };
        tally.questions += 1;
        tally.jobs += jobs.len() as u64;
        let reads = self.joint_reads(name).unwrap_or_default();
        let answers = reads.answers.iter().filter(|cond| self.may_be_told(**cond));
        let tests: Vec<CondId> = reads.tests.iter().chain(answers).copied().collect();
        let counted = reads.tests.len();
        let cases: Vec<Case> = jobs
            .iter()
            .map(|job| {
                let facts = self.both.complete(job, None);
                let judge = Judge { world: &self.both, facts: &facts };
                Case {
                    before: self.answer(0, at[0], job),
                    after: self.answer(1, at[1], job),
                    truths: tests.iter().map(|test| judge.condition(*test, None)).collect(),
                }
            })
            .collect();
        let order = &self.worlds[0].questions[usize::from(self.worlds[0].law.questions[at[0]].question.0)].order;
        let Some(changed) = changed else {
            return match cases.iter().position(|case| case.before != case.after) {
                None => Ok(()),
                Some(job) => Err(format!(
                    "is not told, but changes from {:?} to {:?} for {:?}",
                    cases[job].before, cases[job].after, jobs[job]
                )),
            };
        };
        tally.changed += 1;
        tally.changes += changed.changes.len() as u64;
        let whose = self.exactly(changed, &tests, &cases, &jobs, order, tally)?;
        self.nothing_idle(changed, &tests, &cases, &whose, tally)?;
        let vectors = |number: Option<usize>| -> u128 {
            let of = cases.iter().zip(&whose).filter(|(_, own)| number.is_none() || **own == number);
            of.map(|(case, _)| &case.truths[..counted]).collect::<BTreeSet<_>>().len() as u128
        };
        let mut same = |told: Option<u128>, found: u128, of: &str| match told {
            None => {
                tally.uncounted += 1;
                Ok(())
            }
            Some(told) if told == found => {
                tally.counted += 1;
                Ok(())
            }
            Some(told) => Err(format!("{told} kinds are told of {of}, there are {found}")),
        };
        same(changed.kinds, vectors(None), "the question")?;
        for (number, change) in changed.changes.iter().enumerate() {
            same(change.kinds, vectors(Some(number)), "a change")?;
        }
        self.witnesses(changed, &cases, &whose, at, tally)
    }

    /// A job's answers differ where the conditions of exactly one change hold, the
    /// change to which its two answers belong. Gives the change of every job.
    fn exactly(
        &self,
        changed: &Changed,
        tests: &[CondId],
        cases: &[Case],
        jobs: &[PlainJob],
        order: &Order,
        tally: &mut Tally,
    ) -> Result<Vec<Option<usize>>, String> {
        let mut answers: BTreeMap<usize, (Told, Told)> = BTreeMap::new();
        let mut whose = Vec::with_capacity(cases.len());
        for (case, job) in cases.iter().zip(jobs) {
            let fits = |condition: &Condition| holds(&condition.tests, tests, &case.truths);
            let own: Vec<usize> = changed
                .changes
                .iter()
                .enumerate()
                .filter(|(_, change)| change.conditions.iter().any(&fits))
                .map(|(number, _)| number)
                .collect();
            let differs = case.before != case.after;
            if own.len() != usize::from(differs) {
                return Err(format!(
                    "{own:?} of the changes hold for a job that goes from {:?} to {:?}: {job:?}\n{}",
                    case.before,
                    case.after,
                    self.shown(changed)
                ));
            }
            whose.push(own.first().copied());
            let Some(number) = own.first() else { continue };
            let told = as_told(order, &case.before, &case.after);
            let known = answers.entry(*number).or_insert_with(|| told.clone());
            if *known != told {
                return Err(format!("change {number} is of {known:?} and of {told:?}"));
            }
            let change = &changed.changes[*number];
            let marks =
                (change.before.referred(), change.before.conflict(), change.after.referred(), change.after.conflict());
            if marks != (told.0.refer, told.0.conflict, told.1.refer, told.1.conflict) {
                return Err(format!("change {number} is marked {marks:?}, but is of {told:?}"));
            }
            for (mark, count) in
                [("referred", told.0.refer || told.1.refer), ("conflict", told.0.conflict || told.1.conflict)]
            {
                *tally.with.entry(mark).or_default() += u64::from(count);
            }
        }
        if answers.len() != changed.changes.len() {
            return Err(format!("some change is of no job\n{}", self.shown(changed)));
        }
        let distinct: BTreeSet<&(Told, Told)> = answers.values().collect();
        if distinct.len() != answers.len() {
            return Err(format!("two changes are of the same answers\n{}", self.shown(changed)));
        }
        Ok(whose)
    }

    /// No test and no condition can be left out, and where it is said that no fewer
    /// conditions do, none do.
    fn nothing_idle(
        &self,
        changed: &Changed,
        tests: &[CondId],
        cases: &[Case],
        whose: &[Option<usize>],
        tally: &mut Tally,
    ) -> Result<(), String> {
        for (number, change) in changed.changes.iter().enumerate() {
            tally.conditions += change.conditions.len() as u64;
            tally.several += u64::from(change.conditions.len() > 1);
            tally.not_proven += u64::from(!change.fewest);
            let concerned = |own: &Option<usize>| *own == Some(number);
            for condition in &change.conditions {
                for (cond, _) in &condition.tests {
                    let node = &self.both.law.nodes[cond.0 as usize];
                    *tally.with.entry(kind_of_test(node)).or_default() += 1;
                }
                for left_out in 0..condition.tests.len() {
                    let mut rest = condition.tests.clone();
                    rest.remove(left_out);
                    let others = cases.iter().zip(whose).filter(|(case, _)| holds(&rest, tests, &case.truths));
                    if others.clone().all(|(_, own)| concerned(own)) {
                        return Err(format!("test {left_out} can be left out of\n{}", self.shown(changed)));
                    }
                }
            }
            for left_out in 0..change.conditions.len() {
                let mut of = cases.iter().zip(whose).filter(|(_, own)| concerned(own));
                let needed = of.any(|(case, _)| {
                    !change
                        .conditions
                        .iter()
                        .enumerate()
                        .any(|(at, condition)| at != left_out && holds(&condition.tests, tests, &case.truths))
                });
                if !needed {
                    return Err(format!("condition {left_out} can be left out of\n{}", self.shown(changed)));
                }
            }
            if change.fewest && change.conditions.len() > 1 && tests.len() <= TESTS_TRIED {
                tally.searched += 1;
                let split = |own: bool| -> Vec<&Truths> {
                    let of = cases.iter().zip(whose).filter(|(_, of)| concerned(of) == own);
                    of.map(|(case, _)| &case.truths).collect::<BTreeSet<_>>().into_iter().collect()
                };
                if can_be_said_in(change.conditions.len() - 1, &split(true), &split(false)) {
                    return Err(format!("fewer conditions do than\n{}", self.shown(changed)));
                }
            }
        }
        Ok(())
    }

    /// Each job that is shown has, by an ordinary verdict, the one answer before and
    /// the other after.
    fn witnesses(
        &self,
        changed: &Changed,
        cases: &[Case],
        whose: &[Option<usize>],
        at: [usize; 2],
        tally: &mut Tally,
    ) -> Result<(), String> {
        for (number, change) in changed.changes.iter().enumerate() {
            let of: Vec<&Case> =
                cases.iter().zip(whose).filter(|(_, own)| **own == Some(number)).map(|(case, _)| case).collect();
            for condition in &change.conditions {
                let mut found = Vec::new();
                for (side, question) in at.into_iter().enumerate() {
                    found.push(self.verdict(&condition.job, side, question)?);
                }
                let [Some(one), Some(two)] = &found[..] else {
                    // Whether an instrument has begun is in no job.
                    if self.worlds.iter().all(|world| world.law.spans.is_empty()) {
                        return Err(format!("the job is answered openly: {:?}", condition.job));
                    }
                    tally.open_witnesses += 1;
                    continue;
                };
                tally.witnesses += 1;
                let alike = |one: &Told, two: &Told| {
                    one.conflict == two.conflict && (one.conflict || one.refer == two.refer) && one.parts == two.parts
                };
                if !of.iter().any(|case| alike(one, &case.before) && alike(two, &case.after)) {
                    return Err(format!("the job goes from {one:?} to {two:?}: {:?}", condition.job));
                }
            }
        }
        Ok(())
    }

    /// What an ordinary verdict answers; nothing where it is open.
    fn verdict(&self, job: &crate::job::model::Job, side: usize, question: usize) -> Result<Option<Told>, String> {
        let of = self.sides[side];
        let mut job = self.bench.job(job, side, of);
        let world = &self.worlds[side];
        if let Some(day) = of.on {
            for (number, field) in world.fields.iter().enumerate() {
                if field.shape == Shape::Date && !world.listed(crate::glossary::model::FieldId(number as u16)) {
                    job.values[number] = Given::Date(day);
                }
            }
        }
        let matter = of.rules.matter(&job).map_err(|told| format!("{told:?}"))?;
        let verdict = full(&matter, &mut Scratch::default());
        let Some(answer) = verdict.answers.iter().find(|answer| answer.number == question) else {
            return Err("the verdict does not answer the question".to_owned());
        };
        let found = &answer.found;
        let (refer, conflict) = (found.state == State::Referred, found.state == State::Conflict);
        Ok(match (&found.state, &found.value) {
            (State::Open, _) | (_, None) => None,
            (_, Some(parts)) => Some(told(world, question, parts.as_slice(), refer, conflict)),
        })
    }

    /// How many kinds all tests of all questions tell apart.
    fn all_kinds(
        &self,
        before: &BTreeMap<String, usize>,
        after: &BTreeMap<String, usize>,
        kinds: Option<(u128, u128)>,
        most: usize,
        tally: &mut Tally,
    ) -> Result<(), String> {
        let Some((some, all)) = kinds else {
            tally.uncounted += 1;
            return Ok(());
        };
        let every = |known: &BTreeMap<String, usize>| known.values().copied().collect::<Vec<_>>();
        let (one, two) = (self.seen(0, &every(before)), self.seen(1, &every(after)));
        let Some(jobs) = jobs([&one, &two], most) else { return Ok(()) };
        let mut reads = Reads::default();
        for at in 0..self.both.law.questions.len() {
            reads.question(&self.both, at);
        }
        let (mut every, mut changing) = (BTreeSet::new(), BTreeSet::new());
        for job in &jobs {
            let facts = self.both.complete(job, None);
            let judge = Judge { world: &self.both, facts: &facts };
            let truths: Truths = reads.tests.iter().map(|test| judge.condition(*test, None)).collect();
            let differs = before.iter().filter_map(|(name, one)| Some((*one, *after.get(name)?)));
            if differs.into_iter().any(|(one, two)| self.answer(0, one, job) != self.answer(1, two, job)) {
                changing.insert(truths.clone());
            }
            every.insert(truths);
        }
        tally.counted_all += 1;
        let found = (changing.len() as u128, every.len() as u128);
        if (some, all) != found {
            return Err(format!("{some} of {all} kinds are told to change, there are {} of {}", found.0, found.1));
        }
        Ok(())
    }

    fn shown(&self, changed: &Changed) -> String {
        let mut text = String::new();
        for change in &changed.changes {
            text += &format!("  {:?}\n  -> {:?}\n", change.before, change.after);
            for condition in &change.conditions {
                let words: Vec<String> =
                    condition.tests.iter().map(|(cond, holds)| self.bench.test(*cond, *holds)).collect();
                text += &format!("    - {}\n", words.join(" and "));
            }
        }
        text
    }
}

fn kind_of_test(node: &Node) -> &'static str {
    use crate::glossary::expr::Check;
    match node {
        Node::Entries { .. } => "list",
        Node::Span(_) => "unknown span",
        Node::Answer { .. } => "answer",
        Node::Field(_, Check::Within(..)) => "within",
        Node::Field(_, Check::Before(_) | Check::From(_)) => "date",
        Node::Field(_, Check::Includes(_)) => "several",
        _ => "fact",
    }
}

/// Whether tests all hold for a job, none of them turning on a referred question.
fn holds(wanted: &[(CondId, bool)], tests: &[CondId], truths: &Truths) -> bool {
    wanted.iter().all(|(cond, holds)| {
        let at = tests.iter().position(|test| test == cond).expect("a test of the question");
        truths[at] == Some(*holds)
    })
}

/// Whether so many conditions hold for exactly the wanted jobs, by trying all that
/// hold for the first that is left.
fn can_be_said_in(count: usize, wanted: &[&Truths], others: &[&Truths]) -> bool {
    let Some(first) = wanted.first() else { return true };
    if count == 0 {
        return false;
    }
    let fits = |kept: u32, job: &Truths| {
        (0..first.len()).all(|at| kept >> at & 1 == 0 || first[at].is_some() && job[at] == first[at])
    };
    (0..1u32 << first.len()).filter(|kept| fits(*kept, first)).any(|kept| {
        !others.iter().any(|job| fits(kept, job)) && {
            let left: Vec<&Truths> = wanted.iter().copied().filter(|job| !fits(kept, job)).collect();
            can_be_said_in(count - 1, &left, others)
        }
    })
}

fn cases() -> u32 {
    crate::oracle::cases(48)
}

#[test]
fn what_two_laws_answer_otherwise_is_what_trying_every_job_finds() {
    let tally = RefCell::new(Tally::default());
    let config = Config {
        cases: cases(),
        failure_persistence: None,
        max_global_rejects: 1 << 20,
        max_shrink_iters: 400,
        ..Config::default()
    };
    // The same pairs in every run, and others where more are asked for.
    let mut runner = match std::env::var_os("ORACLE_CASES") {
        Some(_) => TestRunner::new(config),
        None => TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha)),
    };
    let outcome = runner.run(&prop::collection::vec(any::<u16>(), 0..160), |numbers| {
        let pair = generate::pair(&numbers);
        let rules = |text: &str| {
            let rules = generate::rules(text, pair.contrary);
            if rules.usable() {
                return Ok(rules);
            }
            let problems: Vec<String> = rules.problems().collect();
            Err(TestCaseError::fail(format!("{problems:?}\n{text}")))
        };
        let (one, two) = (rules(&pair.before)?, rules(&pair.after)?);
        let side = |rules, place: &str, on| Side { rules, place: generate::place(rules, place), on };
        let before = side(&one, pair.places[0], pair.on[0]);
        let after = side(&two, pair.places[1], pair.on[1]);
        let most = MOST[usize::from(cases() < 1_000)];
        hold(before, after, most, &mut tally.borrow_mut()).map_err(|told| {
            TestCaseError::fail(format!(
                "{told}\n--- before, {} {:?}\n{}\n--- after, {} {:?}\n{}",
                pair.places[0], pair.on[0], pair.before, pair.places[1], pair.on[1], pair.after
            ))
        })
    });
    match outcome {
        Ok(()) => {}
        Err(TestError::Fail(why, _)) => panic!("{why}"),
        Err(problem) => panic!("{problem}"),
    }
    let tally = tally.into_inner();
    println!("{tally:#?}");
    // The generator must go on making pairs of every kind that can be tried.
    assert!(tally.questions > 5 * tally.too_large && tally.changed > tally.pairs / 2);
    assert!(tally.searched > 0 && tally.counted > 10 * tally.uncounted && tally.witnesses > tally.open_witnesses);
    if cases() >= 2_000 {
        let with: Vec<&str> = tally.with.iter().filter(|(_, count)| **count > 0).map(|(name, _)| *name).collect();
        let all = ["answer", "conflict", "date", "fact", "list", "referred", "several", "unknown span", "within"];
        assert_eq!(with, all);
    }
}
