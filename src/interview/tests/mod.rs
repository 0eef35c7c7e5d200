//! Tests of the interview: its order, its reading, and that it comes to an end
//! after which nothing is open that somebody could have told.

mod link;
mod order;
mod reading;
pub(crate) mod walk;

use super::{Asker, SoFar, Step, agenda};
use crate::Rules;
use crate::verdict::{self, Scratch};

/// The stages of the shipped glossary.
pub(crate) const STAGES: &[&str] = &["bid", "permit", "rough", "final"];

pub(crate) fn asker(who: &str) -> Asker<'_> {
    Asker { who, stages: STAGES }
}

/// The steps of a job so far.
pub(crate) fn steps<'a>(rules: &'a Rules, so_far: &'a SoFar, who: &str) -> Vec<Step<'a>> {
    let matter = rules.matter(&so_far.job).expect("the law of the place");
    let verdict = verdict::full(&matter, &mut Scratch::default());
    agenda(&matter, &verdict, Some(rules.library()), asker(who), &so_far.waived)
}

/// The job of a sheet of the shipped library.
pub(crate) fn job(rules: &Rules, text: &str) -> SoFar {
    use crate::syntax::tree::Item;
    use crate::syntax::{Kind, diagnostic::FileId, parse};
    let parsed = parse(FileId::default(), text, Kind::Job);
    assert!(parsed.diagnostics.is_empty(), "{text}\n{:#?}", parsed.diagnostics);
    let Some(Item::Job(sheet)) = parsed.tree.items.first() else { panic!("{text}") };
    let read = crate::job::read_sheet(sheet, FileId::default(), rules.desk(), &crate::job::Defaults::default());
    SoFar::of(read.unwrap_or_else(|told| panic!("{text}\n{told:#?}")))
}
