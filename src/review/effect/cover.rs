//! Which tests tell the wanted jobs from the others: conditions that hold for
//! exactly the wanted ones, of which no test can be left out, in the fewest
//! conditions where that is proven.
//!
//! This file knows neither facts nor words, only diagrams.

use crate::verdict::TooMany;
use crate::verdict::diagram::Ref;
use crate::verdict::logic::{Logic, NO, YES};

/// How many steps the search for fewer conditions may take before it gives up.
const SEARCH_STEPS: usize = 1_000;

/// How often another job is tried to prove two conditions apart.
const JOBS_TRIED: usize = 24;

/// How many steps the conditions of one change may take on the diagrams, and the proof
/// that no fewer do as many again.
const COVER_STEPS: usize = 4_000_000;

/// The most smallest conditions of one job that the search looks at.
const CONDITIONS_OF_ONE: usize = 400;

/// A test as a diagram.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Atom {
    pub(crate) holds: Ref,
    /// How gladly it is left out: the greater the sooner.
    pub(crate) weight: usize,
}

/// One test of a condition, by its number, and whether it is to hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Literal {
    pub(crate) atom: usize,
    pub(crate) holds: bool,
}

/// Conditions, one of which holds for every wanted job and none for another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Cover {
    pub(crate) conditions: Vec<Vec<Literal>>,
    /// Whether it is proven that no fewer conditions do.
    pub(crate) fewest: bool,
}

/// Finds the conditions for the jobs in `on`; `off` are those for which none may
/// hold. Jobs in neither cannot be. The tests must tell the two apart.
///
/// # Errors
/// Where the diagrams pass their bound.
pub(crate) fn cover(logic: &mut Logic, atoms: &[Atom], on: Ref, off: Ref) -> Result<Cover, TooMany> {
    logic.diagrams.allow(COVER_STEPS);
    let mut search = Search::new(logic, atoms, on, off)?;
    let mut found = search.greedy()?;
    search.drop_idle(&mut found)?;
    search.logic.diagrams.allow(COVER_STEPS);
    // Where the proof passes its bound, what was found stands unproven.
    let (found, fewest) = search.fewest(found);
    logic.diagrams.allow(COVER_STEPS);
    let mut conditions: Vec<Vec<Literal>> = found.into_iter().map(|condition| condition.literals).collect();
    conditions.sort_by(|one, two| (one.len(), one).cmp(&(two.len(), two)));
    Ok(Cover { conditions, fewest })
}

/// Tests that all hold together.
#[derive(Clone, Debug)]
struct Condition {
    literals: Vec<Literal>,
    jobs: Ref,
}

enum Tried {
    Found(Vec<Condition>),
    /// There are none.
    None,
    GaveUp,
}

struct Search<'l> {
    logic: &'l mut Logic,
    /// Every test with its contrary.
    atoms: Vec<(Ref, Ref, usize)>,
    on: Ref,
    off: Ref,
    steps: usize,
}

impl<'l> Search<'l> {
    fn new(logic: &'l mut Logic, atoms: &[Atom], on: Ref, off: Ref) -> Result<Search<'l>, TooMany> {
        let mut both = Vec::with_capacity(atoms.len());
        for atom in atoms {
            both.push((atom.holds, logic.not(atom.holds)?, atom.weight));
        }
        Ok(Search { logic, atoms: both, on, off, steps: 0 })
    }

    fn jobs(&self, literal: Literal) -> Ref {
        let (holds, fails, _) = self.atoms.get(literal.atom).copied().unwrap_or((Ref::end(NO), Ref::end(NO), 0));
        if literal.holds { holds } else { fails }
    }

    fn all(&mut self, literals: &[Literal]) -> Result<Ref, TooMany> {
        let mut all = Ref::end(YES);
        for literal in literals {
            let jobs = self.jobs(*literal);
            all = self.logic.and(all, jobs)?;
        }
        Ok(all)
    }

    /// What of these jobs is not among those.
    fn without(&mut self, jobs: Ref, those: Ref) -> Result<Ref, TooMany> {
        let rest = self.logic.not(those)?;
        self.logic.and(jobs, rest)
    }

    fn spares(&mut self, jobs: Ref) -> Result<bool, TooMany> {
        Ok(self.logic.and(jobs, self.off)? == Ref::end(NO))
    }

    /// One job of these as a diagram: the first, what it does not read left free.
    fn one_of(&mut self, jobs: Ref) -> Result<Option<Ref>, TooMany> {
        let Some(walk) = self.logic.diagrams.first(jobs, &|end| end == YES) else { return Ok(None) };
        let mut at = jobs;
        let mut sizes = Vec::with_capacity(walk.len());
        for (_, cell) in &walk {
            let branches = self.logic.diagrams.branches(at);
            sizes.push(branches.len());
            at = branches.get(*cell).copied().unwrap_or(Ref::end(NO));
        }
        let mut one = Ref::end(YES);
        for ((variable, cell), size) in walk.iter().zip(sizes).rev() {
            let branches: Vec<Ref> = (0..size).map(|at| if at == *cell { one } else { Ref::end(NO) }).collect();
            one = self.logic.diagrams.node(*variable, &branches)?;
        }
        Ok(Some(one))
    }

    /// Every test as it stands at one job; where what the job leaves free decides a
    /// test, it is made to hold or not so that the job stays possible.
    fn literals_of(&mut self, one: Ref) -> Result<(Vec<Literal>, Ref), TooMany> {
        let mut literals = Vec::with_capacity(self.atoms.len());
        let mut at = one;
        for atom in 0..self.atoms.len() {
            let fails = Literal { atom, holds: false };
            let holds = Literal { atom, holds: true };
            let (failing, holding) = (self.jobs(fails), self.jobs(holds));
            let with = self.logic.and(at, failing)?;
            if with == Ref::end(NO) {
                at = self.logic.and(at, holding)?;
                literals.push(holds);
            } else {
                at = with;
                literals.push(fails);
            }
        }
        Ok((literals, at))
    }

    /// Leaves out of these tests what can be left out, in this order, so that no
    /// unwanted job comes in.
    fn widen(&mut self, literals: &[Literal], order: &[usize]) -> Result<Condition, TooMany> {
        let mut kept: Vec<bool> = vec![true; literals.len()];
        for at in order {
            if let Some(slot) = kept.get_mut(*at) {
                *slot = false;
            }
            let left: Vec<Literal> =
                literals.iter().zip(&kept).filter(|(_, kept)| **kept).map(|(literal, _)| *literal).collect();
            let jobs = self.all(&left)?;
            if !self.spares(jobs)?
                && let Some(slot) = kept.get_mut(*at)
            {
                *slot = true;
            }
        }
        let literals: Vec<Literal> =
            literals.iter().zip(&kept).filter(|(_, kept)| **kept).map(|(literal, _)| *literal).collect();
        let jobs = self.all(&literals)?;
        Ok(Condition { literals, jobs })
    }

    /// The order in which tests are left out: the weightiest first, of equal ones
    /// those that are not to hold.
    fn order(&self, literals: &[Literal]) -> Vec<usize> {
        let mut order: Vec<usize> = (0..literals.len()).collect();
        let key = |at: &usize| {
            literals.get(*at).map(|literal| {
                let weight = self.atoms.get(literal.atom).map_or(0, |(_, _, weight)| *weight);
                (std::cmp::Reverse(weight), literal.holds, std::cmp::Reverse(literal.atom))
            })
        };
        order.sort_by_key(key);
        order
    }

    fn greedy(&mut self) -> Result<Vec<Condition>, TooMany> {
        let mut found: Vec<Condition> = Vec::new();
        let mut left = self.on;
        while let Some(one) = self.one_of(left)? {
            let (literals, _) = self.literals_of(one)?;
            let order = self.order(&literals);
            let condition = self.widen(&literals, &order)?;
            left = self.without(left, condition.jobs)?;
            found.push(condition);
        }
        Ok(found)
    }

    /// Takes out conditions whose jobs all fall under the others.
    fn drop_idle(&mut self, found: &mut Vec<Condition>) -> Result<(), TooMany> {
        let mut at = found.len();
        while at > 0 {
            at -= 1;
            let mut left = self.on;
            for (number, other) in found.iter().enumerate() {
                if number != at {
                    left = self.without(left, other.jobs)?;
                }
            }
            if left == Ref::end(NO) {
                found.remove(at);
            }
        }
        Ok(())
    }

    /// Looks for fewer conditions until none can be; gives the fewest found, and whether
    /// that is proven.
    fn fewest(&mut self, mut found: Vec<Condition>) -> (Vec<Condition>, bool) {
        loop {
            if found.len() <= 1 {
                return (found, true);
            }
            match self.all_apart(&found) {
                Ok(true) => return (found, true),
                Ok(false) => {}
                Err(TooMany) => return (found, false),
            }
            self.steps = 0;
            let fewer = self.with_at_most(self.on, found.len() - 1).and_then(|tried| match tried {
                Tried::Found(mut fewer) => {
                    self.drop_idle(&mut fewer)?;
                    Ok(Tried::Found(fewer))
                }
                other => Ok(other),
            });
            match fewer {
                Ok(Tried::Found(fewer)) => found = fewer,
                Ok(Tried::None) => return (found, true),
                Ok(Tried::GaveUp) | Err(TooMany) => return (found, false),
            }
        }
    }

    /// Whether there is a job for each condition such that no condition whatever holds
    /// for two of these jobs: then no fewer conditions do.
    fn all_apart(&mut self, found: &[Condition]) -> Result<bool, TooMany> {
        let mut chosen: Vec<Vec<Literal>> = Vec::with_capacity(found.len());
        for at in 0..found.len() {
            let mut own = self.on;
            for (number, other) in found.iter().enumerate() {
                if number != at {
                    own = self.without(own, other.jobs)?;
                }
            }
            let mut apart = None;
            for _ in 0..JOBS_TRIED {
                let Some(one) = self.one_of(own)? else { break };
                let (literals, _) = self.literals_of(one)?;
                let mut near = None;
                for other in &chosen {
                    let common: Vec<Literal> =
                        literals.iter().filter(|literal| other.contains(literal)).copied().collect();
                    let jobs = self.all(&common)?;
                    if self.spares(jobs)? {
                        near = Some(jobs);
                        break;
                    }
                }
                match near {
                    // Every job within what the two have in common is as near.
                    Some(jobs) => own = self.without(own, jobs)?,
                    None => {
                        apart = Some(literals);
                        break;
                    }
                }
            }
            match apart {
                Some(literals) => chosen.push(literals),
                None => return Ok(false),
            }
        }
        Ok(true)
    }

    /// Conditions for the jobs that are left, no more than so many: every one that
    /// can hold for the first of them is tried.
    fn with_at_most(&mut self, left: Ref, most: usize) -> Result<Tried, TooMany> {
        let Some(one) = self.one_of(left)? else { return Ok(Tried::Found(Vec::new())) };
        if most == 0 {
            return Ok(Tried::None);
        }
        self.steps += 1;
        if self.steps > SEARCH_STEPS {
            return Ok(Tried::GaveUp);
        }
        let Some(conditions) = self.conditions_of(one)? else { return Ok(Tried::GaveUp) };
        for condition in conditions {
            let rest = self.without(left, condition.jobs)?;
            match self.with_at_most(rest, most - 1)? {
                Tried::Found(mut more) => {
                    more.push(condition);
                    return Ok(Tried::Found(more));
                }
                Tried::None => {}
                Tried::GaveUp => return Ok(Tried::GaveUp),
            }
        }
        Ok(Tried::None)
    }

    /// Every condition of which nothing can be left out that holds for a job;
    /// nothing where they are too many.
    fn conditions_of(&mut self, one: Ref) -> Result<Option<Vec<Condition>>, TooMany> {
        let (literals, _) = self.literals_of(one)?;
        let mut found: Vec<Vec<Literal>> = Vec::new();
        if !self.grow(&literals, &mut Vec::new(), &mut found)? {
            return Ok(None);
        }
        let mut smallest: Vec<Condition> = Vec::new();
        found.sort_by_key(Vec::len);
        for mut literals in found {
            literals.sort();
            if smallest.iter().any(|known| known.literals.iter().all(|literal| literals.contains(literal))) {
                continue;
            }
            let jobs = self.all(&literals)?;
            smallest.push(Condition { literals, jobs });
        }
        Ok(Some(smallest))
    }

    /// Adds tests until no unwanted job is left: an unwanted job must fail one of
    /// them, and each that it can fail is tried.
    fn grow(
        &mut self,
        literals: &[Literal],
        chosen: &mut Vec<Literal>,
        found: &mut Vec<Vec<Literal>>,
    ) -> Result<bool, TooMany> {
        self.steps += 1;
        if self.steps > SEARCH_STEPS || found.len() > CONDITIONS_OF_ONE {
            return Ok(false);
        }
        let jobs = self.all(chosen)?;
        let unwanted = self.logic.and(jobs, self.off)?;
        let Some(other) = self.one_of(unwanted)? else {
            found.push(chosen.clone());
            return Ok(true);
        };
        let (of_other, _) = self.literals_of(other)?;
        for literal in literals.iter().filter(|literal| !of_other.contains(literal)) {
            chosen.push(*literal);
            let done = self.grow(literals, chosen, found)?;
            chosen.pop();
            if !done {
                return Ok(false);
            }
        }
        Ok(true)
    }
}
