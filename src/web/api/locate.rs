//! `GET /api/locate`: in which places a point lies.

use super::super::body::Media;
use super::super::problem::Problem;
use super::super::query::Parameters;
use super::super::state::Shared;
use super::super::work::work;
use super::{json, written};
use crate::report::places::{Located, Unlocated, locate as locate_in};
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
    let found = work(&state, move |state| {
        locate_in(&state.rules, asked.latitude, asked.longitude).map(|found| written(&found)).map_err(|why| match why {
            Unlocated::NoPoint => nowhere(&asked),
            // It is not for whoever asks to mend.
            Unlocated::Boundaries(findings) => Problem::of(StatusCode::INTERNAL_SERVER_ERROR, &findings),
        })
    });
    found.await?.map(json)
}

fn nowhere(asked: &Asked) -> Problem {
    let told = format!("there is no point at latitude {}, longitude {}", asked.latitude, asked.longitude);
    Problem::new(StatusCode::BAD_REQUEST, told)
        .help("`latitude` goes from -90 to 90, `longitude` from -180 to 180, both in degrees")
}
