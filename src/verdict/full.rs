//! The whole verdict on a job, with reasons.

use super::answer::{Form, Parts};
use super::aside::{Aside, Presumption};
use super::found::{Finding, Found, State};
use super::model::{Answered, Coming, Edition, Inquiry, Remark, Role, Verdict};
use super::outcome;
use super::paths::{Path, Told};
use super::plan::Look;
use super::reasons::{Reasons, figures, gather};
use super::truth::{Mark, Matter, Memo};
use super::value::{Saying, Value};
use super::weigh::{Scratch, over_all};
use super::words::{Phrase, condition, residue};
use crate::glossary::model::FieldId;
use crate::job::model::Given;
use crate::law::model::{CondId, Effect, Node, Provenance};
use crate::syntax::diagnostic::FileId;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Weighs a job and gathers the reasons.
pub(crate) fn full<'a>(matter: &Matter<'a>, scratch: &mut Scratch) -> Verdict<'a> {
    weighed(matter, scratch, None)
}

/// The answers to some questions alone, with reasons: those wanted, by their place in the
/// law, and what they read. Nothing else of the verdict is to be relied on.
pub(crate) fn in_part<'a>(matter: &Matter<'a>, scratch: &mut Scratch, wanted: &[usize]) -> Verdict<'a> {
    let mut all = vec![false; matter.law.questions.len()];
    for question in wanted {
        let read = &matter.plan.cone(matter.law, &matter.lexicon, *question).questions;
        for number in read.iter().chain([question]) {
            if let Some(slot) = all.get_mut(*number) {
                *slot = true;
            }
        }
    }
    weighed(matter, scratch, Some(&all))
}

fn weighed<'a>(matter: &Matter<'a>, scratch: &mut Scratch, wanted: Option<&[bool]>) -> Verdict<'a> {
    scratch.weigh_some(matter, wanted);
    let skip = |question: usize| wanted.is_some_and(|wanted| wanted.get(question) != Some(&true));
    presumptions(matter, scratch, &skip);
    let Scratch { memo, found, .. } = &mut *scratch;
    let governed = matter.law.governed.iter().map(|(_, cond)| over_all(matter, memo, *cond));
    let outcome = outcome::of(matter.plan, found, governed);
    let mut answers = Vec::with_capacity(scratch.found.len());
    for number in matter.plan.by_name.iter().filter(|number| !skip(**number)) {
        let Some(found) = scratch.found.get(*number) else { continue };
        answers.extend(answered(matter, &mut scratch.memo, *number, found));
    }
    let memo = &mut scratch.memo;
    let codes = codes(matter, memo);
    let ungoverned = ungoverned(matter, memo);
    let notes = notes(matter, memo, &answers);
    Verdict {
        outcome,
        reference: matter.job.reference.as_deref(),
        ask: inquiries(matter, &answers),
        cautions: cautions(matter, memo, &answers),
        pending: pending(matter),
        files: files(matter, &answers, &codes, &notes),
        codes,
        ungoverned,
        notes,
        answers,
    }
}

fn answered<'a>(matter: &Matter<'a>, memo: &mut Memo, number: usize, found: &Found) -> Option<Answered<'a>> {
    let law = matter.law.questions.get(number)?;
    let ask = matter.plan.asks.get(number)?;
    let question = matter.lexicon.question(law.question)?;
    let Reasons { because, advice, set_aside } = gather(matter, memo, number, found);
    let figure = |part: usize, rank: u128| -> Option<Arc<str>> { figure(&ask.form, &because, part, rank) };
    let saying =
        Saying { lexicon: &matter.lexicon, question, law, ask, named: found.named, only: found.only, figure: &figure };
    let value = match found.state {
        State::Open | State::Silent => None,
        _ => found.value.as_ref().map(|parts| saying.value(parts)),
    };
    let tell = |parts: &Parts| -> Value<'a> { saying.value(parts) };
    let between = found.between.as_ref().map(|(low, high)| (tell(low), tell(high)));
    let ends = found.ends.as_ref().map(|ends| ends.each_ref().map(|end| end.as_ref().map(tell)));
    let found = within_spans(matter, memo, found);
    Some(Answered { question, number, found, value, between, ends, because, advice, set_aside })
}

/// What was found, its witnesses naming only instruments in whose unknown span the
/// job's date may lie.
fn within_spans(matter: &Matter<'_>, memo: &mut Memo, found: &Found) -> Found {
    let mut found = found.clone();
    let mut may = |told: &Told| match told {
        Told::InForce(span, _) => {
            matter.law.spans.get(*span).is_some_and(|span| over_all(matter, memo, span.within) != Mark::No)
        }
        _ => true,
    };
    for witness in found.witnesses.iter_mut().flatten() {
        witness.retain(&mut may);
    }
    found
}

/// The figure of the first reason that gives a limit of this rank.
fn figure(form: &Form, because: &[super::model::Reason<'_>], part: usize, rank: u128) -> Option<Arc<str>> {
    figures(because)
        .find(|demand| form.demanded(demand, part) == Some(rank))
        .and_then(|demand| demand.figures.get(part).cloned().flatten())
}

/// Asks a presumed fact where a statement of it would leave fewer of the
/// questions open that read it.
fn presumptions(matter: &Matter<'_>, scratch: &mut Scratch, skip: &dyn Fn(usize) -> bool) {
    for (field, _) in &matter.law.presumed {
        if matter.presumed(*field).is_none() {
            continue;
        }
        let open = |found: &Found| found.state == State::Open || found.finding == Some(Finding::Open);
        let reads: Vec<bool> = (0..scratch.found.len())
            .map(|question| {
                !skip(question)
                    && scratch.found.get(question).is_some_and(open)
                    && matter.plan.cone(matter.law, &matter.lexicon, question).facts.contains_key(field)
            })
            .collect();
        let before = reads.iter().filter(|reads| **reads).count();
        if before == 0 {
            continue;
        }
        let mut settled: BTreeSet<usize> = BTreeSet::new();
        for statement in [0, 1] {
            let mut job = matter.job.clone();
            if let Some(slot) = job.values.get_mut(usize::from(field.0)) {
                *slot = Given::Term(statement);
            }
            let mut other = Scratch::default();
            other.weigh_some(&Matter { job: &job, ..*matter }, Some(&reads));
            let closed: Vec<usize> = (0..reads.len())
                .filter(|question| reads.get(*question) == Some(&true))
                .filter(|question| other.found.get(*question).is_some_and(|found| !open(found)))
                .collect();
            settled.extend(closed);
        }
        for question in settled {
            if let Some(found) = scratch.found.get_mut(question) {
                found.asks.push(Path::Fact(*field));
            }
        }
    }
}

/// What to ask: most questions first, then by name.
fn inquiries<'a>(matter: &Matter<'a>, answers: &[Answered<'a>]) -> Vec<Inquiry<'a>> {
    let mut facts: BTreeMap<Path, Vec<&'a str>> = BTreeMap::new();
    for answer in answers {
        for path in &answer.found.asks {
            facts.entry(*path).or_default().push(&answer.question.name);
        }
    }
    let mut asks: Vec<Inquiry<'a>> = facts
        .into_iter()
        .map(|(path, changes)| Inquiry {
            path,
            fact: path.write(&matter.lexicon),
            prompt: path.prompt(&matter.lexicon),
            changes,
        })
        .collect();
    asks.sort_by(|one, two| two.changes.len().cmp(&one.changes.len()).then_with(|| one.fact.cmp(&two.fact)));
    asks
}

fn codes<'a>(matter: &Matter<'a>, memo: &mut Memo) -> Vec<Edition<'a>> {
    let mut codes: Vec<Edition<'a>> = Vec::new();
    for code in &matter.law.codes {
        let reach = over_all(matter, memo, code.reach);
        if reach == Mark::No {
            continue;
        }
        let subject = matter.lexicon.subject(code.subject).map_or("", |subject| &*subject.name);
        codes.push(Edition { code, subject, possible: reach != Mark::Yes });
    }
    let key = |edition: &Edition<'a>| {
        let code = edition.code;
        (&*code.code, code.edition, edition.subject, &*code.by, edition.possible)
    };
    codes.sort_by(|one, two| key(one).cmp(&key(two)));
    codes.dedup_by(|later, earlier| {
        let (one, two) = (key(earlier), key(later));
        (one.0, one.1, one.2, one.3) == (two.0, two.1, two.2, two.3)
    });
    codes
}

/// The subjects of which it is open whether a code governs them.
fn ungoverned<'a>(matter: &Matter<'a>, memo: &mut Memo) -> Vec<(&'a str, Phrase)> {
    let mut open = Vec::new();
    for (subject, cond) in &matter.law.governed {
        if over_all(matter, memo, *cond) == Mark::Open
            && let Some(subject) = matter.lexicon.subject(*subject)
        {
            open.push((subject.printed(), residue(memo, matter, *cond, true, None)));
        }
    }
    open
}

/// Whether a condition holds over all completions: nothing where it holds in
/// none; else what of it is not settled in words, empty where it holds in all.
pub(crate) fn held(matter: &Matter<'_>, scratch: &mut Scratch, cond: CondId) -> Option<String> {
    match over_all(matter, &mut scratch.memo, cond) {
        Mark::No => None,
        Mark::Yes => Some(String::new()),
        Mark::Open | Mark::Refers => {
            Some(waits(matter, &mut scratch.memo, cond).map_or_else(String::new, |phrase| phrase.write(matter)))
        }
    }
}

/// What keeps a condition from being settled.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Unsettled {
    /// The unknown day of an instrument.
    pub(crate) span: bool,
    /// Which text the applicant elects.
    pub(crate) text: bool,
    /// All of it in words; empty where the condition holds in every completion.
    pub(crate) words: String,
}

/// What keeps a condition over facts alone from being settled; nothing where it holds in no
/// completion. Unlike [`held`] it needs no answers, so that many days are looked at in a row.
pub(crate) fn unsettled(matter: &Matter<'_>, scratch: &mut Scratch, cond: CondId) -> Option<Unsettled> {
    scratch.memo.reset(matter.law);
    match over_all(matter, &mut scratch.memo, cond) {
        Mark::No => None,
        Mark::Yes => Some(Unsettled::default()),
        Mark::Open | Mark::Refers => {
            let phrase = residue(&mut scratch.memo, matter, cond, true, None);
            let mut found = Unsettled { words: phrase.write(matter), ..Unsettled::default() };
            why(matter, &phrase, &mut found);
            Some(found)
        }
    }
}

fn why(matter: &Matter<'_>, phrase: &Phrase, found: &mut Unsettled) {
    match phrase {
        Phrase::All(parts) | Phrase::Any(parts) => parts.iter().for_each(|part| why(matter, part, found)),
        Phrase::Test { cond, .. } => match matter.law.node(*cond) {
            Node::Span(_) => found.span = true,
            Node::Field(field, _) => found.text |= matter.lexicon.roles.text.is_some_and(|(text, ..)| text == *field),
            _ => {}
        },
    }
}

/// The residue of a condition that does not surely hold.
fn waits(matter: &Matter<'_>, memo: &mut Memo, cond: CondId) -> Option<Phrase> {
    let phrase = residue(memo, matter, cond, true, None);
    (!phrase.is_empty()).then_some(phrase)
}

fn notes<'a>(matter: &Matter<'a>, memo: &mut Memo, answers: &[Answered<'a>]) -> Vec<Remark<'a>> {
    let mut notes: Vec<Remark<'a>> = Vec::new();
    for note in &matter.law.notes {
        let held = over_all(matter, memo, note.guard);
        if held == Mark::No {
            continue;
        }
        let condition = if held == Mark::Yes { None } else { waits(matter, memo, note.guard) };
        let source = matter.law.source(note.source);
        let aside = Aside::Published(&note.text);
        notes.push(Remark { aside, question: None, source, condition });
    }
    for answer in answers {
        let question = Some(&*answer.question.name);
        if answer.found.moot {
            for reason in &answer.because {
                if let Effect::Refer(why) = &reason.provision.effect {
                    let aside = Aside::MootReferral(why);
                    notes.push(Remark { aside, question, source: Some(reason.source), condition: None });
                }
            }
        }
        if answer.found.may_lack_equivalent {
            notes.push(Remark { aside: Aside::NoEquivalent, question, source: None, condition: None });
        }
    }
    notes.extend(presumed(matter, memo, answers));
    notes.sort_by(|one, two| {
        let key = |note: &Remark<'a>| (note.question, note.aside.to_string());
        match (one.source, two.source) {
            (Some(a), Some(b)) => super::order::sources(a, b).then_with(|| key(one).cmp(&key(two))),
            (a, b) => b.is_some().cmp(&a.is_some()).then_with(|| key(one).cmp(&key(two))),
        }
    });
    notes.dedup_by(|later, earlier| {
        later.aside == earlier.aside && later.question == earlier.question && later.source == earlier.source
    });
    notes
}

/// Names each fact that was left unsaid and presumed.
fn presumed<'a>(matter: &Matter<'a>, memo: &mut Memo, answers: &[Answered<'a>]) -> Vec<Remark<'a>> {
    let mut remarks = Vec::new();
    for (field, _) in &matter.law.presumed {
        let Some(cond) = matter.presumed(*field) else { continue };
        let took_part = |answer: &Answered<'_>| {
            answer.found.state != State::Silent
                && matter.plan.cone(matter.law, &matter.lexicon, answer.number).facts.contains_key(field)
        };
        if !answers.iter().any(took_part) {
            continue;
        }
        let fact = matter.lexicon.field(*field).map_or("", |field| &*field.path);
        let presumption = match over_all(matter, memo, cond) {
            Mark::Yes => Presumption::Yes,
            Mark::No => Presumption::No,
            _ => Presumption::Where,
        };
        let aside = Aside::Presumed { fact, presumption, condition: condition(matter, cond, true, None) };
        remarks.push(Remark { aside, question: None, source: None, condition: None });
    }
    remarks
}

fn cautions<'a>(matter: &Matter<'a>, memo: &mut Memo, answers: &[Answered<'a>]) -> Vec<Aside<'a>> {
    let mut cautions: Vec<Aside<'a>> = Vec::new();
    for caution in &matter.law.cautions {
        if over_all(matter, memo, caution.cond) != Mark::No {
            cautions.push(Aside::Published(&caution.text));
        }
    }
    cautions.extend(matter.law.dating.iter().filter_map(|field| early(matter, *field)));
    for span in &matter.law.spans {
        if over_all(matter, memo, span.within) != Mark::No {
            cautions.push(Aside::BeganUnknown { instrument: &span.instrument, issuer: &span.issuer });
        }
    }
    for answer in answers {
        for reason in answer.because.iter().filter(|reason| reason.role == Role::Governs) {
            let table = reason.provision.table.and_then(|table| matter.law.source(table));
            let rests = [Some(reason.source), table].into_iter().flatten();
            for source in rests.filter(|source| source.provenance == Provenance::Memory) {
                cautions.push(Aside::Memory(source));
            }
        }
        if let Some(caution) = &answer.question.caution
            && stands(matter, answer)
        {
            cautions.push(Aside::Published(caution));
        }
    }
    let mut seen: BTreeSet<String> = BTreeSet::new();
    cautions.retain(|caution| seen.insert(caution.to_string()));
    cautions
}

/// Whether an answer is above its loosest in some completion.
fn stands(matter: &Matter<'_>, answer: &Answered<'_>) -> bool {
    let Some(form) = matter.plan.asks.get(answer.number).map(|ask| ask.form) else { return false };
    let strictest = answer.found.between.as_ref().map(|(_, high)| high).or(answer.found.value.as_ref());
    strictest.is_none_or(|parts| !form.is_loosest(parts))
}

/// A given date before the first day of the place's law.
fn early<'a>(matter: &Matter<'a>, field: FieldId) -> Option<Aside<'a>> {
    let (Given::Date(date), Some(first)) = (matter.fact(field), matter.law.first_day) else { return None };
    let fact = matter.lexicon.field(field).map_or("", |field| &*field.path);
    (*date < first).then_some(Aside::Early { fact, date: *date, first })
}

fn pending<'a>(matter: &Matter<'a>) -> Vec<Coming<'a>> {
    let mut coming: Vec<Coming<'a>> = matter
        .law
        .pending
        .iter()
        .filter_map(|pending| Some(Coming { pending, source: matter.law.source(pending.source)? }))
        .collect();
    coming.sort_by(|one, two| super::order::sources(one.source, two.source));
    coming
}

fn files(matter: &Matter<'_>, answers: &[Answered<'_>], codes: &[Edition<'_>], notes: &[Remark<'_>]) -> Vec<FileId> {
    let mut files: BTreeSet<FileId> = BTreeSet::new();
    for answer in answers {
        for reason in answer.because.iter().chain(&answer.advice).chain(&answer.set_aside) {
            files.insert(reason.source.at.file);
            let table = reason.provision.table.and_then(|table| matter.law.source(table));
            files.extend(table.map(|table| table.at.file));
            files.extend(reason.by.map(|by| by.at.file));
        }
    }
    let code_sources = codes.iter().filter_map(|edition| matter.law.source(edition.code.source));
    files.extend(code_sources.map(|source| source.at.file));
    files.extend(notes.iter().filter_map(|note| note.source).map(|source| source.at.file));
    files.into_iter().collect()
}
