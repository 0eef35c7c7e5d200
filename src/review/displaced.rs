//! GR5107: an adoption that displaces another code's subjects by the way, as a
//! residential code with a chapter on wiring does with an electrical code.

use super::overlap::meet;
use super::story::edition_name;
use super::times::Times;
use crate::law::instrument::{Adoption, Instrument, InstrumentId};
use crate::law::library::Library;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::syntax::tree::{Clause, Item};
use std::collections::HashSet;

/// The adoptions of a code of several subjects, without `for`, that supersede an
/// adoption of a narrower code which `beside` does not name.
pub(super) fn adoptions(rules: &Rules, times: &Times) -> Vec<Diagnostic> {
    let library = rules.library();
    let chosen = with_subjects(rules);
    let mut found = Vec::new();
    for (own, number) in library.instruments.iter().zip(0u32..) {
        if !own.is_law() || times.may_be_over(InstrumentId(number), own.first_day()) {
            continue;
        }
        for adoption in own.adoptions.iter().filter(|adoption| !chosen.contains(&adoption.at)) {
            found.extend(one(library, times, own, adoption));
        }
    }
    found
}

/// The adoptions that say `for SUBJECT`.
fn with_subjects(rules: &Rules) -> HashSet<Location> {
    let mut found = HashSet::new();
    for (file, tree) in rules.trees() {
        for item in &tree.items {
            let Item::Instrument(instrument) = item else { continue };
            for clause in &instrument.clauses {
                if let Clause::Adopts(adopts) = clause
                    && !adopts.subjects.is_empty()
                {
                    found.insert(Location { file, span: adopts.span });
                }
            }
        }
    }
    found
}

fn one(library: &Library, times: &Times, own: &Instrument, adoption: &Adoption) -> Option<Diagnostic> {
    let codes_of = |adoption: &Adoption| {
        library.codes.edition(adoption.edition).and_then(|edition| library.codes.code_of(edition))
    };
    let code = codes_of(adoption)?;
    for place in library.places.path(own.issuer) {
        for id in library.of_issuer(place) {
            let Some(other) = library.instruments.get(id.0 as usize) else { continue };
            let earlier = place != own.issuer || other.rank() < own.rank();
            let standing = other.is_law() && earlier && !times.may_be_over(*id, own.first_day());
            if !standing || other.at == own.at {
                continue;
            }
            for theirs in &other.adoptions {
                let Some(displaced) = codes_of(theirs).filter(|displaced| displaced.name != code.name) else {
                    continue;
                };
                let shared = adoption.subjects.iter().find(|subject| theirs.subjects.contains(subject));
                let Some(shared) = shared.and_then(|subject| library.glossary.subjects.get(usize::from(subject.0)))
                else {
                    continue;
                };
                let whole = adoption.subjects.iter().all(|subject| displaced.subjects.contains(subject));
                let conditions: Vec<_> =
                    own.applies.iter().chain(&other.applies).chain([&adoption.scope, &theirs.scope]).collect();
                if whole || adoption.beside.contains(&displaced.name) || meet(library, &conditions) != Some(true) {
                    continue;
                }
                let message = format!(
                    "with {} the place also displaces {} on `{}`, which `{}` adopts",
                    edition_name(library, adoption.edition),
                    edition_name(library, theirs.edition),
                    shared.name,
                    other.id
                );
                let help = format!(
                    "write `for` and the subjects that are meant, or `beside {}` if both are to bind",
                    displaced.name
                );
                return Some(
                    Diagnostic::new(codes::DISPLACED, adoption.at, message)
                        .also(theirs.at, "the adoption that is displaced stands here")
                        .help(help),
                );
            }
        }
    }
    None
}
