//! GR5211: places whose rules nobody has read, or nobody since some day.

use crate::law::instrument::Instrument;
use crate::law::model::Provenance;
use crate::law::places::Issuer;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::tree::{self, Item, ProvenanceKind};
use crate::values::Date;
use std::collections::HashMap;

/// The places declared in given files of which neither the place itself nor any
/// instrument or section of it says where it was seen; with a day, also those of
/// which nothing was read on that day or later.
pub(super) fn places(rules: &Rules, own: &dyn Fn(FileId) -> bool, since: Option<Date>) -> Vec<Diagnostic> {
    let library = rules.library();
    let mut told = Vec::new();
    let declared: HashMap<Location, &tree::Place> = rules
        .trees()
        .flat_map(|(file, tree)| tree.items.iter().map(move |item| (file, item)))
        .filter_map(|(file, item)| match item {
            Item::Place(place) => Some((Location { file, span: place.name.span }, place)),
            _ => None,
        })
        .collect();
    let places = library.places.only_places().filter(|(_, issuer)| own(issuer.at.file));
    for (id, issuer) in places {
        let mut seen = Reading::default();
        seen.place(issuer, declared.get(&issuer.at).copied());
        let instruments = library.of_issuer(id).iter().filter_map(|id| library.instruments.get(id.0 as usize));
        instruments.for_each(|instrument| seen.instrument(instrument));
        let help = "read its rules and write `read \"where\" on DATE` into the place or its instruments";
        if !seen.any {
            let message = format!("nobody says where the rules of {} were read", issuer.title);
            told.push(Diagnostic::new(codes::UNREAD_PLACE, issuer.at, message).help(help));
        } else if let Some(since) = since
            && seen.last.is_none_or(|last| last < since)
        {
            let message = match seen.last {
                Some(last) => format!("the rules of {} were last read on {last}, before {since}", issuer.title),
                None => format!("nobody says on which day the rules of {} were read", issuer.title),
            };
            told.push(Diagnostic::new(codes::UNREAD_PLACE, issuer.at, message).help(help));
        }
    }
    told
}

/// What is said of the reading of a place's rules.
#[derive(Debug, Default)]
struct Reading {
    any: bool,
    last: Option<Date>,
}

impl Reading {
    /// What the place itself says, and what it says of subjects on which it has
    /// nothing of its own.
    fn place(&mut self, issuer: &Issuer, declared: Option<&tree::Place>) {
        self.said(issuer.provenance.as_ref());
        for line in declared.into_iter().flat_map(|place| &place.nothing) {
            self.said(line.provenance.as_ref());
        }
    }

    fn said(&mut self, provenance: Option<&tree::Provenance>) {
        match provenance.map(|provenance| &provenance.kind) {
            Some(ProvenanceKind::Read { on, .. }) => self.read(Date::parse(&on.text)),
            Some(_) => self.any = true,
            None => {}
        }
    }

    fn read(&mut self, on: Option<Date>) {
        self.any = true;
        self.last = self.last.max(on);
    }

    fn instrument(&mut self, own: &Instrument) {
        let patched = own.amends.iter().flat_map(|amend| &amend.patches).map(|patch| &patch.section.provenance);
        let sections = own.sections.iter().map(|(_, section)| &section.provenance);
        for provenance in sections.chain(patched).chain([&own.provenance]) {
            match provenance {
                Provenance::Read { on, .. } => self.read(Some(*on)),
                Provenance::Memory | Provenance::CommonPractice => self.any = true,
                Provenance::Missing => {}
            }
        }
    }
}
