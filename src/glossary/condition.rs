//! Conditions of the tree with every name resolved.
//!
//! A bare name inside `with (…)` is an attribute of that list first and a fact
//! second; a name that is both fact and question is the fact.

use super::expr::{Expr, Say};
use super::model::{FieldId, GroupId, QuestionId, Scope, Shape};
use super::read::{Fault, past};
use super::{Glossary, Territory, cut};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::limits::CONDITION;
use crate::syntax::tree::{Cond, CondKind, Demand, Path, Span, Word};

/// Where a condition stands, and what may stand in it.
#[derive(Clone, Copy)]
pub(crate) struct Context<'a> {
    pub(crate) file: FileId,
    /// The place whose law it is; nothing for what holds everywhere.
    pub(crate) from: Scope,
    pub(crate) territory: &'a dyn Territory,
    /// Whether the edition at hand defines this name.
    pub(crate) definitions: &'a dyn Fn(&str) -> bool,
    /// Whether answers may be tested.
    pub(crate) answers: bool,
    /// Whether instructions may be tested.
    pub(crate) says: bool,
}

impl<'a> Context<'a> {
    /// A context in which facts alone are tested.
    pub(crate) fn plain(file: FileId, from: Scope, territory: &'a dyn Territory) -> Context<'a> {
        Context { file, from, territory, definitions: &|_| false, answers: false, says: false }
    }

    /// A place in the file of the condition.
    pub(crate) fn at(&self, span: Span) -> Location {
        Location { file: self.file, span }
    }
}

impl Glossary {
    /// Resolves a condition. Where it cannot be, the reason is among the
    /// diagnostics, unless it is an error that the glossary has reported before.
    pub(crate) fn condition(
        &self,
        cond: &Cond,
        context: &Context<'_>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Option<Expr> {
        Reader { glossary: self, context, diagnostics, list: None, level: 0, grown: 0 }.cond(cond)
    }

    /// The fact or record attribute that a path names outside a condition, such
    /// as `jumper.size` in `measures jumper.size`.
    pub(crate) fn fact_named(
        &self,
        path: &Path,
        context: &Context<'_>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Option<FieldId> {
        let mut reader = Reader { glossary: self, context, diagnostics, list: None, level: 0, grown: 0 };
        reader.field(path)
    }
}

/// What a path in a test names.
pub(super) enum Tested {
    Field(FieldId),
    Question(QuestionId),
}

pub(super) struct Reader<'a> {
    pub(super) glossary: &'a Glossary,
    pub(super) context: &'a Context<'a>,
    pub(super) diagnostics: &'a mut Vec<Diagnostic>,
    /// The list whose entry is tested.
    pub(super) list: Option<GroupId>,
    /// How many conditions this one stands in.
    level: usize,
    /// How many conditions definitions have put in place.
    grown: usize,
}

/// How many conditions may stand in one another once definitions are in place.
const DEEPEST: usize = 400;

impl Reader<'_> {
    pub(super) fn report(&mut self, fault: Fault, span: Span) {
        self.diagnostics.push(fault.at(self.context.at(span)));
    }

    fn cond(&mut self, cond: &Cond) -> Option<Expr> {
        self.level += 1;
        let found = match &cond.kind {
            CondKind::And(parts) => self.all(parts).map(Expr::And),
            CondKind::Or(parts) => self.all(parts).map(Expr::Or),
            CondKind::Not(part) => self.cond(part).map(|part| Expr::Not(Box::new(part))),
            CondKind::Test { path, test } => match self.tested(path)? {
                Tested::Field(field) => self.check(field, path, test, cond.span),
                Tested::Question(question) => self.answer(question, path, test, cond.span),
            },
            CondKind::Entries { any, list, with } => self.entries(*any, list, with.as_deref(), cond.span),
            CondKind::Say(demand) => self.say(demand, cond.span),
            CondKind::Named(word) => self.named(word),
        };
        self.level -= 1;
        found
    }

    /// Every part, so that every error is found.
    fn all(&mut self, parts: &[Cond]) -> Option<Vec<Expr>> {
        let found: Vec<Option<Expr>> = parts.iter().map(|part| self.cond(part)).collect();
        found.into_iter().collect()
    }

    fn entries(&mut self, any: bool, word: &Word, with: Option<&Cond>, span: Span) -> Option<Expr> {
        if self.list.is_some() {
            let fault =
                Fault::new(codes::LIST, format!("`{}` is asked for inside another `with (…)`", cut(&word.text)))
                    .help("one list is tested at a time: join two conditions with `and` outside the parentheses");
            self.report(fault, span);
            return None;
        }
        let group = self.list_named(word)?;
        let with = match with {
            None => Expr::Constant(true),
            Some(with) => {
                self.list = Some(group);
                let with = self.cond(with);
                self.list = None;
                with?
            }
        };
        Some(Expr::Entries { any, group, with: Box::new(with) })
    }

    fn list_named(&mut self, word: &Word) -> Option<GroupId> {
        let (glossary, context) = (self.glossary, self.context);
        if let Some(group) = glossary.group(&word.text, context.from, context.territory) {
            if glossary[group].list {
                return Some(group);
            }
            let example = glossary[group].fields.first().map_or(&*glossary[group].name, |field| &glossary[*field].path);
            let fault = Fault::new(codes::LIST, format!("`{}` is a record, of which a job has one", word.text))
                .help(format!("test its attributes by their names, such as `{example}`"));
            self.report(fault, word.span);
            return None;
        }
        if glossary.is_broken(&word.text) {
            return None;
        }
        if let Some(fault) = self.elsewhere(&word.text) {
            self.report(fault, word.span);
            return None;
        }
        let lists = glossary.groups.iter().filter(|group| group.list).map(|group| &*group.name);
        let fault = Fault::new(codes::UNKNOWN_NAME, format!("the list `{}` is not known", cut(&word.text)))
            .help("name a list of the glossary")
            .near(&word.text, lists);
        self.report(fault, word.span);
        None
    }

    fn say(&mut self, demand: &Demand, span: Span) -> Option<Expr> {
        if !self.context.says {
            self.report(no_instructions(), span);
            return None;
        }
        let demand = self.glossary.demand(demand, self.context, self.diagnostics)?;
        Some(Expr::Say(Say { question: demand.question, demand: Box::new(demand), at: self.context.at(span) }))
    }

    fn named(&mut self, word: &Word) -> Option<Expr> {
        let (glossary, context) = (self.glossary, self.context);
        if (context.definitions)(&word.text) {
            return Some(Expr::Defined(word.text.as_ref().into(), context.at(word.span)));
        }
        let Some(definition) = glossary.names.definitions.get(&word.text).and_then(|at| glossary.definitions.get(*at))
        else {
            self.no_definition(word);
            return None;
        };
        let expr = definition.expr.as_ref()?;
        if definition.answers && !context.answers {
            self.report(no_answers().help(format!("`{}` tests an answer", word.text)), word.span);
            return None;
        }
        if definition.says && !context.says {
            self.report(no_instructions().help(format!("`{}` tests instructions", word.text)), word.span);
            return None;
        }
        if definition.entries && self.list.is_some() {
            let fault = Fault::new(codes::LIST, format!("`{}` tests a list, inside another `with (…)`", word.text))
                .help("one list is tested at a time: join two conditions with `and` outside the parentheses");
            self.report(fault, word.span);
            return None;
        }
        self.grown += definition.size;
        if self.grown > CONDITION.most || self.level + definition.depth > DEEPEST {
            self.report(past(&CONDITION), word.span);
            return None;
        }
        Some(expr.clone())
    }

    fn no_definition(&mut self, word: &Word) {
        let (glossary, context) = (self.glossary, self.context);
        if glossary.is_broken(&word.text) {
            return;
        }
        let attribute =
            self.list.and_then(|list| glossary.attribute(list, &word.text, context.from, context.territory));
        if let Some(field) = attribute.or_else(|| glossary.field(&word.text, context.from, context.territory)) {
            let message = format!("`{}` stands alone, and it is not said what is tested of it", word.text);
            let help = glossary.tests_in_words(field, &word.text);
            let code = if glossary[field].shape == Shape::YesNo { codes::SHAPE } else { codes::UNKNOWN_NAME };
            self.report(Fault::new(code, message).help(help), word.span);
            return;
        }
        if let Some(question) = glossary.question(&word.text, context.from, context.territory) {
            let message = format!("`{}` stands alone, and it is not said which answer is tested", word.text);
            let help = glossary.demand_in_words(&glossary[question]);
            self.report(Fault::new(codes::SHAPE, message).help(help), word.span);
            return;
        }
        let fault = Fault::new(codes::UNKNOWN_NAME, format!("no definition has the name `{}`", cut(&word.text)))
            .help("name a definition of the glossary or of this edition, or say what is tested of a fact");
        let names = self.names();
        self.report(fault.near(&word.text, names.iter().map(|name| &**name)), word.span);
    }
}

/// The fault where an answer is tested and may not be.
pub(super) fn no_answers() -> Fault {
    Fault::new(codes::NOT_HERE, "an answer is tested where facts alone may be")
        .help("test the facts on which that answer rests")
}

fn no_instructions() -> Fault {
    Fault::new(codes::NOT_HERE, "instructions are asked where they cannot be")
        .help("`instructions say` may stand in the conditions of sections only")
}
