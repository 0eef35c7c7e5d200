//! Jobs, and the examples that hold them.

use super::{Builder, Match, Matches};
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Authority, Example, Expect, ExpectKind, JobEntry, JobSheet, JobValue, Word};

impl<'a> Builder<'a> {
    pub(super) fn example(&mut self, found: Match<'a>) -> Option<Example> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.text(&inner.next()?);
        while let Some(clause) = inner.peek().filter(|clause| clause.as_rule() == Rule::knowingly) {
            self.knowingly(clause, span);
            inner.next();
        }
        let job = self.job_sheet(inner.next()?);
        let expects: Vec<Expect> = inner.filter_map(|line| self.expect(line)).collect();
        if expects.is_empty() {
            self.missing(
                name.span,
                "the example expects nothing".to_owned(),
                "write below `verdict` what must come out, such as `outcome open`",
            );
        }
        Some(Example { name, job, expects, span })
    }

    pub(super) fn job_sheet(&mut self, found: Match<'a>) -> JobSheet {
        let span = self.span(&found);
        self.shifted = false;
        let entries = found.into_inner().filter_map(|line| self.job_line(line)).collect();
        JobSheet { entries, span }
    }

    fn job_line(&mut self, found: Match<'a>) -> Option<JobEntry> {
        let span = self.span(&found);
        let rule = found.as_rule();
        let mut inner = found.into_inner();
        Some(match rule {
            Rule::job_place => JobEntry::Place(self.place_name(inner.next()?)?),
            Rule::job_reference => JobEntry::Reference(self.text(&inner.next()?)),
            Rule::job_entry => JobEntry::Entry { name: self.word(&inner.next()?), facts: self.entry(inner), span },
            _ => {
                let (name, value) = (inner.next()?, inner.next()?);
                self.check_line(&name, &value);
                JobEntry::Fact { path: self.path(&name), value: self.job_value(value), span }
            }
        })
    }

    /// The pairs of attribute and value between braces.
    fn entry(&mut self, mut inner: Matches<'a>) -> Vec<(Word, JobValue)> {
        let mut facts = Vec::new();
        while let (Some(name), Some(value)) = (inner.next(), inner.next()) {
            self.check_line(&name, &value);
            facts.push((self.word(&name), self.job_value(value)));
        }
        facts
    }

    /// A fact without its value takes the next line's name for it, and so all the
    /// way down: seen by a value on a line of its own with more behind it.
    fn check_line(&mut self, name: &Match<'a>, value: &Match<'a>) {
        let (name_end, value_span) = (name.as_span().end(), self.span(value));
        let value_start = value.as_span().start();
        if self.shifted || !self.piece.get(name_end..value_start).is_some_and(|between| between.contains('\n')) {
            return;
        }
        let value_end = value_span.end as usize - self.base;
        let behind = self.piece.get(value_end..).unwrap_or_default();
        let behind = behind.split('\n').next().unwrap_or_default().trim();
        if behind.is_empty() || behind.starts_with(['#', '}']) {
            return;
        }
        self.shifted = true;
        let taken = self.piece.get(value_start..value_end).unwrap_or_default();
        let taken = taken.split([',', '\n']).next().unwrap_or_default().trim();
        let (at, written) = (self.at(self.exact(name)), name.as_str());
        self.found.push(
            Diagnostic::new(codes::SYNTAX, at, format!("no value is given for `{written}`"))
                .help(format!("`{taken}` on the next line was taken for it; write the value, or `{written} unknown`")),
        );
    }

    fn job_value(&mut self, found: Match<'a>) -> JobValue {
        match found.as_rule() {
            Rule::job_none => JobValue::None,
            Rule::job_unknown => JobValue::Unknown,
            _ => JobValue::Values(self.values(found.into_inner())),
        }
    }

    fn expect(&mut self, found: Match<'a>) -> Option<Expect> {
        let span = self.span(&found);
        let rule = found.as_rule();
        let mut inner = found.into_inner();
        let kind = match rule {
            Rule::expect_outcome => ExpectKind::Outcome(self.word(&inner.next()?)),
            Rule::expect_state => {
                let question = self.word(&inner.next()?);
                let state = inner.next()?;
                match state.as_rule() {
                    Rule::open_on => ExpectKind::OpenOn { question, fact: self.inner_word(state)? },
                    Rule::not_met => {
                        let state = Word { text: "not-met".into(), span: self.span(&state) };
                        ExpectKind::State { question, state }
                    }
                    Rule::not_asked => {
                        let state = Word { text: "not-asked".into(), span: self.span(&state) };
                        ExpectKind::State { question, state }
                    }
                    _ => ExpectKind::State { question, state: self.word(&state) },
                }
            }
            Rule::expect_note => ExpectKind::Note { by: self.authority(inner.next()?)? },
            Rule::expect_pending => ExpectKind::Pending(self.word(&inner.next()?)),
            Rule::expect_loosest => {
                let question = self.word(&inner.next()?);
                let word = inner.next()?;
                let word = match word.as_rule() {
                    Rule::loosest_limit => Word { text: "no limit".into(), span: self.span(&word) },
                    _ => self.word(&word),
                };
                ExpectKind::Loosest { question, word }
            }
            _ => {
                let demand = self.demand(inner.next()?)?;
                let by = match inner.next() {
                    Some(authority) => Some(self.authority(authority)?),
                    None => None,
                };
                match rule {
                    Rule::expect_advice => ExpectKind::Advice { demand, by },
                    _ => ExpectKind::Demand { demand, by },
                }
            }
        };
        Some(Expect { kind, span })
    }

    fn authority(&mut self, found: Match<'a>) -> Option<Authority> {
        let mut words = found.into_inner();
        Some((self.word(&words.next()?), words.next().map(|number| self.word(&number))))
    }
}
