//! What the texts of one side alone say to some job without answering a question.

use super::cover;
use super::{Bench, tests_of};
use crate::law::model::{CondId, Note, SourceId};
use crate::verdict::diagram::Ref;
use crate::verdict::logic::{NO, YES};
use crate::verdict::survey::{Survey, Window};
use crate::verdict::{Memo, TooMany};

/// Conditions, each being tests that hold together.
type Cases = Vec<Vec<(CondId, bool)>>;

/// Something that only one side says to some job.
#[derive(Debug)]
pub(crate) struct Noted {
    pub(crate) text: Box<str>,
    /// The texts of that side that say it.
    pub(crate) sources: Vec<SourceId>,
    /// One of these holds for exactly the jobs to which only this side says it, each
    /// being tests that hold together; nothing where the jobs are too many to be told
    /// apart.
    pub(crate) conditions: Option<Cases>,
}

impl Bench<'_> {
    /// For which jobs each of the notes that are missing on the other side is said there
    /// by no text at all.
    pub(crate) fn noted(&self, missing: &[Vec<Note>; 2], window: Window) -> [Vec<Noted>; 2] {
        let [before, after] = missing;
        [self.noted_alone(0, before, window), self.noted_alone(1, after, window)]
    }

    fn noted_alone(&self, side: usize, missing: &[Note], window: Window) -> Vec<Noted> {
        let mut noted: Vec<Noted> = Vec::new();
        let said = |side: usize, text: &str| -> Vec<&Note> {
            self.joint.notes.get(side).into_iter().flatten().filter(|note| *note.text == *text).collect()
        };
        for note in missing {
            if noted.iter().any(|known| known.text == note.text) {
                continue;
            }
            let own = said(side, &note.text);
            let guards = |notes: &[&Note]| -> Vec<CondId> { notes.iter().map(|note| note.guard).collect() };
            let conditions = match self.said_alone(&guards(&own), &guards(&said(1 - side.min(1), &note.text)), window) {
                Ok(None) => continue,
                Ok(Some(conditions)) => Some(conditions),
                Err(TooMany) => None,
            };
            let sources = own.iter().map(|note| note.source).collect();
            noted.push(Noted { text: note.text.clone(), sources, conditions });
        }
        noted
    }

    /// The jobs that fulfil one of these conditions and none of the others; nothing
    /// where there is no such job.
    fn said_alone(&self, own: &[CondId], others: &[CondId], window: Window) -> Result<Option<Cases>, TooMany> {
        let matter = self.ground.matter();
        let mut memo = Memo::default();
        let cone = self.ground.cone([], own.iter().chain(others).copied());
        let mut survey = Survey::new(&matter, &mut memo, cone, window)?;
        let mut some = |conds: &[CondId]| -> Result<Ref, TooMany> {
            let mut all = Ref::end(NO);
            for cond in conds {
                let truth = survey.condition(*cond)?;
                let logic = survey.logic();
                let holds = logic.diagrams.map(truth, &mut |end| if end == YES { YES } else { NO })?;
                all = logic.or(all, holds)?;
            }
            Ok(all)
        };
        let (said, elsewhere) = (some(own)?, some(others)?);
        let care = survey.care();
        let logic = survey.logic();
        let not_elsewhere = logic.not(elsewhere)?;
        let alone = logic.and(said, not_elsewhere)?;
        let on = logic.and(alone, care)?;
        if on == Ref::end(NO) {
            return Ok(None);
        }
        let others_of_all = logic.not(alone)?;
        let off = logic.and(others_of_all, care)?;
        let (mut tests, answers) = tests_of::tests_in(&self.joint.law, own.iter().chain(others).copied());
        tests.extend(answers.into_iter().filter(|(_, question)| self.stays(*question)).map(|(cond, _)| cond));
        let mut atoms = Vec::with_capacity(tests.len());
        for cond in &tests {
            atoms.push(self.atom(&mut survey, *cond)?);
        }
        let covered = cover::cover(survey.logic(), &atoms, on, off)?;
        let told = covered.conditions.into_iter().map(|literals| {
            literals.iter().filter_map(|literal| Some((*tests.get(literal.atom)?, literal.holds))).collect()
        });
        Ok(Some(told.collect()))
    }

    /// Whether a question is one on both sides.
    fn stays(&self, question: usize) -> bool {
        !self.joint.pairs.iter().any(|pair| pair.sides.contains(&Some(question)))
    }
}
