//! The last step: questions in the order in which they read each other, demands
//! on their question's scale, powers beside them.

use super::Compiler;
use super::adoption::Standing;
use super::arena::Arena;
use super::clauses::{cond_of, tidy};
use super::draft::{Draft, DraftKind, Drafts, Text};
use super::expr::Inside;
use super::level::Level;
use crate::glossary::demand::AskedKind;
use crate::glossary::expr::{Check, Expr};
use crate::glossary::model::{Met, Order, QuestionId};
use crate::law::instrument::{End, Start};
use crate::law::model::{
    Caution, CodeReach, CondId, Demand, Effect, Law, Node, Note, Pending, PowerStep, Provision, ProvisionId, QuestionLaw,
};
use crate::syntax::codes as errors;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::PowerKind;
use crate::values::{Date, Measure, Period, Terms};
use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

/// A power of an outer place over a question, its outer law drafted.
struct Step {
    kind: PowerKind,
    cond: CondId,
    outer: Vec<Draft>,
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
        place: compiler.place,
        nodes: Vec::new(),
        questions: Vec::new(),
        provisions: Vec::new(),
        sources: Vec::new(),
        codes,
        governed,
        presumed,
        notes: drafts.notes.into_iter().map(|note| Note { guard: note.guard, text: note.text, source: note.source }).collect(),
        cautions,
        pending: Vec::new(),
        spans: Vec::new(),
        dating: Vec::new(),
        first_day: None,
        days: Vec::new(),
        periods: Vec::new(),
        code_choices: Vec::new(),
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
        let scale = Scale::new(&compiler, *question, whole.iter().chain(&advice).chain(steps.iter().flat_map(|step| &step.outer)));
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
    let places: HashMap<usize, usize> = order.iter().enumerate().map(|(place, question)| (question.0 as usize, place)).collect();
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
            .filter(|id| compiler.instrument(*id).is_some_and(|own| compiler.depth(own.issuer) as usize == held_at && !own.powers.is_empty()))
            .collect();
        let inner = level.instruments.iter().any(|id| compiler.instrument(*id).is_some_and(|own| compiler.depth(own.issuer) as usize > held_at));
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
            let mut answered: Vec<QuestionId> = text.variants.list.iter().flat_map(|variant| variant.section.questions()).collect();
            answered.sort();
            answered.dedup();
            let mut gone = Vec::new();
            for question in answered.into_iter().filter(|question| compiler.library.glossary[*question].subject == *subject) {
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
            let reaches: Vec<CondId> = codes.iter().filter(|code| code.subject == subject).map(|code| code.reach).collect();
            (subject, compiler.arena.or(reaches))
        })
        .collect()
}

type ByQuestion = HashMap<QuestionId, CondId>;

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

/// The questions in an order in which each comes after those whose answers it
/// reads.
fn order(
    compiler: &Compiler,
    known: &[QuestionId],
    drafts: &HashMap<QuestionId, (Vec<Draft>, Vec<Draft>)>,
    steps: &HashMap<QuestionId, Vec<Step>>,
    asked: &ByQuestion,
    met: &ByQuestion,
) -> Result<Vec<QuestionId>, Diagnostic> {
    let mut reads: HashMap<QuestionId, BTreeSet<QuestionId>> = HashMap::new();
    for question in known {
        let mut conds: Vec<CondId> = Vec::new();
        if let Some((whole, advice)) = drafts.get(question) {
            conds.extend(whole.iter().chain(advice).flat_map(|draft| &draft.clauses).map(|clause| clause.cond));
        }
        for step in steps.get(question).into_iter().flatten() {
            conds.extend(step.outer.iter().flat_map(|draft| &draft.clauses).map(|clause| clause.cond));
        }
        conds.extend(asked.get(question));
        conds.extend(met.get(question));
        let mut found = BTreeSet::new();
        let mut seen = BTreeSet::new();
        for cond in conds {
            answers_read(&compiler.arena, cond, &mut seen, &mut found);
        }
        reads.insert(*question, found);
    }
    let mut order: Vec<QuestionId> = Vec::new();
    let mut rest: Vec<QuestionId> = known.to_vec();
    while !rest.is_empty() {
        let (ready, waiting): (Vec<QuestionId>, Vec<QuestionId>) = rest.iter().partition(|question| {
            reads.get(question).is_none_or(|reads| reads.iter().all(|read| order.contains(read) || !known.contains(read)))
        });
        if ready.is_empty() {
            return Err(circle(compiler, &waiting, &reads, drafts));
        }
        order.extend(ready);
        rest = waiting;
    }
    Ok(order)
}

fn circle(
    compiler: &Compiler,
    waiting: &[QuestionId],
    reads: &HashMap<QuestionId, BTreeSet<QuestionId>>,
    drafts: &HashMap<QuestionId, (Vec<Draft>, Vec<Draft>)>,
) -> Diagnostic {
    // Following what each waits for must come back to one seen before.
    let mut chain: Vec<QuestionId> = waiting.first().copied().into_iter().collect();
    while let Some(next) = chain
        .last()
        .and_then(|last| reads.get(last))
        .and_then(|reads| reads.iter().find(|read| waiting.contains(read)))
        .copied()
    {
        if let Some(start) = chain.iter().position(|seen| *seen == next) {
            chain.drain(..start);
            break;
        }
        chain.push(next);
    }
    chain.sort();
    let names: Vec<String> = chain.iter().map(|question| format!("`{}`", compiler.library.glossary[*question].name)).collect();
    let mut places = chain.iter().filter_map(|question| {
        let (whole, advice) = drafts.get(question)?;
        whole
            .iter()
            .chain(advice)
            .find(|draft| {
                let mut found = BTreeSet::new();
                for clause in &draft.clauses {
                    answers_read(&compiler.arena, clause.cond, &mut BTreeSet::new(), &mut found);
                }
                found.iter().any(|read| chain.contains(read))
            })
            .and_then(|draft| compiler.sources.get(draft.source.0 as usize))
            .map(|source| source.at)
    });
    let at = places.next().unwrap_or_else(|| {
        chain.first().map(|question| compiler.library.glossary[*question].at).unwrap_or_default()
    });
    let place = compiler.library.places.path_text(compiler.place);
    let mut told = Diagnostic::new(
        errors::QUESTION_CIRCLE,
        at,
        format!("at `{place}` these questions depend on each other in a circle: {}", names.join(", ")),
    )
    .help("let one of them be answered without reading the others");
    for place in places {
        told = told.also(place, "and this one reads another of them");
    }
    told
}

fn answers_read(arena: &Arena, cond: CondId, seen: &mut BTreeSet<CondId>, found: &mut BTreeSet<QuestionId>) {
    if !seen.insert(cond) {
        return;
    }
    match arena.node(cond) {
        Some(Node::Answer { question, .. }) => {
            found.insert(QuestionId(*question as u16));
        }
        Some(Node::Not(inner) | Node::Entries { with: inner, .. }) => answers_read(arena, *inner, seen, found),
        Some(Node::And(parts) | Node::Or(parts)) => {
            for part in parts.iter() {
                answers_read(arena, *part, seen, found);
            }
        }
        _ => {}
    }
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

/// The scale of a question at the place.
struct Scale {
    question: QuestionId,
    parts: usize,
    measures: Vec<Measure>,
    terms: Terms,
    per_terms: Terms,
}

impl Scale {
    /// The scale that holds the limits of these drafts.
    fn new<'d>(compiler: &Compiler, question: QuestionId, drafts: impl Iterator<Item = &'d Draft>) -> Scale {
        let glossary = &compiler.library.glossary;
        let about = &glossary[question];
        let (parts, per_terms) = match about.per {
            None => (1, Terms::NONE),
            Some((_, choice)) => {
                (glossary[choice].terms.len(), glossary.terms_at(choice, Some(compiler.place), &compiler.library.places))
            }
        };
        let mut measures: Vec<Measure> = Vec::new();
        for draft in drafts {
            if let DraftKind::Ask(asked) = &draft.kind
                && let AskedKind::Limits(limits) = &asked.kind
            {
                measures.extend(limits.iter().map(|(measure, _)| measure.clone()));
            }
        }
        measures.sort_by_key(|measure| measure.amount);
        measures.dedup_by_key(|measure| measure.amount);
        if matches!(about.order, Order::AtMost(_)) {
            measures.reverse();
        }
        Scale { question, parts, measures, terms: compiler.terms_of(question), per_terms }
    }

    /// Puts drafts on the scale and into the law.
    fn put(&self, compiler: &mut Compiler, law: &mut Law, drafts: Vec<Draft>) -> Vec<ProvisionId> {
        let mut found = Vec::new();
        for draft in drafts {
            let effect = match &draft.kind {
                DraftKind::Refer(why) => Effect::Refer(why.clone()),
                DraftKind::Ask(asked) => Effect::Demand(self.demand(compiler, asked)),
            };
            let clauses = tidy(draft.clauses);
            let within = cond_of(&mut compiler.arena, &clauses);
            let guard = compiler.arena.and([draft.reach, within]);
            if guard == CondId::FALSE {
                continue;
            }
            found.push(ProvisionId(law.provisions.len() as u32));
            law.provisions.push(Provision { effect, reach: draft.reach, guard, clauses, source: draft.source, words: draft.words });
        }
        found
    }

    fn demand(&self, compiler: &Compiler, asked: &crate::glossary::demand::Asked) -> Demand {
        let about = &compiler.library.glossary[self.question];
        let loosest = if matches!(about.order, Order::Only(_)) { self.terms.0 } else { 0 };
        let mut parts = vec![loosest; self.parts];
        let mut figures: Vec<Option<Arc<str>>> = vec![None; self.parts];
        let mut named = self.per_terms;
        let mut only = false;
        match &asked.kind {
            AskedKind::Rung(rung) => parts.fill(u128::from(*rung)),
            AskedKind::Permitted { only: said, .. } => {
                only = *said;
                parts.fill(compiler.permitted(asked).0);
            }
            AskedKind::Required(terms) => parts.fill(terms.common(self.terms).0),
            AskedKind::Limits(limits) => {
                if limits.iter().all(|(_, terms)| terms.is_some()) {
                    named = Terms::NONE;
                }
                for (measure, terms) in limits {
                    let rank = self.rank(measure);
                    let of = terms.unwrap_or(Terms(u128::MAX));
                    if let Some(terms) = terms {
                        named = named.union(terms.common(self.per_terms));
                    }
                    for (at, (part, figure)) in parts.iter_mut().zip(&mut figures).enumerate() {
                        let reached = self.parts == 1 && self.per_terms.is_empty() || of.has(at as u16);
                        if reached && rank > *part {
                            *part = rank;
                            *figure = Some(Arc::clone(&measure.shown));
                        }
                    }
                }
            }
        }
        Demand { parts: parts.into(), named, only, figures: figures.into() }
    }

    fn rank(&self, measure: &Measure) -> u128 {
        let place = self.measures.iter().position(|of| of.amount == measure.amount);
        place.map_or(0, |place| place as u128 + 1)
    }
}
