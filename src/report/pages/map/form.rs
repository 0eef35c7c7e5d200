//! The form of the map: what is shown, on which day, within which place.

use super::asked::{Asked, OF_QUESTION, OF_SUBJECT, Show};
use super::places::in_order;
use super::{AT, ON, SHOW, WITHIN};
use crate::glossary::model::PlaceId;
use crate::report::pages::link::Link;
use crate::report::screen::words::spoken_title;
use crate::rules::Rules;
use serde::Serialize;
use std::collections::BTreeSet;

/// So many places are offered to be looked into; others are named in the link.
const OFFERED: usize = 500;

#[derive(Serialize)]
pub(super) struct Fields {
    on: Field,
    at: Field,
    show_wrong: Option<String>,
    within_wrong: Option<String>,
    subjects: Vec<Pick>,
    questions: Vec<Pick>,
    places: Vec<Pick>,
}

#[derive(Serialize)]
struct Field {
    name: &'static str,
    value: String,
    wrong: Option<String>,
}

#[derive(Serialize)]
struct Pick {
    value: String,
    title: String,
    here: bool,
}

pub(super) fn fields(rules: &Rules, link: &Link, asked: &Asked) -> Fields {
    let glossary = &rules.library().glossary;
    let places = &rules.library().places;
    let wrong = |name: &str| asked.wrong.iter().find(|(of, _)| *of == name).map(|(_, message)| message.clone());
    let typed = |name: &str| link.get(name).unwrap_or_default().trim().to_owned();
    // A job that names its dates is not asked about another day unless the reader says so.
    let by_the_job = matches!(asked.show, Some(Show::Answers(_))) && !asked.day_named;
    let on = if wrong(ON).is_some() || by_the_job { typed(ON) } else { asked.on.to_string() };
    let subjects = glossary.subjects.iter().zip(0u16..).map(|(subject, number)| Pick {
        value: format!("{OF_SUBJECT}{}", subject.name),
        title: spoken_title(&subject.title, &subject.name),
        here: matches!(asked.show, Some(Show::Editions(id)) if id.0 == number),
    });
    let questions = glossary.questions.iter().zip(0u16..).map(|(question, number)| Pick {
        value: format!("{OF_QUESTION}{}", question.name),
        title: spoken_title(&question.title, &question.name),
        here: matches!(asked.show, Some(Show::Answers(id)) if id.0 == number),
    });
    // What lies around others can be looked into.
    let around: BTreeSet<PlaceId> = places.all().filter_map(|(_, issuer)| issuer.parent).collect();
    let outer = in_order(rules).into_iter().filter(|(place, _)| around.contains(place)).take(OFFERED);
    Fields {
        on: Field { name: ON, value: on, wrong: wrong(ON) },
        at: Field { name: AT, value: typed(AT), wrong: wrong(AT) },
        show_wrong: wrong(SHOW),
        within_wrong: wrong(WITHIN),
        subjects: subjects.collect(),
        questions: questions.collect(),
        places: outer
            .map(|(place, issuer)| Pick {
                value: places.path_text(place),
                title: issuer.title.to_string(),
                here: asked.within == Some(place),
            })
            .collect(),
    }
}
