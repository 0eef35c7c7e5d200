//! In which places a point lies.

use super::Area;
use crate::glossary::Territory;
use crate::glossary::model::PlaceId;
use crate::law::places::Places;
use geo::coordinate_position::{CoordPos, CoordinatePosition};
use geo::{Coord, Line, LinesIter};

/// A point on earth, in degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Point {
    longitude: f64,
    latitude: f64,
}

impl Point {
    /// The point at a longitude and a latitude; nothing where there is none.
    pub(crate) fn new(longitude: f64, latitude: f64) -> Option<Point> {
        let on_earth = (-180.0..=180.0).contains(&longitude) && (-90.0..=90.0).contains(&latitude);
        on_earth.then_some(Point { longitude, latitude })
    }

    /// A point as people write it, the latitude first: `-0.5, 1.25`.
    pub(crate) fn parse(text: &str) -> Option<Point> {
        let (latitude, longitude) = text.split_once(',')?;
        Point::new(figure(longitude)?, figure(latitude)?)
    }

    pub(crate) fn longitude(self) -> f64 {
        self.longitude
    }

    pub(crate) fn latitude(self) -> f64 {
        self.latitude
    }

    fn coord(self) -> Coord<f64> {
        Coord { x: self.longitude, y: self.latitude }
    }
}

/// A figure in decimals; no exponents, no names of what is no figure.
fn figure(text: &str) -> Option<f64> {
    let text = text.trim();
    let plain = text.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b'-' | b'+'));
    text.parse().ok().filter(|figure: &f64| plain && figure.is_finite())
}

/// Where a point lies.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Standing {
    /// The innermost places that hold it, in the order of the places; several where it
    /// lies on a border, or where areas overlap.
    pub(crate) places: Vec<PlaceId>,
    /// Whether it lies on a border.
    pub(crate) on_border: bool,
    /// Whether it lies outside all areas, or on a border to where none is.
    pub(crate) outside: bool,
}

/// How a point lies to one area.
fn position(area: &Area, at: Coord<f64>) -> CoordPos {
    let bounds = area.bounds;
    let beside = at.x < bounds.min().x || at.x > bounds.max().x || at.y < bounds.min().y || at.y > bounds.max().y;
    if beside {
        return CoordPos::Outside;
    }
    // Polygon by polygon: where two of one area touch, the point is on the border.
    let mut inside = false;
    for polygon in &area.shape {
        match polygon.coordinate_position(&at) {
            CoordPos::OnBoundary => return CoordPos::OnBoundary,
            CoordPos::Inside => inside = true,
            CoordPos::Outside => {}
        }
    }
    if inside { CoordPos::Inside } else { CoordPos::Outside }
}

/// The innermost places that hold a point.
pub(super) fn places_at(areas: &[Area], point: Point, places: &Places) -> Standing {
    let at = point.coord();
    let images = images(at);
    let mut holding = Vec::new();
    let mut bordering = Vec::new();
    for area in areas {
        let mut positions = images.iter().map(|at| position(area, *at)).filter(|at| *at != CoordPos::Outside);
        match positions.next() {
            Some(CoordPos::OnBoundary) => bordering.push(area),
            Some(_) => holding.push(area),
            None => {}
        }
    }
    let on_border = !bordering.is_empty();
    let mut found = Standing { places: Vec::new(), on_border, outside: false };
    let around: Vec<Coord<f64>> = if on_border { beside(&images, &bordering) } else { vec![at] };
    let held_by = |probe: Coord<f64>| -> Vec<PlaceId> {
        let areas = holding.iter().chain(&bordering);
        areas.filter(|area| position(area, probe) != CoordPos::Outside).map(|area| area.place).collect()
    };
    let around: Vec<Vec<PlaceId>> = around.into_iter().map(held_by).collect();
    // Where an area is cut at the edge of the map, no border is between its parts.
    let cut = images.len() > 1 && around.iter().zip(around.iter().skip(1)).all(|(one, two)| one == two);
    found.on_border &= !cut;
    for held in around {
        found.outside |= held.is_empty();
        let innermost = |place: &&PlaceId| !held.iter().any(|other| other != *place && places.within(*other, **place));
        found.places.extend(held.iter().filter(innermost));
    }
    found.places.sort_unstable();
    found.places.dedup();
    found
}

/// A point as often as it lies on the map: at the meridian of 180 degrees at both edges.
fn images(at: Coord<f64>) -> Vec<Coord<f64>> {
    if at.x.abs() == EDGE { vec![at, Coord { x: -at.x, y: at.y }] } else { vec![at] }
}

/// The longitude of the edges of the map.
const EDGE: f64 = 180.0;

/// A point beside the edge of the map as it lies on the map.
fn on_map(at: Coord<f64>) -> Coord<f64> {
    match at.x {
        x if x > EDGE => Coord { x: x - 2.0 * EDGE, y: at.y },
        x if x < -EDGE => Coord { x: x + 2.0 * EDGE, y: at.y },
        _ => at,
    }
}

/// A border divides what lies around a point into sectors: a point in each, nearer than
/// any other side of the areas.
fn beside(images: &[Coord<f64>], bordering: &[&Area]) -> Vec<Coord<f64>> {
    let Some(at) = images.first().copied() else { return Vec::new() };
    let mut angles: Vec<f64> = Vec::new();
    let mut near = FARTHEST;
    let sides = images.iter().flat_map(|image| {
        let from = Coord { x: at.x - image.x, y: 0.0 };
        bordering
            .iter()
            .flat_map(|area| area.shape.lines_iter())
            .map(move |side| Line::new(side.start + from, side.end + from))
    });
    for side in sides {
        let far = distance(at, side);
        // What robust arithmetic finds on a side may lie a last figure beside it.
        if far > ON_SIDE {
            near = near.min(far / 2.0);
            continue;
        }
        for end in [side.start, side.end] {
            if end != at {
                angles.push((end.y - at.y).atan2(end.x - at.x));
            }
        }
    }
    angles.sort_by(f64::total_cmp);
    let turned = angles.first().map(|first| first + std::f64::consts::TAU);
    let next = angles.iter().skip(1).copied().chain(turned);
    let middles =
        angles.iter().zip(next).filter(|(one, two)| two - **one > SAME).map(|(one, two)| f64::midpoint(*one, two));
    middles.map(|angle| on_map(Coord { x: at.x + near * angle.cos(), y: at.y + near * angle.sin() })).collect()
}

/// In degrees: a hand's breadth on the ground.
const FARTHEST: f64 = 1e-6;
/// In degrees: far below what any boundary was measured to.
const ON_SIDE: f64 = 1e-12;
/// In radians: two sides of two areas that run along each other.
const SAME: f64 = 1e-9;

/// How far a point lies from a side.
fn distance(at: Coord<f64>, side: Line<f64>) -> f64 {
    let (dx, dy) = (side.end.x - side.start.x, side.end.y - side.start.y);
    let length = dx * dx + dy * dy;
    let along = ((at.x - side.start.x) * dx + (at.y - side.start.y) * dy) / length;
    // Of a side without length its end is the nearest.
    let along = if along.is_finite() { along.clamp(0.0, 1.0) } else { 0.0 };
    (at.x - side.start.x - along * dx).hypot(at.y - side.start.y - along * dy)
}
