//! In which order the questions of a place are answered, since some read the
//! answers of others.

use super::Compiler;
use super::arena::Arena;
use super::draft::Draft;
use super::finish::{ByQuestion, Step};
use crate::glossary::model::QuestionId;
use crate::law::model::{CondId, Node};
use crate::syntax::codes as errors;
use crate::syntax::diagnostic::Diagnostic;
use std::collections::{BTreeSet, HashMap};

/// The questions in an order in which each comes after those whose answers it
/// reads.
pub(super) fn order(
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
            reads
                .get(question)
                .is_none_or(|reads| reads.iter().all(|read| order.contains(read) || !known.contains(read)))
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
    let names: Vec<String> =
        chain.iter().map(|question| format!("`{}`", compiler.library.glossary[*question].name)).collect();
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
    let at = places
        .next()
        .unwrap_or_else(|| chain.first().map(|question| compiler.library.glossary[*question].at).unwrap_or_default());
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
