//! The places of a library for programs, schema `groundrule/places/1`, and where a point
//! lies, schema `groundrule/locate/1`.

use crate::atlas::Point;
use crate::glossary::model::PlaceId;
use crate::law::places::{Issuer, IssuerKind};
use crate::report::finding::Finding;
use crate::rules::Rules;
use crate::syntax::tree::ProvenanceKind;
use serde::Serialize;
use utoipa::ToSchema;

/// The names of the forms.
const SCHEMA: &str = "groundrule/places/1";
const LOCATED: &str = "groundrule/locate/1";

/// Every place.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Places {
    schema: &'static str,
    /// The hash of the rules.
    library: String,
    /// By path.
    places: Vec<PlaceEntry>,
}

/// One place.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct PlaceEntry {
    /// Its path, such as `tamarrow/osier`; a job may name it so.
    path: String,
    /// Its name alone, which fits where no other place has it.
    place: String,
    /// Its printed name.
    title: String,
    /// The path of what it lies within.
    #[serde(skip_serializing_if = "Option::is_none")]
    within: Option<String>,
    /// Other printed names.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    also: Vec<String>,
    /// The office that decides there.
    #[serde(skip_serializing_if = "Option::is_none")]
    office: Option<String>,
    /// Names that others have for it, each with the list that it stands in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    known_as: Vec<NameElsewhere>,
    /// The file with its boundary.
    #[serde(skip_serializing_if = "Option::is_none")]
    boundary: Option<String>,
    /// How many instruments of its own are loaded.
    instruments: usize,
    /// When its rules were read, and where.
    #[serde(skip_serializing_if = "Option::is_none")]
    read: Option<ReadLine>,
}

/// A name in some list of places.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct NameElsewhere {
    scheme: String,
    id: String,
}

/// When and where something was read.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct ReadLine {
    on: String,
    at: String,
}

/// Where a point lies.
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Located {
    schema: &'static str,
    /// The hash of the rules.
    library: String,
    point: PointAsked,
    /// Whether it lies on a border; then each side is told.
    on_border: bool,
    /// Whether it lies outside every area that is known, or on a border to where none is.
    outside: bool,
    /// The innermost places that hold it, by path; what they lie within holds it too.
    places: Vec<PlaceEntry>,
}

/// The point that was asked for, in degrees (WGS 84).
#[derive(Debug, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct PointAsked {
    latitude: f64,
    longitude: f64,
}

/// The places of a set of rules.
pub(crate) fn places(rules: &Rules) -> Places {
    let known = rules.library().places.all().filter(|(_, issuer)| issuer.kind == IssuerKind::Place);
    let places = by_path(known.map(|(id, issuer)| entry(rules, id, issuer)));
    Places { schema: SCHEMA, library: rules.hash().to_owned(), places }
}

/// Why a point is not looked up.
#[derive(Debug)]
pub(crate) enum Unlocated {
    /// There is no such point on earth.
    NoPoint,
    /// A boundary cannot be used, and the point may lie behind it.
    Boundaries(Vec<Finding>),
}

/// The innermost places that hold the point at a latitude and a longitude, in degrees.
///
/// # Errors
/// Where there is no such point, and where a boundary cannot be used.
pub(crate) fn locate(rules: &Rules, latitude: f64, longitude: f64) -> Result<Located, Unlocated> {
    let point = Point::new(longitude, latitude).ok_or(Unlocated::NoPoint)?;
    let known = &rules.library().places;
    let wrong = rules.atlas().wrong();
    if !wrong.is_empty() {
        return Err(Unlocated::Boundaries(Finding::of(rules, wrong.iter())));
    }
    let standing = rules.atlas().places_at(point, known);
    let held = standing.places.iter().filter_map(|place| Some((*place, known.issuer(*place)?)));
    Ok(Located {
        schema: LOCATED,
        library: rules.hash().to_owned(),
        point: PointAsked { latitude: point.latitude(), longitude: point.longitude() },
        on_border: standing.on_border,
        outside: standing.outside,
        places: by_path(held.map(|(id, issuer)| entry(rules, id, issuer))),
    })
}

fn by_path(entries: impl Iterator<Item = PlaceEntry>) -> Vec<PlaceEntry> {
    let mut entries: Vec<PlaceEntry> = entries.collect();
    entries.sort_by(|one, two| one.path.cmp(&two.path));
    entries
}

fn entry(rules: &Rules, id: PlaceId, issuer: &Issuer) -> PlaceEntry {
    let library = rules.library();
    let names = issuer.known_as.iter();
    PlaceEntry {
        path: library.places.path_text(id),
        place: issuer.name.to_string(),
        title: issuer.title.to_string(),
        within: issuer.parent.map(|outer| library.places.path_text(outer)),
        also: issuer.also.iter().map(ToString::to_string).collect(),
        office: issuer.office.as_ref().map(ToString::to_string),
        known_as: names.map(|(scheme, id)| NameElsewhere { scheme: scheme.to_string(), id: id.to_string() }).collect(),
        boundary: issuer.boundary.as_ref().map(|boundary| boundary.file.to_string()),
        instruments: library.of_issuer(id).len(),
        read: issuer.provenance.as_ref().and_then(|provenance| match &provenance.kind {
            ProvenanceKind::Read { place, on } => {
                Some(ReadLine { on: on.text.to_string(), at: place.text.to_string() })
            }
            _ => None,
        }),
    }
}
