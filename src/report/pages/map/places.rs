//! The places of the map: in which order they are told, how many levels of them, those where a
//! point lies, and those that cannot be drawn.

use super::asked::Asked;
use super::{AT, ON, SHOW, WITHIN};
use crate::glossary::model::PlaceId;
use crate::law::places::Issuer;
use crate::report::pages::frame::Room;
use crate::report::pages::link::Link;
use crate::rules::Rules;
use serde::Serialize;

/// So many areas are drawn; of more only those that lie around others.
const DRAWN: usize = 400;

/// Where a point lies.
#[derive(Serialize)]
pub(super) struct Found {
    latitude: f64,
    longitude: f64,
    on_border: bool,
    outside: bool,
    places: Vec<FoundPlace>,
}

#[derive(Serialize)]
struct FoundPlace {
    /// The printed names, the innermost first.
    title: String,
    rules: String,
    /// To the questions on a job there.
    job: String,
}

/// A place that is not drawn.
#[derive(Serialize)]
pub(super) struct Without {
    title: String,
    /// What is wrong with its boundary; nothing where it names none.
    why: Option<String>,
}

/// The places, each behind what it lies within, neighbours by their printed names.
pub(super) fn in_order(rules: &Rules) -> Vec<(PlaceId, &Issuer)> {
    let places = &rules.library().places;
    let mut known: Vec<_> = places
        .only_places()
        .map(|(place, issuer)| {
            let path = places.path(place);
            let names: Vec<(&str, PlaceId)> =
                path.iter().map(|outer| (places.issuer(*outer).map_or("", |outer| &outer.title), *outer)).collect();
            (names, place, issuer)
        })
        .collect();
    known.sort_by(|one, two| one.0.cmp(&two.0));
    known.into_iter().map(|(_, place, issuer)| (place, issuer)).collect()
}

/// As many levels of the places as can be shown, and how many lie deeper.
pub(super) fn shallow<'r>(known: &[(PlaceId, &'r Issuer)], rules: &Rules) -> (Vec<(PlaceId, &'r Issuer)>, usize) {
    let mut depths: Vec<u32> = known.iter().map(|(_, issuer)| issuer.depth).collect();
    depths.sort_unstable();
    // The first place that is too many is of a level that is not shown, unless it is the only one.
    let most = match (depths.first(), depths.get(DRAWN)) {
        (Some(first), Some(over)) => over.saturating_sub(1).max(*first),
        _ => u32::MAX,
    };
    let mut shown: Vec<_> = known.iter().filter(|(_, issuer)| issuer.depth <= most).copied().collect();
    // Of one level alone that is too large, those with an area are taken first.
    if shown.len() > DRAWN {
        shown.sort_by_key(|(place, _)| rules.atlas().area(*place).is_none());
        shown.truncate(DRAWN);
    }
    let left_out = known.len() - shown.len();
    (shown, left_out)
}

pub(super) fn found(link: &Link, rules: &Rules, asked: &Asked) -> Option<Found> {
    let point = asked.at?;
    let places = &rules.library().places;
    let standing = rules.atlas().places_at(point, places);
    let told = standing.places.iter().map(|place| {
        let path = places.path(*place);
        let titles: Vec<&str> =
            path.iter().rev().filter_map(|outer| places.issuer(*outer)).map(|issuer| &*issuer.title).collect();
        let name = places.path_text(*place);
        FoundPlace {
            title: titles.join(", "),
            rules: rules_of(link, &name, asked),
            job: own(link).with("place", &name).to(Room::Job.path()),
        }
    });
    Some(Found {
        latitude: point.latitude(),
        longitude: point.longitude(),
        on_border: standing.on_border,
        outside: standing.outside,
        places: told.collect(),
    })
}

pub(super) fn rules_of(link: &Link, path: &str, asked: &Asked) -> String {
    own(link).with("on", &asked.on.to_string()).to(&format!("{}/place/{path}", Room::Rules.path()))
}

/// The link without what is asked of the map.
pub(super) fn own(link: &Link) -> Link {
    Link(link.0.iter().filter(|(name, _)| ![ON, SHOW, WITHIN, AT].contains(&&**name)).cloned().collect())
}

/// The places that cannot be drawn, and why.
pub(super) fn without(rules: &Rules, shown: &[(PlaceId, &Issuer)]) -> Vec<Without> {
    let atlas = rules.atlas();
    shown
        .iter()
        .filter(|(place, _)| atlas.area(*place).is_none())
        .map(|(_, issuer)| {
            let told = issuer.boundary.as_ref().map(|boundary| {
                let wrong = atlas.wrong().iter().find(|told| told.at == boundary.at);
                wrong.map_or_else(|| format!("`{}`", boundary.file), |told| told.message.clone())
            });
            Without { title: issuer.title.to_string(), why: told }
        })
        .collect()
}
