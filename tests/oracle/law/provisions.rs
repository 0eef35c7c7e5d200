//! What the law in view demands: every demand of every text that stands, with
//! the condition under which it binds.

use super::adopt::Adopting;
use super::clerk::Clerk;
use super::facts::{Around, Holds};
use super::force::View;
use super::text::{Item, Text};
use crate::glossary::demand::{Asked, AskedKind};
use crate::glossary::expr::{Expr, Say};
use crate::glossary::model::{Order, QuestionId, SubjectId};
use crate::law::instrument::InstrumentId;
use crate::law::text::{Demanded, DemandedKind, Section, TableName};
use std::rc::Rc;
use std::sync::Arc;

/// Where a provision stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Layer {
    Code(Box<str>),
    Own,
    Instructions,
}

/// What one provision does to one question.
#[derive(Clone, Debug)]
pub(super) enum Does {
    Demand(AskedKind),
    Refer,
    /// `instructions bind`: nothing of itself.
    Bind,
}

/// One demand on one question, read for the job.
#[derive(Clone, Debug)]
pub(super) struct Provision {
    pub(super) does: Does,
    pub(super) holds: Holds,
    pub(super) layer: Layer,
    /// Whose law it is: who made or adopted it, and who amended it.
    pub(super) laws: Vec<InstrumentId>,
    /// The section's conditions, for what instructions say.
    pub(super) wheres: Vec<Expr>,
}

/// A text that reaches the job, and the subjects for which it does.
struct Standing {
    text: Rc<Text>,
    layer: Layer,
    /// The subjects of the code, and those for which the edition stands; nothing
    /// for what is no edition.
    on: Option<(Vec<SubjectId>, Vec<SubjectId>)>,
    adopting: Option<Adopting>,
    /// The instrument whose own sections they are.
    owner: Option<InstrumentId>,
}

impl Standing {
    /// Whether a demand of one of its sections on a question of this subject reaches.
    fn reaches(&self, section: &Section, subject: SubjectId) -> bool {
        let Some((governed, stands)) = &self.on else { return true };
        if governed.contains(&subject) {
            return stands.contains(&subject);
        }
        let of = if section.subjects.is_empty() { governed } else { &section.subjects };
        of.iter().any(|subject| stands.contains(subject))
    }
}

/// The surroundings of one section's conditions.
struct Within<'c, 'a> {
    clerk: &'c Clerk<'a>,
    text: &'c Text,
    section: &'c Section,
}

impl Around for Within<'_, '_> {
    fn rung(&self, question: QuestionId) -> Option<u16> {
        self.clerk.rung(question)
    }

    fn say(&self, say: &Say) -> Holds {
        self.clerk.instructions_say(say, self.section, self.text)
    }

    fn defined(&self, name: &Arc<str>) -> Holds {
        let named = |item: &&Item| *item.number == **name && item.section.definition;
        self.text
            .items
            .iter()
            .filter(named)
            .map(|item| Within { section: &item.section, ..*self }.applies(item))
            .fold(Holds::No, Holds::or)
    }
}

impl Within<'_, '_> {
    fn read(&self, expr: &Expr) -> Holds {
        self.clerk.facts.read(expr, self, None)
    }

    fn all(&self, exprs: &[Expr]) -> Holds {
        exprs.iter().map(|expr| self.read(expr)).fold(Holds::Yes, Holds::and)
    }

    fn any(&self, exprs: &[Expr]) -> Holds {
        exprs.iter().map(|expr| self.read(expr)).fold(Holds::No, Holds::or)
    }

    /// Whether the section applies, its exceptions heeded.
    fn applies(&self, item: &Item) -> Holds {
        let section = &item.section;
        self.all(&section.wheres).and(self.any(&section.excepts).not()).and(self.any(&item.excepts).not())
    }
}

impl Clerk<'_> {
    pub(super) fn subject_of(&self, question: QuestionId) -> SubjectId {
        self.library.glossary.questions[usize::from(question.0)].subject
    }

    fn texts_in_view(&self, view: View) -> Vec<Standing> {
        let mut found = Vec::new();
        for (adopting, stands) in self.in_force(view) {
            let code = self.code_of(self.adoption(adopting).edition);
            found.push(Standing {
                text: self.adopted_text(adopting, view),
                layer: Layer::Code(code.name.clone()),
                on: Some((code.subjects.clone(), stands)),
                adopting: Some(adopting),
                owner: None,
            });
        }
        for id in self.law(view) {
            if self.in_effect(id, view) {
                found.push(Standing {
                    text: self.own_text(id, view),
                    layer: Layer::Own,
                    on: None,
                    adopting: None,
                    owner: Some(id),
                });
            }
        }
        found
    }

    /// What the law in view says on a question.
    pub(super) fn provisions(&self, question: QuestionId, view: View) -> Vec<Provision> {
        let mut found = Vec::new();
        for standing in self.texts_in_view(view) {
            let subject = self.subject_of(question);
            for item in &standing.text.items {
                let on = if item.section.subjects.is_empty() { vec![subject] } else { item.section.subjects.clone() };
                let taken = standing
                    .owner
                    .is_some_and(|id| on.iter().any(|subject| self.taken_over(*subject, self.depth(id), view)));
                if !taken && !item.section.definition && standing.reaches(&item.section, subject) {
                    self.of_item(question, &standing, item, view, &mut found);
                }
            }
            let Some(adopting) = standing.adopting else { continue };
            let plain = |law| Provision {
                does: Does::Refer,
                holds: Holds::Yes,
                layer: standing.layer.clone(),
                laws: vec![law],
                wheres: Vec::new(),
            };
            let (governed, stands) = standing.on.as_ref().expect("an edition has subjects");
            let there = if governed.contains(&subject) { stands.contains(&subject) } else { true };
            let lost = standing.text.lost.iter().filter(|(asked, _)| *asked == question && there);
            found.extend(lost.map(|(_, id)| plain(*id)));
            let edition = self.library.codes.edition(self.adoption(adopting).edition).expect("an edition");
            let unread = edition.unread.iter().any(|(_, asked, _)| match asked.is_empty() {
                true => stands.contains(&subject),
                false => asked.contains(&question) && there,
            });
            if unread || edition.text_not_here && stands.contains(&subject) {
                found.push(plain(adopting.0));
            }
        }
        self.with_instructions(question, found)
    }

    fn of_item(&self, question: QuestionId, standing: &Standing, item: &Item, view: View, found: &mut Vec<Provision>) {
        let section = &*item.section;
        let within = Within { clerk: self, text: &standing.text, section };
        let mut push = |demand: &Demanded, law: InstrumentId, holds: &dyn Fn() -> Holds, refers: &dyn Fn() -> Holds| {
            if !demand.kind.questions().contains(&question) {
                return;
            }
            let mut add = |does: Does, holds: Holds| {
                let layer = standing.layer.clone();
                let mut laws = vec![law, item.law];
                laws.extend(standing.adopting.map(|(id, _)| id));
                laws.extend(standing.owner);
                found.push(Provision { does, holds, layer, laws, wheres: section.wheres.clone() });
            };
            match &demand.kind {
                DemandedKind::Value(asked) => add(Does::Demand(asked.kind.clone()), holds()),
                DemandedKind::Table { from, .. } => {
                    for does in self.look_up(from, &standing.text, view) {
                        add(does, holds());
                    }
                }
                DemandedKind::Refer { .. } => add(Does::Refer, refers()),
                DemandedKind::Bind(_) => add(Does::Bind, holds()),
                DemandedKind::Note(_) => {}
            }
        };
        let applies = || within.applies(item);
        // A reading answers what the section leaves to the authority.
        let unread = || {
            let speaks = |read: &&(Arc<Section>, InstrumentId)| read.0.questions().contains(&question);
            let read = item
                .reads
                .iter()
                .filter(speaks)
                .map(|(read, _)| self.reading(&within, read))
                .fold(Holds::No, Holds::or);
            applies().and(read.not())
        };
        for demand in &section.demands {
            push(demand, item.law, &applies, &unread);
        }
        for (read, law) in &item.reads {
            for demand in &read.demands {
                let holds = || applies().and(self.reading(&within, read));
                push(demand, *law, &holds, &holds);
            }
        }
        for case in &section.cases {
            for demand in &case.demands {
                let holds = || within.all(&section.wheres).and(within.read(&case.cond));
                push(demand, item.law, &holds, &holds);
            }
        }
        for (cond, demands, law) in &item.cases {
            for demand in demands {
                let holds = || within.all(&section.wheres).and(within.read(cond));
                push(demand, *law, &holds, &holds);
            }
        }
    }

    fn reading(&self, within: &Within<'_, '_>, read: &Section) -> Holds {
        within.all(&read.wheres).and(within.any(&read.excepts).not())
    }

    /// What a table gives, in every edition that it may stand in.
    fn look_up(&self, from: &TableName, here: &Rc<Text>, view: View) -> Vec<Does> {
        let texts: Vec<Rc<Text>> = match (&from.code, from.year) {
            (None, _) => vec![Rc::clone(here)],
            (Some(code), Some(year)) => {
                let edition = self.library.codes.find(code, year).expect("an edition");
                vec![Rc::new(self.printed_text(edition))]
            }
            (Some(code), None) => self
                .in_force(view)
                .into_iter()
                .filter(|(adopting, _)| self.code_of(self.adoption(*adopting).edition).name == *code)
                .map(|(adopting, _)| self.adopted_text(adopting, view))
                .collect(),
        };
        let tables = texts.iter().flat_map(|text| &text.items).filter(|item| item.number == from.number);
        let found = tables.filter_map(|item| item.section.table.as_ref());
        let mut found: Vec<Does> = found.map(|table| self.row(table).unwrap_or(Does::Refer)).collect();
        if found.is_empty() {
            found.push(Does::Refer);
        }
        found
    }

    /// The first row whose limit is not exceeded.
    fn row(&self, table: &crate::law::text::Table) -> Option<Does> {
        use crate::job::model::Given;
        let Given::Measure(key) = self.facts.value(table.key, None) else { return None };
        let column = match &table.per {
            None => 0,
            Some((field, terms)) => {
                let Given::Term(term) = self.facts.value(*field, None) else { return None };
                terms.iter().position(|terms| terms.has(*term))?
            }
        };
        let row = table.rows.iter().find(|row| {
            let limit = row.limits[column].amount;
            if row.over { key.amount > limit } else { key.amount <= limit }
        })?;
        let limits = row.gives.iter().cloned().zip(table.columns.iter().copied()).collect();
        Some(Does::Demand(AskedKind::Limits(limits)))
    }

    /// What instructions that are in force say on a question.
    fn instructed(&self, question: QuestionId) -> Vec<Provision> {
        let mut found = Vec::new();
        for id in self.instructions() {
            for (_, section) in &self.instrument(id).sections {
                let item = Item {
                    key: super::text::Key::Own(Box::default()),
                    number: Box::default(),
                    section: Arc::clone(section),
                    law: id,
                    excepts: Vec::new(),
                    cases: Vec::new(),
                    reads: Vec::new(),
                };
                let standing =
                    Standing { text: Rc::default(), layer: Layer::Instructions, on: None, adopting: None, owner: None };
                self.of_item(question, &standing, &item, self.whole(), &mut found);
            }
        }
        found
    }

    /// What instructions say is law where a provision makes it so.
    fn with_instructions(&self, question: QuestionId, law: Vec<Provision>) -> Vec<Provision> {
        let (binds, mut law): (Vec<Provision>, Vec<Provision>) =
            law.into_iter().partition(|provision| matches!(provision.does, Does::Bind));
        // What instructions say is then the law of whoever makes them binding.
        for bind in &binds {
            law.extend(self.instructed(question).into_iter().map(|mut said| {
                said.holds = said.holds.and(bind.holds);
                said.laws.clone_from(&bind.laws);
                said
            }));
        }
        law
    }

    /// `instructions say Q is W`, in a section of a text.
    fn instructions_say(&self, say: &Say, section: &Section, text: &Text) -> Holds {
        let Asked { question, kind: wanted } = &*say.demand;
        let said = self.instructed(*question);
        let less = self.asks_less(*question, wanted, section);
        let (mut some, mut stricter) = (Holds::No, Holds::No);
        for provision in &said {
            let Does::Demand(kind) = &provision.does else { continue };
            match self.compare(*question, kind, wanted) {
                // What asks less holds only where every run that the law selects
                // meets the instruction's own condition.
                Compared::Says if less && !self.meets_all(section, text, provision) => {}
                Compared::Says => some = some.or(provision.holds),
                Compared::Stricter => stricter = stricter.or(provision.holds),
                Compared::Less => {}
            }
        }
        some.and(stricter.not())
    }

    /// Whether the word asks less than the section does. Of a question on which
    /// the section demands nothing, only the strictest rung does not.
    fn asks_less(&self, question: QuestionId, wanted: &AskedKind, section: &Section) -> bool {
        let own = section.demands.iter().find_map(|demand| match &demand.kind {
            DemandedKind::Value(asked) if asked.question == question => Some(&asked.kind),
            _ => None,
        });
        match own {
            Some(own) => {
                matches!(self.compare(question, own, wanted), Compared::Stricter | Compared::Less)
            }
            None => match (&self.question(question).order, wanted) {
                (Order::Ladder(rungs), AskedKind::Rung(rung)) => usize::from(*rung) + 1 < rungs.len(),
                _ => true,
            },
        }
    }

    fn meets_all(&self, section: &Section, text: &Text, provision: &Provision) -> bool {
        let mut selects = runs(&section.wheres);
        for name in defined_names(&section.wheres) {
            for item in text.items.iter().filter(|item| item.section.definition && *item.number == *name) {
                selects.extend(runs(&item.section.wheres));
            }
        }
        selects.iter().all(|(group, with)| {
            self.facts.entries(*group).iter().all(|entry| {
                let meets =
                    |with: &Expr| self.facts.read(with, &super::facts::FactsOnly, Some((*group, entry))) == Holds::Yes;
                !meets(with) || runs(&provision.wheres).iter().all(|(list, with)| list != group || meets(with))
            })
        })
    }

    /// How what instructions give stands to what they are asked for.
    fn compare(&self, question: QuestionId, gives: &AskedKind, wanted: &AskedKind) -> Compared {
        let says = |says: bool| if says { Compared::Says } else { Compared::Less };
        match (gives, wanted) {
            (AskedKind::Rung(one), AskedKind::Rung(other)) if one > other => Compared::Stricter,
            (AskedKind::Rung(one), AskedKind::Rung(other)) => says(one == other),
            (AskedKind::Limits(one), AskedKind::Limits(other)) => {
                let ([one], [other]) = (one.as_slice(), other.as_slice()) else { panic!("limits for terms") };
                says(match self.question(question).order {
                    Order::AtLeast(_) => one.0.amount >= other.0.amount,
                    _ => one.0.amount <= other.0.amount,
                })
            }
            (AskedKind::Required(one), AskedKind::Required(other)) => says(other.within(*one)),
            (AskedKind::Permitted { .. }, AskedKind::Permitted { .. }) => {
                says(self.permitted(question, gives).within(self.permitted(question, wanted)))
            }
            _ => panic!("demands of two orders"),
        }
    }
}

enum Compared {
    /// The very answer or, for limits and sets, a stricter one.
    Says,
    Stricter,
    Less,
}

/// The lists of which a condition selects entries.
fn runs(wheres: &[Expr]) -> Vec<(crate::glossary::model::GroupId, &Expr)> {
    let mut found = Vec::new();
    let mut rest: Vec<&Expr> = wheres.iter().collect();
    while let Some(expr) = rest.pop() {
        match expr {
            Expr::And(parts) | Expr::Or(parts) => rest.extend(parts),
            Expr::Entries { any: true, group, with } => found.push((*group, &**with)),
            _ => {}
        }
    }
    found
}

fn defined_names(wheres: &[Expr]) -> Vec<Arc<str>> {
    let mut found = Vec::new();
    let mut rest: Vec<&Expr> = wheres.iter().collect();
    while let Some(expr) = rest.pop() {
        match expr {
            Expr::And(parts) | Expr::Or(parts) => rest.extend(parts),
            Expr::Defined(name, _) => found.push(Arc::clone(name)),
            _ => {}
        }
    }
    found
}
