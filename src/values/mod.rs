//! Civil dates, exact quantities with their units, wire gauges and sets of terms.
//!
//! This module refuses to know files, jobs and law.

mod date;
mod gauge;
mod measure;
mod terms;
mod unit;

pub(crate) use date::{Date, Period};
pub(crate) use gauge::SIZES;
pub(crate) use measure::{Exact, Measure, Problem};
pub(crate) use terms::Terms;
pub(crate) use unit::{Dimension, Unit};
