//! Figures for exact amounts, as a job would write them.

use crate::glossary::model::Shape;
use crate::values::{Exact, Measure, SIZES, Unit};
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul};

/// The most places behind the point in a figure.
const PLACES: u32 = 9;

/// Writes an exact amount in the shape's own unit; where no short decimal gives
/// it exactly, in another unit of the same dimension.
pub(crate) fn exactly(amount: Exact, shape: Shape) -> Option<Measure> {
    let shown = match shape {
        Shape::Gauge => match SIZES.iter().find(|size| Exact::from_integer(size.cmil) == amount) {
            Some(size) => size.name.to_string(),
            None => format!("{} kcmil", decimal(amount.checked_div(&Exact::from_integer(1000))?)?),
        },
        Shape::Count => decimal(amount)?,
        Shape::Quantity(unit) => Unit::names()
            .filter_map(Unit::find)
            .filter(|other| other.dimension == unit.dimension && other.name != unit.name)
            .fold(in_unit(amount, unit), |found, other| found.or_else(|| in_unit(amount, other)))?,
        _ => return None,
    };
    Some(Measure { amount, shown: shown.into() })
}

/// The figure of an exact amount as a job would write it.
pub(crate) fn amount(amount: Exact, shape: Shape) -> Option<std::sync::Arc<str>> {
    exactly(amount, shape).map(|measure| measure.shown)
}

/// A figure in the shape's unit between two amounts: the middle, or a decimal
/// near it where the middle has none; for a count a whole number, if one lies between.
pub(crate) fn between(low: Exact, high: Exact, shape: Shape) -> Option<Measure> {
    let middle = low.checked_add(&high)?.checked_div(&Exact::from_integer(2))?;
    match shape {
        Shape::Count => {
            let whole = middle.floor();
            (low < whole && whole < high).then(|| exactly(whole, shape)).flatten()
        }
        Shape::Quantity(unit) => exactly_in(middle, unit).or_else(|| {
            (0..=PLACES).find_map(|places| {
                let scale = Exact::from_integer(10i128.checked_pow(places)?);
                let rounded = middle.checked_div(&unit.factor())?.checked_mul(&scale)?.floor().checked_div(&scale)?;
                let amount = rounded.checked_mul(&unit.factor())?;
                (low < amount && amount < high).then(|| exactly_in(amount, unit)).flatten()
            })
        }),
        _ => None,
    }
}

/// A figure one more than the amount, in the shape's unit.
pub(crate) fn above(amount: Exact, shape: Shape) -> Option<Measure> {
    let one = Exact::from_integer(1);
    match shape {
        Shape::Count => exactly(amount.floor().checked_add(&one)?, shape),
        Shape::Quantity(unit) => {
            let more = amount.checked_add(&unit.factor())?;
            exactly_in(more, unit).or_else(|| {
                let whole = amount.checked_div(&unit.factor())?.floor().checked_add(&one)?.checked_add(&one)?;
                exactly_in(whole.checked_mul(&unit.factor())?, unit)
            })
        }
        _ => None,
    }
}

fn exactly_in(amount: Exact, unit: Unit) -> Option<Measure> {
    Some(Measure { amount, shown: in_unit(amount, unit)?.into() })
}

fn in_unit(amount: Exact, unit: Unit) -> Option<String> {
    Some(format!("{} {}", decimal(amount.checked_div(&unit.factor())?)?, unit.name))
}

/// An exact decimal of few places.
fn decimal(amount: Exact) -> Option<String> {
    for places in 0..=PLACES {
        let scaled = amount.checked_mul(&Exact::from_integer(10i128.checked_pow(places)?))?;
        if scaled.is_integer() {
            let digits = scaled.to_integer().to_string();
            let places = places as usize;
            if places == 0 {
                return Some(digits);
            }
            let digits = format!("{digits:0>width$}", width = places + 1);
            let (whole, part) = digits.split_at_checked(digits.len() - places)?;
            return Some(format!("{whole}.{part}"));
        }
    }
    None
}
