//! One level of a place's path: the places from the outermost to one of them,
//! and when each of their instruments has effect.

use super::Compiler;
use super::clauses::{Clauses, clause, cond_of};
use crate::glossary::expr::{Check, Expr};
use crate::glossary::model::SubjectId;
use crate::law::instrument::{Election, End, Force, Instrument, InstrumentId, Start, Weight};
use crate::law::model::{CondId, Fate, Node, UnknownSpan};
use crate::law::text::EditionId;
use crate::syntax::diagnostic::Location;
use crate::syntax::tree::PowerKind;
use crate::values::{Date, Terms};
use rustc_hash::FxHashMap;

/// The places taken into account, and what was found out about their
/// instruments.
pub(crate) struct Level {
    /// The instruments of those places that are law or advice at some time, from
    /// the outermost place and the earliest day.
    pub(crate) instruments: Vec<InstrumentId>,
    effects: FxHashMap<InstrumentId, Clauses>,
    /// Instruments of which it is being worked out whether they ever begin, and
    /// what their windows offer: a circle ends there.
    beginning: Vec<InstrumentId>,
    offering: Vec<InstrumentId>,
    /// Where each adoption stands, subject by subject, as far as it was asked.
    pub(crate) standing: FxHashMap<(InstrumentId, Location, EditionId, SubjectId), Clauses>,
}

impl Level {
    /// The level of the first `places` places of the compiler's path.
    pub(crate) fn new(compiler: &Compiler, places: usize) -> Level {
        let mut instruments: Vec<InstrumentId> = compiler
            .path
            .iter()
            .take(places)
            .flat_map(|place| compiler.library.of_issuer(*place))
            .copied()
            .filter(|id| compiler.instrument(*id).is_some_and(Instrument::is_law))
            .collect();
        instruments.sort_by_key(|id| {
            compiler.instrument(*id).map(|own| (compiler.depth(own.issuer), own.rank(), own.id.clone()))
        });
        Level {
            instruments,
            effects: FxHashMap::default(),
            beginning: Vec::new(),
            offering: Vec::new(),
            standing: FxHashMap::default(),
        }
    }

    /// The instruments of makers and suppliers, which stand outside every place.
    pub(crate) fn of_outsiders(compiler: &Compiler) -> Level {
        let mut instruments: Vec<InstrumentId> = compiler.library.outsiders().to_vec();
        instruments.retain(|id| compiler.instrument(*id).is_some_and(Instrument::is_law));
        instruments.sort_by_key(|id| compiler.instrument(*id).map(|own| (own.rank(), own.id.clone())));
        Level {
            instruments,
            effects: FxHashMap::default(),
            beginning: Vec::new(),
            offering: Vec::new(),
            standing: FxHashMap::default(),
        }
    }

    /// The clauses under which an instrument has effect.
    pub(crate) fn effect(&mut self, compiler: &mut Compiler, id: InstrumentId) -> Clauses {
        if let Some(known) = self.effects.get(&id) {
            return known.clone();
        }
        let Some(own) = compiler.instrument(id) else { return vec![clause(CondId::FALSE, Fate::NotInForce, None)] };
        let mut clauses = vec![clause(self.time(compiler, id, true), Fate::NotInForce, None)];
        let applies = compiler.reach_all(&own.applies);
        clauses.push(clause(applies, Fate::NotInForce, None));
        // Circles of suspensions are errors of the library; here they only must end.
        self.effects.insert(id, clauses.clone());
        self.ends_of(compiler, id, None, &mut clauses);
        // What was found on the way through a circle is not the whole of it.
        if self.offering.is_empty() && self.beginning.is_empty() {
            self.effects.insert(id, clauses.clone());
        } else {
            self.effects.remove(&id);
        }
        clauses
    }

    /// Whether an instrument has effect.
    pub(crate) fn effect_cond(&mut self, compiler: &mut Compiler, id: InstrumentId) -> CondId {
        let clauses = self.effect(compiler, id);
        cond_of(&mut compiler.arena, &clauses)
    }

    /// Adds what suspends or repeals an instrument, or one of its sections.
    pub(crate) fn ends_of(
        &mut self,
        compiler: &mut Compiler,
        id: InstrumentId,
        number: Option<&str>,
        clauses: &mut Clauses,
    ) {
        for other in self.instruments.clone() {
            let Some(ender) = compiler.instrument(other) else { continue };
            for ends in ender.ends.iter().filter(|ends| ends.target == id && ends.number.as_deref() == number) {
                let (cond, fate) = if ends.repeals {
                    (self.repeal(compiler, other, id), Fate::Repealed)
                } else {
                    (self.effect_cond(compiler, other), Fate::Suspended)
                };
                let stands = compiler.arena.not(cond);
                let by = compiler.instrument_source(other);
                clauses.push(clause(stands, fate, Some(by)));
            }
        }
    }

    /// Whether the repeal of `target` by `by` has taken effect: once its
    /// instrument has begun, for good, except while it is suspended and except in
    /// a window in which the earlier text may be chosen.
    fn repeal(&mut self, compiler: &mut Compiler, by: InstrumentId, target: InstrumentId) -> CondId {
        let Some(own) = compiler.instrument(by) else { return CondId::FALSE };
        let stillborn = self.never_begins(compiler, by);
        let begins = compiler.arena.not(stillborn);
        let mut parts = vec![begins, self.time(compiler, by, false), compiler.reach_all(&own.applies)];
        for other in self.instruments.clone() {
            let Some(suspender) = compiler.instrument(other) else { continue };
            if other != target
                && suspender.ends.iter().any(|ends| !ends.repeals && ends.target == by && ends.number.is_none())
            {
                let suspended = self.effect_cond(compiler, other);
                parts.push(compiler.arena.not(suspended));
            }
        }
        for other in self.instruments.clone() {
            // What was repealed before the window opens is not offered in it.
            let opens = compiler.instrument(other).and_then(Instrument::first_day);
            if other != by && own.first_day() >= opens && self.offers(compiler, other, target) {
                // An instrument that does not apply to the job opens no window for it.
                let applies = compiler.instrument(other).map(|own| compiler.reach_all(&own.applies));
                let earlier = self.elects(compiler, other, true);
                let open = compiler.arena.and([applies.unwrap_or(CondId::TRUE), earlier]);
                parts.push(compiler.arena.not(open));
            }
        }
        compiler.arena.and(parts)
    }

    /// Whether an instrument is repealed on or before the very day on which it
    /// would begin, by the same date, so that it never has effect.
    pub(crate) fn never_begins(&mut self, compiler: &mut Compiler, id: InstrumentId) -> CondId {
        if self.beginning.contains(&id) {
            return CondId::FALSE;
        }
        self.beginning.push(id);
        let mut ways = Vec::new();
        for other in self.instruments.clone() {
            let (Some(own), Some(ender)) = (compiler.instrument(id), compiler.instrument(other)) else { continue };
            let by = |instrument: &Instrument| instrument.force.map(|force| force.by);
            let ends = ender.ends.iter().any(|ends| ends.repeals && ends.target == id && ends.number.is_none());
            if !ends || !matches!(ender.force, Some(Force { start: Start::On(_), .. })) || by(ender) != by(own) {
                continue;
            }
            let (theirs, mine) = (self.beginnings(compiler, other), self.beginnings(compiler, id));
            let mut sooner = Vec::new();
            for (first, when) in &theirs {
                for (_, then) in mine.iter().filter(|(second, _)| first <= second) {
                    sooner.push(compiler.arena.and([*when, *then]));
                }
            }
            let sooner = compiler.arena.or(sooner);
            let repeal = self.repeal(compiler, other, id);
            ways.push(compiler.arena.and([sooner, repeal]));
        }
        self.beginning.pop();
        compiler.arena.or(ways)
    }

    /// Whether an instrument was repealed before its own end came, so that the end
    /// is no lapse any more.
    pub(crate) fn repealed_in_time(&mut self, compiler: &mut Compiler, id: InstrumentId) -> CondId {
        let Some(Force { end: End::On(last), by, .. }) = compiler.instrument(id).and_then(|own| own.force) else {
            return CondId::FALSE;
        };
        let mut ways = Vec::new();
        for other in self.instruments.clone() {
            let Some(ender) = compiler.instrument(other) else { continue };
            let ends = ender.ends.iter().any(|ends| ends.repeals && ends.target == id && ends.number.is_none());
            if !ends || ender.force.map(|force| force.by) != Some(by) {
                continue;
            }
            for (day, when) in self.beginnings(compiler, other) {
                if day.is_none_or(|day| day <= last) {
                    let repeal = self.repeal(compiler, other, id);
                    ways.push(compiler.arena.and([when, repeal]));
                }
            }
        }
        let begun = self.time(compiler, id, false);
        let repealed = compiler.arena.or(ways);
        compiler.arena.and([begun, repealed])
    }

    /// The days on which an instrument begins, each with when it does so: its own,
    /// or that of its window where the job chooses the later text in it.
    fn beginnings(&self, compiler: &mut Compiler, id: InstrumentId) -> Vec<(Option<Date>, CondId)> {
        let Some(own) = compiler.instrument(id) else { return Vec::new() };
        let plain = match own.force.map(|force| force.start) {
            Some(Start::On(day) | Start::Between(day, _)) => Some(day),
            _ => own.adopted,
        };
        if own.election.is_none() {
            return vec![(plain, CondId::TRUE)];
        }
        let forward = self.elects(compiler, id, false);
        vec![(plain, compiler.arena.not(forward)), (own.first_day(), forward)]
    }

    /// Whether the job's date lies in the instrument's time, its election heeded;
    /// `ends` says whether the end of the time counts.
    fn time(&mut self, compiler: &mut Compiler, id: InstrumentId, ends: bool) -> CondId {
        let Some(own) = compiler.instrument(id) else { return CondId::FALSE };
        let Some(force) = own.force else { return CondId::FALSE };
        let started = started(compiler, own, force);
        let open = match force.end {
            End::On(day) if ends => not_past(compiler, force.by, day),
            _ => CondId::TRUE,
        };
        let plain = compiler.arena.and([started, open]);
        if own.election.is_none() {
            return plain;
        }
        let earlier = self.elects(compiler, id, true);
        let later = self.elects(compiler, id, false);
        let forward = compiler.arena.and([later, open]);
        let either = compiler.arena.or([plain, forward]);
        let offered = self.offered(compiler, id);
        let kept = compiler.arena.and([earlier, offered]);
        let not_kept = compiler.arena.not(kept);
        compiler.arena.and([either, not_kept])
    }

    /// Whether the job lies in the instrument's window and chooses the earlier
    /// (or the later) text.
    fn elects(&self, compiler: &mut Compiler, id: InstrumentId, earlier: bool) -> CondId {
        let Some(own) = compiler.instrument(id) else { return CondId::FALSE };
        let (Some(election), Some((field, first, last))) = (own.election, compiler.library.glossary.roles.text) else {
            return CondId::FALSE;
        };
        let window = window(compiler, own, election);
        let term = Terms::one(if earlier { first } else { last });
        let elected = compiler.arena.put(Node::Field(field, Check::Among(term)));
        compiler.arena.and([window, elected])
    }

    /// Whether some earlier text of the path remains to be chosen.
    fn offered(&mut self, compiler: &mut Compiler, id: InstrumentId) -> CondId {
        // What remains is asked for a job that goes by the earlier text.
        if self.offering.contains(&id) {
            return CondId::TRUE;
        }
        self.offering.push(id);
        let opens = compiler.instrument(id).and_then(Instrument::first_day);
        let mut remains = Vec::new();
        for other in self.instruments.clone() {
            if !self.offers(compiler, id, other) {
                continue;
            }
            let Some(old) = compiler.instrument(other) else { continue };
            let mut parts = vec![self.time(compiler, other, true), compiler.reach_all(&old.applies)];
            for ender in self.instruments.clone() {
                let Some(by) = compiler.instrument(ender) else { continue };
                for ends in by.ends.iter().filter(|ends| ends.target == other && ends.number.is_none() && ender != id) {
                    if !ends.repeals {
                        let suspended = self.effect_cond(compiler, ender);
                        parts.push(compiler.arena.not(suspended));
                    } else if by.first_day() < opens {
                        let repealed = self.repeal(compiler, ender, other);
                        parts.push(compiler.arena.not(repealed));
                    }
                }
            }
            let stands = compiler.arena.and(parts);
            remains.push(stands);
        }
        self.offering.pop();
        compiler.arena.or(remains)
    }

    /// Whether the election of one instrument offers the text of another: an
    /// earlier one of the path, and where the first adopts, one that adopts on
    /// the same subject.
    fn offers(&self, compiler: &Compiler, id: InstrumentId, other: InstrumentId) -> bool {
        let (Some(own), Some(old)) = (compiler.instrument(id), compiler.instrument(other)) else { return false };
        let adopts_on = |instrument: &Instrument, subject: SubjectId| {
            instrument.adoptions.iter().any(|adoption| adoption.subjects.contains(&subject))
        };
        own.election.is_some()
            && id != other
            && old.kind.weight() == Weight::Binding
            && old.rank() < own.rank()
            && (own.adoptions.is_empty()
                || own.adoptions.iter().flat_map(|adoption| &adoption.subjects).any(|subject| adopts_on(old, *subject)))
    }

    /// What outer places pre-empt of an inner place's law on a whole subject.
    pub(crate) fn subject_powers(&mut self, compiler: &mut Compiler, subject: SubjectId, depth: u32) -> Clauses {
        let mut clauses = Clauses::new();
        for id in self.instruments.clone() {
            let Some(own) = compiler.instrument(id) else { continue };
            if compiler.depth(own.issuer) >= depth {
                continue;
            }
            for power in
                own.powers.iter().filter(|power| power.kind == PowerKind::Preempts && power.subjects.contains(&subject))
            {
                let held = self.power_cond(compiler, id, &power.scope);
                let free = compiler.arena.not(held);
                let by = compiler.instrument_source(id);
                clauses.push(clause(free, Fate::PreEmpted, Some(by)));
            }
        }
        clauses
    }

    /// What outer places pre-empt of an inner place's law on several subjects: all
    /// of them must be taken away.
    pub(crate) fn all_subjects_powers(
        &mut self,
        compiler: &mut Compiler,
        subjects: &[SubjectId],
        depth: u32,
    ) -> Clauses {
        if let [one] = subjects {
            return self.subject_powers(compiler, *one, depth);
        }
        let mut by = None;
        let mut free = Vec::new();
        for subject in subjects {
            let clauses = self.subject_powers(compiler, *subject, depth);
            by = by.or_else(|| clauses.iter().find_map(|clause| clause.by));
            free.push(cond_of(&mut compiler.arena, &clauses));
        }
        if by.is_none() {
            return Clauses::new();
        }
        vec![clause(compiler.arena.or(free), Fate::PreEmpted, by)]
    }

    /// When a power of an instrument holds.
    pub(crate) fn power_cond(&mut self, compiler: &mut Compiler, id: InstrumentId, scope: &Expr) -> CondId {
        let effect = self.effect_cond(compiler, id);
        let scope = compiler.reach(scope);
        compiler.arena.and([effect, scope])
    }
}

/// The job's date is not later than this day.
fn not_past(compiler: &mut Compiler, by: crate::glossary::model::FieldId, day: Date) -> CondId {
    compiler.arena.put(Node::Field(by, Check::Before(day.next())))
}

fn from(compiler: &mut Compiler, by: crate::glossary::model::FieldId, day: Date) -> CondId {
    compiler.arena.put(Node::Field(by, Check::From(day)))
}

/// Whether the instrument's time has begun, its election not heeded.
fn started(compiler: &mut Compiler, own: &Instrument, force: Force) -> CondId {
    match force.start {
        Start::On(day) => from(compiler, force.by, day),
        Start::Unknown => {
            let adopted = own.adopted.map_or(CondId::TRUE, |day| from(compiler, force.by, day));
            let span = span(compiler, own, adopted);
            compiler.arena.and([adopted, span])
        }
        Start::Between(first, last) => {
            let (begun, sure) = (from(compiler, force.by, first), from(compiler, force.by, last));
            let not_sure = compiler.arena.not(sure);
            let within = compiler.arena.and([begun, not_sure]);
            let span = span(compiler, own, within);
            let maybe = compiler.arena.and([within, span]);
            compiler.arena.or([sure, maybe])
        }
    }
}

/// The condition that an instrument in an unknown span is in force.
fn span(compiler: &mut Compiler, own: &Instrument, within: CondId) -> CondId {
    let issuer: Box<str> =
        compiler.library.places.issuer(own.issuer).map(|issuer| issuer.title.clone()).unwrap_or_default();
    let found = compiler.spans.iter().position(|span| span.instrument == own.id && span.issuer == issuer);
    let number = found.unwrap_or_else(|| {
        compiler.spans.push(UnknownSpan { instrument: own.id.clone(), issuer, within });
        compiler.spans.len() - 1
    });
    compiler.arena.put(Node::Span(number))
}

/// Whether the job lies in the window of an election.
fn window(compiler: &mut Compiler, own: &Instrument, election: Election) -> CondId {
    let not_closed = not_past(compiler, election.by, election.through);
    // A window that does not say when it opens does so when the instrument begins.
    if let Some(force) = own.force
        && election.from.is_none()
        && force.by == election.by
    {
        let started = started(compiler, own, force);
        return compiler.arena.and([started, not_closed]);
    }
    let opens = election.from.or_else(|| match own.force.map(|force| force.start) {
        Some(Start::On(day) | Start::Between(day, _)) => Some(day),
        _ => own.adopted,
    });
    let opened = opens.map_or(CondId::TRUE, |day| from(compiler, election.by, day));
    compiler.arena.and([opened, not_closed])
}
