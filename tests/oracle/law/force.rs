//! Which instruments are in effect for the job: dates, windows of election,
//! suspensions and repeals.

use super::clerk::Clerk;
use crate::glossary::model::SubjectId;
use crate::job::model::Given;
use crate::law::instrument::{End, Instrument, InstrumentId, Start, Weight};
use crate::syntax::tree::PowerKind;
use crate::values::Date;

/// How many places from the outermost are looked at: all others, and their
/// instruments, are left out.
pub(super) type View = usize;

impl Clerk<'_> {
    pub(super) fn instrument(&self, id: InstrumentId) -> &Instrument {
        self.library.instruments.get(id.0 as usize).unwrap()
    }

    /// How many places lie around the issuer of an instrument of the path.
    pub(super) fn depth(&self, id: InstrumentId) -> usize {
        let issuer = self.instrument(id).issuer;
        self.path.iter().position(|place| *place == issuer).expect("an instrument of the path")
    }

    /// The law of the places in view: what binds, outermost place first, then by
    /// the day in force, then by the day adopted.
    pub(super) fn law(&self, view: View) -> Vec<InstrumentId> {
        let mut law: Vec<InstrumentId> = self
            .path
            .iter()
            .take(view)
            .flat_map(|place| self.library.of_issuer(*place).iter().copied())
            .filter(|id| self.instrument(*id).kind.weight() == Weight::Binding && self.instrument(*id).is_law())
            .collect();
        law.sort_by_key(|id| (self.depth(*id), self.instrument(*id).rank(), *id));
        law
    }

    /// The instructions of makers that are in force.
    pub(super) fn instructions(&self) -> Vec<InstrumentId> {
        let mut found = self.library.outsiders().to_vec();
        found.retain(|id| {
            let own = self.instrument(*id);
            own.kind.weight() == Weight::Instructions
                && own.is_law()
                && self.begun(*id)
                && !self.ended(*id)
                && self.applies(own)
        });
        found
    }

    fn date(&self, field: crate::glossary::model::FieldId) -> Option<Date> {
        match self.facts.value(field, None) {
            Given::Date(date) => Some(*date),
            Given::NoDate => None,
            other => panic!("a date is {other:?}"),
        }
    }

    fn applies(&self, own: &Instrument) -> bool {
        own.applies.iter().all(|cond| self.facts.hold(cond))
    }

    /// Whether the date lies in a span in which it is not known that the
    /// instrument has begun.
    pub(super) fn in_span(&self, id: InstrumentId) -> bool {
        let own = self.instrument(id);
        let Some(force) = own.force else { return false };
        let Some(date) = self.date(force.by) else { return false };
        match force.start {
            Start::On(_) => false,
            Start::Unknown => own.adopted.is_none_or(|adopted| date >= adopted),
            Start::Between(first, last) => first <= date && date < last,
        }
    }

    fn begun(&self, id: InstrumentId) -> bool {
        let Some(force) = self.instrument(id).force else { return false };
        let Some(date) = self.date(force.by) else { return false };
        match force.start {
            Start::On(day) => date >= day,
            Start::Between(_, last) if date >= last => true,
            Start::Unknown | Start::Between(..) => self.in_span(id) && self.spans[&id],
        }
    }

    pub(super) fn ended(&self, id: InstrumentId) -> bool {
        let Some(force) = self.instrument(id).force else { return false };
        match (force.end, self.date(force.by)) {
            (End::On(last), Some(date)) => date > last,
            _ => false,
        }
    }

    /// Whether the window of its election is open for the job.
    fn open(&self, id: InstrumentId) -> bool {
        let Some(election) = self.instrument(id).election else { return false };
        let Some(date) = self.date(election.by) else { return false };
        // A window that does not say when it opens does so when the instrument begins.
        if election.from.is_none() && self.instrument(id).force.is_some_and(|force| force.by == election.by) {
            return self.begun(id) && date <= election.through;
        }
        let opens = election.from.or_else(|| self.instrument(id).first_day());
        opens.is_none_or(|opens| date >= opens) && date <= election.through
    }

    fn elects(&self, later: bool) -> bool {
        let (field, earlier, late) = self.library.glossary.roles.text.expect("a fact chooses the text");
        *self.facts.value(field, None) == Given::Term(if later { late } else { earlier })
    }

    /// Whether the job goes by the earlier text: then the instrument has not
    /// taken effect. The choice is there only where some earlier text remains.
    pub(super) fn held_back(&self, id: InstrumentId, view: View) -> bool {
        self.open(id) && self.elects(false) && self.something_earlier(id, view)
    }

    fn something_earlier(&self, id: InstrumentId, view: View) -> bool {
        let own = self.instrument(id).rank();
        self.law(view).into_iter().any(|other| {
            self.offers(id, other)
                && self.taken_effect(other, view)
                && !self.ended(other)
                && !self.suspended(other, view)
                && !self
                    .law(view)
                    .into_iter()
                    .any(|by| by != id && self.instrument(by).rank() < own && self.repeals(by, other, view))
        })
    }

    /// Whether a window offers a text: an earlier one, and where the instrument
    /// adopts, one that adopts on the same subject.
    fn offers(&self, window: InstrumentId, other: InstrumentId) -> bool {
        let (own, old) = (self.instrument(window), self.instrument(other));
        let mut on = own.adoptions.iter().flat_map(|adoption| &adoption.subjects);
        let earlier = own.election.is_some() && old.rank() < own.rank();
        earlier
            && (own.adoptions.is_empty()
                || on.any(|subject| old.adoptions.iter().any(|adoption| adoption.subjects.contains(subject))))
    }

    /// Whether it has come into effect, be it over since or not.
    pub(super) fn taken_effect(&self, id: InstrumentId, view: View) -> bool {
        self.descend(|| {
            self.applies(self.instrument(id))
                && (self.begun(id) || self.brought_forward(id))
                && !self.held_back(id, view)
        })
    }

    pub(super) fn suspended(&self, id: InstrumentId, view: View) -> bool {
        self.ending(id, None, view)
    }

    /// Whether a section or patch of it is suspended by itself.
    pub(super) fn part_suspended(&self, id: InstrumentId, number: &str, view: View) -> bool {
        self.ending(id, Some(number), view)
    }

    fn ending(&self, id: InstrumentId, number: Option<&str>, view: View) -> bool {
        self.law(view).into_iter().any(|by| {
            self.instrument(by)
                .ends
                .iter()
                .any(|ends| !ends.repeals && ends.target == id && ends.number.as_deref() == number)
                && self.in_effect(by, view)
        })
    }

    /// Whether one instrument's repeal of another has taken effect.
    fn repeals(&self, by: InstrumentId, target: InstrumentId, view: View) -> bool {
        self.descend(|| {
            by != target
                && self.instrument(by).ends.iter().any(|ends| ends.repeals && ends.target == target)
                && self.taken_effect(by, view)
                && !self.suspended(by, view)
                && !self.stillborn(by, view)
                && !self.waits(by, target, view)
        })
    }

    /// Whether it was repealed by the day on which it would have begun, so that it
    /// never had effect.
    fn stillborn(&self, id: InstrumentId, view: View) -> bool {
        self.law(view).into_iter().any(|by| self.forestalls(by, id) && self.repeals(by, id, view))
    }

    /// Whether one instrument begins, by the same date, no later than another.
    fn forestalls(&self, by: InstrumentId, id: InstrumentId) -> bool {
        let (one, other) = (self.instrument(by), self.instrument(id));
        let date = |own: &Instrument| own.force.map(|force| force.by);
        one.force.is_some_and(|force| matches!(force.start, Start::On(_)))
            && date(one) == date(other)
            && self.beginning(by) <= self.beginning(id)
    }

    /// The day on which it begins for the job.
    fn beginning(&self, id: InstrumentId) -> Option<Date> {
        let own = self.instrument(id);
        match own.force.map(|force| force.start) {
            _ if self.brought_forward(id) => own.first_day(),
            Some(Start::On(day) | Start::Between(day, _)) => Some(day),
            _ => own.adopted,
        }
    }

    /// Whether the job chooses the later text in an open window.
    fn brought_forward(&self, id: InstrumentId) -> bool {
        self.open(id) && self.elects(true)
    }

    /// While a window is open no repeal of what it offers takes effect.
    fn waits(&self, by: InstrumentId, target: InstrumentId, view: View) -> bool {
        self.law(view).into_iter().any(|window| {
            window != by
                && self.offers(window, target)
                && self.instrument(by).first_day() >= self.instrument(window).first_day()
                && self.applies(self.instrument(window))
                && self.held_back(window, view)
        })
    }

    pub(super) fn repealed(&self, id: InstrumentId, view: View) -> bool {
        self.law(view).into_iter().any(|by| self.repeals(by, id, view))
    }

    /// Whether it speaks to the job.
    pub(super) fn in_effect(&self, id: InstrumentId, view: View) -> bool {
        self.taken_effect(id, view) && !self.ended(id) && !self.suspended(id, view) && !self.repealed(id, view)
    }

    /// Whether it was repealed while it was in force, so that what it had
    /// displaced stays away, and does so when its own end has come.
    pub(super) fn left_a_gap(&self, id: InstrumentId, view: View) -> bool {
        let last = match self.instrument(id).force.map(|force| force.end) {
            Some(End::On(last)) => Some(last),
            _ => None,
        };
        let date = |id: InstrumentId| self.instrument(id).force.map(|force| force.by);
        self.taken_effect(id, view)
            && !self.suspended(id, view)
            && !self.stillborn(id, view)
            && self.law(view).into_iter().any(|by| {
                let before_its_end = !self.ended(id) || date(by) == date(id) && self.beginning(by) <= last;
                before_its_end && self.repeals(by, id, view)
            })
    }

    /// Whether an outer place has taken a whole subject out of the hands of the
    /// places as deep as this one.
    pub(super) fn taken_over(&self, subject: SubjectId, depth: usize, view: View) -> bool {
        self.law(view).into_iter().filter(|id| self.depth(*id) < depth).any(|id| {
            let mut powers = self.instrument(id).powers.iter();
            powers.any(|power| {
                power.kind == PowerKind::Preempts && power.subjects.contains(&subject) && self.facts.hold(&power.scope)
            }) && self.in_effect(id, view)
        })
    }
}
