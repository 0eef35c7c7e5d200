//! The smallest changes that reach every goal. From the job as it stands the first
//! goal that is not reached is mended in every smallest way; what that leaves is looked
//! at in turn. Whatever changes reach all goals contain such a way for each goal on
//! the road, so that none is missed within the bounds.

use super::bench::{Bench, Goal, Moves};
use super::limits::JOBS;
use crate::verdict::board::NO_PRICE;
use crate::verdict::paths::Path;
use std::collections::{BTreeMap, BTreeSet};

/// What was found.
#[derive(Clone, Debug, Default)]
pub(crate) struct Search {
    /// Changes of which none contains another.
    pub(crate) found: Vec<Moves>,
    /// Whether a bound kept something from being looked at.
    pub(crate) cut: bool,
}

/// How far to go.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Reach {
    /// The most changes.
    pub(crate) changes: u32,
    /// Whether to end with the fewest changes that do.
    pub(crate) fewest: bool,
}

/// Looks for the smallest changes that reach all goals.
pub(crate) fn search(bench: &mut Bench<'_, '_>, goals: &[Goal], reach: Reach) -> Search {
    let mut search = Search::default();
    let mut left: BTreeMap<u32, BTreeSet<Moves>> = BTreeMap::from([(0, BTreeSet::from([Moves::new()]))]);
    let mut seen: BTreeSet<Moves> = BTreeSet::new();
    while let Some((cost, moves)) = next(&mut left) {
        if reach.fewest && search.found.iter().any(|found| bench.cost(found) < cost) {
            break;
        }
        if !seen.insert(moves.clone()) || search.found.iter().any(|found| bench.contains(&moves, found)) {
            continue;
        }
        if seen.len() > JOBS {
            search.cut = true;
            break;
        }
        let missed = goals.iter().find(|goal| !bench.reached(**goal, &moves)).copied();
        let Some(missed) = missed else {
            search.found.push(moves);
            continue;
        };
        for further in bench.repairs(missed, &moves, reach.changes.saturating_sub(cost), &mut search.cut) {
            let mut all = moves.clone();
            all.extend(further);
            let cost = bench.cost(&all);
            if cost <= reach.changes {
                left.entry(cost).or_default().insert(all);
            } else {
                search.cut = true;
            }
        }
    }
    let all = std::mem::take(&mut search.found);
    search.found = all.iter().filter(|one| !all.iter().any(|other| bench.beats(other, one))).cloned().collect();
    search
}

fn next(left: &mut BTreeMap<u32, BTreeSet<Moves>>) -> Option<(u32, Moves)> {
    let mut entry = left.first_entry()?;
    let cost = *entry.key();
    let moves = entry.get_mut().pop_first();
    if entry.get().is_empty() {
        entry.remove();
    }
    moves.map(|moves| (cost, moves))
}

impl Bench<'_, '_> {
    /// Whether the changes hold all of the others. A set to which more is added, or of
    /// which more is taken out, holds the lesser change.
    pub(crate) fn contains(&self, moves: &Moves, others: &Moves) -> bool {
        others.iter().all(|(lever, cell)| {
            moves.get(lever).is_some_and(|own| {
                own == cell || self.levers.get(*lever).is_some_and(|lever| lever.turns_more(*own, *cell))
            })
        })
    }

    /// How many changes these are; entries of a list that say the same and are changed
    /// alike count once.
    pub(crate) fn cost(&self, moves: &Moves) -> u32 {
        let mut kinds: BTreeSet<(usize, usize)> = BTreeSet::new();
        let mut facts = 0;
        for (number, cell) in moves {
            match self.levers.get(*number) {
                Some(lever) if matches!(lever.path, Path::Attribute { .. }) => {
                    kinds.insert((lever.kin, *cell));
                }
                _ => facts += 1,
            }
        }
        facts + kinds.len() as u32
    }

    /// Whether some changes make others needless: they are contained in them, or they
    /// are fewer, change no fact otherwise and no other entry.
    pub(crate) fn beats(&self, one: &Moves, other: &Moves) -> bool {
        if one == other {
            return false;
        }
        if self.contains(other, one) {
            return true;
        }
        let entries = |moves: &Moves| -> BTreeSet<_> {
            let paths = moves.keys().filter_map(|lever| self.levers.get(*lever)).map(|lever| lever.path);
            paths
                .filter_map(
                    |path| if let Path::Attribute { group, entry, .. } = path { Some((group, entry)) } else { None },
                )
                .collect()
        };
        let facts = |moves: &Moves| -> Moves {
            let fact = |lever: &usize| self.levers.get(*lever).is_some_and(|lever| matches!(lever.path, Path::Fact(_)));
            moves.iter().filter(|(lever, _)| fact(lever)).map(|(lever, cell)| (*lever, *cell)).collect()
        };
        self.cost(one) < self.cost(other)
            && entries(one).is_subset(&entries(other))
            && self.contains(&facts(other), &facts(one))
    }

    /// The smallest further changes that reach a goal.
    fn repairs(&mut self, goal: Goal, moves: &Moves, budget: u32, cut: &mut bool) -> Vec<Moves> {
        let looks = self.looks(goal);
        let bears = |turns: &Vec<Vec<(usize, usize)>>| turns.iter().flatten().any(|(lever, _)| looks.contains(lever));
        let steps: Vec<usize> =
            self.steps.iter().enumerate().filter(|(_, step)| bears(&step.turns)).map(|(number, _)| number).collect();
        let mut repair = Repair { goal, moves, steps, found: Vec::new(), alone: BTreeSet::new(), cut: false };
        if budget > 0 {
            repair.singly(self);
        }
        repair.go_on(self, 0, &Moves::new(), budget);
        *cut |= repair.cut;
        let all = repair.found;
        all.iter().filter(|one| !all.iter().any(|other| other != *one && self.contains(one, other))).cloned().collect()
    }
}

/// The look for the smallest further changes.
struct Repair<'r> {
    goal: Goal,
    moves: &'r Moves,
    /// The numbers of the steps that bear on the goal, those of several entries first.
    steps: Vec<usize>,
    found: Vec<Moves>,
    /// The turns that reach it by themselves.
    alone: BTreeSet<(usize, usize)>,
    cut: bool,
}

impl Repair<'_> {
    /// Takes in what reaches the goal by one turn. What goes on from there leaves these
    /// out, and most often finds that nothing else does it.
    fn singly(&mut self, bench: &mut Bench<'_, '_>) {
        for number in self.steps.clone() {
            let Some(step) = bench.steps.get(number).cloned() else { continue };
            for turn in step.turns {
                let chosen: Moves = turn.into_iter().filter(|(lever, _)| !self.moves.contains_key(lever)).collect();
                let all: Moves = self.moves.iter().chain(&chosen).map(|(lever, cell)| (*lever, *cell)).collect();
                if !chosen.is_empty() && bench.reached(self.goal, &all) {
                    let least = self.shrink(bench, &chosen);
                    if least.len() == 1 {
                        self.alone.extend(least.iter().map(|(lever, cell)| (*lever, *cell)));
                    }
                    if !self.found.contains(&least) {
                        self.found.push(least);
                    }
                }
            }
        }
    }

    fn go_on(&mut self, bench: &mut Bench<'_, '_>, from: usize, chosen: &Moves, budget: u32) {
        let with = |chosen: &Moves| -> Moves {
            self.moves.iter().chain(chosen).map(|(lever, cell)| (*lever, *cell)).collect()
        };
        let all = with(chosen);
        if self.found.iter().any(|found| found == chosen || bench.beats(&with(found), &all)) {
            return;
        }
        if !chosen.is_empty() && bench.reached(self.goal, &all) {
            let least = self.shrink(bench, chosen);
            if !self.found.contains(&least) {
                self.found.push(least);
            }
            return;
        }
        let steps = self.steps.get(from..).unwrap_or_default().to_vec();
        let several = steps.iter().any(|step| bench.steps.get(*step).is_some_and(|step| step.several));
        let open: BTreeSet<usize> = steps
            .iter()
            .filter_map(|step| bench.steps.get(*step))
            .flat_map(|step| step.turns.iter().flatten().map(|(lever, _)| *lever))
            .collect();
        let entry =
            |lever: usize| bench.levers.get(lever).is_some_and(|lever| matches!(lever.path, Path::Attribute { .. }));
        // Many entries turn at the cost of one as long as they can be turned together.
        let cost = |lever: usize| open.contains(&lever).then(|| u32::from(!(several && entry(lever))));
        let least = bench.least(self.goal, &all, &cost, &self.alone);
        if least == NO_PRICE {
            return;
        }
        if least > budget || budget == 0 {
            self.cut = true;
            return;
        }
        for (at, number) in (from..).zip(steps) {
            let Some(step) = bench.steps.get(number).cloned() else { continue };
            for turn in step.turns {
                let mut larger = chosen.clone();
                larger.extend(turn.into_iter().filter(|(lever, _)| !all.contains_key(lever)));
                if larger.len() == chosen.len() {
                    continue;
                }
                self.go_on(bench, at + 1, &larger, budget - 1);
            }
        }
    }

    /// Leaves out what is not needed for the goal.
    fn shrink(&self, bench: &mut Bench<'_, '_>, chosen: &Moves) -> Moves {
        let mut least = chosen.clone();
        for lever in chosen.keys() {
            let mut fewer = least.clone();
            fewer.remove(lever);
            let all: Moves = self.moves.iter().chain(&fewer).map(|(lever, cell)| (*lever, *cell)).collect();
            if !fewer.is_empty() && bench.reached(self.goal, &all) {
                least = fewer;
            }
        }
        least
    }
}
