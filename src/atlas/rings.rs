//! Whether a ring bounds an area: closed, of one turn, without a crossing.

use super::read::Fault;
use crate::syntax::codes;
use geo::kernels::RobustKernel;
use geo::line_intersection::{LineIntersection, line_intersection};
use geo::{Coord, Kernel, Line, Orientation};

const CLOSE: &str = "a ring has four positions or more, and the last is the first once more";
const UNCROSS: &str = "draw the ring once around the area, so that no part of it meets another; split the area where two parts meet in a point";
const CUT: &str = "cut an area that lies across the meridian of 180 degrees there into two polygons of one `MultiPolygon` (RFC 7946, 3.1.9); of a side that is so long write a position in between";
const ENCLOSE: &str = "a ring runs around an area: not all of its positions lie on one line";

/// Checks a ring; `name` is what messages call it.
///
/// # Errors
/// What keeps it from being one.
pub(super) fn check(name: &str, ring: &[Coord<f64>]) -> Result<(), Fault> {
    if ring.len() < 4 {
        let message = format!("{name} has {} positions", ring.len());
        return Err(Fault::new(codes::RING, message, CLOSE));
    }
    if ring.first() != ring.last() {
        return Err(Fault::new(codes::RING, format!("{name} is not closed"), CLOSE));
    }
    if let Some((from, to)) = ring.iter().zip(ring.iter().skip(1)).find(|(from, to)| goes_around(from.x, to.x)) {
        let message = format!(
            "a side of {name} runs from `{}, {}` to `{}, {}`, more than half around the earth",
            from.x, from.y, to.x, to.y
        );
        return Err(Fault::new(codes::FAR_SIDE, message, CUT));
    }
    let mut distinct = ring.to_vec();
    distinct.dedup();
    if flat(&distinct) {
        return Err(Fault::new(codes::NO_AREA, format!("{name} encloses no area"), ENCLOSE));
    }
    match crossing(&distinct) {
        Some(at) => {
            let message = format!("{name} meets itself near `{}, {}`", rounded(at.x), rounded(at.y));
            Err(Fault::new(codes::RING, message, UNCROSS))
        }
        None => Ok(()),
    }
}

/// Whether a side runs more than half around the earth, so that its author may have meant the
/// shorter way. One from end to end of the map has none.
fn goes_around(from: f64, to: f64) -> bool {
    let length = (from - to).abs();
    length > 180.0 && length < 360.0
}

fn rounded(degrees: f64) -> f64 {
    (degrees * 1e6).round() / 1e6
}

/// Whether all positions lie on one line.
fn flat(ring: &[Coord<f64>]) -> bool {
    let Some(first) = ring.first() else { return true };
    let Some(second) = ring.iter().find(|coord| *coord != first) else { return true };
    ring.iter().all(|third| RobustKernel::orient2d(*first, *second, *third) == Orientation::Collinear)
}

/// Where a ring meets itself, if it does. Sides are gone through from west to east, so
/// that each is held only against those beside it.
fn crossing(ring: &[Coord<f64>]) -> Option<Coord<f64>> {
    let count = ring.len().saturating_sub(1);
    let mut sides: Vec<(usize, Line<f64>)> =
        ring.iter().zip(ring.iter().skip(1)).map(|(from, to)| Line::new(*from, *to)).enumerate().collect();
    let west = |line: &Line<f64>| line.start.x.min(line.end.x);
    let east = |line: &Line<f64>| line.start.x.max(line.end.x);
    sides.sort_by(|(_, one), (_, two)| west(one).total_cmp(&west(two)));
    for (at, (number, side)) in sides.iter().enumerate() {
        for (other_number, other) in sides.iter().skip(at + 1).take_while(|(_, other)| west(other) <= east(side)) {
            let apart = number.abs_diff(*other_number);
            let neighbours = apart == 1 || apart == count - 1;
            match line_intersection(*side, *other) {
                // Neighbours share an end, and nothing but that.
                Some(LineIntersection::SinglePoint { .. }) if neighbours => {}
                Some(LineIntersection::SinglePoint { intersection, .. }) => return Some(intersection),
                Some(LineIntersection::Collinear { intersection })
                    if !neighbours || intersection.start != intersection.end =>
                {
                    return Some(intersection.start);
                }
                Some(LineIntersection::Collinear { .. }) | None => {}
            }
        }
    }
    None
}
