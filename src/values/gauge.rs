//! Wire gauges, compared by the area of the conductor.
//!
//! Areas in circular mils as NEC Chapter 9 Table 8 prints them (14 AWG 4110 to
//! 4/0 AWG 211600; sizes in kcmil are their own area). Areas in square
//! millimetres are taken at 1 mm2 = 1973.525 circular mils.

use super::measure::{Exact, Measure};

/// A printed conductor size and its area in circular mils.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Gauge {
    pub(crate) name: &'static str,
    pub(crate) cmil: i128,
}

const fn size(name: &'static str, cmil: i128) -> Gauge {
    Gauge { name, cmil }
}

/// The printed sizes, smallest first.
pub(crate) const SIZES: &[Gauge] = &[
    size("18 AWG", 1620),
    size("16 AWG", 2580),
    size("14 AWG", 4110),
    size("12 AWG", 6530),
    size("10 AWG", 10_380),
    size("8 AWG", 16_510),
    size("6 AWG", 26_240),
    size("4 AWG", 41_740),
    size("3 AWG", 52_620),
    size("2 AWG", 66_360),
    size("1 AWG", 83_690),
    size("1/0 AWG", 105_600),
    size("2/0 AWG", 133_100),
    size("3/0 AWG", 167_800),
    size("4/0 AWG", 211_600),
    size("250 kcmil", 250_000),
    size("300 kcmil", 300_000),
    size("350 kcmil", 350_000),
    size("400 kcmil", 400_000),
    size("500 kcmil", 500_000),
    size("600 kcmil", 600_000),
    size("700 kcmil", 700_000),
    size("750 kcmil", 750_000),
    size("800 kcmil", 800_000),
    size("900 kcmil", 900_000),
    size("1000 kcmil", 1_000_000),
    size("1250 kcmil", 1_250_000),
    size("1500 kcmil", 1_500_000),
    size("1750 kcmil", 1_750_000),
    size("2000 kcmil", 2_000_000),
];

impl Gauge {
    /// Reads a figure with `AWG`, `kcmil` or `mm2`; nothing for a gauge that is
    /// not printed, such as 5 AWG, whose area no table gives.
    pub(crate) fn parse(number: &str, unit: &str) -> Option<Measure> {
        let shown = format!("{number} {unit}");
        let amount = match unit {
            "AWG" => Exact::from_integer(SIZES.iter().find(|size| size.name == shown)?.cmil),
            "kcmil" => Measure::exact(number).ok()? * Exact::from_integer(1000),
            "mm2" => {
                use num_traits::CheckedMul;
                Measure::exact(number).ok()?.checked_mul(&Exact::new(1_973_525, 1000))?
            }
            _ => return None,
        };
        Some(Measure { amount, shown: shown.into() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(number: &str, unit: &str) -> Exact {
        Gauge::parse(number, unit).unwrap().amount
    }

    #[test]
    fn sizes_grow_down_the_table() {
        assert!(SIZES.windows(2).all(|pair| pair[0].cmil < pair[1].cmil));
        assert!(area("4", "AWG") > area("6", "AWG"));
        assert!(area("1/0", "AWG") > area("1", "AWG"));
        assert!(area("250", "kcmil") > area("4/0", "AWG"));
    }

    #[test]
    fn areas_are_those_of_table_8() {
        for (number, cmil) in [("14", 4110), ("12", 6530), ("10", 10380), ("8", 16510), ("6", 26240), ("4", 41740)] {
            assert_eq!(area(number, "AWG"), Exact::from_integer(cmil));
        }
        assert_eq!(area("4/0", "AWG"), Exact::from_integer(211_600));
        assert_eq!(area("1750", "kcmil"), Exact::from_integer(1_750_000));
    }

    #[test]
    fn square_millimetres_lie_between_printed_sizes() {
        assert_eq!(area("16", "mm2"), Exact::new(315_764, 10));
        assert!(area("6", "AWG") < area("16", "mm2") && area("16", "mm2") < area("4", "AWG"));
        // 13.3 mm2 is the area that the same table prints for 6 AWG, rounded.
        let close = area("13.3", "mm2") - area("6", "AWG");
        assert!(close > Exact::from_integer(0) && close < Exact::from_integer(20));
    }

    #[test]
    fn what_no_table_prints_is_not_read() {
        for (number, unit) in
            [("5", "AWG"), ("0", "AWG"), ("6.0", "AWG"), ("5/0", "AWG"), ("1/0", "kcmil"), ("6", "awg"), ("", "AWG")]
        {
            assert!(Gauge::parse(number, unit).is_none(), "{number} {unit}");
        }
    }
}
