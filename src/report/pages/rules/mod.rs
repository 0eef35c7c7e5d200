//! The room of the rules: codes, editions, sections through their numbers, places
//! and instruments, each a page, each tied to the others.
//!
//! An address is what stands behind `/rules`, part by part. This module refuses to
//! know requests: an address that leads nowhere is told as [`Missing`], and whoever
//! serves the pages makes of that what it makes of every page that is not there.

mod amends;
mod asked;
mod clause;
mod code;
mod conditions;
mod demands;
mod desk;
mod edition;
mod effect;
mod find;
mod heard;
mod index;
mod instrument;
mod issuer;
mod lookup;
mod numbers;
mod section;
mod stands;
#[cfg(test)]
#[expect(clippy::string_slice, reason = "a test may panic")]
mod tests;
mod times;
mod trade;
mod words;

use super::link::Link;
use crate::rules::Rules;
use crate::values::Date;
use desk::{Desk, Pointer};

/// Why an address has no page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Missing {
    /// The address.
    pub(crate) place: String,
    pub(crate) message: String,
    pub(crate) help: String,
    /// Pages with near names, and the one from which to look on.
    pub(crate) near: Vec<Pointer>,
    /// Whether the program could not lay the page out: the fault is not the reader's.
    pub(crate) broken: bool,
}

/// The page at an address: the parts behind `/rules`, none for the first page.
///
/// # Errors
/// Where no such page is there; with what is near it.
pub(crate) fn page(address: &[&str], link: &Link, rules: &Rules, today: Date) -> Result<String, Missing> {
    let desk = Desk::new(address, link, rules, today);
    match address {
        [] => index::page(&desk),
        ["words"] => words::page(&desk),
        ["code", name] => code::page(&desk, name),
        ["code", name, year] => edition::page(&desk, name, year),
        ["section", code, number] => section::page(&desk, code, number),
        ["place", path @ ..] => issuer::place(&desk, path),
        ["maker" | "supplier", name] => issuer::outsider(&desk, name),
        ["instrument", path @ ..] => match path {
            [path @ .., id, "effect"] if lookup::instrument(&desk, path, id).is_ok() => effect::page(&desk, path, id),
            [path @ .., id] => instrument::page(&desk, path, id),
            [] => Err(desk.nowhere()),
        },
        _ => Err(desk.nowhere()),
    }
}
