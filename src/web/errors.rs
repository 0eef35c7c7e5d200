//! The pages about our codes, to which the problems lead: those of `shared/errors`,
//! which are in the binary.

use super::body::TYPE;
use super::problem::Problem;
use super::query::Named;
use super::state::Shared;
use axum::Router;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use axum::routing::get;

/// Each code with its page, by code; and the list of them.
const PAGES: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/errors.rs"));

/// The list, and a page for each code.
pub(super) fn router() -> Router<Shared> {
    Router::new().route("/errors", get(list)).route("/errors/{code}", get(page))
}

/// Every code with its title
#[utoipa::path(get, path = "/errors", operation_id = "errors", tag = "errors",
    responses((status = 200, description = "The list, in Markdown", body = String, content_type = "text/plain")))]
pub(super) async fn list() -> Response {
    text(&format!("# Codes of what is found wrong\n\n{}", PAGES.iter().filter_map(entry).collect::<String>()))
}

/// The line of a page: its title behind the `#`.
fn entry((code, page): &(&str, &str)) -> Option<String> {
    let title = page.lines().next()?.strip_prefix("# ")?;
    Some(format!("- {title} (/errors/{code})\n"))
}

/// What a code means, why it is wrong, and what mends it
#[utoipa::path(get, path = "/errors/{code}", operation_id = "error", tag = "errors",
    params(("code" = String, Path, description = "Such as GR0801", pattern = "^GR[0-9]{4}$")),
    responses((status = 200, description = "The page, in Markdown", body = String, content_type = "text/plain")))]
pub(super) async fn page(Named(code): Named) -> Response {
    match PAGES.iter().find(|(known, _)| *known == code) {
        Some((_, page)) => text(page),
        None => Problem::new(StatusCode::NOT_FOUND, format!("no code is `{}`", crate::glossary::cut(&code)))
            .help("`/errors` lists them")
            .into_response(),
    }
}

fn text(page: &str) -> Response {
    ([(TYPE, "text/plain; charset=utf-8")], page.to_owned()).into_response()
}
