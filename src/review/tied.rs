//! GR5106: two adoptions of one place that begin on one day: both bind.

use super::overlap::meet;
use super::story::edition_name;
use super::times::Times;
use crate::law::instrument::{Adoption, Instrument, InstrumentId};
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use std::collections::HashMap;

/// The ties between adoptions of different instruments of one place: the same
/// day, a subject in common, scopes that can meet, and different editions.
pub(super) fn adoptions(library: &Library, times: &Times) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let mut groups: HashMap<_, Vec<(InstrumentId, &Instrument)>> = HashMap::new();
    for (own, number) in library.instruments.iter().zip(0u32..) {
        if own.is_law() && own.first_day().is_some() && !own.adoptions.is_empty() {
            groups.entry((own.issuer, own.rank())).or_default().push((InstrumentId(number), own));
        }
    }
    for group in groups.values().filter(|group| group.len() > 1) {
        for (at, (id, own)) in group.iter().enumerate() {
            for (other_id, other) in group.iter().take(at) {
                let day = own.first_day();
                if times.may_be_over(*id, day) || times.may_be_over(*other_id, day) {
                    continue;
                }
                for adoption in &own.adoptions {
                    let tie = other.adoptions.iter().find(|theirs| tied(library, (own, adoption), (other, theirs)));
                    if let Some(theirs) = tie {
                        let message = format!(
                            "{} by `{}` and {} by `{}` are adopted on the same day, and both bind",
                            edition_name(library, theirs.edition),
                            other.id,
                            edition_name(library, adoption.edition),
                            own.id
                        );
                        found.push(
                            Diagnostic::new(codes::TIED_ADOPTIONS, adoption.at, message)
                                .also(theirs.at, "the other adoption stands here")
                                .help("give `adopted` days that differ, or scopes that do not meet"),
                        );
                    }
                }
            }
        }
    }
    found
}

fn tied(library: &Library, (own, one): (&Instrument, &Adoption), (other, two): (&Instrument, &Adoption)) -> bool {
    let beside = |adoption: &Adoption, of: &Adoption| {
        let code = library.codes.edition(of.edition).and_then(|edition| library.codes.code_of(edition));
        code.is_some_and(|code| adoption.beside.contains(&code.name))
    };
    let conditions: Vec<_> = own.applies.iter().chain(&other.applies).chain([&one.scope, &two.scope]).collect();
    one.edition != two.edition
        && one.from.is_none()
        && two.from.is_none()
        && one.subjects.iter().any(|subject| two.subjects.contains(subject))
        && !beside(one, two)
        && !beside(two, one)
        && meet(library, &conditions) == Some(true)
}
