//! The values that an unknown fact ranges over, by the words of the language's
//! page and without any merging.

use super::reads::{Reads, said};
use super::world::World;
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, Shape};
use crate::job::model::Given;
use crate::values::{Date, Exact, Measure, Period, SIZES, Terms};
use std::collections::BTreeSet;

/// The dates that the job says.
fn given(world: &World) -> Vec<Date> {
    let listed = world.job.lists.iter().flat_map(|list| list.entries.iter().flatten());
    let dates = world.job.values.iter().chain(listed);
    dates.filter_map(|value| if let Given::Date(date) = value { Some(*date) } else { None }).collect()
}

/// All days that tests, instruments, given dates and the spans between them name.
pub(crate) fn days(world: &World) -> Vec<Date> {
    let mut named: BTreeSet<Date> = world.law.days.iter().copied().collect();
    named.extend(world.law.first_day);
    named.extend(given(world));
    spread(named, &world.law.periods).into_iter().collect()
}

/// The days, with those next to them and at either end of a period from them.
fn spread(days: BTreeSet<Date>, periods: &[Period]) -> BTreeSet<Date> {
    let mut all = days.clone();
    for day in days {
        for period in periods {
            all.insert(day.next());
            all.insert(day.after(*period));
            all.insert(day.after(*period).next());
            all.insert(first_to_reach(day, *period));
        }
    }
    all
}

/// The days for unknown dates that a question holds against each other, one within a period after the next: periods add
/// up along such a chain.
fn chained(world: &World, reads: &Reads) -> BTreeSet<Date> {
    let mut links = BTreeSet::new();
    let mut periods = Vec::new();
    let mut days: BTreeSet<Date> = world.law.first_day.into_iter().collect();
    for (field, check) in &reads.checks {
        match check {
            Check::Within(period, other) => {
                links.insert((*field, *other));
                periods.push(*period);
            }
            Check::Before(day) | Check::From(day) if field.0 < super::world::FACTS => {
                days.insert(*day);
            }
            _ => {}
        }
    }
    let unknown: BTreeSet<FieldId> = reads
        .fields
        .iter()
        .map(|(field, _)| *field)
        .filter(|field| field.0 < super::world::FACTS && world.fields[usize::from(field.0)].shape == Shape::Date)
        .filter(|field| world.job.values[usize::from(field.0)] == Given::Unknown)
        .collect();
    let steps = links.len().min(unknown.len());
    if steps < 2 {
        return BTreeSet::new();
    }
    days.extend(given(world));
    (0..steps).fold(days, |days, _| spread(days, &periods))
}

/// The first day from which the period comes to this day or past it.
fn first_to_reach(day: Date, period: Period) -> Date {
    let from = day.after(period.back()).0 - 40;
    (from..=day.0).map(Date).find(|start| start.after(period) >= day).unwrap()
}

/// The dates that an unknown date can be, as far as what is read can tell them apart.
pub(crate) fn dates(world: &World, field: Option<FieldId>, reads: Option<&Reads>) -> Vec<Given> {
    let mut days: BTreeSet<Date> = days(world).into_iter().collect();
    days.extend(reads.into_iter().flat_map(|reads| chained(world, reads)));
    let days: Vec<Date> = days.into_iter().collect();
    let least = world
        .job
        .values
        .iter()
        .filter_map(|value| if let Given::Date(date) = value { Some(*date) } else { None })
        .min();
    let before = days.first().map_or(Date(0), |first| first.eve());
    let all = std::iter::once(before).chain(days);
    let from = match (field, world.law.first_day) {
        (Some(field), Some(first)) if world.law.dating.contains(&field) => {
            Some(least.map_or(first, |least| least.min(first)))
        }
        _ => None,
    };
    all.filter(|day| from.is_none_or(|from| *day >= from)).map(Given::Date).collect()
}

/// Everything else.
pub(crate) fn of(world: &World, reads: &Reads, field: FieldId) -> Vec<Given> {
    let shape = world.fields[usize::from(field.0)].shape;
    let visible = |choice: crate::glossary::model::ChoiceId| -> Vec<u16> {
        let terms = &world.choices[usize::from(choice.0)].terms;
        (0u16..)
            .zip(terms)
            .filter(|(_, term)| term.scope.is_none_or(|place| world.path.contains(&place)))
            .map(|(n, _)| n)
            .collect()
    };
    match shape {
        Shape::Date if field.0 < super::world::FACTS => dates(world, Some(field), Some(reads)),
        Shape::Date => dates(world, None, None),
        Shape::YesNo => vec![Given::Term(0), Given::Term(1)],
        Shape::Choice(choice) => visible(choice).into_iter().map(Given::Term).collect(),
        Shape::Several(choice) => {
            let terms = visible(choice);
            let mut sets: Vec<Vec<u16>> = (0..1u32 << terms.len())
                .map(|bits| {
                    terms.iter().enumerate().filter(|(at, _)| bits >> at & 1 == 1).map(|(_, term)| *term).collect()
                })
                .collect();
            sets.sort_by_key(|set| (set.len(), set.clone()));
            sets.into_iter()
                .map(|set| Given::Set(set.into_iter().fold(Terms::NONE, |all, term| all.union(Terms::one(term)))))
                .collect()
        }
        Shape::Name | Shape::Code => names(world, reads, field),
        Shape::Count => counts(&points(reads, field)),
        Shape::Gauge => {
            let mut sizes: Vec<(Exact, String)> =
                SIZES.iter().map(|size| (Exact::from_integer(size.cmil), size.name.to_string())).collect();
            sizes.sort();
            sizes.into_iter().map(|(amount, shown)| Given::Measure(Measure { amount, shown: shown.into() })).collect()
        }
        Shape::Quantity(unit) => {
            let whole = |amount: Exact| {
                let figure = amount / unit.factor();
                // The generated figures have one decimal place, their middles three at most.
                let thousandths = (figure * Exact::from_integer(1000)).to_integer();
                let text = format!("{}.{:03}", thousandths / 1000, thousandths % 1000);
                let text = text.trim_end_matches('0').trim_end_matches('.');
                Given::Measure(Measure { amount, shown: format!("{text} {}", unit.name).into() })
            };
            between(&points(reads, field), unit.factor()).into_iter().map(whole).collect()
        }
    }
}

fn points(reads: &Reads, field: FieldId) -> Vec<Exact> {
    let mut points: BTreeSet<Exact> = BTreeSet::new();
    for (known, check) in &reads.checks {
        if *known == field
            && let Check::AtLeast(at) | Check::AtMost(at) | Check::Over(at) | Check::Under(at) = check
        {
            points.insert(*at);
        }
    }
    points.extend(reads.limits.iter().filter(|(known, _)| *known == field).map(|(_, limit)| *limit));
    points.into_iter().collect()
}

fn between(points: &[Exact], one: Exact) -> Vec<Exact> {
    let zero = Exact::from_integer(0);
    let mut all = vec![zero];
    for (at, point) in points.iter().enumerate() {
        if at > 0 {
            all.push((points[at - 1] + *point) / Exact::from_integer(2));
        }
        if *point > zero {
            all.push(*point);
        }
    }
    if let Some(last) = points.last() {
        all.push(*last + one);
    }
    all
}

fn counts(points: &[Exact]) -> Vec<Given> {
    between(points, Exact::from_integer(1))
        .into_iter()
        .map(|amount| amount.to_integer())
        .collect::<BTreeSet<i128>>()
        .into_iter()
        .map(|number| Given::Measure(Measure { amount: Exact::from_integer(number), shown: number.to_string().into() }))
        .collect()
}

fn names(world: &World, reads: &Reads, field: FieldId) -> Vec<Given> {
    if world.roles.code == Some(field) && !world.law.code_choices.is_empty() {
        return world.law.code_choices.iter().cloned().map(Given::Name).collect();
    }
    let mut named: BTreeSet<&str> = BTreeSet::new();
    for (known, check) in &reads.checks {
        if *known == field
            && let Check::Named(names) = check
        {
            named.extend(names.iter().map(|name| &**name));
        }
    }
    let word = if world.roles.code == Some(field) { "OTHER" } else { "other" };
    let other = if named.contains(word) { format!("{word}-2") } else { word.to_string() };
    named.into_iter().map(|name| Given::Name(name.into())).chain([Given::Name(other.into())]).collect()
}

/// Whether a fact is left to be tried: unknown and not presumed.
pub(crate) fn free(world: &World, field: FieldId) -> bool {
    said(world, field) == Given::Unknown && !world.law.presumed.iter().any(|(presumed, _)| *presumed == field)
}
