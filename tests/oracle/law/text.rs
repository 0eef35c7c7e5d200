//! The text of an adopted edition, or of an instrument, as it stands for the job:
//! patches are carried out one after the other on a list of sections.

use super::adopt::Adopting;
use super::clerk::Clerk;
use super::force::View;
use crate::glossary::expr::Expr;
use crate::glossary::model::QuestionId;
use crate::law::instrument::{Amend, InstrumentId, Patch, Target};
use crate::law::text::{Demanded, EditionId, Lineage, Printed, Section};
use crate::syntax::tree::Action;
use std::collections::HashMap;
use std::rc::Rc;
use std::sync::Arc;

/// What makes a section the same through renumberings and replacements.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(super) enum Key {
    Printed(Lineage),
    Own(Box<str>),
    Added(InstrumentId, Box<str>),
}

/// One section as it stands.
#[derive(Clone, Debug)]
pub(super) struct Item {
    pub(super) key: Key,
    pub(super) number: Box<str>,
    pub(super) section: Arc<Section>,
    /// Whose law it is: who adopted it or wrote it last.
    pub(super) law: InstrumentId,
    /// Exceptions that amendments make.
    pub(super) excepts: Vec<Expr>,
    pub(super) cases: Vec<(Expr, Vec<Demanded>, InstrumentId)>,
    pub(super) reads: Vec<(Arc<Section>, InstrumentId)>,
}

/// A text as it stands.
#[derive(Debug, Default)]
pub(super) struct Text {
    pub(super) items: Vec<Item>,
    /// Questions on which an amendment of any edition found no section here.
    pub(super) lost: Vec<(QuestionId, InstrumentId)>,
}

/// What is patched.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Base {
    Edition(EditionId),
    Instrument(InstrumentId),
}

type Numbers = Vec<(Key, Box<str>)>;

impl Clerk<'_> {
    /// The text of an adopted edition.
    pub(super) fn adopted_text(&self, adopting: Adopting, view: View) -> Rc<Text> {
        self.kept((view, adopting.0, Some(adopting.1)), || {
            let adoption = self.adoption(adopting);
            let first = if adoption.as_published { self.depth(adopting.0) } else { 0 };
            let mut items = self.printed_text(adoption.edition).items;
            items.iter_mut().for_each(|item| item.law = adopting.0);
            self.patched(Base::Edition(adoption.edition), items, first, view)
        })
    }

    /// The text of an edition as it was published.
    pub(super) fn printed_text(&self, edition: EditionId) -> Text {
        let printed = &self.library.codes.edition(edition).expect("an edition").sections;
        // Whose law it is does not matter to what a table gives.
        let plain =
            |printed: &Printed| item(Key::Printed(printed.lineage), &printed.number, &printed.section, InstrumentId(0));
        Text { items: printed.iter().map(plain).collect(), lost: Vec::new() }
    }

    /// The sections of an instrument.
    pub(super) fn own_text(&self, id: InstrumentId, view: View) -> Rc<Text> {
        self.kept((view, id, None), || {
            let own = self.instrument(id).sections.iter();
            let items = own.map(|(number, section)| item(Key::Own(number.clone()), number, section, id)).collect();
            let mut text = self.patched(Base::Instrument(id), items, 0, view);
            text.items.retain(|item| !self.part_suspended(id, &item.number, view));
            text
        })
    }

    fn kept(&self, key: (View, InstrumentId, Option<usize>), make: impl FnOnce() -> Text) -> Rc<Text> {
        if let Some(text) = self.texts.borrow().get(&key) {
            return Rc::clone(text);
        }
        let text = Rc::new(make());
        self.texts.borrow_mut().insert(key, Rc::clone(&text));
        text
    }

    fn amends(&self, id: InstrumentId, base: Base) -> Vec<&Amend> {
        self.instrument(id)
            .amends
            .iter()
            .filter(|amend| match (&amend.target, base) {
                (Target::Edition(one), Base::Edition(other)) => *one == other,
                (Target::Any { code, .. }, Base::Edition(other)) => {
                    self.library.codes.edition(other).expect("an edition").code == *code
                }
                (Target::Instrument(one), Base::Instrument(other)) => *one == other,
                _ => false,
            })
            .collect()
    }

    fn printed_numbers(&self, base: Base) -> Numbers {
        match base {
            Base::Edition(id) => {
                let sections = &self.library.codes.edition(id).expect("an edition").sections;
                sections.iter().map(|printed| (Key::Printed(printed.lineage), printed.number.clone())).collect()
            }
            Base::Instrument(id) => {
                let sections = &self.instrument(id).sections;
                sections.iter().map(|(number, _)| (Key::Own(number.clone()), number.clone())).collect()
            }
        }
    }

    /// The numbers of a text on the day of an instrument: before it, or with its
    /// own renumberings and additions.
    fn numbers(&self, base: Base, id: InstrumentId, first: usize, with_own: bool) -> Numbers {
        let mut numbers = self.printed_numbers(base);
        let day = self.instrument(id).first_day();
        for other in self.law(self.depth(id) + 1) {
            let earlier = other != id && self.instrument(other).first_day() <= day && self.depth(other) >= first;
            if !(earlier || with_own && other == id) {
                continue;
            }
            for amend in self.amends(other, base) {
                renumber(&mut numbers, &amend.renumbers);
                for patch in amend.patches.iter().filter(|patch| patch.action == Action::Add) {
                    let depth = self.depth(other);
                    let again =
                        numbers.iter().any(|(key, number)| *number == patch.number && self.added_at(key, depth));
                    if !again {
                        numbers.push((Key::Added(other, patch.number.clone()), patch.number.clone()));
                    }
                }
            }
        }
        numbers
    }

    /// Whether an instrument of the place at this depth added the section.
    fn added_at(&self, key: &Key, depth: usize) -> bool {
        matches!(key, Key::Added(by, _) if self.depth(*by) == depth)
    }

    fn patched(&self, base: Base, items: Vec<Item>, first: usize, view: View) -> Text {
        let mut work = Work { text: Text { items, lost: Vec::new() }, taken: HashMap::new() };
        let law: Vec<InstrumentId> = self
            .law(view)
            .into_iter()
            .filter(|id| self.depth(*id) >= first && !self.amends(*id, base).is_empty())
            .collect();
        let mut rest = law.as_slice();
        while let [one, ..] = rest {
            let same = |other: &InstrumentId| {
                self.depth(*other) == self.depth(*one) && self.instrument(*other).rank() == self.instrument(*one).rank()
            };
            let tied = rest.iter().take_while(|other| same(other)).count();
            let (now, later) = rest.split_at(tied);
            self.patch_together(&mut work, base, now, first, view);
            rest = later;
        }
        work.text
    }

    /// Carries out the patches of one day: each meets the text as it was before.
    fn patch_together(&self, work: &mut Work, base: Base, tied: &[InstrumentId], first: usize, view: View) {
        let mut fresh: Vec<Item> = Vec::new();
        let mut away: Vec<(Key, InstrumentId)> = Vec::new();
        let mut after: Vec<(&Patch, InstrumentId, Vec<Key>)> = Vec::new();
        for &id in tied {
            if !self.in_effect(id, view) || self.out_of_hand(base, id, view) {
                continue;
            }
            {
                let (before, behind) = (self.numbers(base, id, first, false), self.numbers(base, id, first, true));
                for item in &mut work.text.items {
                    let find = |numbers: &Numbers| {
                        numbers.iter().find(|(key, _)| *key == item.key).map(|(_, number)| number.clone())
                    };
                    if let (Some(old), Some(new)) = (find(&before), find(&behind))
                        && old != new
                    {
                        item.number = new;
                    }
                }
            }
            for amend in self.amends(id, base) {
                for patch in &amend.patches {
                    if self.part_suspended(id, &patch.number, view) {
                        continue;
                    }
                    let Some(keys) = self.meant(base, id, amend, patch, first) else {
                        {
                            let asked = self.lost_questions(amend, patch);
                            work.text.lost.extend(asked.into_iter().map(|question| (question, id)));
                        }
                        continue;
                    };
                    match patch.action {
                        Action::Add => {
                            // What an earlier patch of the same place added is replaced.
                            let key = keys.first().expect("an addition has its own number").clone();
                            if work.stands(&key) {
                                away.push((key.clone(), id));
                            }
                            {
                                fresh.push(item(key, &patch.number, &patch.section, id));
                            }
                        }
                        Action::Replace | Action::Delete => {
                            let mut named = true;
                            for key in keys {
                                let stands = work.stands(&key);
                                let outer = work.taken.get(&key).is_some_and(|(depth, _)| *depth < self.depth(id));
                                if stands {
                                    away.push((key.clone(), id));
                                }
                                if named && patch.action == Action::Replace && (stands || outer) {
                                    fresh.push(work.replacement(key, patch, id));
                                }
                                named = false;
                            }
                        }
                        Action::Except | Action::Reads => after.push((patch, id, keys)),
                    }
                }
            }
        }
        for (key, id) in away {
            if let Some(old) = work.text.items.iter().find(|item| item.key == key).cloned() {
                work.taken.insert(key.clone(), (self.depth(id), old));
            }
            work.text.items.retain(|item| item.key != key);
        }
        for item in &fresh {
            work.taken.remove(&item.key);
        }
        work.text.items.extend(fresh);
        for (patch, id, keys) in after {
            let cond = Expr::And(patch.section.wheres.clone());
            for key in keys {
                let outer = work.taken.get(&key).is_some_and(|(depth, _)| *depth < self.depth(id));
                for item in work.text.items.iter_mut().filter(|item| item.key == key) {
                    if patch.action == Action::Reads {
                        item.reads.push((Arc::clone(&patch.section), id));
                        continue;
                    }
                    item.excepts.push(cond.clone());
                    if !patch.section.demands.is_empty() {
                        item.cases.push((cond.clone(), patch.section.demands.clone(), id));
                    }
                }
                if outer && patch.action == Action::Except && !patch.section.demands.is_empty() {
                    // Its target gone, it acts as a section of its own.
                    work.text.items.push(item(key.clone(), &patch.number, &patch.section, id));
                }
            }
        }
    }

    /// Whether outer places have taken every subject of the code out of the hands
    /// of the instrument's place.
    fn out_of_hand(&self, base: Base, id: InstrumentId, view: View) -> bool {
        match base {
            Base::Edition(edition) => {
                let mut subjects = self.code_of(edition).subjects.iter();
                subjects.all(|subject| self.taken_over(*subject, self.depth(id), view))
            }
            Base::Instrument(_) => false,
        }
    }

    /// The sections that a patch names by the numbers of its own day, the one
    /// with the very number first; nothing where the edition has none such.
    fn meant(&self, base: Base, id: InstrumentId, amend: &Amend, patch: &Patch, first: usize) -> Option<Vec<Key>> {
        let here = hits(&self.numbers(base, id, first, true), patch);
        let (Target::Any { numbered, .. }, Base::Edition(edition)) = (&amend.target, base) else {
            return Some(here);
        };
        let family = |edition: EditionId| self.library.codes.edition(edition).expect("an edition").family;
        // Editions that do not build on each other have nothing but their numbers in common.
        if patch.action == Action::Add || family(*numbered) != family(edition) {
            return (!here.is_empty()).then_some(here);
        }
        let mut keys = hits(&self.numbers(Base::Edition(*numbered), id, first, true), patch);
        let printed = self.printed_numbers(base);
        keys.retain(|key| !matches!(key, Key::Printed(_)) || printed.iter().any(|(other, _)| other == key));
        (!keys.is_empty()).then_some(keys)
    }

    fn lost_questions(&self, amend: &Amend, patch: &Patch) -> Vec<QuestionId> {
        let mut asked = patch.section.questions();
        if let Target::Any { numbered, .. } = &amend.target
            && let Some(printed) =
                self.library.codes.edition(*numbered).and_then(|edition| edition.section(&patch.number))
        {
            asked.extend(printed.section.questions());
        }
        asked
    }
}

/// A text at work.
struct Work {
    text: Text,
    /// What was taken away, and how deep the place lies that took it last.
    taken: HashMap<Key, (usize, Item)>,
}

impl Work {
    fn stands(&self, key: &Key) -> bool {
        self.text.items.iter().any(|item| item.key == *key)
    }

    /// The section that takes another's place: it has its number and, unless it
    /// says otherwise, its subjects.
    fn replacement(&self, key: Key, patch: &Patch, law: InstrumentId) -> Item {
        let mut new = item(key, &patch.number, &patch.section, law);
        let gone = self.taken.get(&new.key).map(|(_, old)| old);
        if let Some(old) = self.text.items.iter().find(|item| item.key == new.key).or(gone) {
            let mut section = (*new.section).clone();
            section.definition |= old.section.definition;
            if section.subjects.is_empty() {
                section.subjects.clone_from(&old.section.subjects);
            }
            new.number.clone_from(&old.number);
            new.section = Arc::new(section);
        }
        new
    }
}

fn item(key: Key, number: &str, section: &Arc<Section>, law: InstrumentId) -> Item {
    Item {
        key,
        number: number.into(),
        section: Arc::clone(section),
        law,
        excepts: Vec::new(),
        cases: Vec::new(),
        reads: Vec::new(),
    }
}

fn below(number: &str, whole: &str) -> bool {
    number.strip_prefix(whole).is_some_and(|rest| rest.starts_with('.') || rest.starts_with('('))
}

/// All renumberings at once; sub-sections go along.
fn renumber(numbers: &mut Numbers, lines: &[(Box<str>, Box<str>)]) {
    for (_, number) in numbers.iter_mut() {
        let line =
            lines.iter().filter(|(from, _)| *number == *from || below(number, from)).max_by_key(|(from, _)| from.len());
        if let Some((from, to)) = line {
            *number = format!("{to}{}", &number[from.len()..]).into();
        }
    }
}

fn hits(numbers: &Numbers, patch: &Patch) -> Vec<Key> {
    let exact = numbers.iter().rev().filter(|(_, number)| *number == patch.number).take(1);
    let under = numbers.iter().filter(|(_, number)| patch.and_under && below(number, &patch.number));
    exact.chain(under).map(|(key, _)| key.clone()).collect()
}
