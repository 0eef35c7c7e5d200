//! What is wrong with the job of a link, where no page can show it beside the form.

use super::super::problem::Problem;
use crate::interview::link::Unheard;
use crate::report::pages::problems::{Told, told};
use crate::report::speech::Reader;
use axum::http::header::CONTENT_SECURITY_POLICY;
use axum::http::{HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};

/// The first thing that is wrong with a job, as a problem.
pub(super) fn unread(wrong: &[Unheard], reader: Reader) -> Problem {
    problem(&told(wrong, reader))
}

/// The first of several, as a problem.
pub(super) fn problem(told: &[Told]) -> Problem {
    let Some(first) = told.first() else {
        return Problem::new(StatusCode::UNPROCESSABLE_ENTITY, "the link holds no job");
    };
    let mut help: Vec<String> = first.help.iter().cloned().collect();
    help.extend((!first.near.is_empty()).then(|| format!("did you mean {}?", first.near.join(", "))));
    let problem = Problem::new(StatusCode::UNPROCESSABLE_ENTITY, format!("{}: {}", first.path, first.message));
    if help.is_empty() { problem } else { problem.help(help.join("; ")) }
}

/// A sheet to print or to keep: it holds its own style, and nothing else.
pub(super) fn printed(sheet: impl IntoResponse) -> Response {
    let mut response = sheet.into_response();
    let policy = HeaderValue::from_static("default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'");
    response.headers_mut().insert(CONTENT_SECURITY_POLICY, policy);
    response
}
