//! `GET /api/in-force`: what is in force at a place on a day.

use super::super::body::Media;
use super::super::problem::Problem;
use super::super::query::{Parameters, day, not_so, place};
use super::super::state::Shared;
use super::super::work::work;
use super::{json, written};
use crate::report::finding::Finding;
use crate::report::in_force::{InForce, Inquest, collect, inquire};
use crate::rules::Rules;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;
use serde::Deserialize;
use utoipa::IntoParams;

/// Where and when.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
#[serde(deny_unknown_fields)]
pub(crate) struct Asked {
    /// The place: its name, its printed name or its path.
    #[param(example = "stonecroft")]
    place: String,
    /// The day; every date of a job is taken to be this day.
    #[param(format = Date, example = "2026-04-20")]
    on: String,
}

/// Codes, editions, amendments and powers in force at a place on a day, and their history
///
/// The same as `groundrule in-force --as json`.
#[utoipa::path(get, path = "/api/in-force", operation_id = "inForce", tag = "rules", params(Asked),
    responses((status = 200, description = "What is in force", body = InForce)))]
pub(crate) async fn in_force(
    State(state): State<Shared>,
    headers: HeaderMap,
    Parameters(asked): Parameters<Asked>,
) -> Result<Response, Problem> {
    Media::Json.wanted(&headers)?;
    let told =
        work(&state, move |state| ask(&state.rules, &asked.place, &asked.on, |inquest| Ok(written(&collect(inquest)))));
    told.await?
}

/// What is told of a place on a day as the parameters name them.
pub(super) fn ask(
    rules: &Rules,
    place_name: &str,
    on: &str,
    tell: impl FnOnce(&Inquest<'_>) -> Result<String, Finding>,
) -> Result<Response, Problem> {
    told_at(rules, place_name, on, tell).map(json).map_err(|findings| not_so(&findings))
}

fn told_at(
    rules: &Rules,
    place_name: &str,
    on: &str,
    tell: impl FnOnce(&Inquest<'_>) -> Result<String, Finding>,
) -> Result<String, Vec<Finding>> {
    let place = place(rules, place_name, "place").map_err(|problem| vec![problem])?;
    let on = day(on, "on").map_err(|problem| vec![problem])?;
    inquire(rules, place, on, |inquest| tell(inquest).map_err(|problem| vec![problem]))
        .unwrap_or_else(|problem| Err(problem.findings(rules)))
}
