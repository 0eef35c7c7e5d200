//! Civil dates of the proleptic Gregorian calendar, years 1 to 9999, as days in
//! one row, so that comparing them is comparing numbers.

use jiff::Span;
use jiff::civil;
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
        let far = if self.0 < 0 { FIRST } else { LAST };
        Span::new().try_days(self.0).ok().and_then(|span| EPOCH.checked_add(span).ok()).unwrap_or(far)
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

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> Date {
        Date::parse(text).unwrap()
    }

    #[test]
    fn only_days_that_exist_are_read() {
        for text in ["2024-02-29", "2000-02-29", "0001-01-01", "9999-12-31"] {
            assert_eq!(day(text).to_string(), text);
        }
        for text in ["2023-02-29", "1900-02-29", "2024-13-01", "2024-00-10", "2024-04-31", "0000-01-01"] {
            assert_eq!(Date::parse(text), None, "{text}");
        }
        for text in
            ["", "2024-3-1", "24-03-01", "2024/03/01", "2024-03-01T00:00", " 2024-03-01", "+2024-03-1", "２024-03-01"]
        {
            assert_eq!(Date::parse(text), None, "{text}");
        }
    }

    #[test]
    fn days_stand_in_one_row() {
        assert_eq!(day("1970-01-01"), Date(0));
        assert_eq!(day("1969-12-31"), Date(-1));
        assert_eq!(day("2000-03-01"), Date(11_017));
        assert_eq!(day("0001-01-01"), Date(-719_162));
        assert_eq!(day("9999-12-31"), Date(2_932_896));
        assert!(day("2024-02-29") < day("2024-03-01"));
        assert_eq!(day("2024-02-29").next(), day("2024-03-01"));
        assert_eq!(day("2024-03-01").eve(), day("2024-02-29"));
    }

    #[test]
    fn a_month_ends_on_the_same_day_or_its_last() {
        assert_eq!(day("2024-01-31").after(Period::Months(1)), day("2024-02-29"));
        assert_eq!(day("2023-01-31").after(Period::Months(1)), day("2023-02-28"));
        assert_eq!(day("2024-08-30").after(Period::Months(6)), day("2025-02-28"));
        assert_eq!(day("2024-02-29").after(Period::Years(1)), day("2025-02-28"));
        assert_eq!(day("2024-02-29").after(Period::Years(4)), day("2028-02-29"));
        assert_eq!(day("2024-03-31").after(Period::Months(1).back()), day("2024-02-29"));
        assert_eq!(day("2024-12-02").after(Period::Days(90)), day("2025-03-02"));
    }

    #[test]
    fn the_calendar_has_two_ends() {
        assert_eq!(day("9999-12-31").next(), day("9999-12-31"));
        assert_eq!(day("0001-01-01").eve(), day("0001-01-01"));
        assert_eq!(day("9000-01-01").after(Period::Years(i32::MAX)), day("9999-12-31"));
        assert_eq!(day("1000-01-01").after(Period::Days(i32::MIN)), day("0001-01-01"));
        assert_eq!(Date(i32::MAX).to_string(), "9999-12-31");
        assert_eq!(Date(i32::MIN).to_string(), "0001-01-01");
    }

    #[test]
    fn periods_are_read_with_their_unit() {
        assert_eq!(Period::parse("2", "years"), Some(Period::Years(2)));
        assert_eq!(Period::parse("1", "day"), Some(Period::Days(1)));
        for (count, unit) in
            [("-1", "days"), ("1.5", "months"), ("1000001", "days"), ("99999999999", "days"), ("2", "weeks")]
        {
            assert_eq!(Period::parse(count, unit), None, "{count} {unit}");
        }
        assert_eq!(Period::Months(1).to_string(), "1 month");
        assert_eq!(Period::Days(90).to_string(), "90 days");
    }
}
