//! `GET /api/locate`: in which places a point lies.

use super::super::body::Media;
use super::super::problem::Problem;
use super::super::query::{Parameters, not_so};
use super::super::state::Shared;
use super::super::work::work;
use super::{json, written};
use crate::atlas::Point;
use crate::report::finding::Finding;
use crate::report::places::{Located, locate as found};
use crate::rules::Rules;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use serde::Deserialize;
use utoipa::IntoParams;

/// The point, in degrees (WGS 84).
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
#[serde(deny_unknown_fields)]
pub(crate) struct Asked {
    /// Degrees north of the equator; south of it they are negative.
    #[param(minimum = -90, maximum = 90, example = -0.72)]
    latitude: f64,
    /// Degrees east of Greenwich; west of it they are negative.
    #[param(minimum = -180, maximum = 180, example = 0.60)]
    longitude: f64,
}

/// The innermost places in whose boundaries a point lies
///
/// `groundrule in-force --at LAT,LON` looks a place up in the same way. On a border, and where areas overlap, there
/// are several; outside all areas there is none.
#[utoipa::path(get, path = "/api/locate", operation_id = "locate", tag = "rules", params(Asked),
    responses((status = 200, description = "The places", body = Located)))]
pub(crate) async fn locate(
    State(state): State<Shared>,
    headers: HeaderMap,
    Parameters(asked): Parameters<Asked>,
) -> Result<Response, Problem> {
    Media::Json.wanted(&headers)?;
    let point = Point::new(asked.longitude, asked.latitude).ok_or_else(|| nowhere(&asked))?;
    let text = work(&state, move |state| usable(&state.rules).map(|()| written(&found(&state.rules, point))));
    text.await?.map(json).map_err(|findings| not_so(&findings))
}

fn nowhere(asked: &Asked) -> Problem {
    let told = format!("there is no point at latitude {}, longitude {}", asked.latitude, asked.longitude);
    Problem::new(StatusCode::BAD_REQUEST, told)
        .help("`latitude` goes from -90 to 90, `longitude` from -180 to 180, both in degrees")
}

/// Whether every boundary can be used: the point may lie behind one that cannot.
fn usable(rules: &Rules) -> Result<(), Vec<Finding>> {
    let wrong = rules.atlas().wrong();
    if wrong.is_empty() { Ok(()) } else { Err(Finding::of(rules, wrong.iter())) }
}
