//! Laying a rule file out anew.

use super::requests::Answer;
use super::view::View;
use lsp_types::{DocumentFormattingParams, TextEdit};

/// Whether there is something that lays files out. Where there is not, the editor is
/// told that it is not offered.
pub(super) const IS_HERE: bool = false;

/// The text of a rule file laid out; nothing where it stays as it is.
fn laid_out(_text: &str) -> Option<String> {
    None
}

/// The changes that lay a file out: all of it at once, or none.
pub(super) fn format(view: &View, asked: DocumentFormattingParams) -> Answer<Option<Vec<TextEdit>>> {
    let Some((_, _, document)) = view.file(&asked.text_document.uri) else { return Ok(None) };
    let edit = laid_out(document.text()).filter(|text| text != document.text());
    Ok(Some(edit.map(|new_text| TextEdit { range: document.whole(), new_text }).into_iter().collect()))
}
