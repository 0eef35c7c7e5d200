//! Demands on questions, each held against the question's order.

use super::condition::Context;
use super::demand::{Asked, AskedKind};
use super::model::{ChoiceId, Order, Question, QuestionId, Scale};
use super::read::Fault;
use super::tested::rung_named;
use super::{Glossary, cut};
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::{Demand, DemandKind, Limit, Span, Word};
use crate::values::{Measure, Terms};
use std::collections::BTreeSet;

type Limits = Vec<(Measure, Option<Terms>)>;

impl Glossary {
    /// The question that a demand names, as known where it stands.
    pub(crate) fn question_named(
        &self,
        word: &Word,
        context: &Context<'_>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Option<QuestionId> {
        let found = self.question(&word.text, context.from, context.territory);
        if found.is_some() || self.is_broken(&word.text) {
            return found;
        }
        let message = format!("no question has the name `{}`", cut(&word.text));
        let fault = Fault::new(codes::UNKNOWN_NAME, message);
        let fault = match self.names.questions.contains_key(&word.text) {
            true => fault.help(format!("`{}` is a question in another place only", word.text)),
            false => fault
                .help("name a question of the glossary")
                .near(&word.text, self.names.questions.keys().map(|name| &**name)),
        };
        diagnostics.push(fault.at(context.at(word.span)));
        None
    }

    /// Reads a demand that gives a value: `is`, `at least`, `at most`, `only`,
    /// `none of`, `all of`. The other forms are the law's own.
    pub(crate) fn demand(
        &self,
        demand: &Demand,
        context: &Context<'_>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Option<Asked> {
        let word = match &demand.kind {
            DemandKind::Is { question, .. }
            | DemandKind::AtLeast { question, .. }
            | DemandKind::AtMost { question, .. }
            | DemandKind::Only { question, .. }
            | DemandKind::NoneOf { question, .. }
            | DemandKind::AllOf { question, .. } => question,
            DemandKind::ByTable { .. }
            | DemandKind::Refer { .. }
            | DemandKind::Bind { .. }
            | DemandKind::Note { .. } => {
                let fault =
                    Fault::new(codes::QUESTION, "this demand gives no value of its own, and a value is asked here")
                        .help("write `is`, `at least`, `at most`, `only`, `none of` or `all of` with a value");
                diagnostics.push(fault.at(context.at(demand.span)));
                return None;
            }
        };
        let id = self.question_named(word, context, diagnostics)?;
        let question = &self[id];
        let kind = match (&demand.kind, &question.order) {
            (DemandKind::Is { rung, .. }, Order::Ladder(rungs)) => {
                match rung_named(rungs, &question.name, &rung.text) {
                    Ok(rung) => AskedKind::Rung(rung),
                    Err(fault) => {
                        diagnostics.push(fault.at(context.at(rung.span)));
                        return None;
                    }
                }
            }
            (DemandKind::AtLeast { limits, .. }, Order::AtLeast(scale))
            | (DemandKind::AtMost { limits, .. }, Order::AtMost(scale)) => {
                AskedKind::Limits(self.limits(question, *scale, limits, demand.span, context, diagnostics)?)
            }
            (DemandKind::Only { terms, .. }, Order::Only(choice)) => {
                AskedKind::Permitted { only: true, terms: self.terms_named(*choice, terms, context, diagnostics)? }
            }
            (DemandKind::NoneOf { terms, .. }, Order::Only(choice)) => {
                AskedKind::Permitted { only: false, terms: self.terms_named(*choice, terms, context, diagnostics)? }
            }
            (DemandKind::AllOf { terms, .. }, Order::AllOf(choice)) => {
                AskedKind::Required(self.terms_named(*choice, terms, context, diagnostics)?)
            }
            _ => {
                let message = format!("this demand does not fit the question `{}`", question.name);
                let fault = Fault::new(codes::QUESTION, message).help(self.demand_in_words(question));
                diagnostics.push(fault.at(context.at(demand.span)).also(question.at, "the question is declared here"));
                return None;
            }
        };
        Some(Asked { question: id, kind })
    }

    fn limits(
        &self,
        question: &Question,
        scale: Scale,
        limits: &[Limit],
        at: Span,
        context: &Context<'_>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Option<Limits> {
        let mut found: Option<Limits> = Some(Vec::new());
        let mut named = BTreeSet::new();
        let bare = limits.iter().filter(|limit| limit.terms.is_empty()).count();
        if bare > 1 || (question.per.is_none() && limits.len() > 1) {
            let message = format!("`{}` is given more than one limit at once", question.name);
            let fault = Fault::new(codes::QUESTION, message).help(self.demand_in_words(question));
            diagnostics.push(fault.at(context.at(at)));
            return None;
        }
        for limit in limits {
            let value = self.limit_value(&limit.value, scale, context, diagnostics);
            let terms = self.limit_terms(question, limit, context, diagnostics);
            for word in &limit.terms {
                if !named.insert(&word.text) {
                    let message = format!("`{}` is given two limits in one demand", word.text);
                    let fault = Fault::new(codes::QUESTION, message).help("name each term once");
                    diagnostics.push(fault.at(context.at(word.span)));
                    found = None;
                }
            }
            match (value, terms) {
                (Some(value), Some(terms)) => {
                    if let Some(found) = &mut found {
                        found.push((value, terms));
                    }
                }
                _ => found = None,
            }
        }
        found
    }

    /// For which terms a limit is: for every term where it names none.
    fn limit_terms(
        &self,
        question: &Question,
        limit: &Limit,
        context: &Context<'_>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Option<Option<Terms>> {
        match (question.per, limit.terms.first()) {
            (None, None) => Some(None),
            (Some((_, choice)), None) => Some(Some(self.every_term(choice))),
            (Some((_, choice)), Some(_)) => Some(Some(self.terms_named(choice, &limit.terms, context, diagnostics)?)),
            (None, Some(word)) => {
                let message =
                    format!("`{}` has one limit for everything, and this one is for `{}`", question.name, word.text);
                let fault = Fault::new(codes::QUESTION, message).help("leave `for` out");
                diagnostics.push(fault.at(context.at(word.span)).also(question.at, "the question is declared here"));
                None
            }
        }
    }

    /// Every term of a choice, of whatever place.
    pub(crate) fn every_term(&self, choice: ChoiceId) -> Terms {
        self[choice].terms.iter().zip(0u16..).fold(Terms::NONE, |all, (_, at)| all.union(Terms::one(at)))
    }
}
