//! What is wrong with the job of a link, where no page can show it beside the form.

use super::super::problem::Problem;
use crate::interview::link::Unheard;
use crate::report::finding::{Finding, Spot};
use crate::report::pages::frame::Room;
use crate::report::pages::problems::{Told, told};
use crate::report::speech::Reader;
use crate::syntax::codes::{self, Code};
use axum::http::header::CONTENT_SECURITY_POLICY;
use axum::http::{HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};

/// What of a link's job could not be read, as a problem.
pub(super) fn unread(wrong: &[Unheard], reader: Reader) -> Problem {
    Problem::of(StatusCode::UNPROCESSABLE_ENTITY, &findings(wrong, LINK, reader))
}

/// What could not be read, each with its code and its path in what has this name.
pub(super) fn findings(wrong: &[Unheard], name: &str, reader: Reader) -> Vec<Finding> {
    let told = told(wrong, reader);
    let coded = told.iter().zip(wrong.iter().map(Unheard::code));
    coded.map(|(told, code)| finding(told, code, name, (Room::Job, reader))).collect()
}

/// What is wrong with a comparison, as a problem.
pub(super) fn problem(told: &[Told], reader: Reader) -> Problem {
    let findings: Vec<Finding> =
        told.iter().map(|told| finding(told, codes::JOB, LINK, (Room::Compare, reader))).collect();
    Problem::of(StatusCode::UNPROCESSABLE_ENTITY, &findings)
}

/// What a link is called in what is told of it.
const LINK: &str = "the link";

/// A finding; where nothing else would mend it, the page that shows its field does.
fn finding(told: &Told, code: Code, name: &str, (room, reader): (Room, Reader)) -> Finding {
    let mut spot = Spot::file(name.to_owned());
    spot.path.clone_from(&told.path);
    let mut help: Vec<String> = told.help.iter().cloned().collect();
    if !told.near.is_empty() {
        help.push(format!("{} {}", reader.say("pages-near"), told.near.join(", ")));
    }
    if help.is_empty() {
        help.push(reader.say_with("pages-wrong-mend", &[("page", room.path())]));
    }
    Finding::new(code, spot, told.message.clone()).help(help.join("; "))
}

/// A sheet to print or to keep: it holds its own style, and nothing else.
pub(super) fn printed(sheet: impl IntoResponse) -> Response {
    let mut response = sheet.into_response();
    let policy = HeaderValue::from_static("default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'");
    response.headers_mut().insert(CONTENT_SECURITY_POLICY, policy);
    response
}
