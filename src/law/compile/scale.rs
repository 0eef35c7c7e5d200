//! The scale of a question at a place: demands as ranks and sets of terms.

use super::Compiler;
use super::clauses::{cond_of, tidy};
use super::draft::{Draft, DraftKind};
use crate::glossary::demand::AskedKind;
use crate::glossary::model::{Order, QuestionId};
use crate::law::model::{CondId, Demand, Effect, Law, Provision, ProvisionId};
use crate::values::{Measure, Terms};
use std::sync::Arc;

/// The scale of a question at the place.
pub(super) struct Scale {
    pub(super) question: QuestionId,
    pub(super) parts: usize,
    pub(super) measures: Vec<Measure>,
    pub(super) terms: Terms,
    pub(super) per_terms: Terms,
}

impl Scale {
    /// The scale that holds the limits of these drafts.
    pub(super) fn new<'d>(compiler: &Compiler, question: QuestionId, drafts: impl Iterator<Item = &'d Draft>) -> Scale {
        let glossary = &compiler.library.glossary;
        let about = &glossary[question];
        let (parts, per_terms) = match about.per {
            None => (1, Terms::NONE),
            Some((_, choice)) => (
                glossary[choice].terms.len(),
                glossary.terms_at(choice, Some(compiler.place), &compiler.library.places),
            ),
        };
        let mut measures: Vec<Measure> = Vec::new();
        for draft in drafts {
            if let DraftKind::Ask(asked) = &draft.kind
                && let AskedKind::Limits(limits) = &asked.kind
            {
                measures.extend(limits.iter().map(|(measure, _)| measure.clone()));
            }
        }
        measures.sort_by_key(|measure| measure.amount);
        measures.dedup_by_key(|measure| measure.amount);
        if matches!(about.order, Order::AtMost(_)) {
            measures.reverse();
        }
        Scale { question, parts, measures, terms: compiler.terms_of(question), per_terms }
    }

    /// Puts drafts on the scale and into the law.
    pub(super) fn put(&self, compiler: &mut Compiler, law: &mut Law, drafts: Vec<Draft>) -> Vec<ProvisionId> {
        let mut found = Vec::new();
        for draft in drafts {
            let effect = match &draft.kind {
                DraftKind::Refer(why) => Effect::Refer(why.clone()),
                DraftKind::Ask(asked) => Effect::Demand(self.demand(compiler, asked)),
            };
            let clauses = tidy(draft.clauses);
            let within = cond_of(&mut compiler.arena, &clauses);
            // One that can never apply may reach all the same: then the law is not silent.
            let guard = compiler.arena.and([draft.reach, within]);
            if draft.reach == CondId::FALSE {
                continue;
            }
            found.push(ProvisionId(law.provisions.len() as u32));
            law.provisions.push(Provision {
                effect,
                reach: draft.reach,
                guard,
                clauses,
                source: draft.source,
                table: draft.table,
                words: draft.words,
            });
        }
        found
    }

    fn demand(&self, compiler: &Compiler, asked: &crate::glossary::demand::Asked) -> Demand {
        let about = &compiler.library.glossary[self.question];
        let loosest = if matches!(about.order, Order::Only(_)) { self.terms.0 } else { 0 };
        let mut parts = vec![loosest; self.parts];
        let mut figures: Vec<Option<Arc<str>>> = vec![None; self.parts];
        let mut named = self.per_terms;
        let mut only = false;
        match &asked.kind {
            AskedKind::Rung(rung) => parts.fill(u128::from(*rung)),
            AskedKind::Permitted { only: said, .. } => {
                only = *said;
                parts.fill(compiler.permitted(asked).0);
            }
            AskedKind::Required(terms) => parts.fill(terms.common(self.terms).0),
            AskedKind::Limits(limits) => {
                if limits.iter().all(|(_, terms)| terms.is_some()) {
                    named = Terms::NONE;
                }
                for (measure, terms) in limits {
                    let rank = self.rank(measure);
                    let of = terms.unwrap_or(Terms(u128::MAX));
                    if let Some(terms) = terms {
                        named = named.union(terms.common(self.per_terms));
                    }
                    for (at, (part, figure)) in parts.iter_mut().zip(&mut figures).enumerate() {
                        let reached = self.parts == 1 && self.per_terms.is_empty() || of.has(at as u16);
                        if reached && rank > *part {
                            *part = rank;
                            *figure = Some(Arc::clone(&measure.shown));
                        }
                    }
                }
            }
        }
        Demand { parts: parts.into(), named, only, figures: figures.into() }
    }

    fn rank(&self, measure: &Measure) -> u128 {
        let place = self.measures.iter().position(|of| of.amount == measure.amount);
        place.map_or(0, |place| place as u128 + 1)
    }
}
