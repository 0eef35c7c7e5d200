//! Shapes and orders in words, for messages and helps.

use super::Glossary;
use super::Territory;
use super::model::{ChoiceId, FieldId, Order, Question, Scale, Scope, Shape};

impl Glossary {
    /// What a shape holds, in words: `a term of \`trade\``.
    pub(crate) fn shape_in_words(&self, shape: Shape) -> String {
        match shape {
            Shape::YesNo => "yes or no".into(),
            Shape::Date => "a date".into(),
            Shape::Count => "a count".into(),
            Shape::Gauge => "a wire gauge".into(),
            Shape::Quantity(unit) => format!("a quantity in {}", unit.name),
            Shape::Name => "a name".into(),
            Shape::Code => "the name of a code".into(),
            Shape::Choice(choice) => format!("a term of `{}`", self[choice].name),
            Shape::Several(choice) => format!("several terms of `{}`", self[choice].name),
        }
    }

    /// How a fact can be tested.
    pub(super) fn tests_in_words(&self, field: FieldId, shown: &str) -> String {
        let field = &self[field];
        match field.shape {
            Shape::YesNo => format!("write `{shown} is yes` or `{shown} is no`"),
            Shape::Date => {
                format!(
                    "write `{shown} before 2024-03-01`, `from 2024-03-01`, `is 2024-03-01` or `within 2 years after` another date"
                )
            }
            Shape::Choice(choice) => {
                let first = self.first_term(choice);
                format!("write `{shown} is {first}`, `is not` or `is any of`, with terms of `{}`", self[choice].name)
            }
            Shape::Several(choice) => {
                format!("write `{shown} includes {}`, with terms of `{}`", self.first_term(choice), self[choice].name)
            }
            Shape::Name => format!("write `{shown} is NAME`, `is not` or `is any of`"),
            Shape::Code => format!("write `{shown} is CODE`, `is not` or `is any of`"),
            Shape::Count | Shape::Gauge | Shape::Quantity(_) => {
                let example = field.shape.scale().map(Scale::example).unwrap_or_default();
                format!("write `{shown} at least`, `at most`, `over`, `under` or `is`, with {example}")
            }
        }
    }

    fn first_term(&self, choice: ChoiceId) -> &str {
        self[choice].terms.first().map_or("TERM", |term| &term.name)
    }

    /// The terms of a choice that are known at a place, the first ten of them.
    pub(crate) fn terms_in_words(&self, choice: ChoiceId, from: Scope, territory: &dyn Territory) -> String {
        let known = self.terms_at(choice, from, territory);
        let names: Vec<&str> =
            known.iter().filter_map(|at| self[choice].terms.get(usize::from(at))).map(|term| &*term.name).collect();
        let shown: Vec<&str> = names.iter().take(10).copied().collect();
        let more = if names.len() > shown.len() { ", …" } else { "" };
        format!("the terms of `{}` are {}{more}", self[choice].name, shown.join(", "))
    }

    /// How a demand on a question is written.
    pub(crate) fn demand_in_words(&self, question: &Question) -> String {
        let name = &question.name;
        let per = |form: String| match question.per {
            Some((_, choice)) => format!("{form} for {}", self.first_term(choice)),
            None => form,
        };
        match &question.order {
            Order::Ladder(rungs) => format!("write `{name} is` and one of {}", rungs.join(", ")),
            Order::AtLeast(scale) => format!("write `{}`, with {}", per(format!("{name} at least …")), scale.example()),
            Order::AtMost(scale) => format!("write `{}`, with {}", per(format!("{name} at most …")), scale.example()),
            Order::Only(choice) => {
                format!("write `{name} only …` or `{name} none of …`, with terms of `{}`", self[*choice].name)
            }
            Order::AllOf(choice) => format!("write `{name} all of …`, with terms of `{}`", self[*choice].name),
        }
    }
}
