//! The fact, attribute or question that a path in a condition names.

use super::condition::{Reader, Tested, no_answers};
use super::expr::Expr;
use super::model::{FieldId, GroupId, Order, QuestionId};
use super::read::Fault;
use super::values::{span, word, written};
use super::{Glossary, cut};
use crate::syntax::codes;
use crate::syntax::tree::{Path, Span, Test, Value, Word};
use crate::values::Terms;

impl Glossary {
    /// Whether a field is an attribute of a list.
    pub(crate) fn in_list(&self, field: FieldId) -> bool {
        self[field].group.is_some_and(|group| self[group].list)
    }
}

impl Reader<'_> {
    pub(super) fn tested(&mut self, path: &Path) -> Option<Tested> {
        let (glossary, context) = (self.glossary, self.context);
        if let Some(field) = self.known_field(path) {
            return Some(Tested::Field(field));
        }
        let bare = path.attribute.is_none();
        if bare && let Some(question) = glossary.question(&path.head.text, context.from, context.territory) {
            return Some(Tested::Question(question));
        }
        self.no_fact(path, true);
        None
    }

    /// A fact or record attribute, or an attribute of the list at hand.
    pub(super) fn field(&mut self, path: &Path) -> Option<FieldId> {
        let found = self.known_field(path);
        if found.is_none() {
            self.no_fact(path, false);
        }
        found
    }

    fn known_field(&self, path: &Path) -> Option<FieldId> {
        let (glossary, from, territory) = (self.glossary, self.context.from, self.context.territory);
        match &path.attribute {
            None => {
                let own = self.list.and_then(|list| glossary.attribute(list, &path.head.text, from, territory));
                own.or_else(|| glossary.field(&path.head.text, from, territory))
            }
            Some(attribute) => {
                let group = glossary.group(&path.head.text, from, territory).filter(|group| !glossary[*group].list)?;
                glossary.attribute(group, &attribute.text, from, territory)
            }
        }
    }

    fn no_fact(&mut self, path: &Path, questions: bool) {
        let shown = shown(path);
        if self.glossary.is_broken(&path.head.text) || self.glossary.is_broken(&shown) {
            return;
        }
        let fault = match &path.attribute {
            None => self.no_bare(&path.head, questions),
            Some(attribute) => self.no_attribute(&path.head, attribute, &shown),
        };
        let span = path.attribute.as_ref().map_or(path.head.span, |attribute| path.head.span.to(attribute.span));
        self.report(fault, span);
    }

    fn no_bare(&self, word: &Word, questions: bool) -> Fault {
        let (glossary, from, territory) = (self.glossary, self.context.from, self.context.territory);
        let name = &*word.text;
        if let Some(group) = glossary.group(name, from, territory) {
            return self.whole_group(group);
        }
        if glossary.names.definitions.contains_key(name) || (self.context.definitions)(name) {
            return Fault::new(codes::SHAPE, format!("`{name}` is a definition, of which nothing is tested"))
                .help(format!("a definition stands alone: write `{name}`, or `not {name}`"));
        }
        if !questions && glossary.question(name, from, territory).is_some() {
            return Fault::new(codes::UNKNOWN_NAME, format!("`{name}` is a question, and a fact is asked here"))
                .help("name a fact of the job");
        }
        let owners = glossary.groups.iter().zip(0u16..).map(|(_, id)| GroupId(id));
        let owner = owners.filter(|id| glossary.attribute(*id, name, from, territory).is_some()).min();
        if let Some(owner) = owner {
            let group = &glossary[owner];
            let message = format!(
                "`{name}` is an attribute of the {} `{}`",
                if group.list { "list" } else { "record" },
                group.name
            );
            return match group.list {
                true => Fault::new(codes::LIST, message).help(format!("write `any {} with ({name} …)`", group.name)),
                false => Fault::new(codes::UNKNOWN_NAME, message).help(format!("write `{}.{name}`", group.name)),
            };
        }
        if let Some(fault) = self.elsewhere(name) {
            return fault;
        }
        let what = if questions { "fact or question" } else { "fact" };
        let names = self.names();
        Fault::new(codes::UNKNOWN_NAME, format!("no {what} has the name `{}`", cut(name)))
            .help(format!("name a {what} of the glossary"))
            .near(name, names.iter().map(|name| &**name))
    }

    /// The fault where a name is known in some place and not here.
    pub(super) fn elsewhere(&self, name: &str) -> Option<Fault> {
        let glossary = self.glossary;
        let fields = glossary.fields.iter().filter(|field| *field.path == *name).map(|field| field.scope);
        let groups = glossary.groups.iter().filter(|group| *group.name == *name).map(|group| group.scope);
        let questions =
            glossary.questions.iter().filter(|question| *question.name == *name).map(|question| question.scope);
        fields.chain(groups).chain(questions).flatten().next()?;
        let help = match self.context.from {
            None => {
                "what holds everywhere, such as a definition outside an edition, cannot test it: write the condition out in the sections of that place"
            }
            Some(_) => "declare it without `in`, or for a place around both",
        };
        let message = format!("`{}` is declared in a place, and is not known here", cut(name));
        Some(Fault::new(codes::UNKNOWN_NAME, message).help(help))
    }

    fn whole_group(&self, group: GroupId) -> Fault {
        let glossary = self.glossary;
        let (name, list) = (&glossary[group].name, glossary[group].list);
        let first = glossary[group].fields.first().map(|field| &glossary[*field]);
        let first = first.map_or("…", |field| if list { &*field.name } else { &*field.path });
        match list {
            true => Fault::new(codes::LIST, format!("`{name}` is a list, which is tested entry by entry"))
                .help(format!("write `any {name} with ({first} …)` or `no {name} with ({first} …)`")),
            false => Fault::new(codes::SHAPE, format!("`{name}` is a record, which is tested by its attributes"))
                .help(format!("name an attribute of it, such as `{first}`")),
        }
    }

    fn no_attribute(&self, head: &Word, attribute: &Word, shown: &str) -> Fault {
        let (glossary, from, territory) = (self.glossary, self.context.from, self.context.territory);
        let (owner, name) = (&*head.text, &*attribute.text);
        let Some(group) = glossary.group(owner, from, territory) else {
            if glossary.field(owner, from, territory).is_some() {
                return Fault::new(codes::UNKNOWN_NAME, format!("`{owner}` is a single fact and has no attributes"))
                    .help(format!("write `{owner}` alone"));
            }
            if let Some(fault) = self.elsewhere(owner) {
                return fault;
            }
            let records = glossary.fields.iter().filter(|field| field.group.is_some()).map(|field| &*field.path);
            return Fault::new(codes::UNKNOWN_NAME, format!("the record `{}` is not known", cut(owner)))
                .help("name a record of the glossary and one of its attributes")
                .near(shown, records);
        };
        let known = glossary.attribute(group, name, from, territory).is_some();
        if glossary[group].list && known {
            let inside = self.list == Some(group);
            let help =
                if inside { format!("write `{name}` alone") } else { format!("write `any {owner} with ({name} …)`") };
            return Fault::new(codes::LIST, format!("`{owner}` is a list, and it is not said which entry is meant"))
                .help(help);
        }
        let names: Vec<&str> = glossary[group].fields.iter().map(|field| &*glossary[*field].name).collect();
        Fault::new(codes::UNKNOWN_NAME, format!("`{owner}` has no attribute `{}`", cut(name)))
            .help(format!("its attributes are {}", names.join(", ")))
            .near(name, names.iter().copied())
    }

    /// The names that a condition may test here.
    pub(super) fn names(&self) -> Vec<Box<str>> {
        let glossary = self.glossary;
        let own = self.list.iter().flat_map(|list| &glossary[*list].fields).map(|field| glossary[*field].name.clone());
        let facts = glossary.fields.iter().zip(0u16..).filter(|(_, id)| !glossary.in_list(FieldId(*id)));
        let facts = facts.map(|(field, _)| field.path.clone());
        let ladders = glossary.questions.iter().filter(|question| matches!(question.order, Order::Ladder(_)));
        let ladders = ladders.map(|question| question.name.clone());
        own.chain(facts).chain(ladders).chain(glossary.names.definitions.keys().cloned()).collect()
    }

    /// A test of a ladder question's answer.
    pub(super) fn answer(&mut self, question: QuestionId, path: &Path, test: &Test, span: Span) -> Option<Expr> {
        let asked = &self.glossary[question];
        let Order::Ladder(rungs) = &asked.order else {
            let message = format!("`{}` has no rungs, and only a rung can be tested", asked.name);
            let help = "test the answer of a ladder question, or a fact of the job";
            self.report(Fault::new(codes::SHAPE, message).help(help), path.head.span);
            return None;
        };
        if !self.context.answers {
            self.report(no_answers(), span);
            return None;
        }
        let (values, is) = match test {
            Test::Is(values) => (values, true),
            Test::IsNot(values) => (values, false),
            _ => {
                let message = format!("this test does not fit the question `{}`", asked.name);
                let help = format!(
                    "write `{0} is`, `is not` or `is any of`, with rungs of {0}: {1}",
                    asked.name,
                    rungs.join(", ")
                );
                self.report(Fault::new(codes::SHAPE, message).help(help), span);
                return None;
            }
        };
        let found: Vec<Option<Terms>> = values.iter().map(|value| self.rung(rungs, &asked.name, value)).collect();
        let rungs = found.into_iter().try_fold(Terms::NONE, |all, rung| Some(all.union(rung?)))?;
        let answer = Expr::Answer { question, rungs };
        Some(if is { answer } else { Expr::Not(Box::new(answer)) })
    }

    fn rung(&mut self, rungs: &[Box<str>], question: &str, value: &Value) -> Option<Terms> {
        let at = span(value);
        match word(value, &format!("an answer of `{question}`")) {
            Ok(word) => match rung_named(rungs, question, &word.text) {
                Ok(rung) => Some(Terms::one(rung)),
                Err(fault) => {
                    self.report(fault, at);
                    None
                }
            },
            Err(fault) => {
                self.report(fault.help(format!("its answers are {}", rungs.join(", "))), at);
                None
            }
        }
    }

    /// The fault where a test does not fit the shape of what it tests.
    pub(super) fn misfit(&mut self, field: FieldId, path: &Path, span: Span) -> Option<Expr> {
        let shown = shown(path);
        let is = self.glossary.shape_in_words(self.glossary[field].shape);
        let message = format!("this test does not fit `{shown}`, which is {is}");
        let help = self.glossary.tests_in_words(field, &shown);
        self.report(Fault::new(codes::SHAPE, message).help(help), span);
        None
    }

    /// The fault where a value is not of the shape of what it is held against.
    pub(super) fn unfit(&mut self, field: FieldId, path: &Path, value: &Value) {
        let shown = shown(path);
        let is = self.glossary.shape_in_words(self.glossary[field].shape);
        let message = format!("`{}` is held against `{shown}`, which is {is}", cut(&written(value)));
        let help = self.glossary.tests_in_words(field, &shown);
        self.report(Fault::new(codes::SHAPE, message).help(help), span(value));
    }
}

/// A rung by its name.
///
/// # Errors
/// Where the ladder has none of that name; the fault names the nearest.
pub(super) fn rung_named(rungs: &[Box<str>], question: &str, name: &str) -> Result<u16, Fault> {
    rungs.iter().zip(0u16..).find(|(rung, _)| &***rung == name).map(|(_, at)| at).ok_or_else(|| {
        Fault::new(codes::UNKNOWN_TERM, format!("`{}` is not an answer of `{question}`", cut(name)))
            .help(format!("its answers are {}", rungs.join(", ")))
            .near(name, rungs.iter().map(|rung| &**rung))
    })
}

/// A path as it was written.
pub(super) fn shown(path: &Path) -> String {
    match &path.attribute {
        None => path.head.text.to_string(),
        Some(attribute) => format!("{}.{}", path.head.text, attribute.text),
    }
}
