//! How large the head of a request may be. The connection itself takes more, so that
//! whoever sends too much is answered by a problem as by everything else here.

use super::limits::Limits;
use super::problem::Problem;
use super::state::Shared;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, Method, StatusCode, Uri};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// Lets a head in or says what of it is too large.
fn fits(limits: &Limits, method: &Method, uri: &Uri, headers: &HeaderMap) -> Result<(), Problem> {
    let most = limits.head;
    if headers.len() > limits.head_fields {
        let told = format!(
            "the head of the request has {} fields, and at most {} are read",
            headers.len(),
            limits.head_fields
        );
        return Err(Problem::new(StatusCode::REQUEST_HEADER_FIELDS_TOO_LARGE, told).help("leave fields out"));
    }
    let address = uri.to_string().len();
    // As it stands on the line: blanks, colons and ends of lines as usual.
    let fields: usize = headers.iter().map(|(name, value)| name.as_str().len() + value.len() + ": \r\n".len()).sum();
    let whole = method.as_str().len() + address + "  HTTP/1.1\r\n\r\n".len() + fields;
    if whole <= most {
        return Ok(());
    }
    let told = format!(
        "the head of the request has {whole} bytes, {address} of them its address, and at most {most} are read"
    );
    Err(if address > most / 2 {
        Problem::new(StatusCode::URI_TOO_LONG, told)
            .help("send what is long as a body: POST /api/verdict takes a whole job")
    } else {
        Problem::new(StatusCode::REQUEST_HEADER_FIELDS_TOO_LARGE, told).help("send shorter fields, or fewer")
    })
}

/// Asks every request.
pub(super) async fn measure(State(state): State<Shared>, request: Request, next: Next) -> Response {
    match fits(&state.limits, request.method(), request.uri(), request.headers()) {
        Ok(()) => next.run(request).await,
        Err(problem) => problem.into_response(),
    }
}
