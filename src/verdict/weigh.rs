//! All questions of a job, one after the other: decided at once where that is
//! possible, else over all completions.

use super::answer::Parts;
use super::bounds;
use super::complete::Session;
use super::cone::Cone;
use super::dates::Calendar;
use super::decide::Decided;
use super::found::{Found, State};
use super::truth::{Mark, Matter, Memo, Rung};
use crate::law::model::CondId;
use std::cell::OnceCell;

/// The memory of one job; can be used again for the next.
#[derive(Debug, Default)]
pub(crate) struct Scratch {
    pub(crate) memo: Memo,
    decided: Vec<Option<Decided>>,
    pub(crate) found: Vec<Found>,
}

impl Scratch {
    /// Answers every question of the law.
    pub(crate) fn weigh(&mut self, matter: &Matter<'_>) {
        self.weigh_some(matter, None);
    }

    /// Answers every question, but goes through completions only for those that
    /// are wanted; the others may then be left open without need.
    pub(crate) fn weigh_some(&mut self, matter: &Matter<'_>, wanted: Option<&[bool]>) {
        let skip = |question: usize| wanted.is_some_and(|wanted| wanted.get(question) != Some(&true));
        self.memo.reset(matter.law);
        self.decided.clear();
        self.found.clear();
        let calendar: OnceCell<Calendar> = OnceCell::new();
        let mut found: Vec<Option<Found>> = Vec::with_capacity(matter.law.questions.len());
        for question in 0..matter.law.questions.len() {
            let decided = self.memo.decide(matter, question);
            let mut early = None;
            let rung = match &decided {
                Some(decided) => rung(decided.answer.refer, Some(&decided.answer.parts)),
                None if skip(question) => {
                    early = Some(bounds::found(matter, &mut self.memo, &Cone::default(), question));
                    Rung::Undecided
                }
                None => {
                    let exact = exact(matter, &mut self.memo, &calendar, question);
                    let referred = exact.state == State::Referred;
                    let agreed = exact.value.as_ref().filter(|_| !exact.bounds_only && !exact.may_refer);
                    let rung = rung(referred, agreed);
                    early = Some(exact);
                    rung
                }
            };
            if let Some(slot) = self.memo.rungs.get_mut(question) {
                *slot = rung;
            }
            found.push(early);
            self.decided.push(decided);
        }
        for (question, early) in found.into_iter().enumerate() {
            let found = match early {
                Some(found) => found,
                None => match self.at_once(matter, question) {
                    Some(found) => found,
                    None if skip(question) => bounds::found(matter, &mut self.memo, &Cone::default(), question),
                    None => exact(matter, &mut self.memo, &calendar, question),
                },
            };
            self.found.push(found);
        }
    }

    /// What would be said of a question if its completions were too many.
    #[cfg(test)]
    pub(crate) fn bounds(&mut self, matter: &Matter<'_>, question: usize) -> Found {
        self.memo.reset(matter.law);
        let cone = matter.plan.cone(matter.law, &matter.lexicon, question);
        bounds::found(matter, &mut self.memo, cone, question)
    }

    fn at_once(&mut self, matter: &Matter<'_>, question: usize) -> Option<Found> {
        let decided = self.decided.get(question)?.as_ref()?;
        let own = matter.law.questions.get(question)?;
        let form = &matter.plan.asks.get(question)?.form;
        let mut against = false;
        if form.at_strict_end(&decided.answer.parts) {
            for other in &own.contrary {
                let other_form = &matter.plan.asks.get(*other)?.form;
                let other = self.decided.get(*other)?.as_ref()?;
                against |= other_form.at_strict_end(&other.answer.parts);
            }
        }
        let silent = !decided.reach;
        if against {
            let mut answer = decided.answer.clone();
            answer.conflict = true;
            let (standing, asked) = self.memo.standing(matter, question, &answer)?;
            return Some(Found::decided(&answer, silent, standing, asked));
        }
        let (standing, asked) = self.memo.standing(matter, question, &decided.answer)?;
        Some(Found::decided(&decided.answer, silent, standing, asked))
    }
}

/// What later conditions may take for granted of an answer.
fn rung(referred: bool, agreed: Option<&Parts>) -> Rung {
    match agreed {
        _ if referred => Rung::Referred,
        Some(parts) => Rung::At(parts.part(0).unwrap_or(0)),
        None => Rung::Undecided,
    }
}

/// A question answered over all completions; its bounds alone where that is too much.
fn exact(matter: &Matter<'_>, memo: &mut Memo, calendar: &OnceCell<Calendar>, question: usize) -> Found {
    let cone = matter.plan.cone(matter.law, &matter.lexicon, question);
    let calendar = calendar.get_or_init(|| Calendar::new(matter.plan, matter.law, matter.job));
    Session::new(matter, memo, cone, calendar)
        .and_then(|mut session| session.find(question))
        .unwrap_or_else(|_| bounds::found(matter, memo, cone, question))
}

/// What a condition is over all completions: where it holds in none, but in some turns on
/// a referred question, it refers; open where it differs, or where there are too many.
pub(crate) fn over_all(matter: &Matter<'_>, memo: &mut Memo, cond: CondId) -> Mark {
    let mark = memo.read(matter, cond);
    if mark != Mark::Open {
        return mark;
    }
    if let Some(tried) = memo.tried.get(&cond) {
        return *tried;
    }
    let cone = Cone::of_condition(matter.plan, matter.law, &matter.lexicon, cond);
    let calendar = Calendar::new(matter.plan, matter.law, matter.job);
    let decided = Session::new(matter, memo, &cone, &calendar).and_then(|mut session| {
        let (held, care) = (session.condition(cond)?, session.care()?);
        if !session.holds_somewhere(held, care)? {
            Ok(Mark::No)
        } else if !session.holds_plainly(held, care)? {
            Ok(Mark::Refers)
        } else if session.holds_everywhere(held, care)? {
            Ok(Mark::Yes)
        } else {
            Ok(Mark::Open)
        }
    });
    let decided = decided.unwrap_or(Mark::Open);
    memo.tried.insert(cond, decided);
    decided
}
