//! From degrees to the sheet: a plate carrée that is true in the middle of what it shows.

use geo::{Coord, LineString, MapCoords, MultiPolygon, Polygon, Rect, Simplify};
use std::fmt::Write;

/// The width of the sheet.
pub(super) const WIDE: f64 = 960.0;
/// What is kept free around the places: room for names beside the coast.
const EDGE: f64 = 64.0;
const TALLEST: f64 = 1200.0;
/// In units of the sheet: a third of the thinnest line.
const FINEST: f64 = 0.3;
/// In degrees; what is smaller is shown as if it were so large.
const SMALLEST: f64 = 1e-4;

/// How degrees become places on the sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Projection {
    west: f64,
    north: f64,
    /// How many units a degree of longitude has, and one of latitude.
    across: f64,
    down: f64,
    left: f64,
    pub(super) tall: f64,
}

impl Projection {
    /// Shows these bounds as large as they fit.
    pub(super) fn of(bounds: Rect<f64>) -> Projection {
        let (min, max) = (bounds.min(), bounds.max());
        // A degree of longitude shrinks towards the poles; at the pole itself it is nothing.
        let shrink = f64::midpoint(min.y, max.y).to_radians().cos().max(0.05);
        let width = ((max.x - min.x) * shrink).max(SMALLEST);
        let height = (max.y - min.y).max(SMALLEST);
        let scale = ((WIDE - 2.0 * EDGE) / width).min((TALLEST - 2.0 * EDGE) / height);
        Projection {
            west: min.x,
            north: max.y,
            across: scale * shrink,
            down: scale,
            left: (WIDE - width * scale) / 2.0,
            tall: height * scale + 2.0 * EDGE,
        }
    }

    pub(super) fn point(&self, at: Coord<f64>) -> Coord<f64> {
        Coord { x: self.left + (at.x - self.west) * self.across, y: EDGE + (self.north - at.y) * self.down }
    }

    /// An area on the sheet, without what is finer than its lines.
    pub(super) fn shape(&self, shape: &MultiPolygon<f64>) -> MultiPolygon<f64> {
        shape.map_coords(|at| self.point(at)).simplify(FINEST)
    }
}

/// The path of an area on the sheet, to a tenth of a unit: a third of the finest that is
/// drawn. Each position is told from the one before it; all are rounded first, so that no
/// error adds up along a border.
pub(super) fn path(shape: &MultiPolygon<f64>) -> String {
    let mut out = String::new();
    let rings = |polygon: &'_ Polygon<f64>| -> Vec<LineString<f64>> {
        std::iter::once(polygon.exterior()).chain(polygon.interiors()).cloned().collect()
    };
    for ring in shape.iter().flat_map(rings) {
        let at: Vec<(i64, i64)> = ring.coords().map(|at| (tenths(at.x), tenths(at.y))).collect();
        let Some((x, y)) = at.first() else { continue };
        let _ = write!(out, "M{} {}l", figure(*x), figure(*y));
        // The last position is the first again, and `Z` draws that side.
        for (from, to) in at.iter().zip(at.iter().skip(1)).take(at.len().saturating_sub(2)) {
            for step in [to.0 - from.0, to.1 - from.1] {
                // A minus parts figures by itself.
                if step >= 0 && !out.ends_with('l') {
                    out.push(' ');
                }
                out.push_str(&figure(step));
            }
        }
        out.push('Z');
    }
    out
}

/// In tenths of a unit; a sheet is far smaller than what a whole number holds.
fn tenths(units: f64) -> i64 {
    (units * 10.0).round() as i64
}

/// So many tenths, as short as it can be written.
fn figure(tenths: i64) -> String {
    match (tenths / 10, (tenths % 10).abs()) {
        (whole, 0) => whole.to_string(),
        (0, part) => format!("{}.{part}", if tenths < 0 { "-" } else { "" }),
        (whole, part) => format!("{whole}.{part}"),
    }
}
