//! What is told of a jumper whose questions are not asked of the job: by which words they
//! are led, and what rests on the jumper all the same.
//!
//! Facts and questions are known by the names that the shipped glossary gives them; a set
//! of rules without them is told of a jumper that may be put in.

use crate::glossary::model::{FieldId, GroupId};
use crate::job::model::Given;
use crate::report::speech::Reader;
use crate::verdict::Matter;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Verdict};
use crate::verdict::value::{Item, Items};
use serde::Serialize;

/// How a job stands with a jumper of whose making it is not asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Jumper {
    /// A direct bond is required, and the jumper for it is not there yet.
    ToCome,
    /// Whether a direct bond is required is not settled, and there is no jumper.
    Perhaps,
    /// No direct bond is required, and the path for fault current rests on the jumper that
    /// is there.
    ReliedOn,
    /// No rule requires the jumper that is there.
    Unasked,
    /// None is there or none is known of, or it is asked of the job itself.
    Otherwise,
}

impl Jumper {
    /// How the job of a verdict stands.
    pub(crate) fn of(verdict: &Verdict<'_>, matter: &Matter<'_>) -> Jumper {
        let present = yes(matter, "jumper.present");
        let bond = verdict.answers.iter().find(|answer| &*answer.question.name == "direct-bond");
        let Some(bond) = bond.map(|answer| (answer.found.state, rung(answer))) else { return Jumper::Otherwise };
        match (bond, present) {
            ((_, Some("required")), Some(false)) => Jumper::ToCome,
            ((State::Silent, _) | (_, Some("not-required")), Some(true)) if rests(verdict, matter) => Jumper::ReliedOn,
            ((State::Silent, _) | (_, Some("not-required")), Some(true)) => Jumper::Unasked,
            ((State::Open | State::Referred | State::Conflict, _), Some(false)) => Jumper::Perhaps,
            _ => Jumper::Otherwise,
        }
    }

    /// Whether a jumper is still to be put in, or may be.
    pub(crate) fn to_come(self) -> bool {
        matches!(self, Jumper::ToCome | Jumper::Perhaps)
    }

    /// Whether there is a jumper that no direct bond requires.
    pub(crate) fn is_there(self) -> bool {
        matches!(self, Jumper::ReliedOn | Jumper::Unasked)
    }

    /// What leads the answers that are not asked of the job.
    pub(crate) fn lead(self, reader: Reader) -> String {
        match self {
            Jumper::ToCome => reader.say("sheet-idle-to-come"),
            Jumper::Perhaps => reader.say("sheet-idle-perhaps"),
            Jumper::ReliedOn => reader.say("sheet-idle-relied-on"),
            Jumper::Unasked => reader.say("sheet-idle-unasked"),
            Jumper::Otherwise => reader.say("sheet-idle"),
        }
    }

    /// What leads the facts that bear on these answers alone.
    pub(crate) fn lead_of_facts(self, reader: Reader) -> String {
        match self {
            Jumper::ToCome => reader.say("sheet-idle-facts-to-come"),
            Jumper::Perhaps => reader.say("sheet-idle-facts-perhaps"),
            Jumper::ReliedOn | Jumper::Unasked => reader.say("sheet-idle-facts-there"),
            Jumper::Otherwise => reader.say("sheet-idle-facts"),
        }
    }
}

/// What rests on the jumper that is there, for the line on the path for fault current.
pub(super) fn carries(jumper: Jumper, question: &str, matter: &Matter<'_>, reader: Reader) -> Vec<String> {
    if jumper != Jumper::ReliedOn || question != "equipment-bond" {
        return Vec::new();
    }
    let mut words = vec![reader.say("sheet-rests-on-jumper")];
    if term(matter, "jumper.landed-on") == Some("added-electrode-alone") {
        words.push(reader.say("sheet-rests-on-earth"));
    }
    words
}

/// Whether a path for fault current is required, and no appliance is known to give one.
fn rests(verdict: &Verdict<'_>, matter: &Matter<'_>) -> bool {
    let path = verdict.answers.iter().find(|answer| &*answer.question.name == "equipment-bond");
    path.is_some_and(|answer| answer.found.finding == Some(Finding::Met)) && !powered(matter)
}

/// The rung on which an answer is settled.
fn rung<'a>(answer: &Answered<'a>) -> Option<&'a str> {
    match answer.value.as_ref().filter(|_| answer.found.state == State::Settled)?.items {
        Items::One(Item::Rung(rung)) => Some(rung),
        _ => None,
    }
}

fn given<'a>(matter: &Matter<'a>, path: &str) -> Option<(FieldId, &'a Given)> {
    let (number, _) = (0u16..).zip(matter.lexicon.fields).find(|(_, field)| *field.path == *path)?;
    Some((FieldId(number), matter.fact(FieldId(number))))
}

fn yes(matter: &Matter<'_>, path: &str) -> Option<bool> {
    match given(matter, path)?.1 {
        Given::Term(number) => Some(*number == 1),
        _ => None,
    }
}

fn term<'a>(matter: &Matter<'a>, path: &str) -> Option<&'a str> {
    let (field, Given::Term(number)) = given(matter, path)? else { return None };
    let choice = matter.lexicon.choice(matter.lexicon.choice_of(field)?)?;
    Some(&choice.terms.get(usize::from(*number))?.name)
}

/// Whether some appliance is known to have a circuit or a cord.
fn powered(matter: &Matter<'_>) -> bool {
    let lists = (0u16..).zip(matter.lexicon.groups).find(|(_, group)| &*group.name == "appliance" && group.list);
    let list = lists.and_then(|(number, _)| matter.list(GroupId(number)));
    let field = matter.lexicon.fields.iter().find(|field| &*field.path == "appliance.powered");
    let (Some(list), Some(field)) = (list, field) else { return false };
    list.entries.iter().any(|entry| entry.get(usize::from(field.column)) == Some(&Given::Term(1)))
}
