//! Demands: what a section asks.

use super::{Builder, Match};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Demand, DemandKind, Limit, Word};

impl<'a> Builder<'a> {
    /// A demand, a `refer`, an `instructions bind` or a `note`.
    pub(super) fn demand(&mut self, found: Match<'a>) -> Option<Demand> {
        let span = self.span(&found);
        let kind = match found.as_rule() {
            Rule::note => DemandKind::Note { text: self.inner_text(found)? },
            Rule::bind => DemandKind::Bind { questions: self.inner_words(found) },
            Rule::refer => {
                let mut inner = found.into_inner();
                let why = self.text(&inner.next_back()?);
                DemandKind::Refer { questions: self.words(inner), why }
            }
            _ => {
                let mut inner = found.into_inner();
                let question = self.word(&inner.next()?);
                self.answer(question, inner.next()?)?
            }
        };
        Some(Demand { kind, span })
    }

    /// A demand that another match wraps.
    pub(super) fn inner_demand(&mut self, found: Match<'a>) -> Option<Demand> {
        let inner = found.into_inner().next()?;
        self.demand(inner)
    }

    fn answer(&mut self, question: Word, found: Match<'a>) -> Option<DemandKind> {
        Some(match found.as_rule() {
            Rule::answer_is => DemandKind::Is { question, rung: self.inner_word(found)? },
            Rule::least => DemandKind::AtLeast { question, limits: self.limits(found) },
            Rule::most => DemandKind::AtMost { question, limits: self.limits(found) },
            Rule::least_table => self.by_table(question, true, found)?,
            Rule::most_table => self.by_table(question, false, found)?,
            Rule::answer_only => DemandKind::Only { question, terms: self.inner_words(found) },
            Rule::answer_none => DemandKind::NoneOf { question, terms: self.inner_words(found) },
            _ => DemandKind::AllOf { question, terms: self.inner_words(found) },
        })
    }

    fn by_table(&mut self, question: Word, least: bool, found: Match<'a>) -> Option<DemandKind> {
        let (mut code, mut year, mut number) = (None, None, None);
        for inner in found.into_inner() {
            let word = Some(self.word(&inner));
            match inner.as_rule() {
                Rule::code_name => code = word,
                Rule::year => year = word,
                _ => number = word,
            }
        }
        Some(DemandKind::ByTable { question, least, code, year, number: number? })
    }

    fn limits(&mut self, found: Match<'a>) -> Vec<Limit> {
        found.into_inner().filter_map(|limit| self.limit(limit)).collect()
    }

    fn limit(&mut self, found: Match<'a>) -> Option<Limit> {
        let mut inner = found.into_inner();
        let value = self.value(inner.next()?)?;
        let terms = inner.next().map(|terms| self.inner_words(terms)).unwrap_or_default();
        Some(Limit { value, terms })
    }
}
