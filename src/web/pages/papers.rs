//! The papers of a job, its picture, and the ways that it leaves open.

use super::super::problem::Problem;
use super::super::state::Shared;
use super::super::work::work;
use super::{job, page, wrong};
use crate::report::cures;
use crate::report::pages::link::Link;
use crate::report::pages::ways as ways_page;
use crate::report::papers::{self, Drawn, Paper};
use crate::report::picture::{self, Kind};
use crate::verdict::Scratch;
use axum::extract::{Path, RawQuery, State};
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::response::{Html, IntoResponse, Response};

/// `GET /paper/NAME`: a sheet to print.
pub(super) async fn paper(
    State(state): State<Shared>,
    Path(name): Path<String>,
    RawQuery(query): RawQuery,
) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    let Some(paper) = Paper::find(&name) else {
        let names: Vec<&str> = Paper::ALL.into_iter().map(Paper::name).collect();
        let detail = format!("no paper is called `{}`", crate::glossary::cut(&name));
        return Err(Problem::new(StatusCode::NOT_FOUND, detail).help(format!("there are {}", names.join(", "))));
    };
    work(&state, move |state| {
        let written = job::judged(state, &link, |judged| {
            let sheet = judged.sheet(true);
            let drawn = [Drawn { verdict: judged.told, matter: judged.matter, sheet: &sheet }];
            papers::write(paper, &drawn, link.reader())
        });
        wrong::printed(page(written.map(|(text, _)| text)))
    })
    .await
}

/// `GET /picture.svg`: the picture by itself.
pub(super) async fn picture(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| {
        let written = job::judged(state, &link, |judged| {
            let today = (state.today)();
            Ok(picture::sheet(Kind::Picture, judged.told, judged.matter, link.reader(), &state.rules, today))
        });
        match written {
            Ok((drawing, true)) => wrong::printed(([(CONTENT_TYPE, "image/svg+xml")], drawing)),
            // Without a place there is nothing to draw, and the questions are shown instead.
            Ok((questions, false)) => Html(questions).into_response(),
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
