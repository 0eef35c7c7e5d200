//! Exact amounts with the figure that was written: limits of law and figures of
//! a job, compared as fractions and shown as printed.

use super::gauge::Gauge;
use super::unit::Unit;
use num_rational::Ratio;
use num_traits::CheckedMul;
use std::sync::Arc;

/// An exact fraction.
pub(crate) type Exact = Ratio<i128>;

/// An amount in the base unit of its dimension (circular mils for a gauge, one
/// for a count) and the figure as it was written, such as `75 ft`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Measure {
    pub(crate) amount: Exact,
    pub(crate) shown: Arc<str>,
}

/// Why a figure cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Problem {
    /// It is not a number.
    NotANumber,
    /// It has more digits than the language allows.
    TooManyDigits,
    /// The unit is not known.
    UnknownUnit,
    /// The unit measures something else.
    WrongDimension,
    /// No table prints this gauge.
    UnknownGauge,
}

/// The most digits that a number may have.
pub(crate) const DIGITS: usize = 18;

impl Measure {
    /// Reads an unsigned decimal figure such as `22.86`.
    ///
    /// # Errors
    /// Where it is no figure or has more than 18 digits.
    pub(crate) fn exact(number: &str) -> Result<Exact, Problem> {
        let (whole, part) = number.split_once('.').unwrap_or((number, ""));
        let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        if whole.is_empty() || !digits(whole) || !digits(part) || (number.contains('.') && part.is_empty()) {
            return Err(Problem::NotANumber);
        }
        if whole.len() + part.len() > DIGITS {
            return Err(Problem::TooManyDigits);
        }
        let all: i128 = format!("{whole}{part}").parse().map_err(|_| Problem::NotANumber)?;
        Ok(Exact::new(all, 10i128.pow(part.len() as u32)))
    }

    /// Reads a quantity whose unit measures the same as `of`.
    ///
    /// # Errors
    /// Where the figure or its unit cannot be read, or measures something else.
    pub(crate) fn quantity(number: &str, unit: &str, of: Unit) -> Result<Measure, Problem> {
        let found = Unit::find(unit).ok_or(Problem::UnknownUnit)?;
        if found.dimension != of.dimension {
            return Err(Problem::WrongDimension);
        }
        let amount = Measure::exact(number)?.checked_mul(&found.factor()).ok_or(Problem::TooManyDigits)?;
        Ok(Measure { amount, shown: format!("{number} {unit}").into() })
    }

    /// Reads a wire gauge.
    ///
    /// # Errors
    /// Where the unit is not one of gauges or the size is not printed.
    pub(crate) fn gauge(number: &str, unit: &str) -> Result<Measure, Problem> {
        match unit {
            "AWG" | "kcmil" | "mm2" => {}
            _ => return Err(if Unit::find(unit).is_some() { Problem::WrongDimension } else { Problem::UnknownUnit }),
        }
        let digits = number.bytes().filter(u8::is_ascii_digit).count();
        if digits > DIGITS {
            return Err(Problem::TooManyDigits);
        }
        Gauge::parse(number, unit).ok_or(Problem::UnknownGauge)
    }

    /// Reads a whole number.
    ///
    /// # Errors
    /// Where it is no whole number or has more than 18 digits.
    pub(crate) fn count(number: &str) -> Result<Measure, Problem> {
        if number.contains('.') {
            return Err(Problem::NotANumber);
        }
        Ok(Measure { amount: Measure::exact(number)?, shown: number.into() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn amount(number: &str, unit: &str) -> Exact {
        Measure::quantity(number, unit, Unit::find(unit).unwrap()).unwrap().amount
    }

    #[test]
    fn figures_are_exact() {
        assert_eq!(Measure::exact("0.1").unwrap() + Measure::exact("0.2").unwrap(), Measure::exact("0.3").unwrap());
        assert_eq!(Measure::exact("22.860"), Measure::exact("22.86"));
        for wrong in ["", ".", "1.", ".5", "-1", "+1", "1e3", "1,5", "1.2.3", "٣", "1/2"] {
            assert_eq!(Measure::exact(wrong), Err(Problem::NotANumber), "{wrong}");
        }
    }

    #[test]
    fn a_number_has_at_most_eighteen_digits() {
        assert!(Measure::exact("999999999999999999").is_ok());
        assert!(Measure::exact("0.00000000000000001").is_ok());
        assert_eq!(Measure::exact("1000000000000000000"), Err(Problem::TooManyDigits));
        assert_eq!(Measure::count("1000000000000000000"), Err(Problem::TooManyDigits));
        assert_eq!(Measure::gauge("1000000000000000000", "kcmil"), Err(Problem::TooManyDigits));
        assert!(Measure::quantity("999999999999999999", "psi", Unit::find("psi").unwrap()).is_ok());
        assert!(Measure::quantity("0.00000000000000001", "psi", Unit::find("psi").unwrap()).is_ok());
    }

    #[test]
    fn quantities_compare_across_units() {
        assert_eq!(amount("75", "ft"), amount("22.86", "m"));
        assert_eq!(amount("1", "ft"), amount("12", "inch"));
        assert_eq!(amount("1", "yd"), amount("3", "ft"));
        assert!(amount("23", "m") > amount("75", "ft"));
        assert_eq!(amount("1", "sq-ft"), amount("0.09290304", "m2"));
        // 1 psi is 6894.757 Pa as NIST SP 811 prints it, to seven digits.
        assert!(amount("1", "psi") > amount("6894.7572", "Pa") && amount("1", "psi") < amount("6894.7573", "Pa"));
        // 1 Btu-h is 0.2930711 W by the same book.
        assert!(amount("1", "Btu-h") > amount("0.29307107", "W") && amount("1", "Btu-h") < amount("0.29307108", "W"));
        assert_eq!(amount("50", "percent"), Exact::new(1, 2));
    }

    #[test]
    fn a_figure_is_shown_as_it_was_written() {
        let found = Measure::quantity("22.860", "m", Unit::find("ft").unwrap()).unwrap();
        assert_eq!(&*found.shown, "22.860 m");
        assert_eq!(&*Measure::gauge("1/0", "AWG").unwrap().shown, "1/0 AWG");
    }

    #[test]
    fn what_does_not_measure_the_same_is_refused() {
        let ft = Unit::find("ft").unwrap();
        assert_eq!(Measure::quantity("3", "A", ft), Err(Problem::WrongDimension));
        assert_eq!(Measure::quantity("3", "furlong", ft), Err(Problem::UnknownUnit));
        assert_eq!(Measure::quantity("x", "ft", ft), Err(Problem::NotANumber));
        assert_eq!(Measure::gauge("6", "ft"), Err(Problem::WrongDimension));
        assert_eq!(Measure::gauge("6", "gauge"), Err(Problem::UnknownUnit));
        assert_eq!(Measure::gauge("5", "AWG"), Err(Problem::UnknownGauge));
        assert_eq!(Measure::count("1.5"), Err(Problem::NotANumber));
    }
}
