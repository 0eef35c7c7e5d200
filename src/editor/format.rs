//! Laying a rule file or job sheet out anew.

use super::requests::Answer;
use super::view::{SHEETS, View};
use crate::syntax::Kind;
use lsp_types::{DocumentFormattingParams, TextEdit};

/// Whether there is something that lays files out. Where there is not, the editor is
/// told that it is not offered.
pub(super) const IS_HERE: bool = false;

/// The text of a rule file or job sheet laid out; nothing where it stays as it is, or
/// has errors. This is the one thing to fill in.
fn laid_out(_text: &str, _kind: Kind) -> Option<String> {
    None
}

/// The changes that lay a file out: all of it at once, or none.
pub(super) fn format(view: &View, asked: DocumentFormattingParams) -> Answer<Option<Vec<TextEdit>>> {
    let Some((file, _, document)) = view.file(&asked.text_document.uri) else { return Ok(None) };
    let kind = if file.0 >= SHEETS { Kind::Job } else { Kind::Rules };
    let edit = laid_out(document.text(), kind).filter(|text| text != document.text());
    Ok(Some(edit.map(|new_text| TextEdit { range: document.whole(), new_text }).into_iter().collect()))
}
