//! Conditions read against a job as far as they can be decided without trying
//! completions. This is the fast path, not the definition.

use super::check::{passes, within};
use super::hash::Table;
use super::lexicon::Lexicon;
use super::plan::{Look, Plan};
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId};
use crate::job::model::{Entries, Given, Job};
use crate::law::model::{CondId, Law, Node};
use crate::values::Terms;

/// What is known of a condition.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Mark {
    /// It holds in no completion.
    No,
    /// In every completion it turns on a question that is referred.
    Refers,
    /// It holds in every completion.
    Yes,
    /// Not decided here.
    Open,
}

impl Mark {
    pub(crate) fn not(self) -> Mark {
        match self {
            Mark::No => Mark::Yes,
            Mark::Yes => Mark::No,
            same => same,
        }
    }

    pub(crate) fn of(value: bool) -> Mark {
        if value { Mark::Yes } else { Mark::No }
    }

    pub(crate) fn or(self, other: Mark) -> Mark {
        match (self, other) {
            (Mark::Yes, _) | (_, Mark::Yes) => Mark::Yes,
            (Mark::Open, _) | (_, Mark::Open) => Mark::Open,
            (Mark::Refers, _) | (_, Mark::Refers) => Mark::Refers,
            _ => Mark::No,
        }
    }
}

/// What is known of an earlier question when a condition tests it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Rung {
    Undecided,
    Referred,
    At(u128),
}

/// A law, what a job may say, and one job.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Matter<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) law: &'a Law,
    pub(crate) lexicon: Lexicon<'a>,
    pub(crate) job: &'a Job,
}

/// The entry in which a condition is read.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Entry<'a> {
    pub(crate) group: GroupId,
    pub(crate) values: &'a [Given],
}

const UNKNOWN: &Given = &Given::Unknown;

impl<'a> Matter<'a> {
    /// What the job says of a fact; a choice of a code that is not offered is as unknown.
    pub(crate) fn fact(&self, field: FieldId) -> &'a Given {
        let value = self.job.values.get(usize::from(field.0)).unwrap_or(UNKNOWN);
        match value {
            Given::Name(name) if self.lexicon.roles.code == Some(field) && !self.plan.codes.is_empty() => {
                if self.plan.codes.binary_search(name).is_ok() { value } else { UNKNOWN }
            }
            _ => value,
        }
    }

    pub(crate) fn list(&self, group: GroupId) -> Option<&'a Entries> {
        self.job.lists.get(usize::from(group.0))
    }

    /// The value of a field, where it is an attribute of the entry's list that of the entry.
    pub(crate) fn value<'v>(&self, field: FieldId, entry: Option<Entry<'v>>) -> &'v Given
    where
        'a: 'v,
    {
        match (entry, self.lexicon.field(field)) {
            (Some(entry), Some(known)) if known.group == Some(entry.group) => {
                entry.values.get(usize::from(known.column)).unwrap_or(UNKNOWN)
            }
            _ => self.fact(field),
        }
    }

    /// Whether a fact is left unsaid and follows a condition.
    pub(crate) fn presumed(&self, field: FieldId) -> Option<CondId> {
        let cond = self.plan.presumption(field)?;
        (*self.fact(field) == Given::Unknown).then_some(cond)
    }
}

/// The memory of one reading.
#[derive(Debug, Default)]
pub(crate) struct Memo {
    marks: Vec<Option<Mark>>,
    pub(crate) rungs: Vec<Rung>,
    /// Conditions that only all completions could decide. Instruments of one day share theirs, and every reason asks.
    pub(crate) tried: Table<CondId, Mark>,
}

impl Memo {
    /// Forgets everything, for a law of this size.
    pub(crate) fn reset(&mut self, law: &Law) {
        self.marks.clear();
        self.marks.resize(law.nodes.len(), None);
        self.rungs.clear();
        self.rungs.resize(law.questions.len(), Rung::Undecided);
        self.tried.clear();
    }

    /// Reads a condition.
    pub(crate) fn read(&mut self, matter: &Matter<'_>, id: CondId) -> Mark {
        match id {
            CondId::FALSE => return Mark::No,
            CondId::TRUE => return Mark::Yes,
            _ => {}
        }
        if let Some(Some(mark)) = self.marks.get(id.0 as usize) {
            return *mark;
        }
        let mark = self.work_out(matter, id, None);
        if let Some(slot) = self.marks.get_mut(id.0 as usize) {
            *slot = Some(mark);
        }
        mark
    }

    /// Reads a condition in an entry of a list.
    pub(crate) fn read_in(&mut self, matter: &Matter<'_>, id: CondId, entry: Option<Entry<'_>>) -> Mark {
        if entry.is_some() && matter.plan.inner.get(id.0 as usize).copied().unwrap_or(false) {
            self.work_out(matter, id, entry)
        } else {
            self.read(matter, id)
        }
    }

    fn work_out(&mut self, matter: &Matter<'_>, id: CondId, entry: Option<Entry<'_>>) -> Mark {
        match matter.law.node(id) {
            Node::False => Mark::No,
            Node::True => Mark::Yes,
            Node::Not(part) => self.read_in(matter, *part, entry).not(),
            Node::And(parts) => {
                let mut all = Mark::Yes;
                for part in parts {
                    match self.read_in(matter, *part, entry) {
                        Mark::No => return Mark::No,
                        Mark::Yes => {}
                        Mark::Open => all = Mark::Open,
                        Mark::Refers if all == Mark::Yes => all = Mark::Refers,
                        Mark::Refers => {}
                    }
                }
                all
            }
            Node::Or(parts) => {
                let mut any = Mark::No;
                for part in parts {
                    any = any.or(self.read_in(matter, *part, entry));
                    if any == Mark::Yes {
                        break;
                    }
                }
                any
            }
            Node::Field(field, check) => self.test(matter, *field, check, entry),
            Node::Entries { any, group, with } => {
                let found = self.any_entry(matter, *group, *with);
                if *any { found } else { found.not() }
            }
            Node::Answer { question, rungs } => match self.rungs.get(*question) {
                Some(Rung::At(rung)) => Mark::of(u16::try_from(*rung).is_ok_and(|rung| rungs.has(rung))),
                Some(Rung::Referred) => Mark::Refers,
                _ => Mark::Open,
            },
            Node::Span(span) => match matter.law.spans.get(*span).map(|span| self.read(matter, span.within)) {
                None | Some(Mark::No) => Mark::No,
                Some(_) => Mark::Open,
            },
        }
    }

    fn any_entry(&mut self, matter: &Matter<'_>, group: GroupId, with: CondId) -> Mark {
        let Some(list) = matter.list(group) else { return Mark::Open };
        let mut any = if list.more { Mark::Open } else { Mark::No };
        for values in &list.entries {
            any = any.or(self.read_in(matter, with, Some(Entry { group, values })));
            if any == Mark::Yes {
                return any;
            }
        }
        if any == Mark::Open && with == CondId::FALSE { Mark::No } else { any }
    }

    fn test(&mut self, matter: &Matter<'_>, field: FieldId, check: &Check, entry: Option<Entry<'_>>) -> Mark {
        let value = matter.value(field, entry);
        if let Check::Within(period, other) = check {
            let start = matter.value(*other, entry);
            return match (value, start) {
                (Given::NoDate, _) | (_, Given::NoDate) => Mark::No,
                (Given::Unknown, _) | (_, Given::Unknown) => Mark::Open,
                _ => Mark::of(within(value, *period, start)),
            };
        }
        if *value != Given::Unknown {
            return Mark::of(passes(value, check));
        }
        match (matter.presumed(field), check) {
            (Some(cond), Check::Among(terms)) => follow(self.read(matter, cond), *terms),
            _ => Mark::Open,
        }
    }
}

/// Whether a presumed fact is among these (0 for no, 1 for yes), given the
/// condition that it follows.
pub(crate) fn follow(presumption: Mark, terms: Terms) -> Mark {
    match (terms.has(0), terms.has(1)) {
        (true, true) => Mark::Yes,
        (false, false) => Mark::No,
        (false, true) => presumption,
        (true, false) => presumption.not(),
    }
}
