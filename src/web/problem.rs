//! What is wrong with a request, as problem details (RFC 9457,
//! <https://www.rfc-editor.org/rfc/rfc9457>): one form for every error.

use super::limits::ASK_AGAIN;
use crate::report::finding::{Finding, json};
use crate::syntax::codes;
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, RETRY_AFTER};
use axum::http::{HeaderName, HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use serde_json::Value;
use utoipa::ToSchema;

/// The type of problem details.
pub(crate) const PROBLEM: &str = "application/problem+json";

/// A problem; it is rare, and large, and lies apart from what is right.
#[derive(Clone, Debug)]
pub(crate) struct Problem(Box<Details>);

/// What is told of a problem.
#[derive(Clone, Debug, Serialize, ToSchema)]
#[schema(as = Problem)]
pub(super) struct Details {
    /// What kind of problem it is: a page of this server about one of our codes, such as
    /// `/errors/GR0801`, or `about:blank` where the status says it all.
    #[serde(rename = "type")]
    kind: String,
    /// The kind in words.
    title: String,
    /// The status of the answer, or of the row of a batch.
    #[schema(minimum = 400, maximum = 599)]
    status: u16,
    /// What is wrong here.
    detail: String,
    /// What would mend it.
    #[serde(skip_serializing_if = "Option::is_none")]
    help: Option<String>,
    /// In a batch the row that it is about, the first being 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(minimum = 1)]
    row: Option<usize>,
    /// Everything that was found wrong with a job, each with its place, message and help.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(schema_with = super::openapi::findings)]
    findings: Vec<Value>,
    #[serde(skip)]
    fields: Vec<(HeaderName, HeaderValue)>,
}

impl Problem {
    /// A problem that its status names, and what is wrong.
    pub(crate) fn new(status: StatusCode, detail: impl Into<String>) -> Problem {
        Problem(Box::new(Details {
            kind: "about:blank".into(),
            title: status.canonical_reason().unwrap_or("Error").into(),
            status: status.as_u16(),
            detail: detail.into(),
            help: None,
            row: None,
            findings: Vec::new(),
            fields: Vec::new(),
        }))
    }

    /// The same with what would mend it.
    pub(crate) fn help(mut self, help: impl Into<String>) -> Problem {
        self.0.help = Some(help.into());
        self
    }

    /// The same about a row of a batch.
    pub(super) fn row(mut self, row: usize) -> Problem {
        self.0.row = Some(row);
        self
    }

    /// The same with a header field.
    pub(super) fn field(mut self, name: HeaderName, value: &'static str) -> Problem {
        self.0.fields.push((name, HeaderValue::from_static(value)));
        self
    }

    /// The problem whose findings these are; the first gives it its kind.
    pub(crate) fn of(status: StatusCode, findings: &[Finding]) -> Problem {
        let Some(first) = findings.first() else {
            return Problem::new(status, "nothing can be answered");
        };
        let title = codes::ALL.iter().find(|(code, _)| *code == first.code).map_or("a finding", |(_, title)| *title);
        let mut problem = Problem::new(status, first.in_a_line());
        problem.0.kind = format!("/errors/{}", first.code);
        problem.0.title = title.into();
        problem.0.help = first.help.clone();
        problem.0.findings = findings.iter().map(json::object).collect();
        problem
    }

    /// More is asked at once than the server does.
    pub(super) fn busy(detail: &str) -> Problem {
        Problem::new(StatusCode::SERVICE_UNAVAILABLE, detail)
            .help("ask again a little later")
            .field(RETRY_AFTER, ASK_AGAIN)
    }

    /// The program has a fault.
    pub(super) fn fault() -> Problem {
        Problem::new(StatusCode::INTERNAL_SERVER_ERROR, "the program has a fault, and this request has met it")
            .help("report it with what you asked; other requests are answered as before")
    }

    /// As JSON; every part of it is a text or a number, so that writing it does not fail.
    pub(super) fn value(&self) -> Value {
        serde_json::to_value(&self.0).unwrap_or_default()
    }

    /// The number of its status.
    pub(super) fn status(&self) -> StatusCode {
        StatusCode::from_u16(self.0.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR)
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let mut response = Response::new(Body::from(format!("{:#}\n", self.value())));
        *response.status_mut() = self.status();
        response.headers_mut().insert(CONTENT_TYPE, HeaderValue::from_static(PROBLEM));
        response.headers_mut().extend(self.0.fields);
        response
    }
}

/// What answers a panic; what it said stands on standard error.
pub(super) fn panicked(_: Box<dyn std::any::Any + Send + 'static>) -> Response {
    Problem::fault().into_response()
}
