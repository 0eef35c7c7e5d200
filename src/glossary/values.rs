//! Values of the tree in the shape that is asked of them.

use super::misread::Misread;
use super::model::{ChoiceId, PlaceId, Scale, Scope, Shape};
use super::read::{self, Fault};
use super::{Context, Glossary, Territory, cut};
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::{Span, Value, Word};
use crate::values::{Date, Measure, Terms};

/// The text of a value as it was written.
pub(crate) fn written(value: &Value) -> String {
    match value {
        Value::Word(word) | Value::Date(word) => word.text.to_string(),
        Value::Figure { number, unit: Some(unit) } => format!("{} {}", number.text, unit.text),
        Value::Figure { number, unit: None } => number.text.to_string(),
        Value::Text(text) => format!("\"{}\"", text.text),
    }
}

/// Where a value stands.
pub(crate) fn span(value: &Value) -> Span {
    match value {
        Value::Word(word) | Value::Date(word) => word.span,
        Value::Figure { number, unit } => unit.as_ref().map_or(number.span, |unit| number.span.to(unit.span)),
        Value::Text(text) => text.span,
    }
}

/// Reads a figure.
///
/// # Errors
/// Where the value is none, or does not fit the scale.
pub(crate) fn figure(value: &Value, scale: Scale) -> Result<Measure, Fault> {
    match value {
        Value::Figure { number, unit } => read::measure(scale, &number.text, unit.as_ref().map(|unit| &*unit.text)),
        _ => Err(Fault::new(codes::SHAPE, format!("`{}` is not a figure", cut(&written(value))))
            .help(format!("write {}", scale.example()))),
    }
}

/// Reads a day.
///
/// # Errors
/// Where the value is no date, or none that exists.
pub(crate) fn day(value: &Value) -> Result<Date, Fault> {
    match value {
        Value::Date(word) => read::date(&word.text),
        _ => read::date(&written(value)),
    }
}

/// Reads a bare word for a shape that is in words.
///
/// # Errors
/// Where the value is a figure, a date or a quoted text.
pub(crate) fn word<'v>(value: &'v Value, asked: &str) -> Result<&'v Word, Fault> {
    match value {
        Value::Word(word) => Ok(word),
        _ => Err(Fault::new(codes::SHAPE, format!("`{}` is not {asked}", cut(&written(value))))),
    }
}

impl Glossary {
    /// A term by its name, as known at a place.
    ///
    /// # Errors
    /// Where the choice has no such term there; the fault names the nearest.
    pub(crate) fn term_named(
        &self,
        choice: ChoiceId,
        name: &str,
        from: Scope,
        territory: &dyn Territory,
    ) -> Result<u16, Fault> {
        if let Some(term) = self.term(choice, name, from, territory) {
            return Ok(term);
        }
        let misread = Misread::term(name, &self[choice].name);
        let elsewhere = self[choice].terms.iter().any(|term| &*term.name == name);
        if elsewhere {
            let help = format!("`{}` is a term in another place only", cut(name));
            return Err(Fault::of(codes::UNKNOWN_TERM, misread).help(help));
        }
        let known = self.terms_at(choice, from, territory);
        let names = known.iter().filter_map(|at| self[choice].terms.get(usize::from(at))).map(|term| &*term.name);
        let help = self.terms_in_words(choice, from, territory);
        Err(Fault::of(codes::UNKNOWN_TERM, misread).help(help).near(name, names))
    }

    /// Terms as a rule names them, each with all under it.
    pub(crate) fn terms_named(
        &self,
        choice: ChoiceId,
        words: &[Word],
        context: &Context<'_>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Option<Terms> {
        let mut all = Some(Terms::NONE);
        for word in words {
            match self.covered(choice, word, context) {
                Ok(terms) => all = all.map(|all| all.union(terms)),
                Err(finding) => {
                    diagnostics.extend(finding);
                    all = None;
                }
            }
        }
        all
    }

    /// A term of a rule with all under it; an error without a finding where the
    /// term's declaration is known to be spoilt.
    pub(super) fn covered(
        &self,
        choice: ChoiceId,
        word: &Word,
        context: &Context<'_>,
    ) -> Result<Terms, Option<Diagnostic>> {
        match self.term_named(choice, &word.text, context.from, context.territory) {
            Ok(term) => {
                let terms = &self[choice].terms;
                Ok(terms.get(usize::from(term)).map_or(Terms::NONE, |term| term.covers))
            }
            Err(_) if self.is_broken(&word.text) => Err(None),
            Err(fault) => Err(Some(fault.at(context.at(word.span)))),
        }
    }

    /// A figure of a table, or a limit, on the scale of its question or fact.
    pub(crate) fn limit_value(
        &self,
        value: &Value,
        scale: Scale,
        context: &Context<'_>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Option<Measure> {
        match figure(value, scale) {
            Ok(measure) => Some(measure),
            Err(fault) => {
                diagnostics.push(fault.at(context.at(span(value))));
                None
            }
        }
    }

    /// Whether a shape is a choice, and which.
    pub(crate) fn choice_of(&self, shape: Shape) -> Option<ChoiceId> {
        match shape {
            Shape::Choice(choice) | Shape::Several(choice) => Some(choice),
            _ => None,
        }
    }

    /// The terms of a choice that stand for all others at a place: of a set, its
    /// broadest terms whose every known term is in the set.
    pub(crate) fn broadest(&self, choice: ChoiceId, set: Terms, place: PlaceId, territory: &dyn Territory) -> Vec<u16> {
        let known = self.terms_at(choice, Some(place), territory);
        let whole = |at: u16| {
            let term = self[choice].terms.get(usize::from(at));
            term.is_some_and(|term| term.covers.common(known).within(set))
        };
        let up = |at: u16| self[choice].terms.get(usize::from(at)).and_then(|term| term.under);
        set.common(known).iter().filter(|at| whole(*at) && !up(*at).is_some_and(whole)).collect()
    }
}
