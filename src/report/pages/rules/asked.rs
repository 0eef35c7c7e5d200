//! What a reader asks of a page in its form: a day, a place. What cannot be read is
//! told beside the field, and nothing is put in its stead.

use super::desk::{AT, Desk, ON};
use crate::glossary::cut;
use crate::glossary::model::PlaceId;
use crate::report::in_force::NoInquest;
use crate::values::Date;
use serde::Serialize;

/// So many places are listed to be chosen from; of more the name is typed.
pub(super) const MOST_PLACES: usize = 300;

/// A field of a form and what was written there.
#[derive(Debug, Serialize)]
pub(super) struct Field {
    pub(super) value: String,
    /// What is wrong with it.
    pub(super) wrong: Option<String>,
}

/// A form that asks for a day, and perhaps a place.
#[derive(Debug, Serialize)]
pub(super) struct Form {
    /// What the link carries, to be handed on.
    carried: Vec<(String, String)>,
    pub(super) on: Field,
    pub(super) at: Option<Field>,
    /// The places by path and printed name, where they are few enough.
    places: Vec<(String, String)>,
}

/// The form of a page about one place, and the day that it asks of: today where none
/// was written.
pub(super) fn day(desk: &Desk<'_>) -> (Form, Option<Date>) {
    let (on, day) = day_field(desk);
    (Form { carried: desk.carried(), on, at: None, places: Vec::new() }, day)
}

/// The form of a page that asks for a place and a day: those of the job that the link
/// carries where none were written.
pub(super) fn place_and_day(desk: &Desk<'_>) -> (Form, Option<PlaceId>, Option<Date>) {
    let (on, day) = day_field(desk);
    let places = &desk.library().places;
    let written = desk.asked.get(AT).or_else(|| desk.asked.get("place")).unwrap_or_default().trim();
    let (mut value, mut wrong, mut place) = (written.to_owned(), None, None);
    if !written.is_empty() {
        match places.find(written) {
            Ok(found) => {
                value = places.path_text(found);
                place = Some(found);
            }
            Err(told) => {
                let near: Vec<&str> = told.candidates.iter().chain(&told.nearest).map(|name| &**name).collect();
                let mut words = desk.reader.say_with("browse-no-place", &[("name", &cut(written))]);
                if !near.is_empty() {
                    words = format!("{words}; {}", desk.reader.say_with("browse-near", &[("names", &near.join(", "))]));
                }
                wrong = Some(words);
            }
        }
    }
    let count = places.only_places().count();
    let mut listed = Vec::new();
    if count <= MOST_PLACES {
        listed.extend(places.only_places().map(|(id, issuer)| (places.path_text(id), issuer.title.to_string())));
        listed.sort();
    }
    (Form { carried: desk.carried(), on, at: Some(Field { value, wrong }), places: listed }, place, day)
}

fn day_field(desk: &Desk<'_>) -> (Field, Option<Date>) {
    let dated = desk.library().glossary.roles.dates.map(|field| &*desk.library().glossary[field].path);
    let of_job = dated.and_then(|path| desk.asked.get(path)).filter(|day| Date::parse(day).is_some());
    let written = desk.asked.get(ON).or(of_job).unwrap_or_default().trim();
    if written.is_empty() {
        return (Field { value: desk.today.to_string(), wrong: None }, Some(desk.today));
    }
    let day = Date::parse(written);
    let wrong = day.is_none().then(|| desk.reader.say_with("browse-no-day", &[("day", &cut(written))]));
    (Field { value: written.to_owned(), wrong }, day)
}

/// Why nothing can be told of a place on a day.
pub(super) fn no_inquest(desk: &Desk<'_>, told: &NoInquest) -> String {
    let why = match told {
        NoInquest::Dates(problems) => {
            problems.iter().map(|problem| problem.message.clone()).collect::<Vec<_>>().join("; ")
        }
        NoInquest::Law(told) => told.message.clone(),
    };
    desk.reader.say_with("browse-no-law", &[("why", &why)])
}
