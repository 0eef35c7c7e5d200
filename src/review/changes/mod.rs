//! What the examples of rule files hold fast: each clause is left out and changed, one
//! small change at a time, and a change that no example notices is told.
//!
//! A change is *noticed* where with it the rules cannot be used, or an example no longer
//! comes out. Changes are made on trees, never on text, and everything is linked anew for
//! each. What no job of any place can tell is left out of the account as far as
//! [`equal`] proves it. This module refuses to know screens.

mod conditions;
mod days;
mod equal;
mod figures;
mod lists;
mod rungs;
mod tape;
mod trial;
mod walk;

use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::tree::Item;
use std::collections::HashMap;
use tape::{Offer, Scope, Tape};
use trial::{Fate, Trials};

/// What came of changing the clauses of some files.
#[derive(Debug, Default)]
pub(crate) struct Tried {
    /// Clauses without an example, and changes that no example notices.
    pub(crate) findings: Vec<Diagnostic>,
    /// The clauses of the files: sections, patches, adoptions, powers and the like.
    pub(crate) clauses: usize,
    pub(crate) changes: usize,
    pub(crate) noticed: usize,
    pub(crate) unnoticed: usize,
    /// Changes that no job of any place can tell.
    pub(crate) equal: usize,
}

/// One change: the file, the item of it, and what is changed there.
struct Change {
    file: FileId,
    item: usize,
    offer: Offer,
}

/// Changes every clause of the files that are wanted, and sees which examples notice:
/// those of the same files, or all. The rules must be usable and their examples come out.
pub(crate) fn run(rules: &Rules, wanted: impl Fn(FileId) -> bool, all_examples: bool) -> Tried {
    let ladders = ladders(rules);
    let mut changes: Vec<Change> = Vec::new();
    for (file, tree) in rules.trees().filter(|(file, _)| wanted(*file)) {
        let text = rules.file_text(file);
        for (number, item) in tree.items.iter().enumerate() {
            let offers = offers(item, &text, &ladders);
            changes.extend(offers.into_iter().map(|offer| Change { file, item: number, offer }));
        }
    }
    let trials = Trials::new(rules, &ladders, |file| all_examples || wanted(file));
    // What nobody would miss as a whole is told once, and not again for each of its parts.
    let whole: Vec<&Change> = changes.iter().filter(|change| change.offer.whole).collect();
    let mut fates: HashMap<Place, Fate> = HashMap::new();
    for (change, fate) in whole.iter().zip(trials.run(&whole)) {
        fates.insert(Place::of(change), fate);
    }
    let missed = |change: &&Change| fates.get(&Place::of(change)).is_none_or(|fate| *fate == Fate::Noticed);
    let parts: Vec<&Change> = changes.iter().filter(|change| !change.offer.whole).filter(missed).collect();
    let part_fates = trials.run(&parts);
    let mut tried = Tried { clauses: clauses(&changes), ..Tried::default() };
    for (change, fate) in whole.iter().zip(whole.iter().filter_map(|change| fates.get(&Place::of(change)))) {
        tried.count(change, fate);
    }
    for (change, fate) in parts.iter().zip(part_fates) {
        tried.count(change, &fate);
    }
    tried.findings.sort_by_key(|told| told.at);
    tried
}

/// A clause by its place: the file, the item and the clause's span.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
struct Place(FileId, usize, u32, u32);

impl Place {
    fn of(change: &Change) -> Place {
        let span = change.offer.clause_span;
        Place(change.file, change.item, span.start, span.end)
    }
}

fn clauses(changes: &[Change]) -> usize {
    let places: std::collections::HashSet<Place> = changes.iter().map(Place::of).collect();
    places.len()
}

impl Tried {
    fn count(&mut self, change: &Change, fate: &Fate) {
        self.changes += 1;
        match fate {
            Fate::Noticed => self.noticed += 1,
            Fate::Equal => self.equal += 1,
            Fate::Unnoticed(example) => {
                self.unnoticed += 1;
                self.findings.push(told(change).shown_by(example.clone()));
            }
        }
    }
}

fn told(change: &Change) -> Diagnostic {
    let Offer { clause, what, at, help, whole, .. } = &change.offer;
    let at = Location { file: change.file, span: *at };
    if *whole {
        let message = format!("no example turns on {clause}: without it every example comes out as before");
        return Diagnostic::new(codes::NO_EXAMPLE, at, message)
            .help("add an example of a job that it bears on, with what it says behind `verdict`");
    }
    Diagnostic::new(codes::UNNOTICED, at, format!("{clause}: no example notices {what}")).help(*help)
}

/// The rungs of every ladder by the question's name.
type Ladders = HashMap<Box<str>, Vec<Box<str>>>;

fn ladders(rules: &Rules) -> Ladders {
    use crate::glossary::model::Order;
    let questions = rules.library().glossary.questions.iter();
    questions
        .filter_map(|question| match &question.order {
            Order::Ladder(rungs) => Some((question.name.clone(), rungs.clone())),
            _ => None,
        })
        .collect()
}

/// Every change that can be made to an item.
fn offers(item: &Item, text: &str, ladders: &Ladders) -> Vec<Offer> {
    let mut tape = Tape::listing(text, ladders);
    walk::item(&mut item.clone(), &mut tape);
    tape.offers
}

/// The item with one of its changes made.
fn changed(item: &Item, number: usize, ladders: &Ladders) -> Item {
    let mut item = item.clone();
    walk::item(&mut item, &mut Tape::making(number, ladders));
    item
}

/// Where a clause stands, for those who offer changes of it.
fn scope(name: String, span: crate::syntax::tree::Span) -> Scope {
    Scope { name, span }
}
