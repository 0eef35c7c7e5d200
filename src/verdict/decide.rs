//! Answers that can be decided without trying completions, because everything
//! that bears on them is known.

use super::answer::{Answer, Form};
use super::finding::{compare, held_back, need, shown};
use super::found::Standing;
use super::plan::{Look, Show};
use super::truth::{Mark, Matter, Memo};
use crate::glossary::model::FieldId;
use crate::job::model::Given;
use crate::law::model::{Effect, ProvisionId};
use crate::syntax::tree::PowerKind;

/// A decided answer, before contradictions with other questions.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Decided {
    pub(crate) answer: Answer,
    /// Whether some provision reaches the job.
    pub(crate) reach: bool,
}

impl Memo {
    /// The answer to a question, where it is decided; later questions can test it.
    pub(crate) fn decide(&mut self, matter: &Matter<'_>, question: usize) -> Option<Decided> {
        let own = matter.law.questions.get(question)?;
        let form = &matter.plan.asks.get(question)?.form;
        let (mut answer, mut reach) = self.combine(matter, form, &own.whole)?;
        for power in &own.powers {
            match self.read(matter, power.cond) {
                Mark::No => continue,
                Mark::Yes => {}
                Mark::Refers | Mark::Open => return None,
            }
            let (outer, outer_reach) = self.combine(matter, form, &power.outer)?;
            match power.kind {
                PowerKind::Preempts => (answer, reach) = (outer, outer_reach),
                PowerKind::Floor => {
                    answer = form.both(answer, &outer);
                    reach = reach.or(outer_reach);
                }
                PowerKind::Ceiling => match outer_reach {
                    Mark::Yes => {
                        answer = form.either(answer, &outer);
                        reach = Mark::Yes;
                    }
                    Mark::No => {}
                    Mark::Refers | Mark::Open => return None,
                },
            }
        }
        form.close(&mut answer);
        match reach {
            Mark::Yes => Some(Decided { answer, reach: true }),
            Mark::No => Some(Decided { answer, reach: false }),
            Mark::Refers | Mark::Open => None,
        }
    }

    /// All demands together, and whether one reaches; nothing where an undecided
    /// provision could change the answer.
    fn combine(&mut self, matter: &Matter<'_>, form: &Form, list: &[ProvisionId]) -> Option<(Answer, Mark)> {
        let mut answer = form.loosest();
        let mut reach = Mark::No;
        let mut waiting = false;
        for id in list {
            let Some(provision) = matter.law.provision(*id) else { continue };
            let reaches = self.read(matter, provision.reach);
            if reaches == Mark::No {
                continue;
            }
            reach = reach.or(reaches);
            match (self.read(matter, provision.guard), &provision.effect) {
                (Mark::No, _) => {}
                (Mark::Open, _) => waiting = true,
                (Mark::Yes, Effect::Demand(demand)) => form.add(&mut answer, demand),
                _ => answer.refer = true,
            }
        }
        if waiting && !self.idle(matter, form, list, &answer) {
            return None;
        }
        Some((answer, reach))
    }

    /// Whether the undecided provisions add nothing to the answer.
    fn idle(&mut self, matter: &Matter<'_>, form: &Form, list: &[ProvisionId], answer: &Answer) -> bool {
        list.iter().filter_map(|id| matter.law.provision(*id)).all(|provision| {
            if self.read(matter, provision.reach) == Mark::No || self.read(matter, provision.guard) != Mark::Open {
                return true;
            }
            match &provision.effect {
                Effect::Demand(demand) => {
                    let mut with = answer.clone();
                    form.add(&mut with, demand);
                    // A guard can turn on a referred question in some completion.
                    let answers = matter.plan.tests_answers.get(provision.guard.0 as usize).copied().unwrap_or(true);
                    with == *answer && (answer.refer || !answers)
                }
                Effect::Refer(_) => answer.refer,
            }
        })
    }

    /// The finding in the only completion that matters; nothing where it hangs
    /// on something unknown.
    pub(crate) fn standing(
        &mut self,
        matter: &Matter<'_>,
        question: usize,
        answer: &Answer,
    ) -> Option<(Standing, bool)> {
        let own = matter.law.questions.get(question)?;
        let ask = matter.plan.asks.get(question)?;
        let asked = match self.read(matter, own.asked) {
            Mark::Open => return None,
            Mark::No => return Some((Standing::Absent, false)),
            Mark::Refers => None,
            Mark::Yes => Some(true),
        };
        let standing = match ask.show {
            Show::Nothing => Standing::Absent,
            Show::Never => shown(ask, answer, Some(false)),
            _ if !answer.conflict && ask.form.is_loosest(&answer.parts) => Standing::Absent,
            Show::Where(cond) => shown(
                ask,
                answer,
                match self.read(matter, cond) {
                    Mark::Open => return None,
                    Mark::Yes => Some(true),
                    Mark::No => Some(false),
                    Mark::Refers => None,
                },
            ),
            Show::Measure(field) => {
                let known = |field: FieldId| match matter.fact(field) {
                    Given::Unknown if matter.lexicon.list_of(field).is_none() => None,
                    value => Some(value),
                };
                let term = match ask.per {
                    Some(field) => Some(known(field)?),
                    None => None,
                };
                compare(ask, own, need(ask, answer, term), known(field)?)
            }
        };
        Some((held_back(standing, asked), true))
    }
}
