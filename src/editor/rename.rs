//! Another name for a term, a fact, a question, a definition, a place or an
//! instrument, everywhere it stands.
//!
//! What ships with the program keeps its names, and a name that is taken or that the
//! language keeps for itself is refused, with the reason.

use super::mentions::at;
use super::references::everywhere;
use super::requests::{Answer, Refusal};
use super::things::{Mention, Thing};
use super::view::View;
use crate::glossary::model::Order;
use crate::syntax::limits::NAME;
use crate::syntax::words;
use lsp_types::{PrepareRenameResponse, RenameParams, TextDocumentPositionParams, TextEdit, Uri, WorkspaceEdit};
use std::collections::HashMap;

/// The word that would be renamed.
pub(super) fn prepare(view: &View, asked: TextDocumentPositionParams) -> Answer<Option<PrepareRenameResponse>> {
    let Some(spot) = view.spot(&asked.text_document.uri, asked.position) else { return Ok(None) };
    let mention = at(view, spot).ok_or_else(|| Refusal("no name stands here that could be changed".to_owned()))?;
    let name = changeable(view, &mention)?;
    let span = last_part(view, &mention, &name).ok_or_else(|| written_otherwise(&name))?;
    Ok(Some(PrepareRenameResponse::RangeWithPlaceholder { range: spot.document.range(span), placeholder: name }))
}

/// The changes that give the thing its new name.
#[expect(clippy::mutable_key_type, reason = "the protocol has a map of addresses, of which none is changed")]
pub(super) fn rename(view: &View, asked: RenameParams) -> Answer<Option<WorkspaceEdit>> {
    let position = asked.text_document_position;
    let Some(spot) = view.spot(&position.text_document.uri, position.position) else { return Ok(None) };
    let mention = at(view, spot).ok_or_else(|| Refusal("no name stands here that could be changed".to_owned()))?;
    let name = changeable(view, &mention)?;
    let new = asked.new_name.trim();
    if new == name {
        return Ok(Some(WorkspaceEdit::default()));
    }
    well_formed(&mention.thing, new)?;
    free(view, &mention, new)?;
    let mut changes: HashMap<Uri, Vec<TextEdit>> = HashMap::new();
    for (at, _) in everywhere(view, &mention) {
        let found = Mention { at, thing: mention.thing.clone(), declares: false, edition: mention.edition };
        // A printed name is a name of its own, and stays.
        let Some(span) = last_part(view, &found, &name) else { continue };
        let Some(face) = view.face(at.file).filter(|face| face.own) else {
            return Err(Refusal(format!(
                "`{name}` is also named in `{}`, which is not in the editor's folders",
                view.name(at.file)
            )));
        };
        let edit = TextEdit { range: face.document.range(span), new_text: new.to_owned() };
        for uri in view.copies(at.file) {
            changes.entry(uri).or_default().push(edit.clone());
        }
    }
    for edits in changes.values_mut() {
        edits.sort_by_key(|edit| edit.range.start);
        edits.dedup();
    }
    Ok(Some(WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() }))
}

/// The name of a thing that may have another.
fn changeable(view: &View, mention: &Mention) -> Result<String, Refusal> {
    match mention.thing {
        Thing::Choice(_)
        | Thing::Term(..)
        | Thing::Field(_)
        | Thing::Group(_)
        | Thing::Question(_)
        | Thing::Rung(..)
        | Thing::Definition(_)
        | Thing::Issuer(_)
        | Thing::Instrument(_) => {}
        Thing::Subject(_) | Thing::Code(_) | Thing::Edition(_) | Thing::Section(_) => {
            return Err(Refusal(format!(
                "a {} is not renamed: its name is that of the printed text",
                mention.thing.kind()
            )));
        }
    }
    let name = view.called(mention).ok_or_else(|| Refusal("no name stands here that could be changed".to_owned()))?;
    let declared = super::definition::declaration(view, mention);
    let at = declared.ok_or_else(|| Refusal(format!("it is not found where `{name}` is declared")))?;
    if view.is_shipped(at.file) {
        return Err(Refusal(format!("`{name}` ships with the program and keeps its name")));
    }
    Ok(name)
}

/// The part of a mention that is the name: the last of a path.
fn last_part(view: &View, mention: &Mention, name: &str) -> Option<crate::syntax::tree::Span> {
    let written = view.written(mention.at);
    let rest = written.strip_suffix(name)?;
    let whole = rest.is_empty() || rest.ends_with('/');
    whole
        .then(|| crate::syntax::tree::Span { start: mention.at.span.end - name.len() as u32, end: mention.at.span.end })
}

fn written_otherwise(name: &str) -> Refusal {
    Refusal(format!("here `{name}` is called by its printed name, which stands where it is declared"))
}

/// Whether a text can be the name of such a thing.
fn well_formed(thing: &Thing, new: &str) -> Result<(), Refusal> {
    if words::is_reserved(new) {
        return Err(Refusal(format!("`{new}` is a word of the language and cannot be a name")));
    }
    if new.chars().count() > NAME.most {
        return Err(Refusal(format!("a name has {} letters at most", NAME.most)));
    }
    let inside = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    let run = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'.' | b'-' | b'/');
    let bytes = new.as_bytes();
    let first = bytes.first().copied().unwrap_or_default();
    let (fits, form) = match thing {
        Thing::Term(..) | Thing::Rung(..) => (
            first.is_ascii_alphabetic()
                && bytes.iter().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_')),
            "a term begins with a letter and has letters, figures and hyphens",
        ),
        Thing::Instrument(_) => (
            first.is_ascii_alphanumeric() && bytes.iter().all(|byte| run(*byte)),
            "an id is a run of letters, figures and `. - /` without blanks",
        ),
        _ => (
            first.is_ascii_lowercase() && bytes.iter().all(|byte| inside(*byte)),
            "a name is lower case with hyphens and begins with a letter",
        ),
    };
    if fits { Ok(()) } else { Err(Refusal(format!("`{new}` cannot be a name: {form}"))) }
}

/// Whether the name is not taken by something that it would be confused with.
fn free(view: &View, mention: &Mention, new: &str) -> Result<(), Refusal> {
    let library = view.rules.library();
    let glossary = &library.glossary;
    let taken = |what: &str| Err(Refusal(format!("there is {what} `{new}` already")));
    let anything = || {
        let field = glossary.fields.iter().any(|field| field.group.is_none() && *field.name == *new);
        let group = glossary.groups.iter().any(|group| *group.name == *new);
        let question = glossary.questions.iter().any(|question| *question.name == *new);
        field || group || question || glossary.defines(new)
    };
    match &mention.thing {
        Thing::Choice(_) if glossary.choice(new).is_some() => taken("a choice"),
        Thing::Term(choice, _) if glossary[*choice].terms.iter().any(|term| *term.name == *new) => {
            taken(&format!("in `{}` a term", glossary[*choice].name))
        }
        Thing::Rung(question, _) => match &glossary[*question].order {
            Order::Ladder(rungs) if rungs.iter().any(|rung| **rung == *new) => taken("an answer"),
            _ => Ok(()),
        },
        Thing::Field(id) => match glossary[*id].group {
            Some(group) if glossary[group].fields.iter().any(|other| *glossary[*other].name == *new) => {
                taken(&format!("in `{}` an attribute", glossary[group].name))
            }
            None if anything() => taken("a fact, list, question or definition"),
            _ => Ok(()),
        },
        Thing::Group(_) | Thing::Question(_) | Thing::Definition(_) if anything() => {
            taken("a fact, list, question or definition")
        }
        Thing::Issuer(id) => {
            let parent = library.places.issuer(*id).and_then(|issuer| issuer.parent);
            let beside = library.places.named(new).iter().filter_map(|id| library.places.issuer(*id));
            let clash = beside.into_iter().any(|other| other.parent == parent || other.parent.is_none());
            if clash { taken("a place, maker or supplier") } else { Ok(()) }
        }
        Thing::Instrument(id) => {
            let issuer = view.instrument(*id).map(|own| own.issuer);
            let own = issuer.map(|issuer| library.of_issuer(issuer)).unwrap_or_default();
            let clash = own.iter().filter_map(|id| view.instrument(*id)).any(|other| *other.id == *new);
            if clash { taken("of this issuer an instrument") } else { Ok(()) }
        }
        _ => Ok(()),
    }
}
