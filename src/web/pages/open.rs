//! A job sheet or a job in JSON becomes a link; sample jobs to begin with.

use super::super::body;
use super::super::problem::Problem;
use super::super::state::Shared;
use super::super::work::work;
use crate::engine::reading;
use crate::interview::link::to_pairs;
use crate::job::Defaults;
use crate::job::model::Job;
use crate::report::finding::Finding;
use crate::report::pages::frame::Room;
use crate::report::pages::link::Link;
use crate::rules::Rules;
use axum::body::Body;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

/// The sample jobs, with their titles.
const SAMPLES: &[(&str, &str)] = &[
    ("new-house", include_str!("../../../shared/jobs/new-house.job")),
    ("jacket-not-known", include_str!("../../../shared/jobs/jacket-not-known.job")),
    ("long-wire", include_str!("../../../shared/jobs/long-wire.job")),
    ("shop-on-a-feeder", include_str!("../../../shared/jobs/shop-on-a-feeder.job")),
];

/// `POST /open`: the form with a job in it; the answer leads to the page of its link.
pub(super) async fn open(State(state): State<Shared>, sent: Body) -> Result<Response, Problem> {
    let bytes = body::read(&state, sent, state.limits.body).await?;
    let form = Link(form_urlencoded::parse(&bytes).into_owned().collect());
    work(&state, move |state| {
        let text = form.get("sheet").unwrap_or_default();
        match link_of(&state.rules, text, &form) {
            Ok(link) => Redirect::to(&link.to(Room::Job.path())).into_response(),
            Err(findings) => Problem::of(StatusCode::UNPROCESSABLE_ENTITY, &findings).into_response(),
        }
    })
    .await
}

/// The link of the one job of a text, written for the reader of `own`.
fn link_of(rules: &Rules, text: &str, own: &Link) -> Result<Link, Vec<Finding>> {
    let name = "the job that was pasted";
    let defaults = Defaults::default();
    let jobs = if text.trim_start().starts_with(['{', '[']) {
        reading::json(name, text.as_bytes(), rules, &defaults)
    } else {
        reading::sheet(name, text.as_bytes(), rules, &defaults)
    };
    let mut link = own.bare();
    if let Some(job) = jobs?.first() {
        link.0.extend(pairs(rules, job));
    }
    Ok(link)
}

fn pairs(rules: &Rules, job: &Job) -> Vec<(String, String)> {
    let place = rules.library().places.path_text(job.place);
    rules.matter(job).map(|matter| to_pairs(job, &matter, &place)).unwrap_or_default()
}

/// Sample jobs with their links, those that can be read with these rules.
pub(super) fn samples(rules: &Rules, link: &Link) -> Vec<(String, String)> {
    let reader = link.reader();
    let titles = [
        reader.say("pages-sample-new-house"),
        reader.say("pages-sample-jacket"),
        reader.say("pages-sample-long-wire"),
        reader.say("pages-sample-shop"),
    ];
    let known = SAMPLES.iter().zip(titles).filter_map(|((_, text), title)| {
        let link = link_of(rules, text, link).ok()?;
        Some((title, link.to(Room::Job.path())))
    });
    known.collect()
}
