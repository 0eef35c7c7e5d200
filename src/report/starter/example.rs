//! The example of a starter: a job on the first day, and what comes out.

use super::ground::Ground;
use crate::job::{Defaults, read_sheet};
use crate::rules::Rules;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::Item;
use crate::syntax::{Kind, parse};
use crate::verdict::Scratch;
use crate::verdict::found::State;
use crate::verdict::value::{self, Items};

/// A job that any official knows, in the words of the trade.
const USUAL: &[&str] = &[
    "occupancy commercial",
    "work new-system",
    "building main",
    "run { material csst jacket plain role distribution }",
    "appliance { powered yes }",
];

/// The job and what is expected of it.
pub(super) struct Example {
    pub(super) job: Vec<String>,
    /// What the question comes to, such as `direct-bond is required`.
    pub(super) expects: Option<String>,
    /// Whether the edition that is amended stands for the job.
    pub(super) amended: bool,
}

impl Example {
    /// The usual job where the rules know its words, else one that says its day alone.
    pub(super) fn of(rules: &Rules, ground: &Ground) -> Example {
        let mut dates: Vec<String> = ground.dates.iter().map(|fact| format!("{fact} {}", ground.from)).collect();
        // So that it comes out whatever may be elected in these days.
        dates.extend(ground.elects_later.clone());
        let usual: Vec<String> = dates.iter().cloned().chain(USUAL.iter().map(|line| (*line).to_owned())).collect();
        for job in [usual, dates.clone()] {
            if let Some((expects, amended)) = weigh(rules, ground, &job) {
                return Example { job, expects, amended };
            }
        }
        Example { job: dates, expects: None, amended: false }
    }
}

/// What the question comes to for the job at the place, or around it where it is
/// still to be declared: its own rules do not bear on that; and whether the edition that
/// is amended stands for it. Nothing where the rules do not know the job's words.
fn weigh(rules: &Rules, ground: &Ground, job: &[String]) -> Option<(Option<String>, bool)> {
    let place = if ground.place.is_some() { &ground.within } else { &ground.name };
    let sheet = format!("place {place}\n{}\n", job.join("\n"));
    let parsed = parse(FileId::default(), &sheet, Kind::Job);
    let Some(Item::Job(tree)) = parsed.tree.items.first() else { return None };
    let job = read_sheet(tree, FileId::default(), rules.desk(), &Defaults::default()).ok()?;
    let matter = rules.matter(&job).ok()?;
    let verdict = rules.weighed(&matter, &mut Scratch::default());
    let expects = verdict.answers.iter().find(|answer| ground.question.as_deref() == Some(&*answer.question.name));
    let amended = verdict.codes.iter().any(|edition| {
        let name = format!("{} {}", edition.code.code, edition.code.edition);
        !edition.possible && ground.edition.as_ref().is_some_and(|standing| standing.name == name)
    });
    // The strictest rung alone stays what it is when a sleeping section wakes.
    let expects = expects.and_then(|answer| match (&answer.found.state, &answer.value.as_ref()?.items) {
        (State::Settled, Items::One(value::Item::Rung(rung))) => Some(format!("{} is {rung}", answer.question.name)),
        _ => None,
    });
    let expects = expects.filter(|line| ground.demand.as_deref() == Some(line));
    Some((expects, amended))
}
