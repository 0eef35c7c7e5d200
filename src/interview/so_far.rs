//! A job on its way through an interview: what was said, and what was said not
//! to be known. It is a value: a step back is an earlier one.

use super::step::Topic;
use crate::glossary::model::{FieldId, GroupId, PlaceId};
use crate::glossary::{self, Fault};
use crate::job::model::{Entries, Given, Job};
use crate::job::{Defaults, Desk};
use crate::syntax::limits::ENTRIES;
use crate::verdict::paths::Path;
use std::collections::BTreeSet;

/// What a reader answers to a step.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Reply {
    Place(PlaceId),
    Value(Given),
    /// The list has so many entries, and perhaps others that are not known.
    Entries {
        count: usize,
        more: bool,
    },
    /// It is not known.
    Unknown,
}

/// A job so far.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SoFar {
    pub(crate) job: Job,
    /// What the reader said is not known.
    pub(crate) waived: BTreeSet<Path>,
}

/// Why an answer cannot stand beside the others.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Refused {
    /// It does not answer this step.
    Misplaced,
    /// Too many entries.
    TooMany(Fault),
    /// Dates contradict each other.
    Dates(Vec<(FieldId, Fault)>),
}

impl SoFar {
    /// A job at a place of which nothing else is known but what the options say.
    ///
    /// # Errors
    /// Where the options contradict each other.
    pub(crate) fn at(desk: Desk<'_>, place: PlaceId, defaults: &Defaults) -> Result<SoFar, Refused> {
        let job = desk.blank(place, defaults).map_err(Refused::Dates)?;
        Ok(SoFar::of(job))
    }

    /// An interview that begins with what a job says already.
    pub(crate) fn of(job: Job) -> SoFar {
        SoFar { job, waived: BTreeSet::new() }
    }

    /// The same with one answer more, or another one.
    ///
    /// # Errors
    /// Where the answer does not fit the step, or contradicts the others.
    pub(crate) fn answered(&self, desk: Desk<'_>, topic: Topic, reply: &Reply) -> Result<SoFar, Refused> {
        match (topic, reply) {
            (Topic::Place, Reply::Place(place)) => Ok(self.moved(desk, *place)),
            (Topic::Fact(path @ (Path::Fact(_) | Path::Attribute { .. })), Reply::Value(given)) => {
                self.with(desk, path, given.clone())
            }
            (Topic::Fact(path @ (Path::Fact(_) | Path::Attribute { .. })), Reply::Unknown) => {
                let mut next = self.with(desk, path, Given::Unknown)?;
                next.waived.insert(path);
                Ok(next)
            }
            (Topic::Fact(Path::List(group) | Path::Further(group)), Reply::Entries { count, more }) => {
                self.listed(desk, group, *count, *more)
            }
            (Topic::Fact(Path::List(group) | Path::Further(group)), Reply::Unknown) => {
                let known = self.job.lists.get(usize::from(group.0)).map_or(0, |list| list.entries.len());
                self.listed(desk, group, known, true)
            }
            _ => Err(Refused::Misplaced),
        }
    }

    fn with(&self, desk: Desk<'_>, path: Path, given: Given) -> Result<SoFar, Refused> {
        let mut next = self.clone();
        let slot = match path {
            Path::Fact(field) => next.job.values.get_mut(usize::from(field.0)),
            Path::Attribute { group, entry, field } => {
                let list = next.job.lists.get_mut(usize::from(group.0));
                let column = usize::from(desk.glossary[field].column);
                list.and_then(|list| list.entries.get_mut(entry)).and_then(|values| values.get_mut(column))
            }
            Path::List(_) | Path::Further(_) | Path::Span(_) => None,
        };
        *slot.ok_or(Refused::Misplaced)? = given;
        next.waived.remove(&path);
        next.job = desk.checked(next.job).map_err(Refused::Dates)?;
        Ok(next)
    }

    /// The same with so many entries in a list; those that are named stay, the
    /// last ones go first. Others of which nothing is known are as good as waived.
    fn listed(&self, desk: Desk<'_>, group: GroupId, count: usize, more: bool) -> Result<SoFar, Refused> {
        if count > ENTRIES.most {
            return Err(Refused::TooMany(glossary::past(&ENTRIES)));
        }
        let mut next = self.clone();
        let empty = vec![Given::Unknown; desk.glossary[group].fields.len()];
        let list = next.job.lists.get_mut(usize::from(group.0)).ok_or(Refused::Misplaced)?;
        list.entries.resize(count, empty);
        list.more = more;
        next.waived.retain(|path| match path {
            Path::List(known) | Path::Further(known) => *known != group,
            Path::Attribute { group: known, entry, .. } => *known != group || *entry < count,
            _ => true,
        });
        if more {
            next.waived.insert(if count == 0 { Path::List(group) } else { Path::Further(group) });
        }
        Ok(next)
    }

    /// The same without one entry of a list, counted from 0; those behind it move up.
    ///
    /// # Errors
    /// Where the list has no such entry.
    pub(crate) fn without(&self, group: GroupId, entry: usize) -> Result<SoFar, Refused> {
        let mut next = self.clone();
        let list = next.job.lists.get_mut(usize::from(group.0)).ok_or(Refused::Misplaced)?;
        if entry >= list.entries.len() {
            return Err(Refused::Misplaced);
        }
        list.entries.remove(entry);
        let up = |path: Path| match path {
            Path::Attribute { group: known, entry: at, .. } if known == group && at == entry => None,
            Path::Attribute { group: known, entry: at, field } if known == group && at > entry => {
                Some(Path::Attribute { group, entry: at - 1, field })
            }
            Path::Further(known) if known == group && list.entries.is_empty() => Some(Path::List(group)),
            other => Some(other),
        };
        next.waived = self.waived.iter().copied().filter_map(up).collect();
        Ok(next)
    }

    /// The same job at another place: what is not known there is no longer said.
    fn moved(&self, desk: Desk<'_>, place: PlaceId) -> SoFar {
        let glossary = desk.glossary;
        let seen = |scope| glossary.known_at(scope, place, desk.territory);
        let keep = |id: FieldId, given: &Given| -> Given {
            let field = &glossary[id];
            if !seen(field.scope) {
                return Given::Unknown;
            }
            let Some(choice) = glossary.choice_of(field.shape) else { return given.clone() };
            let known = glossary.terms_at(choice, Some(place), desk.territory);
            match given {
                Given::Term(term) if !known.has(*term) => Given::Unknown,
                Given::Set(terms) if !terms.within(known) => Given::Unknown,
                other => other.clone(),
            }
        };
        let mut job = self.job.clone();
        job.place = place;
        for (given, number) in job.values.iter_mut().zip(0u16..) {
            *given = keep(FieldId(number), given);
        }
        for (list, group) in job.lists.iter_mut().zip(&glossary.groups) {
            if !seen(group.scope) {
                *list = Entries { entries: Vec::new(), more: group.list };
                continue;
            }
            for values in &mut list.entries {
                for (given, field) in values.iter_mut().zip(&group.fields) {
                    *given = keep(*field, given);
                }
            }
        }
        SoFar { job, waived: self.waived.clone() }
    }
}
