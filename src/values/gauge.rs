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
