//! Answers in the words of the glossary.

use super::answer::{Form, Parts, Way};
use super::lexicon::Lexicon;
use super::plan::Ask;
use crate::glossary::model::{ChoiceId, Order, Question};
use crate::law::model::QuestionLaw;
use crate::values::Terms;
use std::sync::Arc;

/// One part of an answer.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Item<'a> {
    Rung(&'a str),
    /// A figure, or no limit.
    Limit(Option<Arc<str>>),
    /// Anything is permitted.
    Any,
    /// What is permitted, by the broadest terms, and what these do not stand for.
    Only {
        names: Vec<&'a str>,
        but: Vec<&'a str>,
    },
    /// What is taken out of what is permitted.
    NoneOf(Vec<&'a str>),
    AllOf(Vec<&'a str>),
}

/// An answer's value.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Value<'a> {
    pub(crate) way: Way,
    pub(crate) items: Items<'a>,
}

/// One part, or one for each term of a `per` question in the order declared.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Items<'a> {
    One(Item<'a>),
    PerTerm(Vec<(&'a str, Item<'a>)>),
}

/// What decides how an answer reads.
#[derive(Clone, Copy)]
pub(crate) struct Saying<'a, 'f> {
    pub(crate) lexicon: &'f Lexicon<'a>,
    pub(crate) question: &'a Question,
    pub(crate) law: &'a QuestionLaw,
    pub(crate) ask: &'f Ask,
    /// The terms that some demand names.
    pub(crate) named: Terms,
    /// Whether some demand said `only`.
    pub(crate) only: bool,
    /// The governing text's own figure for a part and a rank.
    pub(crate) figure: &'f dyn Fn(usize, u128) -> Option<Arc<str>>,
}

impl<'a> Saying<'a, '_> {
    /// The value of these parts.
    pub(crate) fn value(&self, parts: &Parts) -> Value<'a> {
        let Form { way, per, .. } = self.ask.form;
        let choice = self.question.per.map(|(_, choice)| choice);
        let items = match (per, choice) {
            (Some(terms), Some(choice)) if !self.named.common(terms).is_empty() => Items::PerTerm(
                terms
                    .common(self.named)
                    .iter()
                    .filter_map(|term| {
                        let part = parts.part(usize::from(term))?;
                        Some((name(self.lexicon, choice, term), self.item(usize::from(term), part)))
                    })
                    .collect(),
            ),
            _ => Items::One(self.item(0, parts.part(0).unwrap_or(self.ask.form.loosest))),
        };
        Value { way, items }
    }

    fn item(&self, number: usize, part: u128) -> Item<'a> {
        let form = &self.ask.form;
        match &self.question.order {
            Order::Ladder(rungs) => {
                Item::Rung(usize::try_from(part).ok().and_then(|rung| rungs.get(rung)).map_or("", |rung| rung))
            }
            Order::AtLeast(_) | Order::AtMost(_) => Item::Limit(if part == 0 {
                None
            } else {
                (self.figure)(number, part).or_else(|| {
                    let rank = usize::try_from(part - 1).ok()?;
                    self.law.scale.get(rank).map(|limit| Arc::clone(&limit.shown))
                })
            }),
            Order::Only(choice) => self.permitted(*choice, Terms(part), form.terms),
            Order::AllOf(choice) => {
                Item::AllOf(sorted(self.lexicon, *choice, broadest(self.lexicon, *choice, Terms(part), form.terms)))
            }
        }
    }

    fn permitted(&self, choice: ChoiceId, permitted: Terms, known: Terms) -> Item<'a> {
        let permitted = permitted.common(known);
        if permitted == known {
            return Item::Any;
        }
        if !self.only {
            let taken = known.without(permitted);
            return Item::NoneOf(sorted(self.lexicon, choice, broadest(self.lexicon, choice, taken, known)));
        }
        let (mut names, mut but) = (Terms::NONE, Terms::NONE);
        let (mut left, mut out) = (permitted, Terms::NONE);
        // The broadest permitted terms stand for all under them but what is
        // taken out; what is permitted again under that is named beside.
        while let Some(term) = widest(self.lexicon, choice, left, known) {
            let covers = covers(self.lexicon, choice, term, known);
            names = names.union(Terms::one(term));
            let taken = covers.without(permitted);
            let stands = Terms(covers.0 & !spread(self.lexicon, choice, taken, known).0).union(Terms::one(term));
            out = out.union(taken);
            left = left.without(stands);
        }
        for term in broadest_taken(self.lexicon, choice, out, known).iter() {
            but = but.union(Terms::one(term));
        }
        Item::Only { names: sorted(self.lexicon, choice, names), but: sorted(self.lexicon, choice, but) }
    }
}

fn name<'a>(lexicon: &Lexicon<'a>, choice: ChoiceId, term: u16) -> &'a str {
    lexicon.choice(choice).and_then(|choice| choice.terms.get(usize::from(term))).map_or("", |term| &term.name)
}

/// The known terms that a term covers, itself among them.
fn covers(lexicon: &Lexicon<'_>, choice: ChoiceId, term: u16, known: Terms) -> Terms {
    lexicon
        .choice(choice)
        .and_then(|choice| choice.terms.get(usize::from(term)))
        .map_or(Terms::NONE, |term| term.covers)
        .union(Terms::one(term))
        .common(known)
}

/// All terms that any of these covers.
fn spread(lexicon: &Lexicon<'_>, choice: ChoiceId, terms: Terms, known: Terms) -> Terms {
    terms.iter().fold(Terms::NONE, |all, term| all.union(covers(lexicon, choice, term, known)))
}

/// The term of the set that no other term of the set covers.
fn widest(lexicon: &Lexicon<'_>, choice: ChoiceId, set: Terms, known: Terms) -> Option<u16> {
    set.iter().find(|term| !set.iter().any(|other| other != *term && covers(lexicon, choice, other, known).has(*term)))
}

/// The set by its broadest terms: a term stands for those under it only where
/// all of them belong to the set.
pub(crate) fn broadest(lexicon: &Lexicon<'_>, choice: ChoiceId, set: Terms, known: Terms) -> Terms {
    let set = set.common(known);
    let mut told = Terms::NONE;
    for term in set.iter() {
        let stood_for = set.iter().any(|other| {
            let wide = covers(lexicon, choice, other, known);
            other != term && wide.has(term) && wide.within(set)
        });
        if !stood_for {
            told = told.union(Terms::one(term));
        }
    }
    told
}

/// What is taken out, by its uppermost terms.
fn broadest_taken(lexicon: &Lexicon<'_>, choice: ChoiceId, taken: Terms, known: Terms) -> Terms {
    let mut told = Terms::NONE;
    for term in taken.iter() {
        if !taken.iter().any(|other| other != term && covers(lexicon, choice, other, known).has(term)) {
            told = told.union(Terms::one(term));
        }
    }
    told
}

/// The names of terms, sorted.
pub(crate) fn sorted<'a>(lexicon: &Lexicon<'a>, choice: ChoiceId, terms: Terms) -> Vec<&'a str> {
    let mut names: Vec<&'a str> = terms.iter().map(|term| name(lexicon, choice, term)).collect();
    names.sort_unstable();
    names
}
