//! Decision diagrams with many values and many ends: each inner node looks at
//! one unknown fact and has a branch for each of its cells; equal diagrams are
//! one. A first-to-last walk meets completions in their order.
//!
//! This module knows neither facts nor law, only numbers.

use super::cells::TooMany;
use super::hash::{Quick, Table};
use super::stop;
use std::hash::Hasher;

/// A diagram: an end with its value, or a node.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Ref(u32);

const END: u32 = 1 << 31;

impl Ref {
    /// The diagram that ends here at once.
    pub(crate) fn end(value: u32) -> Ref {
        Ref(value | END)
    }

    /// The value, where the diagram is an end.
    pub(crate) fn value(self) -> Option<u32> {
        (self.0 & END != 0).then_some(self.0 & !END)
    }
}

#[derive(Clone, Copy, Debug)]
struct Spot {
    variable: u32,
    start: u32,
    count: u32,
}

/// All diagrams of one question.
#[derive(Debug)]
pub(crate) struct Diagrams {
    spots: Vec<Spot>,
    branches: Vec<Ref>,
    /// Open addressing: the number of a spot plus one, or zero.
    index: Vec<u32>,
    steps: usize,
    limit: usize,
}

/// How many steps are made between two looks whether the work was called off.
const BETWEEN_LOOKS: usize = 4_096;

/// No variable: stands below all others.
const BOTTOM: u32 = u32::MAX;

impl Diagrams {
    pub(crate) fn new(limit: usize) -> Diagrams {
        Diagrams { spots: Vec::new(), branches: Vec::new(), index: vec![0; 256], steps: 0, limit }
    }

    /// Grants so many steps from here on, whatever was spent.
    pub(crate) fn allow(&mut self, steps: usize) {
        self.limit = self.steps.saturating_add(steps);
    }

    /// The variable that a diagram looks at first.
    pub(crate) fn variable(&self, of: Ref) -> Option<u32> {
        match of.value() {
            Some(_) => None,
            None => self.spots.get(of.0 as usize).map(|spot| spot.variable),
        }
    }

    /// The branches of a node, by cell; none for an end.
    pub(crate) fn branches(&self, of: Ref) -> &[Ref] {
        match of.value() {
            Some(_) => &[],
            None => self
                .spots
                .get(of.0 as usize)
                .and_then(|spot| self.branches.get(spot.start as usize..(spot.start + spot.count) as usize))
                .unwrap_or(&[]),
        }
    }

    /// The node that looks at a variable and goes on with these; every branch
    /// must look at later variables only.
    pub(crate) fn node(&mut self, variable: u32, branches: &[Ref]) -> Result<Ref, TooMany> {
        let Some(first) = branches.first() else { return Err(TooMany) };
        if branches.iter().all(|branch| branch == first) {
            return Ok(*first);
        }
        let hash = hash(variable, branches);
        let mut at = hash as usize & (self.index.len() - 1);
        while let Some(entry) = self.index.get(at).copied() {
            if entry == 0 {
                break;
            }
            let found = Ref(entry - 1);
            if self.variable(found) == Some(variable) && self.branches(found) == branches {
                return Ok(found);
            }
            at = (at + 1) & (self.index.len() - 1);
        }
        self.spend(branches.len())?;
        let made = Ref(self.spots.len() as u32);
        self.spots.push(Spot { variable, start: self.branches.len() as u32, count: branches.len() as u32 });
        self.branches.extend_from_slice(branches);
        if let Some(slot) = self.index.get_mut(at) {
            *slot = made.0 + 1;
        }
        if self.spots.len() * 2 > self.index.len() {
            self.grow();
        }
        Ok(made)
    }

    fn grow(&mut self) {
        let size = self.index.len() * 4;
        let mut index = vec![0u32; size];
        for number in 0..self.spots.len() as u32 {
            let made = Ref(number);
            let Some(variable) = self.variable(made) else { continue };
            let mut at = hash(variable, self.branches(made)) as usize & (size - 1);
            while index.get(at).is_some_and(|entry| *entry != 0) {
                at = (at + 1) & (size - 1);
            }
            if let Some(slot) = index.get_mut(at) {
                *slot = number + 1;
            }
        }
        self.index = index;
    }

    fn spend(&mut self, steps: usize) -> Result<(), TooMany> {
        let before = self.steps;
        self.steps += steps;
        // To look at every step whether the work was called off would cost more than the steps.
        let looks = before / BETWEEN_LOOKS != self.steps / BETWEEN_LOOKS;
        if self.steps > self.limit || looks && stop::called() { Err(TooMany) } else { Ok(()) }
    }

    /// Joins two diagrams end by end.
    pub(crate) fn join(&mut self, one: Ref, two: Ref, op: &mut dyn FnMut(u32, u32) -> u32) -> Result<Ref, TooMany> {
        self.join_with(one, two, &mut Table::default(), &mut |a, b| match (a.value(), b.value()) {
            (Some(a), Some(b)) => Some(Ref::end(op(a, b))),
            _ => None,
        })
    }

    /// Joins two diagrams; where the operation gives a result before both have
    /// ended, that is taken.
    pub(crate) fn join_with(
        &mut self,
        one: Ref,
        two: Ref,
        memo: &mut Table<(Ref, Ref), Ref>,
        op: &mut dyn FnMut(Ref, Ref) -> Option<Ref>,
    ) -> Result<Ref, TooMany> {
        if let Some(done) = op(one, two) {
            return Ok(done);
        }
        if let Some(done) = memo.get(&(one, two)) {
            return Ok(*done);
        }
        let (first, second) = (self.variable(one).unwrap_or(BOTTOM), self.variable(two).unwrap_or(BOTTOM));
        let variable = first.min(second);
        if variable == BOTTOM {
            return Err(TooMany);
        }
        let count = if first == variable { self.branches(one).len() } else { self.branches(two).len() };
        self.spend(count)?;
        let mut branches = Vec::with_capacity(count);
        for cell in 0..count {
            let left = if first == variable { self.branches(one).get(cell).copied().unwrap_or(one) } else { one };
            let right = if second == variable { self.branches(two).get(cell).copied().unwrap_or(two) } else { two };
            branches.push(self.join_with(left, right, memo, op)?);
        }
        let made = self.node(variable, &branches)?;
        memo.insert((one, two), made);
        Ok(made)
    }

    /// Changes the ends of a diagram.
    pub(crate) fn map(&mut self, of: Ref, op: &mut dyn FnMut(u32) -> u32) -> Result<Ref, TooMany> {
        self.map_with(of, &mut Table::default(), op)
    }

    fn map_with(
        &mut self,
        of: Ref,
        memo: &mut Table<Ref, Ref>,
        op: &mut dyn FnMut(u32) -> u32,
    ) -> Result<Ref, TooMany> {
        if let Some(value) = of.value() {
            return Ok(Ref::end(op(value)));
        }
        if let Some(done) = memo.get(&of) {
            return Ok(*done);
        }
        let old = self.branches(of).to_vec();
        self.spend(old.len())?;
        let mut branches = Vec::with_capacity(old.len());
        for branch in old {
            branches.push(self.map_with(branch, memo, op)?);
        }
        let made = self.node(self.variable(of).unwrap_or(BOTTOM), &branches)?;
        memo.insert(of, made);
        Ok(made)
    }

    /// The diagram that looks at a variable and goes on with these, whatever
    /// variables they look at.
    pub(crate) fn choose(&mut self, variable: u32, cases: &[Ref]) -> Result<Ref, TooMany> {
        let first = cases.iter().filter_map(|case| self.variable(*case)).min().unwrap_or(BOTTOM);
        if first > variable {
            return self.node(variable, cases);
        }
        let Some(count) =
            cases.iter().find(|case| self.variable(**case) == Some(first)).map(|case| self.branches(*case).len())
        else {
            return Err(TooMany);
        };
        self.spend(count * cases.len())?;
        let mut branches = Vec::with_capacity(count);
        for cell in 0..count {
            let under: Vec<Ref> = cases
                .iter()
                .map(|case| {
                    if self.variable(*case) == Some(first) {
                        self.branches(*case).get(cell).copied().unwrap_or(*case)
                    } else {
                        *case
                    }
                })
                .collect();
            // A case that looks at the variable itself is followed at its own cell.
            branches.push(if first == variable {
                under.get(cell).copied().unwrap_or(Ref::end(0))
            } else {
                self.choose(variable, &under)?
            });
        }
        self.node(first, &branches)
    }

    /// The values of all ends.
    pub(crate) fn ends(&self, of: Ref) -> Vec<u32> {
        let mut found = Vec::new();
        let mut seen: Table<Ref, ()> = Table::default();
        let mut left = vec![of];
        while let Some(at) = left.pop() {
            if seen.insert(at, ()).is_some() {
                continue;
            }
            match at.value() {
                Some(value) => found.push(value),
                None => left.extend(self.branches(at)),
            }
        }
        found.sort_unstable();
        found
    }

    /// The variables that some node looks at.
    pub(crate) fn looked_at(&self, of: Ref) -> Vec<(u32, Ref)> {
        let mut found = Vec::new();
        let mut seen: Table<Ref, ()> = Table::default();
        let mut left = vec![of];
        while let Some(at) = left.pop() {
            if seen.insert(at, ()).is_some() {
                continue;
            }
            if let Some(variable) = self.variable(at) {
                found.push((variable, at));
                left.extend(self.branches(at));
            }
        }
        found.sort_unstable();
        found
    }

    /// The first walk to an end that is wanted: a cell for every variable that
    /// it looks at; those it does not look at are free.
    pub(crate) fn first(&self, of: Ref, wanted: &dyn Fn(u32) -> bool) -> Option<Vec<(u32, usize)>> {
        let mut dead: Table<Ref, ()> = Table::default();
        let mut walk = Vec::new();
        self.first_from(of, wanted, &mut dead, &mut walk).then_some(walk)
    }

    fn first_from(
        &self,
        of: Ref,
        wanted: &dyn Fn(u32) -> bool,
        dead: &mut Table<Ref, ()>,
        walk: &mut Vec<(u32, usize)>,
    ) -> bool {
        if let Some(value) = of.value() {
            return wanted(value);
        }
        if dead.contains_key(&of) {
            return false;
        }
        let variable = self.variable(of).unwrap_or(BOTTOM);
        for (cell, branch) in self.branches(of).iter().enumerate() {
            walk.push((variable, cell));
            if self.first_from(*branch, wanted, dead, walk) {
                return true;
            }
            walk.pop();
        }
        dead.insert(of, ());
        false
    }
}

fn hash(variable: u32, branches: &[Ref]) -> u64 {
    let mut hasher = Quick::default();
    hasher.write_u32(variable);
    for branch in branches {
        hasher.write_u32(branch.0);
    }
    hasher.finish()
}
