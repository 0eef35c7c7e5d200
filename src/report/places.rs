//! The places of a library for programs, schema `groundrule/places/1`.

use crate::law::places::IssuerKind;
use crate::rules::Rules;
use crate::syntax::tree::ProvenanceKind;
use serde::Serialize;
use utoipa::ToSchema;

/// The name of the form.
pub(crate) const SCHEMA: &str = "groundrule/places/1";

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

/// The places of a set of rules.
pub(crate) fn places(rules: &Rules) -> Places {
    let library = rules.library();
    let known = library.places.all().filter(|(_, issuer)| issuer.kind == IssuerKind::Place);
    let mut places: Vec<PlaceEntry> = known
        .map(|(id, issuer)| PlaceEntry {
            path: library.places.path_text(id),
            place: issuer.name.to_string(),
            title: issuer.title.to_string(),
            within: issuer.parent.map(|outer| library.places.path_text(outer)),
            also: issuer.also.iter().map(ToString::to_string).collect(),
            office: issuer.office.as_ref().map(ToString::to_string),
            known_as: issuer
                .known_as
                .iter()
                .map(|(scheme, id)| NameElsewhere { scheme: scheme.to_string(), id: id.to_string() })
                .collect(),
            boundary: issuer.boundary.as_ref().map(|boundary| boundary.file.to_string()),
            instruments: library.of_issuer(id).len(),
            read: issuer.provenance.as_ref().and_then(|provenance| match &provenance.kind {
                ProvenanceKind::Read { place, on } => {
                    Some(ReadLine { on: on.text.to_string(), at: place.text.to_string() })
                }
                _ => None,
            }),
        })
        .collect();
    places.sort_by(|one, two| one.path.cmp(&two.path));
    Places { schema: SCHEMA, library: rules.hash().to_owned(), places }
}
