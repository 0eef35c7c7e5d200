//! Definitions of the glossary: conditions with a name, put in place wherever
//! they are named.

use super::build::{Builder, Named, Sheet, title};
use super::choices::in_a_circle;
use super::circle::{circles, ordered};
use super::condition::Context;
use super::expr::Expr;
use crate::syntax::diagnostic::Location;
use crate::syntax::tree::{Cond, CondKind};
use std::collections::BTreeMap;

/// A condition with a name.
#[derive(Clone, Debug)]
pub(super) struct Definition {
    pub(super) title: Box<str>,
    /// Nothing where an error in it is reported.
    pub(super) expr: Option<Expr>,
    pub(super) size: usize,
    pub(super) depth: usize,
    /// Whether it tests an answer, instructions, entries of a list.
    pub(super) answers: bool,
    pub(super) says: bool,
    pub(super) entries: bool,
}

impl Definition {
    fn fill(&mut self, expr: Option<Expr>) {
        if let Some(expr) = &expr {
            self.size = expr.size();
            self.depth = expr.depth();
            expr.walk(&mut |part| match part {
                Expr::Answer { .. } => self.answers = true,
                Expr::Say(_) => self.says = true,
                Expr::Entries { .. } => self.entries = true,
                _ => {}
            });
        }
        self.expr = expr;
    }
}

impl Builder<'_> {
    pub(super) fn definitions(&mut self, sheet: &Sheet<'_>) {
        let all = sheet.definitions.iter().map(|(file, definition)| Named {
            name: &definition.name,
            scope: None,
            file: *file,
            it: *definition,
        });
        let all = self.distinct("definition", all.collect());
        let numbers: BTreeMap<&str, usize> = all.iter().enumerate().map(|(at, one)| (&*one.name.text, at)).collect();
        for (at, one) in all.iter().enumerate() {
            self.glossary.names.definitions.insert(one.name.text.clone(), at);
            self.glossary.definitions.push(Definition {
                title: title(one.it.title.as_ref(), one.name),
                expr: None,
                size: 0,
                depth: 0,
                answers: false,
                says: false,
                entries: false,
            });
        }
        let uses: Vec<Vec<usize>> = all.iter().map(|one| uses(&one.it.cond, &numbers)).collect();
        let next = |at: usize| uses.get(at).cloned().unwrap_or_default();
        let mut spoilt = vec![false; all.len()];
        for circle in circles(all.len(), next) {
            let members: Vec<(&str, Location)> =
                circle.iter().filter_map(|at| all.get(*at)).map(|one| (&*one.name.text, one.at())).collect();
            self.report(in_a_circle("definitions name each other", &members));
            for at in circle {
                if let Some(spoilt) = spoilt.get_mut(at) {
                    *spoilt = true;
                }
            }
        }
        for at in ordered(all.len(), next) {
            let (Some(one), Some(false)) = (all.get(at), spoilt.get(at)) else {
                continue;
            };
            let plain = Context::plain(one.file, None, self.territory);
            let context = Context { answers: true, says: true, ..plain };
            let found = self.glossary.condition(&one.it.cond, &context, self.diagnostics);
            if let Some(definition) = self.glossary.definitions.get_mut(at) {
                definition.fill(found);
            }
        }
    }
}

/// The definitions that a condition names.
fn uses(cond: &Cond, numbers: &BTreeMap<&str, usize>) -> Vec<usize> {
    match &cond.kind {
        CondKind::And(parts) | CondKind::Or(parts) => parts.iter().flat_map(|part| uses(part, numbers)).collect(),
        CondKind::Not(part) => uses(part, numbers),
        CondKind::Entries { with, .. } => with.as_ref().map(|with| uses(with, numbers)).unwrap_or_default(),
        CondKind::Named(word) => numbers.get(&*word.text).copied().into_iter().collect(),
        CondKind::Test { .. } | CondKind::Say(_) => Vec::new(),
    }
}
