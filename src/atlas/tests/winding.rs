//! The look-up against the plainest code: how often a ring winds around a point.

use crate::atlas::{Area, Point};
use crate::glossary::Territory;
use crate::glossary::model::PlaceId;
use crate::rules::Rules;
use geo::{Coord, CoordsIter};

/// By how much the direction to a ring's positions turns around a point, in whole turns.
fn turns(ring: &[Coord<f64>], at: Coord<f64>) -> i32 {
    let mut turned = 0.0;
    for side in ring.windows(2) {
        let (ax, ay) = (side[0].x - at.x, side[0].y - at.y);
        let (bx, by) = (side[1].x - at.x, side[1].y - at.y);
        turned += (ax * by - ay * bx).atan2(ax * bx + ay * by);
    }
    (turned / std::f64::consts::TAU).round() as i32
}

/// Outer rings run the one way and holes the other, so that the turns of all add up.
fn holds(area: &Area, at: Coord<f64>) -> bool {
    let rings = area.shape.iter().flat_map(|polygon| std::iter::once(polygon.exterior()).chain(polygon.interiors()));
    rings.map(|ring| turns(&ring.0, at)).sum::<i32>() != 0
}

/// The innermost of all places that hold a point.
fn innermost(rules: &Rules, at: Coord<f64>) -> Vec<PlaceId> {
    let places = &rules.library().places;
    let held: Vec<PlaceId> =
        rules.atlas().areas().iter().filter(|area| holds(area, at)).map(|area| area.place).collect();
    let inner = |place: &&PlaceId| !held.iter().any(|other| other != *place && places.within(*other, **place));
    held.iter().filter(inner).copied().collect()
}

/// What lies around a point within a hair's breadth, and whether some of it is nowhere.
fn around(rules: &Rules, at: Coord<f64>) -> (Vec<PlaceId>, bool) {
    let (mut found, mut nowhere) = (Vec::new(), false);
    for step in 0..1440 {
        let angle = (f64::from(step) + 0.123) * std::f64::consts::TAU / 1440.0;
        let held = innermost(rules, Coord { x: at.x + 1e-7 * angle.cos(), y: at.y + 1e-7 * angle.sin() });
        nowhere |= held.is_empty();
        found.extend(held);
    }
    found.sort_unstable();
    found.dedup();
    (found, nowhere)
}

/// A row of numbers that look drawn by lot, the same each time.
fn lot(seed: &mut u64) -> f64 {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    (*seed >> 11) as f64 / (1u64 << 53) as f64
}

#[test]
fn points_drawn_by_lot_lie_where_the_winding_says() {
    let rules = Rules::shipped();
    let mut seed = 0x5eed_cafe_f00d;
    let (mut inside, mut nowhere) = (0, 0);
    for _ in 0..4_000 {
        let at = Coord { x: lot(&mut seed) * 4.0, y: lot(&mut seed) * 4.0 - 2.0 };
        let found = rules.atlas().places_at(Point::new(at.x, at.y).unwrap(), &rules.library().places);
        assert!(!found.on_border, "{at:?}");
        assert_eq!(found.places, innermost(&rules, at), "{at:?}");
        assert_eq!(found.outside, found.places.is_empty());
        inside += usize::from(!found.outside);
        nowhere += usize::from(found.outside);
    }
    assert!(inside > 1_000 && nowhere > 1_000, "{inside} {nowhere}");
}

#[test]
fn corners_of_areas_belong_to_all_that_lie_around_them() {
    let rules = Rules::shipped();
    let mut several = 0;
    for area in rules.atlas().areas() {
        for at in area.shape.coords_iter().step_by(3) {
            let found = rules.atlas().places_at(Point::new(at.x, at.y).unwrap(), &rules.library().places);
            assert!(found.on_border, "{at:?}");
            let (places, nowhere) = around(&rules, at);
            assert_eq!(found.places, places, "{at:?}");
            assert_eq!(found.outside, nowhere, "{at:?}");
            several += usize::from(found.places.len() > 1);
        }
    }
    assert!(several > 50, "{several}");
}

#[test]
fn straight_borders_belong_to_both_sides_all_along() {
    let rules = Rules::shipped();
    let mut seen = 0;
    for area in rules.atlas().areas() {
        let rings =
            area.shape.iter().flat_map(|polygon| std::iter::once(polygon.exterior()).chain(polygon.interiors()));
        // Of a side along a meridian or a parallel every point lies on it exactly.
        for side in rings.flat_map(|ring| ring.lines()).filter(|side| side.dx() == 0.0 || side.dy() == 0.0) {
            let at = Coord { x: f64::midpoint(side.start.x, side.end.x), y: f64::midpoint(side.start.y, side.end.y) };
            let found = rules.atlas().places_at(Point::new(at.x, at.y).unwrap(), &rules.library().places);
            let (places, nowhere) = around(&rules, at);
            assert_eq!((found.on_border, &found.places, found.outside), (true, &places, nowhere), "{at:?}");
            seen += 1;
        }
    }
    assert!(seen > 20, "{seen}");
}
