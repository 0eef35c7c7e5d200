//! GR5105: a section is amended of which another code in force at the place has
//! taken over the text.

use super::defeated::always;
use super::story::{Story, Text, edition_name};
use super::times::Times;
use crate::law::Line;
use crate::law::instrument::{Adoption, Instrument, InstrumentId, Target};
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
pub(super) fn patches(library: &Library, times: &Times, story: &Story, extracts: &[Extract]) -> Vec<Diagnostic> {
    let Text::Edition(text) = story.text else { return Vec::new() };
    let mut found = Vec::new();
    for block in story.mine() {
        for (patch, lines) in block.amend.patches.iter().zip(&block.lines) {
            let twin = extracts.iter().find(|extract| {
                extract.from.0 == text
                    && lines.contains(&Line::Printed(extract.from.1))
                    && adopted(library, times, story, extract)
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
                    Diagnostic::new(codes::TWIN, patch.at, message).also(twin.at, "the text is taken over here").help(
                        format!(
                            "amend {name} too if the change is meant for both; if not, say `knowingly GR5105` and why"
                        ),
                    ),
                );
            }
        }
    }
    found
}

/// Whether the edition of an extract is adopted on the path for a subject of its
/// section, and no adoption displaces it there for good by the day of the story.
fn adopted(library: &Library, times: &Times, story: &Story, extract: &Extract) -> bool {
    let Some(edition) = library.codes.edition(extract.edition) else { return false };
    let governs = library.codes.code_of(edition).map(|code| code.subjects.as_slice()).unwrap_or_default();
    let questions = edition.section(&extract.number).map(|printed| printed.section.questions()).unwrap_or_default();
    let subjects = questions.into_iter().map(|question| library.glossary[question].subject);
    let adoptions = adoptions(library, story);
    subjects.filter(|subject| governs.contains(subject)).any(|subject| {
        let on_it = |of: &&Adopted| of.adoption.subjects.contains(&subject);
        adoptions.iter().filter(on_it).filter(|of| of.adoption.edition == extract.edition).any(|of| {
            !adoptions.iter().filter(on_it).any(|other| {
                other.id != of.id
                    && (other.depth > of.depth || (other.depth == of.depth && other.own.rank() > of.own.rank()))
                    && always(&other.adoption.scope)
                    && other.own.first_day() <= story.own.first_day()
                    && times.for_good(other.id)
            })
        })
    })
}

/// An adoption on the path of an instrument.
struct Adopted<'l> {
    id: InstrumentId,
    own: &'l Instrument,
    adoption: &'l Adoption,
    /// How many places lie around its own.
    depth: usize,
}

fn adoptions<'l>(library: &'l Library, story: &Story) -> Vec<Adopted<'l>> {
    let mut found = Vec::new();
    for (depth, place) in library.places.path(story.own.issuer).into_iter().enumerate() {
        for id in library.of_issuer(place) {
            let Some(own) = library.instruments.get(id.0 as usize).filter(|own| own.is_law()) else { continue };
            found.extend(own.adoptions.iter().map(|adoption| Adopted { id: *id, own, adoption, depth }));
        }
    }
    found
}

fn amended(library: &Library, story: &Story, extract: &Extract) -> bool {
    let path = library.places.path(story.own.issuer);
    let mut instruments = path.iter().flat_map(|place| library.of_issuer(*place));
    let edition = library.codes.edition(extract.edition);
    let code = edition.map(|edition| edition.code);
    let lineage = edition.and_then(|edition| edition.section(&extract.number)).map(|printed| printed.lineage);
    // A patch of any edition names a section by its number in one of them.
    let named = |numbered: &EditionId, number: &str| {
        library.codes.edition(*numbered).and_then(|edition| edition.section(number)).map(|printed| printed.lineage)
    };
    instruments.any(|id| {
        let amends = library.instruments.get(id.0 as usize).map(|own| own.amends.as_slice()).unwrap_or_default();
        amends.iter().any(|amend| {
            let (same, numbered) = match &amend.target {
                Target::Edition(id) => (*id == extract.edition, None),
                Target::Any { code: of, numbered, .. } => (Some(*of) == code, Some(numbered)),
                Target::Instrument(_) => (false, None),
            };
            let carried =
                |number: &str| lineage.is_some() && numbered.is_some_and(|numbered| named(numbered, number) == lineage);
            same && amend.patches.iter().any(|patch| patch.number == extract.number || carried(&patch.number))
        })
    })
}
