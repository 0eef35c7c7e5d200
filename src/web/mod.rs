//! The permit counter: the tool under HTTP, as an API for programs and as pages.
//!
//! A request is answered from the rules, which are loaded once, and from what it brings;
//! nothing of it is kept, and nothing is asked of anybody else. This module refuses to
//! decide anything about the law.

mod api;
mod body;
mod errors;
mod gate;
mod head;
mod headers;
mod health;
mod limits;
mod metrics;
mod openapi;
mod pages;
mod problem;
mod query;
mod serve;
mod state;
mod stream;
mod work;

#[cfg(test)]
mod tests;

pub(crate) use limits::Limits;
pub(crate) use serve::serve;

use crate::rules::Rules;
use crate::values::Date;
use axum::Router;
use axum::http::{Method, StatusCode, Uri};
use axum::middleware::{from_fn, from_fn_with_state};
use axum::routing::get;
use problem::Problem;
use state::Shared;
use std::net::SocketAddr;
use std::sync::Arc;
use tower_http::catch_panic::CatchPanicLayer;

/// How a server is started.
pub(crate) struct Settings {
    pub(crate) rules: Rules,
    /// Port 0 is any free one.
    pub(crate) listen: SocketAddr,
    /// What a request has to bring, where only some may ask.
    pub(crate) token: Option<String>,
    /// Whether requests are counted.
    pub(crate) metrics: bool,
    /// The day against which the age of rules is told.
    pub(crate) today: fn() -> Date,
    pub(crate) limits: Limits,
}

/// Every route, and what stands around all of them.
fn router(state: Shared) -> Router {
    around(
        Router::new()
            .merge(pages::router())
            .merge(api::router())
            .merge(health::router())
            .merge(errors::router())
            .route("/openapi.json", get(openapi::show))
            .route("/metrics", get(metrics::show)),
        state,
    )
}

/// Puts around routes what holds for all of them: no address and no method is answered
/// otherwise than by a problem, nor is a panic.
fn around(routes: Router<Shared>, state: Shared) -> Router {
    routes
        .fallback(nothing_here)
        .method_not_allowed_fallback(not_so)
        .layer(from_fn_with_state(Arc::clone(&state), gate::ask))
        .layer(from_fn_with_state(Arc::clone(&state), head::measure))
        .layer(CatchPanicLayer::custom(problem::panicked))
        .layer(from_fn_with_state(Arc::clone(&state), metrics::count))
        .layer(from_fn(headers::add))
        .with_state(state)
}

async fn nothing_here(uri: Uri) -> Problem {
    let path = crate::glossary::cut(uri.path());
    Problem::new(StatusCode::NOT_FOUND, format!("nothing is at `{path}`"))
        .help("`/` lists what there is, `/openapi.json` describes it")
}

async fn not_so(method: Method, uri: Uri) -> Problem {
    let path = crate::glossary::cut(uri.path());
    let method = crate::glossary::cut(method.as_str());
    Problem::new(StatusCode::METHOD_NOT_ALLOWED, format!("`{path}` is not asked with `{method}`"))
        .help("the field `Allow` of this answer lists how it is asked")
}
