//! Every job that the laws of two sides can tell apart for one question, by
//! plain enumeration.

use super::plain::{Plain, PlainJob, passes, span_name};
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId, Shape};
use crate::law::model::{CondId, Node};
use crate::oracle::world::World;
use crate::values::{Date, Exact, Period, SIZES, Terms};
use std::collections::{BTreeMap, BTreeSet};

/// What the law of one side reads for some questions, found by walking its
/// conditions as they stand.
#[derive(Default)]
pub(crate) struct Reads {
    pub(crate) checks: BTreeMap<FieldId, Vec<Check>>,
    pub(crate) lists: BTreeSet<GroupId>,
    pub(crate) spans: BTreeSet<usize>,
    /// The tests that a job passes or not: of facts, of lists as a whole, of spans.
    pub(crate) tests: BTreeSet<CondId>,
    /// Tests of the answers of other questions.
    pub(crate) answers: BTreeSet<CondId>,
}

impl Reads {
    pub(crate) fn question(&mut self, world: &World, question: usize) {
        self.provisions(world, question, false);
        for other in &world.law.questions[question].contrary {
            self.provisions(world, *other, false);
        }
    }

    fn provisions(&mut self, world: &World, question: usize, inside: bool) {
        let own = &world.law.questions[question];
        let mut provisions = own.whole.clone();
        for power in &own.powers {
            self.condition(world, power.cond, inside);
            provisions.extend(&power.outer);
        }
        for id in provisions {
            let provision = &world.law.provisions[id.0 as usize];
            self.condition(world, provision.reach, inside);
            self.condition(world, provision.guard, inside);
        }
    }

    fn condition(&mut self, world: &World, cond: CondId, inside: bool) {
        let node = &world.law.nodes[cond.0 as usize];
        let test = matches!(node, Node::Field(..) | Node::Entries { .. } | Node::Span(_));
        if test && !inside && !self.tests.insert(cond) {
            return;
        }
        match node {
            Node::False | Node::True => {}
            Node::Not(part) => self.condition(world, *part, inside),
            Node::And(parts) | Node::Or(parts) => parts.iter().for_each(|part| self.condition(world, *part, inside)),
            Node::Field(field, check) => {
                self.checks.entry(*field).or_default().push(check.clone());
                if let Check::Within(_, other) = check {
                    self.checks.entry(*other).or_default();
                }
            }
            Node::Entries { group, with, .. } => {
                self.lists.insert(*group);
                self.condition(world, *with, true);
            }
            Node::Answer { question, .. } => {
                // What an entry is held against is part of the one test of its list.
                if !inside {
                    self.answers.insert(cond);
                }
                self.provisions(world, *question, inside);
            }
            Node::Span(span) => {
                self.spans.insert(*span);
                self.condition(world, world.law.spans[*span].within, inside);
            }
        }
    }
}

/// One side: its law, what is read of it, the day of all its dates.
pub(crate) struct Seen<'w> {
    pub(crate) world: &'w World,
    pub(crate) reads: Reads,
    pub(crate) on: Option<Date>,
}

impl Seen<'_> {
    fn fixed(&self, field: FieldId) -> bool {
        self.on.is_some() && self.world.fields[usize::from(field.0)].shape == Shape::Date && !self.world.listed(field)
    }

    fn path(&self, field: FieldId) -> String {
        self.world.fields[usize::from(field.0)].path.to_string()
    }

    /// Facts read outside any list, by name.
    fn facts(&self) -> Vec<(String, FieldId)> {
        let read = self.reads.checks.keys().filter(|field| !self.world.listed(**field) && !self.fixed(**field));
        read.map(|field| (self.path(*field), *field)).collect()
    }

    /// The days that tests name, with the spans that they count.
    fn days(&self, days: &mut BTreeSet<Date>, links: &mut BTreeSet<(String, String)>, periods: &mut Vec<Period>) {
        for (field, check) in
            self.reads.checks.iter().flat_map(|(field, checks)| checks.iter().map(move |c| (field, c)))
        {
            match check {
                Check::Before(day) | Check::From(day) => {
                    days.insert(*day);
                }
                Check::Within(period, other) => {
                    links.insert((self.path(*field), self.path(*other)));
                    periods.push(*period);
                }
                _ => {}
            }
        }
        days.extend(self.on);
    }
}

/// The first day from which the period comes to this day or past it.
fn first_to_reach(day: Date, period: Period) -> Date {
    let from = day.after(period.back()).0 - 40;
    (from..=day.0).map(Date).find(|start| start.after(period) >= day).unwrap()
}

fn all_days(sides: [&Seen<'_>; 2]) -> Vec<Plain> {
    let (mut days, mut links, mut periods) = (BTreeSet::new(), BTreeSet::new(), Vec::new());
    for side in sides {
        side.days(&mut days, &mut links, &mut periods);
        days.extend(side.world.law.first_day.filter(|_| side.on.is_none()));
    }
    for _ in 0..links.len().min(3) {
        for day in days.clone() {
            for period in &periods {
                let end = day.after(*period);
                days.extend([day.next(), end, end.next(), first_to_reach(day, *period)]);
            }
        }
    }
    let before = days.first().map_or(Date(0), |first| first.eve());
    std::iter::once(before).chain(days).map(Plain::Date).collect()
}

/// The values that tests of either side tell apart, one of each kind.
fn values(sides: [&Seen<'_>; 2], path: &str, days: &[Plain]) -> Option<Vec<Plain>> {
    let known: Vec<(&Seen<'_>, FieldId)> =
        sides.iter().filter_map(|side| side.world.field_named(path).map(|field| (*side, field))).collect();
    let shape = known.first().map(|(side, field)| side.world.fields[usize::from(field.0)].shape)?;
    let checks: Vec<(&Seen<'_>, FieldId, &Check)> = known
        .iter()
        .flat_map(|(side, field)| {
            side.reads.checks.get(field).into_iter().flatten().map(move |check| (*side, *field, check))
        })
        .collect();
    let names = || -> BTreeSet<String> {
        known
            .iter()
            .flat_map(|(side, field)| match side.world.fields[usize::from(field.0)].shape {
                Shape::Choice(choice) | Shape::Several(choice) => side.world.terms_of(choice),
                _ => Vec::new(),
            })
            .map(|(_, name)| name)
            .collect()
    };
    let points = || -> Vec<Exact> {
        let mut points: Vec<Exact> = checks
            .iter()
            .filter_map(|(_, _, check)| match check {
                Check::AtLeast(at) | Check::AtMost(at) | Check::Over(at) | Check::Under(at) => Some(*at),
                _ => None,
            })
            .collect();
        points.sort();
        points.dedup();
        points
    };
    let all: Vec<Plain> = match shape {
        Shape::Date => return Some(days.to_vec()),
        Shape::YesNo => ["no", "yes"].map(|name| Plain::Term(name.to_owned())).to_vec(),
        Shape::Choice(_) => names().into_iter().map(Plain::Term).collect(),
        Shape::Several(_) => {
            let names: Vec<String> = names().into_iter().collect();
            if names.len() > 6 {
                return None;
            }
            (0..1u32 << names.len())
                .map(|bits| {
                    let held = names.iter().enumerate().filter(|(at, _)| bits >> at & 1 == 1);
                    Plain::Set(held.map(|(_, name)| name.clone()).collect())
                })
                .collect()
        }
        Shape::Gauge => SIZES.iter().map(|size| Plain::Amount(Exact::from_integer(size.cmil))).collect(),
        Shape::Count | Shape::Quantity(_) => {
            let whole = shape == Shape::Count;
            let points = points();
            let one = Exact::from_integer(1);
            let mut all = BTreeSet::from([Exact::from_integer(0)]);
            for point in &points {
                let near = if whole { [*point - one, *point, *point + one] } else { [*point; 3] };
                all.extend(near.into_iter().filter(|amount| *amount >= Exact::from_integer(0)));
            }
            if !whole {
                all.extend(points.windows(2).map(|pair| (pair[0] + pair[1]) / Exact::from_integer(2)));
                all.extend(points.last().map(|last| *last * Exact::from_integer(2)));
            }
            all.into_iter().map(Plain::Amount).collect()
        }
        Shape::Name | Shape::Code => {
            let offered: BTreeSet<String> = sides
                .iter()
                .filter(|side| side.world.roles.code == side.world.field_named(path))
                .flat_map(|side| side.world.law.code_choices.iter().map(|code| code.to_string()))
                .collect();
            let mut all: BTreeSet<String> = offered.clone();
            if offered.is_empty() {
                let named = checks.iter().filter_map(|(_, _, check)| match check {
                    Check::Named(names) => Some(names.iter().map(|name| name.to_string())),
                    _ => None,
                });
                all.extend(named.flatten());
                all.insert("something else".to_owned());
            }
            all.into_iter().map(Plain::Name).collect()
        }
    };
    let mut seen = BTreeSet::new();
    Some(
        all.into_iter()
            .filter(|value| {
                let passed: Vec<bool> =
                    checks.iter().map(|(side, field, check)| passes(check, &side.world.given(*field, value))).collect();
                seen.insert(passed)
            })
            .collect(),
    )
}

enum Axis {
    Fact(String, Vec<Plain>),
    List(String, Vec<Vec<BTreeMap<String, Plain>>>),
    Span(String),
}

impl Axis {
    fn size(&self) -> usize {
        match self {
            Axis::Fact(_, values) => values.len(),
            Axis::List(_, sets) => sets.len(),
            Axis::Span(_) => 2,
        }
    }
}

/// Every set of entries of a list, one entry of each kind.
fn sets(sides: [&Seen<'_>; 2], name: &str, days: &[Plain]) -> Option<Vec<Vec<BTreeMap<String, Plain>>>> {
    let mut attributes: BTreeSet<String> = BTreeSet::new();
    for side in sides {
        for field in side.reads.checks.keys() {
            let group = side.world.fields[usize::from(field.0)].group;
            if group.is_some_and(|group| &*side.world.groups[usize::from(group.0)].name == name) {
                attributes.insert(side.path(*field));
            }
        }
    }
    let mut kinds: Vec<BTreeMap<String, Plain>> = vec![BTreeMap::new()];
    for attribute in attributes {
        let values = values(sides, &attribute, days)?;
        kinds = kinds
            .into_iter()
            .flat_map(|kind| {
                let attribute = &attribute;
                values.iter().map(move |value| {
                    let mut kind = kind.clone();
                    kind.insert(attribute.clone(), value.clone());
                    kind
                })
            })
            .collect();
        if kinds.len() > 8 {
            return None;
        }
    }
    let of = |bits: u32| (0..kinds.len()).filter(|at| bits >> at & 1 == 1).map(|at| kinds[at].clone()).collect();
    Some((0..1u32 << kinds.len()).map(of).collect())
}

/// Every job; nothing where they are more than so many.
pub(crate) fn jobs(sides: [&Seen<'_>; 2], most: usize) -> Option<Vec<PlainJob>> {
    let days = all_days(sides);
    let mut facts: BTreeSet<String> = BTreeSet::new();
    let mut lists: BTreeSet<String> = BTreeSet::new();
    let mut spans: BTreeSet<String> = BTreeSet::new();
    for side in sides {
        facts.extend(side.facts().into_iter().map(|(path, _)| path));
        lists.extend(side.reads.lists.iter().map(|list| side.world.groups[usize::from(list.0)].name.to_string()));
        spans.extend(side.reads.spans.iter().map(|span| span_name(&side.world.law.spans[*span])));
    }
    let mut axes = Vec::new();
    for path in facts {
        let values = values(sides, &path, &days)?;
        axes.push(Axis::Fact(path, values));
    }
    for name in lists {
        let sets = sets(sides, &name, &days)?;
        axes.push(Axis::List(name, sets));
    }
    axes.extend(spans.into_iter().map(Axis::Span));
    let count = axes.iter().try_fold(1usize, |count, axis| count.checked_mul(axis.size()))?;
    if count > most {
        return None;
    }
    let made = (0..count).map(|number| {
        let mut job = PlainJob::default();
        let mut rest = number;
        for axis in axes.iter().rev() {
            let cell = rest % axis.size();
            rest /= axis.size();
            match axis {
                Axis::Fact(path, values) => {
                    job.facts.insert(path.clone(), values[cell].clone());
                }
                Axis::List(name, sets) => {
                    job.lists.insert(name.clone(), sets[cell].clone());
                }
                Axis::Span(name) => {
                    job.spans.insert(name.clone(), cell == 1);
                }
            }
        }
        job
    });
    Some(
        made.filter(|job| sides.iter().all(|side| in_order(side.world, job)) && after_the_first_day(sides, job))
            .collect(),
    )
}

/// Whether no date stands before one that it may not be before, also with what
/// is not said in between.
fn in_order(world: &World, job: &PlainJob) -> bool {
    (0u16..).map(FieldId).zip(&world.fields).all(|(_, field)| {
        let Some(Plain::Date(date)) = job.facts.get(&*field.path) else { return true };
        let mut at = field.never_before;
        while let Some(earlier) = at {
            let known = &world.fields[usize::from(earlier.0)];
            if let Some(Plain::Date(earlier)) = job.facts.get(&*known.path)
                && date < earlier
            {
                return false;
            }
            at = known.never_before;
        }
        true
    })
}

/// Whether some date by which instruments are in force can lie in the time of
/// the laws.
fn after_the_first_day(sides: [&Seen<'_>; 2], job: &PlainJob) -> bool {
    let first = sides.iter().filter_map(|side| side.world.law.first_day).min();
    let Some(first) = first else { return true };
    let mut dating = sides
        .iter()
        .filter(|side| side.on.is_none())
        .flat_map(|side| side.world.law.dating.iter().map(|field| side.path(*field)))
        .peekable();
    if dating.peek().is_none() {
        return true;
    }
    dating.any(|path| match job.facts.get(&path) {
        Some(Plain::Date(date)) => *date >= first,
        // One that is not read may be as late as its order allows: after all others.
        _ => !sides.iter().any(|side| bounded_above(side.world, job, &path, first)),
    })
}

/// Whether a date that is read may not be before this one, and lies before the day.
fn bounded_above(world: &World, job: &PlainJob, path: &str, day: Date) -> bool {
    world.fields.iter().any(|field| {
        let Some(Plain::Date(date)) = job.facts.get(&*field.path) else { return false };
        let mut at = field.never_before;
        while let Some(earlier) = at {
            let known = &world.fields[usize::from(earlier.0)];
            if &*known.path == path && *date < day {
                return true;
            }
            at = known.never_before;
        }
        false
    })
}

/// The sets of terms of the tests: whether a job's answer is among them.
pub(crate) type Truths = Vec<Option<bool>>;

/// Terms by name.
pub(crate) fn names(world: &World, choice: crate::glossary::model::ChoiceId, terms: Terms) -> BTreeSet<String> {
    world.terms_of(choice).into_iter().filter(|(number, _)| terms.has(*number)).map(|(_, name)| name).collect()
}
