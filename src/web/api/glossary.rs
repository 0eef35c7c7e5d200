//! `GET /api/glossary`: what a job may say and what is answered.

use super::super::body::Media;
use super::super::problem::Problem;
use super::super::state::Shared;
use super::super::work::work;
use super::{json, written};
use crate::report::glossary::{Glossary, glossary as words};
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;

/// Every fact that a job may state, every question that is answered, and their terms
#[utoipa::path(get, path = "/api/glossary", operation_id = "glossary", tag = "rules",
    responses((status = 200, description = "The glossary", body = Glossary)))]
pub(crate) async fn glossary(State(state): State<Shared>, headers: HeaderMap) -> Result<Response, Problem> {
    Media::Json.wanted(&headers)?;
    work(&state, |state| written(&words(&state.rules))).await.map(json)
}
