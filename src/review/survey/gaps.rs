//! GR5202 and GR5203: what a place leaves open: questions that nothing answers
//! there while other places answer them, and jobs that no code governs.

use super::site::Site;
use crate::glossary::Territory;
use crate::glossary::model::{PlaceId, QuestionId};
use crate::law::instrument::Weight;
use crate::law::model::CondId;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::verdict::TooMany;
use crate::verdict::survey::Window;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

/// The questions that some place answers, each with the first such place: what
/// there is of other places is read once.
pub(super) struct Answering<'r> {
    rules: &'r Rules,
    window: Window,
    /// By outermost place and question, the places whose own instruments speak of it.
    speak: BTreeMap<(PlaceId, QuestionId), Vec<PlaceId>>,
    /// By place and question whether it answers it for some job.
    sure: BTreeMap<(PlaceId, QuestionId), OnceLock<bool>>,
}

impl<'r> Answering<'r> {
    /// Finds who speaks of what.
    pub(super) fn new(rules: &'r Rules, window: Window) -> Answering<'r> {
        let library = rules.library();
        let mut speak: BTreeMap<(PlaceId, QuestionId), BTreeSet<PlaceId>> = BTreeMap::new();
        for own in library.instruments.iter().filter(|own| own.is_law() && own.kind.weight() == Weight::Binding) {
            let Some(outermost) = library.places.path(own.issuer).first().copied() else { continue };
            let adopted = own
                .adoptions
                .iter()
                .filter_map(|adoption| library.codes.edition(adoption.edition))
                .flat_map(|edition| edition.sections.iter().map(|printed| &printed.section));
            let patched = own.amends.iter().flat_map(|amend| &amend.patches).map(|patch| &patch.section);
            let sections = own.sections.iter().map(|(_, section)| section);
            for question in sections.chain(patched).chain(adopted).flat_map(|section| section.questions()) {
                speak.entry((outermost, question)).or_default().insert(own.issuer);
            }
        }
        let sure = speak
            .iter()
            .flat_map(|((_, question), places)| places.iter().map(|place| ((*place, *question), OnceLock::new())))
            .collect();
        let speak = speak.into_iter().map(|(key, places)| (key, places.into_iter().collect())).collect();
        Answering { rules, window, speak, sure }
    }

    /// The places under the same outermost one that answer a question for some job,
    /// two at most.
    fn elsewhere(&self, place: PlaceId, question: QuestionId) -> Vec<PlaceId> {
        let places = &self.rules.library().places;
        let Some(outermost) = places.path(place).first().copied() else { return Vec::new() };
        let Some(speak) = self.speak.get(&(outermost, question)) else { return Vec::new() };
        let others = speak.iter().copied().filter(|other| !places.within(*other, place));
        others.filter(|other| self.answers(*other, question)).take(2).collect()
    }

    fn answers(&self, place: PlaceId, question: QuestionId) -> bool {
        let Some(known) = self.sure.get(&(place, question)) else { return false };
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
    let message = format!(
        "nothing at {} answers {}, and {} {} the first",
        site.title(),
        names.join(", "),
        places.join(" and "),
        if places.len() == 1 { "answers" } else { "answer" }
    );
    let questions: Vec<QuestionId> = silent.iter().map(|(_, question, _)| *question).collect();
    let example = site.example(site.ground.matter().job, &format!("left unanswered at {}", site.title()), &questions);
    let help = "look whether the place has a text on it; if it has none, `nothing of its own on SUBJECT read … on DATE` says so";
    Some(Diagnostic::new(codes::UNANSWERED, at, message).help(help).shown_by(example))
}

/// The subjects that must be governed and on which no code reaches some job.
pub(super) fn ungoverned(site: &Site<'_>, at: Location) -> (Vec<Diagnostic>, bool) {
    let mut told = Vec::new();
    let mut undecided = false;
    let law = site.law();
    for (subject, cond) in &law.governed {
        let found = site.survey(&[], &[*cond], |survey| {
            let reached = survey.condition(*cond)?;
            let none = survey.logic().not(reached)?;
            let Some(walk) = survey.first(none)? else { return Ok(None) };
            let job = survey.job_of(&walk);
            let dates = site.ground.matter().lexicon.roles.dates;
            let days = match dates {
                Some(field) => survey.days(none, field)?,
                None => Vec::new(),
            };
            Ok(Some((job, days)))
        });
        let (job, days) = match found {
            Ok(Some(found)) => found,
            Ok(None) => continue,
            Err(TooMany) => {
                undecided = true;
                continue;
            }
        };
        let lexicon = site.ground.matter().lexicon;
        let subject = lexicon.subject(*subject).map_or("", |subject| &*subject.name);
        let name = format!("no code on {subject} at {}", site.title());
        let example = site.example(&job, &name, &[]);
        let when = stretches(&days);
        let message = if *cond == CondId::FALSE {
            format!("no code on {subject} is ever in force at {}", site.title())
        } else {
            format!("at {} no code on {subject} governs some jobs{when}", site.title())
        };
        let help = "adopt an edition for them, or say with `where` and `otherwise` which edition governs which jobs";
        told.push(Diagnostic::new(codes::UNGOVERNED, at, message).help(help).shown_by(example));
    }
    (told, undecided)
}

/// The days of which it is so, in words.
fn stretches(days: &[(crate::values::Date, Option<crate::values::Date>)]) -> String {
    let text = |(from, next): &(crate::values::Date, Option<crate::values::Date>)| match next {
        Some(next) => format!("from {from} through {}", next.eve()),
        None => format!("from {from} on"),
    };
    match days {
        [] => String::new(),
        several => format!(": {}", several.iter().map(text).collect::<Vec<_>>().join(", ")),
    }
}
