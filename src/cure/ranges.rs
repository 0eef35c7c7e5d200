//! The values that work, as widely as they can be told: terms, sets, names, and
//! stretches of figures between the law's own limits.

use super::levers::{Lever, sign};
use crate::glossary::expr::Check;
use crate::glossary::model::Shape;
use crate::job::model::Given;
use crate::values::{Exact, Measure, SIZES};
use crate::verdict::{Lexicon, exactly, points};
use num_traits::{CheckedAdd, CheckedDiv};
use std::collections::BTreeSet;
use std::sync::Arc;

/// One end of a stretch of figures.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct End {
    pub(crate) figure: Measure,
    /// Whether the figure itself works.
    pub(crate) itself: bool,
}

/// What works in the place of what the job says.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum To {
    Value(Given),
    /// From one end to the other; none where there is no limit.
    Stretch {
        least: Option<End>,
        most: Option<End>,
    },
    /// Any name but these.
    Other(Vec<Arc<str>>),
}

/// Everything that these cells of a lever stand for.
pub(crate) fn told(lever: &Lever, cells: &BTreeSet<usize>, lexicon: &Lexicon<'_>) -> Vec<To> {
    let held: Vec<&Given> = cells.iter().filter_map(|cell| lever.cells.get(*cell)).collect();
    let works = |value: &Given| {
        let own = sign(value, &lever.reads);
        held.iter().any(|cell| *cell == value || sign(cell, &lever.reads) == own)
    };
    let shape = lexicon.field(lever.field).map(|known| known.shape);
    match shape {
        Some(Shape::Count | Shape::Quantity(_) | Shape::Gauge) => {
            shape.map_or_else(Vec::new, |shape| stretches(lever, shape, &works))
        }
        Some(Shape::Choice(_)) => {
            lever.terms.iter().map(Given::Term).filter(|term| works(term)).map(To::Value).collect()
        }
        Some(Shape::Name | Shape::Code) => {
            let named: BTreeSet<Arc<str>> = lever
                .reads
                .checks
                .iter()
                .filter_map(|check| if let Check::Named(names) = check { Some(names.iter().cloned()) } else { None })
                .flatten()
                .collect();
            let free = lexicon.roles.code != Some(lever.field);
            let tell = |value: &&Given| match value {
                Given::Name(name) if free && !named.contains(name) && **value != lever.base => {
                    To::Other(named.iter().cloned().collect())
                }
                value => To::Value((*value).clone()),
            };
            held.iter().map(tell).collect()
        }
        _ => {
            // Of sets those that turn the least.
            let more = |cell: usize| cells.iter().any(|other| lever.turns_more(cell, *other));
            let least = cells.iter().filter(|cell| !more(**cell)).filter_map(|cell| lever.cells.get(*cell));
            least.cloned().map(To::Value).collect()
        }
    }
}

/// A limit, or what lies between two.
enum Spot {
    At(Exact),
    Between(Option<Exact>, Option<Exact>),
}

fn stretches(lever: &Lever, shape: Shape, works: &dyn Fn(&Given) -> bool) -> Vec<To> {
    let spots = spots(lever, shape);
    let mut told = Vec::new();
    let mut open: Option<Option<End>> = None;
    let mut before: Option<End> = None;
    for (spot, value) in &spots {
        let (least, most) = match spot {
            Spot::At(at) => (end(*at, true, shape), end(*at, true, shape)),
            Spot::Between(low, high) => {
                (low.and_then(|low| end(low, false, shape)), high.and_then(|high| end(high, false, shape)))
            }
        };
        if works(value) {
            if open.is_none() {
                open = Some(least);
            }
            before = most;
        } else if let Some(least) = open.take() {
            told.push(To::Stretch { least, most: before.take() });
        }
    }
    if let Some(least) = open {
        // Beyond the largest printed size nothing is told apart any more.
        let most = if shape == Shape::Gauge { None } else { before };
        told.push(To::Stretch { least, most });
    }
    told
}

fn end(amount: Exact, itself: bool, shape: Shape) -> Option<End> {
    exactly(amount, shape).map(|figure| End { figure, itself })
}

/// The limits and what lies between them, least first, each with a figure in it.
fn spots(lever: &Lever, shape: Shape) -> Vec<(Spot, Given)> {
    let figure = |amount: Exact| Given::Measure(Measure { amount, shown: "".into() });
    let mut limits = points(&lever.reads);
    if shape == Shape::Gauge {
        limits.extend(SIZES.iter().map(|size| Exact::from_integer(size.cmil)));
        limits.sort();
        limits.dedup();
        return limits.into_iter().map(|limit| (Spot::At(limit), figure(limit))).collect();
    }
    let (zero, one, two) = (Exact::from_integer(0), Exact::from_integer(1), Exact::from_integer(2));
    let mut spots = Vec::new();
    let mut before: Option<Exact> = None;
    for limit in &limits {
        match before {
            None if *limit > zero => spots.push((Spot::Between(None, Some(*limit)), figure(zero))),
            Some(low) => {
                let middle = low.checked_add(limit).and_then(|sum| sum.checked_div(&two));
                let middle = if shape == Shape::Count { middle.map(|middle| middle.floor()) } else { middle };
                if let Some(middle) = middle.filter(|middle| *middle > low) {
                    spots.push((Spot::Between(Some(low), Some(*limit)), figure(middle)));
                }
            }
            None => {}
        }
        spots.push((Spot::At(*limit), figure(*limit)));
        before = Some(*limit);
    }
    if let Some(more) = before.and_then(|last| last.checked_add(&one)) {
        spots.push((Spot::Between(before, None), figure(more)));
    }
    spots
}
