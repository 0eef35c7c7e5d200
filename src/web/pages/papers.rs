//! The papers of a job, its picture, and the ways that it leaves open.

use super::super::problem::Problem;
use super::super::query::Named;
use super::super::state::{Shared, State as Server};
use super::super::work::work;
use super::{job, page, wrong};
use crate::interview::link::from_pairs;
use crate::report::cures;
use crate::report::pages::link::Link;
use crate::report::pages::ways as ways_page;
use crate::report::papers::{self, Drawn, Paper};
use crate::report::picture::{self, Kind};
use crate::verdict::Scratch;
use axum::extract::{RawQuery, State};
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};

/// `GET /paper/NAME`: a sheet to print.
pub(super) async fn paper(
    State(state): State<Shared>,
    Named(name): Named,
    RawQuery(query): RawQuery,
) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    let Some(paper) = Paper::find(&name) else {
        let names: Vec<&str> = Paper::ALL.into_iter().map(Paper::name).collect();
        let detail = format!("no paper is called `{}`", crate::glossary::cut(&name));
        return Err(Problem::new(StatusCode::NOT_FOUND, detail).help(format!("there are {}", names.join(", "))));
    };
    work(&state, move |state| {
        if let Some(form) = unread(state, &link) {
            return form;
        }
        let written = job::judged(state, &link, |judged| {
            let sheet = judged.sheet(true);
            let drawn = [Drawn { verdict: judged.told, matter: judged.matter, sheet: &sheet }];
            papers::write(paper, &drawn, link.reader())
        });
        wrong::printed(page(written.map(|(text, _)| text)))
    })
    .await
}

/// The questions, with what of them could not be read, where a link cannot be read whole:
/// what is printed is passed on, and nothing may be left out of it in silence.
fn unread(state: &Server, link: &Link) -> Option<Response> {
    if from_pairs(&state.rules, link.facts(), None).is_whole() {
        return None;
    }
    let mut response = page(job::of_questions(state, link));
    *response.status_mut() = StatusCode::UNPROCESSABLE_ENTITY;
    Some(response)
}

/// `GET /picture.svg`: the picture by itself.
pub(super) async fn picture(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| {
        if let Some(form) = unread(state, &link) {
            return form;
        }
        let written = job::judged(state, &link, |judged| {
            let today = (state.today)();
            Ok(picture::sheet(Kind::Picture, judged.told, judged.matter, link.reader(), &state.rules, today))
        });
        match written {
            Ok((drawing, _)) => wrong::printed(([(CONTENT_TYPE, "image/svg+xml")], drawing)),
            Err(_) => Problem::fault().into_response(),
        }
    })
    .await
}

/// `GET /ways`: what may be chosen, side by side.
pub(super) async fn ways(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| {
        let written = job::judged(state, &link, |judged| {
            let ways = cures::ways(judged.matter, &mut Scratch::default(), link.reader());
            ways_page::page(&ways, &judged.sheet(false), &judged.wrong, &link)
        });
        page(written.map(|(text, _)| text))
    })
    .await
}
