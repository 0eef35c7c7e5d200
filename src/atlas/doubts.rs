//! Areas held against each other: what sticks out of the place around it, and what
//! overlaps a neighbour.
//!
//! Boundaries are drawn by many hands. A sliver along a border is no doubt; what is more
//! than half a percent of the smaller area is.

use super::{Area, Atlas};
use crate::glossary::model::PlaceId;
use crate::law::places::{Issuer, Places};
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::Diagnostic;
use geo::{Area as _, BooleanOps, ChamberlainDuquetteArea, MultiPolygon};
use std::collections::BTreeMap;

/// The share of an area that may lie elsewhere before it is told.
const TOLERANCE: f64 = 0.005;

pub(super) fn doubts(atlas: &Atlas, places: &Places) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let mut siblings: BTreeMap<Option<PlaceId>, Vec<&Area>> = BTreeMap::new();
    for area in &atlas.areas {
        let Some(issuer) = places.issuer(area.place) else { continue };
        siblings.entry(issuer.parent).or_default().push(area);
        if let Some((outer, around)) = around(atlas, places, issuer) {
            let out = area.shape.difference(&around.shape);
            let told = Told { code: codes::STICKS_OUT, issuer, other: outer };
            found.extend(told.beyond(&out, area, |size, title| {
                format!("{size} of the area of `{}` lie outside `{title}`, which it lies within", issuer.title)
            }));
        }
    }
    for areas in siblings.values_mut() {
        areas.sort_by(|one, two| one.bounds.min().x.total_cmp(&two.bounds.min().x));
        for (at, area) in areas.iter().enumerate() {
            let beside = |other: &&&Area| other.bounds.min().x < area.bounds.max().x;
            for other in areas.iter().skip(at + 1).take_while(beside) {
                found.extend(overlap(area, other, places));
            }
        }
    }
    found
}

/// The nearest place around one that has an area.
fn around<'a>(atlas: &'a Atlas, places: &'a Places, issuer: &Issuer) -> Option<(&'a Issuer, &'a Area)> {
    let mut outer = issuer.parent;
    while let Some(place) = outer {
        let own = places.issuer(place)?;
        if let Some(area) = atlas.area(place) {
            return Some((own, area));
        }
        outer = own.parent;
    }
    None
}

fn overlap(one: &Area, two: &Area, places: &Places) -> Option<Diagnostic> {
    let apart = one.bounds.min().y >= two.bounds.max().y || two.bounds.min().y >= one.bounds.max().y;
    if apart {
        return None;
    }
    // It is told where the place that was declared later names its boundary.
    let (own, other) = if one.place > two.place { (one, two) } else { (two, one) };
    let (issuer, neighbour) = (places.issuer(own.place)?, places.issuer(other.place)?);
    let smaller = if own.shape.unsigned_area() < other.shape.unsigned_area() { own } else { other };
    let told = Told { code: codes::AREAS_OVERLAP, issuer, other: neighbour };
    told.beyond(&own.shape.intersection(&other.shape), smaller, |size, title| {
        format!("the areas of `{}` and `{title}` overlap by {size}", issuer.title)
    })
}

struct Told<'a> {
    code: Code,
    issuer: &'a Issuer,
    other: &'a Issuer,
}

impl Told<'_> {
    /// The finding, where a part is more of an area than is tolerated.
    fn beyond(
        &self,
        part: &MultiPolygon<f64>,
        of: &Area,
        say: impl FnOnce(&str, &str) -> String,
    ) -> Option<Diagnostic> {
        let share = part.unsigned_area() / of.shape.unsigned_area();
        if share <= TOLERANCE {
            return None;
        }
        let at = self.issuer.boundary.as_ref()?.at;
        let square_kilometres = part.chamberlain_duquette_unsigned_area() / 1e6;
        let size = format!("{square_kilometres:.1} km² ({:.1} percent)", share * 100.0);
        let told = Diagnostic::new(self.code, at, say(&size, &self.other.title))
            .help("draw the boundaries from one map, so that neighbours share their border");
        Some(match &self.other.boundary {
            Some(other) => told.also(other.at, format!("the boundary of `{}`", self.other.title)),
            None => told,
        })
    }
}
