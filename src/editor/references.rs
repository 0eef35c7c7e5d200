//! Every place in which what stands under the cursor is named: of a section also
//! the patches, readings, suspensions and expectations that mean it, under whatever
//! number it had on their day.

use super::mentions::{at, mentions};
use super::requests::Answer;
use super::things::{Mention, Part, Thing};
use super::view::View;
use crate::syntax::diagnostic::Location;
use lsp_types::ReferenceParams;
use std::collections::BTreeSet;

/// The places, in the order of files and lines.
pub(super) fn find(view: &View, asked: ReferenceParams) -> Answer<Option<Vec<lsp_types::Location>>> {
    let position = asked.text_document_position;
    let Some(spot) = view.spot(&position.text_document.uri, position.position) else { return Ok(None) };
    let Some(mention) = at(view, spot) else { return Ok(None) };
    let all = everywhere(view, &mention);
    let wanted = all.iter().filter(|(_, declares)| asked.context.include_declaration || !*declares);
    let mut found: Vec<lsp_types::Location> = wanted.filter_map(|(at, _)| view.place(*at)).collect();
    found.sort_by(|one, other| (&one.uri, one.range.start).cmp(&(&other.uri, other.range.start)));
    Ok(Some(found))
}

/// Every mention of a thing, each with whether it declares it.
pub(super) fn everywhere(view: &View, mention: &Mention) -> BTreeSet<(Location, bool)> {
    let words = words(view, mention);
    let mut found = BTreeSet::new();
    for (file, _) in view.trees() {
        mentions(view, file, &|word| words.contains(word), &mut |other| {
            if other.thing == mention.thing {
                found.insert((other.at, other.declares));
            }
        });
    }
    found
}

/// The words by which a thing may be named.
fn words(view: &View, mention: &Mention) -> BTreeSet<Box<str>> {
    let library = view.rules.library();
    let mut words: BTreeSet<Box<str>> = view.called(mention).into_iter().map(Into::into).collect();
    match &mention.thing {
        Thing::Edition(id) => {
            words.extend(library.codes.edition(*id).map(|edition| edition.year.to_string().into()));
        }
        Thing::Section(Part::Printed(lineage)) => {
            let printed = library.codes.editions.iter().filter_map(|edition| edition.by_lineage(*lineage));
            words.extend(printed.map(|printed| printed.number.clone()));
            renumbered(view, &mut words);
        }
        Thing::Section(_) => renumbered(view, &mut words),
        _ => {}
    }
    words
}

/// The numbers to which amendments move sections of these numbers.
fn renumbered(view: &View, words: &mut BTreeSet<Box<str>>) {
    let amends = || view.rules.library().instruments.iter().flat_map(|own| &own.amends);
    let moves: Vec<&(Box<str>, Box<str>)> = amends().flat_map(|amend| &amend.renumbers).collect();
    loop {
        let new: Vec<Box<str>> = moves
            .iter()
            .flat_map(|pair| {
                words
                    .iter()
                    .filter_map(|word| crate::law::resolve::codes::renumbered(word, std::slice::from_ref(*pair)))
            })
            .filter(|word| !words.contains(word))
            .collect();
        // A circle of numbers ends by itself, a growing one after a while.
        if new.is_empty() || words.len() > 1000 {
            return;
        }
        words.extend(new);
    }
}
