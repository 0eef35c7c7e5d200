//! `POST /api/compare`: one job at several places or on several days.

use super::super::body::{self, Media};
use super::super::problem::Problem;
use super::super::query::{day, place};
use super::super::state::Shared;
use super::super::work::work;
use super::json;
use crate::engine::reading;
use crate::glossary::model::PlaceId;
use crate::job::{Defaults, JobProblem};
use crate::report::compare::{Axes, COLUMNS, Side, sides, twice};
use crate::report::finding::{Files, Finding, Spot};
use crate::report::speech::Reader;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::values::Date;
use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use serde::Deserialize;
use serde_json::Value;
use serde_json::value::RawValue;
use std::collections::HashMap;
use utoipa::ToSchema;

/// One job, and at which places or on which days it is looked at; with both, each place on each day.
#[derive(Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
#[schema(as = CompareAsked)]
pub(crate) struct Asked {
    /// The job, as `Job` describes it; its place may be left out where `places` names some.
    #[schema(value_type = Object, example = json!({ "application-date": "2024-03-01" }))]
    job: Box<RawValue>,
    /// The places, which stand instead of the job's own.
    #[serde(default)]
    places: Vec<String>,
    /// The days, each of which stands for every date that the job leaves unsaid.
    #[serde(default)]
    dates: Vec<String>,
}

/// One job at several places or on several days, side by side; differences first
///
/// The same as `groundrule compare --as json`.
#[utoipa::path(post, path = "/api/compare", operation_id = "compare", tag = "jobs",
    request_body(description = "The job, the places and the days", content = Asked),
    responses((status = 200, description = "The comparison",
        body = ref("#/components/schemas/Compare"), content_type = "application/json")))]
pub(crate) async fn compare(State(state): State<Shared>, headers: HeaderMap, sent: Body) -> Result<Response, Problem> {
    Media::Json.wanted(&headers)?;
    Media::of(&headers, &[Media::Json])?;
    let bytes = body::read(&state, sent, state.limits.body).await?;
    let asked: Asked = serde_json::from_slice(body::unmarked(&bytes)).map_err(|problem| {
        let status = if problem.is_data() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::BAD_REQUEST };
        Problem::new(status, format!("the body cannot be read: {problem}"))
            .help("send `{ \"job\": { … }, \"places\": [ … ], \"dates\": [ … ] }`")
    })?;
    let today = (state.today)();
    let told = work(&state, move |state| asked.answer(&state.rules, today)).await?;
    told.map(json).map_err(|findings| Problem::of(StatusCode::UNPROCESSABLE_ENTITY, &findings))
}

/// What the job is called in what is told of it.
const JOB: &str = "`job` of the body";

impl Asked {
    fn answer(&self, rules: &Rules, today: Date) -> Result<String, Vec<Finding>> {
        let places: Vec<PlaceId> = all(&self.places, |name| place(rules, name, "places"))?;
        let dates: Vec<Date> = all(&self.dates, |text| day(text, "dates"))?;
        let axes = Axes { places: &places, dates: &dates };
        sensible(axes).map_err(|problem| vec![problem])?;
        let sides = self.sides(rules, axes)?;
        let comparison = rules
            .compared(&sides, Reader::default(), today)
            .map_err(|told| vec![Files::new(rules, HashMap::new()).finding(&told)])?;
        Ok(format!("{:#}\n", comparison.to_value()))
    }

    fn sides(&self, rules: &Rules, axes: Axes<'_>) -> Result<Vec<Side>, Vec<Finding>> {
        let text = self.job.get();
        if text.starts_with('[') {
            let list = Finding::new(codes::JOB, Spot::file(JOB.to_owned()), "a list stands where one job is asked");
            return Err(vec![list.help("send the one that is meant")]);
        }
        let read = |defaults: &Defaults| {
            let mut all = reading::json(JOB, text.as_bytes(), rules, defaults)?;
            match (all.pop(), all.len()) {
                (Some(job), 0) => Ok(job),
                _ => Err(vec![
                    Finding::new(codes::JOB, Spot::file(JOB.to_owned()), "several jobs stand where one is compared")
                        .help("send the one that is meant"),
                ]),
            }
        };
        let told = |problems: Vec<JobProblem>| -> Vec<Finding> {
            problems.into_iter().map(|problem| Finding::of_json(problem, JOB)).collect()
        };
        let said = serde_json::from_str::<Value>(text).ok();
        let names_its_place = said.and_then(|job| job.get("place").map(|place| !place.is_null())).unwrap_or(false);
        sides(axes, Defaults::default(), names_its_place, rules.desk(), read, told)
    }
}

/// Each of the names as what it names; every one that is not known is told.
fn all<T>(names: &[String], known: impl Fn(&str) -> Result<T, Finding>) -> Result<Vec<T>, Vec<Finding>> {
    let (mut found, mut problems) = (Vec::with_capacity(names.len()), Vec::new());
    for name in names {
        match known(name) {
            Ok(one) => found.push(one),
            Err(problem) => problems.push(problem),
        }
    }
    if problems.is_empty() { Ok(found) } else { Err(problems) }
}

/// Whether there is something to compare, and not too much.
fn sensible(axes: Axes<'_>) -> Result<(), Finding> {
    let amiss = |name: &str, message: String, help: &str| {
        Err(Finding::new(codes::JOB, Spot::parameter(name), message).help(help))
    };
    let columns = axes.columns();
    if columns > COLUMNS {
        let message = format!("{columns} columns are asked for, and at most {COLUMNS} are laid side by side");
        return amiss("places", message, "name fewer places or days; `/api/batch` takes many jobs");
    }
    if columns < 2 {
        return amiss("places", "one column compares nothing".into(), "name at least two places or two days");
    }
    if twice(axes.places).is_some() {
        return amiss("places", "a place stands twice".into(), "name each place once");
    }
    if twice(axes.dates).is_some() {
        return amiss("dates", "a day stands twice".into(), "name each day once");
    }
    Ok(())
}
