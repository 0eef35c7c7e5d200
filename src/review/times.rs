//! When instruments stand: what can be told of their days without any job.

use crate::law::instrument::{End, Instrument, InstrumentId, Start};
use crate::law::library::Library;
use crate::values::Date;
use std::collections::HashMap;

/// Which instruments repeal or suspend each instrument.
pub(super) struct Times<'l> {
    library: &'l Library,
    /// By whom, and whether the whole instrument is meant.
    ended: HashMap<InstrumentId, Vec<(InstrumentId, bool)>>,
}

impl<'l> Times<'l> {
    /// The times of a library's instruments.
    pub(super) fn of(library: &'l Library) -> Times<'l> {
        let mut ended: HashMap<InstrumentId, Vec<(InstrumentId, bool)>> = HashMap::new();
        for (own, number) in library.instruments.iter().zip(0u32..) {
            for ends in &own.ends {
                ended.entry(ends.target).or_default().push((InstrumentId(number), ends.number.is_none()));
            }
        }
        Times { library, ended }
    }

    fn instrument(&self, id: InstrumentId) -> Option<&'l Instrument> {
        self.library.instruments.get(id.0 as usize)
    }

    /// Whether an instrument binds every job from a known day on: nothing narrows
    /// it, nothing ends it, and no applicant may choose against it.
    pub(super) fn for_good(&self, id: InstrumentId) -> bool {
        let Some(own) = self.instrument(id) else { return false };
        let starts = own.force.is_some_and(|force| matches!(force.start, Start::On(_)) && force.end == End::Never);
        own.is_law() && starts && own.applies.is_empty() && own.election.is_none() && !self.ended.contains_key(&id)
    }

    /// Whether an instrument may have ended on or before a day, by its own time or
    /// by another instrument.
    pub(super) fn may_be_over(&self, id: InstrumentId, day: Option<Date>) -> bool {
        let Some(own) = self.instrument(id) else { return true };
        let lapsed = own.force.is_some_and(|force| matches!(force.end, End::On(last) if Some(last) < day));
        let mut enders = self.ended.get(&id).into_iter().flatten().filter(|(_, whole)| *whole);
        lapsed || enders.any(|(by, _)| self.instrument(*by).is_some_and(|by| by.first_day() <= day))
    }
}

/// The latest day on which an instrument begins, where that is known.
pub(super) fn latest_start(own: &Instrument) -> Option<Date> {
    match own.force?.start {
        Start::On(day) | Start::Between(_, day) => Some(day),
        Start::Unknown => None,
    }
}
