//! Places once more, after one file has changed: what it does not touch is shared.

use super::{Issuer, Places, issuer_of};
use crate::glossary::model::PlaceId;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::{AmendTarget, Clause, File, Item, Reference};
use std::collections::BTreeSet;
use std::sync::Arc;

/// So many changed printed names are kept beside the index before it is made anew.
const REPRINTED: usize = 256;

impl Places {
    /// The places after a file has changed, where it declares the same issuers under
    /// the same names as before, and no file calls one by a printed name that has
    /// changed; nothing where that is not so, and all have to be looked up again.
    pub(crate) fn again(&self, file: FileId, before: &File, now: &File, all: &[(FileId, &File)]) -> Option<Places> {
        let declared =
            |tree: &File| -> Vec<Issuer> { tree.items.iter().filter_map(|item| issuer_of(file, item)).collect() };
        let (old, new) = (declared(before), declared(now));
        let alike = |(old, new): (&Issuer, &Issuer)| old.kind == new.kind && old.name == new.name;
        let same = old.len() == new.len() && old.iter().zip(&new).all(alike) && within(before).eq(within(now));
        // Files are read in the order of their numbers, and so are their issuers.
        let first = self.issuers.partition_point(|issuer| issuer.at.file < file);
        let here = self.issuers.iter().skip(first).take_while(|issuer| issuer.at.file == file).count();
        if !same || here != new.len() {
            return None;
        }
        let mut places = self.clone();
        let mut changed: BTreeSet<Box<str>> = BTreeSet::new();
        for ((old, new), id) in old.iter().zip(&new).zip((first as u32..).map(PlaceId)) {
            changed.extend(places.reprint(id, &printed(old), &printed(new)));
        }
        let touched = |reference: &Reference| reference.printed && changed.contains(&*reference.text.to_lowercase());
        if places.reprinted.len() > REPRINTED || !changed.is_empty() && references(all).any(touched) {
            return None;
        }
        for (slot, new) in places.issuers.iter_mut().skip(first).zip(new) {
            *slot = Arc::new(Issuer { parent: slot.parent, depth: slot.depth, ..new });
        }
        Some(places)
    }

    /// Takes an issuer out of the printed names that it no longer has and puts it into
    /// those that it has now; gives both.
    fn reprint(&mut self, id: PlaceId, old: &BTreeSet<Box<str>>, new: &BTreeSet<Box<str>>) -> Vec<Box<str>> {
        let changed: Vec<Box<str>> = old.symmetric_difference(new).cloned().collect();
        for name in &changed {
            let mut ids: Vec<PlaceId> = self.printed(name).iter().copied().filter(|other| *other != id).collect();
            if new.contains(name) {
                ids.push(id);
                ids.sort_unstable();
            }
            self.reprinted.insert(name.clone(), ids);
        }
        changed
    }
}

/// The printed names of an issuer, in small letters.
fn printed(issuer: &Issuer) -> BTreeSet<Box<str>> {
    std::iter::once(&issuer.title).chain(&issuer.also).map(|name| name.to_lowercase().into()).collect()
}

/// What the places of a file lie within, in its words.
fn within(tree: &File) -> impl Iterator<Item = Option<(&str, bool)>> {
    tree.items.iter().filter_map(|item| match item {
        Item::Place(place) => Some(place.within.as_ref().map(|outer| (&*outer.text, outer.printed))),
        _ => None,
    })
}

/// Every place or issuer that a file names, but in jobs, which are read by themselves.
fn references<'t>(all: &'t [(FileId, &'t File)]) -> impl Iterator<Item = &'t Reference> {
    all.iter().flat_map(|(_, tree)| &tree.items).flat_map(|item| -> Vec<&Reference> {
        match item {
            Item::Place(place) => place.within.iter().collect(),
            Item::Fact(fact) => fact.place.iter().collect(),
            Item::Group(group) => group
                .place
                .iter()
                .chain(group.attributes.iter().filter_map(|attribute| attribute.place.as_ref()))
                .collect(),
            Item::Question(question) => question.place.iter().collect(),
            Item::Extend(extend) => vec![&extend.place],
            Item::Instrument(own) => {
                let named = own.clauses.iter().filter_map(|clause| match clause {
                    Clause::Ends(ends) => ends.of.as_ref(),
                    Clause::Amend(amend) => match &amend.target {
                        AmendTarget::Instrument { of, .. } => of.as_ref(),
                        _ => None,
                    },
                    _ => None,
                });
                own.of.iter().chain(named).collect()
            }
            _ => Vec::new(),
        }
    })
}
