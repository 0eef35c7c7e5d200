//! An area from the bytes of a GeoJSON file, after RFC 7946: a polygon or several, as a
//! geometry, a feature or a collection of features, all of which are the one area.
//!
//! Rings that run the other way round are read as well, as the standard asks of readers;
//! heights are passed over.

use super::rings;
use crate::syntax::codes::{self, Code};
use geo::{Coord, LineString, MultiPolygon, Polygon, Validation};
use geojson::{GeoJson, Geometry, GeometryValue, Position};

/// What is wrong with a boundary.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Fault {
    pub(super) code: Code,
    pub(super) message: String,
    pub(super) help: &'static str,
}

impl Fault {
    pub(super) fn new(code: Code, message: impl Into<String>, help: &'static str) -> Fault {
        Fault { code, message: message.into(), help }
    }
}

const AS_GEOJSON: &str = "write the area as GeoJSON (RFC 7946): a `Feature` whose `geometry` is a `Polygon`";
const AS_POLYGON: &str = "give the area as a `Polygon` or `MultiPolygon`, and nothing else beside it";
const IN_DEGREES: &str = "write longitude first, then latitude, in degrees of WGS 84, such as `[1.25, -0.5]`";
const RINGS_APART: &str = "rings of one area may touch in single points, never cross or run along each other; a hole lies within its outer ring";

/// The area in a file.
///
/// # Errors
/// The first thing that is wrong with it.
pub(super) fn area(bytes: &[u8]) -> Result<MultiPolygon<f64>, Fault> {
    let value: serde_json::Value = serde_json::from_slice(bytes).map_err(|problem| {
        Fault::new(codes::NOT_GEOJSON, format!("the file is no JSON: {}", lower(&problem.to_string())), AS_GEOJSON)
    })?;
    let read = serde_json::from_value::<GeoJson>(value).map_err(|problem| {
        Fault::new(codes::NOT_GEOJSON, format!("the file is not GeoJSON: {}", lower(&problem.to_string())), AS_GEOJSON)
    })?;
    let mut polygons = Vec::new();
    match &read {
        GeoJson::Geometry(geometry) => gather(geometry, &mut polygons)?,
        GeoJson::Feature(feature) => gather_all(feature.geometry.as_ref(), &mut polygons)?,
        GeoJson::FeatureCollection(features) => {
            for feature in &features.features {
                gather_all(feature.geometry.as_ref(), &mut polygons)?;
            }
        }
    }
    if polygons.is_empty() {
        return Err(Fault::new(codes::NO_POLYGON, "the file holds no polygon", AS_POLYGON));
    }
    let shape = MultiPolygon::new(polygons);
    for polygon in shape.iter().filter(|polygon| !polygon.interiors().is_empty()) {
        polygon.check_validation().map_err(|problem| Fault::new(codes::RING, problem.to_string(), RINGS_APART))?;
    }
    if shape.0.len() > 1 {
        shape.check_validation().map_err(|problem| Fault::new(codes::RING, problem.to_string(), RINGS_APART))?;
    }
    Ok(shape)
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}

fn gather_all(geometry: Option<&Geometry>, polygons: &mut Vec<Polygon<f64>>) -> Result<(), Fault> {
    match geometry {
        Some(geometry) => gather(geometry, polygons),
        None => Err(Fault::new(codes::NO_POLYGON, "a feature has no geometry", AS_POLYGON)),
    }
}

fn gather(geometry: &Geometry, polygons: &mut Vec<Polygon<f64>>) -> Result<(), Fault> {
    match &geometry.value {
        GeometryValue::Polygon { coordinates } => polygons.push(polygon(coordinates, polygons.len())?),
        GeometryValue::MultiPolygon { coordinates } => {
            for rings in coordinates {
                polygons.push(polygon(rings, polygons.len())?);
            }
        }
        GeometryValue::GeometryCollection { geometries } => {
            for inner in geometries {
                gather(inner, polygons)?;
            }
        }
        other => {
            let message = format!("a `{}` is no area", other.type_name());
            return Err(Fault::new(codes::NO_POLYGON, message, AS_POLYGON));
        }
    }
    Ok(())
}

/// A polygon of which so many came before.
fn polygon(rings: &[Vec<Position>], before: usize) -> Result<Polygon<f64>, Fault> {
    let mut read = Vec::with_capacity(rings.len());
    for (number, positions) in rings.iter().enumerate() {
        let name = match number {
            0 => format!("the outer ring of polygon {}", before + 1),
            hole => format!("hole {hole} of polygon {}", before + 1),
        };
        let coords = positions
            .iter()
            .enumerate()
            .map(|(at, position)| coord(position).ok_or_else(|| nowhere(&name, at, position)))
            .collect::<Result<Vec<_>, _>>()?;
        rings::check(&name, &coords)?;
        read.push(LineString::new(coords));
    }
    let mut read = read.into_iter();
    match read.next() {
        Some(outer) => Ok(Polygon::new(outer, read.collect())),
        None => Err(Fault::new(codes::NO_POLYGON, format!("polygon {} has no ring", before + 1), AS_POLYGON)),
    }
}

fn coord(position: &Position) -> Option<Coord<f64>> {
    let [x, y, ..] = *position.as_slice() else { return None };
    let on_earth = (-180.0..=180.0).contains(&x) && (-90.0..=90.0).contains(&y);
    on_earth.then_some(Coord { x, y })
}

fn nowhere(ring: &str, at: usize, position: &Position) -> Fault {
    let figures: Vec<String> = position.as_slice().iter().map(ToString::to_string).collect();
    let message = format!(
        "position {} of {ring} is `{}`, which is no longitude from -180 to 180 with a latitude from -90 to 90",
        at + 1,
        figures.join(", ")
    );
    Fault::new(codes::COORDINATES, message, IN_DEGREES)
}
