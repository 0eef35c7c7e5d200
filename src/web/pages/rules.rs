//! The room of the rules.

use super::super::problem::Problem;
use super::super::query::Named;
use super::super::state::{Shared, State as Server};
use super::super::work::work;
use super::page;
use crate::report::pages::link::Link;
use crate::report::pages::{missing, rules};
use axum::extract::{RawQuery, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};

/// `GET /rules`: where to begin.
pub(super) async fn index(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| shown(state, "", &link)).await
}

/// `GET /rules/…`: codes, editions, sections, places, instruments.
pub(super) async fn room(
    State(state): State<Shared>,
    Named(rest): Named,
    RawQuery(query): RawQuery,
) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| shown(state, &rest, &link)).await
}

fn shown(state: &Server, rest: &str, link: &Link) -> Response {
    let address: Vec<&str> = rest.split('/').filter(|part| !part.is_empty()).collect();
    match rules::page(&address, link, &state.rules, (state.today)()) {
        Ok(text) => page(Ok(text)),
        Err(told) if told.broken => Problem::fault().into_response(),
        Err(told) => {
            let mut response = page(missing::page(&told, link, state.rules.hash()));
            *response.status_mut() = StatusCode::NOT_FOUND;
            response
        }
    }
}
