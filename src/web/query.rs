//! What stands behind the question mark of an address.

use super::problem::Problem;
use crate::glossary::model::PlaceId;
use crate::report::finding::{Finding, Spot, asked};
use crate::rules::Rules;
use crate::syntax::codes;
use crate::values::Date;
use axum::extract::rejection::QueryRejection;
use axum::extract::{FromRequestParts, Path, Query};
use axum::http::StatusCode;
use axum::http::request::Parts;
use serde::de::DeserializeOwned;

/// The parameters of a request; unknown ones, missing ones and those that stand twice
/// are refused.
pub(super) struct Parameters<T>(pub(super) T);

impl<T: DeserializeOwned, S: Send + Sync> FromRequestParts<S> for Parameters<T> {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Parameters<T>, Problem> {
        match Query::<T>::from_request_parts(parts, state).await {
            Ok(Query(asked)) => Ok(Parameters(asked)),
            Err(problem) => Err(unreadable(&problem)),
        }
    }
}

/// What a route leaves open of an address.
pub(super) struct Named(pub(super) String);

impl<S: Send + Sync> FromRequestParts<S> for Named {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Named, Problem> {
        match Path::<String>::from_request_parts(parts, state).await {
            Ok(Path(name)) => Ok(Named(name)),
            Err(_) => Err(Problem::new(StatusCode::BAD_REQUEST, "the address is not UTF-8")
                .help("write each byte of a letter that is not ASCII as `%` and two figures, such as `%C3%B1` for ñ")),
        }
    }
}

fn unreadable(problem: &QueryRejection) -> Problem {
    use std::error::Error;
    let why = problem.source().map_or_else(|| problem.to_string(), ToString::to_string);
    Problem::new(StatusCode::BAD_REQUEST, format!("the parameters cannot be read: {why}"))
        .help("`/openapi.json` lists the parameters of each address")
}

/// The place that a parameter or a member names.
///
/// # Errors
/// Where no place fits, or several do.
pub(super) fn place(rules: &Rules, text: &str, name: &str) -> Result<PlaceId, Finding> {
    asked::place(rules, text, Spot::parameter(name))
}

/// The day that a parameter or a member names.
///
/// # Errors
/// Where it does not exist or has another form.
pub(super) fn day(text: &str, name: &str) -> Result<Date, Finding> {
    Date::parse(text).ok_or_else(|| {
        let message = format!("`{}` is no day", crate::glossary::cut(text));
        Finding::new(codes::DATE, Spot::parameter(name), message)
            .help("write a day that exists as year, month and day, such as 2024-03-01")
    })
}

/// What is wrong with the parameters, each kind with its status: what is not there is
/// not found, what cannot be read is a bad request.
pub(super) fn not_so(findings: &[Finding]) -> Problem {
    let status = match findings.first().map(|finding| finding.code) {
        Some(codes::UNKNOWN_PLACE | codes::UNKNOWN_CODE | codes::NO_SECTION) => StatusCode::NOT_FOUND,
        Some(codes::QUESTION_CIRCLE) => StatusCode::INTERNAL_SERVER_ERROR,
        _ => StatusCode::BAD_REQUEST,
    };
    Problem::of(status, findings)
}
