//! The map of answers: the places by the edition in force on a day, or by the answer
//! that the law of each gives to the job of the link, and which place a point lies in.

mod asked;
mod classes;
mod form;
mod places;
#[cfg(test)]
mod tests;
mod view;

use super::link::Link;
use crate::report::speech::template::render;
use crate::rules::Rules;
use crate::values::Date;
use minijinja::Error;

/// The names of what is asked in a link: the day, what is shown, within which place, and
/// the point.
const ON: &str = "~on";
const SHOW: &str = "~show";
const WITHIN: &str = "~within";
const AT: &str = "~at";

/// The page of the map for a link.
///
/// # Errors
/// Where the template does not fit, which a test would show.
pub(crate) fn page(link: &Link, rules: &Rules, today: Date) -> Result<String, Error> {
    let asked = asked::read(link, rules, today);
    render("map.html", view::view(link, rules, &asked), link.reader())
}
