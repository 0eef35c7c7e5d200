//! What each place says, in words, and which places say the same.

use super::asked::Show;
use crate::glossary::model::{PlaceId, QuestionId, SubjectId};
use crate::interview::link::from_pairs;
use crate::job::model::Job;
use crate::job::moved;
use crate::report::in_force::{collect, inquire};
use crate::report::pages::link::Link;
use crate::report::pages::problems::{Told, told};
use crate::report::sheet::answers;
use crate::report::speech::Reader;
use crate::rules::Rules;
use crate::values::Date;
use crate::verdict::found::State;
use crate::verdict::{Scratch, full};
use serde::Serialize;
use std::collections::BTreeSet;

/// What one place says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Says {
    pub(super) words: String,
    /// Whether that is known; what is open, left to an authority or said by nobody is not.
    pub(super) settled: bool,
    /// The texts that say so, and notes, a line each.
    pub(super) lines: Vec<String>,
}

/// A job to ask all places about, with what could not be read of it.
pub(super) struct Asking {
    job: Option<Job>,
    pub(super) wrong: Vec<Told>,
}

impl Asking {
    /// No job is asked about.
    pub(super) fn none() -> Asking {
        Asking { job: None, wrong: Vec::new() }
    }
}

/// The job of a link. One that names no place is read by the law of `home`, and one of
/// which nothing is said is a job of which nothing is known.
pub(super) fn job(link: &Link, rules: &Rules, home: Option<PlaceId>, on: Date) -> Asking {
    let reader = link.reader();
    let known = link.get("place").is_some_and(|place| !place.trim().is_empty());
    let link = match home.filter(|_| !known) {
        Some(home) => link.with("place", &rules.library().places.path_text(home)),
        None => link.clone(),
    };
    let heard = from_pairs(rules, link.facts(), Some(on));
    Asking { job: heard.so_far.map(|so_far| so_far.job), wrong: told(&heard.wrong, reader) }
}

/// What a place says on what is shown.
pub(super) fn says(rules: &Rules, place: PlaceId, show: Show, asking: &Asking, on: Date, reader: Reader) -> Says {
    match show {
        Show::Editions(subject) => editions(rules, place, subject, on, reader),
        Show::Answers(question) => answered(rules, place, question, asking, on, reader),
    }
}

fn not_known(words: String) -> Says {
    Says { words, settled: false, lines: Vec::new() }
}

/// The editions in force on a subject.
fn editions(rules: &Rules, place: PlaceId, subject: SubjectId, on: Date, reader: Reader) -> Says {
    let name = &rules.library().glossary[subject].name;
    let Ok(found) = inquire(rules, place, on, collect) else {
        return not_known(reader.say("map-law-not-known"));
    };
    let lines: Vec<_> = found.codes.iter().filter(|line| *line.subject == **name).collect();
    let names: BTreeSet<String> = lines.iter().map(|line| format!("{} {}", line.code, line.edition)).collect();
    if names.is_empty() {
        return not_known(reader.say("map-no-edition"));
    }
    let names: Vec<String> = names.into_iter().collect();
    let told = lines.iter().map(|line| {
        let parts = [
            ("edition", &*format!("{} {}", line.code, line.edition)),
            ("by", &*format!("{} ({})", line.by, line.issuer)),
            ("condition", &*line.scope),
        ];
        if line.scope.is_empty() {
            reader.say_with("map-adopted", &parts)
        } else {
            reader.say_with("map-adopted-where", &parts)
        }
    });
    // Several editions stand side by side, each for some jobs.
    let words = match names.as_slice() {
        [one] if lines.iter().all(|line| line.scope.is_empty()) => one.clone(),
        [one] => reader.say_with("map-for-some-jobs", &[("edition", one)]),
        several => reader.say_with("map-by-the-job", &[("editions", &several.join(", "))]),
    };
    Says { words, settled: true, lines: told.collect() }
}

/// The answer to a question for the job, moved there.
fn answered(rules: &Rules, place: PlaceId, question: QuestionId, asking: &Asking, on: Date, reader: Reader) -> Says {
    let Some(job) = &asking.job else { return not_known(reader.say("map-job-not-read")) };
    let there = match moved(job, place, Some(on), rules.desk()) {
        Ok(there) => there,
        Err(problems) => {
            let lines = problems.iter().map(|problem| format!("{}: {}", problem.path, problem.message)).collect();
            return Says { words: reader.say("map-job-not-read"), settled: false, lines };
        }
    };
    let Ok(matter) = rules.matter(&there.job) else { return not_known(reader.say("map-law-not-known")) };
    let verdict = full(&matter, &mut Scratch::default());
    let name = &rules.library().glossary[question].name;
    let Some(answer) = verdict.answers.iter().find(|answer| answer.question.name == *name) else {
        return not_known(reader.say("compare-no-such-question"));
    };
    let mut words = answers::state(answer, &matter, reader);
    let state = answer.found.state;
    if !answer.found.asked && state != State::Silent {
        words = reader.say_with("compare-idle", &[("answer", &words)]);
    }
    let mut lines = vec![answers::citation(answer, &matter, &verdict.codes, reader).0];
    let hangs_on = answers::asks(answer, &matter);
    if !hangs_on.is_empty() {
        lines.push(reader.say_with("compare-hangs-on", &[("facts", &hangs_on.join(", "))]));
    }
    for left in &there.left {
        let home = rules.library().places.issuer(left.known_in).map_or("", |issuer| &*issuer.title);
        lines.push(match &left.term {
            Some(term) => {
                reader.say_with("compare-left-term", &[("term", term), ("fact", &left.path), ("place", home)])
            }
            None => reader.say_with("compare-left-fact", &[("fact", &left.path), ("place", home)]),
        });
    }
    lines.retain(|line| !line.is_empty());
    Says { words, settled: state == State::Settled, lines }
}
