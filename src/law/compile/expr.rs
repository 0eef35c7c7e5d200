//! Conditions of the glossary's form as numbered conditions of a place's law.

use super::Compiler;
use super::patch::Variants;
use crate::glossary::demand::{Asked, AskedKind};
use crate::glossary::expr::{Check, Expr, Say};
use crate::glossary::model::{GroupId, QuestionId};
use crate::law::model::{CondId, Node};
use crate::syntax::limits;
use crate::values::Terms;

/// In what text a condition stands.
#[derive(Clone, Copy, Default)]
pub(crate) struct Inside<'a> {
    /// The text whose definitions the condition may use.
    pub(crate) text: Option<&'a Variants>,
    /// What the section asks and where, for `instructions say`.
    pub(crate) rule: Option<Rule<'a>>,
    depth: usize,
}

/// The rule in which `instructions say` stands: its own conditions and demands.
#[derive(Clone, Copy)]
pub(crate) struct Rule<'a> {
    pub(crate) wheres: &'a [Expr],
    pub(crate) demands: &'a [crate::law::text::Demanded],
}

impl Inside<'_> {
    /// In a text, outside any rule.
    pub(crate) fn text(text: &Variants) -> Inside<'_> {
        Inside { text: Some(text), rule: None, depth: 0 }
    }
}

impl<'a> Inside<'a> {
    /// In a rule of the text.
    pub(crate) fn of_rule(self, rule: Rule<'a>) -> Inside<'a> {
        Inside { rule: Some(rule), ..self }
    }
}

impl<'l> Compiler<'l> {
    /// A condition that reads facts only.
    pub(crate) fn reach(&mut self, expr: &Expr) -> CondId {
        self.expr(expr, Inside::default())
    }

    /// Several, all of which must hold.
    pub(crate) fn reach_all(&mut self, exprs: &[Expr]) -> CondId {
        let parts: Vec<CondId> = exprs.iter().map(|expr| self.reach(expr)).collect();
        self.arena.and(parts)
    }

    /// Any condition.
    pub(crate) fn expr(&mut self, expr: &Expr, inside: Inside) -> CondId {
        match expr {
            Expr::Constant(true) => CondId::TRUE,
            Expr::Constant(false) => CondId::FALSE,
            Expr::And(parts) => {
                let parts: Vec<CondId> = parts.iter().map(|part| self.expr(part, inside)).collect();
                self.arena.and(parts)
            }
            Expr::Or(parts) => {
                let parts: Vec<CondId> = parts.iter().map(|part| self.expr(part, inside)).collect();
                self.arena.or(parts)
            }
            Expr::Not(part) => {
                let part = self.expr(part, inside);
                self.arena.not(part)
            }
            Expr::Field(_, Check::Among(Terms::NONE)) => CondId::FALSE,
            Expr::Field(field, check) => self.arena.put(Node::Field(*field, check.clone())),
            Expr::Entries { any, group, with } => {
                let with = self.expr(with, inside);
                self.entries(*any, *group, with)
            }
            Expr::Answer { question, rungs } => {
                // Numbered by question here; by place in the order of questions
                // once that is known.
                self.arena.put(Node::Answer { question: question.0 as usize, rungs: *rungs })
            }
            Expr::Say(say) => self.say(say, inside),
            Expr::Defined(name, _) => self.defined(name, inside),
        }
    }

    fn entries(&mut self, any: bool, group: GroupId, with: CondId) -> CondId {
        if with == CondId::FALSE {
            return if any { CondId::FALSE } else { CondId::TRUE };
        }
        // `no run with` is told as the contrary of `any run with`, so that the two
        // are known to be contrary.
        let found = self.arena.put(Node::Entries { any: true, group, with });
        if any { found } else { self.arena.not(found) }
    }

    /// A definition of the text at hand, as it stands after its patches.
    fn defined(&mut self, name: &str, inside: Inside) -> CondId {
        let Some(text) = inside.text else { return CondId::FALSE };
        if inside.depth > limits::NESTING.most {
            return CondId::FALSE;
        }
        let inside = Inside { depth: inside.depth + 1, rule: None, ..inside };
        let mut parts = Vec::new();
        for variant in text.list.iter().filter(|variant| variant.section.definition && &*variant.number == name) {
            let mut all: Vec<CondId> = variant.presence.iter().map(|clause| clause.cond).collect();
            for cond in &variant.section.wheres {
                all.push(self.expr(cond, inside));
            }
            let stands = self.arena.and(all);
            parts.push(stands);
        }
        self.arena.or(parts)
    }

    /// `instructions say Q is W`.
    fn say(&mut self, say: &Say, inside: Inside) -> CondId {
        let instructions = std::mem::take(&mut self.instructions);
        let mut given = Vec::new();
        let mut stricter = Vec::new();
        for instruction in instructions.iter().filter(|instruction| instruction.question == say.question) {
            let super::draft::DraftKind::Ask(asked) = &instruction.kind else { continue };
            match self.compare(asked, &say.demand) {
                Compared::Same | Compared::Covers => {
                    let mut parts = vec![instruction.guard];
                    if let Some(rule) = inside.rule
                        && self.asks_less(&say.demand, rule)
                    {
                        parts.extend(self.own_product(rule, &instruction.wheres, inside));
                    }
                    let holds = self.arena.and(parts);
                    given.push(holds);
                }
                Compared::Stricter => stricter.push(instruction.guard),
                Compared::Other => {}
            }
        }
        self.instructions = instructions;
        let given = self.arena.or(given);
        let stricter = self.arena.or(stricter);
        let none_stricter = self.arena.not(stricter);
        self.arena.and([given, none_stricter])
    }

    /// Every run that the rule's own condition selects meets the condition of the
    /// instruction, with its own product.
    fn own_product(&mut self, rule: Rule, wheres: &[Expr], inside: Inside) -> Vec<CondId> {
        let inside = Inside { rule: None, ..inside };
        let theirs = selections(wheres);
        let mut parts = Vec::new();
        for (group, selected) in self.selections_in_text(rule.wheres, inside) {
            let met: Vec<CondId> =
                theirs.iter().filter(|(of, _)| *of == group).map(|(_, with)| self.expr(with, inside)).collect();
            if met.is_empty() {
                continue;
            }
            let met = self.arena.and(met);
            let selected = self.arena.or(selected);
            let unmet = self.arena.not(met);
            let odd = self.arena.and([selected, unmet]);
            parts.push(self.entries(false, group, odd));
        }
        parts
    }

    /// What the rule's conditions select of each list, definitions of the text
    /// included.
    fn selections_in_text(&mut self, wheres: &[Expr], inside: Inside) -> Vec<(GroupId, Vec<CondId>)> {
        let mut all = selections(wheres);
        if let Some(text) = inside.text {
            for name in defined_names(wheres) {
                for variant in text.list.iter().filter(|variant| variant.section.definition && *variant.number == *name)
                {
                    all.extend(selections(&variant.section.wheres));
                }
            }
        }
        let mut groups: Vec<(GroupId, Vec<CondId>)> = Vec::new();
        for (group, with) in all {
            let with = self.expr(&with, inside);
            match groups.iter_mut().find(|(of, _)| *of == group) {
                Some((_, parts)) => parts.push(with),
                None => groups.push((group, vec![with])),
            }
        }
        groups
    }

    /// Whether saying so would ask less than the rule does: it demands something
    /// stricter of the question, or speaks of others while the word is not the
    /// question's strictest.
    fn asks_less(&self, word: &Asked, rule: Rule) -> bool {
        let own = rule.demands.iter().find_map(|demand| match &demand.kind {
            crate::law::text::DemandedKind::Value(asked) if asked.question == word.question => Some(asked),
            _ => None,
        });
        match own {
            Some(own) => matches!(self.compare(own, word), Compared::Stricter | Compared::Other),
            None => !self.is_strictest(word),
        }
    }

    fn is_strictest(&self, asked: &Asked) -> bool {
        let question = &self.library.glossary[asked.question];
        match (&asked.kind, &question.order) {
            (AskedKind::Rung(rung), crate::glossary::model::Order::Ladder(rungs)) => {
                usize::from(*rung) + 1 == rungs.len()
            }
            _ => false,
        }
    }

    /// How a demand stands to another on the same question.
    fn compare(&self, one: &Asked, other: &Asked) -> Compared {
        use std::cmp::Ordering;
        match (&one.kind, &other.kind) {
            (AskedKind::Rung(one), AskedKind::Rung(other)) => match one.cmp(other) {
                Ordering::Equal => Compared::Same,
                Ordering::Greater => Compared::Stricter,
                Ordering::Less => Compared::Other,
            },
            (AskedKind::Limits(one_limits), AskedKind::Limits(other_limits)) => {
                let larger_is_stricter =
                    matches!(self.library.glossary[one.question].order, crate::glossary::model::Order::AtLeast(_));
                let covered = other_limits.iter().all(|(wanted, terms)| {
                    one_limits.iter().any(|(given, of)| {
                        let reaches = match (terms, of) {
                            (_, None) => true,
                            (Some(terms), Some(of)) => terms.within(*of),
                            (None, Some(_)) => false,
                        };
                        let enough = if larger_is_stricter {
                            given.amount >= wanted.amount
                        } else {
                            given.amount <= wanted.amount
                        };
                        reaches && enough
                    })
                });
                if covered { Compared::Covers } else { Compared::Other }
            }
            (AskedKind::Permitted { .. }, AskedKind::Permitted { .. }) => {
                let all = self.permitted(one).within(self.permitted(other));
                if all { Compared::Covers } else { Compared::Other }
            }
            (AskedKind::Required(one), AskedKind::Required(other)) => {
                if other.within(*one) {
                    Compared::Covers
                } else {
                    Compared::Other
                }
            }
            _ => Compared::Other,
        }
    }

    /// The terms that a demand on a permitted set leaves.
    pub(crate) fn permitted(&self, asked: &Asked) -> Terms {
        let all = self.terms_of(asked.question);
        match &asked.kind {
            AskedKind::Permitted { only: true, terms } => terms.common(all),
            AskedKind::Permitted { only: false, terms } => all.without(*terms),
            _ => all,
        }
    }

    /// The terms known at the place of the choice that a question speaks of.
    pub(crate) fn terms_of(&self, question: QuestionId) -> Terms {
        match self.library.glossary[question].order {
            crate::glossary::model::Order::Only(choice) | crate::glossary::model::Order::AllOf(choice) => {
                self.library.glossary.terms_at(choice, Some(self.place), &self.library.places)
            }
            _ => Terms::NONE,
        }
    }
}

/// How one demand stands to another.
enum Compared {
    Same,
    /// As strict or stricter, for limits and sets.
    Covers,
    Stricter,
    Other,
}

/// What conditions select of lists with `any … with`, outside any `not`.
fn selections(exprs: &[Expr]) -> Vec<(GroupId, Expr)> {
    let mut found = Vec::new();
    for expr in exprs {
        match expr {
            Expr::Entries { any: true, group, with } => found.push((*group, (**with).clone())),
            Expr::And(parts) | Expr::Or(parts) => found.extend(selections(parts)),
            _ => {}
        }
    }
    found
}

fn defined_names(exprs: &[Expr]) -> Vec<Box<str>> {
    let mut found = Vec::new();
    for expr in exprs {
        match expr {
            Expr::Defined(name, _) => found.push((**name).into()),
            Expr::And(parts) | Expr::Or(parts) => found.extend(defined_names(parts)),
            _ => {}
        }
    }
    found
}
