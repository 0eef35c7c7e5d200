//! Which question of the editor's is answered where. Answers come from a view alone.

use super::view::View;
use super::{completion, definition, format, hover, lens, outline, references, rename};
use lsp_server::{ErrorCode, Request, ResponseError};
use lsp_types::request::{
    CodeLensRequest, CodeLensResolve, Completion, DocumentSymbolRequest, Formatting, GotoDefinition, HoverRequest,
    PrepareRenameRequest, References, Rename, Request as Asked,
};
use serde_json::Value;

/// Why a question is not answered, for the people at the editor.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Refusal(pub(super) String);

/// What came of a question.
pub(super) type Answer<T> = Result<T, Refusal>;

/// Answers a question.
///
/// # Errors
/// Where it is not known here, is not put as the protocol puts it, or is refused.
pub(super) fn answer(view: &View, request: Request) -> Result<Value, ResponseError> {
    let Request { method, params, .. } = request;
    match method.as_str() {
        Completion::METHOD => run::<Completion>(view, params, completion::complete),
        HoverRequest::METHOD => run::<HoverRequest>(view, params, hover::hover),
        GotoDefinition::METHOD => run::<GotoDefinition>(view, params, definition::define),
        References::METHOD => run::<References>(view, params, references::find),
        PrepareRenameRequest::METHOD => run::<PrepareRenameRequest>(view, params, rename::prepare),
        Rename::METHOD => run::<Rename>(view, params, rename::rename),
        DocumentSymbolRequest::METHOD => run::<DocumentSymbolRequest>(view, params, outline::outline),
        CodeLensRequest::METHOD => run::<CodeLensRequest>(view, params, lens::lenses),
        CodeLensResolve::METHOD => run::<CodeLensResolve>(view, params, lens::resolve),
        Formatting::METHOD => run::<Formatting>(view, params, format::format),
        _ => Err(error(ErrorCode::MethodNotFound, format!("`{method}` is not answered here"))),
    }
}

/// Whether the answer to a question may take long, so that others go before it.
pub(super) fn is_long(method: &str) -> bool {
    method == CodeLensResolve::METHOD || method == References::METHOD
}

fn run<R: Asked>(
    view: &View,
    params: Value,
    answer: fn(&View, R::Params) -> Answer<R::Result>,
) -> Result<Value, ResponseError> {
    let params = serde_json::from_value(params)
        .map_err(|problem| error(ErrorCode::InvalidParams, format!("the question cannot be read: {problem}")))?;
    let answered = answer(view, params).map_err(|Refusal(why)| error(ErrorCode::RequestFailed, why))?;
    serde_json::to_value(answered)
        .map_err(|problem| error(ErrorCode::InternalError, format!("the answer cannot be written: {problem}")))
}

/// An error of the protocol.
pub(super) fn error(code: ErrorCode, message: impl Into<String>) -> ResponseError {
    ResponseError { code: code as i32, message: message.into(), data: None }
}
