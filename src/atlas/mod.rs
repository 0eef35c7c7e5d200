//! The areas of places: read from the GeoJSON that their `boundary` names, and asked
//! which place a point lies in.
//!
//! This module refuses to open files: it is given their bytes. It refuses to guess: a
//! boundary with anything wrong is no area, and is told.

mod doubts;
mod json;
mod point;
mod read;
mod rings;
#[cfg(test)]
mod tests;

use crate::glossary::model::PlaceId;
use crate::law::places::Places;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use geo::{BoundingRect, MultiPolygon, Rect};
pub(crate) use point::{Point, Standing};
use std::borrow::Cow;
use std::collections::HashMap;

/// The area of one place, in degrees of longitude and latitude (WGS 84).
#[derive(Clone, Debug)]
pub(crate) struct Area {
    pub(crate) place: PlaceId,
    pub(crate) shape: MultiPolygon<f64>,
    pub(crate) bounds: Rect<f64>,
}

/// The areas of a library.
#[derive(Debug, Default)]
pub(crate) struct Atlas {
    areas: Vec<Area>,
    of: HashMap<PlaceId, usize>,
    wrong: Vec<Diagnostic>,
    doubtful: Vec<Diagnostic>,
}

/// The file that a boundary names.
#[derive(Clone, Debug)]
pub(crate) enum BoundaryFile<'a> {
    Bytes(Cow<'a, [u8]>),
    /// It cannot be read, and why.
    Unreadable(&'a str),
    /// Nobody has looked: no area, and nothing wrong.
    NotLookedAt,
}

impl Atlas {
    /// Reads the areas of all places that name a boundary.
    pub(crate) fn read<'a>(places: &Places, file: impl Fn(PlaceId) -> BoundaryFile<'a>) -> Atlas {
        let mut atlas = Atlas::default();
        for (place, issuer) in places.all() {
            let Some(boundary) = &issuer.boundary else { continue };
            let tell = |code, message: String, help: &str| Diagnostic::new(code, boundary.at, message).help(help);
            if boundary.beside("").is_none() {
                atlas.wrong.push(tell(
                    codes::BOUNDARY_FILE,
                    format!("`{}` does not name a file in the folder of this rule file", boundary.file),
                    "put the file beside the rule file and write its name, such as `boundary \"town.geojson\"`",
                ));
                continue;
            }
            let bytes = match file(place) {
                BoundaryFile::Bytes(bytes) => bytes,
                BoundaryFile::Unreadable(why) => {
                    let message = format!("the boundary `{}` cannot be read: {why}", boundary.file);
                    let help = "put the file into the folder of this rule file, and check that you may read it";
                    atlas.wrong.push(tell(codes::BOUNDARY_FILE, message, help));
                    continue;
                }
                BoundaryFile::NotLookedAt => continue,
            };
            match read::area(&bytes) {
                Ok(read) => {
                    if let Some(system) = &read.system {
                        atlas.doubtful.push(tell(
                            codes::OTHER_SYSTEM,
                            format!(
                                "`{}` names `{system}`, and its figures are read in degrees of WGS 84",
                                boundary.file
                            ),
                            "convert the file to WGS 84 and leave `crs` out, as RFC 7946 asks (section 4)",
                        ));
                    }
                    atlas.put(place, read.shape);
                }
                Err(fault) => {
                    let message = format!("`{}`: {}", boundary.file, fault.message);
                    atlas.wrong.push(tell(fault.code, message, fault.help));
                }
            }
        }
        atlas
    }

    fn put(&mut self, place: PlaceId, shape: MultiPolygon<f64>) {
        // What was read holds a polygon, so that there are bounds.
        if let Some(bounds) = shape.bounding_rect() {
            self.of.insert(place, self.areas.len());
            self.areas.push(Area { place, shape, bounds });
        }
    }

    /// Every area, in the order of the places.
    #[cfg(test)]
    pub(crate) fn areas(&self) -> &[Area] {
        &self.areas
    }

    /// The area of a place.
    pub(crate) fn area(&self, place: PlaceId) -> Option<&Area> {
        self.of.get(&place).and_then(|at| self.areas.get(*at))
    }

    /// What is wrong with boundaries, each at the line that names it.
    pub(crate) fn wrong(&self) -> &[Diagnostic] {
        &self.wrong
    }

    /// What is doubtful in a file, and where areas are held against each other.
    pub(crate) fn doubts(&self, places: &Places) -> Vec<Diagnostic> {
        self.doubtful.iter().cloned().chain(doubts::doubts(self, places)).collect()
    }

    /// The innermost places that hold a point.
    pub(crate) fn places_at(&self, point: Point, places: &Places) -> Standing {
        point::places_at(&self.areas, point, places)
    }
}
