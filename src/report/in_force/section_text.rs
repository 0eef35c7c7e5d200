//! One section as it stands, as a page.

use super::super::coverage::fold;
use super::super::look::{Look, Page, Tone};
use super::Inquest;
use super::changes::{Change, How};
use super::clauses::Line;
use super::section::AsItStands;
use super::text::close;
use crate::values::Date;

/// The page on one section.
pub(crate) fn section_page(answer: &AsItStands, inquest: &Inquest<'_>, today: Date, look: Look) -> String {
    let mut page = Page::new(look);
    let (code, number) = (&answer.code, &answer.section);
    let head = format!("{code} {number} as it stands at {} on {}", answer.place, answer.on);
    page.paragraph(0, &head, Tone::Strong);
    if answer.stands.is_empty() {
        page.blank();
        page.paragraph(0, "Nothing of it stands.", Tone::Plain);
    }
    if !answer.stands_as.is_empty() {
        page.blank();
        let text =
            format!("It has another number there on that day: {}.", fold(answer.stands_as.iter().map(String::as_str)));
        page.paragraph(0, &text, Tone::Plain);
    }
    lines(&mut page, &answer.stands, 2);
    let (told, gone): (Vec<&Change>, Vec<&Change>) =
        answer.changes.iter().partition(|change| answer.standing.contains(&change.key));
    before(&mut page, &told);
    if !gone.is_empty() {
        page.blank();
        page.paragraph(0, "What is gone", Tone::Strong);
        for change in gone {
            said(&mut page, change, "gone");
        }
    }
    aside(&mut page, answer);
    if !answer.numbers.is_empty() {
        page.blank();
        page.paragraph(0, "Its numbers over the editions", Tone::Strong);
        for numbers in &answer.numbers {
            page.hung(2, 4, &numbers.words(code), Tone::Plain);
        }
    }
    for remark in &answer.remarks {
        page.blank();
        page.hung(0, 2, &format!("{remark}."), Tone::Plain);
    }
    page.blank();
    close(&mut page, inquest, today);
    page.finish()
}

/// What stands said before: section by section, who changed it and from when.
fn before(page: &mut Page, changes: &[&Change]) {
    if changes.is_empty() {
        return;
    }
    page.blank();
    page.paragraph(0, "What it said before", Tone::Strong);
    // Sections that came together are told together.
    let mut groups: Vec<(&Change, Vec<&str>)> = Vec::new();
    for change in changes {
        let same = |(first, _): &&mut (&Change, Vec<&str>)| {
            let none = change.before.is_empty() && first.before.is_empty() && first.first == change.first;
            none && (&first.on, &first.how) == (&change.on, &change.how)
        };
        match groups.iter_mut().find(same) {
            Some((_, sections)) => sections.push(&change.section),
            None => groups.push((change, vec![&change.section])),
        }
    }
    for (change, sections) in groups {
        if change.before.is_empty() {
            let before = if change.first { "; nothing before" } else { "" };
            let sections = fold(sections);
            let text = format!("{sections}, since {}: {}{before}", change.on, joined(&change.how));
            page.blank();
            page.hung(2, 4, &text, Tone::Plain);
        } else {
            said(page, change, "so");
        }
    }
}

fn joined(how: &[How]) -> String {
    how.iter().map(How::to_string).collect::<Vec<_>>().join("; ")
}

fn said(page: &mut Page, change: &Change, word: &str) {
    page.blank();
    let head = format!("{}, {word} since {}: {}", change.section, change.on, joined(&change.how));
    page.hung(2, 4, &format!("{head}. Before that:"), Tone::Strong);
    lines(page, &change.before, 4);
}

/// What is set aside on the day and was not told as the last change.
fn aside(page: &mut Page, answer: &AsItStands) {
    let told = |line: &Line| {
        let same = |before: &Line| (&before.section, &before.demand) == (&line.section, &line.demand);
        answer.changes.iter().any(|change| change.before.iter().any(same))
    };
    let rest: Vec<&Line> = answer.before.iter().filter(|line| !told(line)).collect();
    if rest.is_empty() {
        return;
    }
    page.blank();
    page.paragraph(0, "What is set aside", Tone::Strong);
    lines(page, rest, 2);
}

/// The clauses, those of one author in one section together, from a column.
fn lines<'l>(page: &mut Page, lines: impl IntoIterator<Item = &'l Line>, column: usize) {
    let mut last: Option<&Line> = None;
    for line in lines {
        let same = last.is_some_and(|last| {
            (&last.section, last.edition, &last.author, &last.fate)
                == (&line.section, line.edition, &line.author, &line.fate)
        });
        if !same {
            page.blank();
            let title = if line.title.is_empty() { String::new() } else { format!(" {}", line.title) };
            page.hung(column, column + 2, &format!("{}{title} ({})", line.section, line.edition), Tone::Strong);
            let adopted =
                line.adopted_by.as_ref().map_or_else(String::new, |by| format!("; the edition adopted by {by}"));
            let by = format!("by {}, in force {}{adopted}", line.author, line.in_force);
            page.hung(column + 2, column + 4, &by, Tone::Plain);
            if !line.fate.is_empty() {
                page.hung(column + 2, column + 4, &line.fate, Tone::Plain);
            }
            if !line.summary.is_empty() {
                page.paragraph(column + 2, &line.summary, Tone::Plain);
            }
            page.hung(column + 2, column + 4, &line.provenance, Tone::Quiet);
        }
        let conditions = if line.conditions.is_empty() {
            String::new()
        } else {
            format!(", where {}", line.conditions.join("; and "))
        };
        let reaches =
            if line.reaches.is_empty() { String::new() } else { format!(" [for jobs with {}]", line.reaches) };
        page.hung(column + 2, column + 4, &format!("{}{conditions}{reaches}", line.demand), Tone::Plain);
        last = Some(line);
    }
}
