//! Where a text reaches: an adopted edition subject by subject, an instrument's
//! own sections by its effect.

use super::Compiler;
use super::adoption::Standing;
use super::clauses::{Clauses, clause, cond_of};
use super::draft::{Text, Told};
use super::level::Level;
use crate::glossary::expr::Check;
use crate::glossary::model::{QuestionId, SubjectId};
use crate::law::instrument::{Instrument, InstrumentId, Weight};
use crate::law::model::{CondId, Fate, Node};
use std::sync::Arc;

/// What finding out where a text reaches needs.
pub(crate) struct Reach<'r, 'l> {
    pub(crate) compiler: &'r mut Compiler<'l>,
    pub(crate) level: &'r mut Level,
    /// For what stands outside every place, the level of the places.
    pub(crate) around: Option<&'r mut Level>,
    pub(crate) standings: &'r [Standing<'l>],
    pub(crate) texts: &'r [Text<'l>],
}

impl Reach<'_, '_> {
    /// Where an adopted text reaches a question: where the adoption stands for the
    /// question's subject, or, where the code does not govern that, for any of the
    /// section's.
    pub(super) fn adopted(
        &mut self,
        standing: &Standing,
        governs: &[SubjectId],
        subjects: &[SubjectId],
        question: Option<QuestionId>,
    ) -> Clauses {
        let subject = question.map(|question| self.compiler.library.glossary[question].subject);
        if let Some(subject) = subject.filter(|subject| governs.contains(subject)) {
            return standing.stands(self.compiler, self.level, self.standings, subject);
        }
        match subjects {
            [one] => standing.stands(self.compiler, self.level, self.standings, *one),
            several => {
                let mut ways = Vec::new();
                let mut told = Clauses::new();
                for subject in several {
                    let clauses = standing.stands(self.compiler, self.level, self.standings, *subject);
                    let stands = cond_of(&mut self.compiler.arena, &clauses);
                    if stands != CondId::FALSE {
                        told = clauses;
                    }
                    ways.push(stands);
                }
                let any = self.compiler.arena.or(ways);
                if cond_of(&mut self.compiler.arena, &told) == any {
                    told
                } else {
                    vec![clause(any, Fate::Superseded, None)]
                }
            }
        }
    }

    /// Where an instrument's own section reaches.
    pub(super) fn free(
        &mut self,
        id: InstrumentId,
        own: &Instrument,
        told: &Told,
        subjects: &[SubjectId],
        question: Option<QuestionId>,
    ) -> Clauses {
        let mut clauses = self.level.effect(self.compiler, id);
        self.level.ends_of(self.compiler, id, Some(&told.variant.number), &mut clauses);
        if own.kind.weight() == Weight::Service {
            let named = match self.compiler.library.glossary.roles.supplier {
                Some(field) => {
                    let name: Arc<str> = Arc::from(
                        self.compiler.library.places.issuer(own.issuer).map(|issuer| &*issuer.name).unwrap_or_default(),
                    );
                    self.compiler.arena.put(Node::Field(field, Check::Named(Arc::from(vec![name]))))
                }
                None => CondId::FALSE,
            };
            clauses.push(clause(named, Fate::NotInForce, None));
        }
        let depth = self.compiler.depth(own.issuer);
        let mut on: Vec<SubjectId> = subjects.to_vec();
        if on.is_empty() {
            on.extend(question.map(|question| self.compiler.library.glossary[question].subject));
        }
        for subject in on {
            clauses.extend(self.level.subject_powers(self.compiler, subject, depth));
        }
        clauses
    }
}
