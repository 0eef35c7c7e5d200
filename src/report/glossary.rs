//! The glossary for programs: what a job may say, what is answered, and the words for
//! both, schema `groundrule/glossary/1`.
//!
//! This file refuses to know what any word means.

use crate::glossary::Glossary as Words;
use crate::glossary::model::{Field, Known, Order, Scale, Scope, Shape};
use crate::rules::Rules;
use serde::Serialize;
use utoipa::ToSchema;

/// The name of the form.
pub(crate) const SCHEMA: &str = "groundrule/glossary/1";

/// Everything that jobs and answers are told in.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Glossary {
    schema: &'static str,
    /// The hash of the rules.
    library: String,
    /// Facts that are said once.
    facts: Vec<FactLine>,
    /// Records, said once, and lists, of which each entry says its own.
    groups: Vec<GroupLine>,
    /// What is answered.
    questions: Vec<QuestionLine>,
    /// The terms that facts and answers choose from.
    choices: Vec<ChoiceLine>,
    /// What questions belong to.
    subjects: Vec<SubjectLine>,
}

/// One fact, or one attribute of a record or list.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct FactLine {
    /// As a job writes it: `concealed`, `jumper.length`; of a list `run.length`.
    fact: String,
    title: String,
    /// What is said of it: `yes-no`, `date`, `count`, `gauge`, `quantity`, `name`, `code`, `choice`, `several`.
    shape: &'static str,
    /// Of a quantity: the unit in which it is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    unit: Option<&'static str>,
    /// The choice that its terms are of.
    #[serde(skip_serializing_if = "Option::is_none")]
    choice: Option<String>,
    /// The question by which it is asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    ask: Option<String>,
    /// Who knows it, and when first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    known: Vec<KnownLine>,
    /// The place in which alone it is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    only_in: Option<String>,
}

/// Who knows a fact, and when first.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct KnownLine {
    to: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<String>,
}

/// A record or a list.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct GroupLine {
    group: String,
    title: String,
    /// Whether it has entries.
    list: bool,
    attributes: Vec<FactLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    only_in: Option<String>,
}

/// One question.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct QuestionLine {
    question: String,
    title: String,
    subject: String,
    /// How one answer is stricter than another: `ladder`, `at-least`, `at-most`, `only`, `all-of`.
    order: &'static str,
    /// Of a ladder: its rungs, the loosest first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    rungs: Vec<String>,
    /// Of a set: the choice that its terms are of.
    #[serde(skip_serializing_if = "Option::is_none")]
    choice: Option<String>,
    /// Of a limit: what it is measured in, `gauge`, `count` or a unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    scale: Option<&'static str>,
    /// The fact for each term of which it is answered.
    #[serde(skip_serializing_if = "Option::is_none")]
    per: Option<String>,
    /// The fact that it measures.
    #[serde(skip_serializing_if = "Option::is_none")]
    measures: Option<String>,
    /// What a stricter answer costs.
    #[serde(skip_serializing_if = "Option::is_none")]
    costs: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    only_in: Option<String>,
}

/// A choice and its terms, in the order declared.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct ChoiceLine {
    choice: String,
    title: String,
    terms: Vec<TermLine>,
}

/// One term.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct TermLine {
    term: String,
    title: String,
    /// The term that it is a kind of.
    #[serde(skip_serializing_if = "Option::is_none")]
    under: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    only_in: Option<String>,
}

/// A subject of law.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct SubjectLine {
    subject: String,
    title: String,
    /// Whether a job that no code governs on this subject is told.
    must_be_governed: bool,
}

/// The glossary of a set of rules.
pub(crate) fn glossary(rules: &Rules) -> Glossary {
    let words = &*rules.library().glossary;
    let lines = Lines { rules, words };
    Glossary {
        schema: SCHEMA,
        library: rules.hash().to_owned(),
        facts: words.fields.iter().filter(|field| field.group.is_none()).map(|field| lines.fact(field)).collect(),
        groups: words
            .groups
            .iter()
            .map(|group| GroupLine {
                group: group.name.to_string(),
                title: group.title.to_string(),
                list: group.list,
                attributes: group.fields.iter().map(|field| lines.fact(&words[*field])).collect(),
                only_in: lines.scope(group.scope),
            })
            .collect(),
        questions: lines.questions(),
        choices: lines.choices(),
        subjects: words
            .subjects
            .iter()
            .map(|subject| SubjectLine {
                subject: subject.name.to_string(),
                title: subject.title.to_string(),
                must_be_governed: subject.governed,
            })
            .collect(),
    }
}

struct Lines<'r> {
    rules: &'r Rules,
    words: &'r Words,
}

impl Lines<'_> {
    fn scope(&self, scope: Scope) -> Option<String> {
        scope.map(|place| self.rules.library().places.path_text(place))
    }

    fn fact(&self, field: &Field) -> FactLine {
        let (shape, unit, choice) = match field.shape {
            Shape::YesNo => ("yes-no", None, None),
            Shape::Date => ("date", None, None),
            Shape::Count => ("count", None, None),
            Shape::Gauge => ("gauge", None, None),
            Shape::Quantity(unit) => ("quantity", Some(unit.name), None),
            Shape::Name => ("name", None, None),
            Shape::Code => ("code", None, None),
            Shape::Choice(choice) => ("choice", None, Some(choice)),
            Shape::Several(choice) => ("several", None, Some(choice)),
        };
        FactLine {
            fact: field.path.to_string(),
            title: field.title.to_string(),
            shape,
            unit,
            choice: choice.map(|choice| self.words[choice].name.to_string()),
            ask: field.ask.as_ref().map(ToString::to_string),
            known: field.known.iter().map(known).collect(),
            only_in: self.scope(field.scope),
        }
    }

    fn questions(&self) -> Vec<QuestionLine> {
        let words = self.words;
        let lines = words.questions.iter().map(|question| {
            let (order, choice, scale) = match &question.order {
                Order::Ladder(_) => ("ladder", None, None),
                Order::AtLeast(scale) => ("at-least", None, Some(*scale)),
                Order::AtMost(scale) => ("at-most", None, Some(*scale)),
                Order::Only(choice) => ("only", Some(*choice), None),
                Order::AllOf(choice) => ("all-of", Some(*choice), None),
            };
            let rungs = if let Order::Ladder(rungs) = &question.order { rungs.as_slice() } else { &[] };
            QuestionLine {
                question: question.name.to_string(),
                title: question.title.to_string(),
                subject: words[question.subject].name.to_string(),
                order,
                rungs: rungs.iter().map(ToString::to_string).collect(),
                choice: choice.map(|choice| words[choice].name.to_string()),
                scale: scale.map(|scale| match scale {
                    Scale::Gauge => "gauge",
                    Scale::Count => "count",
                    Scale::Quantity(unit) => unit.name,
                }),
                per: question.per.map(|(fact, _)| words[fact].path.to_string()),
                measures: question.measures.map(|fact| words[fact].path.to_string()),
                costs: question.costs.as_ref().map(ToString::to_string),
                only_in: self.scope(question.scope),
            }
        });
        lines.collect()
    }

    fn choices(&self) -> Vec<ChoiceLine> {
        let lines = self.words.choices.iter().map(|choice| ChoiceLine {
            choice: choice.name.to_string(),
            title: choice.title.to_string(),
            terms: choice
                .terms
                .iter()
                .map(|term| TermLine {
                    term: term.name.to_string(),
                    title: term.title.to_string(),
                    under: term
                        .under
                        .and_then(|number| choice.terms.get(usize::from(number)))
                        .map(|outer| outer.name.to_string()),
                    only_in: self.scope(term.scope),
                })
                .collect(),
        });
        lines.collect()
    }
}

fn known((to, at): &Known) -> KnownLine {
    KnownLine { to: to.iter().map(ToString::to_string).collect(), at: at.as_ref().map(ToString::to_string) }
}
