//! The last step: questions in the order in which they read each other, demands
//! on their question's scale, powers beside them.

use super::Compiler;
use super::adoption::Standing;
use super::clauses::cond_of;
use super::draft::{Draft, Drafts, Text};
use super::expr::Inside;
use super::level::Level;
use super::order::order;
use super::scale::Scale;
use crate::glossary::expr::{Check, Expr};
use crate::glossary::model::{Met, QuestionId};
use crate::law::instrument::{End, Start};
use crate::law::model::{Caution, CodeReach, CondId, Law, Node, Note, Pending, PowerStep, QuestionLaw};
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::PowerKind;
use crate::values::{Date, Period};
use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

/// A power of an outer place over a question, its outer law drafted.
pub(super) struct Step {
    kind: PowerKind,
    cond: CondId,
    pub(super) outer: Vec<Draft>,
    source: crate::law::model::SourceId,
    depth: u32,
}

/// Makes the law of what was drafted.
pub(crate) fn finish<'l>(
    mut compiler: Compiler<'l>,
    mut level: Level,
    drafts: Drafts,
    texts: &[Text<'l>],
    standings: &[Standing<'l>],
) -> Result<Law, Diagnostic> {
    let known: Vec<QuestionId> = (0..compiler.library.glossary.questions.len() as u16)
        .map(QuestionId)
        .filter(|question| compiler.knows(*question))
        .collect();
    let mut steps = powers(&mut compiler, &mut level);
    let codes = codes(&mut compiler, &mut level, texts, standings, &steps);
    let governed = governed(&mut compiler, &codes);
    let (asked, met) = findings(&mut compiler, &known);
    let presumed = presumptions(&mut compiler);
    let cautions = cautions(&mut compiler, &mut level);
    let mut law = Law {
        codes,
        governed,
        presumed,
        notes: drafts
            .notes
            .into_iter()
            .map(|note| Note { guard: note.guard, text: note.text, source: note.source })
            .collect(),
        cautions,
        ..Law::empty(compiler.place)
    };
    pending(&mut compiler, &mut law);
    dating(&compiler, &level, &mut law);
    law.code_choices = code_choices(&compiler, standings);
    let mut by_question: HashMap<QuestionId, (Vec<Draft>, Vec<Draft>)> = HashMap::new();
    for draft in drafts.binding {
        by_question.entry(draft.question).or_default().0.push(draft);
    }
    for draft in drafts.advice {
        by_question.entry(draft.question).or_default().1.push(draft);
    }
    let order = order(&compiler, &known, &by_question, &steps, &asked, &met)?;
    for question in &order {
        let (whole, advice) = by_question.remove(question).unwrap_or_default();
        let steps = steps.remove(question).unwrap_or_default();
        let scale = Scale::new(
            &compiler,
            *question,
            whole.iter().chain(&advice).chain(steps.iter().flat_map(|step| &step.outer)),
        );
        let whole = scale.put(&mut compiler, &mut law, whole);
        let advice = scale.put(&mut compiler, &mut law, advice);
        let powers = steps
            .into_iter()
            .map(|step| PowerStep {
                kind: step.kind,
                cond: step.cond,
                outer: scale.put(&mut compiler, &mut law, step.outer),
                source: step.source,
                depth: step.depth,
            })
            .collect();
        let contrary = contrary(&compiler, *question, &order);
        law.questions.push(QuestionLaw {
            question: *question,
            terms: scale.terms,
            per_terms: scale.per_terms,
            parts: scale.parts,
            scale: scale.measures,
            whole,
            powers,
            advice,
            asked: asked.get(question).copied().unwrap_or(CondId::TRUE),
            met: met.get(question).copied(),
            contrary,
        });
    }
    law.sources = compiler.sources;
    law.spans = compiler.spans;
    let places: HashMap<usize, usize> =
        order.iter().enumerate().map(|(place, question)| (question.0 as usize, place)).collect();
    law.nodes = compiler
        .arena
        .into_nodes()
        .into_iter()
        .map(|node| match node {
            // A question that is not known at the place has no answer to read.
            Node::Answer { question, rungs } => match places.get(&question) {
                Some(place) => Node::Answer { question: *place, rungs },
                None => Node::False,
            },
            other => other,
        })
        .collect();
    tests(&mut law);
    Ok(law)
}

/// The powers over each question, innermost place first, with the outer law of
/// each holder.
fn powers(compiler: &mut Compiler, level: &mut Level) -> HashMap<QuestionId, Vec<Step>> {
    let mut steps: HashMap<QuestionId, Vec<Step>> = HashMap::new();
    let places = compiler.path.len();
    for held_at in (0..places.saturating_sub(1)).rev() {
        let holders: Vec<_> = level
            .instruments
            .iter()
            .copied()
            .filter(|id| {
                compiler
                    .instrument(*id)
                    .is_some_and(|own| compiler.depth(own.issuer) as usize == held_at && !own.powers.is_empty())
            })
            .collect();
        let inner = level
            .instruments
            .iter()
            .any(|id| compiler.instrument(*id).is_some_and(|own| compiler.depth(own.issuer) as usize > held_at));
        if holders.is_empty() || !inner {
            continue;
        }
        let mut outer_level = Level::new(compiler, held_at + 1);
        let (outer, _, _) = Drafts::of_level(compiler, &mut outer_level);
        for id in holders {
            let Some(own) = compiler.instrument(id) else { continue };
            for power in &own.powers {
                let cond = level.power_cond(compiler, id, &power.scope);
                let source = compiler.instrument_source(id);
                let mut over: BTreeSet<QuestionId> = power.questions.iter().copied().collect();
                over.extend(compiler.questions_on(&power.subjects));
                for question in over {
                    steps.entry(question).or_default().push(Step {
                        kind: power.kind,
                        cond,
                        outer: outer.binding.iter().filter(|draft| draft.question == question).cloned().collect(),
                        source,
                        depth: held_at as u32,
                    });
                }
            }
        }
    }
    steps
}

/// Every edition that may apply, subject by subject. A code all of whose answers
/// on a subject are set aside does not reach.
fn codes<'l>(
    compiler: &mut Compiler<'l>,
    level: &mut Level,
    texts: &[Text<'l>],
    standings: &[Standing<'l>],
    steps: &HashMap<QuestionId, Vec<Step>>,
) -> Vec<CodeReach> {
    let mut found = Vec::new();
    for (standing, text) in standings.iter().zip(texts) {
        let Some(edition) = compiler.library.codes.edition(standing.edition()) else { continue };
        let Some(own) = compiler.instrument(standing.instrument) else { continue };
        let source = compiler.instrument_source(standing.instrument);
        for subject in &standing.adoption.subjects {
            let clauses = standing.stands(compiler, level, standings, *subject);
            let stands = cond_of(&mut compiler.arena, &clauses);
            let mut answered: Vec<QuestionId> =
                text.variants.list.iter().flat_map(|variant| variant.section.questions()).collect();
            answered.sort();
            answered.dedup();
            let mut gone = Vec::new();
            for question in
                answered.into_iter().filter(|question| compiler.library.glossary[*question].subject == *subject)
            {
                let taken: Vec<CondId> = steps
                    .get(&question)
                    .into_iter()
                    .flatten()
                    .filter(|step| step.kind == PowerKind::Preempts && step.depth < standing.depth)
                    .map(|step| step.cond)
                    .collect();
                let taken = compiler.arena.or(taken);
                gone.push(taken);
            }
            let all_gone = if gone.is_empty() { CondId::FALSE } else { compiler.arena.and(gone) };
            let stays = compiler.arena.not(all_gone);
            let reach = compiler.arena.and([stands, stays]);
            if reach == CondId::FALSE {
                continue;
            }
            found.push(CodeReach {
                code: compiler.code_name(standing.edition()).into(),
                edition: edition.year,
                subject: *subject,
                by: own.id.clone(),
                reach,
                source,
            });
        }
    }
    found
}

/// For each subject that must be governed, whether a code on it reaches.
fn governed(compiler: &mut Compiler, codes: &[CodeReach]) -> Vec<(crate::glossary::model::SubjectId, CondId)> {
    let subjects: Vec<_> = compiler
        .library
        .glossary
        .subjects
        .iter()
        .zip(0u16..)
        .filter(|(subject, _)| subject.governed)
        .map(|(_, number)| crate::glossary::model::SubjectId(number))
        .collect();
    subjects
        .into_iter()
        .map(|subject| {
            let reaches: Vec<CondId> =
                codes.iter().filter(|code| code.subject == subject).map(|code| code.reach).collect();
            (subject, compiler.arena.or(reaches))
        })
        .collect()
}

pub(super) type ByQuestion = HashMap<QuestionId, CondId>;

/// When a finding is asked for, and when an answer is met.
fn findings(compiler: &mut Compiler, known: &[QuestionId]) -> (ByQuestion, ByQuestion) {
    let (mut asked, mut met) = (ByQuestion::new(), ByQuestion::new());
    for question in known {
        let about = &compiler.library.glossary[*question];
        if let Some(cond) = &about.asked {
            asked.insert(*question, compiler.expr(cond, Inside::default()));
        }
        match &about.met {
            Some(Met::Where(cond)) => {
                met.insert(*question, compiler.expr(cond, Inside::default()));
            }
            Some(Met::Never) => {
                met.insert(*question, CondId::FALSE);
            }
            None => {}
        }
    }
    (asked, met)
}

fn presumptions(compiler: &mut Compiler) -> Vec<(crate::glossary::model::FieldId, CondId)> {
    let fields: Vec<_> = compiler.library.glossary.fields.iter().zip(0u16..).collect();
    let mut found = Vec::new();
    for (field, number) in fields {
        let here = field.scope.is_none_or(|scope| {
            use crate::glossary::Territory;
            compiler.library.places.within(compiler.place, scope)
        });
        if let Some(cond) = field.presumed.as_ref().filter(|_| here) {
            found.push((crate::glossary::model::FieldId(number), compiler.reach(cond)));
        }
    }
    found
}

/// What must be told of instruments whose end is not established.
fn cautions(compiler: &mut Compiler, level: &mut Level) -> Vec<Caution> {
    let mut found = Vec::new();
    for id in level.instruments.clone() {
        let Some(own) = compiler.instrument(id) else { continue };
        if own.force.is_some_and(|force| force.end == End::Unknown) {
            let cond = level.effect_cond(compiler, id);
            found.push(Caution {
                cond,
                text: format!("the end of {} is not established; it is taken as in force still", own.id).into(),
            });
        }
    }
    found
}

fn pending(compiler: &mut Compiler, law: &mut Law) {
    for place in compiler.path.clone() {
        for id in compiler.library.of_issuer(place).to_vec() {
            let Some(status) = compiler.instrument(id).and_then(|own| own.status) else { continue };
            let word = match status {
                crate::law::instrument::Status::Proposed => "proposed",
                crate::law::instrument::Status::Enacted => "enacted",
            };
            let source = compiler.instrument_source(id);
            law.pending.push(Pending { status: word.into(), source });
        }
    }
}

/// By which dates the path's instruments are in force, and from when.
fn dating(compiler: &Compiler, level: &Level, law: &mut Law) {
    let mut days = BTreeSet::new();
    for own in level.instruments.iter().filter_map(|id| compiler.instrument(*id)) {
        let Some(force) = own.force else { continue };
        law.dating.push(force.by);
        law.dating.extend(own.election.map(|election| election.by));
        law.first_day = [law.first_day, own.first_day()].into_iter().flatten().min();
        if let Start::Between(first, last) = force.start {
            days.extend([first, last]);
        }
        days.extend(own.first_day());
    }
    law.dating.sort();
    law.dating.dedup();
    law.days = days.into_iter().collect();
}

/// The codes that the standing choices of the path offer.
fn code_choices(compiler: &Compiler, standings: &[Standing]) -> Vec<Arc<str>> {
    let Some(chooses) = compiler.library.glossary.roles.code else { return Vec::new() };
    let mut found = BTreeSet::new();
    for standing in standings {
        let Expr::And(parts) = &standing.adoption.scope else { continue };
        for part in parts {
            if let Expr::Field(field, Check::Named(names)) = part
                && *field == chooses
            {
                found.extend(names.iter().cloned());
            }
        }
    }
    found.into_iter().collect()
}

/// Collects the days, periods and offered codes that the conditions test.
fn tests(law: &mut Law) {
    let mut days: BTreeSet<Date> = law.days.iter().copied().collect();
    let mut periods: BTreeSet<Period> = BTreeSet::new();
    for node in &law.nodes {
        match node {
            Node::Field(_, Check::Before(day) | Check::From(day)) => {
                days.insert(*day);
            }
            Node::Field(_, Check::Within(period, _)) => {
                periods.insert(*period);
            }
            _ => {}
        }
    }
    law.days = days.into_iter().collect();
    law.periods = periods.into_iter().collect();
}

fn contrary(compiler: &Compiler, question: QuestionId, order: &[QuestionId]) -> Vec<usize> {
    let glossary = &compiler.library.glossary;
    let mut found: Vec<usize> = order
        .iter()
        .enumerate()
        .filter(|(_, other)| {
            glossary[question].contrary.contains(other) || glossary[**other].contrary.contains(&question)
        })
        .map(|(place, _)| place)
        .collect();
    found.dedup();
    found
}
