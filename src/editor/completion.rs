//! What can be written where the cursor stands: names by what they stand for, and
//! the words of the language that the grammar expects there.

mod names;
mod tokens;
mod wanted;

use super::describe::in_brief;
use super::requests::Answer;
use super::things::Thing;
use super::view::View;
use crate::syntax::tree::Span;
use crate::syntax::{Kind, expected};
use lsp_types::{
    CompletionItem, CompletionItemKind, CompletionList, CompletionParams, CompletionResponse, CompletionTextEdit,
    TextEdit,
};
use names::Names;
use tokens::Tokens;
use wanted::wanted;

/// More than these are not listed; the editor asks again when more is written.
const MOST: usize = 500;

/// What can be written under the cursor.
pub(super) fn complete(view: &View, asked: CompletionParams) -> Answer<Option<CompletionResponse>> {
    let position = asked.text_document_position;
    let Some(spot) = view.spot(&position.text_document.uri, position.position) else { return Ok(None) };
    let text = spot.document.text();
    let kind = if spot.file.0 >= super::view::SHEETS { Kind::Job } else { Kind::Rules };
    let Some(tokens) = Tokens::before(text, spot.offset as usize, kind) else { return Ok(None) };
    let expected = expected(text, tokens.start, kind);
    let written = text.get(tokens.start..spot.offset as usize).unwrap_or_default();
    let mut offers = Offers { view, written, all: Vec::new(), cut: false };
    let names = Names::new(view, spot.file, &tokens);
    for wanted in wanted(&tokens, expected.as_ref(), &names) {
        names.offer(&wanted, &mut offers);
    }
    let signs = |word: &&str| word.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'-') && word.len() > 1;
    for word in expected.iter().flat_map(|expected| expected.words()).filter(signs) {
        offers.word(word);
    }
    let range = spot.document.range(Span { start: tokens.start as u32, end: spot.offset });
    Ok(Some(CompletionResponse::List(offers.list(range))))
}

/// What is offered.
struct Offers<'v> {
    view: &'v View,
    /// The beginning of the word, as far as it is written.
    written: &'v str,
    all: Vec<CompletionItem>,
    /// Whether there would be more.
    cut: bool,
}

impl Offers<'_> {
    /// A name, with the title of what it stands for.
    fn thing(&mut self, name: &str, thing: &Thing) {
        let detail = if self.all.len() < MOST { in_brief(self.view, thing) } else { None };
        self.name(name, detail, kind_of(thing));
    }

    fn name(&mut self, name: &str, detail: Option<String>, kind: CompletionItemKind) {
        self.push(name, detail, kind, '0');
    }

    /// A word of the language.
    fn word(&mut self, word: &str) {
        self.push(word, None, CompletionItemKind::KEYWORD, '1');
    }

    fn push(&mut self, name: &str, detail: Option<String>, kind: CompletionItemKind, rank: char) {
        if !begins(name, self.written) || self.all.iter().any(|item| item.label == name) {
            return;
        }
        if self.all.len() >= MOST {
            self.cut = true;
            return;
        }
        self.all.push(CompletionItem {
            label: name.to_owned(),
            kind: Some(kind),
            detail,
            // Names in the order of their declaration, words of the language behind.
            sort_text: Some(format!("{rank}{:04}", self.all.len())),
            ..CompletionItem::default()
        });
    }

    fn list(mut self, range: lsp_types::Range) -> CompletionList {
        for item in &mut self.all {
            item.text_edit = Some(CompletionTextEdit::Edit(TextEdit { range, new_text: item.label.clone() }));
        }
        CompletionList { is_incomplete: self.cut, items: self.all }
    }
}

/// Whether a name may be meant by what is written of it: it begins so, or a part of
/// it does.
fn begins(name: &str, written: &str) -> bool {
    let written = written.to_ascii_lowercase();
    let name = name.to_ascii_lowercase();
    name.starts_with(&written)
        || name
            .match_indices(['-', '/', '.', ' '])
            .any(|(at, _)| name.get(at + 1..).is_some_and(|rest| rest.starts_with(&written)))
}

fn kind_of(thing: &Thing) -> CompletionItemKind {
    match thing {
        Thing::Choice(_) => CompletionItemKind::ENUM,
        Thing::Term(..) | Thing::Rung(..) => CompletionItemKind::ENUM_MEMBER,
        Thing::Subject(_) | Thing::Issuer(_) => CompletionItemKind::MODULE,
        Thing::Field(_) => CompletionItemKind::FIELD,
        Thing::Group(_) => CompletionItemKind::STRUCT,
        Thing::Question(_) => CompletionItemKind::INTERFACE,
        Thing::Definition(_) => CompletionItemKind::VARIABLE,
        Thing::Instrument(_) | Thing::Code(_) | Thing::Edition(_) => CompletionItemKind::CLASS,
        Thing::Section(_) => CompletionItemKind::FUNCTION,
    }
}
