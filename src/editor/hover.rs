//! What the word under the cursor stands for, in words.

use super::describe::{describe, error_code};
use super::mentions::at;
use super::requests::Answer;
use super::view::View;
use crate::syntax::codes;
use crate::syntax::diagnostic::Severity;
use lsp_types::{Hover, HoverContents, HoverParams, MarkupContent, MarkupKind};

/// The page on what stands under the cursor.
pub(super) fn hover(view: &View, asked: HoverParams) -> Answer<Option<Hover>> {
    let asked = asked.text_document_position_params;
    let Some(spot) = view.spot(&asked.text_document.uri, asked.position) else { return Ok(None) };
    let found = match at(view, spot) {
        Some(mention) => describe(view, &mention).map(|page| (mention.at.span, page)),
        None => error_code(spot.document.text(), spot.offset as usize).and_then(|span| {
            let written = spot.document.part(span)?;
            let (code, title) = codes::ALL.iter().find(|(code, _)| code.to_string() == written)?;
            let grave = match code.severity() {
                Severity::Error => "an error",
                Severity::Warning => "a warning",
            };
            Some((span, format!("**{code}** ({grave}): {title}")))
        }),
    };
    Ok(found.map(|(span, value)| Hover {
        contents: HoverContents::Markup(MarkupContent { kind: MarkupKind::Markdown, value }),
        range: Some(spot.document.range(span)),
    }))
}
