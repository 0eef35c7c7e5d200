//! Columns that say the same, told together; and what kind of a row it is.

use super::Row;
use super::cell::Cell;

/// Columns with one answer.
pub(super) struct Group<'c> {
    pub(super) cell: &'c Cell,
    /// By number.
    pub(super) columns: Vec<usize>,
    /// The texts that govern in any of them, each once.
    pub(super) texts: Vec<&'c str>,
}

/// The answers of a row, the strictest first, then as the columns stand.
pub(super) fn groups(row: &Row) -> Vec<Group<'_>> {
    let mut found: Vec<Group<'_>> = Vec::new();
    for (at, cell) in row.cells.iter().enumerate() {
        let same = |group: &&mut Group<'_>| group.cell.says_the_same(cell) && group.cell.hangs_on == cell.hangs_on;
        let group = match found.iter_mut().find(same) {
            Some(group) => {
                group.columns.push(at);
                group
            }
            None => {
                found.push(Group { cell, columns: vec![at], texts: Vec::new() });
                let Some(last) = found.last_mut() else { continue };
                last
            }
        };
        let texts = cell.texts.iter().chain(&cell.instead).map(String::as_str);
        for text in texts {
            if !group.texts.contains(&text) {
                group.texts.push(text);
            }
        }
    }
    found.sort_by_key(|group| !group.cell.strictest);
    found
}

/// What there is to tell of a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Columns answer otherwise.
    Otherwise,
    /// The columns of these numbers ask it and answer alike; the others do not ask it.
    OnlyIn(Vec<usize>),
    /// Columns answer otherwise what none of them asks of this job.
    Idle,
    /// All columns answer alike.
    Alike,
    /// No text known speaks of it in any column.
    Silent,
}

/// The kind of a row.
pub(super) fn kind(row: &Row) -> Kind {
    if !row.differs {
        let silent = row.cells.iter().all(|cell| cell.state == "silent" && cell.unranked == Some("silent"));
        // What advises is worth telling though nothing binds.
        return if silent && !row.advised { Kind::Silent } else { Kind::Alike };
    }
    if row.idle() {
        return Kind::Idle;
    }
    if row.conditional {
        let asking: Vec<(usize, &Cell)> =
            row.cells.iter().enumerate().filter(|(_, cell)| cell.asked && cell.not_applicable.is_none()).collect();
        if let Some((_, first)) = asking.first()
            && asking.len() < row.cells.len()
            && asking.iter().all(|(_, cell)| cell.says_the_same(first))
        {
            return Kind::OnlyIn(asking.into_iter().map(|(at, _)| at).collect());
        }
    }
    Kind::Otherwise
}

/// The columns of a row that are not ranked, by why.
pub(super) fn unranked(row: &Row) -> Vec<(&'static str, Vec<usize>)> {
    let mut found: Vec<(&'static str, Vec<usize>)> = Vec::new();
    for (at, why) in row.cells.iter().enumerate().filter_map(|(at, cell)| Some((at, cell.unranked?))) {
        match found.iter_mut().find(|(known, _)| *known == why) {
            Some((_, columns)) => columns.push(at),
            None => found.push((why, vec![at])),
        }
    }
    found
}
