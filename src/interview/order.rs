//! The order of the steps.
//!
//! The place, the date by which instruments are dated, what the reader can know
//! by stages, what others know by who they are and by stages, what nobody is said
//! to know. Within each, the order in which the glossary declares: a list stands
//! where its first attribute could be known, and its entries after it one by one.
//! What decides whether the rest of its record is asked at all goes before that rest,
//! and what is presumed from other facts comes after them.

use super::Asker;
use super::step::{Part, Topic};
use crate::glossary::model::{Field, FieldId, GroupId, Known};
use crate::syntax::diagnostic::Location;
use crate::verdict::Lexicon;
use crate::verdict::paths::Path;
use std::collections::BTreeSet;

/// Where a step stands; the least first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Rank {
    tier: u8,
    /// For what others know, where they are first named.
    whom: usize,
    stage: usize,
    /// Where the fact, its record or its list is declared.
    declared: Location,
    /// 0 for facts and whole lists, else the entry's number from 1.
    entry: usize,
    field: Location,
}

/// Tier, whom, stage.
type Key = (u8, usize, usize);

const PLACE: u8 = 0;
const DATE: u8 = 1;
const OWN: u8 = 2;
const OTHERS: u8 = 3;
const NOBODY: u8 = 4;

/// Who and when, by their order.
pub(super) struct Order<'a, 'w> {
    asker: Asker<'w>,
    lexicon: Lexicon<'a>,
    /// Everybody who knows anything, in the order in which the glossary names them.
    all: Vec<&'a str>,
    /// Attributes of records on which it hangs whether a question is asked.
    gates: BTreeSet<FieldId>,
}

impl<'a, 'w> Order<'a, 'w> {
    pub(super) fn new(asker: Asker<'w>, lexicon: Lexicon<'a>) -> Order<'a, 'w> {
        let mut fields: Vec<&Field> = lexicon.fields.iter().collect();
        fields.sort_by_key(|field| field.at);
        let mut all: Vec<&'a str> = Vec::new();
        for who in fields.iter().flat_map(|field| &field.known).flat_map(|(who, _)| who) {
            if !all.contains(&&**who) {
                all.push(who);
            }
        }
        let record = |id: &FieldId| lexicon.field(*id).is_some_and(|field| field.group.is_some());
        let deciding = lexicon.questions.iter().filter_map(|question| question.asked.as_ref());
        let gates = deciding.flat_map(|asked| asked.fields()).filter(record).collect();
        Order { asker, lexicon, all, gates }
    }

    /// Where a step stands, whether it is the reader's own, and its part.
    pub(super) fn place(&self, topic: Topic) -> (Rank, bool, Part<'a>) {
        let (fields, declared, entry, field) = match topic {
            Topic::Place => return (rank(PLACE, 0, 0, Location::default(), 0), true, NO_PART),
            Topic::Fact(Path::Fact(id)) if self.presumed_from(id).is_some() => {
                let own = self.lexicon.field(id).map_or_else(Location::default, |field| field.at);
                let behind = self.presumed_from(id).unwrap_or_default().max(self.declared(id));
                (vec![id], behind, usize::MAX, own)
            }
            Topic::Fact(Path::Fact(id)) => {
                let own = self.lexicon.field(id).filter(|_| !self.gates.contains(&id)).map(|field| field.at);
                (vec![id], self.declared(id), 0, own.unwrap_or_default())
            }
            Topic::Fact(Path::Attribute { group, entry, field }) => {
                let own = self.lexicon.field(field).map_or_else(Location::default, |field| field.at);
                (vec![field], self.at(group), entry.saturating_add(1), own)
            }
            Topic::Fact(Path::List(group)) => (self.attributes(group), self.at(group), 0, Location::default()),
            Topic::Fact(Path::Further(group)) => {
                (self.attributes(group), self.at(group), usize::MAX, Location::default())
            }
            Topic::Fact(Path::Span(_)) => (Vec::new(), Location::default(), 0, Location::default()),
        };
        let known = fields.iter().filter_map(|id| self.lexicon.field(*id)).flat_map(|field| &field.known);
        let best = known.flat_map(|known| self.knowers(known)).min_by_key(|(key, _)| *key);
        let best = best.map(|best| match topic {
            Topic::Fact(Path::Fact(id)) if self.gates.contains(&id) => self.early(id, best),
            _ => best,
        });
        let Some(((tier, whom, stage), part)) = best else {
            return (Rank { entry, field, ..rank(NOBODY, 0, 0, declared, 0) }, false, NO_PART);
        };
        let own = tier <= OWN;
        let first = self.lexicon.roles.dates;
        let tier = if first.is_some_and(|id| topic == Topic::Fact(Path::Fact(id))) { DATE } else { tier };
        (Rank { entry, field, ..rank(tier, whom, stage, declared, 0) }, own, part)
    }

    fn knowers(&self, known: &'a Known) -> impl Iterator<Item = (Key, Part<'a>)> {
        let (who, when) = known;
        let when = when.as_deref();
        let stages = self.asker.stages;
        // Nothing said of when: it can be known from the beginning.
        let stage = when.map_or(0, |when| stages.iter().position(|stage| *stage == when).unwrap_or(stages.len()));
        who.iter().map(move |who| {
            let part = Part { who: Some(&**who), when };
            if **who == *self.asker.who {
                return ((OWN, 0, stage), part);
            }
            let whom = self.all.iter().position(|other| **other == **who).unwrap_or(self.all.len());
            ((OTHERS, whom, stage), part)
        })
    }

    /// The same at the stage at which the first of the rest of its record is asked.
    fn early(&self, id: FieldId, best: (Key, Part<'a>)) -> (Key, Part<'a>) {
        let ((tier, whom, stage), part) = best;
        let rest = self.lexicon.field(id).and_then(|field| field.group).map(|group| self.attributes(group));
        let known = rest.iter().flatten().filter_map(|id| self.lexicon.field(*id)).flat_map(|field| &field.known);
        let same = known
            .flat_map(|known| self.knowers(known))
            .filter(|((_, _, other), to)| to.who == part.who && *other < stage);
        same.min_by_key(|((.., stage), _)| *stage).map_or(best, |((.., stage), part)| ((tier, whom, stage), part))
    }

    /// Where the last of the facts is declared from which a fact is presumed.
    fn presumed_from(&self, id: FieldId) -> Option<Location> {
        let presumed = self.lexicon.field(id)?.presumed.as_ref()?;
        presumed.fields().into_iter().map(|id| self.declared(id)).max()
    }

    fn attributes(&self, group: GroupId) -> Vec<FieldId> {
        let known = |id: &FieldId| self.lexicon.field(*id).is_some_and(|field| self.lexicon.known(field.scope));
        self.lexicon.group(group).map(|group| group.fields.iter().copied().filter(known).collect()).unwrap_or_default()
    }

    fn at(&self, group: GroupId) -> Location {
        self.lexicon.group(group).map_or_else(Location::default, |group| group.at)
    }

    /// Where a fact is declared; an attribute of a record with its record.
    fn declared(&self, id: FieldId) -> Location {
        let Some(field) = self.lexicon.field(id) else { return Location::default() };
        field.group.map_or(field.at, |group| self.at(group))
    }
}

const NO_PART: Part<'static> = Part { who: None, when: None };

fn rank(tier: u8, whom: usize, stage: usize, declared: Location, entry: usize) -> Rank {
    Rank { tier, whom, stage, declared, entry, field: Location::default() }
}
