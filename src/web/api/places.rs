//! `GET /api/places`: the places whose rules are loaded.

use super::super::body::Media;
use super::super::problem::Problem;
use super::super::state::Shared;
use super::super::work::work;
use super::{json, written};
use crate::report::places::{Places, places as known};
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;

/// Every place, with what it lies within, its office and when its rules were read
#[utoipa::path(get, path = "/api/places", operation_id = "places", tag = "rules",
    responses((status = 200, description = "The places", body = Places)))]
pub(crate) async fn places(State(state): State<Shared>, headers: HeaderMap) -> Result<Response, Problem> {
    Media::Json.wanted(&headers)?;
    work(&state, |state| written(&known(&state.rules))).await.map(json)
}
