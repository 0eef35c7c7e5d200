//! What one column says to one question.

use super::super::json;
use super::super::sheet::answers;
use super::super::speech::Reader;
use super::rank::{Stand, Unranked};
use crate::law::model::QuestionLaw;
use crate::verdict::Matter;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Role, Verdict};
use crate::verdict::strictness::measured;
use serde::Serialize;
use serde_json::Value;

/// An answer in a column.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Cell {
    /// As in a verdict; `absent` where the place has no such question.
    pub(crate) state: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) value: Option<Value>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) between: Option<[Value; 2]>,
    /// The answer in words, whether it is asked or not.
    pub(crate) words: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) finding: Option<&'static str>,
    /// Whether the question is asked of this job there.
    pub(crate) asked: bool,
    /// Why there is no use in the answer: `prohibited`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) not_applicable: Option<&'static str>,
    /// Whether facts that the job leaves unknown could change the answer or the finding.
    pub(crate) may_change: bool,
    /// These facts.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) hangs_on: Vec<String>,
    /// Whether it is marked as the strictest of its row.
    pub(crate) strictest: bool,
    /// Why it is not ranked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) unranked: Option<&'static str>,
    /// The texts that govern.
    pub(crate) texts: Vec<String>,
    /// Where none governs, why that is so.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) instead: Option<String>,
    /// Whether somebody advises on it.
    #[serde(skip)]
    pub(super) advised: bool,
}

impl Cell {
    /// Whether it answers what is not asked of this job.
    pub(super) fn is_idle(&self) -> bool {
        !self.asked && self.not_applicable.is_none() && !matches!(self.state, "silent" | "absent")
    }

    /// Whether another column says the same to the job, by whatever text.
    pub(super) fn says_the_same(&self, other: &Cell) -> bool {
        self.state == other.state
            && self.words == other.words
            && (self.asked == other.asked || self.state == "silent")
            && self.finding == other.finding
            && self.not_applicable == other.not_applicable
            && self.may_change == other.may_change
    }
}

/// The cell of a column that has no such question.
pub(super) fn absent(reader: Reader) -> Cell {
    Cell {
        state: "absent",
        value: None,
        between: None,
        words: reader.say("compare-no-such-question"),
        finding: None,
        asked: false,
        not_applicable: None,
        may_change: false,
        hangs_on: Vec::new(),
        strictest: false,
        unranked: None,
        texts: Vec::new(),
        instead: None,
        advised: false,
    }
}

/// The cell of an answer; `banned` where what it is about is prohibited there.
pub(super) fn cell(
    reader: Reader,
    answer: &Answered<'_>,
    verdict: &Verdict<'_>,
    matter: &Matter<'_>,
    banned: bool,
) -> Cell {
    let found = &answer.found;
    let hangs_on = answers::asks(answer, matter);
    let mut words = in_words(reader, answer, verdict, matter);
    if banned {
        words = reader.say_with("compare-banned", &[("answer", &words)]);
    }
    let texts = governing(answer, verdict, reader);
    let instead = (texts.is_empty() && found.state == State::Settled)
        .then(|| answers::passed_over(answer, matter, &verdict.codes, reader));
    Cell {
        state: json::state(found.state),
        value: answer.value.as_ref().map(json::value),
        between: answer.between.as_ref().map(|(low, high)| [json::value(low), json::value(high)]),
        words,
        finding: found.finding.map(json::finding),
        asked: found.asked,
        not_applicable: banned.then_some("prohibited"),
        may_change: found.state == State::Open || found.finding == Some(Finding::Open) || !hangs_on.is_empty(),
        hangs_on,
        strictest: false,
        unranked: None,
        texts,
        instead,
        advised: !answer.advice.is_empty(),
    }
}

/// How an answer stands among those of the other columns.
pub(super) fn stand(answer: &Answered<'_>, law: &QuestionLaw, banned: bool) -> Stand {
    let found = &answer.found;
    if banned {
        return Stand::Above;
    }
    let why = match found.state {
        State::Settled => {
            let Some(parts) = &found.value else { return Stand::Unranked { why: Unranked::Open, floor: None } };
            return Stand::Ranked { parts: measured(&answer.question.order, law, parts), named: found.named };
        }
        State::Open => Unranked::Open,
        State::Referred => Unranked::Referred,
        State::Conflict => Unranked::Conflict,
        State::Silent => Unranked::Silent,
    };
    // Where the authority may have to say, nothing is asked for sure.
    let sure = found.state == State::Open && !found.may_refer && !found.may_conflict;
    let floor = found.between.as_ref().filter(|_| sure).map(|(low, _)| measured(&answer.question.order, law, low));
    Stand::Unranked { why, floor }
}

/// What is not asked of the job in one place is not held against what is asked in another.
pub(super) fn set_idle_apart(cells: &[Cell], stands: &mut [Stand]) {
    if !cells.iter().any(|cell| cell.asked) {
        return;
    }
    for (cell, stand) in cells.iter().zip(stands) {
        if !cell.asked && matches!(stand, Stand::Ranked { .. }) {
            *stand = Stand::Unranked { why: Unranked::Idle, floor: None };
        }
    }
}

/// The answer itself, with what is advised where nothing binds.
fn in_words(reader: Reader, answer: &Answered<'_>, verdict: &Verdict<'_>, matter: &Matter<'_>) -> String {
    let words = answers::state(answer, matter, reader);
    if answer.found.state != State::Silent || answer.advice.is_empty() {
        return words;
    }
    format!("{words}; {}", answers::advised(answer, matter, &verdict.codes, reader))
}

/// The texts on which the answer stands, each once.
fn governing(answer: &Answered<'_>, verdict: &Verdict<'_>, reader: Reader) -> Vec<String> {
    let mut cited: Vec<String> = Vec::new();
    for reason in answer.because.iter().filter(|reason| reason.role == Role::Governs) {
        let text = reader.cite_short(reason.source, &verdict.codes);
        if !cited.contains(&text) {
            cited.push(text);
        }
    }
    cited
}
