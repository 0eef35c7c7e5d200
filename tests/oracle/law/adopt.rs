//! Which adoption stands, subject by subject.

use super::clerk::Clerk;
use super::force::View;
use crate::glossary::model::SubjectId;
use crate::job::model::Given;
use crate::law::instrument::{Adoption, InstrumentId};
use crate::law::text::EditionId;
use crate::values::Date;

/// An adoption: the instrument, and its place among the instrument's adoptions.
pub(super) type Adopting = (InstrumentId, usize);

impl Clerk<'_> {
    pub(super) fn adoption(&self, (id, number): Adopting) -> &Adoption {
        &self.instrument(id).adoptions[number]
    }

    fn adoptions(&self, view: View) -> Vec<Adopting> {
        let law = self.law(view);
        law.into_iter()
            .flat_map(|id| (0..self.instrument(id).adoptions.len()).map(move |number| (id, number)))
            .collect()
    }

    pub(super) fn code_of(&self, edition: EditionId) -> &crate::law::text::Code {
        let codes = &self.library.codes;
        codes.code_of(codes.edition(edition).expect("an edition")).expect("its code")
    }

    /// The first day on which it may be in force, and the day adopted.
    fn rank(&self, adopting: Adopting) -> (Option<Date>, Option<Date>) {
        let own = self.instrument(adopting.0);
        let first = own.first_day();
        let day = match self.adoption(adopting).from {
            Some(from) => Some(first.map_or(from, |first| first.max(from))),
            None => first,
        };
        (day, own.adopted.or(day))
    }

    /// Whether its scope and, for `newest`, its time fit the job.
    fn fits(&self, adopting: Adopting) -> bool {
        let adoption = self.adoption(adopting);
        let by = self.instrument(adopting.0).force.expect("law is in force by a date").by;
        let timely = match self.facts.value(by, None) {
            Given::Date(date) => {
                adoption.from.is_none_or(|from| *date >= from) && adoption.before.is_none_or(|before| *date < before)
            }
            _ => adoption.from.is_none() && adoption.before.is_none(),
        };
        timely && self.facts.hold(&adoption.scope)
    }

    /// The adoptions that stand for a subject.
    pub(super) fn standing(&self, subject: SubjectId, view: View) -> Vec<Adopting> {
        let on: Vec<Adopting> = self
            .adoptions(view)
            .into_iter()
            .filter(|adopting| self.adoption(*adopting).subjects.contains(&subject) && self.fits(*adopting))
            .filter(|adopting| !self.taken_over(subject, self.depth(adopting.0), view))
            .collect();
        let supersedes = |new: Adopting, old: Adopting| {
            let (inner, outer) = (self.depth(new.0), self.depth(old.0));
            let later = inner > outer || inner == outer && self.rank(new) > self.rank(old);
            let code = &self.code_of(self.adoption(old).edition).name;
            // What a repealed adoption had displaced stays away; an outer place's is inherited again.
            let displaces = self.in_effect(new.0, view) || inner == outer && self.left_a_gap(new.0, view);
            new.0 != old.0 && later && !self.adoption(new).beside.contains(code) && displaces
        };
        on.iter()
            .copied()
            .filter(|old| self.in_effect(old.0, view) && !on.iter().any(|new| supersedes(*new, *old)))
            .collect()
    }

    /// Every adoption that stands for some subject, with the subjects.
    pub(super) fn in_force(&self, view: View) -> Vec<(Adopting, Vec<SubjectId>)> {
        let mut found: Vec<(Adopting, Vec<SubjectId>)> = Vec::new();
        for number in 0..self.library.glossary.subjects.len() {
            let subject = SubjectId(number as u16);
            for adopting in self.standing(subject, view) {
                match found.iter_mut().find(|(other, _)| *other == adopting) {
                    Some((_, subjects)) => subjects.push(subject),
                    None => found.push((adopting, vec![subject])),
                }
            }
        }
        found.sort();
        found
    }
}
