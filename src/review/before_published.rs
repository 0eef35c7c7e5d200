//! GR5109: an edition that is adopted before it was published.

use super::story::edition_name;
use super::times::latest_start;
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;

/// The adoptions whose instrument is in force, or was adopted, before the edition
/// was published.
pub(super) fn adoptions(library: &Library) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for own in &library.instruments {
        for adoption in own.adoptions.iter().filter(|adoption| adoption.from.is_none()) {
            let Some(edition) = library.codes.edition(adoption.edition) else { continue };
            let Some(published) = edition.published else { continue };
            let days =
                [latest_start(own).map(|day| (day, "in force from")), own.adopted.map(|day| (day, "adopted on"))];
            let early = days.into_iter().flatten().find(|(day, _)| *day < published);
            if let Some((day, how)) = early {
                let name = edition_name(library, adoption.edition);
                let message = format!("`{}` is {how} {day} and adopts {name}, published on {published}", own.id);
                found.push(
                    Diagnostic::new(codes::BEFORE_PUBLISHED, adoption.at, message)
                        .also(edition.at, "the edition says when it was published")
                        .help("look at the year of the edition and at both days"),
                );
            }
        }
    }
    found
}
