//! GR5104: an amendment on nothing but questions that an outer place pre-empts.

use super::added_twice::place_of;
use super::story::{Story, Text};
use super::times::Times;
use crate::glossary::expr::Expr;
use crate::glossary::model::QuestionId;
use crate::law::Line;
use crate::law::instrument::{Instrument, Power};
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::PowerKind;

/// The patches of an instrument all of whose questions an outer place pre-empts
/// for every job and from no later day.
pub(super) fn amendments(library: &Library, times: &Times, story: &Story) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let powers = powers(library, times, story);
    if powers.is_empty() {
        return found;
    }
    for block in story.mine() {
        for (patch, lines) in block.amend.patches.iter().zip(&block.lines) {
            let mut questions = patch.section.questions();
            let Some(theirs) = targets(library, story, lines) else { continue };
            questions.extend(theirs);
            questions.sort_unstable();
            questions.dedup();
            let over = |question: &QuestionId| powers.iter().find(|(_, power)| covers(library, power, *question));
            let held: Option<Vec<_>> = questions.iter().map(over).collect();
            let Some((holder, power)) = held.and_then(|held| held.first().copied().cloned()) else { continue };
            let message =
                format!("`{}` changes nothing: `{}` pre-empts all that it speaks of", patch.number, holder.id);
            found.push(
                Diagnostic::new(codes::DEFEATED, patch.at, message)
                    .also(power.at, "the power stands here")
                    .help("leave it out, or look whether the power was meant to have a `where`"),
            );
        }
    }
    found
}

/// The powers of outer places that hold for every job of the instrument's time.
fn powers<'l>(library: &'l Library, times: &Times, story: &Story) -> Vec<(&'l Instrument, &'l Power)> {
    let path = library.places.path(story.own.issuer);
    let outer = path.iter().filter(|place| **place != story.own.issuer).flat_map(|place| library.of_issuer(*place));
    let by = story.own.force.map(|force| force.by);
    outer
        .filter(|id| times.for_good(**id))
        .filter_map(|id| library.instruments.get(id.0 as usize))
        .filter(|own| own.first_day() <= story.own.first_day() && own.force.map(|force| force.by) == by)
        .flat_map(|own| own.powers.iter().map(move |power| (own, power)))
        .filter(|(_, power)| power.kind == PowerKind::Preempts && always(&power.scope))
        .collect()
}

/// Whether a scope is none at all.
pub(super) fn always(scope: &Expr) -> bool {
    match scope {
        Expr::Constant(holds) => *holds,
        Expr::And(parts) => parts.iter().all(always),
        _ => false,
    }
}

fn covers(library: &Library, power: &Power, question: QuestionId) -> bool {
    power.questions.contains(&question) || power.subjects.contains(&library.glossary[question].subject)
}

/// The questions of the sections that a patch means; nothing where one of them is
/// a definition, on which others may rest.
fn targets(library: &Library, story: &Story, lines: &[Line]) -> Option<Vec<QuestionId>> {
    let mut found = Vec::new();
    for line in lines {
        let section = match (line, story.text) {
            (Line::Printed(lineage), Text::Edition(id)) => library
                .codes
                .edition(id)
                .and_then(|edition| edition.by_lineage(*lineage))
                .map(|printed| &printed.section),
            (Line::Own(at), Text::Instrument(id)) => {
                library.instruments.get(id.0 as usize).and_then(|own| own.sections.get(*at)).map(|(_, section)| section)
            }
            _ => None,
        };
        match section {
            Some(section) if section.definition || section.table.is_some() => return None,
            Some(section) => found.extend(section.questions()),
            None if place_of(library, story, *line).is_none() => return None,
            None => {}
        }
    }
    Some(found)
}
