//! Why an answer is what it is: what governs, what was weaker, what was passed
//! over and which test failed, what was set aside and by whom.

use super::answer::{Answer, Form};
use super::found::Found;
use super::model::{Reason, Role};
use super::plan::Look;
use super::truth::{Mark, Matter, Memo};
use super::weigh::over_all;
use super::words::{Phrase, failed, residue};
use crate::job::model::Given;
use crate::law::model::{Clause, CondId, Demand, Effect, Fate, PowerStep, Provision, ProvisionId, SourceId};
use crate::syntax::tree::PowerKind;

/// A provision while it is weighed.
#[derive(Clone, Copy)]
struct Candidate<'a> {
    id: ProvisionId,
    provision: &'a Provision,
    /// The power that sets it aside.
    power: Option<SourceId>,
}

/// The reasons of one answer.
#[derive(Debug, Default)]
pub(crate) struct Reasons<'a> {
    pub(crate) because: Vec<Reason<'a>>,
    pub(crate) advice: Vec<Reason<'a>>,
    pub(crate) set_aside: Vec<Reason<'a>>,
}

/// Gathers the reasons of a question's answer.
pub(crate) fn gather<'a>(matter: &Matter<'a>, memo: &mut Memo, question: usize, found: &Found) -> Reasons<'a> {
    let mut reasons = Reasons::default();
    let law = matter.law;
    let (Some(own), Some(ask)) = (law.questions.get(question), matter.plan.asks.get(question)) else {
        return reasons;
    };
    // Dates bound each other, so that a text may be out of time though one is not known.
    let bounded = law.dating.iter().any(|date| *matter.fact(*date) == Given::Unknown);
    let mut list = candidates(matter, &own.whole);
    for power in &own.powers {
        apply(matter, memo, power, &ask.form, found, &mut list);
    }
    for candidate in &list {
        if let Some(reason) = judge(matter, memo, candidate, bounded) {
            match reason.role {
                Role::SetAside(_) => reasons.set_aside.push(reason),
                _ => reasons.because.push(reason),
            }
        }
    }
    weaken(&ask.form, found, &mut reasons.because);
    for id in &own.advice {
        let Some(provision) = law.provision(*id) else { continue };
        let candidate = Candidate { id: *id, provision, power: None };
        if let Some(mut reason) = judge(matter, memo, &candidate, bounded)
            && !matches!(reason.role, Role::SetAside(_))
        {
            reason.role = Role::Advice;
            reasons.advice.push(reason);
        }
    }
    arrange(matter, &mut reasons.because);
    arrange(matter, &mut reasons.advice);
    // A text that binds through a power is not told a second time as set aside.
    let binding: Vec<u32> = reasons.because.iter().filter_map(|reason| order(matter, reason)).collect();
    reasons.set_aside.retain(|reason| order(matter, reason).is_none_or(|place| !binding.contains(&place)));
    arrange(matter, &mut reasons.set_aside);
    reasons
}

fn candidates<'a>(matter: &Matter<'a>, ids: &[ProvisionId]) -> Vec<Candidate<'a>> {
    ids.iter()
        .filter_map(|id| Some(Candidate { id: *id, provision: matter.law.provision(*id)?, power: None }))
        .collect()
}

fn depth(matter: &Matter<'_>, provision: &Provision) -> u32 {
    matter.law.source(provision.source).map_or(0, |source| source.depth)
}

/// Brings in the outer law of a power, and marks what the power sets aside.
fn apply<'a>(
    matter: &Matter<'a>,
    memo: &mut Memo,
    power: &PowerStep,
    form: &Form,
    found: &Found,
    list: &mut Vec<Candidate<'a>>,
) {
    let held = memo.read(matter, power.cond);
    if held == Mark::No {
        return;
    }
    let outer = candidates(matter, &power.outer);
    let inside = |candidate: &Candidate<'_>| {
        depth(matter, candidate.provision) > power.depth && !power.outer.contains(&candidate.id)
    };
    match power.kind {
        PowerKind::Preempts if held == Mark::Yes => {
            list.retain(|candidate| inside(candidate) || power.outer.contains(&candidate.id));
            for candidate in list.iter_mut() {
                if inside(candidate) && candidate.power.is_none() {
                    candidate.power = Some(power.source);
                }
            }
        }
        PowerKind::Ceiling if held == Mark::Yes => {
            let answers = outer.iter().any(|candidate| memo.read(matter, candidate.provision.reach) == Mark::Yes);
            for candidate in list.iter_mut() {
                if answers && inside(candidate) && exceeds(form, found, candidate.provision) {
                    candidate.power = Some(power.source);
                }
            }
        }
        _ => {}
    }
    for candidate in outer {
        if !list.iter().any(|known| known.id == candidate.id) {
            list.push(candidate);
        }
    }
}

/// Whether a demand asks for more than the answer that stands.
fn exceeds(form: &Form, found: &Found, provision: &Provision) -> bool {
    let (Effect::Demand(demand), Some(parts)) = (&provision.effect, &found.value) else { return false };
    parts
        .as_slice()
        .iter()
        .enumerate()
        .any(|(number, part)| form.demanded(demand, number).is_some_and(|asked| !form.way.covers(*part, asked)))
}

/// What became of a provision; nothing where it is not told. Where dates are bounded by others that are not known, its
/// standing is tried over all completions.
fn judge<'a>(matter: &Matter<'a>, memo: &mut Memo, candidate: &Candidate<'a>, bounded: bool) -> Option<Reason<'a>> {
    let provision = candidate.provision;
    let mut reason = Reason {
        id: candidate.id,
        provision,
        source: matter.law.source(provision.source)?,
        role: Role::Governs,
        by: None,
        failed: Vec::new(),
        condition: None,
    };
    let mut waits: Vec<CondId> = Vec::new();
    let mut whole = true;
    for clause in &provision.clauses {
        let standing = bounded && !matches!(clause.fate, Fate::PassedOver | Fate::Excepted);
        let held = if standing { over_all(matter, memo, clause.cond) } else { memo.read(matter, clause.cond) };
        match held {
            Mark::Yes => {}
            Mark::Open | Mark::Refers => waits.push(clause.cond),
            Mark::No => {
                if clause.fate == Fate::NotInForce {
                    return None;
                }
                reason.role = Role::SetAside(clause.fate);
                reason.by = clause.by.and_then(|by| matter.law.source(by));
                if clause.fate == Fate::PassedOver {
                    failed(memo, matter, clause.cond, &mut reason.failed);
                }
                whole = false;
                break;
            }
        }
    }
    let plain = matches!(reason.role, Role::Governs | Role::SetAside(Fate::PassedOver));
    if let Some(power) = candidate.power.filter(|_| plain) {
        reason.role = Role::SetAside(Fate::PreEmpted);
        reason.by = matter.law.source(power);
        reason.failed.clear();
        return Some(reason);
    }
    if whole && memo.read(matter, provision.guard) == Mark::No {
        // Nothing in force says what became of it.
        return None;
    }
    if whole && !waits.is_empty() {
        let parts: Vec<Phrase> = waits.iter().map(|cond| residue(memo, matter, *cond, true, None)).collect();
        let phrase = match <[Phrase; 1]>::try_from(parts) {
            Ok([only]) => only,
            Err(parts) => Phrase::All(parts),
        };
        // Tests that each may hold may be of no job together.
        if matches!(phrase, Phrase::All(_)) && over_all(matter, memo, provision.guard) == Mark::No {
            let displaced = |clause: &&Clause| !matches!(clause.fate, Fate::PassedOver | Fate::NotInForce);
            match provision.clauses.iter().filter(|clause| waits.contains(&clause.cond)).find(displaced) {
                Some(clause) => {
                    reason.role = Role::SetAside(clause.fate);
                    reason.by = clause.by.and_then(|by| matter.law.source(by));
                }
                None => {
                    reason.role = Role::SetAside(Fate::PassedOver);
                    reason.failed = vec![phrase];
                }
            }
        } else {
            reason.condition = Some(phrase).filter(|phrase| !phrase.is_empty());
        }
    }
    Some(reason)
}

/// Marks as weaker what another demand that surely binds goes beyond.
fn weaken(form: &Form, found: &Found, because: &mut [Reason<'_>]) {
    let sure: Vec<Answer> = because
        .iter()
        .filter(|reason| reason.condition.is_none())
        .filter_map(|reason| match &reason.provision.effect {
            Effect::Demand(demand) => Some(alone(form, demand)),
            Effect::Refer(_) => None,
        })
        .collect();
    for reason in because {
        let weaker = match &reason.provision.effect {
            Effect::Refer(_) => found.moot && found.state < super::found::State::Open,
            Effect::Demand(demand) => {
                let own = alone(form, demand);
                sure.iter().any(|other| other.parts != own.parts && form.both(other.clone(), &own).parts == other.parts)
            }
        };
        if weaker {
            reason.role = Role::Weaker;
        }
    }
}

/// The answer if this demand alone were the law.
fn alone(form: &Form, demand: &Demand) -> Answer {
    let mut answer = form.loosest();
    form.add(&mut answer, demand);
    answer
}

fn order(matter: &Matter<'_>, reason: &Reason<'_>) -> Option<u32> {
    matter.plan.order.get(reason.id.0 as usize).copied()
}

/// Each distinct reason once, in the fixed order.
fn arrange(matter: &Matter<'_>, reasons: &mut Vec<Reason<'_>>) {
    reasons.sort_by_key(|reason| (reason.role, order(matter, reason), reason.condition.is_some()));
    reasons.dedup_by(|later, earlier| {
        later.role == earlier.role
            && order(matter, later) == order(matter, earlier)
            && (earlier.condition.is_none() || later.condition == earlier.condition)
            && (later.failed == earlier.failed)
            && later.by.map(|source| (&source.instrument, &source.section))
                == earlier.by.map(|source| (&source.instrument, &source.section))
    });
}

/// The provisions whose figures an answer is told with, in the order of reasons.
pub(crate) fn figures<'r, 'a: 'r>(because: &'r [Reason<'a>]) -> impl Iterator<Item = &'a Demand> + 'r {
    because.iter().filter_map(|reason| match &reason.provision.effect {
        Effect::Demand(demand) => Some(demand),
        Effect::Refer(_) => None,
    })
}
