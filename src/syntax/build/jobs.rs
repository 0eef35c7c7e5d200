//! Jobs, and the examples that hold them.

use super::{Builder, Match, Matches};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Example, Expect, ExpectKind, JobEntry, JobSheet, JobValue, Text, Word};

impl<'a> Builder<'a> {
    pub(super) fn example(&mut self, found: Match<'a>) -> Option<Example> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.text(&inner.next()?);
        let job = self.job_sheet(inner.next()?);
        let expects = inner.filter_map(|line| self.expect(line)).collect();
        Some(Example { name, job, expects, span })
    }

    pub(super) fn job_sheet(&mut self, found: Match<'a>) -> JobSheet {
        let span = self.span(&found);
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
                let path = self.path(&inner.next()?);
                JobEntry::Fact { path, value: self.job_value(inner.next()?), span }
            }
        })
    }

    /// The pairs of attribute and value between braces.
    fn entry(&mut self, mut inner: Matches<'a>) -> Vec<(Word, JobValue)> {
        let mut facts = Vec::new();
        while let (Some(name), Some(value)) = (inner.next(), inner.next()) {
            facts.push((self.word(&name), self.job_value(value)));
        }
        facts
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
                        let word = Text { text: "not-met".into(), span: self.span(&state) };
                        ExpectKind::State { question, state: Word { text: word.text, span: word.span } }
                    }
                    _ => ExpectKind::State { question, state: self.word(&state) },
                }
            }
            _ => {
                let demand = self.demand(inner.next()?)?;
                let by = match inner.next() {
                    Some(authority) => {
                        let mut words = authority.into_inner();
                        Some((self.word(&words.next()?), words.next().map(|number| self.word(&number))))
                    }
                    None => None,
                };
                ExpectKind::Demand { demand, by }
            }
        };
        Some(Expect { kind, span })
    }
}
