//! One test against one value.

use crate::glossary::expr::Check;
use crate::job::model::Given;
use crate::values::{Date, Period};

/// Whether a known value passes a test that looks at it alone. A value of
/// another shape, and a date that there is none of, pass none.
pub(crate) fn passes(value: &Given, check: &Check) -> bool {
    match (value, check) {
        (Given::Term(term), Check::Among(terms)) => terms.has(*term),
        (Given::Term(term), Check::Includes(terms)) => terms.has(*term),
        (Given::Set(held), Check::Includes(terms)) => !held.common(*terms).is_empty(),
        (Given::Measure(measure), Check::AtLeast(limit)) => measure.amount >= *limit,
        (Given::Measure(measure), Check::AtMost(limit)) => measure.amount <= *limit,
        (Given::Measure(measure), Check::Over(limit)) => measure.amount > *limit,
        (Given::Measure(measure), Check::Under(limit)) => measure.amount < *limit,
        (Given::Date(date), Check::Before(day)) => date < day,
        (Given::Date(date), Check::From(day)) => date >= day,
        (Given::Name(name), Check::Named(names)) => names.iter().any(|named| named == name),
        _ => false,
    }
}

/// Whether a date is not before the start and not later than the period after it.
pub(crate) fn within(date: &Given, period: Period, start: &Given) -> bool {
    match (date, start) {
        (Given::Date(date), Given::Date(start)) => start <= date && *date <= start.after(period),
        _ => false,
    }
}

/// The first day whose period reaches the given day.
pub(crate) fn first_reaching(day: Date, period: Period) -> Date {
    let mut start = day.after(period.back());
    // The months have unequal lengths, so going back may miss by a few days.
    for _ in 0..8 {
        let earlier = start.eve();
        if earlier == start || earlier.after(period) < day {
            break;
        }
        start = earlier;
    }
    for _ in 0..8 {
        if start.after(period) >= day {
            break;
        }
        start = start.next();
    }
    start
}
