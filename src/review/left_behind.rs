//! GR5101: a section is replaced or deleted and its sub-sections stay.
//!
//! An edition that revises another is written out section by section, so that
//! there only a deletion is looked at; an amendment that replaces a section in
//! few words is read either way.

use super::story::Story;
use crate::law::library::Library;
use crate::law::text::is_under;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::syntax::tree::{self, Action, Item, TextClause};

/// In amendments: sub-sections of which the instrument itself says nothing.
pub(super) fn in_amendments(library: &Library, story: &Story) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for block in story.mine() {
        for patch in &block.amend.patches {
            if patch.and_under || !matches!(patch.action, Action::Replace | Action::Delete) {
                continue;
            }
            let mentioned = |line| story.mine().any(|own| own.lines.iter().any(|lines| lines.contains(line)));
            let left: Vec<&str> = block
                .before
                .iter()
                .filter(|section| !section.deleted && is_under(&section.number, &patch.number))
                .filter(|section| !mentioned(&section.line))
                .map(|section| &*section.number)
                .collect();
            found.extend(told(patch.at, &patch.number, patch.action, &story.name(library), &left));
        }
    }
    found
}

/// In editions: sub-sections that come along from the edition revised.
pub(super) fn in_editions(rules: &Rules) -> Vec<Diagnostic> {
    let codes = &rules.library().codes;
    let mut found = Vec::new();
    for (file, tree) in rules.trees() {
        for item in &tree.items {
            let Item::Edition(edition) = item else { continue };
            let Some(year) = edition.name.year.text.parse().ok() else { continue };
            let Some(made) = codes.find(&edition.name.code.text, year).and_then(|id| codes.edition(id)) else {
                continue;
            };
            let Some(base) = made.revises.and_then(|id| codes.edition(id)) else { continue };
            for patch in patches(edition) {
                if patch.and_under || patch.action != Action::Delete {
                    continue;
                }
                let left: Vec<&str> = made
                    .sections
                    .iter()
                    .filter(|printed| is_under(&printed.number, &patch.number.text))
                    .filter(|printed| base.by_lineage(printed.lineage).is_some())
                    .filter(|printed| !patches(edition).any(|other| other.number.text == printed.number))
                    .map(|printed| &*printed.number)
                    .collect();
                let at = Location { file, span: patch.number.span };
                let name = format!("{} {year}", edition.name.code.text);
                found.extend(told(at, &patch.number.text, patch.action, &name, &left));
            }
        }
    }
    found
}

fn patches(edition: &tree::Edition) -> impl Iterator<Item = &tree::Patch> {
    edition.clauses.iter().filter_map(|clause| match clause {
        TextClause::Patch(patch) => Some(patch),
        _ => None,
    })
}

fn told(at: Location, number: &str, action: Action, text: &str, left: &[&str]) -> Option<Diagnostic> {
    let (first, rest) = left.split_first()?;
    let done = if action == Action::Delete { "deleted" } else { "replaced" };
    let more = match rest.len() {
        0 => String::new(),
        1 => format!(" and `{}`", rest.first().copied().unwrap_or_default()),
        several => format!(" and {several} more"),
    };
    let message = format!("`{number}` of {text} is {done}, and `{first}`{more} under it stay as they are");
    let help = format!(
        "write `{number} and under` if they are to go too; if they are to stay, say `knowingly GR5101` and why"
    );
    Some(Diagnostic::new(codes::LEFT_BEHIND, at, message).help(help))
}
