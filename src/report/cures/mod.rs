//! Cures spelled out: what could be chosen otherwise so that a finding is met, in the
//! reader's language and units, and as JSON.

mod json;
mod ways;

pub(crate) use json::{Json, json};
pub(crate) use ways::{Required, SCHEMA, WayTold, WaysTold, page, ways};

use super::effect::words::{lower, without_article};
use super::screen::words::spoken;
use super::speech::Reader;
use super::speech::facts::field_title;
use crate::cure::{self, Change, Cure, Cures, End, To};
use crate::glossary::model::Question;
use crate::job::model::Given;
use crate::values::Terms;
use crate::verdict::Matter;
use crate::verdict::model::Verdict;
use serde::Serialize;
use std::collections::BTreeMap;

/// The cures of a job by the names of the questions that they mend. The search for them costs
/// more than the verdict itself, so that only a page that shows them asks for them.
#[derive(Clone, Debug, Default, Serialize)]
pub(crate) struct Mending(BTreeMap<String, CureTold>);

impl Mending {
    /// Looks for the cures of all that is not met.
    pub(crate) fn of(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> Mending {
        let cures = cure::of(verdict, matter);
        let told = cures.iter().filter_map(|(question, cures)| {
            let name = question_of(*question, matter)?.name.to_string();
            let list = cures.list().iter().map(|cure| mend(cure, matter, reader)).collect();
            Some((name, CureTold { cures: list, none: why_none(cures, reader) }))
        });
        Mending(told.collect())
    }

    /// What is told of the cures of a question; nothing where nothing is to be mended.
    pub(crate) fn of_question(&self, name: &str) -> Option<&CureTold> {
        self.0.get(name)
    }
}

/// The cures of one question.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct CureTold {
    /// The smallest cures, fewest changes first.
    pub(crate) cures: Vec<MendTold>,
    /// Why there is none: that no choice mends it, or that it is not decided.
    pub(crate) none: Option<String>,
}

/// One cure spelled out.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct MendTold {
    /// The whole in one line.
    pub(crate) text: String,
    pub(crate) changes: Vec<ChangeTold>,
    /// The titles of the questions that it mends beside.
    pub(crate) mends: Vec<String>,
    /// The titles of the questions that stay not met or referred as they were.
    pub(crate) leaves: Vec<String>,
    /// The facts that are then to be known.
    pub(crate) then_known: Vec<String>,
}

/// One change spelled out.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct ChangeTold {
    /// What is changed, by its title; entries of a list that are changed alike are
    /// named in one line.
    pub(crate) fact: String,
    /// The list whose entries are changed.
    pub(crate) list: Option<String>,
    /// What the job says.
    pub(crate) from: Option<String>,
    pub(crate) to: String,
}

impl ChangeTold {
    /// The change in one line.
    pub(crate) fn words(&self, reader: Reader) -> String {
        let parts = [("fact", &*self.fact), ("to", &*self.to)];
        match &self.from {
            Some(from) => reader.say_with("cures-change-from", &[parts[0], parts[1], ("from", from)]),
            None => reader.say_with("cures-change", &parts),
        }
    }
}

/// Why there is no cure.
pub(crate) fn why_none(cures: &Cures, reader: Reader) -> Option<String> {
    match cures {
        Cures::Found(_) => None,
        Cures::None => Some(reader.say("cures-none")),
        Cures::NotDecided => {
            let most = crate::cure::CHANGES.to_string();
            Some(reader.say_with("cures-not-decided", &[("count", &most)]))
        }
    }
}

/// One cure as it is shown.
pub(crate) fn mend(cure: &Cure, matter: &Matter<'_>, reader: Reader) -> MendTold {
    let changes: Vec<ChangeTold> = cure.changes.iter().map(|change| changed(change, matter, reader)).collect();
    let titles = |questions: &[usize]| -> Vec<String> {
        questions
            .iter()
            .filter_map(|question| question_of(*question, matter))
            .map(|known| known.printed().to_owned())
            .collect()
    };
    let then_known = reader.facts(&cure.opens, matter);
    let each: Vec<String> = changes.iter().map(|change| change.words(reader)).collect();
    let mut text = each.join(&format!("; {} ", reader.say("cures-and")));
    if !then_known.is_empty() {
        let facts = then_known.join(", ");
        text.push_str(&format!("; {}", reader.say_with("cures-then-known", &[("facts", &facts)])));
    }
    MendTold { text, changes, mends: titles(&cure.mends), leaves: titles(&cure.leaves), then_known }
}

fn changed(change: &Change, matter: &Matter<'_>, reader: Reader) -> ChangeTold {
    let lexicon = &matter.lexicon;
    let from = reader.given(&change.from, change.field, lexicon);
    let fact = match (&change.entries, &from) {
        (Some((group, _)), Some(from)) if change.every => {
            let list = lexicon.group(*group).map_or("", |group| &*group.title);
            let list = without_article(&lower(list));
            let fact = lexicon.field(change.field).map_or("", field_title);
            reader.say_with("cures-every", &[("list", &*list), ("from", &**from), ("fact", fact)])
        }
        (Some((group, entries)), _) => reader.attribute(*group, entries, change.field, matter),
        (None, _) => reader.field(change.field, lexicon),
    };
    let list = change.entries.as_ref().and_then(|(group, _)| lexicon.group(*group)).map(|group| group.name.to_string());
    let to = to(change, matter, reader);
    ChangeTold { fact, list, from: from.filter(|_| !change.every && !turns(change)), to }
}

/// Whether a change is told by what is put into a set and taken out of it: told whole, what
/// stays as it is would read as advice to keep it.
fn turns(change: &Change) -> bool {
    let some = |given: &Given| matches!(given, Given::Set(terms) if !terms.is_empty());
    some(&change.from) && change.to.iter().all(|to| matches!(to, To::Value(given) if some(given)))
}

/// The values that work, in words.
fn to(change: &Change, matter: &Matter<'_>, reader: Reader) -> String {
    let each: Vec<String> = change.to.iter().filter_map(|to| one(to, change, matter, reader)).collect();
    match each.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} {} {last}", rest.join(", "), reader.say("cures-or")),
        None => String::new(),
    }
}

fn one(to: &To, change: &Change, matter: &Matter<'_>, reader: Reader) -> Option<String> {
    let and = format!(" {} ", reader.say("cures-and"));
    let in_words = |given: &Given| {
        let said = reader.given(given, change.field, &matter.lexicon)?;
        // A set is chosen as a whole, and its terms are no alternatives.
        Some(if matches!(given, Given::Set(_)) { said.replace(", ", &and) } else { said })
    };
    match to {
        To::Value(Given::Set(held)) if turns(change) => {
            let Given::Set(base) = &change.from else { return None };
            let told = |terms: Terms| in_words(&Given::Set(terms)).filter(|_| !terms.is_empty());
            let put = told(held.without(*base)).map(|terms| reader.say_with("cures-also", &[("terms", &terms)]));
            let taken = told(base.without(*held)).map(|terms| reader.say_with("cures-without", &[("terms", &terms)]));
            Some(put.into_iter().chain(taken).collect::<Vec<_>>().join(&and))
        }
        To::Value(given) => in_words(given),
        To::Other(names) if names.is_empty() => Some(reader.say("cures-another")),
        To::Other(names) => {
            let names: Vec<String> = names.iter().map(|name| spoken(name)).collect();
            Some(reader.say_with("cures-other-than", &[("names", &names.join(", "))]))
        }
        To::Stretch { least, most } => {
            let figure = |end: &End| reader.amount(&end.figure.shown);
            let low = least.as_ref().map(|end| {
                let key = if end.itself { "value-at-least" } else { "cures-over" };
                reader.say_with(key, &[("figure", &figure(end))])
            });
            let high = most.as_ref().map(|end| {
                let key = if end.itself { "value-at-most" } else { "cures-under" };
                reader.say_with(key, &[("figure", &figure(end))])
            });
            match (least, most) {
                (Some(one), Some(other)) if one == other => Some(figure(one)),
                _ => {
                    let ends: Vec<String> = low.into_iter().chain(high).collect();
                    Some(if ends.is_empty() { reader.say("value-any") } else { ends.join(", ") })
                }
            }
        }
    }
}

/// A question by its place in the law.
fn question_of<'a>(question: usize, matter: &Matter<'a>) -> Option<&'a Question> {
    matter.lexicon.question(matter.law.questions.get(question)?.question)
}
