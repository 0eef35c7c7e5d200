//! A verdict spelled out for people: every text that a page or a paper puts down,
//! in the reader's language and units, without any layout.
//!
//! This module refuses to know screens, pages and papers.

pub(crate) mod answers;
pub(crate) mod closing;
pub(crate) mod facts;
pub(crate) mod head;
pub(crate) mod jumper;
mod own;
pub(crate) mod reasons;
#[cfg(test)]
mod tests;

use super::screen::order;
use super::speech::Reader;
use crate::law::places::Places;
use crate::values::Date;
use crate::verdict::Matter;
use crate::verdict::model::{Answered, Verdict};
use jumper::Jumper;
use serde::Serialize;

/// A verdict spelled out.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Sheet {
    /// The outcome's word in the JSON, for programs and styles.
    pub(crate) outcome: &'static str,
    /// The outcome in words, and what it comes from.
    pub(crate) heading: String,
    pub(crate) sentence: String,
    pub(crate) reference: Option<String>,
    /// The printed names of the place and those around it, innermost first.
    pub(crate) place: Vec<String>,
    /// The path by which a job names the place.
    pub(crate) path: String,
    pub(crate) dates: String,
    /// The codes in force with their editions and the instruments that adopt them.
    pub(crate) codes: String,
    pub(crate) facts: Vec<facts::Echo>,
    /// The answers in the order of the work.
    pub(crate) answers: Vec<Line>,
    /// How the job stands with a jumper of whose making it is not asked.
    pub(crate) jumper: Jumper,
    /// What leads the answers that are not asked of the job, and the facts that bear on these
    /// alone.
    pub(crate) idle_lead: String,
    pub(crate) idle_facts_lead: String,
    /// Titles with their answers that are not asked of the job, and what it has.
    pub(crate) idle: Vec<String>,
    /// What the job goes against of what is only advised.
    pub(crate) against: Vec<String>,
    /// Questions that ask nothing of this job.
    pub(crate) loose: Vec<String>,
    /// Questions of which no rule known here speaks.
    pub(crate) silent: Vec<String>,
    pub(crate) ask: Vec<closing::Asked>,
    pub(crate) notes: Vec<closing::Note>,
    pub(crate) pending: Vec<String>,
    /// Cautions of the rules.
    pub(crate) cautions: Vec<String>,
    /// What was written down from memory, in one line; empty where nothing was.
    pub(crate) memory: String,
    /// What is said at the end of every page, the age of the rules last.
    pub(crate) standing: Vec<String>,
    /// The office to ask, of the place or the nearest around it.
    pub(crate) office: Option<String>,
    pub(crate) library: String,
    pub(crate) rests_on: String,
    pub(crate) engine: &'static str,
    pub(crate) today: String,
}

/// One answer spelled out.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Line {
    pub(crate) question: String,
    pub(crate) title: String,
    /// `met`, `not-met`, `open`, `refer`, `conflict` or `none`.
    pub(crate) mark: &'static str,
    /// The mark in words.
    pub(crate) word: String,
    /// What is asked.
    pub(crate) value: String,
    /// What the job has, where the question measures it.
    pub(crate) has: Option<String>,
    /// What the job says of it, whether or not it is held against it.
    pub(crate) own: Option<String>,
    /// Whether single facts of the job show that it is done.
    pub(crate) shown: bool,
    /// What rests on the jumper that is there.
    pub(crate) carries: Vec<String>,
    /// What a job would have to say, where it is not met.
    pub(crate) needs: Option<String>,
    /// Why it is left to the authority, or the readings.
    pub(crate) referrals: Vec<String>,
    /// The two cases of an open answer.
    pub(crate) cases: answers::Cases,
    /// The facts that an open answer hangs on.
    pub(crate) hangs_on: Vec<Missing>,
    /// The facts that an open finding hangs on where the answer itself is settled.
    pub(crate) unsaid: Vec<Missing>,
    /// Whether nothing binds, and `cite` tells what is advised.
    pub(crate) silent: bool,
    /// The texts on which it stands.
    pub(crate) cite: String,
    /// The same for plain words: where no text governs, the section that was looked at alone.
    pub(crate) section: String,
    /// Whether it stands on further texts that are only counted there.
    pub(crate) cites_more: bool,
    /// Who says so: the printed names of the issuers of what governs.
    pub(crate) who: Vec<String>,
    pub(crate) reasons: Vec<reasons::Told>,
    /// What a stricter answer costs, in kind.
    pub(crate) costs: Option<String>,
    /// Whether it is asked of this job at all.
    pub(crate) asked: bool,
    /// Whether it is settled at what asks least.
    pub(crate) loosest: bool,
    /// Whether the question measures a fact of the job.
    pub(crate) measured: bool,
}

/// A fact that the job does not say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Missing {
    /// As a job writes it.
    pub(crate) fact: String,
    /// As a person calls it.
    pub(crate) title: String,
}

/// What a sheet takes from outside the verdict.
#[derive(Clone)]
pub(crate) struct Frame<'a> {
    pub(crate) places: &'a Places,
    /// The day against which the age of rules is told.
    pub(crate) today: Date,
    pub(crate) reader: Reader,
    /// Whether each answer is told by itself, also those that ask nothing.
    pub(crate) all: bool,
    /// The hash of the library, and of the files that took part.
    pub(crate) library: &'a str,
    pub(crate) rests_on: String,
}

/// How an answer is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Place {
    Told,
    /// The finding is not asked for.
    Idle,
    /// Settled at the loosest, where that says nothing by itself.
    Loose,
    Silent,
}

impl Sheet {
    /// Spells a verdict out.
    pub(crate) fn new(verdict: &Verdict<'_>, matter: &Matter<'_>, frame: &Frame<'_>) -> Sheet {
        let reader = frame.reader;
        let path = frame.places.path(matter.job.place);
        let mut sorted: Vec<&Answered<'_>> = verdict.answers.iter().collect();
        sorted.sort_by_key(|answer| order::rank(&answer.question.name));
        let titled = |place: Place| answers::titled(&sorted, place, matter, frame);
        let jumper = Jumper::of(verdict, matter);
        let (cautions, memory) = closing::cautions(verdict, jumper, reader);
        Sheet {
            outcome: verdict.outcome.word(),
            heading: head::word(verdict.outcome, reader),
            sentence: head::sentence(verdict, matter, reader),
            reference: verdict.reference.map(str::to_owned),
            place: path
                .iter()
                .rev()
                .filter_map(|id| frame.places.issuer(*id))
                .map(|place| place.title.to_string())
                .collect(),
            path: frame.places.path_text(matter.job.place),
            dates: head::dates(matter, reader),
            codes: head::codes(&verdict.codes, reader),
            facts: facts::echo(verdict, matter, reader),
            answers: sorted
                .iter()
                .filter(|answer| answers::place(answer, matter, frame.all) == Place::Told)
                .map(|answer| answers::line(answer, jumper, matter, &verdict.codes, reader))
                .collect(),
            jumper,
            idle_lead: jumper.lead(reader),
            idle_facts_lead: jumper.lead_of_facts(reader),
            idle: titled(Place::Idle),
            loose: titled(Place::Loose),
            silent: titled(Place::Silent),
            against: own::against(&sorted, matter, &verdict.codes, reader),
            ask: closing::asks(verdict, matter, reader),
            notes: closing::notes(verdict, matter, reader),
            pending: closing::pending(verdict, reader),
            cautions,
            memory,
            standing: closing::standing(&path, frame.places, frame.today, reader),
            office: closing::office(matter, frame.places),
            library: frame.library.to_owned(),
            rests_on: frame.rests_on.clone(),
            engine: env!("CARGO_PKG_VERSION"),
            today: frame.today.to_string(),
        }
    }
}
