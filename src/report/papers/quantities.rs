//! How much to buy: lengths with an allowance, rounded up to what is sold.

use crate::report::speech::{Reader, Units};
use crate::values::{Exact, Measure, Unit};
use num_traits::CheckedMul;

/// What is cut off and lost, in percent of the length along the conductor. Common
/// practice of the trade; no source stands behind it.
pub(super) const WASTE: i128 = 10;

/// A length with so many percent more, up to whole feet or to tenths of a metre; nothing
/// where the figure is beyond all use.
pub(super) fn with_allowance(length: &Measure, percent: i128, reader: Reader) -> Option<String> {
    let (name, step) = match reader.units {
        Units::Customary => ("ft", 1),
        Units::Metric => ("m", 10),
    };
    let unit = Unit::find(name)?;
    let share = Exact::new(100i128.checked_add(percent)?, 100);
    let steps = (length.amount / unit.factor()).checked_mul(&share)?.checked_mul(&Exact::from_integer(step))?;
    let steps = steps.ceil().to_integer();
    if step == 1 {
        return Some(format!("{steps} {name}"));
    }
    let (whole, part) = (steps.checked_div(step)?, steps.checked_rem(step)?);
    Some(if part == 0 { format!("{whole} {name}") } else { format!("{whole}.{part} {name}") })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::speech::Language;

    fn length(number: &str, unit: &str) -> Measure {
        Measure::quantity(number, unit, Unit::find("ft").unwrap()).unwrap()
    }

    #[test]
    fn lengths_are_rounded_up() {
        let feet = Reader::default();
        let metres = Reader { language: Language::English, units: Units::Metric };
        assert_eq!(with_allowance(&length("18", "ft"), WASTE, feet).unwrap(), "20 ft");
        assert_eq!(with_allowance(&length("20", "ft"), WASTE, feet).unwrap(), "22 ft");
        // 18 ft are 5.4864 m; a tenth more is 6.03504 m.
        assert_eq!(with_allowance(&length("18", "ft"), WASTE, metres).unwrap(), "6.1 m");
        assert_eq!(with_allowance(&length("10", "m"), WASTE, metres).unwrap(), "11 m");
        assert_eq!(with_allowance(&length("0", "ft"), WASTE, feet).unwrap(), "0 ft");
        assert!(with_allowance(&length("999999999999999999", "ft"), WASTE, feet).is_some());
    }
}
