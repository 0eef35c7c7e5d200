//! GR5105: a section is amended of which another code in force at the place has
//! taken over the text.

use super::story::{Story, Text, edition_name};
use crate::law::Line;
use crate::law::instrument::Target;
use crate::law::library::Library;
use crate::law::text::{EditionId, Lineage};
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::syntax::tree::{EditionName, Item, TextClause};

/// A section of an edition that is the published text of another code's.
pub(super) struct Extract {
    from: (EditionId, Lineage),
    edition: EditionId,
    number: Box<str>,
    at: Location,
}

/// Every extract, in every edition to which it was handed down unchanged.
pub(super) fn extracts(rules: &Rules) -> Vec<Extract> {
    let codes = &rules.library().codes;
    let named = |name: &EditionName| codes.find(&name.code.text, name.year.text.parse().ok()?);
    let mut found = Vec::new();
    for (file, tree) in rules.trees() {
        for item in &tree.items {
            let Item::Edition(edition) = item else { continue };
            let taken = edition.clauses.iter().filter_map(|clause| match clause {
                TextClause::Section(section) => Some((section.extract.as_ref()?, section.number.span)),
                TextClause::Patch(patch) => Some((patch.extract.as_ref()?, patch.number.span)),
                _ => None,
            });
            for ((name, number), span) in taken {
                let at = Location { file, span };
                let Some(source) = named(name) else { continue };
                let Some(printed) = codes.edition(source).and_then(|edition| edition.section(&number.text)) else {
                    continue;
                };
                for (heir, id) in codes.editions.iter().zip(0u32..) {
                    let copies = heir.sections.iter().filter(|copy| copy.section.at == at);
                    found.extend(copies.map(|copy| Extract {
                        from: (source, printed.lineage),
                        edition: EditionId(id),
                        number: copy.number.clone(),
                        at,
                    }));
                }
            }
        }
    }
    found
}

/// The patches of an instrument whose twin stands in an edition that is adopted on
/// the place's path and that nobody there amends in the same section.
pub(super) fn patches(library: &Library, story: &Story, extracts: &[Extract]) -> Vec<Diagnostic> {
    let Text::Edition(text) = story.text else { return Vec::new() };
    let mut found = Vec::new();
    for block in story.mine() {
        for (patch, lines) in block.amend.patches.iter().zip(&block.lines) {
            let twin = extracts.iter().find(|extract| {
                extract.from.0 == text
                    && lines.contains(&Line::Printed(extract.from.1))
                    && adopted(library, story, extract.edition)
                    && !amended(library, story, extract)
            });
            if let Some(twin) = twin {
                let name = edition_name(library, twin.edition);
                let message = format!(
                    "`{}` of {} is amended, and `{}` of {name}, which has the same text, is not",
                    patch.number,
                    story.name(library),
                    twin.number
                );
                found.push(
                    Diagnostic::new(codes::TWIN, patch.at, message)
                        .also(twin.at, "the text is taken over here")
                        .help(format!("amend {name} too if the change is meant for both; if not, nothing is needed")),
                );
            }
        }
    }
    found
}

fn adopted(library: &Library, story: &Story, edition: EditionId) -> bool {
    let path = library.places.path(story.own.issuer);
    let mut instruments = path.iter().flat_map(|place| library.of_issuer(*place));
    instruments.any(|id| {
        let own = library.instruments.get(id.0 as usize);
        own.is_some_and(|own| own.is_law() && own.adoptions.iter().any(|adoption| adoption.edition == edition))
    })
}

fn amended(library: &Library, story: &Story, extract: &Extract) -> bool {
    let path = library.places.path(story.own.issuer);
    let mut instruments = path.iter().flat_map(|place| library.of_issuer(*place));
    let code = library.codes.edition(extract.edition).map(|edition| edition.code);
    instruments.any(|id| {
        let amends = library.instruments.get(id.0 as usize).map(|own| own.amends.as_slice()).unwrap_or_default();
        amends.iter().any(|amend| {
            let same = match &amend.target {
                Target::Edition(id) => *id == extract.edition,
                Target::Any { code: of, .. } => Some(*of) == code,
                Target::Instrument(_) => false,
            };
            same && amend.patches.iter().any(|patch| patch.number == extract.number)
        })
    })
}
