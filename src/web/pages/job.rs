//! The job and its verdict.

use super::super::problem::Problem;
use super::super::state::{Shared, State as Server};
use super::super::work::work;
use super::{offered, open, page};
use crate::interview::link::{Heard, from_pairs};
use crate::interview::{Asker, agenda};
use crate::report::cures::Mending;
use crate::report::pages::job::{self, Desk};
use crate::report::pages::link::Link;
use crate::report::pages::problems::{Told, told};
use crate::report::pages::verdict;
use crate::report::picture;
use crate::report::sheet::Sheet;
use crate::report::speech::Reader;
use crate::report::walk::STAGES;
use crate::verdict::{Matter, Scratch, model};
use axum::extract::{RawQuery, State};
use axum::response::Response;
use minijinja::Error;

/// `GET /`: the questions, and the verdict beside them.
pub(super) async fn questions(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| page(of_questions(state, &link))).await
}

/// `GET /verdict`: the verdict with all reasons; without a place the questions.
pub(super) async fn verdict(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| {
        let written = judged(state, &link, |judged| {
            let picture = picture::svg(judged.told, judged.matter, link.reader());
            let mending = Mending::of(judged.told, judged.matter, link.reader());
            verdict::page(&judged.sheet(false), &mending, &picture, &judged.wrong, &link)
        });
        page(written.map(|(text, _)| text))
    })
    .await
}

/// A job that was judged.
pub(super) struct Judged<'a, 'j> {
    state: &'j Server,
    reader: Reader,
    pub(super) matter: &'j Matter<'a>,
    pub(super) told: &'j model::Verdict<'a>,
    pub(super) wrong: Vec<Told>,
    pub(super) heard: &'j Heard,
}

impl Judged<'_, '_> {
    /// The verdict spelled out; `all` tells each answer by itself. A picture does without.
    pub(super) fn sheet(&self, all: bool) -> Sheet {
        self.state.rules.sheet(self.told, self.matter, (self.state.today)(), self.reader, all)
    }
}

/// What is written on the job of a link; where its place is not known the questions, and
/// whether it was the job.
pub(super) fn judged(
    state: &Server,
    link: &Link,
    write: impl FnOnce(Judged<'_, '_>) -> Result<String, Error>,
) -> Result<(String, bool), Error> {
    let heard = from_pairs(&state.rules, link.facts(), None);
    let reader = link.reader();
    if let Some(so_far) = &heard.so_far
        && let Ok(matter) = state.rules.matter(&so_far.job)
    {
        let mut scratch = Scratch::default();
        let found = state.rules.weighed(&matter, &mut scratch);
        let wrong = told(&heard.wrong, reader);
        let judged = Judged { state, reader, matter: &matter, told: &found, wrong, heard: &heard };
        return Ok((write(judged)?, true));
    }
    let wrong = told(&heard.wrong, reader);
    // Nothing is wrong with a page that was only opened.
    let wrong = if link.facts().next().is_none() { Vec::new() } else { wrong };
    let samples = open::samples(&state.rules, link);
    Ok((job::page(None, &wrong, link, state.rules.hash(), places(state), samples, "")?, false))
}

/// The questions, and the verdict beside them.
pub(super) fn of_questions(state: &Server, link: &Link) -> Result<String, Error> {
    let written = judged(state, link, |judged| {
        let sheet = judged.sheet(false);
        let asker = Asker { who: "contractor", stages: STAGES };
        let none = std::collections::BTreeSet::new();
        let waived = judged.heard.so_far.as_ref().map_or(&none, |so_far| &so_far.waived);
        let steps = agenda(judged.matter, judged.told, Some(state.rules.library()), asker, waived);
        let desk =
            Desk { steps: &steps, lexicon: &judged.matter.lexicon, answers: &judged.told.answers, sheet: &sheet };
        job::page(Some(&desk), &judged.wrong, link, state.rules.hash(), places(state), Vec::new(), "")
    });
    written.map(|(text, _)| text)
}

/// The form of a job that was pasted and cannot be opened, with what is wrong with it.
pub(super) fn pasted(state: &Server, link: &Link, wrong: &[Told], text: &str) -> Result<String, Error> {
    let link = link.bare();
    let samples = open::samples(&state.rules, &link);
    job::page(None, wrong, &link, state.rules.hash(), places(state), samples, text)
}

/// The places by their paths, with their printed names.
fn places(state: &Server) -> Vec<(String, String)> {
    offered::places(state, |_| true).map(|place| (place.path, place.title)).collect()
}
