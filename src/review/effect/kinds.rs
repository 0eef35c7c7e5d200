//! Kinds of job: jobs that no test tells apart are of one kind. Of each kind one
//! job stands for all, so that kinds are counted as jobs are.

use crate::verdict::TooMany;
use crate::verdict::diagram::{Diagrams, Ref};
use crate::verdict::logic::{NO, YES};
use crate::verdict::survey::{Survey, holds};
use std::collections::{BTreeMap, BTreeSet};

/// The most kinds that tests on the same facts may tell apart.
const KINDS_OF_FACTS: usize = 20_000;

/// The jobs that stand for the kinds which these tests tell apart, as a diagram,
/// and how many they are; no number where it passes 38 figures.
///
/// # Errors
/// Where the kinds pass the bound.
pub(crate) fn kinds(survey: &mut Survey<'_, '_>, tests: &[Ref]) -> Result<(Ref, Option<u128>), TooMany> {
    let care = survey.care();
    let mut all = Ref::end(YES);
    let mut read: BTreeSet<u32> = BTreeSet::new();
    for group in together(&survey.logic().diagrams, care, tests) {
        read.extend(&group.facts);
        let stand = if group.facts.len() > 1 || group.care {
            let within = if group.care { care } else { Ref::end(YES) };
            let tests: Vec<Ref> = group.tests.iter().filter_map(|test| tests.get(*test)).copied().collect();
            by_test(survey, within, &group.facts, &tests)?
        } else {
            by_value(survey, &group, tests)?
        };
        let logic = survey.logic();
        all = logic.and(all, stand)?;
    }
    // Facts that no test reads say nothing.
    for fact in 0..survey.facts() {
        if !read.contains(&fact) {
            let first = first_of(survey, fact)?;
            all = survey.logic().and(all, first)?;
        }
    }
    Ok((all, survey.count(all, &holds)))
}

/// Facts with the tests that read them, apart from all other facts.
#[derive(Debug, Default)]
struct Group {
    facts: BTreeSet<u32>,
    tests: Vec<usize>,
    /// Whether they are dates that must stand in an order.
    care: bool,
}

/// Facts that some test, or the order of dates, reads together.
fn together(diagrams: &Diagrams, care: Ref, tests: &[Ref]) -> Vec<Group> {
    let facts = |of: Ref| diagrams.looked_at(of).into_iter().map(|(fact, _)| fact).collect::<BTreeSet<u32>>();
    let mut groups: Vec<Group> = Vec::new();
    let ordered = facts(care);
    if !ordered.is_empty() {
        groups.push(Group { facts: ordered, tests: Vec::new(), care: true });
    }
    for (number, test) in tests.iter().enumerate() {
        let mut joined = Group { facts: facts(*test), tests: vec![number], care: false };
        if joined.facts.is_empty() {
            continue;
        }
        let (meeting, apart): (Vec<Group>, Vec<Group>) =
            groups.into_iter().partition(|group| !group.facts.is_disjoint(&joined.facts));
        for mut group in meeting {
            joined.facts.append(&mut group.facts);
            joined.tests.append(&mut group.tests);
            joined.care |= group.care;
        }
        groups = apart;
        groups.push(joined);
    }
    groups
}

/// The first value of each kind of one fact.
fn by_value(survey: &mut Survey<'_, '_>, group: &Group, tests: &[Ref]) -> Result<Ref, TooMany> {
    let Some(fact) = group.facts.first().copied() else { return Ok(Ref::end(YES)) };
    let diagrams = &survey.logic().diagrams;
    let mut seen: BTreeMap<Vec<Ref>, ()> = BTreeMap::new();
    let mut cells = Vec::new();
    let size = group.tests.iter().filter_map(|test| tests.get(*test)).map(|test| diagrams.branches(*test).len()).max();
    for cell in 0..size.unwrap_or(0) {
        let truth: Vec<Ref> = group
            .tests
            .iter()
            .filter_map(|test| tests.get(*test))
            .map(|test| diagrams.branches(*test).get(cell).copied().unwrap_or(*test))
            .collect();
        let first = seen.insert(truth, ()).is_none();
        cells.push(Ref::end(if first { YES } else { NO }));
    }
    survey.logic().diagrams.node(fact, &cells)
}

/// One job of each kind of several facts, found by taking them apart test by test.
fn by_test(survey: &mut Survey<'_, '_>, within: Ref, facts: &BTreeSet<u32>, tests: &[Ref]) -> Result<Ref, TooMany> {
    let mut kinds = vec![within];
    for test in tests {
        let contrary = survey.logic().not(*test)?;
        let mut next = Vec::with_capacity(kinds.len() * 2);
        for kind in kinds {
            for side in [*test, contrary] {
                let part = survey.logic().and(kind, side)?;
                if part != Ref::end(NO) {
                    next.push(part);
                }
            }
        }
        if next.len() > KINDS_OF_FACTS {
            return Err(TooMany);
        }
        kinds = next;
    }
    let mut all = Ref::end(NO);
    for kind in kinds {
        let walk: BTreeMap<u32, usize> =
            survey.logic().diagrams.first(kind, &|end| end == YES).ok_or(TooMany)?.into_iter().collect();
        let mut one = Ref::end(YES);
        for fact in facts.iter().rev() {
            let cell = walk.get(fact).copied().unwrap_or(0);
            let size = survey.cells(*fact);
            let cells: Vec<Ref> = (0..size).map(|at| if at == cell { one } else { Ref::end(NO) }).collect();
            one = survey.logic().diagrams.node(*fact, &cells)?;
        }
        all = survey.logic().or(all, one)?;
    }
    Ok(all)
}

fn first_of(survey: &mut Survey<'_, '_>, fact: u32) -> Result<Ref, TooMany> {
    let size = survey.cells(fact);
    let cells: Vec<Ref> = (0..size).map(|at| Ref::end(if at == 0 { YES } else { NO })).collect();
    survey.logic().diagrams.node(fact, &cells)
}
