//! A job sheet or a job in JSON becomes a link; sample jobs to begin with.

use super::super::body;
use super::super::problem::Problem;
use super::super::state::{Shared, State as Server};
use super::super::work::work;
use super::{job, page, wrong};
use crate::engine::reading;
use crate::interview::link::{from_pairs, to_pairs};
use crate::job::Defaults;
use crate::job::model::Job;
use crate::report::finding::{Finding, Spot};
use crate::report::pages::frame::Room;
use crate::report::pages::link::Link;
use crate::report::pages::problems::Told;
use crate::report::speech::Reader;
use crate::rules::Rules;
use crate::syntax::codes;
use axum::body::Body;
use axum::extract::State;
use axum::http::header::ACCEPT;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Redirect, Response};

/// The sample jobs, with their titles.
const SAMPLES: &[(&str, &str)] = &[
    ("new-house", include_str!("../../../shared/jobs/new-house.job")),
    ("jacket-not-known", include_str!("../../../shared/jobs/jacket-not-known.job")),
    ("long-wire", include_str!("../../../shared/jobs/long-wire.job")),
    ("shop-on-a-feeder", include_str!("../../../shared/jobs/shop-on-a-feeder.job")),
];

/// `POST /open`: the form with a job in it; the answer leads to the page of its link.
///
/// What is wrong with the job is shown above the form to whoever reads pages, and what was
/// pasted stays in it.
pub(super) async fn open(State(state): State<Shared>, headers: HeaderMap, sent: Body) -> Result<Response, Problem> {
    body::plain(&headers)?;
    let reads_pages = reads_pages(&headers);
    let bytes = body::read(&state, sent, state.limits.body).await?;
    let form = Link(form_urlencoded::parse(&bytes).into_owned().collect());
    work(&state, move |state| {
        let text = form.get("sheet").unwrap_or_default();
        match link_of(&state.rules, text, &form).and_then(|link| carried(state, &link)) {
            Ok(to) => Redirect::to(&to).into_response(),
            Err(findings) if reads_pages => {
                let wrong: Vec<Told> = findings.iter().map(|finding| told(finding, form.reader())).collect();
                let mut response = page(job::pasted(state, &form, &wrong, text));
                *response.status_mut() = StatusCode::UNPROCESSABLE_ENTITY;
                response
            }
            Err(findings) => Problem::of(StatusCode::UNPROCESSABLE_ENTITY, &findings).into_response(),
        }
    })
    .await
}

/// Whether whoever asks shows pages to a person.
fn reads_pages(headers: &HeaderMap) -> bool {
    let mut ranges = headers.get_all(ACCEPT).iter().filter_map(|range| range.to_str().ok());
    ranges.any(|ranges| ranges.split(',').any(|range| range.trim().to_ascii_lowercase().starts_with("text/html")))
}

/// A finding, beside the form.
fn told(finding: &Finding, reader: Reader) -> Told {
    let place = match finding.spot.line_and_column() {
        Some((line, column)) => {
            let parts = [("line", &*line.to_string()), ("column", &*column.to_string())];
            reader.say_with("pages-open-spot", &parts)
        }
        None => finding.spot.path.clone(),
    };
    Told {
        path: if place.is_empty() { finding.spot.name.clone() } else { place },
        typed: String::new(),
        message: finding.message.clone(),
        help: finding.help.clone(),
        near: Vec::new(),
        code: Some(finding.code.to_string()),
    }
}

/// The address to which a link leads, where it carries the job whole and a server takes it.
fn carried(state: &Server, link: &Link) -> Result<String, Vec<Finding>> {
    let reader = link.reader();
    let (to, most) = (link.to(Room::Job.path()), state.limits.link());
    if to.len() > most {
        let parts = [("letters", &*to.len().to_string()), ("most", &*most.to_string())];
        let long = Finding::new(codes::LIMIT, Spot::file(pasted(reader)), reader.say_with("pages-open-long", &parts));
        return Err(vec![long.help(reader.say("pages-open-divide"))]);
    }
    let heard = from_pairs(&state.rules, link.facts(), None);
    if heard.is_whole() { Ok(to) } else { Err(wrong::findings(&heard.wrong, &pasted(reader), reader)) }
}

/// What a job is called in what is told of it.
fn pasted(reader: Reader) -> String {
    reader.say("pages-open-pasted")
}

/// The link of the one job of a text, written for the reader of `own`.
fn link_of(rules: &Rules, text: &str, own: &Link) -> Result<Link, Vec<Finding>> {
    let (reader, defaults) = (own.reader(), Defaults::default());
    let name = &*pasted(reader);
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let jobs = if text.trim_start().starts_with(['{', '[']) {
        reading::json(name, text.as_bytes(), rules, &defaults)
    } else {
        reading::sheet(name, text.as_bytes(), rules, &defaults)
    };
    let mut link = own.bare();
    match jobs?.as_slice() {
        [job] => link.0.extend(pairs(rules, job)),
        _ => {
            let several = Finding::new(codes::JOB, Spot::file(name.to_owned()), reader.say("pages-open-several"));
            return Err(vec![several.help(reader.say("pages-open-one"))]);
        }
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
