use super::requests::Answer;
use super::view::View;
use lsp_types::request::{Completion, Request};
pub(super) fn complete(
    _view: &View,
    _asked: <Completion as Request>::Params,
) -> Answer<<Completion as Request>::Result> {
    Ok(Default::default())
}
