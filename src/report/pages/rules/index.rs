//! The first page of the room: codes, places, makers and suppliers, and the search.

use super::Missing;
use super::asked::MOST_PLACES;
use super::desk::{Desk, FIND, Pointer};
use super::find::{self, Found};
use super::issuer;
use crate::glossary::model::PlaceId;
use crate::law::places::IssuerKind;
use crate::report::pages::frame::Frame;
use serde::Serialize;

#[derive(Debug, Serialize)]
struct View {
    frame: Frame,
    carried: Vec<(String, String)>,
    find: String,
    found: Option<Found>,
    start: String,
    codes: Vec<Code>,
    subjects: Vec<String>,
    places: Vec<Place>,
    today: String,
    /// How many places are not shown, each of them within one that is.
    deeper: usize,
    makers: Vec<Outsider>,
    suppliers: Vec<Outsider>,
    words: String,
}

#[derive(Debug, Serialize)]
struct Code {
    name: Pointer,
    title: String,
    subjects: Vec<String>,
    editions: Vec<Pointer>,
}

#[derive(Debug, Serialize)]
struct Place {
    name: Pointer,
    depth: u32,
    within: Option<String>,
    read: Option<String>,
    /// The editions in force today for each of the subjects; nothing where the law of
    /// the place cannot be made.
    codes: Option<Vec<Vec<Pointer>>>,
    instruments: usize,
}

#[derive(Debug, Serialize)]
struct Outsider {
    name: Pointer,
    instruments: Vec<Pointer>,
}

/// The page.
pub(super) fn page(desk: &Desk<'_>) -> Result<String, Missing> {
    let written = desk.asked.get(FIND).unwrap_or_default().trim();
    let found = (!written.is_empty()).then(|| find::find(desk, written));
    // What was found stands alone; the whole room is one step back.
    let (places, subjects, deeper) = if found.is_some() { Default::default() } else { places(desk) };
    let view = View {
        frame: desk.frame(None),
        carried: desk.carried(),
        find: written.to_owned(),
        found,
        start: desk.to(&[]),
        codes: codes(desk),
        subjects,
        places,
        today: desk.today.to_string(),
        deeper,
        makers: outsiders(desk, IssuerKind::Maker),
        suppliers: outsiders(desk, IssuerKind::Supplier),
        words: desk.to(&["words"]),
    };
    desk.lay("rules/index.html", view)
}

fn codes(desk: &Desk<'_>) -> Vec<Code> {
    let glossary = &desk.library().glossary;
    let mut codes: Vec<Code> = desk
        .library()
        .codes
        .codes
        .iter()
        .map(|code| {
            let mut years: Vec<i32> = code.editions.iter().map(|(year, _)| *year).collect();
            years.sort_unstable();
            let editions =
                years.iter().map(|year| Pointer { words: year.to_string(), ..desk.edition(&code.name, *year) });
            Code {
                name: desk.code(&code.name),
                title: code.title.to_string(),
                subjects: code.subjects.iter().map(|subject| glossary[*subject].title.to_string()).collect(),
                editions: editions.collect(),
            }
        })
        .collect();
    codes.sort_by(|one, two| one.name.words.cmp(&two.name.words));
    codes
}

/// The places as a tree, each before those within it, with the subjects on which some
/// code is in force, and how many places lie deeper than what is shown.
fn places(desk: &Desk<'_>) -> (Vec<Place>, Vec<String>, usize) {
    let places = &desk.library().places;
    let all: Vec<PlaceId> = places.only_places().map(|(id, _)| id).collect();
    // Of very many places only the outermost are listed: each leads on to those within.
    let deepest = if all.len() <= MOST_PLACES { u32::MAX } else { 0 };
    let mut shown: Vec<(Vec<String>, PlaceId)> = all
        .iter()
        .filter(|id| places.issuer(**id).is_some_and(|place| place.depth <= deepest))
        .map(|id| (titles(desk, *id), *id))
        .collect();
    shown.sort();
    let deeper = all.len() - shown.len();
    let today: Vec<_> = shown.iter().map(|(_, id)| issuer::today(desk, *id)).collect();
    let mut subjects: Vec<String> = Vec::new();
    for subject in &desk.library().glossary.subjects {
        if today.iter().flatten().flatten().any(|(known, _)| **known == *subject.name) {
            subjects.push(subject.name.to_string());
        }
    }
    let told = shown.iter().zip(today).filter_map(|((titles, id), today)| {
        let place = places.issuer(*id)?;
        let of = |subject: &String| {
            let known = today.iter().flatten().find(|(known, _)| known == subject);
            known.map(|(_, editions)| editions.clone()).unwrap_or_default()
        };
        Some(Place {
            name: desk.issuer(*id),
            depth: place.depth.min(4),
            within: titles.iter().rev().nth(1).cloned(),
            read: issuer::last_read(place).map(|day| day.to_string()),
            codes: today.is_some().then(|| subjects.iter().map(of).collect()),
            instruments: desk.library().of_issuer(*id).len(),
        })
    });
    let told: Vec<Place> = told.collect();
    let titles = subjects.iter().map(|name| issuer::subject(desk, name)).collect();
    (told, titles, deeper)
}

fn titles(desk: &Desk<'_>, id: PlaceId) -> Vec<String> {
    let places = &desk.library().places;
    places.path(id).iter().filter_map(|id| places.issuer(*id)).map(|place| place.title.to_string()).collect()
}

fn outsiders(desk: &Desk<'_>, kind: IssuerKind) -> Vec<Outsider> {
    let library = desk.library();
    let all = library.places.all().filter(|(_, issuer)| issuer.kind == kind);
    let mut all: Vec<Outsider> = all
        .map(|(id, _)| Outsider {
            name: desk.issuer(id),
            instruments: library
                .of_issuer(id)
                .iter()
                .filter_map(|own| library.instruments.get(own.0 as usize))
                .map(|own| desk.instrument(own))
                .collect(),
        })
        .collect();
    all.sort_by(|one, two| one.name.words.cmp(&two.name.words));
    all
}
