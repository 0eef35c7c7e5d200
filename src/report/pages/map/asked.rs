//! What a link asks of the map, and what of it cannot be read.

use super::{AT, ON, SHOW, WITHIN};
use crate::atlas::Point;
use crate::glossary::model::{PlaceId, QuestionId, SubjectId};
use crate::report::pages::link::Link;
use crate::report::speech::Reader;
use crate::rules::Rules;
use crate::values::Date;

/// What is shown of each place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Show {
    /// The editions in force on a subject.
    Editions(SubjectId),
    /// The answer to a question for the job of the link.
    Answers(QuestionId),
}

/// What is asked. What cannot be read is told, and left as if nothing had been asked.
pub(super) struct Asked {
    pub(super) on: Date,
    /// Whether the reader named that day, which is today otherwise.
    pub(super) day_named: bool,
    pub(super) show: Option<Show>,
    pub(super) within: Option<PlaceId>,
    pub(super) at: Option<Point>,
    /// Under the name of each field what is wrong with it.
    pub(super) wrong: Vec<(&'static str, String)>,
}

/// The subject that is shown where none is asked for.
const SUBJECT: &str = "fuel-gas";

pub(super) const OF_SUBJECT: &str = "subject:";
pub(super) const OF_QUESTION: &str = "question:";

pub(super) fn read(link: &Link, rules: &Rules, today: Date) -> Asked {
    let reader = link.reader();
    let mut asked =
        Asked { on: today, day_named: false, show: default_subject(rules), within: None, at: None, wrong: Vec::new() };
    let said = |name: &str| link.get(name).map(str::trim).filter(|text| !text.is_empty());
    if let Some(text) = said(ON) {
        match Date::parse(text) {
            Some(day) => (asked.on, asked.day_named) = (day, true),
            None => asked.wrong.push((ON, reader.say("map-wrong-day"))),
        }
    }
    if let Some(text) = said(SHOW) {
        match show(text, rules) {
            Some(show) => asked.show = Some(show),
            None => asked.wrong.push((SHOW, reader.say("map-wrong-show"))),
        }
    }
    if let Some(text) = said(WITHIN) {
        match rules.library().places.find(text) {
            Ok(place) => asked.within = Some(place),
            Err(problem) => asked.wrong.push((WITHIN, no_place(&problem.candidates, &problem.nearest, reader))),
        }
    }
    if let Some(text) = said(AT) {
        match Point::parse(text) {
            Some(point) => asked.at = Some(point),
            None => asked.wrong.push((AT, reader.say("map-wrong-point"))),
        }
    }
    asked
}

fn no_place(candidates: &[String], nearest: &[String], reader: Reader) -> String {
    let (key, near) = match candidates {
        [] => (reader.say("pages-wrong-no-place"), nearest),
        several => (reader.say("pages-wrong-places"), several),
    };
    if near.is_empty() { key } else { format!("{key}. {} {}", reader.say("pages-near"), near.join(", ")) }
}

fn default_subject(rules: &Rules) -> Option<Show> {
    let subjects = &rules.library().glossary.subjects;
    let gas = subjects.iter().position(|subject| *subject.name == *SUBJECT).unwrap_or(0);
    u16::try_from(gas).ok().filter(|_| !subjects.is_empty()).map(|number| Show::Editions(SubjectId(number)))
}

fn show(text: &str, rules: &Rules) -> Option<Show> {
    let glossary = &rules.library().glossary;
    if let Some(name) = text.strip_prefix(OF_SUBJECT) {
        let found = glossary.subjects.iter().position(|subject| *subject.name == *name)?;
        return u16::try_from(found).ok().map(|number| Show::Editions(SubjectId(number)));
    }
    let name = text.strip_prefix(OF_QUESTION)?;
    let found = glossary.questions.iter().position(|question| *question.name == *name)?;
    u16::try_from(found).ok().map(|number| Show::Answers(QuestionId(number)))
}
