//! A job looked at from another place: the same facts, told to a law that may not know all of
//! them.
//!
//! A fact, a list or a term that is declared in one place says nothing elsewhere. It is left out
//! there and named, so that whoever compares places can tell it; nothing is dropped in silence.

use super::draft::Draft;
use super::model::{Entries, Given, Job};
use super::{Defaults, Desk, JobProblem};
use crate::glossary::model::{ChoiceId, FieldId, GroupId, PlaceId, Scope, Shape};
use crate::values::{Date, Terms};

/// A job at another place.
#[derive(Clone, Debug)]
pub(crate) struct Moved {
    pub(crate) job: Job,
    /// What the place does not know of it.
    pub(crate) left: Vec<Left>,
}

/// What a job says and a place does not know.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Left {
    /// The fact or the list: `roof`, `run[0].jacket`.
    pub(crate) path: String,
    /// The term of it that the place does not know; nothing where it does not know the fact.
    pub(crate) term: Option<Box<str>>,
    /// The place that declares it.
    pub(crate) known_in: PlaceId,
}

/// The job at another place, its unsaid dates there being this day.
///
/// # Errors
/// Where a date that is given contradicts one that the job says.
pub(crate) fn moved(job: &Job, to: PlaceId, date: Option<Date>, desk: Desk<'_>) -> Result<Moved, Vec<JobProblem>> {
    let mut mover = Mover { desk, to, left: Vec::new() };
    let mut draft = Draft::new(desk, to);
    draft.job.reference.clone_from(&job.reference);
    for (field, id) in desk.glossary.fields.iter().zip(0u16..) {
        let id = FieldId(id);
        let given = job.values.get(usize::from(id.0)).unwrap_or(&Given::Unknown);
        let kept = mover.kept(given, id, &field.path);
        if let Some(slot) = draft.job.values.get_mut(usize::from(id.0)) {
            *slot = kept;
        }
    }
    for (number, (group, entries)) in (0u16..).zip(desk.glossary.groups.iter().zip(&job.lists)) {
        let Some(slot) = draft.job.lists.get_mut(usize::from(number)) else { continue };
        if group.list {
            *slot = mover.entries(entries, GroupId(number)).unwrap_or_else(|| slot.clone());
        }
    }
    let Mover { left, .. } = mover;
    Ok(Moved { job: dated(draft.job, date, desk)?, left })
}

/// The job, its unsaid dates being this day.
///
/// # Errors
/// Where a date that is given contradicts one that the job says.
pub(crate) fn dated(job: Job, date: Option<Date>, desk: Desk<'_>) -> Result<Job, Vec<JobProblem>> {
    Draft::of(desk, job).finish(&Defaults { place: None, date }).map_err(|faults| {
        let told = |(field, fault): (FieldId, _)| JobProblem::new(desk.glossary[field].path.to_string(), fault);
        faults.into_iter().map(told).collect()
    })
}

struct Mover<'a> {
    desk: Desk<'a>,
    to: PlaceId,
    left: Vec<Left>,
}

impl Mover<'_> {
    /// The place that alone knows what has this scope, where that is not the place moved to.
    fn stranger(&self, scope: Scope) -> Option<PlaceId> {
        scope.filter(|_| !self.desk.seen(scope, self.to))
    }

    fn leave(&mut self, path: &str, term: Option<&str>, known_in: PlaceId) {
        self.left.push(Left { path: path.to_owned(), term: term.map(Into::into), known_in });
    }

    /// A value as the place knows it.
    fn kept(&mut self, given: &Given, field: FieldId, path: &str) -> Given {
        if *given == Given::Unknown {
            return Given::Unknown;
        }
        let known = &self.desk.glossary[field];
        let group = known.group.and_then(|group| self.desk.glossary[group].scope);
        if let Some(home) = self.stranger(known.scope).or_else(|| self.stranger(group)) {
            self.leave(path, None, home);
            return Given::Unknown;
        }
        match (given, known.shape) {
            (Given::Term(number), Shape::Choice(choice)) => match self.unknown(choice, *number) {
                Some((term, home)) => {
                    self.leave(path, Some(&term), home);
                    Given::Unknown
                }
                None => given.clone(),
            },
            (Given::Set(terms), Shape::Several(choice)) => {
                let mut kept = *terms;
                for number in terms.iter() {
                    if let Some((term, home)) = self.unknown(choice, number) {
                        self.leave(path, Some(&term), home);
                        kept = kept.without(Terms::one(number));
                    }
                }
                Given::Set(kept)
            }
            _ => given.clone(),
        }
    }

    /// A term that the place does not know, with the place that declares it.
    fn unknown(&self, choice: ChoiceId, number: u16) -> Option<(Box<str>, PlaceId)> {
        let term = self.desk.glossary[choice].terms.get(usize::from(number))?;
        Some((term.name.clone(), self.stranger(term.scope)?))
    }

    /// A list as the place knows it; nothing where it does not know the list.
    fn entries(&mut self, entries: &Entries, group: GroupId) -> Option<Entries> {
        let glossary = self.desk.glossary;
        let list = &glossary[group];
        if let Some(home) = self.stranger(list.scope) {
            if !entries.entries.is_empty() || !entries.more {
                self.leave(&list.name, None, home);
            }
            return None;
        }
        let mut kept = Entries { entries: Vec::with_capacity(entries.entries.len()), more: entries.more };
        for (number, entry) in entries.entries.iter().enumerate() {
            let row = entry.iter().zip(&list.fields).map(|(given, field)| {
                let path = format!("{}[{number}].{}", list.name, glossary[*field].name);
                self.kept(given, *field, &path)
            });
            kept.entries.push(row.collect());
        }
        Some(kept)
    }
}
