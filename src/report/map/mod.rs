//! A map of places: each drawn with the hatch and the letter of its class, legible in
//! black and white, with its name where names do not stand on each other.
//!
//! This module refuses to know what a class means: it is given areas, names and classes.

mod draw;
mod hatch;
mod labels;
mod pole;
mod project;
#[cfg(test)]
mod tests;

use crate::atlas::Area;
use crate::report::speech::Reader;

/// What a map shows.
pub(crate) struct Map<'a> {
    /// What is read out for the whole drawing.
    pub(crate) title: String,
    /// The places, those around others first.
    pub(crate) shapes: Vec<Shape<'a>>,
    /// For each class whether what it stands for is known; what is not is shown as such.
    pub(crate) settled: Vec<bool>,
    /// A point that was asked for, as longitude and latitude.
    pub(crate) point: Option<(f64, f64)>,
}

/// A place on a map.
pub(crate) struct Shape<'a> {
    pub(crate) area: &'a Area,
    /// The areas that lie within it, which are drawn over it.
    pub(crate) within: Vec<&'a Area>,
    pub(crate) name: String,
    pub(crate) class: usize,
    /// Where a click leads: an address, or a place of the page around the map.
    pub(crate) href: String,
    /// What is read out, and shown under the pointer.
    pub(crate) says: String,
}

/// A map as SVG.
pub(crate) struct Drawn {
    pub(crate) svg: String,
    /// Places whose names found no room, by their place in the row.
    pub(crate) unnamed: Vec<usize>,
    #[cfg(test)]
    labels: Vec<labels::Label>,
}

/// Draws a map; nothing where it has no place.
pub(crate) fn svg(map: &Map<'_>, reader: Reader) -> Option<Drawn> {
    draw::draw(map, reader)
}

/// The field of a legend with the hatch of a class, on a page with a map.
pub(crate) fn swatch(class: usize, settled: bool) -> String {
    format!(
        "<svg class=\"swatch\" viewBox=\"0 0 48 24\" width=\"48\" height=\"24\" aria-hidden=\"true\">\
         <rect class=\"border\" x=\".5\" y=\".5\" width=\"47\" height=\"23\" fill=\"url(#{})\" stroke=\"#1d1c1a\"/></svg>",
        hatch::name(class, settled)
    )
}

/// The letters of a class: A to Z, then AA and so on.
pub(crate) fn letters(class: usize) -> String {
    let letter = |number: usize| char::from(b'A'.saturating_add(u8::try_from(number % 26).unwrap_or(0)));
    match class / 26 {
        0 => letter(class).to_string(),
        more => format!("{}{}", letters(more - 1), letter(class)),
    }
}
