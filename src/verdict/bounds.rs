//! What can be said of a question when its completions are too many: bounds of
//! the answer, never a settled one on a guess.

use super::answer::{Answer, Form};
use super::cone::Cone;
use super::found::{Finding, Found, State};
use super::paths::Path;
use super::plan::{Look, Show};
use super::truth::{Mark, Matter, Memo};
use crate::glossary::model::GroupId;
use crate::job::model::Given;
use crate::law::model::{Effect, ProvisionId};
use crate::syntax::tree::PowerKind;
use crate::values::Terms;

/// The loosest and the strictest that a question's answer can be.
#[derive(Clone, Debug)]
struct Range {
    low: Answer,
    high: Answer,
    may_refer: bool,
}

/// An open answer within its bounds.
pub(crate) fn found(matter: &Matter<'_>, memo: &mut Memo, cone: &Cone, question: usize) -> Found {
    let range = range(matter, memo, question);
    let asked = matter.law.questions.get(question).map_or(Mark::Open, |own| memo.read(matter, own.asked)) != Mark::No;
    let shows = matter.plan.asks.get(question).is_some_and(|ask| ask.show != Show::Nothing);
    let stands = match (&range, matter.plan.asks.get(question)) {
        (Some(range), Some(ask)) => !ask.form.is_loosest(&range.high.parts),
        _ => true,
    };
    let contrary = matter.law.questions.get(question).is_some_and(|own| !own.contrary.is_empty());
    Found {
        state: State::Open,
        value: None,
        may_refer: range.as_ref().is_none_or(|range| range.may_refer),
        may_conflict: contrary || range.as_ref().is_none_or(|range| range.high.conflict),
        bounds_only: true,
        finding: (asked && shows && stands).then_some(Finding::Open),
        no_equivalent: false,
        may_lack_equivalent: false,
        asked,
        moot: false,
        named: range.as_ref().map_or(Terms::NONE, |range| range.high.named),
        only: range.as_ref().is_some_and(|range| range.high.only),
        asks: unknown(matter, cone),
        witnesses: None,
        ends: None,
        between: range.map(|range| (range.low.parts, range.high.parts)),
    }
}

/// Every unknown fact that the question reads, each list once.
fn unknown(matter: &Matter<'_>, cone: &Cone) -> Vec<Path> {
    let mut asks: Vec<Path> = cone
        .facts
        .keys()
        .filter(|field| *matter.fact(**field) == Given::Unknown && matter.plan.presumption(**field).is_none())
        .map(|field| Path::Fact(*field))
        .collect();
    for (group, reads) in &cone.lists {
        let Some(list) = matter.list(*group) else { continue };
        if list.more {
            asks.push(further(*group, list.entries.is_empty()));
        }
        for (entry, row) in list.entries.iter().enumerate() {
            for field in reads.attributes.keys() {
                let column = matter.lexicon.field(*field).map_or(usize::MAX, |known| usize::from(known.column));
                if matches!(row.get(column), None | Some(Given::Unknown)) {
                    asks.push(Path::Attribute { group: *group, entry, field: *field });
                }
            }
        }
    }
    asks
}

fn further(group: GroupId, nothing_known: bool) -> Path {
    if nothing_known { Path::List(group) } else { Path::Further(group) }
}

fn range(matter: &Matter<'_>, memo: &mut Memo, question: usize) -> Option<Range> {
    let own = matter.law.questions.get(question)?;
    let form = &matter.plan.asks.get(question)?.form;
    let mut range = combine(matter, memo, form, &own.whole);
    for power in &own.powers {
        let held = memo.read(matter, power.cond);
        if held == Mark::No {
            continue;
        }
        let outer = combine(matter, memo, form, &power.outer);
        let then = match power.kind {
            PowerKind::Preempts => outer,
            PowerKind::Floor => Range {
                low: form.both(range.low.clone(), &outer.low),
                high: form.both(range.high.clone(), &outer.high),
                may_refer: range.may_refer || outer.may_refer,
            },
            // Whether the outer law answers may itself be unknown, so the
            // strict end is the looser law's only where both are in.
            PowerKind::Ceiling => Range {
                low: form.either(range.low.clone(), &outer.low),
                high: range.high.clone(),
                may_refer: range.may_refer || outer.may_refer,
            },
        };
        range = if held == Mark::Yes {
            then
        } else {
            Range {
                low: form.either(range.low, &then.low),
                high: form.both(range.high, &then.high),
                may_refer: range.may_refer || then.may_refer || held == Mark::Refers,
            }
        };
    }
    form.close(&mut range.low);
    form.close(&mut range.high);
    Some(range)
}

fn combine(matter: &Matter<'_>, memo: &mut Memo, form: &Form, list: &[ProvisionId]) -> Range {
    let mut range = Range { low: form.loosest(), high: form.loosest(), may_refer: false };
    for provision in list.iter().filter_map(|id| matter.law.provision(*id)) {
        let mark = match memo.read(matter, provision.reach) {
            Mark::No => continue,
            _ => memo.read(matter, provision.guard),
        };
        let turns = matter.plan.tests_answers.get(provision.guard.0 as usize).copied().unwrap_or(true);
        match (mark, &provision.effect) {
            (Mark::No, _) => {}
            (Mark::Yes, Effect::Demand(demand)) => {
                form.add(&mut range.low, demand);
                form.add(&mut range.high, demand);
            }
            (Mark::Open, Effect::Demand(demand)) => {
                form.add(&mut range.high, demand);
                range.may_refer |= turns;
            }
            (Mark::Refers, _) | (_, Effect::Refer(_)) => range.may_refer = true,
        }
    }
    range
}
