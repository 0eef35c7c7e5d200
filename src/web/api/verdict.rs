//! `POST /api/verdict`: a job in, its verdict out.

use super::super::body::{self, Media};
use super::super::problem::Problem;
use super::super::state::Shared;
use super::super::work::work;
use super::json;
use crate::engine::reading;
use crate::job::Defaults;
use crate::job::model::Job;
use crate::report::finding::{Files, Finding, Spot};
use crate::rules::Rules;
use crate::syntax::codes;
use crate::verdict::Scratch;
use crate::verdict::model::Outcome;
use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use serde_json::Value;
use std::collections::HashMap;

/// What the rules in force ask of one job, and how the job stands
///
/// The same as `groundrule verdict --as json`. The job is JSON (`groundrule/job/1`) or, as text/plain, a job sheet.
#[utoipa::path(post, path = "/api/verdict", operation_id = "verdict", tag = "jobs",
    request_body(description = "The job", content(
        (ref("#/components/schemas/Job") = "application/json"),
        (String = "text/plain", example = "place stonecroft\napplication-date 2026-04-20\nrun { material csst jacket plain }\n"))),
    responses((status = 200, description = "The verdict, with its reasons",
        body = ref("#/components/schemas/Verdict"), content_type = "application/json")))]
pub(crate) async fn verdict(State(state): State<Shared>, headers: HeaderMap, sent: Body) -> Result<Response, Problem> {
    Media::Json.wanted(&headers)?;
    let media = Media::of(&headers, &[Media::Json, Media::Text])?;
    let bytes = body::read(&state, sent, state.limits.body).await?;
    let (value, outcome) = work(&state, move |state| answer(&state.rules, media, &bytes, "the body")).await??;
    if let Some(metrics) = &state.metrics {
        metrics.told(outcome);
    }
    Ok(json(format!("{value:#}\n")))
}

/// The verdict on the one job of a text, which has this name in what is told of it.
///
/// # Errors
/// What is wrong with the job.
pub(super) fn answer(rules: &Rules, media: Media, bytes: &[u8], name: &str) -> Result<(Value, Outcome), Problem> {
    let job = one(rules, media, bytes, name)?;
    let matter = rules.matter(&job).map_err(|told| {
        let findings = [Files::new(rules, HashMap::new()).finding(told)];
        Problem::of(StatusCode::INTERNAL_SERVER_ERROR, &findings)
    })?;
    let mut scratch = Scratch::default();
    let found = rules.weighed(&matter, &mut scratch);
    let value = rules.told_of(&found, &matter, &mut scratch).to_value();
    Ok((value, found.outcome))
}

fn one(rules: &Rules, media: Media, bytes: &[u8], name: &str) -> Result<Job, Problem> {
    let defaults = Defaults::default();
    let jobs = match media {
        Media::Text => reading::sheet(name, bytes, rules, &defaults),
        _ if starts_a_list(bytes) && is_json(bytes) => Err(vec![
            Finding::new(codes::JOB, Spot::file(name.to_owned()), "a list stands where one job is asked")
                .help("send one job here; `/api/batch` takes a list of them"),
        ]),
        _ => reading::json(name, bytes, rules, &defaults),
    };
    let unfit = |findings: &[Finding]| {
        // What is no text, and no JSON, cannot be read; what is can be read and not used.
        let readable = if media == Media::Text { std::str::from_utf8(bytes).is_ok() } else { is_json(bytes) };
        let status = if readable { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::BAD_REQUEST };
        Problem::of(status, findings)
    };
    let mut jobs = jobs.map_err(|findings| unfit(&findings))?.into_iter();
    match (jobs.next(), jobs.next()) {
        (Some(job), None) => Ok(job),
        _ => Err(unfit(&[Finding::new(
            codes::JOB,
            Spot::file(name.to_owned()),
            "several jobs stand where one is asked",
        )
        .help("send one job here; `/api/batch` takes many, in JSON")])),
    }
}

fn starts_a_list(bytes: &[u8]) -> bool {
    bytes.iter().find(|byte| !byte.is_ascii_whitespace()) == Some(&b'[')
}

fn is_json(bytes: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else { return false };
    serde_json::from_str::<serde::de::IgnoredAny>(text.strip_prefix('\u{feff}').unwrap_or(text)).is_ok()
}
