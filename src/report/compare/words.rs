//! What every form of a comparison says in the same words.

use super::super::speech::Reader;
use super::cell::Cell;
use super::column::Column;
use super::{Comparison, Row, groups};

/// The first sentence: how much is compared and how much differs.
pub(super) fn headline(comparison: &Comparison, reader: Reader) -> String {
    let distinct = |of: &dyn Fn(&Column) -> String| {
        let mut all: Vec<String> = comparison.columns.iter().map(of).collect();
        all.sort();
        all.dedup();
        all.len()
    };
    let places = distinct(&|column| column.place.join("/")).to_string();
    let days = distinct(&|column| column.date.clone().unwrap_or_default()).to_string();
    let parts = [
        ("places", &*places),
        ("days", &*days),
        ("some", &*comparison.differing().count().to_string()),
        ("all", &*comparison.rows.len().to_string()),
    ];
    reader.say_with("compare-headline", &parts)
}

/// What all columns have alike.
pub(super) fn shared<'c>(
    comparison: &'c Comparison,
    of: &dyn Fn(&'c Column) -> Option<&'c String>,
) -> Option<&'c String> {
    let mut all = comparison.columns.iter().map(of);
    let first = all.next()??;
    all.all(|other| other == Some(first)).then_some(first)
}

/// The labels of some columns.
pub(super) fn labels(columns: &[Column], some: &[usize]) -> String {
    let labels: Vec<&str> = some.iter().filter_map(|at| columns.get(*at)).map(|column| &*column.label).collect();
    labels.join("; ")
}

/// The finding of a cell; none where there is no use in it.
pub(super) fn finding_words(cell: &Cell, reader: Reader) -> Option<String> {
    let finding = cell.finding.filter(|_| cell.not_applicable.is_none())?;
    Some(match finding {
        "met" => reader.say("sheet-mark-met"),
        "not-met" => reader.say("sheet-mark-not-met"),
        _ => reader.say("sheet-mark-open"),
    })
}

/// The answer of a cell; what is not asked of the job there is said beside, where other columns
/// ask it.
pub(super) fn answer_words(cell: &Cell, row: &Row, reader: Reader) -> String {
    if cell.is_idle() && !row.idle() {
        return reader.say_with("compare-idle", &[("answer", &cell.words)]);
    }
    cell.words.clone()
}

/// The same with its finding and its mark.
pub(super) fn cell_words(cell: &Cell, row: &Row, reader: Reader) -> String {
    let answer = answer_words(cell, row, reader);
    let words = match finding_words(cell, reader) {
        Some(finding) => format!("{finding}: {answer}"),
        None => answer,
    };
    if cell.strictest { format!("{words} ({})", reader.say("compare-strictest")) } else { words }
}

/// That facts of the job could change a cell, and which.
pub(super) fn hangs_words(cell: &Cell, reader: Reader) -> Option<String> {
    let settled = cell.state == "settled";
    match (cell.may_change, cell.hangs_on.as_slice()) {
        (false, _) => None,
        (true, facts @ [_, ..]) if settled => {
            Some(reader.say_with("compare-finding-hangs-on", &[("facts", &facts.join(", "))]))
        }
        (true, []) => Some(reader.say("compare-may-change")),
        (true, facts) => Some(reader.say_with("compare-hangs-on", &[("facts", &facts.join(", "))])),
    }
}

/// What keeps answers of a row from being ranked.
pub(super) fn ranking_words(row: &Row, columns: &[Column], reader: Reader) -> Option<String> {
    let mut words: Vec<String> = Vec::new();
    if row.not_comparable {
        words.push(reader.say("compare-not-comparable"));
    }
    // That no rule is known, or that there is no such question, the answer itself says.
    let told = |why: &str| !matches!(why, "silent" | "no-such-question");
    for (why, some) in groups::unranked(row).into_iter().filter(|(why, _)| told(why)) {
        let parts = [("columns", &*labels(columns, &some)), ("why", &*why_words(why, reader))];
        words.push(reader.say_with("compare-unranked", &parts));
    }
    (!words.is_empty()).then(|| words.join(". "))
}

/// Why an answer is not ranked, in words.
pub(super) fn why_words(why: &str, reader: Reader) -> String {
    match why {
        "open" => reader.say("compare-unranked-open"),
        "referred" => reader.say("sheet-left-to-authority"),
        "conflict" => reader.say("sheet-contradict"),
        "silent" => reader.say("sheet-silent"),
        "not-asked" => reader.say("compare-unranked-idle"),
        _ => reader.say("compare-no-such-question"),
    }
}

/// Notes with the columns that have them.
pub(super) fn notes(columns: &[Column]) -> Vec<(Vec<usize>, &str)> {
    let mut told: Vec<(Vec<usize>, &str)> = Vec::new();
    for (at, column) in columns.iter().enumerate() {
        for note in &column.notes {
            match told.iter_mut().find(|(_, known)| known == note) {
                Some((some, _)) => some.push(at),
                None => told.push((vec![at], note)),
            }
        }
    }
    told
}
