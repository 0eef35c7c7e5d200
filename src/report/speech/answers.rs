//! Answers and facts in words.

use super::Reader;
use crate::glossary::model::{FieldId, Shape};
use crate::job::NO_NAME;
use crate::job::model::Given;
use crate::report::screen::words::spoken;
use crate::verdict::value::{Item, Items, Value};
use crate::verdict::{Lexicon, Way};

impl Reader {
    /// An answer's value.
    pub(crate) fn value(self, value: &Value<'_>) -> String {
        let limit = |figure: &str| match value.way {
            Way::AtMost => self.say_with("value-at-most", &[("figure", figure)]),
            _ => self.say_with("value-at-least", &[("figure", figure)]),
        };
        match &value.items {
            Items::One(Item::Limit(Some(figure))) => limit(&self.amount(figure)),
            Items::One(item) => self.item(item),
            Items::PerTerm(terms) => {
                let parts: Vec<String> =
                    terms.iter().map(|(term, item)| format!("{} {}", self.item(item), spoken(term))).collect();
                let all = parts.join(", ");
                if terms.iter().any(|(_, item)| matches!(item, Item::Limit(Some(_)))) { limit(&all) } else { all }
            }
        }
    }

    fn item(self, item: &Item<'_>) -> String {
        let list = |names: &[&str]| names.iter().map(|name| spoken(name)).collect::<Vec<_>>().join(", ");
        match item {
            Item::Rung(rung) => spoken(rung),
            Item::Limit(Some(figure)) => self.amount(figure),
            Item::Limit(None) => self.say("value-no-limit"),
            Item::Any => self.say("value-any"),
            Item::Only { names, but } if names.is_empty() && but.is_empty() => self.say("value-nothing-permitted"),
            Item::Only { names, but } if but.is_empty() => self.say_with("value-only", &[("names", &list(names))]),
            Item::Only { names, but } => {
                self.say_with("value-only-but", &[("names", &list(names)), ("but", &list(but))])
            }
            Item::NoneOf(names) => self.say_with("value-none-of", &[("names", &list(names))]),
            Item::AllOf(names) if names.is_empty() => self.say("value-none-asked"),
            Item::AllOf(names) => list(names),
        }
    }

    /// What a job says of a fact; nothing where it says nothing.
    pub(crate) fn given(self, given: &Given, field: FieldId, lexicon: &Lexicon<'_>) -> Option<String> {
        let shape = lexicon.field(field)?.shape;
        let term = |number: u16| {
            let choice = lexicon.choice(lexicon.choice_of(field)?)?;
            choice.terms.get(usize::from(number)).map(|term| spoken(&term.name))
        };
        Some(match given {
            Given::Unknown => return None,
            Given::NoDate => self.say("value-none"),
            Given::Date(date) => date.to_string(),
            Given::Term(number) if shape == Shape::YesNo => {
                if *number == 1 {
                    self.say("value-yes")
                } else {
                    self.say("value-no")
                }
            }
            Given::Term(number) => term(*number)?,
            Given::Set(terms) if terms.is_empty() => self.say("value-none"),
            Given::Set(terms) => terms.iter().filter_map(term).collect::<Vec<_>>().join(", "),
            Given::Measure(measure) => self.amount(&measure.shown),
            Given::Name(name) if **name == *NO_NAME => self.say("value-none"),
            Given::Name(name) => name.to_string(),
        })
    }
}
