//! The job and its verdict as files to keep.

use super::super::problem::Problem;
use super::super::state::Shared;
use super::super::work::work;
use super::wrong;
use crate::interview::link::from_pairs;
use crate::job::model::Job;
use crate::job::{to_json, to_sheet};
use crate::report::pages::link::Link;
use crate::verdict::Scratch;
use axum::extract::{RawQuery, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

/// `GET /job.job`: the job sheet.
pub(super) async fn sheet(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    with_job(state, query, |state, job| {
        Ok(file("text/plain; charset=utf-8", "attachment; filename=\"job.job\"", to_sheet(job, state.rules.desk())))
    })
    .await
}

/// `GET /job.json`: the job as JSON.
pub(super) async fn json(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    with_job(state, query, |state, job| {
        let text = format!("{:#}\n", to_json(job, state.rules.desk()));
        Ok(file("application/json", "attachment; filename=\"job.json\"", text))
    })
    .await
}

/// `GET /verdict.json`: the verdict as JSON.
pub(super) async fn verdict(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    with_job(state, query, |state, job| {
        let matter = state.rules.matter(job).map_err(|_| Problem::fault())?;
        let mut scratch = Scratch::default();
        let found = state.rules.weighed(&matter, &mut scratch);
        let value = state.rules.told_of(&found, &matter, &mut scratch).to_value();
        Ok(file("application/json", "inline", format!("{value:#}\n")))
    })
    .await
}

/// Answers with the job of a link; a file is made only of a job of which all could be read.
async fn with_job(
    state: Shared,
    query: Option<String>,
    write: impl FnOnce(&Shared, &Job) -> Result<Response, Problem> + Send + 'static,
) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| {
        let heard = from_pairs(&state.rules, link.facts(), None);
        match &heard.so_far {
            Some(so_far) if heard.wrong.is_empty() => write(state, &so_far.job),
            _ => Err(wrong::unread(&heard.wrong, link.reader())),
        }
    })
    .await?
}

fn file(kind: &'static str, disposition: &'static str, text: String) -> Response {
    ([(CONTENT_TYPE, kind), (CONTENT_DISPOSITION, disposition)], text).into_response()
}
