//! An area from the bytes of a GeoJSON file, after RFC 7946: a polygon or several, as a
//! geometry, a feature or a collection of features, all of which are the one area.
//!
//! Rings that run the other way round are read as well, as the standard asks of readers;
//! heights are passed over.

use super::{json, rings};
use crate::syntax::codes::{self, Code};
use geo::algorithm::validation::{InvalidMultiPolygon, InvalidPolygon, RingRole};
use geo::{Coord, LineString, MultiPolygon, Polygon, Validation};
use geojson::{GeoJson, Geometry, GeometryValue, Position};
use serde_json::Value;

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
const ACROSS: &str = "an area that lies across the meridian of 180 degrees is cut there into two polygons of one `MultiPolygon`, with longitudes from -180 to 180 (RFC 7946, 3.1.9)";
const RINGS_APART: &str = "rings of one area may touch in single points, never cross or run along each other; a hole lies within its outer ring";

/// What was read of a file.
#[derive(Clone, Debug)]
pub(super) struct Read {
    pub(super) shape: MultiPolygon<f64>,
    /// The reference system that the file names, where it is another than that of the standard.
    pub(super) system: Option<String>,
}

/// The area in a file.
///
/// # Errors
/// The first thing that is wrong with it.
pub(super) fn area(bytes: &[u8]) -> Result<Read, Fault> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let value = json::read(bytes).map_err(|problem| {
        let why = if problem.is_data() { "the file is not GeoJSON" } else { "the file is no JSON" };
        Fault::new(codes::NOT_GEOJSON, format!("{why}: {}", lower(&problem.to_string())), AS_GEOJSON)
    })?;
    let system = system(&value);
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
    let wrong = |message: String| Fault::new(codes::RING, message, RINGS_APART);
    for (number, polygon) in shape.iter().enumerate().filter(|(_, polygon)| !polygon.interiors().is_empty()) {
        polygon.check_validation().map_err(|problem| wrong(invalid(&problem, number)))?;
    }
    if shape.0.len() > 1 {
        shape.check_validation().map_err(|problem| wrong(at_odds(&problem)))?;
    }
    Ok(Read { shape, system })
}

/// The names of the reference system of the standard, of which files of an older standard
/// (GeoJSON of 2008, whose `crs` RFC 7946 has taken out) say that it is theirs.
const WGS_84: [&str; 4] =
    ["urn:ogc:def:crs:ogc:1.3:crs84", "urn:ogc:def:crs:ogc::crs84", "urn:ogc:def:crs:epsg::4326", "epsg:4326"];

/// The other reference system that a file names in its `crs`.
fn system(value: &Value) -> Option<String> {
    let said = value.get("crs").filter(|said| !said.is_null())?;
    let name = said.pointer("/properties/name").and_then(Value::as_str);
    match name {
        Some(name) if WGS_84.contains(&&*name.to_ascii_lowercase()) => None,
        Some(name) => Some(crate::glossary::cut(name)),
        None => Some("crs".to_owned()),
    }
}

/// What messages call a ring of a polygon of which so many came before.
fn ring(number: usize, before: usize) -> String {
    match number {
        0 => format!("the outer ring of polygon {}", before + 1),
        hole => format!("hole {hole} of polygon {}", before + 1),
    }
}

/// What is wrong with how the rings of a polygon lie.
fn invalid(problem: &InvalidPolygon, before: usize) -> String {
    let name = |role: &RingRole| match role {
        RingRole::Exterior => ring(0, before),
        RingRole::Interior(hole) => ring(hole + 1, before),
    };
    match problem {
        InvalidPolygon::TooFewPointsInRing(one) => format!("{} has too few positions", name(one)),
        InvalidPolygon::SelfIntersection(one) => format!("{} meets itself", name(one)),
        InvalidPolygon::NonFiniteCoord(one, _) => format!("{} has a position that is no number", name(one)),
        InvalidPolygon::InteriorRingNotContainedInExteriorRing(one) => {
            format!("{} does not lie within {}", name(one), ring(0, before))
        }
        InvalidPolygon::IntersectingRingsOnALine(one, two) => {
            format!("{} and {} run along each other", name(one), name(two))
        }
        InvalidPolygon::IntersectingRingsOnAnArea(one, two) => format!("{} and {} overlap", name(one), name(two)),
    }
}

/// What is wrong with how the polygons of an area lie.
fn at_odds(problem: &InvalidMultiPolygon) -> String {
    match problem {
        InvalidMultiPolygon::InvalidPolygon(before, problem) => invalid(problem, before.0),
        InvalidMultiPolygon::ElementsOverlaps(one, two) => {
            format!("polygons {} and {} overlap", one.0 + 1, two.0 + 1)
        }
        InvalidMultiPolygon::ElementsTouchOnALine(one, two) => {
            format!("polygons {} and {} run along each other", one.0 + 1, two.0 + 1)
        }
    }
}

/// A message with a small letter first, where it does not begin with a word in capitals.
fn lower(text: &str) -> String {
    let mut letters = text.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(_), Some(second)) if second.is_uppercase() => text.to_owned(),
        (Some(first), _) => first.to_lowercase().chain(letters).collect(),
        (None, _) => String::new(),
    }
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
        let name = ring(number, before);
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
    let across = matches!(*position.as_slice(), [x, y, ..] if x.abs() > 180.0 && x.abs() <= 360.0 && y.abs() <= 90.0);
    Fault::new(codes::COORDINATES, message, if across { ACROSS } else { IN_DEGREES })
}
