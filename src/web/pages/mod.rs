//! The pages for people.

use super::state::Shared;
use axum::Router;
use axum::response::Html;
use axum::routing::get;

/// Every page.
pub(super) fn router() -> Router<Shared> {
    Router::new().route("/", get(start))
}

async fn start() -> Html<&'static str> {
    Html(include_str!("start.html"))
}
