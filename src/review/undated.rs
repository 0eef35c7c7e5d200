//! GR5112: `newest` passes over an edition that does not say when it was published.

use super::story::edition_name;
use crate::law::instrument::{Adoption, Instrument};
use crate::law::library::Library;
use crate::law::text::{Code, EditionId};
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::values::Date;

/// The adoptions of the newest edition that would differ if some edition of the
/// code said its day: no later one was published by the first day of the law.
pub(super) fn editions(library: &Library) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for own in &library.instruments {
        // Only what follows the editions as they are published has a time within the instrument's.
        for adoption in own.adoptions.iter().filter(|adoption| adoption.from.is_some()) {
            let Some(code) = library.codes.edition(adoption.edition).and_then(|edition| library.codes.code_of(edition))
            else {
                continue;
            };
            let undated: Vec<EditionId> = undated(library, own, code);
            if undated.is_empty() || !first(library, own, adoption) {
                continue;
            }
            let names: Vec<String> = undated.iter().map(|id| edition_name(library, *id)).collect();
            let message = format!(
                "`{}` adopts the newest {}, and of {} it is not said when it was published",
                own.id,
                code.name,
                names.join(", ")
            );
            let mut told = Diagnostic::new(codes::UNDATED, adoption.at, message)
                .help("write `published` and the day in each edition: one without a day is never the newest");
            for edition in undated.iter().filter_map(|id| library.codes.edition(*id)) {
                told = told.also(edition.at, "this edition has no day");
            }
            found.push(told);
        }
    }
    found
}

/// Whether an adoption is the first of those that one line makes.
fn first(library: &Library, own: &Instrument, adoption: &Adoption) -> bool {
    let code = |one: &Adoption| library.codes.edition(one.edition).map(|edition| edition.code);
    let mut same = own.adoptions.iter().filter(|one| one.at == adoption.at && code(one) == code(adoption));
    same.next().is_some_and(|one| one.edition == adoption.edition)
}

/// The editions without a day that may have been the newest at some time of the
/// instrument.
fn undated(library: &Library, own: &Instrument, code: &Code) -> Vec<EditionId> {
    let day = |id: EditionId| -> Option<Date> { library.codes.edition(id)?.published };
    let start = own.first_day();
    let outdone = |year: i32| {
        code.editions
            .iter()
            .any(|(other, id)| *other > year && day(*id).is_some_and(|day| start.is_some_and(|start| day <= start)))
    };
    let open = code.editions.iter().filter(|(year, id)| day(*id).is_none() && !outdone(*year));
    open.map(|(_, id)| *id).collect()
}
