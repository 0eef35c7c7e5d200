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
    texts: Vec<Source<'d>>,
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
    cite: &'d str,
    text: &'d Text,
}

/// Every answer with what was tried for it.
pub(super) fn body<'d>(drawn: &Drawn<'d, '_>) -> Body<'d> {
    let mut texts: Vec<Source<'d>> = Vec::new();
    for told in drawn.sheet.answers.iter().flat_map(|line| &line.reasons) {
        if !texts.iter().any(|known| known.cite == told.cite && *known.text == told.text) {
            texts.push(Source { cite: &told.cite, text: &told.text });
        }
    }
    // The sort keeps the order of the work within a layer.
    texts.sort_by(|one, other| (one.text.layer, &one.text.issuer).cmp(&(other.text.layer, &other.text.issuer)));
    let answers = drawn.sheet.answers.iter().map(|line| Answer { line, layers: layers(line, &texts) }).collect();
    Body { answers, texts }
}

fn layers<'d>(line: &'d Line, texts: &[Source<'d>]) -> Vec<Layer<'d>> {
    let mut rows: Vec<Row<'d>> = line
        .reasons
        .iter()
        .filter_map(|told| {
            let at = texts.iter().position(|known| known.cite == told.cite && *known.text == told.text)?;
            Some(Row { told, text: at + 1 })
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
