//! What is wrong with the job of a link, where no page can show it beside the form.

use super::super::problem::Problem;
use crate::interview::link::Unheard;
use crate::report::pages::problems::told;
use crate::report::speech::Reader;
use axum::http::StatusCode;

/// The first thing that is wrong, as a problem.
pub(super) fn unread(wrong: &[Unheard], reader: Reader) -> Problem {
    let told = told(wrong, reader);
    let Some(first) = told.first() else {
        return Problem::new(StatusCode::UNPROCESSABLE_ENTITY, "the link holds no job");
    };
    let mut help: Vec<String> = first.help.iter().cloned().collect();
    help.extend((!first.near.is_empty()).then(|| format!("{} {}", reader.say("pages-near"), first.near.join(", "))));
    let problem = Problem::new(StatusCode::UNPROCESSABLE_ENTITY, format!("{}: {}", first.path, first.message));
    if help.is_empty() { problem } else { problem.help(help.join("; ")) }
}
