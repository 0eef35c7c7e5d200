//! What programs may ask: one file an address. An answer is, byte for byte, what the
//! command of the same name prints as JSON.

pub(super) mod batch;
pub(super) mod compare;
pub(super) mod effect;
pub(super) mod glossary;
pub(super) mod in_force;
pub(super) mod locate;
pub(super) mod places;
pub(super) mod section;
pub(super) mod verdict;

use super::body::{Media, TYPE};
use super::state::Shared;
use axum::Router;
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use serde::Serialize;

/// Every address of the API.
pub(super) fn router() -> Router<Shared> {
    Router::new()
        .route("/api/verdict", post(verdict::verdict))
        .route("/api/batch", post(batch::batch))
        .route("/api/compare", post(compare::compare))
        .route("/api/in-force", get(in_force::in_force))
        .route("/api/section", get(section::section))
        .route("/api/effect", post(effect::effect))
        .route("/api/glossary", get(glossary::glossary))
        .route("/api/places", get(places::places))
        .route("/api/locate", get(locate::locate))
}

/// An answer in JSON that is written already.
fn json(text: String) -> Response {
    ([(TYPE, Media::Json.name())], text).into_response()
}

/// A value as the commands write it.
fn written(value: &impl Serialize) -> String {
    // Every name in it is a text, so that writing it does not fail.
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    format!("{text}\n")
}
