//! Every completion of a job for a question, and what they come to together.

use super::cells::{dates, free, of};
use super::completion::{Answer, Case, Completion, Finding, Judge};
use super::reads::{Reads, said};
use super::world::{FACTS, World};
use crate::glossary::model::{FieldId, GroupId, Order, Shape};
use crate::job::model::Given;
use crate::law::model::CondId;
use std::collections::BTreeMap;

/// A name of the job that is unknown, and what it ranges over.
#[derive(Clone, Debug)]
pub(crate) struct Unknown {
    pub(crate) name: String,
    answer: bool,
    place: Place,
    values: Vec<Value>,
}

#[derive(Clone, Copy, Debug)]
enum Place {
    Fact(FieldId),
    Attribute(GroupId, usize, usize),
    Further(GroupId),
    Span(usize),
}

#[derive(Clone, Debug)]
enum Value {
    One(Given),
    Rows(Vec<Vec<Given>>),
    Holds(bool),
}

/// What a question comes to.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Result {
    pub(crate) state: &'static str,
    pub(crate) value: Option<Vec<u128>>,
    pub(crate) between: Option<(Vec<u128>, Vec<u128>)>,
    pub(crate) may_refer: bool,
    pub(crate) may_conflict: bool,
    pub(crate) finding: Finding,
    pub(crate) no_equivalent: bool,
    pub(crate) asked: bool,
    pub(crate) asks: Vec<String>,
    pub(crate) witnesses: Option<[Vec<String>; 2]>,
}

/// The unknown names that a question reads, in order.
fn unknown(world: &World, reads: &Reads) -> Option<Vec<Unknown>> {
    let mut all = Vec::new();
    for field in (0..FACTS).map(FieldId) {
        if reads.reads_field(field) && free(world, field) {
            let values = of(world, reads, field).into_iter().map(Value::One).collect();
            let name = world.fields[usize::from(field.0)].path.to_string();
            all.push(Unknown { name, answer: reads.in_answer(field), place: Place::Fact(field), values });
        }
    }
    for (number, list) in world.job.lists.iter().enumerate() {
        let group = GroupId(number as u16);
        if !reads.lists.iter().any(|(read, _)| *read == group) {
            continue;
        }
        let known = &world.groups[number];
        let mut tested: Vec<FieldId> = known.fields.iter().copied().filter(|field| reads.reads_field(*field)).collect();
        tested.sort_by_key(|field| world.fields[usize::from(field.0)].name.clone());
        for (entry, row) in list.entries.iter().enumerate() {
            for field in &tested {
                let attribute = &world.fields[usize::from(field.0)];
                let column = usize::from(attribute.column);
                if row[column] == Given::Unknown {
                    all.push(Unknown {
                        name: format!("{}[{entry}].{}", known.name, attribute.name),
                        answer: reads.in_answer(*field),
                        place: Place::Attribute(group, entry, column),
                        values: of(world, reads, *field).into_iter().map(Value::One).collect(),
                    });
                }
            }
        }
        if list.more {
            let name = if list.entries.is_empty() { known.name.to_string() } else { format!("{}[]", known.name) };
            let values = sets(world, reads, number, &tested)?;
            all.push(Unknown {
                name,
                answer: reads.lists.contains(&(group, true)),
                place: Place::Further(group),
                values,
            });
        }
    }
    for span in 0..world.law.spans.len() {
        if reads.spans.iter().any(|(read, _)| *read == span) {
            let answer = reads.spans.contains(&(span, true));
            let values = vec![Value::Holds(false), Value::Holds(true)];
            all.push(Unknown { name: "in-force".into(), answer, place: Place::Span(span), values });
        }
    }
    all.sort_by(|one, two| one.name.cmp(&two.name));
    Some(all)
}

/// All sets of kinds of entries, by size, then by kind. An attribute that is
/// not tested is left unknown.
fn sets(world: &World, reads: &Reads, number: usize, tested: &[FieldId]) -> Option<Vec<Value>> {
    let width = world.groups[number].fields.len();
    let mut kinds: Vec<Vec<Given>> = vec![vec![Given::Unknown; width]];
    for field in tested {
        let column = usize::from(world.fields[usize::from(field.0)].column);
        let cells = of(world, reads, *field);
        kinds = kinds
            .into_iter()
            .flat_map(|kind| {
                cells.iter().map(move |cell| {
                    let mut kind = kind.clone();
                    kind[column] = cell.clone();
                    kind
                })
            })
            .collect();
    }
    if kinds.len() > 10 {
        return None;
    }
    let mut sets: Vec<Vec<usize>> =
        (0..1u32 << kinds.len()).map(|bits| (0..kinds.len()).filter(|at| bits >> at & 1 == 1).collect()).collect();
    sets.sort_by_key(|set| (set.len(), set.clone()));
    Some(sets.into_iter().map(|set| Value::Rows(set.into_iter().map(|kind| kinds[kind].clone()).collect())).collect())
}

/// Whether the dates of a completion can stand in their order, unknown dates
/// that the question does not read filled in between.
fn in_order(world: &World, values: &mut Vec<Given>, left: &[(FieldId, Vec<Given>)]) -> bool {
    if let Some(((field, can_be), rest)) = left.split_first() {
        let place = usize::from(field.0);
        return can_be.iter().any(|date| {
            values[place] = date.clone();
            let fits = in_order(world, values, rest);
            values[place] = Given::Unknown;
            fits
        });
    }
    world.fields.iter().zip(values.iter()).all(|(field, value)| {
        let earlier = field.never_before.map(|earlier| &values[usize::from(earlier.0)]);
        match (value, earlier) {
            (Given::Date(date), Some(Given::Date(earlier))) => date >= earlier,
            _ => true,
        }
    })
}

/// What a question comes to; nothing where there are too many completions.
pub(crate) fn weigh(world: &World, question: usize, most: usize) -> Option<Result> {
    let (unknown, completions) = completions(world, &Reads::of(world, question), most)?;
    let cases: Vec<(Vec<usize>, Case)> =
        completions.into_iter().map(|(cells, facts)| (cells, Judge { world, facts: &facts }.case(question))).collect();
    Some(sum_up(world, question, &unknown, &cases))
}

/// Whether a condition holds in all completions, and whether in some.
pub(crate) fn holds(world: &World, cond: CondId, most: usize) -> Option<(bool, bool)> {
    let (_, completions) = completions(world, &Reads::of_condition(world, cond), most)?;
    let held: Vec<bool> = completions
        .into_iter()
        .map(|(_, facts)| Judge { world, facts: &facts }.condition(cond, None) == Some(true))
        .collect();
    Some((held.iter().all(|held| *held), held.contains(&true)))
}

/// Every completion of what is read, in order, with the cell of each unknown name.
#[expect(clippy::type_complexity, reason = "a list of pairs")]
pub(crate) fn completions(
    world: &World,
    reads: &Reads,
    most: usize,
) -> Option<(Vec<Unknown>, Vec<(Vec<usize>, Completion)>)> {
    let unknown = unknown(world, reads)?;
    let count = unknown.iter().try_fold(1usize, |count, each| count.checked_mul(each.values.len()))?;
    if count > most {
        return None;
    }
    let hidden: Vec<(FieldId, Vec<Given>)> = (0..FACTS)
        .map(FieldId)
        .filter(|field| {
            world.fields[usize::from(field.0)].shape == Shape::Date && free(world, *field) && !reads.reads_field(*field)
        })
        .map(|field| (field, dates(world, Some(field), None)))
        .collect();
    let mut ordered: BTreeMap<String, bool> = BTreeMap::new();
    let mut all = Vec::new();
    for number in 0..count {
        let mut cells = vec![0; unknown.len()];
        let mut rest = number;
        for (cell, each) in cells.iter_mut().zip(&unknown).rev() {
            *cell = rest % each.values.len();
            rest /= each.values.len();
        }
        let mut completion = complete(world, &unknown, &cells);
        let key = format!("{:?}", &completion.values[..3]);
        if *ordered.entry(key).or_insert_with(|| in_order(world, &mut completion.values, &hidden)) {
            all.push((cells, completion));
        }
    }
    Some((unknown, all))
}

fn complete(world: &World, unknown: &[Unknown], cells: &[usize]) -> Completion {
    let mut completion = Completion {
        values: (0..world.fields.len() as u16).map(|field| said(world, FieldId(field))).collect(),
        lists: world.job.lists.iter().map(|list| list.entries.clone()).collect(),
        spans: vec![false; world.law.spans.len()],
    };
    // Facts that the question does not read need no value.
    for field in (0..FACTS).map(FieldId) {
        if free(world, field) && world.fields[usize::from(field.0)].shape != Shape::Date {
            completion.values[usize::from(field.0)] = Given::NoDate;
        }
    }
    for (each, cell) in unknown.iter().zip(cells) {
        match (each.place, &each.values[*cell]) {
            (Place::Fact(field), Value::One(value)) => completion.values[usize::from(field.0)] = value.clone(),
            (Place::Attribute(group, entry, column), Value::One(value)) => {
                completion.lists[usize::from(group.0)][entry][column] = value.clone();
            }
            (Place::Further(group), Value::Rows(rows)) => {
                completion.lists[usize::from(group.0)].extend(rows.iter().cloned());
            }
            (Place::Span(span), Value::Holds(holds)) => completion.spans[span] = *holds,
            other => panic!("{other:?}"),
        }
    }
    completion
}

fn sum_up(world: &World, question: usize, unknown: &[Unknown], cases: &[(Vec<usize>, Case)]) -> Result {
    let all = |test: &dyn Fn(&Case) -> bool| cases.iter().all(|(_, case)| test(case));
    let any = |test: &dyn Fn(&Case) -> bool| cases.iter().any(|(_, case)| test(case));
    let first = &cases[0].1;
    let state = if all(&|case| case.answer.conflict) {
        "conflict"
    } else if all(&|case| case.answer.refer) {
        "referred"
    } else if any(&|case| case.answer != first.answer) {
        "open"
    } else if any(&|case| case.reach) {
        "settled"
    } else {
        "silent"
    };
    let between = (state == "open").then(|| between(world, question, cases)).flatten();
    let agreed = |finding: Finding| all(&|case| case.finding == finding);
    let finding = if agreed(Finding::None) {
        Finding::None
    } else if all(&|case| matches!(case.finding, Finding::None | Finding::Met)) {
        Finding::Met
    } else if agreed(Finding::NotMet) {
        Finding::NotMet
    } else {
        Finding::Open
    };
    Result {
        state,
        value: all(&|case| case.answer.parts == first.answer.parts).then(|| first.answer.parts.clone()),
        may_refer: state == "open" && any(&|case| case.answer.refer),
        may_conflict: matches!(state, "open" | "referred") && any(&|case| case.answer.conflict),
        finding,
        no_equivalent: all(&|case| case.no_equivalent),
        asked: any(&|case| case.asked),
        asks: asks(unknown, cases),
        witnesses: (state == "open").then(|| witnesses(unknown, cases, between.as_ref())),
        between,
    }
}

fn between(world: &World, question: usize, cases: &[(Vec<usize>, Case)]) -> Option<(Vec<u128>, Vec<u128>)> {
    let order = &world.questions[usize::from(world.law.questions[question].question.0)].order;
    let answers: Vec<&Answer> = cases.iter().map(|(_, case)| &case.answer).filter(|answer| !answer.refer).collect();
    let mut ends = (answers.first()?.parts.clone(), answers.first()?.parts.clone());
    for answer in answers {
        for (at, part) in answer.parts.iter().enumerate() {
            let (low, high) = (&mut ends.0[at], &mut ends.1[at]);
            (*low, *high) = match order {
                Order::Only(_) => (*low | part, *high & part),
                Order::AllOf(_) => (*low & part, *high | part),
                _ => ((*low).min(*part), (*high).max(*part)),
            };
        }
    }
    Some(ends)
}

/// The names whose change alone changes the answer or the finding.
fn asks(unknown: &[Unknown], cases: &[(Vec<usize>, Case)]) -> Vec<String> {
    let mut asks = Vec::new();
    for (at, each) in unknown.iter().enumerate() {
        if matches!(each.place, Place::Span(_)) {
            continue;
        }
        let mut first: BTreeMap<Vec<usize>, &Case> = BTreeMap::new();
        let changes = cases.iter().any(|(cells, case)| {
            let mut others = cells.clone();
            others[at] = 0;
            let known = first.entry(others).or_insert(case);
            known.answer != case.answer || known.finding != case.finding
        });
        if changes {
            asks.push(each.name.clone());
        }
    }
    asks
}

fn witnesses(
    unknown: &[Unknown],
    cases: &[(Vec<usize>, Case)],
    between: Option<&(Vec<u128>, Vec<u128>)>,
) -> [Vec<String>; 2] {
    let tell = |cells: &[usize]| -> Vec<String> {
        unknown
            .iter()
            .zip(cells)
            .filter(|(each, _)| each.answer)
            .map(|(each, cell)| match &each.values[*cell] {
                Value::One(value) => format!("{} {}", each.name, shown(value)),
                Value::Holds(holds) => format!("{} {holds}", each.name),
                Value::Rows(rows) => {
                    let rows: Vec<Vec<String>> = rows
                        .iter()
                        .map(|row| row.iter().filter(|value| **value != Given::Unknown).map(shown).collect())
                        .collect();
                    format!("{} {rows:?}", each.name)
                }
            })
            .collect()
    };
    if let Some((low, high)) = between
        && low != high
    {
        let find = |parts: &[u128]| cases.iter().find(|(_, case)| !case.answer.refer && case.answer.parts == parts);
        if let (Some(one), Some(two)) = (find(low), find(high)) {
            return [tell(&one.0), tell(&two.0)];
        }
    }
    let first = &cases[0];
    let second = cases.iter().find(|(_, case)| case.answer != first.1.answer).unwrap();
    [tell(&first.0), tell(&second.0)]
}

pub(crate) fn shown(value: &Given) -> String {
    match value {
        Given::Measure(measure) => measure.shown.to_string(),
        Given::Date(date) => date.to_string(),
        other => format!("{other:?}"),
    }
}
