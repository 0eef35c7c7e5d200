//! Tests of one fact, each held against the fact's shape.

use super::condition::Reader;
use super::expr::{Check, Expr};
use super::model::{ChoiceId, FieldId, Shape};
use super::read::{self, Fault};
use super::values::{day, figure, span, written};
use crate::syntax::codes;
use crate::syntax::tree::{Path, Span, Test, Value, Word};
use crate::values::{Date, Exact, Period, Terms};
use std::sync::Arc;

impl Reader<'_> {
    pub(super) fn check(&mut self, field: FieldId, path: &Path, test: &Test, at: Span) -> Option<Expr> {
        let shape = self.glossary[field].shape;
        let check = |check: Check| Some(Expr::Field(field, check));
        match test {
            Test::Is(values) => self.is(field, path, values, at),
            Test::IsNot(values) => self.is(field, path, values, at).map(|is| Expr::Not(Box::new(is))),
            Test::Includes(values) => match shape {
                Shape::Several(choice) => check(Check::Includes(self.terms(choice, field, path, values)?)),
                _ => self.misfit(field, path, at),
            },
            Test::AtLeast(value) => check(Check::AtLeast(self.amount(field, path, value, at)?)),
            Test::AtMost(value) => check(Check::AtMost(self.amount(field, path, value, at)?)),
            Test::Over(value) => check(Check::Over(self.amount(field, path, value, at)?)),
            Test::Under(value) => check(Check::Under(self.amount(field, path, value, at)?)),
            Test::Before(value) => check(Check::Before(self.day(field, path, value, at)?)),
            Test::From(value) => check(Check::From(self.day(field, path, value, at)?)),
            Test::Within { count, unit, after } => {
                if shape != Shape::Date {
                    return self.misfit(field, path, at);
                }
                let period = self.period(count, unit);
                let after = self.date_fact(after);
                check(Check::Within(period?, after?))
            }
        }
    }

    fn is(&mut self, field: FieldId, path: &Path, values: &[Value], at: Span) -> Option<Expr> {
        let check = |check: Check| Some(Expr::Field(field, check));
        match self.glossary[field].shape {
            Shape::YesNo => check(Check::Among(self.truths(field, path, values)?)),
            Shape::Choice(choice) => check(Check::Among(self.terms(choice, field, path, values)?)),
            Shape::Several(_) => self.misfit(field, path, at),
            Shape::Name => check(Check::Named(self.plain(field, path, values, read::name)?)),
            Shape::Code => check(Check::Named(self.plain(field, path, values, read::code)?)),
            Shape::Date => {
                let days = self.each(values, |reader, value| reader.day(field, path, value, at))?;
                Some(either(days.into_iter().map(|day| on(field, day)).collect()))
            }
            Shape::Count | Shape::Gauge | Shape::Quantity(_) => {
                let amounts = self.each(values, |reader, value| reader.amount(field, path, value, at))?;
                Some(either(amounts.into_iter().map(|amount| equal(field, amount)).collect()))
            }
        }
    }

    /// Every value, so that every error is found.
    fn each<T>(&mut self, values: &[Value], mut read: impl FnMut(&mut Self, &Value) -> Option<T>) -> Option<Vec<T>> {
        let found: Vec<Option<T>> = values.iter().map(|value| read(self, value)).collect();
        found.into_iter().collect()
    }

    fn truths(&mut self, field: FieldId, path: &Path, values: &[Value]) -> Option<Terms> {
        let found = self.each(values, |reader, value| match read::yes_no(&written(value)) {
            Ok(truth) => Some(Terms::one(truth)),
            Err(_) => {
                reader.unfit(field, path, value);
                None
            }
        })?;
        Some(found.into_iter().fold(Terms::NONE, Terms::union))
    }

    fn terms(&mut self, choice: ChoiceId, field: FieldId, path: &Path, values: &[Value]) -> Option<Terms> {
        let found = self.each(values, |reader, value| {
            let Value::Word(word) = value else {
                reader.unfit(field, path, value);
                return None;
            };
            match reader.glossary.covered(choice, word, reader.context) {
                Ok(terms) => Some(terms),
                Err(finding) => {
                    reader.diagnostics.extend(finding);
                    None
                }
            }
        })?;
        Some(found.into_iter().fold(Terms::NONE, Terms::union))
    }

    fn plain(
        &mut self,
        field: FieldId,
        path: &Path,
        values: &[Value],
        form: fn(&str) -> Result<&str, Fault>,
    ) -> Option<Arc<[Arc<str>]>> {
        let mut found = self.each(values, |reader, value| {
            let Value::Word(word) = value else {
                reader.unfit(field, path, value);
                return None;
            };
            match form(&word.text) {
                Ok(name) => Some(Arc::<str>::from(name)),
                Err(fault) => {
                    reader.report(fault, word.span);
                    None
                }
            }
        })?;
        found.sort();
        found.dedup();
        Some(found.into())
    }

    fn amount(&mut self, field: FieldId, path: &Path, value: &Value, at: Span) -> Option<Exact> {
        let Some(scale) = self.glossary[field].shape.scale() else {
            self.misfit(field, path, at);
            return None;
        };
        match figure(value, scale) {
            Ok(measure) => Some(measure.amount),
            Err(fault) => {
                self.report(fault, span(value));
                None
            }
        }
    }

    fn day(&mut self, field: FieldId, path: &Path, value: &Value, at: Span) -> Option<Date> {
        if self.glossary[field].shape != Shape::Date {
            self.misfit(field, path, at);
            return None;
        }
        match day(value) {
            Ok(day) => Some(day),
            Err(fault) => {
                self.report(fault, span(value));
                None
            }
        }
    }

    fn period(&mut self, count: &Word, unit: &Word) -> Option<Period> {
        let found = Period::parse(&count.text, &unit.text);
        if found.is_none() {
            let units = ["day", "days", "month", "months", "year", "years"];
            let fault = if units.contains(&&*unit.text) {
                Fault::new(codes::NUMBER, format!("`{}` is no length of time", super::cut(&count.text)))
                    .help("write a whole number up to 1000000, such as `2 years`")
            } else {
                Fault::new(codes::UNIT, format!("`{}` is no unit of time", super::cut(&unit.text)))
                    .help("write `days`, `months` or `years`")
            };
            self.report(fault, count.span.to(unit.span));
        }
        found
    }

    fn date_fact(&mut self, path: &Path) -> Option<FieldId> {
        let field = self.field(path)?;
        if self.glossary[field].shape == Shape::Date {
            return Some(field);
        }
        let fault = Fault::new(codes::SHAPE, format!("`{}` is not a date", self.glossary[field].path))
            .help("`after` names another fact of the shape `date`");
        self.report(fault, path.head.span);
        None
    }
}

/// One condition, or any of several.
fn either(mut all: Vec<Expr>) -> Expr {
    match (all.len(), all.pop()) {
        (1, Some(one)) => one,
        (_, last) => {
            all.extend(last);
            Expr::Or(all)
        }
    }
}

fn equal(field: FieldId, amount: Exact) -> Expr {
    Expr::And(vec![Expr::Field(field, Check::AtLeast(amount)), Expr::Field(field, Check::AtMost(amount))])
}

fn on(field: FieldId, day: Date) -> Expr {
    let from = Expr::Field(field, Check::From(day));
    let next = day.next();
    // Past the last day of the calendar there is nothing to be before.
    if next == day { from } else { Expr::And(vec![from, Expr::Field(field, Check::Before(next))]) }
}
