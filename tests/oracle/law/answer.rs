//! How demands combine, what powers and priorities do, and the final answer.

use super::clerk::Clerk;
use super::facts::Holds;
use super::force::View;
use super::provisions::{Does, Layer, Provision};
use crate::glossary::demand::AskedKind;
use crate::glossary::model::{ChoiceId, Order, Question, QuestionId};
use crate::syntax::tree::PowerKind;
use crate::values::{Exact, Terms};

/// One part of an answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Rung(u16),
    Limit(Option<Exact>),
    /// The permitted terms, or the required ones.
    Set(Terms),
}

/// What one side says on a question.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Side {
    pub(super) parts: Vec<Part>,
    /// For `per` questions the terms that some demand names.
    pub(super) named: Terms,
    pub(super) refer: bool,
    /// Whether some provision reaches the job.
    pub(super) reaches: bool,
}

/// The final answer.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Final {
    pub(super) parts: Vec<Part>,
    pub(super) named: Terms,
    pub(super) refer: bool,
    pub(super) conflict: bool,
    pub(super) reaches: bool,
}

impl Clerk<'_> {
    pub(super) fn question(&self, id: QuestionId) -> &Question {
        &self.library.glossary.questions[usize::from(id.0)]
    }

    fn all_terms(&self, choice: ChoiceId) -> Terms {
        (0..self.library.glossary.choices[usize::from(choice.0)].terms.len())
            .fold(Terms::NONE, |all, term| all.union(Terms::one(term as u16)))
    }

    fn per_terms(&self, id: QuestionId) -> Option<Terms> {
        self.question(id).per.map(|(_, choice)| self.all_terms(choice))
    }

    fn loosest(&self, id: QuestionId) -> Side {
        let part = match self.question(id).order {
            Order::Ladder(_) => Part::Rung(0),
            Order::AtLeast(_) | Order::AtMost(_) => Part::Limit(None),
            Order::Only(choice) => Part::Set(self.all_terms(choice)),
            Order::AllOf(_) => Part::Set(Terms::NONE),
        };
        let count = self.per_terms(id).map_or(1, |terms| terms.len() as usize);
        Side { parts: vec![part; count], named: Terms::NONE, refer: false, reaches: false }
    }

    /// The stricter of two parts, or the looser.
    fn of_two(&self, id: QuestionId, one: &Part, two: &Part, stricter: bool) -> Part {
        match (one, two) {
            (Part::Rung(one), Part::Rung(two)) => Part::Rung(if stricter { *one.max(two) } else { *one.min(two) }),
            (Part::Limit(None), other) | (other, Part::Limit(None)) => {
                if stricter {
                    other.clone()
                } else {
                    Part::Limit(None)
                }
            }
            (Part::Limit(Some(one)), Part::Limit(Some(two))) => {
                let larger = matches!(self.question(id).order, Order::AtLeast(_)) == stricter;
                Part::Limit(Some(if larger { *one.max(two) } else { *one.min(two) }))
            }
            (Part::Set(one), Part::Set(two)) => {
                let common = matches!(self.question(id).order, Order::Only(_)) == stricter;
                Part::Set(if common { one.common(*two) } else { one.union(*two) })
            }
            _ => panic!("parts of two orders"),
        }
    }

    /// The terms that a demand on a permitted set leaves.
    pub(super) fn permitted(&self, id: QuestionId, kind: &AskedKind) -> Terms {
        match (&self.question(id).order, kind) {
            (Order::Only(_), AskedKind::Permitted { only: true, terms }) => *terms,
            (Order::Only(choice), AskedKind::Permitted { only: false, terms }) => {
                self.all_terms(*choice).without(*terms)
            }
            _ => panic!("no demand on a permitted set"),
        }
    }

    fn demand(&self, id: QuestionId, side: &mut Side, kind: &AskedKind) {
        let all = self.per_terms(id).unwrap_or(Terms::one(0));
        let mut take = |terms: Terms, part: Part| {
            for term in terms.iter() {
                let slot = usize::from(term);
                side.parts[slot] = self.of_two(id, &side.parts[slot], &part, true);
            }
            if self.per_terms(id).is_some() {
                side.named = side.named.union(terms);
            }
        };
        match kind {
            AskedKind::Rung(rung) => take(all, Part::Rung(*rung)),
            AskedKind::Limits(limits) => {
                for (limit, terms) in limits {
                    take(terms.unwrap_or(all), Part::Limit(Some(limit.amount)));
                }
            }
            AskedKind::Required(terms) => take(all, Part::Set(*terms)),
            AskedKind::Permitted { .. } => {
                take(all, Part::Set(self.permitted(id, kind)));
            }
        }
    }

    /// What the law in view answers, before powers.
    fn side(&self, id: QuestionId, view: View) -> Side {
        let provisions = self.provisions(id, view);
        let aside = self.set_aside(id, &provisions, view);
        let mut side = self.loosest(id);
        side.reaches = !provisions.is_empty();
        for provision in provisions.iter().zip(&aside).filter(|(_, aside)| !**aside).map(|(provision, _)| provision) {
            match (provision.holds, &provision.does) {
                (Holds::No, _) | (_, Does::Bind) => {}
                (Holds::Refers, _) | (Holds::Yes, Does::Refer) => side.refer = true,
                (Holds::Yes, Does::Demand(kind)) => {
                    self.demand(id, &mut side, kind);
                }
            }
        }
        side
    }

    /// Which provisions are set aside because an instrument prevails over their
    /// layer: from the outermost and earliest instrument on, and what is set aside
    /// sets nothing aside any more.
    fn set_aside(&self, id: QuestionId, provisions: &[Provision], view: View) -> Vec<bool> {
        let mut aside = vec![false; provisions.len()];
        for law in self.law(view) {
            for prevails in &self.instrument(law).prevails {
                let within = |provision: &Provision| match &provision.layer {
                    Layer::Code(code) => prevails.codes.contains(code),
                    Layer::Instructions => prevails.instructions,
                    Layer::Own => false,
                };
                let speaks = prevails.questions.is_empty() || prevails.questions.contains(&id);
                let answers = provisions.iter().zip(&aside).any(|(strong, aside)| {
                    !aside
                        && strong.laws.contains(&law)
                        && strong.holds == Holds::Yes
                        && matches!(strong.does, Does::Demand(_))
                        && !within(strong)
                });
                if speaks && answers {
                    let weaker = aside.iter_mut().zip(provisions).filter(|(_, weaker)| within(weaker));
                    weaker.for_each(|(aside, _)| *aside = true);
                }
            }
        }
        aside
    }

    fn join(&self, id: QuestionId, one: &Side, two: &Side, stricter: bool) -> Side {
        Side {
            parts: one.parts.iter().zip(&two.parts).map(|(one, two)| self.of_two(id, one, two, stricter)).collect(),
            named: one.named.union(two.named),
            refer: one.refer || two.refer,
            reaches: one.reaches || two.reaches,
        }
    }

    /// The kinds of power that a place holds over a question.
    fn powers(&self, depth: usize, id: QuestionId) -> Vec<PowerKind> {
        let subject = self.subject_of(id);
        let mut kinds: Vec<PowerKind> = self
            .law(self.whole())
            .into_iter()
            .filter(|by| self.depth(*by) == depth && self.in_effect(*by, self.whole()))
            .flat_map(|by| &self.instrument(by).powers)
            .filter(|power| power.questions.contains(&id) || power.subjects.contains(&subject))
            .filter(|power| self.facts.hold(&power.scope))
            .map(|power| power.kind)
            .collect();
        kinds.sort_by_key(|kind| match kind {
            PowerKind::Floor => 0,
            PowerKind::Ceiling => 1,
            PowerKind::Preempts => 2,
        });
        kinds.dedup();
        kinds
    }

    fn after_powers(&self, id: QuestionId) -> Side {
        let mut now = self.side(id, self.whole());
        for depth in (0..self.path.len()).rev() {
            for kind in self.powers(depth, id) {
                let outer = self.side(id, depth + 1);
                now = match kind {
                    PowerKind::Preempts => outer,
                    PowerKind::Floor => self.join(id, &outer, &now, true),
                    PowerKind::Ceiling if outer.reaches => self.join(id, &outer, &now, false),
                    PowerKind::Ceiling => now,
                };
            }
        }
        now
    }

    /// Whether a ladder stands at its last rung.
    fn at_the_end(&self, id: QuestionId, parts: &[Part]) -> bool {
        match &self.question(id).order {
            Order::Ladder(rungs) => parts.iter().all(|part| *part == Part::Rung(rungs.len() as u16 - 1)),
            _ => false,
        }
    }

    /// The final rung of a ladder; nothing where it is referred.
    pub(super) fn rung(&self, id: QuestionId) -> Option<u16> {
        let found = self.closed(id);
        match (found.refer, found.parts.first()) {
            (false, Some(Part::Rung(rung))) => Some(*rung),
            _ => None,
        }
    }

    /// The answer but for contrary questions.
    fn closed(&self, id: QuestionId) -> Final {
        if let Some(found) = self.finals.borrow().get(&id) {
            return found.clone();
        }
        let side = self.after_powers(id);
        let conflict =
            matches!(self.question(id).order, Order::Only(_)) && side.parts.contains(&Part::Set(Terms::NONE));
        let found = Final {
            // Beside the strictest rung a referral changes nothing.
            refer: side.refer && !self.at_the_end(id, &side.parts),
            parts: side.parts,
            named: side.named,
            conflict,
            reaches: side.reaches,
        };
        self.finals.borrow_mut().insert(id, found.clone());
        found
    }

    /// The final answer.
    pub(super) fn answer(&self, id: QuestionId) -> Final {
        let mut found = self.closed(id);
        for (number, other) in self.library.glossary.questions.iter().enumerate() {
            let against = QuestionId(number as u16);
            let contrary = other.contrary.contains(&id) || self.question(id).contrary.contains(&against);
            if contrary && self.at_the_end(id, &found.parts) && self.at_the_end(against, &self.closed(against).parts) {
                found.conflict = true;
            }
        }
        found
    }
}
