//! GR0700: questions that depend on each other in a circle at a place.
//!
//! Which question reads which is looked up in all texts at once first. Only where
//! that shows a circle are places looked at one by one: most libraries have many
//! places and no circle.

use crate::glossary::expr::Expr;
use crate::glossary::model::{Met, QuestionId};
use crate::law::instrument::{Patch, Target};
use crate::law::library::Library;
use crate::law::text::Section;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::Action;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// The circles of questions, each told for the first place that has it; nothing
/// where the search is stopped on the way.
pub(super) fn circles(library: &Library, stopped: &dyn Fn() -> bool) -> Option<Vec<Diagnostic>> {
    if !Reads::of(library).go_in_a_circle() {
        return Some(Vec::new());
    }
    let mut found: Vec<Diagnostic> = Vec::new();
    for place in library.lawgivers() {
        if stopped() {
            return None;
        }
        if let Err(told) = library.law(place)
            && !found.iter().any(|known| known.at == told.at)
        {
            found.push(told.clone());
        }
    }
    Some(found)
}

type Questions = BTreeSet<QuestionId>;

/// Which questions' answers each question reads somewhere, or may.
#[derive(Default)]
struct Reads {
    of: BTreeMap<QuestionId, Questions>,
    definitions: BTreeMap<Box<str>, Questions>,
    instructions: BTreeMap<QuestionId, Questions>,
}

impl Reads {
    fn of(library: &Library) -> Reads {
        let mut reads = Reads::default();
        // Definitions name each other and instructions ask for each other, so that
        // what they read is gathered until nothing is added.
        loop {
            let before = reads.size();
            reads.gather(library);
            if reads.size() == before {
                return reads;
            }
        }
    }

    fn size(&self) -> usize {
        [&self.of, &self.instructions].iter().flat_map(|map| map.values()).map(BTreeSet::len).sum::<usize>()
            + self.definitions.values().map(BTreeSet::len).sum::<usize>()
    }

    fn gather(&mut self, library: &Library) {
        for (question, number) in library.glossary.questions.iter().zip(0u16..) {
            let met = match &question.met {
                Some(Met::Where(cond)) => Some(cond),
                _ => None,
            };
            for cond in question.asked.iter().chain(met) {
                let read = self.read_by(cond);
                self.of.entry(QuestionId(number)).or_default().extend(read);
            }
        }
        for printed in library.codes.editions.iter().flat_map(|edition| &edition.sections) {
            self.section(&printed.number, &printed.section);
        }
        for own in &library.instruments {
            let instructions = own.kind.weight() == crate::law::instrument::Weight::Instructions;
            for (number, section) in &own.sections {
                self.section(number, section);
                if instructions {
                    let read = self.read_in(section);
                    for question in section.questions() {
                        self.instructions.entry(question).or_default().extend(read.iter().copied());
                    }
                }
            }
            for amend in &own.amends {
                for patch in &amend.patches {
                    self.section(&patch.number, &patch.section);
                    self.patch(library, &amend.target, patch);
                }
            }
        }
    }

    fn section(&mut self, number: &str, section: &Arc<Section>) {
        let read = self.read_in(section);
        for question in section.questions() {
            self.of.entry(question).or_default().extend(read.iter().copied());
        }
        // A patch of a definition has its number and is not marked as one.
        if !read.is_empty() && (section.definition || section.demands.is_empty()) {
            self.definitions.entry(number.into()).or_default().extend(read);
        }
    }

    /// An exception or reading adds its condition to what the patched section
    /// says: to any question of that text, for which section it is may change.
    fn patch(&mut self, library: &Library, target: &Target, patch: &Patch) {
        if !matches!(patch.action, Action::Except | Action::Reads) {
            return;
        }
        let read = self.read_in(&patch.section);
        if read.is_empty() {
            return;
        }
        let editions = library.codes.editions.iter().filter(|edition| match target {
            Target::Edition(id) => library.codes.edition(*id).is_some_and(|of| of.code == edition.code),
            Target::Any { code, .. } => *code == edition.code,
            Target::Instrument(_) => false,
        });
        let mut questions: Questions =
            editions.flat_map(|edition| &edition.sections).flat_map(|of| of.section.questions()).collect();
        if let Target::Instrument(id) = target {
            let sections =
                library.instruments.get(id.0 as usize).map(|own| own.sections.as_slice()).unwrap_or_default();
            questions.extend(sections.iter().flat_map(|(_, section)| section.questions()));
        }
        let added = library.instruments.iter().flat_map(|own| &own.amends).flat_map(|amend| &amend.patches);
        questions.extend(added.flat_map(|patch| patch.section.questions()));
        for question in questions {
            self.of.entry(question).or_default().extend(read.iter().copied());
        }
    }

    fn read_in(&self, section: &Section) -> Questions {
        let conditions =
            section.wheres.iter().chain(&section.excepts).chain(section.cases.iter().map(|case| &case.cond));
        conditions.flat_map(|cond| self.read_by(cond)).collect()
    }

    fn read_by(&self, cond: &Expr) -> Questions {
        let mut found = Questions::new();
        cond.walk(&mut |part| match part {
            Expr::Answer { question, .. } => {
                found.insert(*question);
            }
            Expr::Say(say) => found.extend(self.instructions.get(&say.question).into_iter().flatten()),
            Expr::Defined(name, _) => found.extend(self.definitions.get(&**name).into_iter().flatten()),
            _ => {}
        });
        found
    }

    fn go_in_a_circle(&self) -> bool {
        let mut rest: BTreeMap<QuestionId, &Questions> = self.of.iter().map(|(id, read)| (*id, read)).collect();
        loop {
            let ready: Vec<QuestionId> = rest
                .iter()
                .filter(|(_, read)| read.iter().all(|question| !rest.contains_key(question)))
                .map(|(id, _)| *id)
                .collect();
            if ready.is_empty() {
                return !rest.is_empty();
            }
            for id in ready {
                rest.remove(&id);
            }
        }
    }
}
