//! GR5111: an instruction that loosens although it looks at some run only.

use crate::glossary::demand::AskedKind;
use crate::glossary::expr::Expr;
use crate::glossary::model::GroupId;
use crate::law::instrument::Weight;
use crate::law::library::Library;
use crate::law::text::{DemandedKind, Section};
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;

/// The sections of makers' instructions that give the loosest answer where any
/// entry of a list fits, whatever the others are.
pub(super) fn instructions(library: &Library) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for own in library.instruments.iter().filter(|own| own.kind.weight() == Weight::Instructions) {
        for (number, section) in &own.sections {
            let Some(question) = loosened(section) else { continue };
            let (mut some, mut all) = (Vec::new(), Vec::new());
            section.wheres.iter().for_each(|cond| sorted(cond, true, &mut some, &mut all));
            let Some(group) = some.iter().find(|group| !all.contains(*group)) else { continue };
            let list = &library.glossary[*group].name;
            let name = &library.glossary[question].name;
            let message = format!("`{number}` loosens `{name}` where any `{list}` fits, whatever the others are");
            found.push(
                Diagnostic::new(codes::BARE_ANY, section.at, message)
                    .help(format!("add `and no {list} with (…)` for those to which the instruction does not extend")),
            );
        }
    }
    found
}

/// The question to which a section gives the loosest rung.
fn loosened(section: &Section) -> Option<crate::glossary::model::QuestionId> {
    section.demands.iter().find_map(|demand| match &demand.kind {
        DemandedKind::Value(asked) if asked.kind == AskedKind::Rung(0) => Some(asked.question),
        _ => None,
    })
}

/// Sorts the lists that a condition looks at: those of which some entry must fit,
/// and those of which something is said of every entry.
fn sorted(cond: &Expr, holds: bool, some: &mut Vec<GroupId>, all: &mut Vec<GroupId>) {
    match cond {
        Expr::And(parts) | Expr::Or(parts) => parts.iter().for_each(|part| sorted(part, holds, some, all)),
        Expr::Not(part) => sorted(part, !holds, some, all),
        Expr::Entries { any, group, .. } if *any == holds => some.push(*group),
        Expr::Entries { group, .. } => all.push(*group),
        _ => {}
    }
}
