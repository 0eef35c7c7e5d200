//! Every job that the adoptions of a place can tell apart, as the resolved library
//! alone shows it: each fact that a scope reads in all its values, each date a day
//! before, on and after each day that is named, every set of entries of a list.
//!
//! What no adoption turns on stays unsaid, so that a clerk who reads it stops.

use super::facts::{Facts, FactsOnly, Holds};
use crate::glossary::expr::{Check, Expr};
use crate::glossary::model::{FieldId, GroupId, Shape, SubjectId};
use crate::job::model::{Entries, Given, Job};
use crate::law::instrument::{End, Instrument, InstrumentId, Start};
use crate::law::library::Library;
use crate::values::{Date, Exact, Measure, Period};
use std::collections::{BTreeMap, BTreeSet};

/// What decides for a place which adoption on a subject stands.
pub(super) struct Reads<'a> {
    library: &'a Library,
    checks: BTreeMap<FieldId, Vec<&'a Check>>,
    /// Conditions on single entries of a list.
    entries: BTreeMap<GroupId, Vec<&'a Expr>>,
    /// The first days of new stretches, by the date that is held against them.
    days: BTreeMap<FieldId, BTreeSet<Date>>,
    /// Which date is to lie how long after which other.
    spans: BTreeSet<(FieldId, FieldId)>,
    periods: Vec<Period>,
    elects: bool,
}

impl<'a> Reads<'a> {
    pub(super) fn of(library: &'a Library, law: &[InstrumentId], subject: SubjectId) -> Reads<'a> {
        let mut reads = Reads {
            library,
            checks: BTreeMap::new(),
            entries: BTreeMap::new(),
            days: BTreeMap::new(),
            spans: BTreeSet::new(),
            periods: Vec::new(),
            elects: false,
        };
        let law: Vec<&Instrument> = law.iter().filter_map(|id| library.instruments.get(id.0 as usize)).collect();
        reads.elects = law.iter().any(|own| own.election.is_some());
        let adopts = |own: &Instrument| own.adoptions.iter().any(|adoption| adoption.subjects.contains(&subject));
        for own in law {
            // A window of election may turn on any earlier instrument.
            if reads.elects || adopts(own) || !own.ends.is_empty() || !own.powers.is_empty() {
                reads.instrument(own);
            }
        }
        reads
    }

    fn instrument(&mut self, own: &'a Instrument) {
        let Some(force) = own.force else { return };
        let mut by: Vec<Date> = own.adopted.into_iter().collect();
        match force.start {
            Start::On(day) => by.push(day),
            Start::Between(first, last) => by.extend([first, last]),
            Start::Unknown => {}
        }
        if let End::On(last) = force.end {
            by.push(last.next());
        }
        by.extend(own.adoptions.iter().flat_map(|adoption| adoption.from.into_iter().chain(adoption.before)));
        self.days.entry(force.by).or_default().extend(by);
        if let Some(election) = own.election {
            let opens = election.from.or_else(|| own.first_day());
            self.days.entry(election.by).or_default().extend(opens.into_iter().chain([election.through.next()]));
        }
        let scopes = own.adoptions.iter().map(|adoption| &adoption.scope);
        scopes.chain(own.powers.iter().map(|power| &power.scope)).chain(&own.applies).for_each(|expr| self.expr(expr));
    }

    fn expr(&mut self, expr: &'a Expr) {
        match expr {
            Expr::And(parts) | Expr::Or(parts) => parts.iter().for_each(|part| self.expr(part)),
            Expr::Not(part) => self.expr(part),
            Expr::Field(field, check) => {
                self.checks.entry(*field).or_default().push(check);
                match check {
                    Check::Before(day) | Check::From(day) => {
                        self.days.entry(*field).or_default().insert(*day);
                    }
                    Check::Within(period, after) => {
                        self.spans.insert((*field, *after));
                        self.periods.push(*period);
                    }
                    _ => {}
                }
            }
            Expr::Entries { group, with, .. } => {
                self.entries.entry(*group).or_default().push(with);
                self.expr(with);
            }
            Expr::Constant(_) => {}
            other => panic!("reach reads {other:?}"),
        }
    }

    /// The days of a date that are tried, beside given ones and, where it is to lie
    /// within a period after another date of the job, those of the period.
    fn dates(&self, field: FieldId, more: &BTreeSet<Date>, job: &Job) -> BTreeSet<Date> {
        let own = |field: &FieldId| self.days.get(field).into_iter().flatten().chain(more).copied();
        let mut days: BTreeSet<Date> = own(&field).collect();
        for (later, earlier) in &self.spans {
            for period in &self.periods {
                match job.values[usize::from(earlier.0)] {
                    Given::Date(start) if field == *later => days.extend([start, start.after(*period)]),
                    _ if field == *later => panic!("the later date is tried first"),
                    _ if field == *earlier => days.extend(own(later).map(|day| day.after(period.back()))),
                    _ => {}
                }
            }
        }
        days.iter().flat_map(|day| [day.eve(), *day, day.next()]).collect()
    }

    /// All values of a fact that its tests tell apart.
    pub(super) fn values(&self, field: FieldId) -> Vec<Given> {
        let known = &self.library.glossary.fields[usize::from(field.0)];
        let checks = self.checks.get(&field).map_or(&[][..], Vec::as_slice);
        let measures = |one: Exact| {
            let limits = checks.iter().filter_map(|check| match check {
                Check::AtLeast(limit) | Check::AtMost(limit) | Check::Over(limit) | Check::Under(limit) => Some(*limit),
                _ => None,
            });
            let all: BTreeSet<Exact> = limits.flat_map(|limit| [limit - one, limit, limit + one]).collect();
            all.into_iter().map(|amount| Given::Measure(Measure { amount, shown: "".into() })).collect()
        };
        match known.shape {
            Shape::YesNo => vec![Given::Term(0), Given::Term(1)],
            Shape::Choice(choice) => {
                let terms = self.library.glossary.choices[usize::from(choice.0)].terms.len();
                (0..terms as u16).map(Given::Term).collect()
            }
            Shape::Count => measures(Exact::from_integer(1)),
            Shape::Quantity(unit) => measures(unit.factor()),
            Shape::Name | Shape::Code => {
                let named = checks.iter().filter_map(|check| match check {
                    Check::Named(names) => Some(names.iter().cloned()),
                    _ => None,
                });
                // A code that no adoption offers is no choice.
                let other = (known.shape == Shape::Name).then(|| "another".into());
                named.flatten().chain(other).collect::<BTreeSet<_>>().into_iter().map(Given::Name).collect()
            }
            shape => panic!("reach reads a {shape:?}"),
        }
    }

    /// Every set of entries that the conditions on entries tell apart.
    fn lists(&self, group: GroupId, blank: &Job) -> Vec<Entries> {
        let glossary = &self.library.glossary;
        let fields = &glossary.groups[usize::from(group.0)].fields;
        let mut rows = vec![vec![Given::Unknown; fields.len()]];
        for field in fields.iter().filter(|field| self.checks.contains_key(field)) {
            let column = usize::from(glossary.fields[usize::from(field.0)].column);
            let values = self.values(*field);
            let with = |row: Vec<Given>| {
                values.iter().map(move |value| {
                    let mut row = row.clone();
                    row[column] = value.clone();
                    row
                })
            };
            rows = rows.into_iter().flat_map(with).collect();
        }
        let facts = Facts { glossary, job: blank };
        let passes = |row: &[Given]| -> Vec<Holds> {
            self.entries[&group].iter().map(|with| facts.read(with, &FactsOnly, Some((group, row)))).collect()
        };
        let kinds: BTreeMap<Vec<Holds>, Vec<Given>> = rows.into_iter().map(|row| (passes(&row), row)).collect();
        let kinds: Vec<Vec<Given>> = kinds.into_values().collect();
        (0..1u32 << kinds.len())
            .map(|set| {
                let entries = kinds.iter().enumerate().filter(|(at, _)| set >> at & 1 == 1).map(|(_, row)| row.clone());
                Entries { entries: entries.collect(), more: false }
            })
            .collect()
    }

    /// Every job, its dates as far as they are allowed; nothing where they are more than
    /// so many. `more` are days at which each date is looked at as well.
    pub(super) fn jobs(
        &self,
        blank: &Job,
        more: &BTreeSet<Date>,
        most: usize,
        may: &dyn Fn(FieldId, Date) -> bool,
    ) -> Option<Vec<Job>> {
        let glossary = &self.library.glossary;
        let mut jobs = vec![blank.clone()];
        let fits = |jobs: &[Job], by: usize| (jobs.len() * by <= most).then_some(());
        for (number, known) in (0u16..).zip(&glossary.fields).filter(|(_, known)| known.group.is_none()) {
            let field = FieldId(number);
            let elects = self.elects && glossary.roles.text.is_some_and(|(chooses, ..)| chooses == field);
            let values = |job: &Job| -> Vec<Given> {
                match known.shape {
                    Shape::Date => {
                        let days = self.dates(field, more, job);
                        days.into_iter().filter(|day| may(field, *day)).map(Given::Date).collect()
                    }
                    _ => self.values(field),
                }
            };
            if known.shape != Shape::Date && !elects && !self.checks.contains_key(&field) {
                continue;
            }
            fits(&jobs, jobs.first().map_or(1, |job| values(job).len()))?;
            let with = |job: Job| {
                values(&job).into_iter().map(move |value| {
                    let mut job = job.clone();
                    job.values[usize::from(number)] = value;
                    job
                })
            };
            jobs = jobs.into_iter().flat_map(with).collect();
        }
        for group in self.entries.keys() {
            let lists = self.lists(*group, blank);
            fits(&jobs, lists.len())?;
            let with = |job: Job| {
                lists.iter().map(move |list| {
                    let mut job = job.clone();
                    job.lists[usize::from(group.0)] = list.clone();
                    job
                })
            };
            jobs = jobs.into_iter().flat_map(with).collect();
        }
        (jobs.len() <= most).then_some(jobs)
    }
}
