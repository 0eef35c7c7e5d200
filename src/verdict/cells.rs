//! The values that one unknown fact can take, as far as tests tell them apart,
//! each cell by its least value, in order.

use super::check::passes;
use super::cone::Reads;
use super::figures;
use super::lexicon::Lexicon;
use super::limits::SET_TERMS;
use super::plan::Plan;
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, Shape};
use crate::job::model::Given;
use crate::values::{Exact, Measure, SIZES, Terms};
use std::collections::BTreeSet;
use std::sync::Arc;

/// The limit of exactness is passed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct TooMany;

/// The cells of a fact that is no date.
pub(crate) fn cells(field: FieldId, reads: &Reads, plan: &Plan, lexicon: &Lexicon<'_>) -> Result<Vec<Given>, TooMany> {
    let Some(known) = lexicon.field(field) else { return Ok(vec![Given::Unknown]) };
    let all = match known.shape {
        Shape::Date => return Ok(vec![Given::Unknown]),
        Shape::YesNo => vec![Given::Term(0), Given::Term(1)],
        Shape::Choice(choice) => lexicon.terms(choice).iter().map(Given::Term).collect(),
        Shape::Several(choice) => return sets(lexicon.terms(choice), reads),
        Shape::Count | Shape::Quantity(_) => measures(&points(reads), known.shape)?,
        Shape::Gauge => gauges(&points(reads))?,
        Shape::Code if lexicon.roles.code == Some(field) && !plan.codes.is_empty() => {
            plan.codes.iter().cloned().map(Given::Name).collect()
        }
        Shape::Name | Shape::Code => names(reads, known.shape),
    };
    Ok(told_apart(all, reads))
}

/// The first of all values that pass the same tests.
fn told_apart(all: Vec<Given>, reads: &Reads) -> Vec<Given> {
    if reads.whole || all.len() < 2 {
        return all;
    }
    let mut seen: BTreeSet<Vec<bool>> = BTreeSet::new();
    all.into_iter()
        .filter(|value| seen.insert(reads.checks.iter().map(|check| passes(value, check)).collect()))
        .collect()
}

/// The amounts that tests and limits name, least first.
pub(crate) fn points(reads: &Reads) -> Vec<Exact> {
    let mut points: Vec<Exact> = reads
        .checks
        .iter()
        .filter_map(|check| match check {
            Check::AtLeast(limit) | Check::AtMost(limit) | Check::Over(limit) | Check::Under(limit) => Some(*limit),
            _ => None,
        })
        .chain(reads.limits.iter().copied())
        .collect();
    points.sort();
    points.dedup();
    points
}

/// Nothing below the first amount, each amount, the middles, and one more than
/// the last. An amount that no figure gives is beyond exactness.
fn measures(points: &[Exact], shape: Shape) -> Result<Vec<Given>, TooMany> {
    let zero = Exact::from_integer(0);
    let mut cells: Vec<Measure> = Vec::new();
    if points.first().is_none_or(|first| *first > zero) {
        cells.push(figures::exactly(zero, shape).ok_or(TooMany)?);
    }
    let mut below: Option<Exact> = None;
    for point in points {
        if let Some(below) = below {
            match figures::between(below, *point, shape) {
                Some(middle) => cells.push(middle),
                None if shape == Shape::Count => {}
                None => return Err(TooMany),
            }
        }
        cells.push(figures::exactly(*point, shape).ok_or(TooMany)?);
        below = Some(*point);
    }
    if let Some(last) = below {
        cells.push(figures::above(last, shape).ok_or(TooMany)?);
    }
    Ok(cells.into_iter().map(Given::Measure).collect())
}

/// The printed sizes and the sizes that tests and limits name.
fn gauges(points: &[Exact]) -> Result<Vec<Given>, TooMany> {
    let mut amounts: Vec<Exact> = SIZES.iter().map(|size| Exact::from_integer(size.cmil)).collect();
    amounts.extend(points);
    amounts.sort();
    amounts.dedup();
    amounts
        .into_iter()
        .map(|amount| figures::exactly(amount, Shape::Gauge).map(Given::Measure).ok_or(TooMany))
        .collect()
}

/// The names that tests name, and one other.
fn names(reads: &Reads, shape: Shape) -> Vec<Given> {
    let named: BTreeSet<Arc<str>> = reads
        .checks
        .iter()
        .filter_map(|check| if let Check::Named(names) = check { Some(names.iter().cloned()) } else { None })
        .flatten()
        .collect();
    let word = if shape == Shape::Code { "OTHER" } else { "other" };
    let mut other: Arc<str> = word.into();
    let mut number = 1;
    while named.contains(&other) {
        number += 1;
        other = format!("{word}-{number}").into();
    }
    named.into_iter().chain([other]).map(Given::Name).collect()
}

/// Sets by size, then by term; terms that no test tells apart are one.
fn sets(known: Terms, reads: &Reads) -> Result<Vec<Given>, TooMany> {
    let mut seen: BTreeSet<Vec<bool>> = BTreeSet::new();
    let terms: Vec<u16> = known
        .iter()
        .filter(|term| {
            let signature: Vec<bool> = reads
                .checks
                .iter()
                .map(|check| matches!(check, Check::Includes(terms) | Check::Among(terms) if terms.has(*term)))
                .collect();
            let idle = !reads.whole && signature.iter().all(|hit| !hit);
            !idle && (reads.whole || seen.insert(signature))
        })
        .collect();
    if terms.len() as u32 > SET_TERMS {
        return Err(TooMany);
    }
    let mut level: Vec<Vec<u16>> = vec![Vec::new()];
    let mut all: Vec<Given> = Vec::new();
    while !level.is_empty() {
        let mut next = Vec::new();
        for set in &level {
            all.push(Given::Set(set.iter().fold(Terms::NONE, |held, term| held.union(Terms::one(*term)))));
            for term in terms.iter().filter(|term| set.last().is_none_or(|last| *term > last)) {
                let mut larger = set.clone();
                larger.push(*term);
                next.push(larger);
            }
        }
        level = next;
    }
    Ok(told_apart(all, reads))
}
