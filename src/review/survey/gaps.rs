//! GR5202 and GR5203: what a place leaves open: questions that nothing answers
//! there while places of the same state answer them, and jobs that no code governs.
//!
//! The state is the outermost place around it that adopts a code; where none does, a
//! place is compared with those that lie in the same place as it does and make law,
//! and what half of them answer is told.

use super::Stopped;
use super::site::Site;
use crate::glossary::Territory;
use crate::glossary::model::{PlaceId, QuestionId, SubjectId};
use crate::job::model::Job;
use crate::law::instrument::{Instrument, Weight};
use crate::law::model::CondId;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::values::Date;
use crate::verdict::TooMany;
use crate::verdict::survey::Window;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

/// The questions that some place answers, each with the first such place: what
/// there is of other places is read once.
pub(super) struct Answering<'r> {
    rules: &'r Rules,
    window: Window,
    /// By question, the places whose own instruments speak of it.
    speak: BTreeMap<QuestionId, Vec<PlaceId>>,
    /// The places that adopt a code.
    adopt: BTreeSet<PlaceId>,
    /// By the place right around them, the places with binding law of their own.
    beside: BTreeMap<PlaceId, BTreeSet<PlaceId>>,
    /// By place and question whether it answers it for some job.
    sure: BTreeMap<(PlaceId, QuestionId), OnceLock<bool>>,
    /// Once it is, what is found is thrown away, and no further place need be looked at.
    stopped: &'r Stopped<'r>,
}

impl<'r> Answering<'r> {
    /// Finds who speaks of what.
    pub(super) fn new(rules: &'r Rules, window: Window, stopped: &'r Stopped<'r>) -> Answering<'r> {
        let library = rules.library();
        let mut speak: BTreeMap<QuestionId, BTreeSet<PlaceId>> = BTreeMap::new();
        let mut adopt = BTreeSet::new();
        let mut beside: BTreeMap<PlaceId, BTreeSet<PlaceId>> = BTreeMap::new();
        let printed: Vec<BTreeSet<QuestionId>> = library
            .codes
            .editions
            .iter()
            .map(|edition| edition.sections.iter().flat_map(|printed| printed.section.questions()).collect())
            .collect();
        for own in library.instruments.iter().filter(|own| own.is_law() && own.kind.weight() == Weight::Binding) {
            if !own.adoptions.is_empty() {
                adopt.insert(own.issuer);
            }
            if let Some(parent) = library.places.issuer(own.issuer).and_then(|issuer| issuer.parent) {
                beside.entry(parent).or_default().insert(own.issuer);
            }
            let adopted =
                own.adoptions.iter().filter_map(|adoption| printed.get(adoption.edition.0 as usize)).flatten();
            let patched = own.amends.iter().flat_map(|amend| &amend.patches).map(|patch| &patch.section);
            let sections = own.sections.iter().map(|(_, section)| section);
            let said = sections.chain(patched).flat_map(|section| section.questions());
            for question in said.chain(adopted.copied()) {
                speak.entry(question).or_default().insert(own.issuer);
            }
        }
        let sure = speak
            .iter()
            .flat_map(|(question, places)| places.iter().map(|place| ((*place, *question), OnceLock::new())))
            .collect();
        let speak = speak.into_iter().map(|(key, places)| (key, places.into_iter().collect())).collect();
        Answering { rules, window, speak, adopt, beside, sure, stopped }
    }

    /// The places of the same state that answer a question for some job, two at most.
    fn elsewhere(&self, place: PlaceId, question: QuestionId) -> Vec<PlaceId> {
        let places = &self.rules.library().places;
        let path = places.path(place);
        let around: Vec<PlaceId> = path.iter().copied().filter(|other| *other != place).collect();
        let state = around.iter().find(|other| self.adopt.contains(other));
        let Some(speak) = self.speak.get(&question) else { return Vec::new() };
        if let Some(state) = state {
            let within = |other: &PlaceId| places.within(*other, *state) && !places.within(*other, place);
            let others = speak.iter().copied().filter(within);
            return others.filter(|other| self.answers(*other, question)).take(2).collect();
        }
        let beside = places.issuer(place).and_then(|issuer| issuer.parent).and_then(|parent| self.beside.get(&parent));
        let others: Vec<PlaceId> = beside.into_iter().flatten().copied().filter(|other| *other != place).collect();
        let answer: Vec<PlaceId> = others.iter().copied().filter(|other| self.answers(*other, question)).collect();
        if answer.len() * 2 < others.len() { Vec::new() } else { answer.into_iter().take(2).collect() }
    }

    fn answers(&self, place: PlaceId, question: QuestionId) -> bool {
        let Some(known) = self.sure.get(&(place, question)) else { return false };
        if (self.stopped)() {
            return false;
        }
        *known.get_or_init(|| {
            let Ok(site) = Site::new(self.rules, place, self.window) else { return false };
            let number = site.law().questions.iter().position(|own| own.question == question);
            number.is_some_and(|number| reaches(&site, number) == Ok(true))
        })
    }
}

/// Whether some provision on a question reaches some job.
fn reaches(site: &Site<'_>, number: usize) -> Result<bool, TooMany> {
    let law = site.law();
    if law.questions.get(number).is_none_or(|own| own.whole.is_empty()) {
        return Ok(false);
    }
    site.survey(&[number], &[], |survey| {
        let reach = survey.reach(number)?;
        survey.somewhere(reach)
    })
}

/// The questions that nothing of a place or around it ever answers and that others
/// answer; a place that says it has nothing of its own on a subject has said so.
pub(super) fn unanswered(site: &Site<'_>, answering: &Answering<'_>, at: Location) -> Option<Diagnostic> {
    let library = site.rules.library();
    let about = library.places.issuer(site.place)?;
    // Of a place without law of its own verdicts say that nothing is recorded.
    own_law(site).next()?;
    let lexicon = site.ground.matter().lexicon;
    let mut silent: Vec<(&str, QuestionId, Vec<PlaceId>)> = Vec::new();
    for (number, own) in site.law().questions.iter().enumerate() {
        let known = lexicon.question(own.question)?;
        if about.nothing.contains(&known.subject) || reaches(site, number) != Ok(false) {
            continue;
        }
        let others = answering.elsewhere(site.place, own.question);
        if !others.is_empty() {
            silent.push((&known.name, own.question, others));
        }
    }
    silent.sort_by_key(|(name, ..)| *name);
    let (_, _, others) = silent.first()?;
    let names: Vec<String> = silent.iter().map(|(name, ..)| format!("`{name}`")).collect();
    let places: Vec<&str> =
        others.iter().filter_map(|place| library.places.issuer(*place)).map(|place| &*place.title).collect();
    let asked = if silent.len() == 1 { "it is answered" } else { "the first is answered" };
    let message =
        format!("nothing at {} answers {}; {asked} at {}", site.title(), names.join(", "), places.join(" and "));
    let questions: Vec<QuestionId> = silent.iter().map(|(_, question, _)| *question).collect();
    let example = site.example(site.ground.matter().job, &format!("left unanswered at {}", site.title()), &questions);
    let help = "look whether the place has a text on it; if it has none, `nothing of its own on SUBJECT read … on DATE` says so";
    Some(Diagnostic::new(codes::UNANSWERED, at, message).help(help).shown_by(example))
}

/// The binding instruments of a place itself.
fn own_law<'s>(site: &'s Site<'_>) -> impl Iterator<Item = &'s Instrument> {
    let library = site.rules.library();
    let all = library.of_issuer(site.place).iter().filter_map(|id| library.instruments.get(id.0 as usize));
    all.filter(|own| own.is_law() && own.kind.weight() == Weight::Binding)
}

/// Whether a place itself speaks on a subject: adopts a code on it, or answers its
/// questions in sections of its own.
fn speaks(site: &Site<'_>, subject: SubjectId) -> bool {
    let glossary = &site.rules.library().glossary;
    own_law(site).any(|own| {
        let on = |question: QuestionId| glossary[question].subject == subject;
        own.adoptions.iter().any(|adoption| adoption.subjects.contains(&subject))
            || own.sections.iter().any(|(_, section)| section.questions().into_iter().any(on))
    })
}

/// A hole in what is governed: a job in it, and its days.
struct Hole {
    job: Job,
    days: Vec<(Date, Option<Date>)>,
    /// Whether no code is ever in force.
    always: bool,
}

impl Hole {
    /// Whether two places have the same hole, as far as a finding tells it.
    fn same(&self, other: &Hole) -> bool {
        self.always && other.always || self.days == other.days && !self.days.is_empty()
    }
}

/// The subjects that must be governed and on which no code reaches some job, told
/// where the place itself speaks on them and no place around it tells the same hole.
/// Before the first adoption on the path there is no hole unless the window asks for
/// these days, and none before the first law, of which verdicts say nothing.
pub(super) fn ungoverned(site: &Site<'_>, at: Location) -> (Vec<Diagnostic>, bool) {
    let mut told = Vec::new();
    let mut undecided = false;
    for (subject, cond) in site.law().governed.iter().filter(|(subject, _)| tells(site, *subject)) {
        let hole = match hole(site, *subject) {
            Ok(Some(hole)) => hole,
            Ok(None) => continue,
            Err(TooMany) => {
                undecided = true;
                continue;
            }
        };
        if told_around(site, *subject, &hole) {
            continue;
        }
        let known = site.ground.matter().lexicon.subject(*subject);
        let subject = known.map_or("", |subject| &*subject.name);
        let name = format!("no code on {subject} at {}", site.title());
        let example = site.example(&hole.job, &name, &[]);
        let message = if *cond == CondId::FALSE {
            format!("no code on {subject} is ever in force at {}", site.title())
        } else {
            format!("at {} no code on {subject} governs some jobs{}", site.title(), stretches(&hole.days))
        };
        let help = "adopt an edition for them, or say with `where` and `otherwise` which edition governs which jobs";
        told.push(Diagnostic::new(codes::UNGOVERNED, at, message).help(help).shown_by(example));
    }
    (told, undecided)
}

/// Whether a hole on a subject is for this place to tell: it speaks on it, and does not
/// leave it to places within.
fn tells(site: &Site<'_>, subject: SubjectId) -> bool {
    speaks(site, subject) && !(never(site, subject) && adopted_within(site, subject))
}

/// Whether no code on a subject is ever in force.
fn never(site: &Site<'_>, subject: SubjectId) -> bool {
    site.law().governed.contains(&(subject, CondId::FALSE))
}

/// Whether a place around tells the same hole: a nearer one that has it and does not
/// speak of it passes it on.
fn told_around(site: &Site<'_>, subject: SubjectId, own: &Hole) -> bool {
    for place in site.rules.library().places.path(site.place).iter().rev().skip(1) {
        let Ok(around) = Site::new(site.rules, *place, site.window) else { return false };
        match hole(&around, subject) {
            Ok(Some(hole)) if hole.same(own) => {}
            _ => return false,
        }
        if tells(&around, subject) {
            return true;
        }
    }
    false
}

/// Whether a place within adopts a code on a subject, so that the place leaves that to
/// those.
fn adopted_within(site: &Site<'_>, subject: SubjectId) -> bool {
    let library = site.rules.library();
    library.instruments.iter().any(|own| {
        own.issuer != site.place
            && own.is_law()
            && own.adoptions.iter().any(|adoption| adoption.subjects.contains(&subject))
            && library.places.within(own.issuer, site.place)
    })
}

/// The hole of a place on a subject, whatever instruments of unknown days are in force.
fn hole(site: &Site<'_>, subject: SubjectId) -> Result<Option<Hole>, TooMany> {
    let known = site.law().governed.iter().find(|(other, _)| *other == subject);
    let Some((_, cond)) = known else { return Ok(None) };
    let mut window = site.window;
    if window.from.is_none() {
        window.from = first_adoption(site, subject);
    }
    let Ok(site) = Site::new(site.rules, site.place, window) else { return Ok(None) };
    site.survey(&[], &[*cond], |survey| {
        let reached = survey.condition(*cond)?;
        let none = survey.logic().not(reached)?;
        let none = survey.whatever_began(none)?;
        let Some(walk) = survey.first(none)? else { return Ok(None) };
        let job = survey.job_of(&walk);
        let days = match site.ground.matter().lexicon.roles.dates {
            Some(field) => survey.days(none, field)?,
            None => Vec::new(),
        };
        Ok(Some(Hole { job, days, always: *cond == CondId::FALSE }))
    })
}

/// The first day on which a code on a subject may be adopted on the path of a place.
fn first_adoption(site: &Site<'_>, subject: SubjectId) -> Option<Date> {
    let library = site.rules.library();
    let path = library.places.path(site.place);
    let all = path.iter().flat_map(|place| library.of_issuer(*place));
    all.filter_map(|id| library.instruments.get(id.0 as usize))
        .filter(|own| own.is_law())
        .filter(|own| own.adoptions.iter().any(|adoption| adoption.subjects.contains(&subject)))
        .filter_map(Instrument::first_day)
        .min()
}

/// The days of which it is so, in words.
fn stretches(days: &[(Date, Option<Date>)]) -> String {
    let text = |(from, next): &(Date, Option<Date>)| match next {
        Some(next) => format!("from {from} through {}", next.eve()),
        None => format!("from {from} on"),
    };
    match days {
        [] => String::new(),
        several => format!(": {}", several.iter().map(text).collect::<Vec<_>>().join(", ")),
    }
}
