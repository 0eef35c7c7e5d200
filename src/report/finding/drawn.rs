//! Findings drawn beside the text that they are about.

use super::{Finding, Spot, plain};
use crate::report::visible;
use crate::syntax::diagnostic::Severity;
use ariadne::{Color, Config, IndexType, Label, Report, ReportKind, Source};
use std::collections::HashMap;
use std::ops::Range;

/// A line longer than this is not drawn; the finding is told in sentences.
const MOST: usize = 160;

/// The findings, one below the other.
pub(super) fn draw(findings: &[Finding], color: bool) -> String {
    let mut texts: HashMap<&str, Source<String>> = HashMap::new();
    for spot in findings.iter().flat_map(spots).filter(|spot| fits(spot)) {
        if let Some(text) = &spot.text {
            texts.entry(&spot.name).or_insert_with(|| Source::from(visible::lines(text)));
        }
    }
    let mut cache = Texts { texts };
    let drawn: Vec<String> = findings
        .iter()
        .map(|finding| match one(finding, color, &mut cache) {
            Some(drawn) => drawn,
            None => plain::paragraph(finding),
        })
        .collect();
    drawn.join("\n")
}

/// The texts by their names.
struct Texts<'f> {
    texts: HashMap<&'f str, Source<String>>,
}

impl<'f> ariadne::Cache<&'f str> for &mut Texts<'f> {
    type Storage = String;

    fn fetch(&mut self, name: &&'f str) -> Result<&Source<String>, impl std::fmt::Debug> {
        self.texts.get(*name).ok_or("no text")
    }

    fn display<'a>(&self, name: &'a &'f str) -> Option<impl std::fmt::Display + 'a> {
        Some(visible::line(name))
    }
}

fn spots(finding: &Finding) -> impl Iterator<Item = &Spot> {
    std::iter::once(&*finding.spot).chain(finding.also.iter().map(|(spot, _)| spot))
}

fn fits(spot: &Spot) -> bool {
    spot.line().is_some_and(|(line, _, _)| line.chars().count() <= MOST)
}

/// The letters that a spot means; the drawing counts letters, and a stretch over
/// many lines is drawn by its first.
fn letters(spot: &Spot) -> Option<Range<usize>> {
    let text = spot.text.as_deref()?;
    let start = visible::lines(text.get(..spot.start)?).chars().count();
    let (_, from, to) = spot.line()?;
    Some(start..start + (to - from).max(1))
}

fn one<'f>(finding: &'f Finding, color: bool, texts: &mut Texts<'f>) -> Option<String> {
    if !spots(finding).all(fits) {
        return None;
    }
    let (kind, tint) = match finding.severity() {
        Severity::Error => (ReportKind::Error, Color::Red),
        Severity::Warning => (ReportKind::Warning, Color::Yellow),
    };
    let name = finding.spot.name.as_str();
    let mut marks: Vec<(&'f str, Range<usize>, Color, String)> =
        vec![(name, letters(&finding.spot)?, tint, "here".to_owned())];
    for (spot, note) in &finding.also {
        marks.push((&spot.name, letters(spot)?, Color::Cyan, visible::line(note)));
    }
    // Marks of one file are drawn together only where they come in its order.
    marks.sort_by_key(|(file, range, ..)| (*file != name, *file, range.start));
    let mut report = Report::build(kind, (name, letters(&finding.spot)?))
        .with_config(Config::default().with_color(color).with_index_type(IndexType::Char))
        .with_code(finding.code.to_string())
        .with_message(visible::line(&finding.message));
    for (file, range, tint, note) in marks {
        report = report.with_label(Label::new((file, range)).with_color(tint).with_message(note));
    }
    if let Some(help) = &finding.help {
        report = report.with_help(visible::line(help));
    }
    let mut drawn = Vec::new();
    report.finish().write(texts, &mut drawn).ok()?;
    let mut text = String::from_utf8(drawn).ok()?;
    text.push_str(&plain::shown(finding));
    Some(text)
}
