//! What the contractor could choose otherwise so that a job does what the rules ask:
//! the smallest changes, each proven by the evaluator, or the proof that there is none.
//!
//! A change is a fact that the glossary marks `ours to choose`, or an attribute of an
//! entry that is; entries that say the same and are changed alike count as one change.
//! A cure leaves no question worse than it was: none that was not so before becomes not
//! met, referred or contradictory. What it leaves open is told.
//!
//! This module refuses to know the trade, texts and screens.

mod bench;
mod levers;
mod limits;
mod merge;
mod ranges;
mod search;
mod ways;

#[cfg(test)]
mod tests;

pub(crate) use limits::CHANGES;
pub(crate) use ranges::{End, To};
pub(crate) use ways::{Way, Ways, ways};

use crate::glossary::model::{FieldId, GroupId};
use crate::job::model::{Given, Job};
use crate::verdict::cone::Cone;
use crate::verdict::found::Found;
use crate::verdict::model::Verdict;
use crate::verdict::paths::Path;
use crate::verdict::trouble::Trouble;
use crate::verdict::{Matter, Memo, Scratch, Show, TooMany, gates};
use bench::{Bench, Goal, opened, put, whole_cone};
use levers::Levers;
use merge::{Block, merge};
use search::{Reach, Search, search};
use std::collections::BTreeSet;

/// One change of a cure.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Change {
    pub(crate) field: FieldId,
    /// For an attribute its list and the entries, counted from 0.
    pub(crate) entries: Option<(GroupId, Vec<usize>)>,
    /// Whether these are all entries of which the job says the same, several at that.
    pub(crate) every: bool,
    /// What the job says.
    pub(crate) from: Given,
    /// What works instead, all of it with all of the other changes.
    pub(crate) to: Vec<To>,
    /// One value that works.
    pub(crate) such_as: Given,
}

/// Changes that mend.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Cure {
    pub(crate) changes: Vec<Change>,
    /// The questions, by their place in the law, that it mends beside.
    pub(crate) mends: Vec<usize>,
    /// The questions that stay not met, referred or contradictory as they were.
    pub(crate) leaves: Vec<usize>,
    /// The facts that are then to be known, which the job does not hang on now.
    pub(crate) opens: Vec<Path>,
}

/// What was found of cures.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Cures {
    /// The smallest, fewest changes first.
    Found(Vec<Cure>),
    /// No choice of the contractor mends it; this is proven.
    None,
    /// None was found within the bounds, and that there is none is not proven.
    NotDecided,
}

impl Cures {
    /// The cures; none where there is none, or where it is not decided.
    pub(crate) fn list(&self) -> &[Cure] {
        match self {
            Cures::Found(cures) => cures,
            Cures::None | Cures::NotDecided => &[],
        }
    }
}

impl Cure {
    /// The job with the changes made, each with a value that works.
    pub(crate) fn made(&self, matter: &Matter<'_>) -> Job {
        let mut job = matter.job.clone();
        for change in &self.changes {
            for path in change.paths() {
                put(&mut job, path, change.such_as.clone(), matter);
            }
        }
        job
    }
}

impl Change {
    /// The facts that are changed, as the job names them.
    pub(crate) fn paths(&self) -> Vec<Path> {
        match &self.entries {
            None => vec![Path::Fact(self.field)],
            Some((group, entries)) => entries
                .iter()
                .map(|entry| Path::Attribute { group: *group, entry: *entry, field: self.field })
                .collect(),
        }
    }
}

/// The cures of every question that is not met, referred or contradictory, by its place
/// in the law; `found` is what was found of each as the job stands.
pub(crate) fn cures(matter: &Matter<'_>, found: &[Found], scratch: &mut Scratch) -> Vec<(usize, Cures)> {
    let before = troubles(matter, found);
    let heavy: Vec<usize> =
        before.iter().enumerate().filter(|(_, trouble)| trouble.heavy()).map(|(at, _)| at).collect();
    if heavy.is_empty() {
        return Vec::new();
    }
    let stands: BTreeSet<Path> = asked(found);
    let whole = whole_cone(matter);
    let one = [(*matter, whole)];
    let aims: Vec<(usize, &Cone)> =
        heavy.iter().map(|question| (0, matter.plan.cone(matter.law, &matter.lexicon, *question))).collect();
    let done = with_bench(&one, std::slice::from_ref(&before), &aims, |bench, partial| {
        let beside = bench.beside();
        let mut all = Vec::new();
        for question in &heavy {
            let mut goals = vec![Goal::Mended { board: 0, question: *question }];
            let gates = gates(matter, *question).into_iter();
            goals.extend(gates.map(|gate| Goal::Gated { board: 0, question: *question, gate }));
            goals.extend(beside.iter().copied().filter(|goal| *goal != Goal::Spared { board: 0, question: *question }));
            let searched = search(bench, &goals, Reach { changes: limits::CHANGES, fewest: false });
            all.push((*question, told(bench, searched, partial, matter)));
        }
        all
    });
    let Ok(done) = done else { return heavy.into_iter().map(|question| (question, Cures::NotDecided)).collect() };
    let all = done.into_iter().map(|(question, cures)| {
        let aim = Aim { question: Some(question), before: &before, asks: &stands };
        (question, proven(cures, matter, &aim, scratch))
    });
    all.collect()
}

/// The cures of every question of a verdict that is not met, referred or contradictory.
pub(crate) fn of(verdict: &Verdict<'_>, matter: &Matter<'_>) -> Vec<(usize, Cures)> {
    let mut answers: Vec<_> = verdict.answers.iter().collect();
    answers.sort_by_key(|answer| answer.number);
    if answers.len() != matter.law.questions.len() {
        return Vec::new();
    }
    let found: Vec<Found> = answers.into_iter().map(|answer| answer.found.clone()).collect();
    cures(matter, &found, &mut Scratch::default())
}

/// The fewest choices after which nothing in the whole job is not met, referred or
/// contradictory, at every one of these places at once. The jobs differ in their place
/// alone. Cures are told as of the first.
pub(crate) fn all_of(matters: &[Matter<'_>], scratch: &mut Scratch) -> Cures {
    let mut before = Vec::new();
    let mut stands = Vec::new();
    for matter in matters {
        scratch.weigh(matter);
        before.push(troubles(matter, &scratch.found));
        stands.push(asked(&scratch.found));
    }
    let cones: Vec<(Matter<'_>, Cone)> = matters.iter().map(|matter| (*matter, whole_cone(matter))).collect();
    let Some(first) = matters.first() else { return Cures::Found(Vec::new()) };
    let heavy: Vec<(usize, usize)> = before
        .iter()
        .enumerate()
        .flat_map(|(board, all)| {
            all.iter().enumerate().filter(|(_, trouble)| trouble.heavy()).map(move |(question, _)| (board, question))
        })
        .collect();
    if heavy.is_empty() {
        return Cures::Found(vec![Cure {
            changes: Vec::new(),
            mends: Vec::new(),
            leaves: Vec::new(),
            opens: Vec::new(),
        }]);
    }
    let aims: Vec<(usize, &Cone)> = heavy
        .iter()
        .filter_map(|(board, question)| {
            let matter = matters.get(*board)?;
            Some((*board, matter.plan.cone(matter.law, &matter.lexicon, *question)))
        })
        .collect();
    let done = with_bench(&cones, &before, &aims, |bench, partial| {
        let mut goals: Vec<Goal> =
            heavy.iter().map(|(board, question)| Goal::Lightened { board: *board, question: *question }).collect();
        goals.extend(bench.beside());
        let searched = search(bench, &goals, Reach { changes: limits::CHANGES_OF_A_JOB, fewest: true });
        told(bench, searched, partial, first)
    });
    let Ok(mut cures) = done else { return Cures::NotDecided };
    for ((matter, before), asks) in matters.iter().zip(&before).zip(&stands) {
        cures = proven(cures, matter, &Aim { question: None, before, asks }, scratch);
    }
    cures
}

/// What is amiss with each question by what was found.
fn troubles(matter: &Matter<'_>, found: &[Found]) -> Vec<Trouble> {
    let show = |question: usize| matter.plan.asks.get(question).map_or(Show::Nothing, |ask| ask.show);
    found.iter().enumerate().map(|(question, found)| Trouble::of(found, show(question))).collect()
}

/// The facts that some answer hangs on.
fn asked(found: &[Found]) -> BTreeSet<Path> {
    found.iter().flat_map(|found| found.asks.iter().copied()).collect()
}

/// Sets up the levers that these aims read, and works with them.
fn with_bench<T>(
    cones: &[(Matter<'_>, Cone)],
    before: &[Vec<Trouble>],
    aims: &[(usize, &Cone)],
    work: impl FnOnce(&mut Bench<'_, '_>, bool) -> T,
) -> Result<T, TooMany> {
    let levers = Levers::new(cones, aims)?;
    let partial = levers.partial;
    let jobs: Vec<Job> = cones.iter().map(|(matter, _)| opened(matter.job, &levers, matter)).collect();
    let open: Vec<(Matter<'_>, Vec<Trouble>)> = cones
        .iter()
        .zip(&jobs)
        .zip(before)
        .map(|(((matter, _), job), before)| (Matter { job, ..*matter }, before.clone()))
        .collect();
    let mut memos: Vec<Memo> = open.iter().map(|_| Memo::default()).collect();
    let mut bench = Bench::new(&open, &mut memos, levers)?;
    Ok(work(&mut bench, partial))
}

/// What was searched, as cures; what they mend beside and leave is not worked out yet.
fn told(bench: &Bench<'_, '_>, searched: Search, partial: bool, matter: &Matter<'_>) -> Cures {
    if searched.found.is_empty() {
        return if searched.cut || partial { Cures::NotDecided } else { Cures::None };
    }
    let mut blocks = merge(bench, &searched.found);
    let changes = |block: &Block| block.len();
    blocks.sort_by_key(changes);
    let cures = blocks.into_iter().map(|block| {
        let changes = block.into_iter().filter_map(|(turned, cells)| {
            let lever = turned.levers.first().and_then(|first| bench.levers.get(*first))?;
            let entry = |lever: &usize| match bench.levers.get(*lever)?.path {
                Path::Attribute { entry, .. } => Some(entry),
                _ => None,
            };
            let same = bench.levers.iter().filter(|other| other.kin == lever.kin && other.field == lever.field).count();
            Some(Change {
                field: turned.field,
                every: turned.levers.len() > 1 && same == turned.levers.len(),
                entries: turned.group.map(|group| (group, turned.levers.iter().filter_map(entry).collect())),
                from: lever.base.clone(),
                to: ranges::told(lever, &cells, &matter.lexicon),
                such_as: lever.nearest(&cells),
            })
        });
        Cure { changes: changes.collect(), mends: Vec::new(), leaves: Vec::new(), opens: Vec::new() }
    });
    Cures::Found(cures.collect())
}

/// What a cure is for, and how the job stands without it.
struct Aim<'f> {
    /// The question to be mended; nothing where all are.
    question: Option<usize>,
    before: &'f [Trouble],
    asks: &'f BTreeSet<Path>,
}

/// Weighs the job anew with each cure made, keeps those that mend by the verdict, and
/// tells what else becomes of the job.
fn proven(cures: Cures, matter: &Matter<'_>, aim: &Aim<'_>, scratch: &mut Scratch) -> Cures {
    let Cures::Found(mut cures) = cures else { return cures };
    cures.retain_mut(|cure| {
        let job = cure.made(matter);
        scratch.weigh(&Matter { job: &job, ..*matter });
        let after = troubles(matter, &scratch.found);
        let pairs = || aim.before.iter().zip(&after).enumerate();
        let heavy = |question: usize| after.get(question).is_some_and(|trouble| trouble.heavy());
        let mended = match aim.question {
            Some(question) => {
                let asked = scratch.found.get(question).is_some_and(|found| found.asked);
                after.get(question).is_some_and(|trouble| trouble.none())
                    && (asked || !gates(matter, question).into_iter().any(heavy))
            }
            None => after.iter().all(|trouble| !trouble.heavy()),
        };
        if !mended || pairs().any(|(_, (before, after))| after.worse_than(*before)) {
            return false;
        }
        let questions = |test: &dyn Fn(&Trouble, &Trouble) -> bool| -> Vec<usize> {
            pairs().filter(|(_, (before, after))| test(before, after)).map(|(at, _)| at).collect()
        };
        cure.leaves.extend(questions(&|_, after| after.heavy()));
        cure.mends.extend(questions(&|before, after| before.heavy() && after.none()));
        cure.mends.retain(|question| Some(*question) != aim.question);
        let opens: Vec<Path> = asked(&scratch.found).difference(aim.asks).copied().collect();
        cure.opens.extend(opens);
        cure.opens.sort();
        cure.opens.dedup();
        true
    });
    if cures.is_empty() { Cures::NotDecided } else { Cures::Found(cures) }
}
