//! GR5108: amendments of an edition that stay when the place adopts it again.

use super::story::edition_name;
use super::times::Times;
use crate::law::instrument::{InstrumentId, Target};
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;

/// The adoptions of an edition that the same place has adopted and amended before
/// and whose amendments nobody has repealed by then.
pub(super) fn amendments(library: &Library, times: &Times) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for own in library.instruments.iter().filter(|own| own.is_law()) {
        for adoption in own.adoptions.iter().filter(|adoption| adoption.from.is_none()) {
            let before = library.of_issuer(own.issuer).iter().filter_map(|id: &InstrumentId| {
                let other = library.instruments.get(id.0 as usize)?;
                let earlier = other.is_law() && other.rank() < own.rank();
                (earlier && !times.may_be_over(*id, own.first_day())).then_some(other)
            });
            let before: Vec<_> = before.collect();
            let again = before.iter().any(|other| other.adoptions.iter().any(|old| old.edition == adoption.edition));
            if !again {
                continue;
            }
            for other in before {
                let amend = other.amends.iter().find(|amend| amend.target == Target::Edition(adoption.edition));
                let Some(amend) = amend else { continue };
                let name = edition_name(library, adoption.edition);
                let message = format!("{name} is adopted again, and the amendments of `{}` to it stay", other.id);
                found.push(
                    Diagnostic::new(codes::AMENDMENTS_STAY, adoption.at, message)
                        .also(amend.at, "these amendments stay")
                        .help(format!(
                            "write `repeals {}` if they are to end; if they are to stay, say `knowingly GR5108` and why",
                            other.id
                        )),
                );
            }
        }
    }
    found
}
