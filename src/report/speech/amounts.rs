//! Lengths in the units of the reader. What a text or a job wrote always stands
//! there too: the figure that binds is never a rounded one.

use super::{Reader, Units};
use crate::values::{Exact, Measure, Unit};

impl Reader {
    /// A figure such as `75 ft`, for a reader of metres `22.86 m (75 ft)`. A figure
    /// that is no length, or is in the reader's units, stays as it is; so does a trade size
    /// of pipe: it is a name, and an inch pipe measures no inch anywhere.
    pub(crate) fn amount(self, figure: &str) -> String {
        match self.converted(figure) {
            Some(converted) => format!("{converted} ({figure})"),
            None => figure.to_owned(),
        }
    }

    fn converted(self, figure: &str) -> Option<String> {
        let (number, unit) = figure.split_once(' ')?;
        let other = match (unit, self.units) {
            ("ft" | "yd", Units::Metric) => "m",
            ("m", Units::Customary) => "ft",
            _ => return None,
        };
        let of = Unit::find(other)?;
        let amount = Measure::quantity(number, unit, of).ok()?.amount / of.factor();
        Some(format!("{} {other}", rounded(amount)?))
    }
}

/// At most two decimals, halves away from zero.
fn rounded(amount: Exact) -> Option<String> {
    let hundredths = (amount * Exact::from_integer(100)).round().to_integer();
    let (whole, part) = (hundredths.checked_div(100)?, hundredths.checked_rem(100)?);
    let text = format!("{whole}.{part:02}");
    Some(text.trim_end_matches('0').trim_end_matches('.').to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::speech::Language;

    #[test]
    fn lengths_are_told_in_the_readers_units() {
        let metric = Reader { language: Language::English, units: Units::Metric };
        assert_eq!(metric.amount("75 ft"), "22.86 m (75 ft)");
        assert_eq!(metric.amount("0.75 inch"), "0.75 inch");
        assert_eq!(metric.amount("6 AWG"), "6 AWG");
        assert_eq!(metric.amount("20 m"), "20 m");
        let customary = Reader::default();
        assert_eq!(customary.amount("75 ft"), "75 ft");
        assert_eq!(customary.amount("15 m"), "49.21 ft (15 m)");
        assert_eq!(customary.amount("20 mm"), "20 mm");
        assert_eq!(customary.amount("200 A"), "200 A");
        assert_eq!(customary.amount("no limit"), "no limit");
    }
}
