//! The comparison as a page of text: side by side where few columns fit, else answer by answer
//! with the columns that have it.

use super::super::look::{Look, Page, Tone};
use super::super::speech::Reader;
use super::super::visible;
use super::cell::Cell;
use super::column::Column;
use super::groups::{Kind, groups, kind};
use super::{Comparison, Row, words};

/// The most columns that stand side by side on a page.
const BESIDE: usize = 3;

/// The page.
pub(crate) fn page(comparison: &Comparison, reader: Reader, look: Look) -> String {
    let mut sheet = Sheet { page: Page::new(look), comparison, reader, width: look.width };
    sheet.head();
    sheet.columns();
    let kinds: Vec<(&Row, Kind)> = comparison.rows.iter().map(|row| (row, kind(row))).collect();
    let head = reader.say("compare-answered-otherwise");
    sheet.otherwise(&kinds, &Kind::Otherwise, &head);
    sheet.only_in(&kinds);
    sheet.otherwise(&kinds, &Kind::Idle, &reader.say("compare-idle-head"));
    sheet.alike(&kinds);
    sheet.for_all();
    sheet.notes();
    sheet.cautions();
    sheet.page.finish()
}

struct Sheet<'c> {
    page: Page,
    comparison: &'c Comparison,
    reader: Reader,
    width: usize,
}

impl Sheet<'_> {
    fn head(&mut self) {
        let words = words::headline(self.comparison, self.reader);
        self.page.paragraph(0, &words, Tone::Strong);
        if let Some(reference) = &self.comparison.reference {
            let label = self.reader.say("compare-job");
            self.page.labeled(&label, Tone::Quiet, 9, reference, Tone::Plain);
        }
        if let Some(title) = words::shared(self.comparison, &|column| Some(&column.title)) {
            let label = self.reader.say("compare-place");
            self.page.labeled(&label, Tone::Quiet, 9, title, Tone::Plain);
        }
        if let Some(date) = words::shared(self.comparison, &|column| column.date.as_ref()) {
            let label = self.reader.say("compare-date");
            self.page.labeled(&label, Tone::Quiet, 9, date, Tone::Plain);
        }
        self.page.blank();
    }

    fn columns(&mut self) {
        let columns = &self.comparison.columns;
        let reader = self.reader;
        if columns.len() > BESIDE {
            for column in columns {
                let head = format!("{}: {}", column.label, column.outcome_words);
                self.page.hung(0, 2, &head, tone(column.outcome));
                for line in facts(column, reader) {
                    self.page.hung(2, 4, &line, Tone::Plain);
                }
            }
            return;
        }
        self.beside(columns.iter().map(|column| vec![column.label.clone()]).collect(), Tone::Strong);
        self.beside(columns.iter().map(|column| vec![column.outcome_words.clone()]).collect(), Tone::Plain);
        self.beside(columns.iter().map(|column| facts(column, reader)).collect(), Tone::Plain);
    }

    /// The rows of a kind, each with its answers.
    fn otherwise(&mut self, kinds: &[(&Row, Kind)], wanted: &Kind, head: &str) {
        let rows: Vec<&Row> = kinds.iter().filter(|(_, kind)| kind == wanted).map(|(row, _)| *row).collect();
        if rows.is_empty() {
            return;
        }
        self.page.blank();
        self.page.paragraph(0, head, Tone::Strong);
        for row in rows {
            self.page.blank();
            self.page.paragraph(0, &row.title, Tone::Strong);
            if row.cells.len() > BESIDE {
                self.grouped(row);
            } else {
                let cells = row.cells.iter().map(|cell| self.lines(cell, row)).collect();
                self.beside(cells, Tone::Plain);
            }
            if let Some(words) = words::ranking_words(row, &self.comparison.columns, self.reader) {
                self.page.hung(2, 4, &words, Tone::Quiet);
            }
        }
    }

    /// The answers of a row, each with the columns that have it.
    fn grouped(&mut self, row: &Row) {
        for group in groups(row) {
            self.page.hung(2, 4, &words::cell_words(group.cell, row, self.reader), Tone::Plain);
            let texts = if group.texts.is_empty() { String::new() } else { format!(" [{}]", group.texts.join("; ")) };
            self.page.hung(4, 6, &format!("{}{texts}", self.labels(&group.columns)), Tone::Plain);
            if let Some(hangs) = words::hangs_words(group.cell, self.reader) {
                self.page.hung(4, 6, &hangs, Tone::Quiet);
            }
        }
    }

    fn labels(&self, columns: &[usize]) -> String {
        words::labels(&self.comparison.columns, columns)
    }

    /// The lines of one cell.
    fn lines(&self, cell: &Cell, row: &Row) -> Vec<String> {
        let mut lines = vec![words::cell_words(cell, row, self.reader)];
        let texts: Vec<&str> = cell.texts.iter().chain(&cell.instead).map(String::as_str).collect();
        if !texts.is_empty() {
            lines.push(format!("[{}]", texts.join("; ")));
        }
        lines.extend(words::hangs_words(cell, self.reader));
        lines
    }

    /// What only some columns ask, and these alike.
    fn only_in(&mut self, kinds: &[(&Row, Kind)]) {
        let mut told: Vec<(&[usize], Vec<&Row>)> = Vec::new();
        for (row, kind) in kinds {
            let Kind::OnlyIn(columns) = kind else { continue };
            match told.iter_mut().find(|(known, _)| *known == columns.as_slice()) {
                Some((_, rows)) => rows.push(row),
                None => told.push((columns, vec![row])),
            }
        }
        for (columns, rows) in told {
            self.page.blank();
            let head = self.reader.say_with("compare-asked-only-in", &[("columns", &self.labels(columns))]);
            self.page.hung(0, 2, &head, Tone::Strong);
            let Some(first) = columns.first() else { continue };
            for row in rows {
                let Some(cell) = row.cells.get(*first) else { continue };
                let texts = groups(row)
                    .into_iter()
                    .find(|group| group.columns.contains(first))
                    .filter(|group| !group.texts.is_empty())
                    .map_or_else(String::new, |group| format!(" [{}]", group.texts.join("; ")));
                let words = format!("{}: {}{texts}", row.title, words::cell_words(cell, row, self.reader));
                self.page.hung(2, 4, &words, Tone::Plain);
            }
        }
    }

    fn alike(&mut self, kinds: &[(&Row, Kind)]) {
        let told = |wanted: &dyn Fn(&Cell) -> bool| -> Vec<String> {
            let rows = kinds.iter().filter(|(_, kind)| *kind == Kind::Alike).map(|(row, _)| *row);
            rows.filter_map(|row| {
                let cell = row.cells.first().filter(|cell| wanted(cell))?;
                Some(format!("{}: {}", row.title, cell.words))
            })
            .collect()
        };
        self.page.blank();
        let found = |word: &'static str| move |cell: &Cell| cell.finding == Some(word) && cell.asked;
        let lists = [
            ("compare-alike-not-met", told(&found("not-met")), Tone::Bad),
            ("compare-alike-open", told(&found("open")), Tone::Doubt),
            ("compare-alike-met", told(&found("met")), Tone::Plain),
            (
                "compare-alike",
                told(&|cell| cell.finding.is_none() && (cell.asked || cell.state == "silent")),
                Tone::Plain,
            ),
            ("compare-alike-idle", told(&|cell| !cell.asked && cell.state != "silent"), Tone::Quiet),
        ];
        for (key, all, tone) in lists {
            if !all.is_empty() {
                let words = match key {
                    "compare-alike-not-met" => self.reader.say("compare-alike-not-met"),
                    "compare-alike-open" => self.reader.say("compare-alike-open"),
                    "compare-alike-met" => self.reader.say("compare-alike-met"),
                    "compare-alike-idle" => self.reader.say("compare-alike-idle"),
                    _ => self.reader.say("compare-alike"),
                };
                self.page.hung(0, 2, &format!("{words}: {}.", all.join("; ")), tone);
            }
        }
        let silent: Vec<&str> =
            kinds.iter().filter(|(_, kind)| *kind == Kind::Silent).map(|(row, _)| &*row.title).collect();
        if !silent.is_empty() {
            let words = self.reader.say("compare-alike-silent");
            self.page.hung(0, 2, &format!("{words}: {}.", silent.join("; ")), Tone::Quiet);
        }
    }

    fn for_all(&mut self) {
        if self.comparison.for_all_words.is_empty() {
            return;
        }
        self.page.blank();
        self.page.paragraph(0, &self.reader.say("compare-for-all"), Tone::Strong);
        for words in &self.comparison.for_all_words {
            self.page.hung(2, 4, words, Tone::Plain);
        }
    }

    fn notes(&mut self) {
        let notes = words::notes(&self.comparison.columns);
        if notes.is_empty() {
            return;
        }
        self.page.blank();
        self.page.paragraph(0, &self.reader.say("compare-notes"), Tone::Strong);
        for (columns, note) in notes {
            self.page.hung(2, 4, &format!("{}: {note}", self.labels(&columns)), Tone::Plain);
        }
    }

    fn cautions(&mut self) {
        self.page.blank();
        for caution in &self.comparison.cautions {
            self.page.hung(0, 2, caution, Tone::Plain);
        }
    }

    /// Cells side by side, each of several paragraphs.
    fn beside(&mut self, cells: Vec<Vec<String>>, tone: Tone) {
        const GAP: usize = 2;
        let count = cells.len().max(1);
        let wide = (self.width.saturating_sub(GAP * count) / count).max(10);
        let folded: Vec<Vec<String>> = cells
            .iter()
            .map(|paragraphs| {
                let lines = paragraphs.iter().flat_map(|text| {
                    let options = textwrap::Options::new(wide)
                        .subsequent_indent("  ")
                        .word_splitter(textwrap::WordSplitter::NoHyphenation);
                    textwrap::wrap(&visible::line(text), options)
                        .into_iter()
                        .map(std::borrow::Cow::into_owned)
                        .collect::<Vec<_>>()
                });
                lines.collect()
            })
            .collect();
        let height = folded.iter().map(Vec::len).max().unwrap_or(0);
        for line in 0..height {
            let mut words = String::new();
            for cell in &folded {
                let part = cell.get(line).map_or("", String::as_str);
                let gap = wide.saturating_sub(textwrap::core::display_width(part));
                words.push_str(&" ".repeat(GAP));
                words.push_str(part);
                words.push_str(&" ".repeat(gap));
            }
            self.page.line(words.trim_end(), tone);
        }
    }
}

/// What stands under the head of a column.
fn facts(column: &Column, reader: Reader) -> Vec<String> {
    let mut lines = column.codes_words(reader);
    lines.push(reader.say_with("compare-last-read", &[("day", &column.read_words(reader))]));
    lines
}

fn tone(outcome: &str) -> Tone {
    match outcome {
        "complies" => Tone::Good,
        "corrections" | "conflict" => Tone::Bad,
        _ => Tone::Doubt,
    }
}
