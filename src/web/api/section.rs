//! `GET /api/section`: one section as it stands at a place on a day.

use super::super::body::Media;
use super::super::problem::Problem;
use super::super::query::Parameters;
use super::super::state::Shared;
use super::super::work::work;
use super::in_force::ask;
use super::written;
use crate::report::finding::{Spot, asked};
use crate::report::in_force::{AsItStands, section as stands};
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;
use serde::Deserialize;
use utoipa::IntoParams;

/// Which section, where and when.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
#[serde(deny_unknown_fields)]
pub(crate) struct Asked {
    /// The place: its name, its printed name or its path.
    #[param(example = "stonecroft")]
    place: String,
    /// The day.
    #[param(format = Date, example = "2026-04-20")]
    on: String,
    /// The code, such as `IFGC`.
    #[param(example = "IRC")]
    code: String,
    /// The number of the section; those under it are told too.
    #[param(example = "G2411.2")]
    section: String,
}

/// A section of a code as it stands there on that day, each clause with its author
///
/// The same as `groundrule in-force --section CODE N --as json`.
#[utoipa::path(get, path = "/api/section", operation_id = "section", tag = "rules", params(Asked),
    responses((status = 200, description = "The section as it stands", body = AsItStands)))]
pub(crate) async fn section(
    State(state): State<Shared>,
    headers: HeaderMap,
    Parameters(asked): Parameters<Asked>,
) -> Result<Response, Problem> {
    Media::Json.wanted(&headers)?;
    let told = work(&state, move |state| {
        let Asked { place, on, code, section } = &asked;
        ask(&state.rules, place, on, |inquest| {
            let spots = [Spot::parameter("code"), Spot::parameter("section")];
            stands(inquest, code, section)
                .map(|found| written(&found))
                .map_err(|problem| asked::no_section(&problem, [code, section], spots, LIST))
        })
    });
    told.await?
}

const LIST: &str = "`/api/in-force` lists what is amended there";
