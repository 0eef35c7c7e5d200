//! No place of a file breaks an answer, whole or cut off anywhere.

use super::Settings;
use super::address::Address;
use super::shelf::Shelf;
use super::view::View;
use super::{completion, definition, findings, hover, outline, references, rename};
use lsp_types::{
    CompletionParams, DocumentSymbolParams, GotoDefinitionParams, HoverParams, PartialResultParams, Position,
    ReferenceContext, ReferenceParams, TextDocumentIdentifier, TextDocumentPositionParams, Uri, WorkDoneProgressParams,
};
use std::str::FromStr;
use std::sync::Arc;

const TOWN: &str = include_str!("../../tests/editor/folder/wren-ferry.rule");
const JOB: &str = include_str!("../../tests/editor/folder/house.job");

/// Asks everything at a place; gives how many questions had an answer.
fn ask(view: &View, uri: &Uri, position: Position) -> usize {
    let text_document_position =
        TextDocumentPositionParams { text_document: TextDocumentIdentifier { uri: uri.clone() }, position };
    let work_done_progress_params = WorkDoneProgressParams::default();
    let partial_result_params = PartialResultParams::default();
    let completed = completion::complete(
        view,
        CompletionParams {
            text_document_position: text_document_position.clone(),
            work_done_progress_params: work_done_progress_params.clone(),
            partial_result_params: partial_result_params.clone(),
            context: None,
        },
    );
    let hovered = hover::hover(
        view,
        HoverParams {
            text_document_position_params: text_document_position.clone(),
            work_done_progress_params: work_done_progress_params.clone(),
        },
    );
    let defined = definition::define(
        view,
        GotoDefinitionParams {
            text_document_position_params: text_document_position.clone(),
            work_done_progress_params: work_done_progress_params.clone(),
            partial_result_params: partial_result_params.clone(),
        },
    );
    let referred = references::find(
        view,
        ReferenceParams {
            text_document_position: text_document_position.clone(),
            work_done_progress_params: work_done_progress_params.clone(),
            partial_result_params: partial_result_params.clone(),
            context: ReferenceContext { include_declaration: true },
        },
    );
    let prepared = rename::prepare(view, text_document_position);
    let outlined = outline::outline(
        view,
        DocumentSymbolParams {
            text_document: TextDocumentIdentifier { uri: uri.clone() },
            work_done_progress_params,
            partial_result_params,
        },
    );
    assert!(outlined.is_ok());
    [
        completed.is_ok_and(|found| found.is_some()),
        hovered.is_ok_and(|found| found.is_some()),
        defined.is_ok_and(|found| found.is_some()),
        referred.is_ok_and(|found| found.is_some()),
        prepared.is_ok_and(|found| found.is_some()),
    ]
    .into_iter()
    .filter(|answered| *answered)
    .count()
}

fn cut(text: &str, at: usize) -> &str {
    (0..=at).rev().find_map(|at| text.get(..at)).unwrap_or_default()
}

#[test]
fn no_place_breaks_an_answer() {
    for (address, text) in [("untitled:town.rule", TOWN), ("untitled:house.job", JOB)] {
        let uri = Uri::from_str(address).unwrap();
        let mut shelf = Shelf::new(Settings::default(), Vec::new());
        shelf.open(uri.clone(), 1, text.to_owned());
        let view = shelf.view(None);
        let mut answered = 0;
        for (number, line) in text.lines().enumerate() {
            for character in (0..=line.len()).step_by(5) {
                answered += ask(&view, &uri, Position { line: number as u32, character: character as u32 });
            }
        }
        assert!(answered > text.lines().count(), "{answered}");
        let mut view = view;
        for at in (0..text.len()).step_by(61) {
            let piece = cut(text, at);
            shelf.open(uri.clone(), 2, piece.to_owned());
            view = shelf.view(Some(&view));
            let last = Position { line: piece.lines().count().saturating_sub(1) as u32, character: u32::MAX };
            ask(&view, &uri, last);
            ask(&view, &uri, Position { line: u32::MAX, character: 0 });
        }
    }
}

/// The codes that are told of boundaries.
fn of_boundaries(view: &View) -> Vec<String> {
    let found = findings::of_all(view, &|| false).unwrap();
    let codes = found.iter().map(|told| told.code.to_string());
    codes
        .filter(|code| {
            ["GR0609", "GR0610", "GR0611", "GR0612", "GR0613", "GR0614", "GR5114", "GR5115"].contains(&&**code)
        })
        .collect()
}

#[test]
fn what_is_wrong_with_a_boundary_is_told_and_looked_at_again_when_it_changes() {
    let folder = tempfile::tempdir().unwrap();
    let text = "place alder \"Alder\"\n    boundary \"alder.geojson\"\n    from memory\n";
    let (rule, boundary) = (folder.path().join("alder.rule"), folder.path().join("alder.geojson"));
    std::fs::write(&rule, text).unwrap();
    let mut shelf = Shelf::new(Settings::default(), vec![folder.path().to_owned()]);
    let missing = shelf.view(None);
    assert_eq!(of_boundaries(&missing), ["GR0609"]);

    let square = "{\"type\":\"Polygon\",\"coordinates\":[[[10,50],[11,50],[11,51],[10,51],[10,50]]]}";
    std::fs::write(&boundary, square).unwrap();
    shelf.look_again(&Address::of_path(&boundary));
    assert!(shelf.is_stale(), "a file that is named is watched before it is there");
    let right = shelf.view(Some(&missing));
    assert_eq!(of_boundaries(&right), Vec::<String>::new());

    // What is not changed is neither read nor linked again.
    let same = shelf.view(Some(&right));
    assert!(Arc::ptr_eq(&same.rules, &right.rules));

    std::fs::write(&boundary, square.replace("[11,50]", "[211,50]")).unwrap();
    let wrong = shelf.view(Some(&same));
    assert!(!Arc::ptr_eq(&wrong.rules, &same.rules));
    assert_eq!(of_boundaries(&wrong).len(), 1, "out of range");

    // A name that leads out of the folder is told and not followed.
    let uri = Address::of_path(&rule).uri().unwrap();
    shelf.open(uri, 1, text.replace("alder.geojson", "../alder.geojson"));
    assert_eq!(of_boundaries(&shelf.view(Some(&wrong))), ["GR0609"]);
}
