//! Civil dates of the proleptic Gregorian calendar, years 1 to 9999, as days in
//! one row, so that comparing them is comparing numbers.

use jiff::civil;
use jiff::{Span, ToSpan};
use serde::{Deserialize, Serialize};
use std::fmt;

/// A civil date: days since 1970-01-01.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub(crate) struct Date(pub(crate) i32);

/// A stretch of whole days, months or years.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub(crate) enum Period {
    Days(i32),
    Months(i32),
    Years(i32),
}

const EPOCH: civil::Date = civil::date(1970, 1, 1);
const LAST: civil::Date = civil::date(9999, 12, 31);
const FIRST: civil::Date = civil::date(1, 1, 1);

impl Date {
    /// Reads `YYYY-MM-DD`; nothing where the form or the day does not exist.
    pub(crate) fn parse(text: &str) -> Option<Date> {
        let bytes = text.as_bytes();
        let form = bytes.len() == 10
            && bytes.iter().enumerate().all(|(at, byte)| match at {
                4 | 7 => *byte == b'-',
                _ => byte.is_ascii_digit(),
            });
        if !form {
            return None;
        }
        let date: civil::Date = text.parse().ok()?;
        (FIRST..=LAST).contains(&date).then(|| Date::of(date))
    }

    fn of(date: civil::Date) -> Date {
        Date(date.duration_since(EPOCH).as_hours().div_euclid(24) as i32)
    }

    fn civil(self) -> civil::Date {
        EPOCH.checked_add(self.0.days()).unwrap_or(LAST)
    }

    /// The date after this long: the same day of the month, else the month's
    /// last; held within the years 1 to 9999.
    pub(crate) fn after(self, period: Period) -> Date {
        let span = match period {
            Period::Days(days) => Span::new().try_days(days),
            Period::Months(months) => Span::new().try_months(months),
            Period::Years(years) => Span::new().try_years(years),
        };
        let far = match period {
            Period::Days(n) | Period::Months(n) | Period::Years(n) if n < 0 => FIRST,
            _ => LAST,
        };
        let moved = span.ok().and_then(|span| self.civil().checked_add(span).ok());
        Date::of(moved.unwrap_or(far).clamp(FIRST, LAST))
    }

    /// The day before.
    pub(crate) fn eve(self) -> Date {
        self.after(Period::Days(-1))
    }

    /// The day after.
    pub(crate) fn next(self) -> Date {
        self.after(Period::Days(1))
    }
}

impl Period {
    /// The same length backwards.
    pub(crate) fn back(self) -> Period {
        match self {
            Period::Days(n) => Period::Days(n.saturating_neg()),
            Period::Months(n) => Period::Months(n.saturating_neg()),
            Period::Years(n) => Period::Years(n.saturating_neg()),
        }
    }

    /// Reads a count and one of `day`, `days`, `month`, `months`, `year`, `years`.
    pub(crate) fn parse(count: &str, unit: &str) -> Option<Period> {
        let count: i32 = count.parse().ok().filter(|count| (0..=1_000_000).contains(count))?;
        match unit {
            "day" | "days" => Some(Period::Days(count)),
            "month" | "months" => Some(Period::Months(count)),
            "year" | "years" => Some(Period::Years(count)),
            _ => None,
        }
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let date = self.civil();
        write!(f, "{:04}-{:02}-{:02}", date.year(), date.month(), date.day())
    }
}

impl fmt::Display for Period {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (count, one) = match self {
            Period::Days(n) => (n, "day"),
            Period::Months(n) => (n, "month"),
            Period::Years(n) => (n, "year"),
        };
        write!(f, "{count} {one}{}", if *count == 1 { "" } else { "s" })
    }
}
