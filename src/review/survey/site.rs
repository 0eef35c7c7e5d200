//! One place under review: its law before all its jobs.

use crate::glossary::model::{PlaceId, QuestionId};
use crate::job::model::Job;
use crate::law::model::{CondId, Law};
use crate::review::show;
use crate::rules::Rules;
use crate::syntax::diagnostic::Diagnostic;
use crate::verdict::survey::{Ground, Survey, Window};
use crate::verdict::{Memo, TooMany};

/// A place with its law.
pub(super) struct Site<'a> {
    pub(super) rules: &'a Rules,
    pub(super) place: PlaceId,
    pub(super) ground: Ground<'a>,
    pub(super) window: Window,
}

impl<'a> Site<'a> {
    /// The place with its law.
    ///
    /// # Errors
    /// Where the law of the place cannot be made.
    pub(super) fn new(rules: &'a Rules, place: PlaceId, window: Window) -> Result<Site<'a>, &'a Diagnostic> {
        Ok(Site { rules, place, ground: rules.ground(place)?, window })
    }

    /// The law of the place.
    pub(super) fn law(&self) -> &Law {
        self.ground.matter().law
    }

    /// How many places lie around it.
    pub(super) fn depth(&self) -> u32 {
        self.rules.library().places.issuer(self.place).map_or(0, |issuer| issuer.depth)
    }

    /// Its printed name.
    pub(super) fn title(&self) -> &str {
        self.rules.library().places.issuer(self.place).map_or("", |issuer| &issuer.title)
    }

    /// Looks at questions and conditions together.
    ///
    /// # Errors
    /// Where the jobs are too many to be told apart.
    pub(super) fn survey<T>(
        &self,
        questions: &[usize],
        conds: &[CondId],
        work: impl FnOnce(&mut Survey<'_, '_>) -> Result<T, TooMany>,
    ) -> Result<T, TooMany> {
        let matter = self.ground.matter();
        let mut memo = Memo::default();
        let cone = self.ground.cone(questions.iter().copied(), conds.iter().copied());
        let mut survey = Survey::new(&matter, &mut memo, cone, self.window)?;
        work(&mut survey)
    }

    /// Whether one of these conditions, each looked at alone, holds for some job.
    ///
    /// # Errors
    /// Where the jobs are too many to be told apart.
    pub(super) fn some_job(&self, conds: impl IntoIterator<Item = CondId>) -> Result<bool, TooMany> {
        for cond in conds {
            let happens = self.survey(&[], &[cond], |survey| {
                let held = survey.condition(cond)?;
                survey.somewhere(held)
            })?;
            if happens {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// An example of a job at the place.
    pub(super) fn example(&self, job: &Job, name: &str, questions: &[QuestionId]) -> Option<String> {
        show::example(self.rules, job, name, questions)
    }
}
