//! GR5209: adoptions that are never in force: superseded, repealed or taken away
//! for every job.

use super::site::Site;
use crate::job::model::Given;
use crate::law::instrument::{Adoption, Instrument};
use crate::review::story::edition_name;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::verdict::TooMany;
use crate::verdict::survey::Window;

/// The adoptions of given files by a place that never stand there, on any day up to
/// the end of the window: what was in force once has had its time.
pub(super) fn adoptions(site: &Site<'_>, own: &dyn Fn(FileId) -> bool) -> (Vec<Diagnostic>, bool) {
    let rules = site.rules;
    let library = rules.library();
    let mut told = Vec::new();
    let mut undecided = false;
    let window = Window { from: None, ..site.window };
    let Ok(site) = Site::new(rules, site.place, window) else { return (told, false) };
    let instruments = library.of_issuer(site.place).iter().filter_map(|id| library.instruments.get(id.0 as usize));
    for instrument in instruments.filter(|one| one.is_law() && own(one.at.file)) {
        if window.through.is_some_and(|day| instrument.first_day() > Some(day)) {
            continue;
        }
        let mut lines: Vec<&Adoption> = Vec::new();
        for adoption in &instrument.adoptions {
            // What follows the newest edition stands for several, of which some have no time.
            if adoption.from.is_none() && !lines.iter().any(|line| line.edition == adoption.edition) {
                lines.push(adoption);
            }
        }
        for adoption in lines {
            let name = edition_name(library, adoption.edition);
            match stands(&site, instrument, adoption) {
                Ok(true) => {}
                Err(TooMany) => undecided = true,
                Ok(false) => {
                    let message =
                        format!("{} of {} adopts {name}, and that is in force for no job", instrument.id, site.title());
                    let help = why(&site, instrument, adoption);
                    told.push(
                        Diagnostic::new(codes::NEVER_STANDS, adoption.at, message)
                            .help(help)
                            .shown_by(shown(&site, instrument, &name)),
                    );
                }
            }
        }
    }
    (told, undecided)
}

/// Whether an edition adopted by an instrument stands for some job on some subject.
fn stands(site: &Site<'_>, instrument: &Instrument, adoption: &Adoption) -> Result<bool, TooMany> {
    let codes = &site.rules.library().codes;
    let Some(edition) = codes.edition(adoption.edition) else { return Ok(true) };
    let code = codes.code_of(edition).map_or("", |code| &*code.name);
    let of_instrument = site.law().codes.iter().filter(|one| *one.by == *instrument.id);
    let mine = of_instrument.filter(|one| *one.code == *code && one.edition == edition.year);
    site.some_job(mine.map(|one| one.reach))
}

/// What stands in its way, as far as the instruments of the place show it.
fn why(site: &Site<'_>, instrument: &Instrument, adoption: &Adoption) -> String {
    let library = site.rules.library();
    let all: Vec<&Instrument> = library
        .places
        .path(site.place)
        .iter()
        .flat_map(|place| library.of_issuer(*place))
        .filter_map(|id| library.instruments.get(id.0 as usize))
        .filter(|one| one.is_law() && !std::ptr::eq(*one, instrument))
        .collect();
    let own = library.instruments.iter().position(|one| std::ptr::eq(one, instrument));
    let ender = all.iter().find(|one| one.ends.iter().any(|ends| Some(ends.target.0 as usize) == own));
    if let Some(by) = ender {
        return format!("`{}` ends it before it binds any job; look at the days of both", by.id);
    }
    let later = all.iter().find(|one| {
        one.issuer == instrument.issuer
            && one.rank() > instrument.rank()
            && one.first_day() <= instrument.first_day()
            && one
                .adoptions
                .iter()
                .any(|other| other.subjects.iter().any(|subject| adoption.subjects.contains(subject)))
    });
    match later {
        Some(by) => format!("`{}` supersedes it from the first day on; look at the days of both", by.id),
        None => "look at its days and its scope, and at what supersedes or ends it".to_owned(),
    }
}

/// A job of its first day, and what comes out.
fn shown(site: &Site<'_>, instrument: &Instrument, name: &str) -> Option<String> {
    let mut job = site.ground.matter().job.clone();
    let by = instrument.force?.by;
    let day = instrument.first_day()?;
    if let Some(slot) = job.values.get_mut(usize::from(by.0)) {
        *slot = Given::Date(day);
    }
    site.example(&job, &format!("{name} on its first day"), &[])
}
