//! Where the names stand: in the area where one fits, else beside it with a line that
//! leads to it. No name stands on another, and no such line runs through a name.

use super::pole::pole;
use crate::report::timeline::draw::width;
use geo::coordinate_position::{CoordPos, CoordinatePosition};
use geo::{BooleanOps, BoundingRect, Coord, Intersects, Line, LinesIter, MultiPolygon, Rect};

pub(super) const SIZE: f64 = 15.0;
pub(super) const LINE: f64 = 17.0;
/// Letters of a line of a name.
const LETTERS: usize = 15;
/// So many names stand beside their places; of more nobody could tell which line is whose.
const BESIDE: usize = 100;
/// What is kept free between names.
const APART: f64 = 3.0;

/// A name on the sheet.
#[derive(Clone, Debug)]
pub(super) struct Label {
    /// The number of its place.
    pub(super) of: usize,
    pub(super) lines: Vec<String>,
    /// Whether it names what lies around others.
    pub(super) outer: bool,
    pub(super) bounds: Rect<f64>,
    /// The line to the place, where the name stands beside it.
    pub(super) leader: Option<Line<f64>>,
}

/// An area with its name, on the sheet.
pub(super) struct Named {
    pub(super) own: MultiPolygon<f64>,
    pub(super) within: Vec<MultiPolygon<f64>>,
    pub(super) name: String,
}

/// The names that found room, those in their areas first.
pub(super) fn place(all: &[Named], tall: f64, wide: f64) -> Vec<Label> {
    let mut placed: Vec<Label> = Vec::new();
    let mut beside: Vec<(usize, Vec<String>, bool, Coord<f64>)> = Vec::new();
    for (of, named) in all.iter().enumerate() {
        let lines: Vec<String> =
            textwrap::wrap(&named.name, LETTERS).into_iter().map(std::borrow::Cow::into_owned).collect();
        // What lies within is drawn over it.
        let mut land = named.own.clone();
        for inner in &named.within {
            land = land.difference(inner);
        }
        let outer = !named.within.is_empty();
        let (w, h) = size(&lines, outer);
        let fitting = pole(&land, w / h).map(|at| (at, boxed(at, w, h)));
        match fitting.filter(|(_, bounds)| fits(&land, bounds) && clear(bounds, None, &placed)) {
            Some((_, bounds)) => placed.push(Label { of, lines, outer, bounds, leader: None }),
            None => beside.extend(pole(&land, 1.0).map(|at| (of, lines, outer, at))),
        }
    }
    let borders: Vec<Line<f64>> = all.iter().flat_map(|named| named.own.lines_iter()).collect();
    let small: Vec<(usize, Rect<f64>)> =
        beside.iter().filter_map(|(of, ..)| Some((*of, all.get(*of)?.own.bounding_rect()?))).collect();
    beside.truncate(BESIDE);
    let sheet = Rect::new(Coord { x: 2.0, y: 2.0 }, Coord { x: wide - 2.0, y: tall - 2.0 });
    for (of, lines, outer, at) in beside {
        let (w, h) = size(&lines, outer);
        let mut best: Option<(f64, Rect<f64>, Line<f64>)> = None;
        for (bounds, leader) in around(at, w, h) {
            // Those that follow stand farther away still.
            let length = leader.dx().hypot(leader.dy());
            if best.as_ref().is_some_and(|(least, ..)| length >= *least) {
                break;
            }
            let on_sheet = bounds.min().x >= sheet.min().x
                && bounds.max().x <= sheet.max().x
                && bounds.min().y >= sheet.min().y
                && bounds.max().y <= sheet.max().y;
            if !on_sheet || !clear(&bounds, Some(leader), &placed) {
                continue;
            }
            let crossed = borders.iter().filter(|side| bounds.intersects(*side)).count();
            let hidden = small.iter().filter(|(_, area)| bounds.intersects(area)).count();
            let passed = small.iter().filter(|(other, area)| *other != of && leader.intersects(area)).count();
            let cost = length + 9.0 * crossed.min(8) as f64 + 150.0 * hidden as f64 + 60.0 * passed as f64;
            if best.as_ref().is_none_or(|(least, ..)| cost < *least) {
                best = Some((cost, bounds, leader));
            }
        }
        if let Some((_, bounds, leader)) = best {
            placed.push(Label { of, lines, outer, bounds, leader: Some(leader) });
        }
    }
    placed
}

fn size(lines: &[String], outer: bool) -> (f64, f64) {
    // Heavy letters are wider.
    let letter = if outer { SIZE * 1.08 } else { SIZE };
    let widest = lines.iter().map(|line| width(line, letter)).fold(SIZE, f64::max);
    (widest, lines.len().max(1) as f64 * LINE)
}

fn boxed(at: Coord<f64>, w: f64, h: f64) -> Rect<f64> {
    Rect::new(Coord { x: at.x - w / 2.0, y: at.y - h / 2.0 }, Coord { x: at.x + w / 2.0, y: at.y + h / 2.0 })
}

/// Whether a name lies wholly in an area.
fn fits(land: &MultiPolygon<f64>, bounds: &Rect<f64>) -> bool {
    land.coordinate_position(&bounds.center()) == CoordPos::Inside
        && land.lines_iter().all(|side| !bounds.intersects(&side))
}

/// Whether a name and its line stand free of the others.
fn clear(bounds: &Rect<f64>, leader: Option<Line<f64>>, placed: &[Label]) -> bool {
    let grown = |of: &Rect<f64>| {
        let (min, max) = (of.min(), of.max());
        Rect::new(Coord { x: min.x - APART, y: min.y - APART }, Coord { x: max.x + APART, y: max.y + APART })
    };
    let wide = grown(bounds);
    placed.iter().all(|label| {
        !wide.intersects(&label.bounds)
            && leader.is_none_or(|leader| !grown(&label.bounds).intersects(&leader))
            && label.leader.is_none_or(|other| !wide.intersects(&other))
            && !matches!((leader, label.leader), (Some(one), Some(two)) if one.intersects(&two))
    })
}

/// The places for a name beside a point, each with the line that leads there.
fn around(at: Coord<f64>, w: f64, h: f64) -> impl Iterator<Item = (Rect<f64>, Line<f64>)> {
    let ways = [22.0, 30.0, 40.0, 52.0, 66.0, 82.0, 100.0, 125.0, 155.0, 190.0];
    ways.into_iter().flat_map(move |far| {
        (0..24).map(move |step| {
            let angle = f64::from(step) * std::f64::consts::TAU / 24.0;
            let (dx, dy) = (angle.cos(), angle.sin());
            // The box is put so that its side, not its middle, is so far away.
            let end = Coord { x: at.x + dx * far, y: at.y + dy * far };
            let reach = (w / 2.0 / dx.abs().max(1e-6)).min(h / 2.0 / dy.abs().max(1e-6));
            let middle = Coord { x: end.x + dx * reach, y: end.y + dy * reach };
            (boxed(middle, w, h), Line::new(at, end))
        })
    })
}
