//! What is worked out once for the law of a place, before any job comes.

use super::answer::{Form, Way};
use super::cone::Cone;
use super::lexicon::Lexicon;
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, Met, Order};
use crate::law::model::{CondId, Law, Node, Provision, ProvisionId, Source, SourceId};
use crate::values::Date;
use std::sync::{Arc, OnceLock};

/// How a job shows that it does what a question asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Show {
    /// It does not: the question has no finding.
    Nothing,
    /// A prohibition: above the loosest answer it is not met.
    Never,
    Where(CondId),
    Measure(FieldId),
}

/// One question of the plan.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ask {
    pub(crate) form: Form,
    pub(crate) show: Show,
    /// The fact of a `per` question.
    pub(crate) per: Option<FieldId>,
}

/// The law of a place made ready for many jobs.
#[derive(Debug)]
pub(crate) struct Plan {
    /// By the question's place in [`Law::questions`].
    pub(crate) asks: Vec<Ask>,
    /// By node: whether its truth hangs on the entry in which it is read.
    pub(crate) inner: Vec<bool>,
    /// By node: whether its truth can turn on a question's answer.
    pub(crate) tests_answers: Vec<bool>,
    /// By field: the condition that the fact follows where it is not said.
    pub(crate) presumed: Vec<Option<CondId>>,
    /// The codes that an unknown choice ranges over, sorted.
    pub(crate) codes: Vec<Arc<str>>,
    /// By field: whether an unknown date begins with the first day of the law.
    pub(crate) dating: Vec<bool>,
    /// The days that tests and instruments name, with the spans between them.
    pub(crate) days: Vec<Date>,
    /// For every question what it reads.
    cones: Vec<OnceLock<Cone>>,
    /// The questions in the order of their names.
    pub(crate) by_name: Vec<usize>,
    nowhere: Cone,
    /// By provision its place in the order of reasons; provisions that read the
    /// same share it.
    pub(crate) order: Vec<u32>,
}

impl Plan {
    /// Prepares the law of a place.
    pub(crate) fn new(law: &Law, lexicon: &Lexicon<'_>) -> Plan {
        Plan::with(law, lexicon, &law.presumed)
    }

    /// The same with every fact free: a job may state one that is presumed either way,
    /// and a date before the first law.
    pub(crate) fn of_stated_jobs(law: &Law, lexicon: &Lexicon<'_>) -> Plan {
        Plan { dating: vec![false; lexicon.fields.len()], ..Plan::with(law, lexicon, &[]) }
    }

    fn with(law: &Law, lexicon: &Lexicon<'_>, follow: &[(FieldId, CondId)]) -> Plan {
        let mut presumed = vec![None; lexicon.fields.len()];
        for (field, cond) in follow {
            if let Some(slot) = presumed.get_mut(usize::from(field.0))
                && lexicon.list_of(*field).is_none()
            {
                *slot = Some(*cond);
            }
        }
        let mut dating = vec![false; lexicon.fields.len()];
        for field in &law.dating {
            if let Some(slot) = dating.get_mut(usize::from(field.0)) {
                *slot = true;
            }
        }
        let mut codes = law.code_choices.clone();
        codes.sort();
        codes.dedup();
        let mut by_name: Vec<usize> = (0..law.questions.len()).collect();
        by_name.sort_by_key(|index| {
            law.questions.get(*index).and_then(|q| lexicon.question(q.question)).map(|q| &*q.name)
        });
        let mut days = law.days.clone();
        days.extend(law.first_day);
        Plan {
            asks: law.questions.iter().map(|question| ask(question, lexicon)).collect(),
            inner: inner(law, lexicon),
            tests_answers: tests_answers(law, &presumed),
            presumed,
            codes,
            dating,
            days: super::dates::with_spans(days, &law.periods),
            cones: law.questions.iter().map(|_| OnceLock::new()).collect(),
            by_name,
            nowhere: Cone::default(),
            order: super::order::of_provisions(law),
        }
    }

    /// What the question reads.
    pub(crate) fn cone(&self, law: &Law, lexicon: &Lexicon<'_>, question: usize) -> &Cone {
        self.cones
            .get(question)
            .map_or(&self.nowhere, |cell| cell.get_or_init(|| Cone::of_question(self, law, lexicon, question)))
    }

    /// The condition that a field follows where the job does not say it.
    pub(crate) fn presumption(&self, field: FieldId) -> Option<CondId> {
        self.presumed.get(usize::from(field.0)).copied().flatten()
    }
}

fn ask(question: &crate::law::model::QuestionLaw, lexicon: &Lexicon<'_>) -> Ask {
    let known = lexicon.question(question.question);
    let way = known.map_or(Way::Ladder, |known| match known.order {
        Order::Ladder(_) => Way::Ladder,
        Order::AtLeast(_) => Way::AtLeast,
        Order::AtMost(_) => Way::AtMost,
        Order::Only(_) => Way::Only,
        Order::AllOf(_) => Way::AllOf,
    });
    let last = match known.map(|known| &known.order) {
        Some(Order::Ladder(rungs)) => (rungs.len() as u128).saturating_sub(1),
        _ => 0,
    };
    let per = known.and_then(|known| known.per);
    let show = match known {
        Some(known) => match (&known.met, question.met, known.measures) {
            (Some(Met::Never), _, _) => Show::Never,
            (_, Some(cond), _) => Show::Where(cond),
            (_, None, Some(field)) => Show::Measure(field),
            (_, None, None) => Show::Nothing,
        },
        None => Show::Nothing,
    };
    Ask {
        form: Form {
            way,
            parts: question.parts.max(1),
            loosest: if way == Way::Only { question.terms.0 } else { 0 },
            last,
            terms: question.terms,
            per: per.map(|_| question.per_terms),
        },
        show,
        per: per.map(|(field, _)| field),
    }
}

/// Which nodes hang on the entry in which they are read.
fn inner(law: &Law, lexicon: &Lexicon<'_>) -> Vec<bool> {
    let mut inner: Vec<bool> = Vec::with_capacity(law.nodes.len());
    for node in &law.nodes {
        let of = |id: &CondId| inner.get(id.0 as usize).copied().unwrap_or(false);
        let depends = match node {
            Node::False | Node::True | Node::Entries { .. } | Node::Answer { .. } | Node::Span(_) => false,
            Node::Not(part) => of(part),
            Node::And(parts) | Node::Or(parts) => parts.iter().any(of),
            Node::Field(field, check) => {
                lexicon.list_of(*field).is_some()
                    || matches!(check, Check::Within(_, other) if lexicon.list_of(*other).is_some())
            }
        };
        inner.push(depends);
    }
    inner
}

/// Which nodes can turn on a question's answer, by themselves or through a
/// presumed fact.
fn tests_answers(law: &Law, presumed: &[Option<CondId>]) -> Vec<bool> {
    let mut tests = vec![false; law.nodes.len()];
    loop {
        let mut changed = false;
        for (number, node) in law.nodes.iter().enumerate() {
            let of = |id: &CondId| tests.get(id.0 as usize).copied().unwrap_or(false);
            let found = match node {
                Node::False | Node::True => false,
                Node::Answer { .. } => true,
                Node::Not(part) => of(part),
                Node::And(parts) | Node::Or(parts) => parts.iter().any(of),
                Node::Entries { with, .. } => of(with),
                Node::Span(span) => law.spans.get(*span).is_some_and(|span| of(&span.within)),
                Node::Field(field, _) => {
                    presumed.get(usize::from(field.0)).copied().flatten().is_some_and(|cond| of(&cond))
                }
            };
            if let Some(slot) = tests.get_mut(number)
                && found
                && !*slot
            {
                *slot = true;
                changed = true;
            }
        }
        if !changed {
            return tests;
        }
    }
}

/// Looks things up in a law by their numbers.
pub(crate) trait Look {
    fn node(&self, id: CondId) -> &Node;
    fn provision(&self, id: ProvisionId) -> Option<&Provision>;
    fn source(&self, id: SourceId) -> Option<&Source>;
}

impl Look for Law {
    fn node(&self, id: CondId) -> &Node {
        self.nodes.get(id.0 as usize).unwrap_or(&Node::False)
    }

    fn provision(&self, id: ProvisionId) -> Option<&Provision> {
        self.provisions.get(id.0 as usize)
    }

    fn source(&self, id: SourceId) -> Option<&Source> {
        self.sources.get(id.0 as usize)
    }
}
