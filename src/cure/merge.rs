//! Cures that change the same facts, told as one with all values that work together.

use super::bench::{Bench, Moves};
use crate::glossary::model::{FieldId, GroupId};
use crate::verdict::paths::Path;
use std::collections::{BTreeMap, BTreeSet};

/// What one change turns: a fact, or the attribute of entries that say the same.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Turned {
    pub(crate) field: FieldId,
    pub(crate) group: Option<GroupId>,
    /// The levers, one for a fact, one an entry.
    pub(crate) levers: Vec<usize>,
}

/// A cure: for each thing that is turned the cells that work, every one with every one.
pub(crate) type Block = Vec<(Turned, BTreeSet<usize>)>;

/// Merges changes; the widest blocks, of which no one lies in another.
pub(crate) fn merge(bench: &Bench<'_, '_>, all: &[Moves]) -> Vec<Block> {
    let mut like: BTreeMap<Vec<Turned>, BTreeSet<Vec<usize>>> = BTreeMap::new();
    for moves in all {
        let mut kinds: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
        let mut row: Vec<(Turned, usize)> = Vec::new();
        for (number, cell) in moves {
            let Some(lever) = bench.levers.get(*number) else { continue };
            match lever.path {
                Path::Attribute { .. } => {
                    kinds.entry((lever.kin, *cell)).or_default().push(*number);
                }
                _ => row.push((Turned { field: lever.field, group: None, levers: vec![*number] }, *cell)),
            }
        }
        for ((kin, cell), levers) in kinds {
            let Some(lever) = bench.levers.get(kin) else { continue };
            let group = if let Path::Attribute { group, .. } = lever.path { Some(group) } else { None };
            row.push((Turned { field: lever.field, group, levers }, cell));
        }
        row.sort();
        let (turned, cells) = row.into_iter().unzip();
        like.entry(turned).or_default().insert(cells);
    }
    let mut blocks = Vec::new();
    for (turned, rows) in like {
        for block in widest(&rows) {
            let parts = turned.iter().zip(block);
            blocks.push(parts.map(|(turned, cells)| (turned.clone(), in_full(bench, turned, &cells))).collect());
        }
    }
    blocks
}

/// The widest blocks of rows: all combinations of a block are rows.
pub(super) fn widest(rows: &BTreeSet<Vec<usize>>) -> Vec<Vec<BTreeSet<usize>>> {
    let mut blocks: Vec<Vec<BTreeSet<usize>>> = Vec::new();
    for row in rows {
        let mut block: Vec<BTreeSet<usize>> = row.iter().map(|cell| BTreeSet::from([*cell])).collect();
        for place in 0..row.len() {
            let offered: BTreeSet<usize> = rows.iter().filter_map(|row| row.get(place)).copied().collect();
            for cell in offered {
                let mut with = block.clone();
                if let Some(slot) = with.get_mut(place) {
                    *slot = BTreeSet::from([cell]);
                }
                if rows_of(&with).iter().all(|row| rows.contains(row))
                    && let Some(slot) = block.get_mut(place)
                {
                    slot.insert(cell);
                }
            }
        }
        if !blocks.contains(&block) {
            blocks.push(block);
        }
    }
    blocks
}

/// All combinations of a block.
pub(super) fn rows_of(block: &[BTreeSet<usize>]) -> Vec<Vec<usize>> {
    let mut all: Vec<Vec<usize>> = vec![Vec::new()];
    for cells in block {
        all = all
            .into_iter()
            .flat_map(|row| cells.iter().map(move |cell| row.iter().copied().chain([*cell]).collect()))
            .collect();
    }
    all
}

/// The cells with those that no question tells from them; of several entries those that
/// work in each.
fn in_full(bench: &Bench<'_, '_>, turned: &Turned, cells: &BTreeSet<usize>) -> BTreeSet<usize> {
    let of = |lever: usize| -> BTreeSet<usize> { cells.iter().flat_map(|cell| bench.alike(lever, *cell)).collect() };
    let mut all = turned.levers.iter().map(|lever| of(*lever));
    let first = all.next().unwrap_or_default();
    all.fold(first, |held, own| held.intersection(&own).copied().collect())
}
