//! Words of jobs, and of what examples expect.

use super::Walk;
use crate::editor::things::Thing;
use crate::glossary::model::GroupId;
use crate::syntax::tree::{Authority, Expect, ExpectKind, JobEntry, JobSheet, JobValue, Path, Reference, Value, Word};

impl Walk<'_> {
    pub(super) fn job(&mut self, job: &JobSheet) {
        let place = job.entries.iter().find_map(|entry| match entry {
            JobEntry::Place(reference) => Some(reference),
            _ => None,
        });
        self.from = place.and_then(|place| self.library.places.find(&place.text).ok());
        for entry in &job.entries {
            match entry {
                JobEntry::Place(reference) => self.job_place(reference),
                JobEntry::Reference(_) => {}
                JobEntry::Fact { path, value, .. } => {
                    let group = path.attribute.is_none().then(|| self.group_named(&path.head.text)).flatten();
                    if let Some(group) = group {
                        self.word(&path.head, false, |_| Some(Thing::Group(group)));
                    } else {
                        self.path(path);
                        self.job_value(path, value);
                    }
                }
                JobEntry::Entry { name, facts, .. } => self.entry(name, facts),
            }
        }
    }

    /// A job names a place as people do.
    fn job_place(&mut self, reference: &Reference) {
        if let Some(place) = self.from {
            let name = self.library.places.issuer(place).map(|place| place.name.clone());
            if name.is_some_and(|name| (self.wanted)(&name)) {
                self.show(reference.span, Thing::Issuer(place), false, None);
            }
        }
    }

    fn entry(&mut self, name: &Word, facts: &[(Word, JobValue)]) {
        let group: Option<GroupId> = self.group_named(&name.text);
        self.word(name, false, |_| group.map(Thing::Group));
        self.list = group;
        for (attribute, value) in facts {
            let path = Path { head: attribute.clone(), attribute: None };
            self.path(&path);
            self.job_value(&path, value);
        }
        self.list = None;
    }

    fn job_value(&mut self, path: &Path, value: &JobValue) {
        if let (Some(field), JobValue::Values(values)) = (self.field_of(path), value) {
            values.iter().for_each(|value: &Value| self.value(field, value));
        }
    }

    pub(super) fn expect(&mut self, expect: &Expect) {
        match &expect.kind {
            ExpectKind::Outcome(_) => {}
            ExpectKind::Demand { demand, by } | ExpectKind::Advice { demand, by } => {
                self.demand(demand);
                by.iter().for_each(|by| self.authority(by));
            }
            ExpectKind::Note { by } => self.authority(by),
            ExpectKind::Pending(id) => {
                self.named_instrument(id, None);
            }
            ExpectKind::State { question, .. }
            | ExpectKind::OpenOn { question, .. }
            | ExpectKind::Loosest { question, .. } => {
                self.question_named(question, false);
            }
        }
    }

    fn authority(&mut self, (id, number): &Authority) {
        let instrument = self.named_instrument(id, None);
        if let Some((instrument, number)) = instrument.zip(number.as_ref()) {
            self.by_section(instrument, number);
        }
    }

    /// A section by which an answer is given: of the instrument itself, of its
    /// patches, or of an edition that it adopts.
    fn by_section(&mut self, id: crate::law::instrument::InstrumentId, number: &Word) {
        let Some(own) = self.view.instrument(id) else { return };
        let its = own.sections.iter().any(|(own, _)| *own == number.text)
            || own.amends.iter().flat_map(|amend| &amend.patches).any(|patch| patch.number == number.text);
        if its {
            return self.own_section(id, number, false);
        }
        let codes = &self.library.codes;
        let adopted = own
            .adoptions
            .iter()
            .map(|adoption| adoption.edition)
            .find(|edition| codes.edition(*edition).is_some_and(|edition| edition.section(&number.text).is_some()));
        if let Some(edition) = adopted {
            self.section_of(Some(edition), number);
        }
    }
}
