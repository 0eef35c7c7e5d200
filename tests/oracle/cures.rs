//! Cures held against trying every change.

use super::reads::Reads;
use super::world::*;
use super::{brute, cases, generate, holds, one_world};
use crate::cure::{Change, Cure, Cures, End, To, cures};
use crate::glossary::expr::Check;
use crate::glossary::model::FieldId;
use crate::job::model::{Given, Job};
use crate::law::model::{CondId, Law, Node};
use crate::values::{Measure, Terms, Unit};
use crate::verdict::paths::Path;
use crate::verdict::trouble::Trouble;
use crate::verdict::{Matter, Plan, Scratch, held};
use proptest::prelude::*;
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

/// The most changed jobs of one question that are tried.
const MOST: usize = 400;

/// What could be changed: by its number of an entry, where it is an attribute.
type Slot = (FieldId, Option<usize>);

/// Values on both sides of every limit that the laws can name, and each of these.
fn values(field: FieldId) -> Vec<Given> {
    let terms = |count: u16| (0..count).map(Given::Term).collect();
    let quantity = |figures: &[&str], unit: &str| {
        let of = Unit::find(unit).unwrap();
        figures.iter().map(|figure| Given::Measure(Measure::quantity(figure, unit, of).unwrap())).collect()
    };
    match field {
        WET | JACKET | ON | HOT => terms(2),
        KIND | METAL => terms(3),
        AMPS => quantity(&["15", "20", "40", "60", "80", "100", "200"], "A"),
        LENGTH => quantity(&["10", "22.5", "40", "50", "60", "75", "80"], "ft"),
        SIZE => quantity(&["1", "3", "4", "5", "6"], "ft"),
        WIRE => {
            ["8", "6", "4", "3", "2", "1/0"].map(|size| Given::Measure(Measure::gauge(size, "AWG").unwrap())).to_vec()
        }
        COUNT => {
            ["0", "1", "2", "3", "4", "7", "9"].map(|count| Given::Measure(Measure::count(count).unwrap())).to_vec()
        }
        PAPERS => (0..8).map(|set| Given::Set(Terms(set))).collect(),
        _ => Vec::new(),
    }
}

fn said(job: &Job, slot: Slot) -> &Given {
    match slot {
        (field, Some(entry)) => &job.lists[if field == ON { 1 } else { 0 }].entries[entry][column(field)],
        (field, None) => &job.values[usize::from(field.0)],
    }
}

fn column(field: FieldId) -> usize {
    usize::from(if field == ON { 0 } else { field.0 - JACKET.0 })
}

fn say(job: &mut Job, slot: Slot, value: Given) {
    match slot {
        (field, Some(entry)) => job.lists[if field == ON { 1 } else { 0 }].entries[entry][column(field)] = value,
        (field, None) => job.values[usize::from(field.0)] = value,
    }
}

fn troubles(matter: &Matter<'_>, scratch: &mut Scratch) -> Vec<Trouble> {
    scratch.weigh(matter);
    let shows = matter.plan.asks.iter().map(|ask| ask.show);
    scratch.found.iter().zip(shows).map(|(found, show)| Trouble::of(found, show)).collect()
}

/// Changes, each slot with its new value.
type Changes = BTreeMap<Slot, usize>;

/// One question, and everything that mends it.
struct Tried<'w> {
    job: &'w Job,
    slots: Vec<Slot>,
    /// The changes that mend, values by their number.
    mend: BTreeSet<Changes>,
}

impl Tried<'_> {
    /// How many changes these are at the least.
    fn cost(&self, changes: &Changes) -> usize {
        let alike = |slot: &Slot| {
            (0..)
                .zip(&self.slots)
                .find(|(_, other)| other.0 == slot.0 && said(self.job, **other) == said(self.job, *slot))
                .unwrap()
                .0
        };
        let kinds: BTreeSet<(usize, usize)> =
            changes.iter().filter(|(slot, _)| slot.1.is_some()).map(|(slot, value)| (alike(slot), *value)).collect();
        kinds.len() + changes.keys().filter(|slot| slot.1.is_none()).count()
    }
}

fn works(value: &Given, to: &To) -> bool {
    let end = |end: &Option<End>, more: bool| {
        let (Some(end), Given::Measure(measure)) = (end, value) else { return true };
        let (own, limit) = (measure.amount, end.figure.amount);
        if own == limit { end.itself } else { (own > limit) == more }
    };
    match to {
        To::Value(held) => held == value,
        To::Stretch { least, most } => end(least, true) && end(most, false),
        To::Other(_) => false,
    }
}

fn slots_of(change: &Change) -> Vec<Slot> {
    let slot = |path: Path| match path {
        Path::Fact(field) => (field, None),
        Path::Attribute { entry, field, .. } => (field, Some(entry)),
        other => panic!("{other:?}"),
    };
    change.paths().into_iter().map(slot).collect()
}

/// Every way to make a cure, with the values that are tried here.
fn ways(cure: &Cure) -> Vec<Changes> {
    let mut all = vec![Changes::new()];
    for change in &cure.changes {
        let offered = values(change.field);
        let fit: Vec<usize> =
            (0..offered.len()).filter(|at| change.to.iter().any(|to| works(&offered[*at], to))).collect();
        for slot in slots_of(change) {
            all = all
                .iter()
                .flat_map(|changes| {
                    fit.iter().map(move |value| {
                        let mut more = changes.clone();
                        more.insert(slot, *value);
                        more
                    })
                })
                .collect();
        }
    }
    all
}

/// Whether a set is put to more than another value puts it.
fn more(base: &Given, own: &Given, other: &Given) -> bool {
    match (base, own, other) {
        (Given::Set(base), Given::Set(own), Given::Set(other)) => {
            let turned = |set: &Terms| set.without(*base).union(base.without(*set));
            turned(other).within(turned(own))
        }
        _ => false,
    }
}

/// Whether a told cure makes these changes needless.
fn covers(tried: &Tried<'_>, cure: &Cure, changes: &Changes) -> bool {
    let held = |slot: &Slot, change: &Change| {
        changes.get(slot).is_some_and(|value| {
            let value = &values(slot.0)[*value];
            change.to.iter().any(|to| {
                works(value, to) || matches!(to, To::Value(other) if more(said(tried.job, *slot), value, other))
            })
        })
    };
    let each = || cure.changes.iter().flat_map(|change| slots_of(change).into_iter().map(move |slot| (slot, change)));
    if each().all(|(slot, change)| held(&slot, change)) {
        return true;
    }
    let entries = |slots: &mut dyn Iterator<Item = Slot>| -> BTreeSet<(bool, usize)> {
        slots.filter_map(|(field, entry)| Some((field == ON, entry?))).collect()
    };
    cure.changes.len() < tried.cost(changes)
        && each().filter(|(slot, _)| slot.1.is_none()).all(|(slot, change)| held(&slot, change))
        && entries(&mut each().map(|(slot, _)| slot)).is_subset(&entries(&mut changes.keys().copied()))
}

#[derive(Debug, Default)]
struct Tally {
    questions: usize,
    found: usize,
    cures: usize,
    several: usize,
    none: usize,
    not_decided: usize,
    passed_over: usize,
}

/// Whether a code may govern the job that was weighed just before. Where the evaluator
/// leaves it open every completion is tried, unless there are too many: of parts that
/// cannot hold together it does not see as much.
fn governs(matter: &Matter<'_>, cond: CondId, twin: &RefCell<World>, scratch: &mut Scratch) -> bool {
    match held(matter, scratch, cond).as_deref() {
        None => false,
        Some("") => true,
        Some(_) => {
            twin.borrow_mut().job = matter.job.clone();
            brute::holds(&twin.borrow(), cond, 5_000).is_none_or(|(_, somewhere)| somewhere)
        }
    }
}

/// What the whole law reads.
struct ReadBy {
    checks: Vec<(FieldId, Check)>,
    /// The facts that a question is about, of which every term is told from every other.
    about: Vec<FieldId>,
}

fn read_by(world: &World) -> ReadBy {
    let mut all = ReadBy { checks: Vec::new(), about: Vec::new() };
    for (number, own) in world.law.questions.iter().enumerate() {
        let known = &world.questions[usize::from(own.question.0)];
        all.about.extend(known.measures);
        all.about.extend(known.per.map(|(field, _)| field));
        all.checks.extend(Reads::of(world, number).checks);
    }
    for (_, cond) in &world.law.governed {
        all.checks.extend(Reads::of_condition(world, *cond).checks);
    }
    all
}

impl ReadBy {
    /// Whether a value is offered: a term of a choice is where some rule names it.
    fn names(&self, field: FieldId, value: &Given) -> bool {
        let Given::Term(term) = value else { return true };
        let choice = field == KIND || field == METAL;
        let by = |(other, check): &(FieldId, Check)| {
            *other == field && matches!(check, Check::Among(terms) if terms.has(*term))
        };
        !choice || self.about.contains(&field) || self.checks.iter().any(by)
    }
}

/// The questions whose answers a condition reads by itself.
fn answers_in(law: &Law, cond: CondId, into: &mut Vec<usize>) {
    match &law.nodes[cond.0 as usize] {
        Node::Answer { question, .. } => into.push(*question),
        Node::Not(part) | Node::Entries { with: part, .. } => answers_in(law, *part, into),
        Node::And(parts) | Node::Or(parts) => parts.iter().for_each(|part| answers_in(law, *part, into)),
        _ => {}
    }
}

/// Tries every change of the slots that bear on a question.
fn try_all<'w>(
    matter: &Matter<'w>,
    question: usize,
    before: &[Trouble],
    slots: &[Slot],
    twin: &RefCell<World>,
    scratch: &mut Scratch,
) -> Option<Tried<'w>> {
    let cone = matter.plan.cone(matter.law, &matter.lexicon, question);
    let read = |slot: &&Slot| match slot.1 {
        None => cone.facts.contains_key(&slot.0),
        Some(_) => cone.lists.values().any(|list| list.attributes.contains_key(&slot.0)),
    };
    let slots: Vec<Slot> = slots.iter().filter(read).copied().collect();
    let mut all = vec![Changes::new()];
    let read = read_by(&twin.borrow());
    for slot in &slots {
        let own = said(matter.job, *slot);
        let offered = values(slot.0);
        let with = |changes: &Changes| -> Vec<Changes> {
            let others = offered.iter().enumerate().filter(|(_, value)| *value != own && read.names(slot.0, value));
            let changed =
                others.map(|(at, _)| changes.iter().map(|(slot, at)| (*slot, *at)).chain([(*slot, at)]).collect());
            [changes.clone()].into_iter().chain(changed).collect()
        };
        all = all.iter().flat_map(with).collect();
        if all.len() > MOST {
            return None;
        }
    }
    let governed = |matter: &Matter<'_>, scratch: &mut Scratch| -> Vec<bool> {
        let conds = matter.law.governed.iter().map(|(_, cond)| *cond);
        conds.map(|cond| governs(matter, cond, twin, scratch)).collect()
    };
    let mut gates = Vec::new();
    answers_in(matter.law, matter.law.questions[question].asked, &mut gates);
    troubles(matter, scratch);
    let stood = governed(matter, scratch);
    let mend = all.into_iter().filter(|changes| {
        let mut job = matter.job.clone();
        for (slot, value) in changes {
            say(&mut job, *slot, values(slot.0)[*value].clone());
        }
        let changed = Matter { job: &job, ..*matter };
        let after = troubles(&changed, scratch);
        // A question that is silent because another is not settled is not mended.
        let silenced = !scratch.found[question].asked;
        after[question].none()
            && !(silenced && gates.iter().any(|gate| after[*gate].heavy()))
            && before.iter().zip(&after).all(|(before, after)| !after.worse_than(*before))
            && stood.iter().zip(governed(&changed, scratch)).all(|(before, after)| after || !before)
    });
    let mend = mend.collect();
    Some(Tried { job: matter.job, slots, mend })
}

fn tried(numbers: &[u16], tally: &mut Tally) -> Result<(), TestCaseError> {
    let mut world = generate::world(numbers);
    // Which facts are the contractor's to choose is drawn as well.
    let draw = numbers.iter().fold(7u32, |sum, number| sum.wrapping_mul(31).wrapping_add(u32::from(*number)));
    let own = [WET, KIND, METAL, AMPS, LENGTH, WIRE, COUNT, PAPERS, JACKET, SIZE, ON];
    for (place, field) in own.into_iter().enumerate() {
        world.fields[usize::from(field.0)].ours =
            field == JACKET || (draw >> place) & 3 == 3 || (draw >> place) & 7 == 1;
    }
    let mut slots: Vec<Slot> = Vec::new();
    for field in own.into_iter().filter(|field| world.fields[usize::from(field.0)].ours) {
        match field {
            JACKET | SIZE => slots.extend((0..world.job.lists[0].entries.len()).map(|entry| (field, Some(entry)))),
            ON => slots.extend((0..world.job.lists[1].entries.len()).map(|entry| (field, Some(entry)))),
            _ => slots.push((field, None)),
        }
    }
    let twin = RefCell::new(generate::world(numbers));
    let lexicon = world.lexicon();
    let plan = Plan::new(&world.law, &lexicon);
    let matter = Matter { plan: &plan, law: &world.law, lexicon, job: &world.job };
    let mut scratch = Scratch::default();
    let before = troubles(&matter, &mut scratch);
    let found = scratch.found.clone();
    let all = cures(&matter, &found, &mut scratch);
    let heavy: Vec<usize> = (0..before.len()).filter(|question| before[*question].heavy()).collect();
    prop_assert_eq!(&heavy, &all.iter().map(|(question, _)| *question).collect::<Vec<_>>());
    for (question, told) in &all {
        let Some(tried) = try_all(&matter, *question, &before, &slots, &twin, &mut scratch) else {
            tally.passed_over += 1;
            continue;
        };
        tally.questions += 1;
        let about = || {
            format!(
                "question {question}: {told:#?}\nagainst {:#?}\njob {:#?}\nbefore {before:?}",
                tried.mend, matter.job
            )
        };
        match told {
            Cures::None => {
                tally.none += 1;
                prop_assert!(tried.mend.is_empty(), "{}", about());
            }
            Cures::NotDecided => tally.not_decided += 1,
            Cures::Found(cures) => {
                tally.found += 1;
                tally.cures += cures.len();
                prop_assert!(!cures.is_empty());
                for cure in cures {
                    tally.several += usize::from(cure.changes.len() > 1);
                    for changes in ways(cure) {
                        // Every value that is told mends, with every one of the others.
                        prop_assert!(tried.mend.contains(&changes), "{changes:?} does not mend; {}", about());
                        // And nothing of it can be left out.
                        for less in 0..(1u32 << changes.len()) - 1 {
                            let fewer: Changes = changes
                                .iter()
                                .enumerate()
                                .filter(|(at, _)| less >> at & 1 == 1)
                                .map(|(_, (slot, value))| (*slot, *value))
                                .collect();
                            prop_assert!(!tried.mend.contains(&fewer), "{fewer:?} is less and mends; {}", about());
                        }
                    }
                }
                for changes in tried.mend.iter().filter(|changes| tried.cost(changes) <= 3) {
                    let covered = cures.iter().any(|cure| covers(&tried, cure, changes));
                    prop_assert!(covered, "{changes:?} is missed; {}", about());
                }
            }
        }
    }
    Ok(())
}

#[test]
fn cures_are_what_trying_every_change_finds() {
    let tally = RefCell::new(Tally::default());
    holds(cases(128), |numbers| tried(numbers, &mut tally.borrow_mut()));
    let tally = tally.into_inner();
    println!("{tally:#?}");
    if one_world() {
        return;
    }
    assert!(tally.found > 5 && tally.none > 10, "{tally:?}");
    assert!(tally.not_decided * 4 < tally.questions, "{tally:?}");
    if cases(128) >= 2_000 {
        assert!(tally.several > 20, "{tally:?}");
    }
}
