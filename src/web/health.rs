//! Whether the server runs and whether it is to be sent requests, for whoever watches
//! over it.

use super::body::TYPE;
use super::problem::Problem;
use super::state::Shared;
use axum::Router;
use axum::extract::State;
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use serde::Serialize;
use utoipa::ToSchema;

/// How the server is.
#[derive(Debug, Serialize, ToSchema)]
pub(super) struct Health {
    /// `live` or `ready`.
    status: &'static str,
    /// The hash of the rules.
    library: String,
    /// The version of the program.
    engine: &'static str,
}

impl Health {
    fn of(state: &Shared, status: &'static str) -> Response {
        let health = Health { status, library: state.rules.hash().to_owned(), engine: env!("CARGO_PKG_VERSION") };
        let text = serde_json::to_string_pretty(&health).unwrap_or_default();
        ([(TYPE, "application/json")], format!("{text}\n")).into_response()
    }
}

/// Both questions.
pub(super) fn router() -> Router<Shared> {
    Router::new().route("/health/live", get(live)).route("/health/ready", get(ready))
}

/// Whether the server runs
#[utoipa::path(get, path = "/health/live", operation_id = "live", tag = "health",
    responses((status = 200, description = "It runs", body = Health)))]
pub(super) async fn live(State(state): State<Shared>) -> Response {
    Health::of(&state, "live")
}

/// Whether the server is to be sent requests
#[utoipa::path(get, path = "/health/ready", operation_id = "ready", tag = "health",
    responses((status = 200, description = "It answers requests", body = Health)))]
pub(super) async fn ready(State(state): State<Shared>) -> Response {
    if state.stopping() {
        return Problem::busy("the server is about to stop").into_response();
    }
    Health::of(&state, "ready")
}
