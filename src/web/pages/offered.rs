//! The places that a form offers.

use super::super::state::State as Server;
use crate::glossary::model::PlaceId;

/// So many places are offered while one types; of more the name has to be written.
const MOST: usize = 500;

/// A place of a form.
pub(super) struct Offered {
    pub(super) place: PlaceId,
    /// As a job names it.
    pub(super) path: String,
    pub(super) title: String,
}

/// The places that fit, as far as a form offers them.
pub(super) fn places(state: &Server, fits: impl Fn(PlaceId) -> bool) -> impl Iterator<Item = Offered> {
    let places = &state.rules.library().places;
    let fitting = places.only_places().filter(move |(place, _)| fits(*place));
    fitting.take(MOST).map(|(place, issuer)| Offered {
        place,
        path: places.path_text(place),
        title: issuer.title.to_string(),
    })
}
