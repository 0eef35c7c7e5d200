//! Stretches of days put together from what stood between two days.

use super::{How, Stretch};
use crate::values::Date;

/// What stood on each day of a row; from each day until the next nothing changes.
pub(super) struct Days(Vec<Date>);

impl Days {
    /// These days, in their order.
    pub(super) fn new(mut days: Vec<Date>) -> Days {
        days.sort_unstable();
        days.dedup();
        Days(days)
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = Date> {
        self.0.iter().copied()
    }

    /// The stretches of a text, given how it stood on each of the days.
    pub(super) fn stretches(&self, stood: &[Option<How>]) -> Vec<Stretch> {
        let mut found: Vec<Stretch> = Vec::new();
        let mut running = false;
        for (at, (day, how)) in self.0.iter().zip(stood).enumerate() {
            let through = self.0.get(at + 1).map(|next| next.eve());
            match (how, found.last_mut()) {
                (Some(how), Some(last)) if running && last.how == *how => last.through = through,
                (Some(how), _) => found.push(Stretch { from: *day, through, how: *how }),
                (None, _) => {}
            }
            running = how.is_some();
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn date(text: &str) -> Date {
        Date::parse(text).unwrap()
    }

    #[test]
    fn equal_days_are_one_stretch_and_gaps_stay() {
        let days = Days::new(["2024-01-01", "2020-01-01", "2022-01-01", "2026-01-01", "2022-01-01"].map(date).to_vec());
        let stood = [Some(How::InForce), Some(How::InForce), None, Some(How::Elective)];
        let told: Vec<(String, Option<String>, How)> = days
            .stretches(&stood)
            .iter()
            .map(|one| (one.from.to_string(), one.through.map(|day| day.to_string()), one.how))
            .collect();
        assert_eq!(
            told,
            [
                ("2020-01-01".into(), Some("2023-12-31".into()), How::InForce),
                ("2026-01-01".into(), None, How::Elective)
            ]
        );
    }
}
