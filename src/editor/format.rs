//! Laying a rule file or job sheet out anew.

use super::requests::Answer;
use super::view::View;
use crate::syntax::Kind;
use crate::syntax::diagnostic::FileId;
use crate::syntax::layout::lay_out;
use lsp_types::{DocumentFormattingParams, TextEdit};

/// The changes that lay a file out: all of it at once, or none where it is laid out
/// already or cannot be read; what is wrong with it is told beside.
pub(super) fn format(view: &View, asked: DocumentFormattingParams) -> Answer<Option<Vec<TextEdit>>> {
    let uri = asked.text_document.uri;
    let Some((_, _, document)) = view.file(&uri) else { return Ok(None) };
    let kind = if uri.as_str().ends_with(".job") { Kind::Job } else { Kind::Rules };
    let laid = lay_out(FileId::default(), document.text(), kind).ok();
    let edit = laid.filter(|text| text != document.text());
    Ok(Some(edit.map(|new_text| TextEdit { range: document.whole(), new_text }).into_iter().collect()))
}
