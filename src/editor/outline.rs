//! What a file holds: its items, and the parts of instruments and editions.

use super::document::Document;
use super::requests::Answer;
use super::view::View;
use crate::syntax::tree::{
    Adopted, AmendTarget, Clause, Edition, EditionName, Instrument, Item, Span, Term, Text, TextClause, Word,
};
use lsp_types::{DocumentSymbol, DocumentSymbolParams, DocumentSymbolResponse, SymbolKind};

/// The outline of a file.
pub(super) fn outline(view: &View, asked: DocumentSymbolParams) -> Answer<Option<DocumentSymbolResponse>> {
    let Some((_, tree, document)) = view.file(&asked.text_document.uri) else { return Ok(None) };
    let symbols = tree.items.iter().map(|item| symbol_of(item, document)).collect();
    Ok(Some(DocumentSymbolResponse::Nested(symbols)))
}

fn symbol_of(item: &Item, document: &Document) -> DocumentSymbol {
    let named = |name: &Word, title: &Option<Text>, kind| {
        symbol(document, item.span(), name.span, &name.text, title_of(title), kind)
    };
    let terms = |terms: &[Term]| {
        let symbol_of = |term: &Term| {
            let title = title_of(&term.title);
            symbol(document, term.span, term.name.span, &term.name.text, title, SymbolKind::ENUM_MEMBER)
        };
        terms.iter().map(symbol_of).collect()
    };
    match item {
        Item::Choice(own) => with(named(&own.name, &own.title, SymbolKind::ENUM), terms(&own.terms)),
        Item::Extend(own) => {
            let head = symbol(document, own.span, own.choice.span, &own.choice.text, "further terms", SymbolKind::ENUM);
            with(head, terms(&own.terms))
        }
        Item::Subject(own) => named(&own.name, &own.title, SymbolKind::NAMESPACE),
        Item::Fact(own) => named(&own.name, &own.title, SymbolKind::FIELD),
        Item::Group(own) => {
            let kind = if own.list { SymbolKind::ARRAY } else { SymbolKind::STRUCT };
            let attributes = own.attributes.iter().map(|fact| {
                symbol(document, fact.span, fact.name.span, &fact.name.text, title_of(&fact.title), SymbolKind::FIELD)
            });
            with(named(&own.name, &own.title, kind), attributes.collect())
        }
        Item::Question(own) => named(&own.name, &own.title, SymbolKind::INTERFACE),
        Item::Definition(own) => named(&own.name, &own.title, SymbolKind::BOOLEAN),
        Item::Code(own) => named(&own.name, &own.title, SymbolKind::PACKAGE),
        Item::Edition(own) => edition(own, document),
        Item::Place(own) => named(&own.name, &own.title, SymbolKind::NAMESPACE),
        Item::Issuer(own) => named(&own.name, &own.title, SymbolKind::NAMESPACE),
        Item::Instrument(own) => instrument(own, document),
        Item::Example(own) => symbol(document, own.span, own.name.span, &own.name.text, "example", SymbolKind::EVENT),
        Item::Job(own) => symbol(document, own.span, own.span, "job", "", SymbolKind::OBJECT),
    }
}

fn edition(own: &Edition, document: &Document) -> DocumentSymbol {
    let name = edition_words(&own.name);
    let head = symbol(document, own.span, own.name.code.span.to(own.name.year.span), &name, "", SymbolKind::MODULE);
    with(head, own.clauses.iter().filter_map(|clause| text_clause(clause, document)).collect())
}

fn instrument(own: &Instrument, document: &Document) -> DocumentSymbol {
    let head = symbol(document, own.span, own.id.span, &own.id.text, title_of(&own.title), SymbolKind::MODULE);
    let parts = own.clauses.iter().map(|clause| match clause {
        Clause::Adopts(adopts) => {
            let editions: Vec<String> = adopts
                .editions
                .iter()
                .map(|adopted| match adopted {
                    Adopted::Edition(name) => edition_words(name),
                    Adopted::Newest { code, .. } => format!("{} newest", code.text),
                })
                .collect();
            let name = format!("adopts {}", editions.join(" or "));
            symbol(document, adopts.span, adopts.span, &name, "", SymbolKind::PROPERTY)
        }
        Clause::Election(election) => {
            symbol(document, election.span, election.span, "election", "", SymbolKind::PROPERTY)
        }
        Clause::Amend(amend) => {
            let target = match &amend.target {
                AmendTarget::Edition(name) => edition_words(name),
                AmendTarget::Any { code, .. } => format!("{} any", code.text),
                AmendTarget::Instrument { id, .. } => id.text.to_string(),
            };
            let head = symbol(document, amend.span, amend.span, &format!("amend {target}"), "", SymbolKind::PROPERTY);
            with(head, amend.clauses.iter().filter_map(|clause| text_clause(clause, document)).collect())
        }
        Clause::Section(section) => {
            let title = title_of(&section.title);
            symbol(document, section.span, section.number.span, &section.number.text, title, SymbolKind::FUNCTION)
        }
        Clause::Power(power) => {
            let targets: Vec<&str> = power.targets.iter().map(|target| &*target.text).collect();
            let name = format!("{} {}", power.kind.word(), targets.join(", "));
            symbol(document, power.span, power.span, &name, "", SymbolKind::OPERATOR)
        }
        Clause::Prevails(prevails) => {
            let over: Vec<&str> = prevails.over.iter().map(|over| &*over.text).collect();
            let name = format!("prevails over {}", over.join(", "));
            symbol(document, prevails.span, prevails.span, &name, "", SymbolKind::OPERATOR)
        }
        Clause::Ends(ends) => {
            let word = if ends.repeals { "repeals" } else { "suspends" };
            let number = ends.number.as_ref().map(|number| format!(" {}", number.text)).unwrap_or_default();
            let name = format!("{word} {}{number}", ends.id.text);
            symbol(document, ends.span, ends.id.span, &name, "", SymbolKind::OPERATOR)
        }
    });
    let parts = parts.collect();
    with(head, parts)
}

fn text_clause(clause: &TextClause, document: &Document) -> Option<DocumentSymbol> {
    Some(match clause {
        TextClause::Section(section) => {
            let title = title_of(&section.title);
            symbol(document, section.span, section.number.span, &section.number.text, title, SymbolKind::FUNCTION)
        }
        TextClause::Patch(patch) => {
            let name = format!("{} {}", patch.action.word(), patch.number.text);
            symbol(document, patch.span, patch.number.span, &name, title_of(&patch.title), SymbolKind::FUNCTION)
        }
        TextClause::Renumber(line) => {
            let name = format!("renumber {} to {}", line.from.text, line.to.text);
            symbol(document, line.span, line.from.span, &name, "", SymbolKind::OPERATOR)
        }
        TextClause::Definition(own) => {
            symbol(document, own.span, own.name.span, &own.name.text, title_of(&own.title), SymbolKind::BOOLEAN)
        }
        TextClause::LeftOut(_) | TextClause::Unread(_) => return None,
    })
}

fn edition_words(name: &EditionName) -> String {
    format!("{} {}", name.code.text, name.year.text)
}

fn title_of(title: &Option<Text>) -> &str {
    title.as_ref().map_or("", |title| &title.text)
}

fn with(mut symbol: DocumentSymbol, parts: Vec<DocumentSymbol>) -> DocumentSymbol {
    symbol.children = (!parts.is_empty()).then_some(parts);
    symbol
}

fn symbol(
    document: &Document,
    span: Span,
    name_at: Span,
    name: &str,
    detail: &str,
    kind: SymbolKind,
) -> DocumentSymbol {
    #[expect(deprecated, reason = "the protocol's type has a field that is no longer used")]
    DocumentSymbol {
        name: if name.is_empty() { "…".to_owned() } else { name.to_owned() },
        detail: (!detail.is_empty()).then(|| detail.to_owned()),
        kind,
        tags: None,
        deprecated: None,
        // The name must stand within the whole.
        range: document.range(span.to(name_at)),
        selection_range: document.range(name_at),
        children: None,
    }
}
