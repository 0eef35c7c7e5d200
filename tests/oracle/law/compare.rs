//! What the engine answers, put in the clerk's words.

use super::adopt::Adopting;
use super::answer::{Final, Part};
use super::clerk::Clerk;
use crate::engine::Job;
use crate::glossary::model::{Order, QuestionId};
use crate::law::instrument::{InstrumentId, Start};
use crate::law::library::Library;
use crate::law::model::QuestionLaw;
use crate::rules::Rules;
use crate::values::Terms;
use crate::verdict::found::State;
use crate::verdict::{Scratch, full, quick};
use std::collections::{BTreeMap, BTreeSet};

/// One question's answer, in words that both sides have.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Told {
    pub(super) question: String,
    pub(super) state: State,
    /// The value where it is the same in all completions.
    pub(super) parts: Option<Vec<Part>>,
}

/// An edition that may apply: code, year, subject, by whom, whether it surely does.
pub(super) type Edition = (String, i32, String, String, bool);

pub(super) struct Whole {
    pub(super) answers: Vec<Told>,
    pub(super) codes: BTreeSet<Edition>,
    /// Whether instruments hang on each other in a circle, or powers hold, so
    /// that the editions are not to be compared.
    pub(super) circular: bool,
    pub(super) powers: bool,
}

/// What the engine says.
pub(super) fn engine(rules: &Rules, job: &Job) -> Result<Whole, String> {
    let matter = rules.matter(&job.0).map_err(|told| format!("{told:?}"))?;
    let mut scratch = Scratch::default();
    let fast = quick(&matter, &mut scratch);
    let verdict = full(&matter, &mut scratch);
    assert_eq!(fast, verdict.outcome, "the fast verdict differs from the full one");
    let mut answers = Vec::new();
    for answer in &verdict.answers {
        let law = &matter.law.questions[answer.number];
        let parts = match answer.found.state {
            State::Open => None,
            _ => answer
                .found
                .value
                .as_ref()
                .map(|parts| named(&parts_of(rules, law, parts.as_slice()), answer.found.named, law)),
        };
        answers.push(Told { question: answer.question.name.to_string(), state: answer.found.state, parts });
    }
    answers.sort_by(|one, two| one.question.cmp(&two.question));
    let codes = verdict
        .codes
        .iter()
        .map(|edition| {
            (
                edition.code.code.to_string(),
                edition.code.edition,
                edition.subject.to_owned(),
                edition.code.by.to_string(),
                !edition.possible,
            )
        })
        .collect();
    Ok(Whole { answers, codes, circular: false, powers: false })
}

pub(super) fn parts_of(rules: &Rules, law: &QuestionLaw, parts: &[u128]) -> Vec<Part> {
    let question = &rules.library().glossary.questions[usize::from(law.question.0)];
    parts
        .iter()
        .map(|part| match question.order {
            Order::Ladder(_) => Part::Rung(*part as u16),
            Order::AtLeast(_) | Order::AtMost(_) if *part == 0 => Part::Limit(None),
            Order::AtLeast(_) | Order::AtMost(_) => Part::Limit(Some(law.scale[*part as usize - 1].amount)),
            Order::Only(_) | Order::AllOf(_) => Part::Set(Terms(*part).common(law.terms)),
        })
        .collect()
}

/// Terms that nobody names are left out of the value.
fn named(parts: &[Part], terms: Terms, law: &QuestionLaw) -> Vec<Part> {
    if law.parts == 1 {
        return parts.to_vec();
    }
    terms.iter().map(|term| parts[usize::from(term)].clone()).collect()
}

/// What the clerk says, with every beginning that is not known taken both ways.
pub(super) fn clerk(rules: &Rules, job: &Job) -> Whole {
    let library = rules.library();
    let spans = spans(library, &job.0);
    let mut circular = false;
    let mut powers = false;
    let mut ways: Vec<Vec<Final>> = Vec::new();
    let mut editions: Vec<BTreeSet<(String, i32, String, String)>> = Vec::new();
    for way in 0..1u32 << spans.len() {
        let chosen: BTreeMap<InstrumentId, bool> =
            spans.iter().enumerate().map(|(at, id)| (*id, way >> at & 1 == 1)).collect();
        let clerk = Clerk::new(library, &job.0, chosen);
        ways.push((0..library.glossary.questions.len()).map(|at| clerk.answer(QuestionId(at as u16))).collect());
        let stands = clerk.in_force(clerk.whole());
        editions
            .push(stands.iter().flat_map(|(adopting, subjects)| named_editions(&clerk, *adopting, subjects)).collect());
        circular |= clerk.circular.get();
        powers |= clerk.law(clerk.whole()).iter().any(|id| !clerk.instrument(*id).powers.is_empty());
    }
    let mut answers: Vec<Told> = library
        .glossary
        .questions
        .iter()
        .enumerate()
        .map(|(at, question)| {
            let finals: Vec<&Final> = ways.iter().map(|way| &way[at]).collect();
            let first = finals[0];
            let same = finals.iter().all(|other| {
                (&other.parts, other.refer, other.conflict) == (&first.parts, first.refer, first.conflict)
            });
            let state = match () {
                () if finals.iter().all(|each| each.conflict) => State::Conflict,
                () if finals.iter().all(|each| each.refer) => State::Referred,
                () if !same => State::Open,
                () if finals.iter().all(|each| !each.reaches) => State::Silent,
                () => State::Settled,
            };
            let named = finals.iter().fold(Terms::NONE, |all, each| all.union(each.named));
            let same_parts = finals.iter().all(|other| other.parts == first.parts);
            let parts = (same_parts && state != State::Open).then(|| match question.per {
                None => first.parts.clone(),
                Some(_) => named.iter().map(|term| first.parts[usize::from(term)].clone()).collect(),
            });
            Told { question: question.name.to_string(), state, parts }
        })
        .collect();
    answers.sort_by(|one, two| one.question.cmp(&two.question));
    let all: BTreeSet<_> = editions.iter().flatten().cloned().collect();
    let codes = all
        .into_iter()
        .map(|edition| {
            let sure = editions.iter().all(|way| way.contains(&edition));
            let (code, year, subject, by) = edition;
            (code, year, subject, by, sure)
        })
        .collect();
    Whole { answers, codes, circular, powers }
}

fn named_editions(
    clerk: &Clerk<'_>,
    adopting: Adopting,
    subjects: &[crate::glossary::model::SubjectId],
) -> Vec<(String, i32, String, String)> {
    let edition = clerk.adoption(adopting).edition;
    let code = clerk.code_of(edition).name.to_string();
    let year = clerk.library.codes.edition(edition).expect("an edition").year;
    let by = clerk.instrument(adopting.0).id.to_string();
    subjects
        .iter()
        .map(|subject| {
            let name = clerk.library.glossary.subjects[usize::from(subject.0)].name.to_string();
            (code.clone(), year, name, by.clone())
        })
        .collect()
}

/// The instruments of which it is not known whether they have begun.
pub(super) fn spans(library: &Library, job: &crate::job::model::Job) -> Vec<InstrumentId> {
    let clerk = Clerk::new(library, job, BTreeMap::new());
    let mut found: Vec<InstrumentId> =
        clerk.law(clerk.whole()).into_iter().chain(library.outsiders().iter().copied()).collect();
    found.retain(|id| {
        clerk.instrument(*id).force.is_some_and(|force| !matches!(force.start, Start::On(_))) && clerk.in_span(*id)
    });
    found
}
