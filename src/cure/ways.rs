//! Before anything is chosen: the choices that are open in the entries of a job's
//! lists, each tried for all entries that leave it open, and which of them come to the
//! same before the law.

use super::bench::{put, whole_cone};
use super::levers::named;
use super::limits::WAYS;
use super::merge::{rows_of, widest};
use crate::glossary::model::{FieldId, Shape};
use crate::job::model::{Given, Job};
use crate::verdict::answer::Parts;
use crate::verdict::board::reads_of;
use crate::verdict::found::{Finding, Found, State};
use crate::verdict::paths::Path;
use crate::verdict::{Matter, Scratch, cells};
use std::collections::BTreeSet;

/// Choices that come to the same.
#[derive(Clone, Debug)]
pub(crate) struct Way {
    /// For each attribute the values, every one with every one of the others; nothing
    /// where it does not matter which.
    pub(crate) choices: Vec<(FieldId, Option<Vec<Given>>)>,
    /// The job with the first of these.
    pub(crate) job: Job,
}

/// All ways.
#[derive(Clone, Debug, Default)]
pub(crate) struct Ways {
    pub(crate) ways: Vec<Way>,
    /// Whether there are more combinations than are looked at.
    pub(crate) cut: bool,
}

/// An attribute that some entries leave open.
struct Open {
    field: FieldId,
    paths: Vec<Path>,
    values: Vec<Given>,
}

/// What the law makes of one way: every question's state, answer and finding, and what
/// it hangs on.
#[derive(PartialEq)]
struct Made {
    state: State,
    value: Option<Parts>,
    between: Option<(Parts, Parts)>,
    may_refer: bool,
    finding: Option<Finding>,
    asked: bool,
    asks: Vec<Path>,
}

/// The ways of a job.
pub(crate) fn ways(matter: &Matter<'_>, scratch: &mut Scratch) -> Ways {
    let open = open(matter);
    let mut rows: Vec<Vec<usize>> = vec![Vec::new()];
    for attribute in &open {
        let longer = |row: &Vec<usize>| -> Vec<Vec<usize>> {
            (0..attribute.values.len()).map(|cell| row.iter().copied().chain([cell]).collect()).collect()
        };
        rows = rows.iter().flat_map(longer).collect();
        if rows.len() > WAYS {
            return Ways { ways: Vec::new(), cut: true };
        }
    }
    let mut like: Vec<(Vec<Made>, BTreeSet<Vec<usize>>)> = Vec::new();
    for row in rows {
        let job = with(matter, &open, &row);
        scratch.weigh(&Matter { job: &job, ..*matter });
        let made: Vec<Made> = scratch.found.iter().map(seen).collect();
        match like.iter_mut().find(|(known, _)| *known == made) {
            Some((_, rows)) => {
                rows.insert(row);
            }
            None => like.push((made, BTreeSet::from([row]))),
        }
    }
    let mut ways = Vec::new();
    for (_, mut left) in like {
        // The widest block first; what it tells is not told by another.
        while let Some((all, block)) = widest(&left)
            .into_iter()
            .map(|block| (rows_of(&block), block))
            .reduce(|wide, other| if other.0.len() > wide.0.len() { other } else { wide })
        {
            left.retain(|row| !all.contains(row));
            let Some(first) = all.first() else { break };
            let choices = open.iter().zip(&block).map(|(attribute, cells)| {
                let values = (cells.len() < attribute.values.len())
                    .then(|| cells.iter().filter_map(|cell| attribute.values.get(*cell)).cloned().collect());
                (attribute.field, values)
            });
            ways.push(Way { choices: choices.collect(), job: with(matter, &open, first) });
        }
    }
    Ways { ways, cut: false }
}

/// The attributes that some entry leaves open, that are ours to choose and a choice.
fn open(matter: &Matter<'_>) -> Vec<Open> {
    let cone = whole_cone(matter);
    let mut all = Vec::new();
    for (group, reads) in &cone.lists {
        let rows = matter.list(*group).map_or(&[][..], |list| &list.entries);
        for field in reads.attributes.keys() {
            let Some(known) = matter.lexicon.field(*field).filter(|known| known.ours) else { continue };
            let Shape::Choice(choice) = known.shape else { continue };
            let unknown =
                |row: &Vec<Given>| row.get(usize::from(known.column)).is_none_or(|given| *given == Given::Unknown);
            let entries = rows.iter().enumerate().filter(|(_, row)| unknown(row));
            let paths: Vec<Path> =
                entries.map(|(entry, _)| Path::Attribute { group: *group, entry, field: *field }).collect();
            let Some(reads) = reads_of(&cone, *field, Some(*group)) else { continue };
            let told_apart = cells(*field, reads, matter.plan, &matter.lexicon).is_ok_and(|cells| cells.len() > 1);
            if !paths.is_empty() && told_apart {
                // All terms that some rule names, since the reader looks for the one that was offered.
                let values = named(matter.lexicon.terms(choice), reads).iter().map(Given::Term).collect();
                all.push(Open { field: *field, paths, values });
            }
        }
    }
    all
}

fn with(matter: &Matter<'_>, open: &[Open], row: &[usize]) -> Job {
    let mut job = matter.job.clone();
    for (attribute, cell) in open.iter().zip(row) {
        for path in &attribute.paths {
            put(&mut job, *path, attribute.values.get(*cell).cloned().unwrap_or_default(), matter);
        }
    }
    job
}

fn seen(found: &Found) -> Made {
    Made {
        state: found.state,
        value: found.value.clone(),
        between: found.between.clone(),
        may_refer: found.may_refer,
        finding: found.finding,
        asked: found.asked,
        asks: found.asks.clone(),
    }
}
