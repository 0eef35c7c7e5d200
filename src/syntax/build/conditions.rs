//! Conditions and the values in them.

use super::{Builder, Match, Matches};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Cond, CondKind, Span, Test, Value, Word};

impl<'a> Builder<'a> {
    /// A condition; `and` binds closer than `or`.
    pub(super) fn cond(&mut self, found: Match<'a>) -> Option<Cond> {
        let mut inner = found.into_inner().peekable();
        let mut either: Vec<Cond> = Vec::new();
        let mut both: Vec<Cond> = vec![self.operand(&mut inner)?];
        while let Some(joint) = inner.next() {
            if joint.as_rule() == Rule::or {
                either.push(joined(std::mem::take(&mut both), CondKind::And)?);
            }
            both.push(self.operand(&mut inner)?);
        }
        let last = joined(both, CondKind::And)?;
        if either.is_empty() {
            return Some(last);
        }
        either.push(last);
        joined(either, CondKind::Or)
    }

    /// A condition that another match wraps.
    pub(super) fn inner_cond(&mut self, found: Match<'a>) -> Option<Cond> {
        let inner = found.into_inner().next()?;
        self.cond(inner)
    }

    fn operand(&mut self, inner: &mut std::iter::Peekable<Matches<'a>>) -> Option<Cond> {
        let mut nots: Vec<Span> = Vec::new();
        let mut first = inner.next()?;
        while first.as_rule() == Rule::not {
            nots.push(self.span(&first));
            first = inner.next()?;
        }
        let span = self.span(&first);
        let mut cond = match first.as_rule() {
            Rule::cond => self.cond(first)?,
            Rule::entries => Cond { kind: self.entries(first)?, span },
            Rule::say => {
                let demand = self.inner_demand(first)?;
                Cond { kind: CondKind::Say(Box::new(demand)), span }
            }
            _ => {
                let path = self.path(&first);
                match inner.next_if(|next| !matches!(next.as_rule(), Rule::and | Rule::or)) {
                    Some(test) => {
                        let span = span.to(self.span(&test));
                        let test = self.test(test)?;
                        Cond { kind: CondKind::Test { path, test }, span }
                    }
                    None => Cond { kind: self.named(path, span), span },
                }
            }
        };
        for not in nots.into_iter().rev() {
            let span = not.to(cond.span);
            cond = Cond { kind: CondKind::Not(Box::new(cond)), span };
        }
        Some(cond)
    }

    /// A definition's name standing alone. A path with an attribute is none.
    fn named(&mut self, path: crate::syntax::tree::Path, span: Span) -> CondKind {
        if path.attribute.is_some() {
            let at = self.at(span);
            let written = format!("{}.{}", path.head.text, path.attribute.as_ref().map_or("", |word| &word.text));
            self.found.push(
                crate::syntax::diagnostic::Diagnostic::new(
                    crate::syntax::codes::SYNTAX,
                    at,
                    format!("`{written}` is not tested against anything"),
                )
                .help(format!("say what it must be, such as `{written} is yes`")),
            );
        }
        CondKind::Named(path.head)
    }

    fn entries(&mut self, found: Match<'a>) -> Option<CondKind> {
        let mut inner = found.into_inner();
        let any = inner.next()?.as_rule() == Rule::any;
        let list = self.word(&inner.next()?);
        let with = match inner.next() {
            Some(cond) => Some(Box::new(self.cond(cond)?)),
            None => None,
        };
        Some(CondKind::Entries { any, list, with })
    }

    fn test(&mut self, found: Match<'a>) -> Option<Test> {
        let rule = found.as_rule();
        let mut inner = found.into_inner();
        Some(match rule {
            Rule::is | Rule::is_any => Test::Is(self.values(inner)),
            Rule::is_not | Rule::is_not_any => Test::IsNot(self.values(inner)),
            Rule::includes | Rule::includes_any => Test::Includes(self.values(inner)),
            Rule::at_least => Test::AtLeast(self.value(inner.next()?)?),
            Rule::at_most => Test::AtMost(self.value(inner.next()?)?),
            Rule::over => Test::Over(self.value(inner.next()?)?),
            Rule::under => Test::Under(self.value(inner.next()?)?),
            Rule::before => Test::Before(self.value(inner.next()?)?),
            Rule::from => Test::From(self.value(inner.next()?)?),
            _ => {
                let (count, unit) = self.delay(inner.next()?)?;
                Test::Within { count, unit, after: self.path(&inner.next()?) }
            }
        })
    }

    /// `90 days`, `6 months`.
    pub(super) fn delay(&mut self, found: Match<'a>) -> Option<(Word, Word)> {
        let mut inner = found.into_inner();
        Some((self.word(&inner.next()?), self.word(&inner.next()?)))
    }

    pub(super) fn values(&mut self, found: Matches<'a>) -> Vec<Value> {
        found.filter_map(|one| self.value(one)).collect()
    }

    pub(super) fn value(&mut self, found: Match<'a>) -> Option<Value> {
        Some(match found.as_rule() {
            Rule::date => Value::Date(self.word(&found)),
            Rule::text => Value::Text(self.text(&found)),
            Rule::figure => {
                let mut inner = found.into_inner();
                let number = self.word(&inner.next()?);
                Value::Figure { number, unit: inner.next().map(|unit| self.word(&unit)) }
            }
            _ => Value::Word(self.word(&found)),
        })
    }
}

/// One condition as it is, several joined.
fn joined(mut conds: Vec<Cond>, join: fn(Vec<Cond>) -> CondKind) -> Option<Cond> {
    if conds.len() < 2 {
        return conds.pop();
    }
    let span = conds.first()?.span.to(conds.last()?.span);
    Some(Cond { kind: join(conds), span })
}
