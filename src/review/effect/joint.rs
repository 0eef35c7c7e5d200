//! Two laws side by side as one: the same conditions are one condition, and every
//! question that is answered alike on both sides is one question.

use super::common::{Common, Numbers, Seen};
use crate::glossary::expr::Check;
use crate::glossary::model::{ChoiceId, FieldId, Order, PlaceId, QuestionId, Shape, SubjectId};
use crate::law::Arena;
use crate::law::model::{
    Clause, CondId, Demand, Effect, Law, Node, Note, PowerStep, Provision, ProvisionId, QuestionLaw, SourceId,
    UnknownSpan,
};
use crate::rules::Rules;
use crate::syntax::diagnostic::Diagnostic;
use crate::values::{Date, Terms};
use crate::verdict::first_reaching;
use std::collections::BTreeMap;

/// A law at a place; where a day is given, for jobs all of whose dates are that day.
#[derive(Clone, Copy)]
pub(crate) struct Side<'r> {
    pub(crate) rules: &'r Rules,
    pub(crate) place: PlaceId,
    pub(crate) on: Option<Date>,
}

/// A question as it stands on the two sides.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pair {
    /// Among the questions of the common glossary.
    pub(crate) question: QuestionId,
    /// Its place among the questions of the joint law, before and after; nothing
    /// where the side does not know it.
    pub(crate) sides: [Option<usize>; 2],
}

/// Two laws as one.
#[derive(Debug)]
pub(crate) struct Joint {
    pub(crate) law: Law,
    pub(crate) common: Common,
    pub(crate) numbers: [Numbers; 2],
    /// Every question that is known on a side and is not made of the same provisions
    /// on both.
    pub(crate) pairs: Vec<Pair>,
    /// How many questions stand on the same provisions on both sides.
    pub(crate) same: usize,
    /// What the texts of each side say that answers no question.
    pub(crate) notes: [Vec<Note>; 2],
    /// What a verdict of each side tells beside binding answers and notes.
    pub(crate) beside: [Vec<Beside>; 2],
}

/// Something that a verdict tells beside binding answers and notes.
#[derive(Debug, PartialEq)]
pub(crate) struct Beside {
    pub(crate) what: What,
    /// When it is told.
    pub(crate) conditions: Vec<CondId>,
}

/// What is told.
#[derive(Debug, PartialEq)]
pub(crate) enum What {
    Advice(QuestionId, Effect),
    Finding(QuestionId),
    Caution(Box<str>),
    Presumed(FieldId),
    Governed(SubjectId),
    /// An edition in force.
    Edition(Box<str>, i32, SubjectId),
    /// An instrument to come, with its status.
    Pending(Box<str>, Box<str>),
}

impl Joint {
    /// Puts the law after beside the law before.
    ///
    /// # Errors
    /// Where the law of a place cannot be made.
    pub(crate) fn new(before: Side<'_>, after: Side<'_>) -> Result<Joint, Diagnostic> {
        let sides = [before, after];
        let mut laws = Vec::with_capacity(2);
        let mut paths = Vec::with_capacity(2);
        for side in sides {
            let library = side.rules.library();
            laws.push(library.law(side.place).map_err(Clone::clone)?);
            paths.push(library.places.path(side.place));
        }
        let seen = |number: usize| {
            let side = sides.get(number).copied().unwrap_or(before);
            Seen { glossary: &side.rules.library().glossary, path: paths.get(number).map_or(&[][..], Vec::as_slice) }
        };
        let (common, numbers) = Common::new(seen(0), seen(1));
        let mut copy = Copy::new(&common);
        for ((law, side), numbers) in laws.iter().zip(sides).zip(&numbers) {
            copy.side(law, side, numbers);
        }
        let Copy { arena, law, pairs, same, notes, beside, .. } = copy;
        let mut law = law;
        law.nodes = arena.into_nodes();
        let pairs = pairs.into_iter().map(|(question, sides)| Pair { question, sides }).collect();
        Ok(Joint { law, common, numbers, pairs, same, notes, beside })
    }
}

/// The joint law while it is made.
struct Copy<'c> {
    common: &'c Common,
    arena: Arena,
    law: Law,
    /// Questions of the first side by their common number.
    first: BTreeMap<QuestionId, usize>,
    pairs: BTreeMap<QuestionId, [Option<usize>; 2]>,
    same: usize,
    notes: [Vec<Note>; 2],
    beside: [Vec<Beside>; 2],
    second: bool,
}

/// One side while it is copied.
struct Origin<'s> {
    law: &'s Law,
    side: Side<'s>,
    numbers: &'s Numbers,
    nodes: Vec<Option<CondId>>,
    questions: Vec<usize>,
    spans: Vec<Option<usize>>,
    sources: u32,
}

impl<'c> Copy<'c> {
    fn new(common: &'c Common) -> Copy<'c> {
        Copy {
            common,
            arena: Arena::new(),
            law: Law::empty(PlaceId(0)),
            first: BTreeMap::new(),
            pairs: BTreeMap::new(),
            same: 0,
            notes: [Vec::new(), Vec::new()],
            beside: [Vec::new(), Vec::new()],
            second: false,
        }
    }

    fn side(&mut self, law: &Law, side: Side<'_>, numbers: &Numbers) {
        let mut from = Origin {
            law,
            side,
            numbers,
            nodes: vec![None; law.nodes.len()],
            questions: Vec::with_capacity(law.questions.len()),
            spans: vec![None; law.spans.len()],
            sources: self.law.sources.len() as u32,
        };
        self.law.sources.extend(law.sources.iter().cloned());
        for own in &law.questions {
            let made = self.question(&mut from, own);
            let id = made.question;
            let twin = self.first.get(&id).copied().filter(|_| self.second);
            if let Some(twin) = twin
                && own.contrary.is_empty()
                && self.law.questions.get(twin).is_some_and(|known| self.alike(known, &made))
            {
                self.pairs.remove(&id);
                self.same += 1;
                from.questions.push(twin);
                continue;
            }
            let at = self.law.questions.len();
            self.law.questions.push(made);
            from.questions.push(at);
            let slot = usize::from(self.second);
            if let Some(slot) = self.pairs.entry(id).or_default().get_mut(slot) {
                *slot = Some(at);
            }
            if !self.second {
                self.first.insert(id, at);
            }
        }
        for (own, at) in law.questions.iter().zip(&from.questions) {
            let contrary: Vec<usize> =
                own.contrary.iter().filter_map(|other| from.questions.get(*other)).copied().collect();
            if let Some(made) = self.law.questions.get_mut(*at).filter(|_| !contrary.is_empty()) {
                made.contrary = contrary;
            }
        }
        let notes: Vec<Note> = law
            .notes
            .iter()
            .map(|note| Note {
                guard: self.cond(&mut from, note.guard),
                text: note.text.clone(),
                source: SourceId(note.source.0 + from.sources),
            })
            .collect();
        if let Some(slot) = self.notes.get_mut(usize::from(self.second)) {
            *slot = notes;
        }
        let beside = self.beside(&mut from);
        if let Some(slot) = self.beside.get_mut(usize::from(self.second)) {
            *slot = beside;
        }
        self.frame(&mut from);
        self.second = true;
    }

    fn beside(&mut self, from: &mut Origin<'_>) -> Vec<Beside> {
        let law = from.law;
        let mut beside = Vec::new();
        let mut tell = |what: What, conditions: Vec<CondId>| beside.push(Beside { what, conditions });
        for own in &law.questions {
            let question = from.numbers.question(own.question);
            let shape = self.parts(from, own);
            let finding = std::iter::once(own.asked).chain(own.met).map(|cond| self.cond(from, cond));
            tell(What::Finding(question), finding.collect());
            for advice in own.advice.iter().filter_map(|id| law.provisions.get(id.0 as usize)) {
                let effect = shape.effect(&advice.effect, from.numbers);
                let conditions = [advice.reach, advice.guard].map(|cond| self.cond(from, cond));
                tell(What::Advice(question, effect), conditions.into());
            }
        }
        for caution in &law.cautions {
            tell(What::Caution(caution.text.clone()), vec![self.cond(from, caution.cond)]);
        }
        for (field, cond) in &law.presumed {
            tell(What::Presumed(from.numbers.field(*field)), vec![self.cond(from, *cond)]);
        }
        for (subject, cond) in &law.governed {
            tell(What::Governed(from.numbers.subject(*subject)), vec![self.cond(from, *cond)]);
        }
        for code in &law.codes {
            let subject = from.numbers.subject(code.subject);
            tell(What::Edition(code.code.clone(), code.edition, subject), vec![self.cond(from, code.reach)]);
        }
        for pending in &law.pending {
            let source = law.sources.get(pending.source.0 as usize);
            let instrument = source.map(|source| source.instrument.clone()).unwrap_or_default();
            tell(What::Pending(pending.status.clone(), instrument), Vec::new());
        }
        beside
    }

    /// Dates and days: what bounds the jobs that can be.
    fn frame(&mut self, from: &mut Origin<'_>) {
        let law = from.law;
        for field in &law.dating {
            let field = from.numbers.field(*field);
            if from.side.on.is_none() && !self.law.dating.contains(&field) {
                self.law.dating.push(field);
            }
        }
        self.law.first_day = match (self.law.first_day, law.first_day) {
            (Some(one), Some(two)) => Some(one.min(two)),
            (one, two) => one.or(two),
        };
        self.law.days.extend(&law.days);
        // Dates of entries are still held against it.
        self.law.days.extend(from.side.on);
        self.law.days.sort();
        self.law.days.dedup();
        for period in &law.periods {
            if !self.law.periods.contains(period) {
                self.law.periods.push(*period);
            }
        }
        self.law.code_choices.extend(law.code_choices.iter().cloned());
        self.law.code_choices.sort();
        self.law.code_choices.dedup();
    }

    fn parts(&self, from: &Origin<'_>, own: &QuestionLaw) -> Parts {
        let original = &from.side.rules.library().glossary[own.question];
        let choice = match original.order {
            Order::Only(choice) | Order::AllOf(choice) => Some(choice),
            _ => None,
        };
        let known = self.common.questions.get(usize::from(from.numbers.question(own.question).0));
        let parts = match known.and_then(|known| known.per) {
            Some((_, choice)) => self.common.lexicon().choice(choice).map_or(1, |choice| choice.terms.len()),
            None => 1,
        };
        Parts { choice, per: original.per.map(|(_, choice)| choice), parts }
    }

    fn question(&mut self, from: &mut Origin<'_>, own: &QuestionLaw) -> QuestionLaw {
        let question = from.numbers.question(own.question);
        let shape = self.parts(from, own);
        let Parts { choice, per, parts } = shape;
        let whole = own.whole.iter().filter_map(|id| self.provision(from, *id, &shape)).collect();
        let powers = own
            .powers
            .iter()
            .map(|power| PowerStep {
                kind: power.kind,
                cond: self.cond(from, power.cond),
                outer: power.outer.iter().filter_map(|id| self.provision(from, *id, &shape)).collect(),
                source: SourceId(power.source.0 + from.sources),
                depth: power.depth,
            })
            .collect();
        QuestionLaw {
            question,
            terms: choice.map_or(Terms::NONE, |choice| from.numbers.terms(choice, own.terms)),
            per_terms: per.map_or(Terms::NONE, |choice| from.numbers.terms(choice, own.per_terms)),
            parts,
            scale: own.scale.clone(),
            whole,
            powers,
            advice: Vec::new(),
            asked: CondId::TRUE,
            met: None,
            // The others may come later; told when all are there.
            contrary: Vec::new(),
        }
    }

    fn provision(&mut self, from: &mut Origin<'_>, id: ProvisionId, shape: &Parts) -> Option<ProvisionId> {
        let own = from.law.provisions.get(id.0 as usize)?;
        let effect = shape.effect(&own.effect, from.numbers);
        let clauses = own
            .clauses
            .iter()
            .map(|clause| Clause {
                cond: self.cond(from, clause.cond),
                fate: clause.fate,
                by: clause.by.map(|by| SourceId(by.0 + from.sources)),
            })
            .collect();
        let made = Provision {
            effect,
            reach: self.cond(from, own.reach),
            guard: self.cond(from, own.guard),
            clauses,
            source: SourceId(own.source.0 + from.sources),
            table: own.table.map(|table| SourceId(table.0 + from.sources)),
            words: own.words.clone(),
        };
        self.law.provisions.push(made);
        Some(ProvisionId(self.law.provisions.len() as u32 - 1))
    }

    fn cond(&mut self, from: &mut Origin<'_>, id: CondId) -> CondId {
        if let Some(Some(done)) = from.nodes.get(id.0 as usize) {
            return *done;
        }
        let Some(node) = from.law.nodes.get(id.0 as usize) else { return CondId::FALSE };
        let made = match node {
            Node::False => CondId::FALSE,
            Node::True => CondId::TRUE,
            Node::Not(part) => {
                let part = self.cond(from, *part);
                self.arena.not(part)
            }
            Node::And(parts) => {
                let parts: Vec<CondId> = parts.iter().map(|part| self.cond(from, *part)).collect();
                self.arena.and(parts)
            }
            Node::Or(parts) => {
                let parts: Vec<CondId> = parts.iter().map(|part| self.cond(from, *part)).collect();
                self.arena.or(parts)
            }
            Node::Field(field, check) => self.test(from, *field, check),
            Node::Entries { any, group, with } => {
                let with = self.cond(from, *with);
                self.arena.put(Node::Entries { any: *any, group: from.numbers.group(*group), with })
            }
            Node::Answer { question, rungs } => {
                let question = from.questions.get(*question).copied().unwrap_or(usize::MAX);
                self.arena.put(Node::Answer { question, rungs: *rungs })
            }
            Node::Span(span) => match self.span(from, *span) {
                Some(span) => self.arena.put(Node::Span(span)),
                None => CondId::FALSE,
            },
        };
        if let Some(slot) = from.nodes.get_mut(id.0 as usize) {
            *slot = Some(made);
        }
        made
    }

    fn span(&mut self, from: &mut Origin<'_>, number: usize) -> Option<usize> {
        if let Some(Some(done)) = from.spans.get(number) {
            return Some(*done);
        }
        let own = from.law.spans.get(number)?;
        let within = self.cond(from, own.within);
        let made = UnknownSpan { instrument: own.instrument.clone(), issuer: own.issuer.clone(), within };
        let same = |known: &UnknownSpan| {
            known.instrument == made.instrument && known.issuer == made.issuer && known.within == made.within
        };
        let at = self.law.spans.iter().position(same).unwrap_or_else(|| {
            self.law.spans.push(made);
            self.law.spans.len() - 1
        });
        if let Some(slot) = from.spans.get_mut(number) {
            *slot = Some(at);
        }
        Some(at)
    }

    fn test(&mut self, from: &Origin<'_>, field: FieldId, check: &Check) -> CondId {
        let glossary = &from.side.rules.library().glossary;
        let own = &glossary[field];
        let fixed = |field: FieldId| {
            let own = &glossary[field];
            let listed = own.group.is_some_and(|group| glossary[group].list);
            from.side.on.filter(|_| own.shape == Shape::Date && !listed)
        };
        let held = |yes: bool| if yes { CondId::TRUE } else { CondId::FALSE };
        let common = from.numbers.field(field);
        match (check, fixed(field)) {
            (Check::Within(period, other), given) => match (given, fixed(*other)) {
                // One day is within any period after itself.
                (Some(_), Some(_)) => CondId::TRUE,
                (None, Some(start)) => {
                    let from_start = self.arena.put(Node::Field(common, Check::From(start)));
                    let past = Check::Before(start.after(*period).next());
                    let to_end = self.arena.put(Node::Field(common, past));
                    self.arena.and([from_start, to_end])
                }
                (Some(day), None) => {
                    let other = from.numbers.field(*other);
                    let begun = self.arena.put(Node::Field(other, Check::Before(day.next())));
                    let first = Check::From(first_reaching(day, *period));
                    let reaching = self.arena.put(Node::Field(other, first));
                    self.arena.and([begun, reaching])
                }
                (None, None) => self.arena.put(Node::Field(common, Check::Within(*period, from.numbers.field(*other)))),
            },
            (Check::Before(day), Some(given)) => held(given < *day),
            (Check::From(day), Some(given)) => held(given >= *day),
            (Check::Among(terms), _) => {
                let terms = match own.shape {
                    Shape::Choice(choice) => from.numbers.terms(choice, *terms),
                    _ => *terms,
                };
                self.arena.put(Node::Field(common, Check::Among(terms)))
            }
            (Check::Includes(terms), _) => {
                let terms = match own.shape {
                    Shape::Several(choice) | Shape::Choice(choice) => from.numbers.terms(choice, *terms),
                    _ => *terms,
                };
                self.arena.put(Node::Field(common, Check::Includes(terms)))
            }
            (check, _) => self.arena.put(Node::Field(common, check.clone())),
        }
    }

    /// Whether two questions stand on the same provisions.
    fn alike(&self, one: &QuestionLaw, two: &QuestionLaw) -> bool {
        let provisions = |one: &[ProvisionId], two: &[ProvisionId]| {
            one.len() == two.len()
                && one.iter().zip(two).all(|(one, two)| {
                    let of = |id: &ProvisionId| self.law.provisions.get(id.0 as usize);
                    match (of(one), of(two)) {
                        (Some(one), Some(two)) => {
                            one.guard == two.guard && one.reach == two.reach && same_effect(&one.effect, &two.effect)
                        }
                        _ => false,
                    }
                })
        };
        one.terms == two.terms
            && one.per_terms == two.per_terms
            && one.scale == two.scale
            && provisions(&one.whole, &two.whole)
            && one.powers.len() == two.powers.len()
            && one
                .powers
                .iter()
                .zip(&two.powers)
                .all(|(one, two)| one.kind == two.kind && one.cond == two.cond && provisions(&one.outer, &two.outer))
    }
}

fn same_effect(one: &Effect, two: &Effect) -> bool {
    match (one, two) {
        (Effect::Refer(_), Effect::Refer(_)) => true,
        (Effect::Demand(one), Effect::Demand(two)) => {
            one.parts == two.parts && one.named == two.named && one.only == two.only
        }
        _ => false,
    }
}

/// How the demands of a question are numbered.
#[derive(Clone, Copy)]
struct Parts {
    choice: Option<ChoiceId>,
    per: Option<ChoiceId>,
    parts: usize,
}

impl Parts {
    fn effect(&self, own: &Effect, numbers: &Numbers) -> Effect {
        match own {
            Effect::Demand(demand) => Effect::Demand(self.demand(demand, numbers)),
            Effect::Refer(why) => Effect::Refer(why.clone()),
        }
    }

    /// A demand in common numbers.
    fn demand(&self, own: &Demand, numbers: &Numbers) -> Demand {
        let value = |part: u128| match self.choice {
            Some(choice) => numbers.terms(choice, Terms(part)).0,
            None => part,
        };
        let (mut parts, mut figures) = (vec![0u128; self.parts], vec![None; self.parts]);
        for (at, part) in own.parts.iter().enumerate() {
            let place = match self.per {
                Some(choice) => u16::try_from(at).map_or(usize::MAX, |at| usize::from(numbers.term(choice, at))),
                None => at,
            };
            if let Some(slot) = parts.get_mut(place) {
                *slot = value(*part);
            }
            if let Some(slot) = figures.get_mut(place) {
                *slot = own.figures.get(at).cloned().flatten();
            }
        }
        Demand {
            parts: parts.into(),
            named: self.per.map_or(own.named, |choice| numbers.terms(choice, own.named)),
            only: own.only,
            figures: figures.into(),
        }
    }
}
