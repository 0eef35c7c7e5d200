//! What the parts of an address name, and what is near where they name nothing.

use super::Missing;
use super::desk::{Desk, Pointer};
use crate::glossary::cut;
use crate::glossary::model::PlaceId;
use crate::law::instrument::{Instrument, InstrumentId};
use crate::law::places::{Issuer, IssuerKind};
use crate::law::text::{Code, Edition};
use crate::syntax::nearest::nearest;

/// The code with this name.
pub(super) fn code<'a>(desk: &Desk<'a>, name: &str) -> Result<&'a Code, Missing> {
    let codes = &desk.library().codes;
    codes.code(name).ok_or_else(|| {
        let known = codes.codes.iter().map(|code| &*code.name);
        let near: Vec<Pointer> = nearest(&name.to_uppercase(), known).into_iter().map(|name| desk.code(name)).collect();
        let message = desk.reader.say_with("browse-no-code", &[("name", &cut(name))]);
        desk.missing(message, help(desk, &near), near)
    })
}

/// The edition of a code of this year.
pub(super) fn edition<'a>(desk: &Desk<'a>, code: &'a Code, year: &str) -> Result<&'a Edition, Missing> {
    let known = |year: &str| {
        let year = year.parse::<i32>().ok()?;
        let (_, id) = code.editions.iter().find(|(of, _)| *of == year)?;
        desk.library().codes.edition(*id)
    };
    known(year).ok_or_else(|| {
        let near: Vec<Pointer> = code.editions.iter().map(|(year, _)| desk.edition(&code.name, *year)).collect();
        let message = desk.reader.say_with("browse-no-edition", &[("code", &code.name), ("year", &cut(year))]);
        desk.missing(message, help(desk, &near), near)
    })
}

/// The issuer of these kinds whose whole path this is.
pub(super) fn issuer<'a>(
    desk: &Desk<'a>,
    path: &[&str],
    fits: impl Fn(IssuerKind) -> bool,
) -> Result<(PlaceId, &'a Issuer), Missing> {
    let places = &desk.library().places;
    let whole = path.join("/");
    let named = path.last().map(|last| places.named(last)).unwrap_or_default();
    let found = named.iter().find_map(|id| {
        let issuer = places.issuer(*id).filter(|issuer| fits(issuer.kind))?;
        (places.path_text(*id) == whole).then_some((*id, issuer))
    });
    found.ok_or_else(|| {
        let mut near: Vec<PlaceId> = Vec::new();
        if fits(IssuerKind::Place) {
            match places.find(&whole) {
                Ok(place) => near.push(place),
                Err(told) => {
                    near.extend(told.candidates.iter().chain(&told.nearest).filter_map(|name| places.find(name).ok()));
                }
            }
        }
        let others = places.all().filter(|(_, issuer)| issuer.kind != IssuerKind::Place && fits(issuer.kind));
        let others: Vec<(PlaceId, &str)> = others.map(|(id, issuer)| (id, &*issuer.name)).collect();
        let names = nearest(&whole, others.iter().map(|(_, name)| *name));
        near.extend(others.iter().filter(|(_, name)| names.contains(name)).map(|(id, _)| *id));
        let near: Vec<Pointer> = near.into_iter().map(|id| desk.issuer(id)).collect();
        let message = desk.reader.say_with("browse-no-place", &[("name", &cut(&whole))]);
        desk.missing(message, help(desk, &near), near)
    })
}

/// The instrument of an issuer with this id.
pub(super) fn instrument<'a>(
    desk: &Desk<'a>,
    path: &[&str],
    id: &str,
) -> Result<(InstrumentId, &'a Instrument), Missing> {
    let (issuer, about) = issuer(desk, path, |_| true)?;
    let library = desk.library();
    let all = || {
        let own = library.of_issuer(issuer).iter();
        own.filter_map(|number| Some((*number, library.instruments.get(number.0 as usize)?)))
    };
    all().find(|(_, own)| *own.id == *id).ok_or_else(|| {
        let close = nearest(id, all().map(|(_, own)| &*own.id));
        let near: Vec<Pointer> = if close.is_empty() {
            vec![desk.issuer(issuer)]
        } else {
            all().filter(|(_, own)| close.contains(&&*own.id)).map(|(_, own)| desk.instrument(own)).collect()
        };
        let parts = [("place", &*about.title), ("name", &cut(id))];
        desk.missing(desk.reader.say_with("browse-no-instrument", &parts), help(desk, &near), near)
    })
}

/// What to do about a name that is not known.
pub(super) fn help(desk: &Desk<'_>, near: &[Pointer]) -> String {
    if near.is_empty() { desk.reader.say("browse-nowhere-help") } else { desk.reader.say("browse-near-help") }
}
