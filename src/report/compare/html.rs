//! The comparison as one HTML file: no script, nothing from elsewhere, fit to be printed. What
//! differs comes first; what is alike is folded, and opens on paper.

use super::super::sheet::facts::Echo;
use super::super::speech::{Reader, template};
use super::cell::Cell;
use super::column::Column;
use super::groups::{Kind, groups, kind};
use super::{Comparison, Row, words};
use serde::Serialize;

/// The most columns that stand side by side on a sheet; of more each answer is told with the
/// columns that have it.
const BESIDE: usize = 5;

/// How every page of this kind looks, and what this one adds.
const STYLE: &str =
    concat!(include_str!("../effect/page.css"), "body { max-width: 64rem; }\n", include_str!("compare.css"));

/// What stands on the file, and on the page of the counter.
#[derive(Serialize)]
pub(crate) struct Sheet<'c> {
    style: &'static str,
    headline: String,
    reference: Option<&'c str>,
    columns: Vec<Head<'c>>,
    sections: Vec<Section<'c>>,
    for_all: &'c [String],
    silent: Vec<&'c str>,
    notes: Vec<(String, &'c str)>,
    facts: &'c [Echo],
    cautions: &'c [String],
    engine: &'static str,
    library: String,
}

#[derive(Serialize)]
struct Head<'c> {
    label: &'c str,
    title: &'c str,
    date: Option<&'c str>,
    outcome: &'c str,
    grave: bool,
    codes: Vec<String>,
    read: String,
}

/// Rows of one kind.
#[derive(Serialize)]
struct Section<'c> {
    head: String,
    /// `beside`: a column for each place and day; `grouped`: each answer with its columns;
    /// `single`: the one answer of those columns that ask it.
    layout: &'static str,
    /// Whether it is folded on a screen.
    folded: bool,
    rows: Vec<RowView<'c>>,
}

#[derive(Serialize)]
struct RowView<'c> {
    title: &'c str,
    ranking: Option<String>,
    /// One for each column, or one for each answer.
    cells: Vec<CellView>,
}

#[derive(Serialize)]
struct CellView {
    words: String,
    finding: Option<String>,
    grave: bool,
    strictest: bool,
    /// Whether it is of another rank than what is asked: idle, silent or not to be had.
    faint: bool,
    texts: String,
    hangs: Option<String>,
    /// The columns that have it, where cells are told together.
    columns: String,
}

/// The file; the problem in words where the page cannot be filled.
pub(crate) fn html(comparison: &Comparison, reader: Reader) -> String {
    let sheet = sheet(comparison, reader);
    template::render("compare.html", &sheet, reader).unwrap_or_else(|problem| problem.to_string())
}

/// The comparison ready for a template.
pub(crate) fn sheet(comparison: &Comparison, reader: Reader) -> Sheet<'_> {
    let beside = comparison.columns.len() <= BESIDE;
    let columns = &comparison.columns;
    let layout = if beside { "beside" } else { "grouped" };
    let mut otherwise =
        Section { head: reader.say("compare-answered-otherwise-page"), layout, folded: false, rows: Vec::new() };
    let mut alike = Section {
        head: reader.say("compare-alike-page"),
        layout: if beside { layout } else { "single" },
        folded: true,
        rows: Vec::new(),
    };
    let mut idle = Section { head: reader.say("compare-idle-head"), layout, folded: false, rows: Vec::new() };
    let mut only: Vec<(Vec<usize>, Section<'_>)> = Vec::new();
    let mut silent = Vec::new();
    for row in &comparison.rows {
        match kind(row) {
            Kind::Otherwise => otherwise.rows.push(view(row, columns, layout, reader)),
            Kind::Alike => alike.rows.push(view(row, columns, alike.layout, reader)),
            Kind::Idle => idle.rows.push(view(row, columns, layout, reader)),
            Kind::Silent => silent.push(&*row.title),
            Kind::OnlyIn(some) => {
                let mut told = view(row, columns, "grouped", reader);
                let asking = groups(row).iter().position(|group| group.columns.first() == some.first());
                told.cells = told.cells.into_iter().skip(asking.unwrap_or(0)).take(1).collect();
                told.ranking = None;
                match only.iter_mut().find(|(known, _)| *known == some) {
                    Some((_, section)) => section.rows.push(told),
                    None => {
                        let labels = words::labels(columns, &some);
                        let head = reader.say_with("compare-asked-only-in", &[("columns", &labels)]);
                        only.push((some, Section { head, layout: "single", folded: false, rows: vec![told] }));
                    }
                }
            }
        }
    }
    let sections = std::iter::once(otherwise)
        .chain(only.into_iter().map(|(_, section)| section))
        .chain([idle, alike])
        .filter(|section| !section.rows.is_empty())
        .collect();
    Sheet {
        style: STYLE,
        headline: words::headline(comparison, reader),
        reference: comparison.reference.as_deref(),
        columns: columns.iter().map(|column| head(column, reader)).collect(),
        sections,
        for_all: &comparison.for_all_words,
        silent,
        notes: words::notes(columns).into_iter().map(|(some, note)| (words::labels(columns, &some), note)).collect(),
        facts: &comparison.facts,
        cautions: &comparison.cautions,
        engine: comparison.engine,
        library: comparison.library.chars().take("sha256:".len() + 16).collect(),
    }
}

fn head(column: &Column, reader: Reader) -> Head<'_> {
    Head {
        label: &column.label,
        title: &column.title,
        date: column.date.as_deref(),
        outcome: &column.outcome_words,
        grave: matches!(column.outcome, "corrections" | "conflict"),
        codes: column.codes_words(reader),
        read: column.read_words(reader),
    }
}

fn view<'c>(row: &'c Row, columns: &[Column], layout: &str, reader: Reader) -> RowView<'c> {
    let cells = if layout == "beside" {
        row.cells
            .iter()
            .map(|cell| {
                let texts: Vec<&str> = cell.texts.iter().chain(&cell.instead).map(String::as_str).collect();
                cell_view(cell, row, &texts, String::new(), reader)
            })
            .collect()
    } else {
        groups(row)
            .into_iter()
            .map(|group| cell_view(group.cell, row, &group.texts, words::labels(columns, &group.columns), reader))
            .collect()
    };
    RowView { title: &row.title, ranking: words::ranking_words(row, columns, reader), cells }
}

fn cell_view(cell: &Cell, row: &Row, texts: &[&str], columns: String, reader: Reader) -> CellView {
    CellView {
        words: words::answer_words(cell, row, reader),
        finding: words::finding_words(cell, reader),
        grave: cell.finding == Some("not-met"),
        strictest: cell.strictest,
        faint: !cell.asked || cell.not_applicable.is_some() || cell.state == "silent",
        texts: texts.join("; "),
        hangs: words::hangs_words(cell, reader),
        columns,
    }
}
