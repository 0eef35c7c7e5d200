//! GR5204 of whole blocks: amendments of an edition that is in force for no job, at
//! their place or within it.

use super::site::Site;
use crate::glossary::Territory;
use crate::law::instrument::{Instrument, Target};
use crate::law::text::EditionId;
use crate::review::story::edition_name;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::verdict::TooMany;
use crate::verdict::survey::Window;

/// What is told of each block, and where the texts of its patches stand, of which
/// nothing more is to be told.
pub(super) fn blocks(rules: &Rules, own: &dyn Fn(FileId) -> bool) -> Vec<(Diagnostic, Vec<Location>)> {
    let library = rules.library();
    let mut found = Vec::new();
    for instrument in library.instruments.iter().filter(|one| one.is_law() && own(one.at.file)) {
        for amend in &instrument.amends {
            let Target::Edition(edition) = amend.target else { continue };
            // What could not be decided is told of the texts themselves.
            if stands_somewhere(rules, instrument, edition).unwrap_or(true) {
                continue;
            }
            let name = edition_name(library, edition);
            let place = library.places.issuer(instrument.issuer).map_or("", |issuer| &issuer.title);
            let message = format!("{} amends {name}, and that is in force for no job at {place}", instrument.id);
            let told = Diagnostic::new(codes::DEAD, amend.at, message)
                .help("look whether the place adopts this edition, and whether its year is right");
            found.push((told, amend.patches.iter().map(|patch| patch.section.at).collect()));
        }
    }
    found
}

/// Whether an edition is in force for some job at the place of an instrument or at a
/// place within, on whatever day.
fn stands_somewhere(rules: &Rules, instrument: &Instrument, edition: EditionId) -> Result<bool, TooMany> {
    let library = rules.library();
    let Some(about) = library.codes.edition(edition) else { return Ok(true) };
    let code = library.codes.code_of(about).map_or("", |code| &*code.name);
    let adopters = library
        .instruments
        .iter()
        .filter(|one| one.is_law() && one.adoptions.iter().any(|adoption| adoption.edition == edition))
        .map(|one| one.issuer);
    let mut places = vec![instrument.issuer];
    places.extend(adopters.filter(|place| library.places.within(*place, instrument.issuer)));
    for place in places {
        let Ok(site) = Site::new(rules, place, Window::default()) else { return Ok(true) };
        let mine = site.law().codes.iter().filter(|one| *one.code == *code && one.edition == about.year);
        if site.some_job(mine.map(|one| one.reach))? {
            return Ok(true);
        }
    }
    Ok(false)
}
