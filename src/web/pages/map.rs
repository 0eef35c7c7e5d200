//! The map of answers.

use super::super::problem::Problem;
use super::super::state::Shared;
use super::super::work::work;
use super::page;
use crate::report::pages::link::Link;
use crate::report::pages::map;
use axum::extract::{RawQuery, State};
use axum::response::Response;

/// `GET /map`: the places by edition in force, or by their answer to the job.
pub(super) async fn map(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| page(map::page(&link, &state.rules, (state.today)()))).await
}
