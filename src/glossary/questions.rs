//! Questions, their orders of strictness, and how a job shows that it does what
//! an answer asks.

use super::build::{Builder, Named, Sheet, location, title};
use super::condition::Context;
use super::fields::unit;
use super::model::{ChoiceId, FieldId, Met, Order, Question, QuestionId, Scale, Shape};
use super::read::Fault;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::limits::TERMS;
use crate::syntax::tree::{self, Word};

/// A question of the glossary with the tree that it came from.
pub(super) type Asked<'a> = (QuestionId, FileId, &'a tree::Question);

impl Builder<'_> {
    /// Declares the questions; what refers to facts and other questions waits.
    pub(super) fn questions<'a>(&mut self, sheet: &Sheet<'a>) -> Vec<Asked<'a>> {
        let mut all = Vec::new();
        for (file, question) in &sheet.questions {
            match self.scope(question.place.as_ref(), *file) {
                Ok(scope) => all.push(Named { name: &question.name, scope, file: *file, it: *question }),
                Err(()) => self.spoil(&question.name.text),
            }
        }
        let mut all = self.distinct("question", all);
        self.hold(&mut all, Named::at);
        let mut sources = Vec::new();
        for one in all {
            let tree = one.it;
            let subject = self.question_subject(&tree.subject, one.file);
            let order = self.order(&tree.order, one.file);
            let (Some(subject), Some(order), Ok(number)) =
                (subject, order, u16::try_from(self.glossary.questions.len()))
            else {
                self.spoil(&one.name.text);
                continue;
            };
            let id = QuestionId(number);
            self.glossary.names.questions.entry(one.name.text.clone()).or_default().push(id);
            self.glossary.questions.push(Question {
                name: one.name.text.clone(),
                title: title(tree.title.as_ref(), one.name),
                subject,
                order,
                per: None,
                measures: None,
                met: None,
                asked: None,
                costs: tree.costs.as_ref().map(|text| text.text.clone()),
                contrary: Vec::new(),
                caution: tree.caution.as_ref().map(|text| text.text.clone()),
                scope: one.scope,
                at: one.at(),
            });
            sources.push((id, one.file, tree));
        }
        sources
    }

    fn question_subject(&mut self, word: &Word, file: FileId) -> Option<super::model::SubjectId> {
        let found = self.glossary.subject(&word.text);
        if found.is_none() {
            let names = self.glossary.subjects.iter().map(|subject| &*subject.name);
            let fault = Fault::new(codes::UNKNOWN_NAME, format!("the subject `{}` is not known", word.text))
                .help("declare it with `subject`, or mend the name")
                .near(&word.text, names);
            self.report(fault.at(location(file, word.span)));
        }
        found
    }

    fn order(&mut self, order: &tree::Order, file: FileId) -> Option<Order> {
        match order {
            tree::Order::Ladder(rungs) => self.ladder(rungs, file),
            tree::Order::AtLeast(word) => self.scale(word, file).map(Order::AtLeast),
            tree::Order::AtMost(word) => self.scale(word, file).map(Order::AtMost),
            tree::Order::Only(word) => self.order_choice(word, file).map(Order::Only),
            tree::Order::AllOf(word) => self.order_choice(word, file).map(Order::AllOf),
        }
    }

    fn ladder(&mut self, rungs: &[Word], file: FileId) -> Option<Order> {
        let at = rungs.first().map(|rung| location(file, rung.span)).unwrap_or_default();
        if rungs.len() < 2 {
            let help = "name the rungs loosest first, such as `ladder not-required, required`";
            self.report(Diagnostic::new(codes::ORDER, at, "a ladder has at least two rungs").help(help));
            return None;
        }
        if rungs.len() > TERMS.most {
            self.report(TERMS.passed(at));
            return None;
        }
        for (number, rung) in rungs.iter().enumerate() {
            if let Some(first) = rungs.iter().take(number).find(|first| first.text == rung.text) {
                let message = format!("the rung `{}` stands twice in one ladder", rung.text);
                let finding = Diagnostic::new(codes::DUPLICATE_NAME, location(file, rung.span), message);
                let first = location(file, first.span);
                self.report(finding.help("take one of the two out").also(first, "it stands here as well"));
                return None;
            }
        }
        Some(Order::Ladder(rungs.iter().map(|rung| rung.text.clone()).collect()))
    }

    fn scale(&mut self, word: &Word, file: FileId) -> Option<Scale> {
        match &*word.text {
            "gauge" => Some(Scale::Gauge),
            "count" => Some(Scale::Count),
            _ => match unit(word, location(file, word.span)) {
                Ok(unit) => Some(Scale::Quantity(unit)),
                Err(finding) => {
                    self.report(finding);
                    None
                }
            },
        }
    }

    fn order_choice(&mut self, word: &Word, file: FileId) -> Option<ChoiceId> {
        let found = self.glossary.choice(&word.text);
        if found.is_none()
            && let Some(finding) = self.unknown_choice(word, location(file, word.span))
        {
            self.report(finding);
        }
        found
    }

    /// `per`, `measures`, `met`, `asked` and `contrary to`, once all facts,
    /// questions and definitions are declared.
    pub(super) fn proofs(&mut self, sources: &[Asked<'_>]) {
        for (id, file, tree) in sources {
            let scope = self.glossary[*id].scope;
            let plain = Context::plain(*file, scope, self.territory);
            let answers = Context { answers: true, ..plain };
            let per = tree.per.as_ref().and_then(|path| self.per(*id, path, &plain));
            let measures = tree.measures.as_ref().and_then(|path| self.measures(*id, path, &plain));
            let met = tree.met.as_ref().and_then(|met| match met {
                tree::Met::Never => Some(Met::Never),
                tree::Met::Where(cond) => self.glossary.condition(cond, &answers, self.diagnostics).map(Met::Where),
            });
            let asked = tree.asked.as_ref().and_then(|cond| self.glossary.condition(cond, &answers, self.diagnostics));
            if let (Some(path), Some(_)) = (&tree.measures, &tree.met) {
                let message = format!("`{}` both measures a fact and says how it is met", tree.name.text);
                let help = "keep `measures` or `met`: each alone says what the job is held against";
                self.report(Diagnostic::new(codes::ORDER, location(*file, path.head.span), message).help(help));
            }
            let contrary: Vec<QuestionId> =
                tree.contrary.iter().filter_map(|word| self.contrary(*id, word, &plain)).collect();
            for other in &contrary {
                self.change(*other, |other| other.contrary.push(*id));
            }
            self.change(*id, |question| {
                question.per = per;
                question.measures = measures;
                question.met = met;
                question.asked = asked;
                question.contrary.extend(contrary);
            });
        }
        for question in &mut self.glossary.questions {
            question.contrary.sort_unstable();
            question.contrary.dedup();
        }
    }

    fn change(&mut self, id: QuestionId, change: impl FnOnce(&mut Question)) {
        if let Some(question) = self.glossary.questions.get_mut(usize::from(id.0)) {
            change(question);
        }
    }

    fn refuse(&mut self, at: Location, message: String, help: &str) {
        self.report(Diagnostic::new(codes::ORDER, at, message).help(help));
    }

    fn per(&mut self, id: QuestionId, path: &tree::Path, context: &Context<'_>) -> Option<(FieldId, ChoiceId)> {
        let field = self.glossary.fact_named(path, context, self.diagnostics)?;
        let at = context.at(path.head.span);
        if !matches!(self.glossary[id].order, Order::AtLeast(_) | Order::AtMost(_)) {
            let message = format!("`{}` has no limits to give term by term", self.glossary[id].name);
            self.refuse(at, message, "`per` stands behind `at least` or `at most`");
            return None;
        }
        match self.glossary[field].shape {
            Shape::Choice(choice) => Some((field, choice)),
            shape => {
                let is = self.glossary.shape_in_words(shape);
                let message = format!("`{}` is {is} and has no terms to tell apart", self.glossary[field].path);
                self.refuse(at, message, "`per` names a fact with a choice");
                None
            }
        }
    }

    fn measures(&mut self, id: QuestionId, path: &tree::Path, context: &Context<'_>) -> Option<FieldId> {
        let field = self.glossary.fact_named(path, context, self.diagnostics)?;
        let shape = self.glossary[field].shape;
        let fits = match &self.glossary[id].order {
            Order::Ladder(_) => {
                let message =
                    format!("the answers of `{}` are rungs, and no fact measures a rung", self.glossary[id].name);
                self.refuse(
                    context.at(path.head.span),
                    message,
                    "say how it is met: write `met where` and a condition, or `met never`",
                );
                return None;
            }
            Order::AtLeast(scale) | Order::AtMost(scale) => shape.scale().is_some_and(|own| own.compares(*scale)),
            Order::Only(choice) => shape == Shape::Choice(*choice),
            Order::AllOf(choice) => shape == Shape::Several(*choice),
        };
        if fits {
            return Some(field);
        }
        let is = self.glossary.shape_in_words(shape);
        let message =
            format!("`{}` is {is} and cannot be held against `{}`", self.glossary[field].path, self.glossary[id].name);
        let help = match &self.glossary[id].order {
            Order::Only(choice) => format!("`measures` names a fact of the choice `{}`", self.glossary[*choice].name),
            Order::AllOf(choice) => {
                format!("`measures` names a fact of the shape `several {}`", self.glossary[*choice].name)
            }
            _ => "`measures` names a fact in the same kind of unit as the question".into(),
        };
        self.refuse(context.at(path.head.span), message, &help);
        None
    }

    fn contrary(&mut self, id: QuestionId, word: &Word, context: &Context<'_>) -> Option<QuestionId> {
        let other = self.glossary.question_named(word, context, self.diagnostics)?;
        let ladder = |id: QuestionId| matches!(self.glossary[id].order, Order::Ladder(_));
        if other != id && ladder(id) && ladder(other) {
            return Some(other);
        }
        let message = format!("`{}` cannot be contrary to `{}`", self.glossary[id].name, word.text);
        self.refuse(context.at(word.span), message, "`contrary to` joins two different ladder questions");
        None
    }
}
