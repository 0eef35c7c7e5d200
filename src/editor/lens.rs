//! The lens over each amendment: how many kinds of job it changes.
//!
//! To find the amendments of a file is quick and done at once; what one of them
//! changes is worked out when its lens comes into sight, beside the talk.

use super::mentions::at;
use super::requests::{Answer, Refusal};
use super::things::Thing;
use super::view::{Spot, View};
use crate::law::instrument::Instrument;
use crate::report::effect::grouped;
use crate::review::effect::{Bench, Joint, Side};
use crate::syntax::diagnostic::Location;
use crate::syntax::tree::{Clause, Item};
use crate::verdict::survey::Window;
use lsp_types::{CodeLens, CodeLensOptions, CodeLensParams, Command, Position, Uri};
use serde::{Deserialize, Serialize};

/// What the editor is told of lenses.
pub(super) fn options() -> CodeLensOptions {
    CodeLensOptions { resolve_provider: Some(true) }
}

/// The name under which an editor may show the whole effect of an amendment: of an
/// instrument's id and the path of its issuer.
const SHOW: &str = "groundrule.showEffect";

/// Of which amendment a lens is.
#[derive(Debug, Serialize, Deserialize)]
struct Of {
    uri: Uri,
    /// Where the id of its instrument stands, and where it begins itself.
    instrument: Position,
    amendment: Position,
}

/// A lens over each amendment of a file, not yet worked out.
pub(super) fn lenses(view: &View, asked: CodeLensParams) -> Answer<Option<Vec<CodeLens>>> {
    let uri = asked.text_document.uri;
    let Some((_, tree, document)) = view.file(&uri) else { return Ok(None) };
    let mut found = Vec::new();
    for item in &tree.items {
        let Item::Instrument(instrument) = item else { continue };
        let amends = instrument.clauses.iter().filter_map(|clause| match clause {
            Clause::Amend(amend) => Some(amend),
            _ => None,
        });
        for amend in amends {
            let place = |start: u32| document.position(start as usize);
            let (instrument, amendment) = (place(instrument.id.span.start), place(amend.span.start));
            let of = Of { uri: uri.clone(), instrument, amendment };
            found.push(CodeLens {
                range: document.range(amend.span),
                command: None,
                data: serde_json::to_value(of).ok(),
            });
        }
    }
    Ok(Some(found))
}

/// A lens with what its amendment changes.
pub(super) fn resolve(view: &View, mut lens: CodeLens) -> Answer<CodeLens> {
    let unknown = || Refusal("the lens is not one of this file's".to_owned());
    let of: Of = lens.data.clone().and_then(|data| serde_json::from_value(data).ok()).ok_or_else(unknown)?;
    let spot: Spot<'_> = view.spot(&of.uri, of.instrument).ok_or_else(unknown)?;
    let Some(Thing::Instrument(id)) = at(view, spot).map(|mention| mention.thing) else { return Err(unknown()) };
    let own = view.instrument(id).ok_or_else(unknown)?;
    let start = spot.document.offset(of.amendment);
    let amend = own.amends.iter().find(|amend| amend.at.span.start as usize == start).ok_or_else(unknown)?;
    let title = match kinds_changed(view, own, amend.at) {
        Some((0, _)) => "changes no kind of job".to_owned(),
        Some((changed, all)) => {
            format!("changes {} of {} kinds of job", grouped(changed), grouped(all))
        }
        None => return Err(Refusal("what it changes could not be worked out".to_owned())),
    };
    let place = view.rules.library().places.path_text(own.issuer);
    let arguments = Some(vec![own.id.to_string().into(), place.into()]);
    lens.command = Some(Command { title, command: SHOW.to_owned(), arguments });
    Ok(lens)
}

/// How many kinds of job at the place of its issuer an amendment changes, and out of how
/// many; nothing where that is beyond the bound.
fn kinds_changed(view: &View, own: &Instrument, amendment: Location) -> Option<(u128, u128)> {
    let mut tree = view.rules.tree(amendment.file)?.clone();
    for item in &mut tree.items {
        if let Item::Instrument(instrument) = item {
            instrument.clauses.retain(|clause| !matches!(clause, Clause::Amend(amend) if amend.span == amendment.span));
        }
    }
    let without = view.rules.with_tree(amendment.file, tree)?;
    let side = |rules| Side { rules, place: own.issuer, on: None };
    let joint = Joint::new(side(&without), side(&view.rules)).ok()?;
    Bench::new(&joint).effect(Window::default()).kinds
}
