//! The partition of the unknown dates of a job, and the order in which dates
//! must stand.

use super::check::first_reaching;
use super::cone::Cone;
use super::lexicon::Lexicon;
use super::plan::Plan;
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, Shape};
use crate::job::model::{Given, Job};
use crate::law::model::Law;
use crate::values::{Date, Period};
use std::collections::BTreeSet;

/// The days, and those that stand at either end of a period from one of them. A period runs from its day on, so
/// that the day after one tells a date that no longer lies in it: what began then began too late.
pub(crate) fn with_spans(days: Vec<Date>, periods: &[Period]) -> Vec<Date> {
    let mut all = days.clone();
    for day in &days {
        for period in periods {
            let end = day.after(*period);
            all.extend([day.next(), end, end.next(), first_reaching(*day, *period)]);
        }
    }
    all.sort();
    all.dedup();
    all
}

/// The dates of one job.
#[derive(Debug)]
pub(crate) struct Calendar {
    /// The first days of the cells, without the one before all of them.
    pub(crate) points: Vec<Date>,
    /// The dates that the job gives.
    given: Vec<Date>,
    /// The least date that the job gives.
    least: Option<Date>,
}

/// Which dates a question holds to lie within a period after which others.
#[derive(Debug, Default)]
struct Spans {
    links: BTreeSet<(FieldId, FieldId)>,
    periods: Vec<Period>,
}

impl Spans {
    fn of(cone: &Cone) -> Spans {
        let mut spans = Spans::default();
        let listed = cone.lists.values().flat_map(|list| &list.attributes);
        for (field, reads) in cone.facts.iter().chain(listed) {
            for check in &reads.checks {
                if let Check::Within(period, other) = check {
                    spans.links.insert((*field, *other));
                    spans.periods.push(*period);
                }
            }
        }
        spans
    }
}

/// What an unknown date may be.
#[derive(Clone, Copy, Debug, Default)]
struct Bounds {
    from: Option<Date>,
    through: Option<Date>,
}

impl Calendar {
    pub(crate) fn new(plan: &Plan, law: &Law, job: &Job) -> Calendar {
        let mut given: Vec<Date> = Vec::new();
        let listed = job.lists.iter().flat_map(|list| list.entries.iter().flatten());
        for value in job.values.iter().chain(listed) {
            if let Given::Date(date) = value {
                given.push(*date);
            }
        }
        let least =
            job.values.iter().filter_map(|value| if let Given::Date(date) = value { Some(*date) } else { None }).min();
        let mut points = plan.days.clone();
        points.extend(with_spans(given.clone(), &law.periods));
        points.sort();
        points.dedup();
        Calendar { points, given, least }
    }

    /// The cells of each unknown date among the fields, each by its first day.
    pub(crate) fn cells(
        &self,
        plan: &Plan,
        law: &Law,
        lexicon: &Lexicon<'_>,
        job: &Job,
        cone: &Cone,
        fields: &[FieldId],
    ) -> (Vec<Vec<Date>>, Vec<(FieldId, FieldId)>) {
        let order = Sequence::new(lexicon, job);
        let pairs = order.pairs(fields);
        let spans = Spans::of(cone);
        let points = if spans.links.is_empty() { None } else { Some(self.spanned(law, cone, &spans, fields.len())) };
        let cells = fields
            .iter()
            .map(|field| {
                let bounds = order.bounds(*field, |known| self.base(plan, law, known));
                match &points {
                    Some(points) => self.between(points, bounds),
                    None => self.between(&tested(cone, &linked(*field, &pairs)), bounds),
                }
            })
            .collect();
        (cells, pairs)
    }

    /// The points for dates of which some lie within a period after others. Where several unknown dates hang on each
    /// other so, one after the other, what one of them may be is told apart by as many periods in a row.
    fn spanned(&self, law: &Law, cone: &Cone, spans: &Spans, unknown: usize) -> Vec<Date> {
        let mut points = self.points.clone();
        let steps = spans.links.len().min(unknown);
        if steps > 1 {
            let all = cone.facts.keys().copied().collect();
            let mut days = tested(cone, &all);
            days.extend(law.first_day);
            days.extend(self.given.iter().copied());
            for _ in 0..steps {
                days = with_spans(days, &spans.periods);
            }
            points.extend(days);
            points.sort();
            points.dedup();
        }
        points
    }

    /// All cells of a date that nothing bounds.
    pub(crate) fn free(&self) -> Vec<Date> {
        self.between(&self.points, Bounds::default())
    }

    /// The first day of an unknown date by which instruments are in force.
    fn base(&self, plan: &Plan, law: &Law, field: FieldId) -> Option<Date> {
        if !plan.dating.get(usize::from(field.0)).copied().unwrap_or(false) {
            return None;
        }
        let first = law.first_day?;
        Some(self.least.map_or(first, |least| least.min(first)))
    }

    fn between(&self, points: &[Date], bounds: Bounds) -> Vec<Date> {
        let first = points.first().into_iter().chain(self.points.first()).min();
        let start = bounds.from.unwrap_or_else(|| first.map_or(Date(0), |first| first.eve()));
        let mut cells = vec![start];
        cells.extend(
            points.iter().copied().filter(|day| *day > start && bounds.through.is_none_or(|through| *day <= through)),
        );
        cells
    }
}

/// The days that the tests of these fields name.
fn tested(cone: &Cone, fields: &BTreeSet<FieldId>) -> Vec<Date> {
    let mut days: Vec<Date> = fields
        .iter()
        .filter_map(|field| cone.facts.get(field))
        .flat_map(|reads| &reads.checks)
        .filter_map(|check| match check {
            Check::Before(day) | Check::From(day) => Some(*day),
            _ => None,
        })
        .collect();
    days.sort();
    days.dedup();
    days
}

/// The fields that a chain of orders connects with this one.
fn linked(field: FieldId, pairs: &[(FieldId, FieldId)]) -> BTreeSet<FieldId> {
    let mut found = BTreeSet::from([field]);
    loop {
        let before = found.len();
        for (later, earlier) in pairs {
            if found.contains(later) || found.contains(earlier) {
                found.extend([*later, *earlier]);
            }
        }
        if found.len() == before {
            return found;
        }
    }
}

/// Which dates may not stand before which.
struct Sequence<'a> {
    lexicon: &'a Lexicon<'a>,
    job: &'a Job,
}

impl<'a> Sequence<'a> {
    fn new(lexicon: &'a Lexicon<'a>, job: &'a Job) -> Sequence<'a> {
        Sequence { lexicon, job }
    }

    fn value(&self, field: FieldId) -> &Given {
        self.job.values.get(usize::from(field.0)).unwrap_or(&Given::Unknown)
    }

    /// The date that this one may not be before, where both are facts.
    fn earlier(&self, field: FieldId) -> Option<FieldId> {
        let own = self.lexicon.field(field)?;
        let other = own.never_before?;
        let dates = own.shape == Shape::Date && self.lexicon.field(other)?.shape == Shape::Date;
        let facts = self.lexicon.list_of(field).is_none() && self.lexicon.list_of(other).is_none();
        (dates && facts).then_some(other)
    }

    /// The unknown dates that this one may not be before, and the last given
    /// date that ends the chain.
    fn chain(&self, field: FieldId) -> (Vec<FieldId>, Option<Date>) {
        let mut passed = Vec::new();
        let mut at = field;
        while let Some(earlier) = self.earlier(at) {
            match self.value(earlier) {
                Given::Date(date) => return (passed, Some(*date)),
                Given::Unknown if !passed.contains(&earlier) && earlier != field => passed.push(earlier),
                _ => break,
            }
            at = earlier;
        }
        (passed, None)
    }

    /// Each pair of these fields of which the first may not be before the second.
    fn pairs(&self, fields: &[FieldId]) -> Vec<(FieldId, FieldId)> {
        let mut pairs = Vec::new();
        for field in fields {
            let (passed, _) = self.chain(*field);
            pairs
                .extend(passed.into_iter().filter(|earlier| fields.contains(earlier)).map(|earlier| (*field, earlier)));
        }
        pairs
    }

    fn bounds(&self, field: FieldId, base: impl Fn(FieldId) -> Option<Date>) -> Bounds {
        let (passed, given) = self.chain(field);
        let from = passed.into_iter().filter_map(&base).chain(base(field)).chain(given).max();
        let mut through: Option<Date> = None;
        for (number, value) in (0u16..).zip(&self.job.values) {
            if let Given::Date(date) = value {
                let above = self.chain_from_given(FieldId(number));
                if above.contains(&field) {
                    through = Some(through.map_or(*date, |least| least.min(*date)));
                }
            }
        }
        Bounds { from, through }
    }

    fn chain_from_given(&self, field: FieldId) -> Vec<FieldId> {
        self.chain(field).0
    }
}
