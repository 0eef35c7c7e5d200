//! Adoptions: where each edition stands, subject by subject.

use super::Compiler;
use super::clauses::{Clauses, clause, cond_of, tidy};
use super::level::Level;
use crate::glossary::expr::Check;
use crate::glossary::model::SubjectId;
use crate::law::instrument::{Adoption, Instrument, InstrumentId};
use crate::law::model::{CondId, Fate, Node};
use crate::law::text::EditionId;
use crate::values::Date;

/// One adoption by an instrument of the path.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Standing<'l> {
    pub(crate) instrument: InstrumentId,
    pub(crate) depth: u32,
    pub(crate) adoption: &'l Adoption,
    rank: (Option<Date>, Option<Date>),
}

/// Every adoption of a level.
pub(crate) fn adoptions<'l>(compiler: &Compiler<'l>, level: &Level) -> Vec<Standing<'l>> {
    let mut found = Vec::new();
    for id in &level.instruments {
        let Some(own) = compiler.instrument(*id) else { continue };
        for adoption in &own.adoptions {
            let (day, adopted) = own.rank();
            let day = adoption.from.map_or(day, |from| day.map(|day| day.max(from)));
            found.push(Standing {
                instrument: *id,
                depth: compiler.depth(own.issuer),
                adoption,
                rank: (day, adopted.max(day.filter(|_| own.adopted.is_none()))),
            });
        }
    }
    found
}

impl Standing<'_> {
    /// The clauses under which the edition stands for a subject; none of them
    /// holds ever where it was not adopted for it.
    pub(crate) fn stands(
        &self,
        compiler: &mut Compiler,
        level: &mut Level,
        all: &[Standing],
        subject: SubjectId,
    ) -> Clauses {
        if !self.adoption.subjects.contains(&subject) {
            return vec![clause(CondId::FALSE, Fate::NotInForce, None)];
        }
        let key = (self.instrument, self.adoption.at, self.adoption.edition, subject);
        if let Some(known) = level.standing.get(&key) {
            return known.clone();
        }
        let mut clauses = self.holds(compiler, level, subject);
        let code = compiler.code_name(self.adoption.edition);
        for other in all.iter().filter(|other| other.displaces(self, subject, code)) {
            let mut parts = other.holds(compiler, level, subject);
            if other.depth == self.depth {
                // A repeal brings back nothing that the place itself had displaced; an
                // inner place without an adoption inherits again. What was repealed
                // before it began had displaced nothing.
                parts.retain(|part| part.fate != Fate::Repealed);
                let outlived = level.repealed_in_time(compiler, other.instrument);
                if let Some(time) = parts.first_mut() {
                    time.cond = compiler.arena.or([time.cond, outlived]);
                }
                let stillborn = level.never_begins(compiler, other.instrument);
                let begun = compiler.arena.not(stillborn);
                parts.push(clause(begun, Fate::Repealed, None));
            }
            let held = cond_of(&mut compiler.arena, &parts);
            let free = compiler.arena.not(held);
            let by = compiler.instrument_source(other.instrument);
            clauses.push(clause(free, Fate::Superseded, Some(by)));
        }
        let clauses = tidy(clauses);
        level.standing.insert(key, clauses.clone());
        clauses
    }

    /// Whether this adoption supersedes another for a subject.
    fn displaces(&self, other: &Standing, subject: SubjectId, other_code: &str) -> bool {
        self.instrument != other.instrument
            && self.adoption.subjects.contains(&subject)
            && !self.adoption.beside.iter().any(|code| &**code == other_code)
            && (self.depth > other.depth || (self.depth == other.depth && self.rank > other.rank))
    }

    /// The adoption's own reach: the instrument's effect, its scope, and that no
    /// outer place has taken the subject away.
    fn holds(&self, compiler: &mut Compiler, level: &mut Level, subject: SubjectId) -> Clauses {
        let mut clauses = level.effect(compiler, self.instrument);
        let scope = compiler.reach(&self.adoption.scope);
        clauses.push(clause(scope, Fate::NotInForce, None));
        if let Some(by) =
            compiler.instrument(self.instrument).and_then(|own: &Instrument| own.force).map(|force| force.by)
        {
            for check in
                [self.adoption.from.map(Check::From), self.adoption.before.map(Check::Before)].into_iter().flatten()
            {
                let time = compiler.arena.put(Node::Field(by, check));
                clauses.push(clause(time, Fate::NotInForce, None));
            }
        }
        clauses.extend(level.subject_powers(compiler, subject, self.depth));
        clauses
    }

    /// The edition adopted.
    pub(crate) fn edition(&self) -> EditionId {
        self.adoption.edition
    }
}
