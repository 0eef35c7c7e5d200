//! Where a word is declared.

use super::mentions::{at, mentions};
use super::requests::Answer;
use super::things::{Mention, Thing};
use super::view::View;
use crate::syntax::diagnostic::Location;
use crate::syntax::tree::Item;
use lsp_types::{GotoDefinitionParams, GotoDefinitionResponse};

/// The place at which what stands under the cursor is declared; for a section the
/// text that the edition named there prints.
pub(super) fn define(view: &View, asked: GotoDefinitionParams) -> Answer<Option<GotoDefinitionResponse>> {
    let asked = asked.text_document_position_params;
    let Some(spot) = view.spot(&asked.text_document.uri, asked.position) else { return Ok(None) };
    let Some(mention) = at(view, spot) else { return Ok(None) };
    let place = declaration(view, &mention).and_then(|at| view.place(at));
    Ok(place.map(GotoDefinitionResponse::Scalar))
}

/// Where what is mentioned is declared.
pub(super) fn declaration(view: &View, mention: &Mention) -> Option<Location> {
    view.declared(mention).or_else(|| {
        let name = view.called(mention)?;
        let mut found = None;
        for (file, tree) in view.rules.trees() {
            let may = tree.items.iter().any(|item| {
                matches!(
                    (&mention.thing, item),
                    (Thing::Definition(_), Item::Definition(_)) | (Thing::Rung(..), Item::Question(_))
                )
            });
            if may {
                mentions(view, file, &|word| word == name, &mut |other| {
                    if other.declares && other.thing == mention.thing {
                        found = found.or(Some(other.at));
                    }
                });
            }
        }
        found
    })
}
