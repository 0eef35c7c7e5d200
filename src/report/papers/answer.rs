//! The reasoned answer: each question with every text that was tried, layer by layer.

use super::Drawn;
use crate::report::sheet::Line;
use crate::report::sheet::reasons::{Text, Told};
use serde::Serialize;

/// What stands on it.
#[derive(Serialize)]
pub(super) struct Body<'d> {
    answers: Vec<Answer<'d>>,
    /// Every text once, outermost layer first.
    shelves: Vec<Shelf<'d>>,
}

#[derive(Serialize)]
struct Answer<'d> {
    line: &'d Line,
    layers: Vec<Layer<'d>>,
}

/// What the texts of one issuer say of a question.
#[derive(Serialize)]
struct Layer<'d> {
    issuer: &'d str,
    /// Those that reach the job, then the others.
    hit: Vec<Row<'d>>,
    missed: Vec<Row<'d>>,
}

#[derive(Serialize)]
struct Row<'d> {
    told: &'d Told,
    /// The number of its text in the list at the end.
    text: usize,
}

#[derive(Serialize)]
struct Source<'d> {
    number: usize,
    cite: &'d str,
    text: &'d Text,
}

/// The texts of one issuer that are of one kind and in force on the same days.
#[derive(Serialize)]
struct Shelf<'d> {
    issuer: &'d str,
    kind: &'d str,
    when: &'d str,
    texts: Vec<Source<'d>>,
}

/// Every answer with what was tried for it.
pub(super) fn body<'d>(drawn: &Drawn<'d, '_>) -> Body<'d> {
    let mut texts: Vec<Source<'d>> = Vec::new();
    for told in drawn.sheet.answers.iter().flat_map(|line| &line.reasons) {
        if !texts.iter().any(|known| known.cite == told.cite && *known.text == told.text) {
            texts.push(Source { number: 0, cite: &told.cite, text: &told.text });
        }
    }
    // The sort keeps the order of the work among what it does not tell apart.
    let key = |text: &'d Text| (text.layer, &*text.issuer, &*text.when, &*text.kind);
    texts.sort_by_key(|source| key(source.text));
    for (source, number) in texts.iter_mut().zip(1..) {
        source.number = number;
    }
    let answers = drawn.sheet.answers.iter().map(|line| Answer { line, layers: layers(line, &texts) }).collect();
    let mut shelves: Vec<Shelf<'d>> = Vec::new();
    for source in texts {
        let Text { issuer, kind, when, .. } = source.text;
        if shelves.last().is_none_or(|shelf| (shelf.issuer, shelf.kind, shelf.when) != (issuer, kind, when)) {
            shelves.push(Shelf { issuer, kind, when, texts: Vec::new() });
        }
        if let Some(shelf) = shelves.last_mut() {
            shelf.texts.push(source);
        }
    }
    Body { answers, shelves }
}

fn layers<'d>(line: &'d Line, texts: &[Source<'d>]) -> Vec<Layer<'d>> {
    let mut rows: Vec<Row<'d>> = line
        .reasons
        .iter()
        .filter_map(|told| {
            let source = texts.iter().find(|known| known.cite == told.cite && *known.text == told.text)?;
            Some(Row { told, text: source.number })
        })
        .collect();
    rows.sort_by(|one, other| {
        (one.told.text.layer, &one.told.text.issuer).cmp(&(other.told.text.layer, &other.told.text.issuer))
    });
    let mut layers: Vec<Layer<'d>> = Vec::new();
    for row in rows {
        let issuer = row.told.text.issuer.as_str();
        if layers.last().is_none_or(|layer| layer.issuer != issuer) {
            layers.push(Layer { issuer, hit: Vec::new(), missed: Vec::new() });
        }
        let Some(layer) = layers.last_mut() else { continue };
        if row.told.group == "set-aside" { layer.missed.push(row) } else { layer.hit.push(row) }
    }
    layers
}
