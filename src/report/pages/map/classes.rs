//! What each place says, in words, and which places say the same.

use super::asked::{Asked, Show};
use crate::glossary::model::{PlaceId, QuestionId, SubjectId};
use crate::interview::link::{Heard, from_pairs, to_pairs};
use crate::job::model::{Given, Job};
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
    /// The job as that place knows it, for a link; nothing where no job was asked about.
    #[serde(skip)]
    pub(super) job: Vec<(String, String)>,
}

/// A job to ask all places about, with what could not be read of it.
pub(super) struct Asking {
    job: Option<Job>,
    pub(super) wrong: Vec<Told>,
    /// The day by which its texts are chosen, where it is known.
    pub(super) day: Option<Date>,
}

impl Asking {
    /// No job is asked about.
    pub(super) fn none() -> Asking {
        Asking { job: None, wrong: Vec::new(), day: None }
    }
}

/// The job of a link. One that names no place is read by the law of the outermost place
/// that is shown, and one of which nothing is said is a job of which nothing is known. The
/// day stands for all dates that it leaves unsaid where the reader named that day, or the job
/// names none.
pub(super) fn job(link: &Link, rules: &Rules, outermost: Option<PlaceId>, asked: &Asked) -> Asking {
    let known = link.get("place").is_some_and(|place| !place.trim().is_empty());
    let link = match outermost.filter(|_| !known) {
        Some(outermost) => link.with("place", &rules.library().places.path_text(outermost)),
        None => link.clone(),
    };
    let heard = from_pairs(rules, link.facts(), asked.day_named.then_some(asked.on));
    let heard = if asked.day_named || day(rules, &heard).is_some() {
        heard
    } else {
        from_pairs(rules, link.facts(), Some(asked.on))
    };
    let day = day(rules, &heard);
    Asking { job: heard.so_far.map(|so_far| so_far.job), wrong: told(&heard.wrong, link.reader()), day }
}

/// The day by which the texts of a job are chosen.
fn day(rules: &Rules, heard: &Heard) -> Option<Date> {
    let field = rules.library().glossary.roles.dates?;
    match heard.so_far.as_ref()?.job.values.get(usize::from(field.0)) {
        Some(Given::Date(day)) => Some(*day),
        _ => None,
    }
}

/// What a place says on what is shown.
pub(super) fn says(rules: &Rules, place: PlaceId, show: Show, asking: &Asking, on: Date, reader: Reader) -> Says {
    match show {
        Show::Editions(subject) => editions(rules, place, subject, on, reader),
        Show::Answers(question) => answered(rules, place, question, asking, reader),
    }
}

fn not_known(words: String) -> Says {
    Says { words, settled: false, lines: Vec::new(), job: Vec::new() }
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
    Says { words, settled: true, lines: told.collect(), job: Vec::new() }
}

/// The answer to a question for the job, moved there.
fn answered(rules: &Rules, place: PlaceId, question: QuestionId, asking: &Asking, reader: Reader) -> Says {
    let Some(job) = &asking.job else { return not_known(reader.say("map-job-not-read")) };
    let there = match moved(job, place, None, rules.desk()) {
        Ok(there) => there,
        Err(problems) => {
            let lines = problems.iter().map(|problem| format!("{}: {}", problem.path, problem.message)).collect();
            return Says { words: reader.say("map-job-not-read"), settled: false, lines, job: Vec::new() };
        }
    };
    let Ok(matter) = rules.matter(&there.job) else { return not_known(reader.say("map-law-not-known")) };
    let job = to_pairs(&there.job, &matter, &rules.library().places.path_text(place));
    let verdict = full(&matter, &mut Scratch::default());
    let name = &rules.library().glossary[question].name;
    let Some(answer) = verdict.answers.iter().find(|answer| answer.question.name == *name) else {
        return Says { job, ..not_known(reader.say("compare-no-such-question")) };
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
    Says { words, settled: state == State::Settled, lines, job }
}
