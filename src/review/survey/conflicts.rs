//! GR5201: texts of which no job can follow all: between them they permit nothing,
//! or a ban meets a duty.

use super::site::Site;
use super::texts::{name, short};
use crate::glossary::model::QuestionId;
use crate::job::model::Job;
use crate::law::model::{ProvisionId, Source};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::verdict::diagram::Ref;
use crate::verdict::survey::{Survey, Walk};
use crate::verdict::{Look, TooMany, Way};

/// How many contradictions on one question of one place are told apart.
const MOST: usize = 12;

/// A contradiction: the texts that make it, each once, and how it is told.
pub(super) struct Conflict {
    pub(super) texts: Vec<Location>,
    pub(super) told: Diagnostic,
}

/// The contradictions in the law of a place in which a wanted text takes part.
pub(super) fn of_place(site: &Site<'_>, own: &dyn Fn(FileId) -> bool) -> Result<Vec<Conflict>, QuestionId> {
    let law = site.law();
    let mut found: Vec<Conflict> = Vec::new();
    for (number, question) in law.questions.iter().enumerate() {
        let form = site.ground.matter().plan.asks.get(number).map(|ask| ask.form);
        let contrary: Vec<usize> = question.contrary.iter().copied().filter(|other| *other > number).collect();
        if form.is_none_or(|form| form.way != Way::Only) && contrary.is_empty() {
            continue;
        }
        let mine = |question: usize| provisions(site, question).any(|(_, source)| own(source.at.file));
        if !mine(number) && !contrary.iter().any(|other| mine(*other)) {
            continue;
        }
        let told = site.survey(&[number], &[], |survey| {
            let mut told = Vec::new();
            if form.is_some_and(|form| form.way == Way::Only) {
                told.extend(nothing_left(site, survey, number)?);
            }
            for other in &contrary {
                told.extend(both_ends(site, survey, number, *other)?);
            }
            Ok(told)
        });
        let told = told.map_err(|TooMany| question.question)?;
        found.extend(told.into_iter().filter_map(|set| tell(site, own, question.question, set)));
    }
    Ok(found)
}

/// Every provision that binds on a question in some law of the place.
fn provisions<'s>(site: &'s Site<'_>, question: usize) -> impl Iterator<Item = (ProvisionId, &'s Source)> {
    let law = site.law();
    let lists = law
        .questions
        .get(question)
        .into_iter()
        .flat_map(|own| own.whole.iter().chain(own.powers.iter().flat_map(|power| &power.outer)).copied());
    lists.filter_map(move |id| Some((id, law.source(law.provision(id)?.source)?)))
}

/// Provisions of which no job can follow all, with a job that they bind.
struct Set {
    list: Vec<ProvisionId>,
    job: Job,
}

fn nothing_left(site: &Site<'_>, survey: &mut Survey<'_, '_>, number: usize) -> Result<Vec<Set>, TooMany> {
    let mut left = survey.permits_nothing(number)?;
    let mut sets = Vec::new();
    while sets.len() < MOST {
        survey.afresh();
        let Some(walk) = clearest(survey, left)? else { break };
        let bind = binding(site, survey, number, &walk)?;
        let list = survey.least(number, &bind);
        left = without(site, survey, left, &list)?;
        sets.push(Set { list, job: survey.job_of(&walk) });
    }
    Ok(sets)
}

fn both_ends(site: &Site<'_>, survey: &mut Survey<'_, '_>, one: usize, two: usize) -> Result<Vec<Set>, TooMany> {
    let mut left = survey.conflict(one)?;
    if site.ground.matter().plan.asks.get(one).is_some_and(|ask| ask.form.way == Way::Only) {
        return Ok(Vec::new());
    }
    let against = survey.conflict(two)?;
    left = survey.all([left, against])?;
    let mut sets = Vec::new();
    while sets.len() < MOST {
        survey.afresh();
        let Some(walk) = clearest(survey, left)? else { break };
        let mut list = Vec::new();
        for question in [one, two] {
            let bind = binding(site, survey, question, &walk)?;
            match bind.iter().find(|id| survey.asks_strictest(question, **id)) {
                Some(id) => list.push(*id),
                None => list.extend(bind),
            }
        }
        left = without(site, survey, left, &list)?;
        sets.push(Set { list, job: survey.job_of(&walk) });
    }
    Ok(sets)
}

/// A job that contradicts itself whichever instruments of unknown days have begun,
/// where there is one: a job cannot say that.
fn clearest(survey: &mut Survey<'_, '_>, left: Ref) -> Result<Option<Walk>, TooMany> {
    let sure = survey.whatever_began(left)?;
    match survey.first(sure)? {
        Some(walk) => Ok(Some(walk)),
        None => survey.first(left),
    }
}

/// What binds in the job of a walk.
fn binding(
    site: &Site<'_>,
    survey: &mut Survey<'_, '_>,
    question: usize,
    walk: &Walk,
) -> Result<Vec<ProvisionId>, TooMany> {
    let law = site.law();
    let mut found: Vec<ProvisionId> = Vec::new();
    let Some(own) = law.questions.get(question) else { return Ok(found) };
    let mut lists: Vec<&[ProvisionId]> = vec![&own.whole];
    for power in &own.powers {
        let held = survey.condition(power.cond)?;
        if survey.holds_at(held, walk) {
            lists.push(&power.outer);
        }
    }
    for id in lists.into_iter().flatten() {
        let Some(provision) = law.provision(*id) else { continue };
        let guard = survey.condition(provision.guard)?;
        if survey.holds_at(guard, walk) {
            found.push(*id);
        }
    }
    Ok(found)
}

/// The jobs among these that are not bound by all of some provisions.
fn without(site: &Site<'_>, survey: &mut Survey<'_, '_>, of: Ref, list: &[ProvisionId]) -> Result<Ref, TooMany> {
    let law = site.law();
    let guards: Vec<_> = list.iter().filter_map(|id| law.provision(*id)).map(|own| own.guard).collect();
    let all = survey.conditions(guards)?;
    let not = survey.logic().not(all)?;
    survey.all([of, not])
}

fn tell(site: &Site<'_>, own: &dyn Fn(FileId) -> bool, question: QuestionId, set: Set) -> Option<Conflict> {
    let law = site.law();
    let mut parties: Vec<(&Source, &str)> = Vec::new();
    for id in &set.list {
        let provision = law.provision(*id)?;
        let source = law.source(provision.source)?;
        if !parties.iter().any(|(other, _)| other.at == source.at) {
            parties.push((source, &provision.words));
        }
    }
    let mut texts: Vec<Location> = parties.iter().map(|(source, _)| source.at).collect();
    texts.sort();
    // Told at the innermost text that was given: whoever wrote it can mend it.
    let (first, _) =
        parties.iter().filter(|(source, _)| own(source.at.file)).max_by_key(|(source, _)| (source.depth, source.at))?;
    let asked = &site.ground.matter().lexicon.question(question)?.name;
    let list: Vec<String> =
        parties.iter().map(|(source, words)| format!("`{}` of {}", short(words), name(source))).collect();
    let message = format!("at {} some jobs cannot follow all of these: {}", site.title(), list.join(", "));
    let example = site.example(&set.job, &format!("{asked} contradicts itself"), &[question]);
    let mut told = Diagnostic::new(codes::CONTRADICTION, first.at, message)
        .help("give one of them a `where` that leaves the other's jobs out, amend one, or say which prevails")
        .shown_by(example);
    for (source, _) in parties.iter().filter(|(source, _)| source.at != first.at) {
        told = told.also(source.at, format!("{} stands here", name(source)));
    }
    Some(Conflict { texts, told })
}
