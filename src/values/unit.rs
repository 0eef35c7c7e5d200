//! Units, each with its exact factor to the base unit of its dimension.
//!
//! Sources of the factors: the international yard and pound agreement of 1959
//! (1 in = 25.4 mm exactly, 1 ft = 304.8 mm, 1 lb = 0.45359237 kg) and standard
//! gravity of the third General Conference on Weights and Measures of 1901
//! (9.80665 m/s2), as NIST Special Publication 811 prints them; the British
//! thermal unit is the International Table one of the same publication,
//! 1055.05585262 J.

use super::measure::Exact;

/// What a unit measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Dimension {
    /// metre
    Length,
    /// square metre
    Area,
    /// ampere
    Current,
    /// volt
    Potential,
    /// pascal
    Pressure,
    /// watt
    Power,
    /// ohm
    Resistance,
    /// one
    Share,
    /// dollar
    Money,
}

/// A unit as written, such as `ft`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Unit {
    pub(crate) name: &'static str,
    pub(crate) dimension: Dimension,
    numerator: i128,
    denominator: i128,
}

const fn unit(name: &'static str, dimension: Dimension, numerator: i128, denominator: i128) -> Unit {
    Unit { name, dimension, numerator, denominator }
}

/// Every unit of the language.
const UNITS: &[Unit] = &[
    unit("ft", Dimension::Length, 3048, 10_000),
    unit("inch", Dimension::Length, 254, 10_000),
    unit("yd", Dimension::Length, 9144, 10_000),
    unit("m", Dimension::Length, 1, 1),
    unit("cm", Dimension::Length, 1, 100),
    unit("mm", Dimension::Length, 1, 1000),
    unit("sq-ft", Dimension::Area, 9_290_304, 100_000_000),
    unit("m2", Dimension::Area, 1, 1),
    unit("A", Dimension::Current, 1, 1),
    unit("V", Dimension::Potential, 1, 1),
    unit("kV", Dimension::Potential, 1000, 1),
    unit("ohm", Dimension::Resistance, 1, 1),
    // 0.45359237 kg x 9.80665 m/s2 over (0.0254 m) squared.
    unit("psi", Dimension::Pressure, 44_482_216_152_605, 6_451_600_000),
    unit("kPa", Dimension::Pressure, 1000, 1),
    unit("Pa", Dimension::Pressure, 1, 1),
    unit("W", Dimension::Power, 1, 1),
    unit("kW", Dimension::Power, 1000, 1),
    unit("Btu-h", Dimension::Power, 105_505_585_262, 360_000_000_000),
    unit("percent", Dimension::Share, 1, 100),
    unit("dollars", Dimension::Money, 1, 1),
];

impl Unit {
    /// The unit with this name.
    pub(crate) fn find(name: &str) -> Option<Unit> {
        UNITS.iter().copied().find(|unit| unit.name == name)
    }

    /// The names of all units.
    pub(crate) fn names() -> impl Iterator<Item = &'static str> {
        UNITS.iter().map(|unit| unit.name)
    }

    /// How many base units one of these is.
    pub(crate) fn factor(self) -> Exact {
        Exact::new(self.numerator, self.denominator)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn names_are_found_and_differ() {
        assert_eq!(Unit::names().collect::<BTreeSet<_>>().len(), UNITS.len());
        assert!(Unit::names().all(|name| Unit::find(name).is_some_and(|unit| unit.name == name)));
        assert_eq!(Unit::find("in"), None);
        assert_eq!(Unit::find("FT"), None);
    }

    #[test]
    fn each_dimension_has_a_base() {
        let ratio = |big: &str, small: &str| Unit::find(big).unwrap().factor() / Unit::find(small).unwrap().factor();
        assert_eq!(ratio("m", "mm"), Exact::from_integer(1000));
        assert_eq!(ratio("m", "cm"), Exact::from_integer(100));
        assert_eq!(ratio("ft", "inch"), Exact::from_integer(12));
        assert_eq!(ratio("kV", "V"), Exact::from_integer(1000));
        assert_eq!(ratio("kPa", "Pa"), Exact::from_integer(1000));
        assert_eq!(ratio("kW", "W"), Exact::from_integer(1000));
        assert_eq!(ratio("sq-ft", "m2"), Unit::find("ft").unwrap().factor() * Unit::find("ft").unwrap().factor());
        let dimensions: Vec<Dimension> = UNITS.iter().map(|unit| unit.dimension).collect();
        for dimension in dimensions {
            let one = Exact::from_integer(1);
            let has_base = UNITS.iter().any(|unit| unit.dimension == dimension && unit.factor() == one);
            assert!(has_base || dimension == Dimension::Share, "{dimension:?}");
        }
    }
}
