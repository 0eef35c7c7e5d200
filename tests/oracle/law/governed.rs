//! Which jobs of a place are governed by some code on a subject: the clerk is asked
//! for every job that its adoptions can tell apart, with every beginning that is not
//! known taken both ways.

use super::clerk::Clerk;
use super::compare::spans;
use super::jobs::Reads;
use crate::glossary::Territory;
use crate::glossary::model::{FieldId, PlaceId, QuestionId, SubjectId};
use crate::job::model::{Entries, Given, Job};
use crate::law::instrument::{Adoption, Instrument, InstrumentId, Power, Weight};
use crate::law::library::Library;
use crate::syntax::tree::PowerKind;
use crate::values::Date;
use crate::verdict::survey::Window;
use std::collections::{BTreeMap, BTreeSet};

/// Why nothing is said of a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Left {
    /// There are too many jobs.
    TooLarge,
    /// Its instruments hang on each other in a circle.
    Circle,
    /// A code may only answer what an outer place has taken away.
    Unsure,
}

/// What the clerk says of one job.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Governs {
    Yes,
    No,
    Unsure,
    Circle,
}

/// A place and a subject on which jobs are tried.
pub(super) struct Place<'a> {
    pub(super) library: &'a Library,
    pub(super) place: PlaceId,
    pub(super) subject: SubjectId,
    law: Vec<InstrumentId>,
    pub(super) window: Window,
    pub(super) dating: BTreeSet<FieldId>,
    first_day: Option<Date>,
}

/// What came of trying them.
pub(super) struct Tried {
    pub(super) jobs: Vec<Job>,
    /// Whether some job is governed, be it only where an instrument of unknown days has begun.
    pub(super) governed: bool,
    pub(super) holes: u64,
    /// The days of the jobs, and those of jobs in a hole.
    pub(super) days: BTreeSet<Date>,
    pub(super) open: BTreeSet<Date>,
}

fn adopts(own: &Instrument, subject: SubjectId) -> bool {
    own.adoptions.iter().any(|adoption| adoption.subjects.contains(&subject))
}

impl<'a> Place<'a> {
    pub(super) fn new(library: &'a Library, place: PlaceId, subject: SubjectId, asked: Window) -> Place<'a> {
        let all = library.places.path(place).into_iter().flat_map(|place| library.of_issuer(place).iter().copied());
        let instrument = |id: &InstrumentId| library.instruments.get(id.0 as usize).expect("an instrument");
        let stated: Vec<InstrumentId> = all.filter(|id| instrument(id).is_law()).collect();
        let by = |own: &Instrument| own.force.map(|force| force.by).into_iter().chain(own.election.map(|own| own.by));
        let first =
            |ids: &mut dyn Iterator<Item = &InstrumentId>| ids.filter_map(|id| instrument(id).first_day()).min();
        let from = asked.from.or_else(|| first(&mut stated.iter().filter(|id| adopts(instrument(id), subject))));
        let law = stated.iter().copied().filter(|id| instrument(id).kind.weight() == Weight::Binding);
        Place {
            library,
            place,
            subject,
            window: Window { from, ..asked },
            dating: stated.iter().flat_map(|id| by(instrument(id))).collect(),
            first_day: first(&mut stated.iter()),
            law: law.collect(),
        }
    }

    fn instruments(&self) -> impl Iterator<Item = &Instrument> {
        self.law.iter().filter_map(|id| self.library.instruments.get(id.0 as usize))
    }

    /// Whether the place itself adopts a code on the subject or answers to it.
    pub(super) fn speaks(&self) -> bool {
        let on = |question: QuestionId| self.library.glossary[question].subject == self.subject;
        self.instruments().filter(|own| own.issuer == self.place).any(|own| {
            let mut said = own.sections.iter().flat_map(|(_, section)| section.questions());
            adopts(own, self.subject) || said.any(on)
        })
    }

    /// Whether the place or one around it adopts a code on the subject.
    pub(super) fn adopted(&self) -> bool {
        self.instruments().any(|own| adopts(own, self.subject))
    }

    /// Whether a place within adopts one.
    pub(super) fn adopted_within(&self) -> bool {
        let within = |place| place != self.place && self.library.places.within(place, self.place);
        self.library.instruments.iter().any(|own| own.is_law() && within(own.issuer) && adopts(own, self.subject))
    }

    /// Whether a date may lie on a day: those by which instruments are in force lie in
    /// the window.
    pub(super) fn may(&self, field: FieldId, day: Date) -> bool {
        let inside =
            self.window.from.is_none_or(|from| day >= from) && self.window.through.is_none_or(|last| day <= last);
        inside || !self.dating.contains(&field)
    }

    /// Not all of these dates lie before the first law.
    fn spoken_to(&self, job: &Job) -> bool {
        let from = |field: &FieldId| match (&job.values[usize::from(field.0)], self.first_day) {
            (Given::Date(day), Some(first)) => *day >= first,
            _ => true,
        };
        self.dating.is_empty() || self.dating.iter().any(from)
    }

    /// The questions on the subject that an adopted text answers as it is printed, and
    /// those that some amendment may add.
    fn answers(&self, adoption: &Adoption) -> [BTreeSet<QuestionId>; 2] {
        let on = |question: &QuestionId| self.library.glossary[*question].subject == self.subject;
        let printed = self.library.codes.edition(adoption.edition).expect("an edition").sections.iter();
        let patches = self.instruments().flat_map(|own| &own.amends).flat_map(|amend| &amend.patches);
        [
            printed.flat_map(|printed| printed.section.questions()).filter(on).collect(),
            patches.flat_map(|patch| patch.section.questions()).filter(on).collect(),
        ]
    }

    /// Whether a code on the subject is in force for a job, one of which all is known.
    fn governs(&self, job: &Job, begun: BTreeMap<InstrumentId, bool>) -> Governs {
        let clerk = Clerk::new(self.library, job, begun);
        let whole = clerk.whole();
        let mut found = Governs::No;
        for adopting in clerk.standing(self.subject, whole) {
            let depth = clerk.depth(adopting.0);
            let outer = clerk.law(whole).into_iter().filter(|id| clerk.depth(*id) < depth);
            let holds = &|id: InstrumentId, power: &Power| {
                power.kind == PowerKind::Preempts && clerk.facts.hold(&power.scope) && clerk.in_effect(id, whole)
            };
            let powers = outer.flat_map(|id| clerk.instrument(id).powers.iter().filter(move |power| holds(id, power)));
            let taken: BTreeSet<QuestionId> = powers.flat_map(|power| power.questions.iter().copied()).collect();
            if taken.is_empty() {
                return Governs::Yes;
            }
            let [printed, added] = self.answers(clerk.adoption(adopting));
            found = match (printed.is_subset(&taken), added.is_subset(&taken)) {
                (false, _) => return Governs::Yes,
                (true, _) if printed.is_empty() && added.is_empty() => return Governs::Yes,
                (true, true) if !printed.is_empty() => found,
                _ => Governs::Unsure,
            };
        }
        if clerk.circular.get() { Governs::Circle } else { found }
    }

    /// The same, however instruments of unknown days may have begun.
    pub(super) fn ways(&self, job: &Job) -> Vec<Governs> {
        let spans = spans(self.library, job);
        let begun = |way: u32| spans.iter().enumerate().map(|(at, id)| (*id, way >> at & 1 == 1)).collect();
        (0..1u32 << spans.len()).map(|way| self.governs(job, begun(way))).collect()
    }

    /// Gives every attribute of an entry that is not said one of its values, another at
    /// each turn.
    pub(super) fn fill(&self, job: &mut Job, turn: usize) {
        let glossary = &self.library.glossary;
        let reads = Reads::of(self.library, &self.law, self.subject);
        for (list, group) in job.lists.iter_mut().zip(&glossary.groups) {
            for row in &mut list.entries {
                for (value, field) in row.iter_mut().zip(&group.fields).filter(|(value, _)| **value == Given::Unknown) {
                    let values = reads.values(*field);
                    *value = values.get(turn % values.len().max(1)).cloned().unwrap_or_default();
                }
            }
        }
    }

    /// Tries every job, on given days as well.
    pub(super) fn all(&self, days: &BTreeSet<Date>, most: usize) -> Result<Tried, Left> {
        let glossary = &self.library.glossary;
        let blank = Job {
            place: self.place,
            reference: None,
            values: vec![Given::Unknown; glossary.fields.len()],
            lists: vec![Entries::default(); glossary.groups.len()],
        };
        let window = self.window.from.into_iter().chain(self.window.through.map(Date::next)).chain(self.first_day);
        let days: BTreeSet<Date> = days.iter().copied().chain(window).collect();
        let jobs = Reads::of(self.library, &self.law, self.subject)
            .jobs(&blank, &days, most, &|field, day| self.may(field, day));
        let mut jobs = jobs.ok_or(Left::TooLarge)?;
        jobs.retain(|job| self.spoken_to(job));
        let mut tried = Tried { jobs, governed: false, holes: 0, days: BTreeSet::new(), open: BTreeSet::new() };
        for job in &tried.jobs {
            let ways = self.ways(job);
            if ways.contains(&Governs::Circle) {
                return Err(Left::Circle);
            }
            if ways.contains(&Governs::Unsure) {
                return Err(Left::Unsure);
            }
            let day = glossary.roles.dates.and_then(|field| match &job.values[usize::from(field.0)] {
                Given::Date(day) => Some(*day),
                _ => None,
            });
            tried.days.extend(day);
            tried.governed |= ways.contains(&Governs::Yes);
            if ways.iter().all(|way| *way == Governs::No) {
                tried.holes += 1;
                tried.open.extend(day);
            }
        }
        Ok(tried)
    }
}
