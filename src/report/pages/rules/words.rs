//! The words of the glossary on one page: what is asked of the law, the facts of a job,
//! the values that they may have, and the conditions with a name.

use super::Missing;
use super::conditions;
use super::desk::{Desk, Pointer};
use crate::glossary::model::{ChoiceId, Field, Order, Question, QuestionId, Scale, Shape};
use crate::law::library::Library;
use crate::report::pages::frame::Frame;
use crate::report::screen::words::{spoken, spoken_title};
use crate::report::speech::Reader;
use serde::Serialize;

/// What kind of word one is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Question,
    Fact,
    Group,
    Choice,
    Term,
    Definition,
    Subject,
}

/// One word with where it stands on the page.
#[derive(Debug)]
pub(super) struct Entry<'a> {
    pub(super) name: &'a str,
    pub(super) title: &'a str,
    pub(super) anchor: String,
    kind: Kind,
}

impl Entry<'_> {
    /// The kind in the reader's words.
    pub(super) fn kind(&self, reader: Reader) -> String {
        match self.kind {
            Kind::Question => reader.say("browse-word-question"),
            Kind::Fact => reader.say("browse-word-fact"),
            Kind::Group => reader.say("browse-word-group"),
            Kind::Choice => reader.say("browse-word-choice"),
            Kind::Term => reader.say("browse-word-term"),
            Kind::Definition => reader.say("browse-word-definition"),
            Kind::Subject => reader.say("browse-word-subject"),
        }
    }
}

/// Where a question stands on the page of words.
pub(super) fn question_anchor(library: &Library, id: QuestionId) -> String {
    let all = &library.glossary.questions;
    let name = &library.glossary[id].name;
    let before = all.iter().take(usize::from(id.0)).filter(|question| question.name == *name).count();
    anchor("question", name, before)
}

/// Names that places declare may be the same: the second stands behind the first.
fn anchor(kind: &str, name: &str, before: usize) -> String {
    if before == 0 { format!("{kind}-{name}") } else { format!("{kind}-{name}-{}", before + 1) }
}

/// Every word of the glossary, in the order of the page.
pub(super) fn entries(library: &Library) -> Vec<Entry<'_>> {
    let glossary = &library.glossary;
    let mut all: Vec<Entry<'_>> = Vec::new();
    let mut push = |kind: Kind, lead: &str, name, title| {
        let before = all.iter().filter(|entry: &&Entry<'_>| entry.kind == kind && entry.name == name).count();
        all.push(Entry { name, title, anchor: anchor(lead, name, before), kind });
    };
    for question in &glossary.questions {
        push(Kind::Question, "question", &*question.name, &*question.title);
    }
    for group in &glossary.groups {
        push(Kind::Group, "group", &group.name, &group.title);
    }
    for field in &glossary.fields {
        push(Kind::Fact, "fact", &field.path, &field.title);
    }
    for choice in &glossary.choices {
        push(Kind::Choice, "choice", &choice.name, &choice.title);
        for term in &choice.terms {
            push(Kind::Term, "term", &term.name, &term.title);
        }
    }
    for name in glossary.definitions() {
        let title = glossary.definition(name).map_or("", |(title, _)| title);
        push(Kind::Definition, "definition", name, title);
    }
    for subject in &glossary.subjects {
        push(Kind::Subject, "subject", &subject.name, &subject.title);
    }
    all
}

#[derive(Debug, Serialize)]
struct View {
    frame: Frame,
    trail: Vec<Pointer>,
    questions: Vec<Told>,
    facts: Vec<Told>,
    choices: Vec<Choice>,
    definitions: Vec<Told>,
    subjects: Vec<Told>,
}

/// One word with what there is to say of it.
#[derive(Debug, Serialize)]
struct Told {
    anchor: String,
    name: String,
    title: String,
    lines: Vec<String>,
}

/// A choice with its terms.
#[derive(Debug, Serialize)]
struct Choice {
    own: Told,
    terms: Vec<Told>,
}

/// The page.
pub(super) fn page(desk: &Desk<'_>) -> Result<String, Missing> {
    let library = desk.library();
    let glossary = &library.glossary;
    let all = entries(library);
    let of = |kind: Kind| all.iter().filter(move |entry| entry.kind == kind);
    let told = |entry: &Entry<'_>, lines: Vec<String>| Told {
        anchor: entry.anchor.clone(),
        name: entry.name.to_owned(),
        title: spoken_title(entry.title, entry.name),
        lines,
    };
    let mut terms = of(Kind::Term);
    let choices = of(Kind::Choice).zip(&glossary.choices).map(|(entry, choice)| Choice {
        own: told(entry, Vec::new()),
        terms: choice
            .terms
            .iter()
            .zip(terms.by_ref())
            .map(|(term, entry)| {
                let under = term.under.and_then(|under| choice.terms.get(usize::from(under)));
                let under =
                    under.map(|under| desk.reader.say_with("browse-under-term", &[("name", &spoken(&under.name))]));
                told(entry, under.into_iter().chain(known_at(desk, term.scope)).collect())
            })
            .collect(),
    });
    let definitions = of(Kind::Definition).map(|entry| {
        let means = glossary.definition(entry.name).map(|(_, means)| conditions::opened(desk, means));
        told(entry, means.unwrap_or_default())
    });
    let facts = of(Kind::Fact).zip(&glossary.fields).map(|(entry, field)| told(entry, of_fact(desk, field)));
    let groups = of(Kind::Group).zip(&glossary.groups).map(|(entry, group)| {
        let line = if group.list { desk.reader.say("browse-list") } else { desk.reader.say("browse-record") };
        told(entry, std::iter::once(line).chain(known_at(desk, group.scope)).collect())
    });
    let view = View {
        frame: desk.frame(None),
        trail: vec![desk.start()],
        questions: of(Kind::Question)
            .zip(&glossary.questions)
            .map(|(entry, question)| told(entry, of_question(desk, question)))
            .collect(),
        facts: groups.chain(facts).collect(),
        choices: choices.collect(),
        definitions: definitions.collect(),
        subjects: of(Kind::Subject).map(|entry| told(entry, Vec::new())).collect(),
    };
    desk.lay("rules/words.html", view)
}

fn known_at(desk: &Desk<'_>, scope: Option<crate::glossary::model::PlaceId>) -> Option<String> {
    scope.map(|place| desk.reader.say_with("browse-known-in", &[("place", &desk.issuer(place).words)]))
}

fn of_question(desk: &Desk<'_>, question: &Question) -> Vec<String> {
    let (reader, glossary) = (desk.reader, &desk.library().glossary);
    let choice = |choice: ChoiceId| lower_title(desk, choice);
    let order = match &question.order {
        Order::Ladder(rungs) => {
            let rungs: Vec<String> = rungs.iter().map(|rung| spoken(rung)).collect();
            reader.say_with("browse-order-ladder", &[("rungs", &rungs.join(", "))])
        }
        Order::AtLeast(scale) => reader.say_with("browse-order-least", &[("unit", &unit(reader, *scale))]),
        Order::AtMost(scale) => reader.say_with("browse-order-most", &[("unit", &unit(reader, *scale))]),
        Order::Only(of) => reader.say_with("browse-order-only", &[("choice", &choice(*of))]),
        Order::AllOf(of) => reader.say_with("browse-order-all", &[("choice", &choice(*of))]),
    };
    let mut lines = vec![order];
    lines.push(reader.say_with("browse-on-subject", &[("subject", &glossary[question.subject].title)]));
    lines.extend(question.costs.as_ref().map(|costs| reader.say_with("browse-costs", &[("costs", costs)])));
    lines.extend(question.caution.as_ref().map(|caution| reader.say_with("browse-caution", &[("caution", caution)])));
    lines.extend(known_at(desk, question.scope));
    lines
}

fn of_fact(desk: &Desk<'_>, field: &Field) -> Vec<String> {
    let reader = desk.reader;
    let shape = match field.shape {
        Shape::YesNo => reader.say("browse-shape-yes-no"),
        Shape::Date => reader.say("browse-shape-date"),
        Shape::Count => reader.say("browse-shape-count"),
        Shape::Gauge => reader.say("browse-shape-gauge"),
        Shape::Quantity(unit) => reader.say_with("browse-shape-quantity", &[("unit", unit.name)]),
        Shape::Name => reader.say("browse-shape-name"),
        Shape::Code => reader.say("browse-shape-code"),
        Shape::Choice(of) => reader.say_with("browse-shape-choice", &[("choice", &lower_title(desk, of))]),
        Shape::Several(of) => reader.say_with("browse-shape-several", &[("choice", &lower_title(desk, of))]),
    };
    let mut lines = vec![shape];
    lines.extend(field.ask.as_ref().map(|ask| ask.to_string()));
    for (who, when) in &field.known {
        let who: Vec<String> = who.iter().map(|who| spoken(who)).collect();
        let who = who.join(", ");
        lines.push(match when {
            Some(when) => reader.say_with("browse-known-to-at", &[("who", &who), ("when", &spoken(when))]),
            None => reader.say_with("browse-known-to", &[("who", &who)]),
        });
    }
    lines.extend(known_at(desk, field.scope));
    lines
}

fn lower_title(desk: &Desk<'_>, choice: ChoiceId) -> String {
    let choice = &desk.library().glossary[choice];
    spoken_title(&choice.title, &choice.name)
}

fn unit(reader: Reader, scale: Scale) -> String {
    match scale {
        Scale::Gauge => reader.say("browse-unit-gauge"),
        Scale::Count => reader.say("browse-unit-count"),
        Scale::Quantity(unit) => unit.name.to_owned(),
    }
}
