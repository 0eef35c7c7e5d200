//! The pages for people. The link carries the whole job; nothing of it is kept.

mod compare;
mod files;
mod job;
mod map;
mod offered;
mod open;
mod papers;
mod rules;
mod wrong;

use super::state::Shared;
use crate::report::pages;
use axum::Router;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{Html, IntoResponse, Response};
use axum::routing::{get, post};
use tower_http::compression::CompressionLayer;

/// Every page.
pub(super) fn router() -> Router<Shared> {
    Router::new()
        .route("/", get(job::questions))
        .route("/verdict", get(job::verdict))
        .route("/map", get(map::map))
        .route("/job.job", get(files::sheet))
        .route("/job.json", get(files::json))
        .route("/verdict.json", get(files::verdict))
        .route("/compare", get(compare::compare))
        .route("/compare.html", get(compare::print))
        .route("/compare.csv", get(compare::table))
        .route("/ways", get(papers::ways))
        .route("/paper/{name}", get(papers::paper))
        .route("/picture.svg", get(papers::picture))
        .route("/rules", get(rules::index))
        .route("/rules/{*rest}", get(rules::room))
        .route("/open", post(open::open))
        .route("/static/counter.css", get(|| fixed("text/css; charset=utf-8", pages::STYLE)))
        .route("/static/compare.css", get(|| fixed("text/css; charset=utf-8", pages::compare::STYLE)))
        .route("/favicon.ico", get(|| fixed("image/svg+xml", pages::MARK)))
        .route("/static/counter.js", get(|| fixed("text/javascript; charset=utf-8", pages::SCRIPT)))
        .layer(CompressionLayer::new())
}

/// What is the same for everybody and holds no job.
async fn fixed(kind: &'static str, text: &'static str) -> Response {
    ([(CONTENT_TYPE, kind), (CACHE_CONTROL, "no-cache")], text).into_response()
}

/// A page that was written.
fn page(written: Result<String, minijinja::Error>) -> Response {
    match written {
        Ok(page) => Html(page).into_response(),
        // What is wrong with a template shows in the tests of its page.
        Err(_) => super::problem::Problem::fault().into_response(),
    }
}
