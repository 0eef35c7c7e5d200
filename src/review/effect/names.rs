//! The definitions of the glossaries: what a test is called in print where a
//! definition says the same.

use super::{Joint, Side};
use crate::glossary::expr::{Check, Expr};
use crate::glossary::model::{Field, FieldId, Shape};
use crate::law::model::{CondId, Law, Node};
use crate::verdict::Look;
use std::collections::BTreeMap;

/// The printed names of conditions.
#[derive(Debug, Default)]
pub(crate) struct Names {
    /// By the condition, written so that the order of its parts does not matter.
    titles: BTreeMap<String, String>,
}

impl Names {
    /// Collects the definitions of both sides; where both name a condition, the
    /// name after stands.
    pub(crate) fn new(joint: &Joint, sides: [Side<'_>; 2]) -> Names {
        let mut names = Names::default();
        for (side, numbers) in sides.into_iter().zip(&joint.numbers) {
            let glossary = &side.rules.library().glossary;
            let own = Own { glossary, numbers };
            for (title, expr) in glossary.defined() {
                if let Some(form) = own.form(expr) {
                    names.titles.insert(form, title.to_owned());
                }
            }
        }
        names
    }

    /// What a condition of the joint law is called in print.
    pub(crate) fn title(&self, law: &Law, cond: CondId) -> Option<&str> {
        self.titles.get(&form(law, cond)).map(String::as_str)
    }
}

/// A glossary with its numbers in the common one.
struct Own<'o> {
    glossary: &'o crate::glossary::Glossary,
    numbers: &'o super::common::Numbers,
}

impl Own<'_> {
    /// A condition of the glossary in the form of the joint law's; nothing where it
    /// asks for more than facts.
    fn form(&self, expr: &Expr) -> Option<String> {
        Some(match expr {
            Expr::Constant(held) => held.to_string(),
            Expr::And(_) => joined("and", self.parts(expr, true)?),
            Expr::Or(_) => joined("or", self.parts(expr, false)?),
            Expr::Not(part) => contrary(self.form(part)?),
            Expr::Field(field, check) => {
                let common = self.numbers.field(*field);
                let Field { shape, .. } = &self.glossary[*field];
                let check = match (check, shape) {
                    (Check::Among(terms), Shape::Choice(choice)) => Check::Among(self.numbers.terms(*choice, *terms)),
                    (Check::Includes(terms), Shape::Several(choice) | Shape::Choice(choice)) => {
                        Check::Includes(self.numbers.terms(*choice, *terms))
                    }
                    (Check::Within(period, other), _) => Check::Within(*period, self.numbers.field(*other)),
                    (other, _) => other.clone(),
                };
                test(common, &check)
            }
            Expr::Entries { any, group, with } => {
                format!("{any} entry of {} where {}", self.numbers.group(*group).0, self.form(with)?)
            }
            Expr::Answer { .. } | Expr::Say(_) | Expr::Defined(..) => return None,
        })
    }

    /// The parts of a condition, and those of the same kind inside them.
    fn parts(&self, expr: &Expr, all: bool) -> Option<Vec<String>> {
        match (expr, all) {
            (Expr::And(parts), true) | (Expr::Or(parts), false) => {
                let forms: Option<Vec<Vec<String>>> = parts.iter().map(|part| self.parts(part, all)).collect();
                Some(forms?.concat())
            }
            _ => Some(vec![self.form(expr)?]),
        }
    }
}

/// A condition of a law, written so that the order of its parts does not matter.
fn form(law: &Law, cond: CondId) -> String {
    let parts = |parts: &[CondId]| parts.iter().map(|part| form(law, *part)).collect();
    match law.node(cond) {
        Node::False => "false".to_owned(),
        Node::True => "true".to_owned(),
        Node::Not(part) => contrary(form(law, *part)),
        Node::And(all) => joined("and", parts(all)),
        Node::Or(any) => joined("or", parts(any)),
        Node::Field(field, check) => test(*field, check),
        Node::Entries { any, group, with } => format!("{any} entry of {} where {}", group.0, form(law, *with)),
        Node::Answer { question, rungs } => format!("answer {question} {}", rungs.0),
        Node::Span(span) => format!("span {span}"),
    }
}

fn test(field: FieldId, check: &Check) -> String {
    format!("[{} {check:?}]", field.0)
}

fn contrary(form: String) -> String {
    match form.strip_prefix("not ") {
        Some(part) => part.to_owned(),
        None => format!("not {form}"),
    }
}

fn joined(word: &str, mut parts: Vec<String>) -> String {
    parts.sort();
    parts.dedup();
    if let [only] = parts.as_slice() {
        return only.clone();
    }
    format!("({word} {})", parts.join(", "))
}
