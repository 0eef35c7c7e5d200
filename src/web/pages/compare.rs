//! One job at several places and on several days.

use super::super::problem::Problem;
use super::super::state::{Shared, State as Server};
use super::super::work::work;
use super::{offered, page, wrong};
use crate::glossary::Territory;
use crate::glossary::model::PlaceId;
use crate::interview::link::{Heard, from_pairs};
use crate::job::{Defaults, JobProblem, dated};
use crate::report::compare::{Axes, COLUMNS, Comparison, Side, csv, html, sides};
use crate::report::pages::compare::{self, Tick};
use crate::report::pages::link::{DAYS, Link, PLACES};
use crate::report::pages::problems::{Told, told};
use crate::rules::Rules;
use crate::values::Date;
use axum::extract::{RawQuery, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{Html, IntoResponse, Response};

/// `GET /compare`: the page.
pub(super) async fn compare(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| {
        let (comparison, wrong) = match compared(state, &link) {
            Ok(comparison) => (Some(comparison), Vec::new()),
            // Nothing is wrong with a form that was only opened.
            Err(_) if link.get(PLACES).is_none() && link.get(DAYS).is_none() => (None, Vec::new()),
            Err(wrong) => (None, wrong),
        };
        page(compare::page(comparison.as_ref(), &ticks(state, &link), &wrong, &link, state.rules.hash()))
    })
    .await
}

/// `GET /compare.html`: the sheet to print.
pub(super) async fn print(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| {
        let comparison = compared(state, &link).map_err(|told| wrong::problem(&told, link.reader()))?;
        Ok(wrong::printed(Html(html(&comparison, link.reader()))))
    })
    .await?
}

/// `GET /compare.csv`: for a spreadsheet.
pub(super) async fn table(State(state): State<Shared>, RawQuery(query): RawQuery) -> Result<Response, Problem> {
    let link = Link::from(&*query.unwrap_or_default());
    work(&state, move |state| {
        let comparison = compared(state, &link).map_err(|told| wrong::problem(&told, link.reader()))?;
        let kind =
            [(CONTENT_TYPE, "text/csv; charset=utf-8"), (CONTENT_DISPOSITION, "attachment; filename=\"compare.csv\"")];
        Ok((kind, csv(&comparison, link.reader())).into_response())
    })
    .await?
}

/// The comparison that a link asks for.
///
/// # Errors
/// What is wrong with the job, the places or the days.
fn compared(state: &Server, link: &Link) -> Result<Comparison, Vec<Told>> {
    let rules = &state.rules;
    let mut wrong: Vec<Told> = Vec::new();
    let places = places(rules, link, &mut wrong);
    let dates = days(link, &mut wrong);
    let axes = Axes { places: &places, dates: &dates };
    wrong.extend(sensible(axes, link));
    if !wrong.is_empty() {
        return Err(wrong);
    }
    rules
        .compared(&of_link(rules, axes, link)?, link.reader(), (state.today)())
        .map_err(|problem| vec![Told { help: problem.help, ..complaint("place", "", problem.message) }])
}

/// What is wrong with what was typed for a name of the form.
fn complaint(name: &str, typed: &str, message: String) -> Told {
    Told {
        path: name.trim_start_matches('~').to_owned(),
        typed: typed.to_owned(),
        message,
        help: None,
        near: Vec::new(),
        code: None,
    }
}

/// The places that are ticked or named, each once.
fn places(rules: &Rules, link: &Link, wrong: &mut Vec<Told>) -> Vec<PlaceId> {
    let mut places: Vec<PlaceId> = Vec::new();
    for typed in link.all(PLACES) {
        match rules.library().places.find(typed) {
            Ok(place) if places.contains(&place) => {}
            Ok(place) => places.push(place),
            Err(problem) => {
                let told = complaint(PLACES, typed, link.reader().say("pages-wrong-no-place"));
                wrong.push(Told { near: [problem.nearest, problem.candidates].concat(), ..told });
            }
        }
    }
    places
}

/// The days that are written, each once.
fn days(link: &Link, wrong: &mut Vec<Told>) -> Vec<Date> {
    let mut days: Vec<Date> = Vec::new();
    let typed = link.all(DAYS).flat_map(|typed| typed.split(',')).map(str::trim).filter(|typed| !typed.is_empty());
    for typed in typed {
        match Date::parse(typed) {
            Some(day) if days.contains(&day) => {}
            Some(day) => days.push(day),
            None => wrong.push(complaint(DAYS, typed, link.reader().say("pages-wrong-day"))),
        }
    }
    days
}

/// Whether there is something to compare, and not too much.
fn sensible(axes: Axes<'_>, link: &Link) -> Option<Told> {
    let reader = link.reader();
    let columns = axes.columns();
    if columns > COLUMNS {
        let parts = [("count", &*columns.to_string()), ("most", &*COLUMNS.to_string())];
        return Some(complaint(PLACES, "", reader.say_with("pages-compare-many", &parts)));
    }
    (columns < 2).then(|| complaint(PLACES, "", reader.say("pages-compare-two")))
}

/// The job of a link in every column. One that is dated already keeps its dates.
fn of_link(rules: &Rules, axes: Axes<'_>, link: &Link) -> Result<Vec<Side>, Vec<Told>> {
    let names_its_place = link.get("place").is_some();
    let read = |defaults: &Defaults| -> Result<_, Vec<Told>> {
        let home = defaults.place.filter(|_| !names_its_place);
        let named = home.map(|place| rules.library().places.path_text(place));
        let facts = named.iter().map(|path| ("place", &**path)).chain(link.facts());
        // The day is put in last: it stands for what the job leaves unsaid, and for nothing else.
        let Heard { so_far, wrong } = from_pairs(rules, facts, None);
        match so_far {
            Some(so_far) if wrong.is_empty() => dated(so_far.job, defaults.date, rules.desk()).map_err(of_job),
            _ => Err(told(&wrong, link.reader())),
        }
    };
    sides(axes, Defaults::default(), names_its_place, rules.desk(), read, of_job)
}

/// What is wrong with the job at a place or on a day.
fn of_job(problems: Vec<JobProblem>) -> Vec<Told> {
    let told = problems.into_iter().map(|problem| Told {
        path: problem.path,
        typed: String::new(),
        message: problem.message,
        help: problem.help,
        near: Vec::new(),
        code: Some(problem.code.to_string()),
    });
    told.collect()
}

/// The places to tick: where there are many, those that are ticked and the job's neighbours.
fn ticks(state: &Server, link: &Link) -> Vec<Tick> {
    let places = &state.rules.library().places;
    let ticked: Vec<PlaceId> = link.all(PLACES).filter_map(|typed| places.find(typed).ok()).collect();
    let home = link.get("place").and_then(|typed| places.find(typed).ok());
    let around = home.and_then(|home| places.path(home).first().copied());
    let near = |id: PlaceId| ticked.contains(&id) || around.is_none_or(|around| places.within(id, around));
    offered::places(state, near)
        .map(|offered| Tick { ticked: ticked.contains(&offered.place), path: offered.path, title: offered.title })
        .collect()
}
