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
