//! GR5210: powers under which nothing falls: no answer of a place within is another
//! for them, and they set no text aside.

use super::site::Site;
use crate::glossary::Territory;
use crate::law::instrument::Instrument;
use crate::law::model::{Fate, Law};
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::tree::PowerKind;
use crate::verdict::survey::Window;
use crate::verdict::{Look, TooMany};

/// The powers of given files under which nothing falls at any place within; a place
/// without a place within that makes law is left out, since nothing of those is known.
pub(super) fn idle(rules: &Rules, own: &dyn Fn(FileId) -> bool, window: Window) -> Vec<Diagnostic> {
    let library = rules.library();
    let mut told = Vec::new();
    for instrument in &library.instruments {
        if !own(instrument.at.file) || !instrument.is_law() || instrument.powers.is_empty() {
            continue;
        }
        let within: Vec<_> = library
            .lawgivers()
            .filter(|place| *place != instrument.issuer && library.places.within(*place, instrument.issuer))
            .collect();
        if within.is_empty() || window.through.is_some_and(|day| instrument.first_day() > Some(day)) {
            continue;
        }
        for (place, power) in instrument.powers.iter().enumerate() {
            let mut falls = false;
            for inner in &within {
                let Ok(site) = Site::new(rules, *inner, window) else { continue };
                // What could not be decided is no power under which nothing falls.
                if works(&site, instrument, place).unwrap_or(true) {
                    falls = true;
                    break;
                }
            }
            if falls {
                continue;
            }
            let message = format!(
                "this `{}` of {} changes no answer at any of the {} places within that make law",
                power.kind.word(),
                instrument.id,
                within.len()
            );
            told.push(Diagnostic::new(codes::IDLE_POWER, power.at, message).help(
                "nothing is wrong if it is kept for later; else look whether it names the questions that are meant",
            ));
        }
    }
    told
}

/// Whether a power changes an answer at a place within, or sets a text aside there.
fn works(site: &Site<'_>, own: &Instrument, place: usize) -> Result<bool, TooMany> {
    let law = site.law();
    let Some(power) = own.powers.get(place) else { return Ok(false) };
    let glossary = &site.rules.library().glossary;
    let by_it = |law: &Law, source| law.source(source).is_some_and(|source| source.at == own.at);
    for (number, question) in law.questions.iter().enumerate() {
        let subject = glossary[question.question].subject;
        if !power.questions.contains(&question.question) && !power.subjects.contains(&subject) {
            continue;
        }
        for (step, held) in question.powers.iter().enumerate() {
            if held.kind == power.kind && by_it(law, held.source) {
                let changed = site.survey(&[number], &[], |survey| survey.changed_by_power(number, step))?;
                if changed.is_some() {
                    return Ok(true);
                }
            }
        }
    }
    if power.kind != PowerKind::Preempts || power.subjects.is_empty() {
        return Ok(false);
    }
    for question in &law.questions {
        for id in question.whole.iter().chain(&question.advice) {
            let Some(provision) = law.provision(*id) else { continue };
            for (at, clause) in provision.clauses.iter().enumerate() {
                if clause.fate != Fate::PreEmpted || !clause.by.is_some_and(|by| by_it(law, by)) {
                    continue;
                }
                let others = provision.clauses.iter().enumerate().filter(|(other, _)| *other != at);
                let conds: Vec<_> = others.map(|(_, clause)| clause.cond).collect();
                let all: Vec<_> = provision.clauses.iter().map(|clause| clause.cond).collect();
                let aside = site.survey(&[], &all, |survey| {
                    let rest = survey.conditions(conds)?;
                    let held = survey.condition(clause.cond)?;
                    let fails = survey.logic().not(held)?;
                    let both = survey.all([rest, fails])?;
                    survey.somewhere(both)
                })?;
                if aside {
                    return Ok(true);
                }
            }
        }
    }
    Ok(false)
}
