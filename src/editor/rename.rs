use super::requests::Answer;
use super::view::View;
use lsp_types::request::{Rename, Request};
pub(super) fn rename(_view: &View, _asked: <Rename as Request>::Params) -> Answer<<Rename as Request>::Result> {
    Ok(Default::default())
}
pub(super) fn prepare(
    _view: &View,
    _asked: lsp_types::TextDocumentPositionParams,
) -> Answer<Option<lsp_types::PrepareRenameResponse>> {
    Ok(None)
}
