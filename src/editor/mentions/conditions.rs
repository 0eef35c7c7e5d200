//! Words of conditions and demands.

use super::{Text, Walk};
use crate::editor::things::{Part, Thing};
use crate::glossary::model::{FieldId, Order, QuestionId, Shape};
use crate::law::places::IssuerKind;
use crate::syntax::tree::{Cond, CondKind, Demand, DemandKind, Limit, Path, Test, Value, Word};

/// What a path names.
enum Tested {
    Field(FieldId),
    Question(QuestionId),
}

impl Walk<'_> {
    pub(super) fn cond(&mut self, cond: &Cond) {
        match &cond.kind {
            CondKind::And(parts) | CondKind::Or(parts) => parts.iter().for_each(|part| self.cond(part)),
            CondKind::Not(part) => self.cond(part),
            CondKind::Test { path, test } => self.test(path, test),
            CondKind::Entries { list, with, .. } => {
                self.word(list, false, |walk| walk.group_named(&list.text).map(Thing::Group));
                let outer = self.list;
                self.list = self.group_named(&list.text);
                with.iter().for_each(|with| self.cond(with));
                self.list = outer;
            }
            CondKind::Say(demand) => self.demand(demand),
            CondKind::Named(word) => self.named(word),
        }
    }

    fn test(&mut self, path: &Path, test: &Test) {
        self.path_in(path, true);
        match test {
            Test::Is(values) | Test::IsNot(values) | Test::Includes(values) => match self.tested(path) {
                Some(Tested::Field(field)) => values.iter().for_each(|value| self.value(field, value)),
                Some(Tested::Question(question)) => {
                    for value in values {
                        if let Value::Word(word) = value {
                            self.rung(question, word);
                        }
                    }
                }
                None => {}
            },
            Test::Within { after, .. } => self.path_in(after, false),
            Test::AtLeast(_) | Test::AtMost(_) | Test::Over(_) | Test::Under(_) | Test::Before(_) | Test::From(_) => {}
        }
    }

    /// What a fact is said to be.
    pub(super) fn value(&mut self, field: FieldId, value: &Value) {
        let Value::Word(word) = value else { return };
        let library = self.library;
        match library.glossary[field].shape {
            Shape::Choice(choice) | Shape::Several(choice) => {
                self.word(word, false, |walk| walk.term(choice, &word.text))
            }
            Shape::Code => self.code(word, false),
            // A name may be that of a maker or supplier; of a product nothing is known.
            Shape::Name if library.glossary.roles.supplier == Some(field) => self.word(word, false, |walk| {
                let issuers = walk.library.places.named(&word.text);
                let supplier = |id: &crate::glossary::model::PlaceId| {
                    walk.library.places.issuer(*id).is_some_and(|issuer| issuer.kind == IssuerKind::Supplier)
                };
                issuers.iter().copied().find(supplier).map(Thing::Issuer)
            }),
            _ => {}
        }
    }

    fn known_field(&self, path: &Path) -> Option<FieldId> {
        let (glossary, places) = (&self.library.glossary, &self.library.places);
        match &path.attribute {
            None => {
                let own = self.list.and_then(|list| glossary.attribute(list, &path.head.text, self.from, places));
                own.or_else(|| glossary.field(&path.head.text, self.from, places))
            }
            Some(attribute) => {
                let group = self.group_named(&path.head.text)?;
                glossary.attribute(group, &attribute.text, self.from, places)
            }
        }
    }

    fn tested(&self, path: &Path) -> Option<Tested> {
        let question = || path.attribute.is_none().then(|| self.question_id(&path.head.text)).flatten();
        self.known_field(path).map(Tested::Field).or_else(|| question().map(Tested::Question))
    }

    /// A fact as named; in a condition it may be a question too.
    pub(super) fn path_in(&mut self, path: &Path, questions: bool) {
        match &path.attribute {
            None => self.word(&path.head, false, |walk| match walk.tested(path)? {
                Tested::Field(field) => Some(Thing::Field(field)),
                Tested::Question(question) => questions.then_some(Thing::Question(question)),
            }),
            Some(attribute) => {
                self.word(&path.head, false, |walk| walk.group_named(&path.head.text).map(Thing::Group));
                self.word(attribute, false, |walk| walk.known_field(path).map(Thing::Field));
            }
        }
    }

    /// A definition of the edition at hand, or of the glossary.
    fn named(&mut self, word: &Word) {
        let own = match self.text {
            Some(Text::Edition(id)) => self.library.codes.edition(id).and_then(|edition| edition.section(&word.text)),
            _ => None,
        };
        if let (Some(printed), Some(Text::Edition(id))) = (own.filter(|printed| printed.section.definition), self.text)
        {
            if (self.wanted)(&word.text) {
                self.part(word.span, Part::Printed(printed.lineage), false, Some(id));
            }
            return;
        }
        self.word(word, false, |walk| {
            // A fact that stands alone is an error, and still a fact.
            let name = &word.text;
            let path = Path { head: word.clone(), attribute: None };
            if walk.library.glossary.defines(name) {
                return Some(Thing::Definition(name.clone()));
            }
            Some(match walk.tested(&path)? {
                Tested::Field(field) => Thing::Field(field),
                Tested::Question(question) => Thing::Question(question),
            })
        });
    }

    pub(super) fn question_id(&self, name: &str) -> Option<QuestionId> {
        self.library.glossary.question(name, self.from, &self.library.places)
    }

    pub(super) fn question_named(&mut self, word: &Word, declares: bool) {
        self.word(word, declares, |walk| walk.question_id(&word.text).map(Thing::Question));
    }

    fn rung(&mut self, question: QuestionId, word: &Word) {
        self.word(word, false, |walk| {
            let Order::Ladder(rungs) = &walk.library.glossary[question].order else { return None };
            let at = rungs.iter().position(|rung| *rung == word.text)?;
            Some(Thing::Rung(question, u16::try_from(at).ok()?))
        });
    }

    pub(super) fn demand(&mut self, demand: &Demand) {
        match &demand.kind {
            DemandKind::Is { question, rung } => {
                self.question_named(question, false);
                if let Some(id) = self.question_id(&question.text) {
                    self.rung(id, rung);
                }
            }
            DemandKind::AtLeast { question, limits } | DemandKind::AtMost { question, limits } => {
                self.question_named(question, false);
                limits.iter().for_each(|limit| self.limit(question, limit));
            }
            DemandKind::ByTable { question, code, year, number, .. } => {
                self.question_named(question, false);
                self.table(code.as_ref(), year.as_ref(), number);
            }
            DemandKind::Only { question, terms }
            | DemandKind::NoneOf { question, terms }
            | DemandKind::AllOf { question, terms } => {
                self.question_named(question, false);
                let choice = self.question_id(&question.text).and_then(|id| match self.library.glossary[id].order {
                    Order::Only(choice) | Order::AllOf(choice) => Some(choice),
                    _ => None,
                });
                self.terms(choice, terms);
            }
            DemandKind::Refer { questions, .. } | DemandKind::Bind { questions } => {
                questions.iter().for_each(|question| self.question_named(question, false));
            }
            DemandKind::Note { .. } => {}
        }
    }

    fn limit(&mut self, question: &Word, limit: &Limit) {
        let per = self.question_id(&question.text).and_then(|id| self.library.glossary[id].per);
        self.terms(per.map(|(_, choice)| choice), &limit.terms);
    }

    pub(super) fn terms(&mut self, choice: Option<crate::glossary::model::ChoiceId>, words: &[Word]) {
        let Some(choice) = choice else { return };
        for word in words {
            self.word(word, false, |walk| walk.term(choice, &word.text));
        }
    }

    /// The choice that the terms of a fact are of.
    pub(super) fn choice_of(&self, path: &Path) -> Option<crate::glossary::model::ChoiceId> {
        let field = self.known_field(path)?;
        self.library.glossary.choice_of(self.library.glossary[field].shape)
    }

    /// The fact that a path names.
    pub(super) fn field_of(&self, path: &Path) -> Option<FieldId> {
        self.known_field(path)
    }
}
