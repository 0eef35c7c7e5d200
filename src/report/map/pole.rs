//! The place of an area that is farthest from its border: where a name stands best.
//!
//! The area is divided into squares, the most promising first, until none can hold a
//! place that is better by more than a unit of the sheet.

use geo::coordinate_position::{CoordPos, CoordinatePosition};
use geo::{BoundingRect, Coord, Line, LinesIter, MapCoords, MultiPolygon};
use std::collections::BinaryHeap;

/// In units of the sheet.
const PRECISION: f64 = 1.0;
/// So many squares are looked at, whatever the border is like.
const MOST: usize = 1_500;

struct Square {
    at: Coord<f64>,
    half: f64,
    /// How far from the border a place in it can be at most.
    best: f64,
}

impl PartialEq for Square {
    fn eq(&self, other: &Square) -> bool {
        self.best.total_cmp(&other.best).is_eq()
    }
}

impl Eq for Square {}

impl PartialOrd for Square {
    fn partial_cmp(&self, other: &Square) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Square {
    fn cmp(&self, other: &Square) -> std::cmp::Ordering {
        self.best.total_cmp(&other.best)
    }
}

/// The place, for a name that is so many times wider than high; nothing where there is
/// no area left.
pub(super) fn pole(area: &MultiPolygon<f64>, wider: f64) -> Option<Coord<f64>> {
    // What is stretched upright makes a wide name square.
    let stretched = area.map_coords(|at| Coord { x: at.x, y: at.y * wider });
    let bounds = stretched.bounding_rect()?;
    let sides: Vec<Line<f64>> = stretched.lines_iter().collect();
    let deep = |at: Coord<f64>| {
        let far = sides.iter().map(|side| distance(at, *side)).fold(f64::INFINITY, f64::min);
        if stretched.coordinate_position(&at) == CoordPos::Inside { far } else { -far }
    };
    let square = |at: Coord<f64>, half: f64| {
        let depth = deep(at);
        (Square { at, half, best: depth + half * std::f64::consts::SQRT_2 }, depth)
    };
    let half = bounds.width().min(bounds.height()).max(PRECISION) / 2.0;
    let steps = |length: f64| (length / (2.0 * half)).ceil().clamp(1.0, 64.0) as usize;
    let mut waiting = BinaryHeap::new();
    let (mut found, mut deepest) = (None, 0.0);
    for column in 0..steps(bounds.width()) {
        for row in 0..steps(bounds.height()) {
            let at = Coord {
                x: bounds.min().x + half * (2 * column + 1) as f64,
                y: bounds.min().y + half * (2 * row + 1) as f64,
            };
            let (next, depth) = square(at, half);
            if depth > deepest {
                (found, deepest) = (Some(at), depth);
            }
            waiting.push(next);
        }
    }
    for _ in 0..MOST {
        let Some(next) = waiting.pop() else { break };
        if next.best - deepest <= PRECISION && found.is_some() || next.half < PRECISION / 16.0 {
            break;
        }
        let half = next.half / 2.0;
        for (dx, dy) in [(-half, -half), (half, -half), (-half, half), (half, half)] {
            let at = Coord { x: next.at.x + dx, y: next.at.y + dy };
            let (inner, depth) = square(at, half);
            if depth > deepest {
                (found, deepest) = (Some(at), depth);
            }
            waiting.push(inner);
        }
    }
    found.map(|at| Coord { x: at.x, y: at.y / wider })
}

/// How far a point lies from a side.
pub(super) fn distance(at: Coord<f64>, side: Line<f64>) -> f64 {
    let (dx, dy) = (side.dx(), side.dy());
    let along = ((at.x - side.start.x) * dx + (at.y - side.start.y) * dy) / (dx * dx + dy * dy);
    let along = if along.is_finite() { along.clamp(0.0, 1.0) } else { 0.0 };
    (at.x - side.start.x - along * dx).hypot(at.y - side.start.y - along * dy)
}
