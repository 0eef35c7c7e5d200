//! One glossary for two laws: what has one name in both is one thing.

use crate::glossary::Glossary;
use crate::glossary::model::{
    Choice, ChoiceId, Field, FieldId, Group, GroupId, Order, PlaceId, Question, QuestionId, Roles, Scale, Scope, Shape,
    Subject, SubjectId,
};
use crate::job::model::Given;
use crate::values::Terms;
use crate::verdict::Lexicon;

/// The place of what is known in neither of the two places.
const NOWHERE: Scope = Some(PlaceId(u32::MAX));

/// A glossary in which two laws can be read together.
#[derive(Debug)]
pub(crate) struct Common {
    choices: Vec<Choice>,
    subjects: Vec<Subject>,
    pub(crate) fields: Vec<Field>,
    groups: Vec<Group>,
    pub(crate) questions: Vec<Question>,
    roles: Roles,
}

/// From the numbers of one glossary to those of the common one.
#[derive(Debug, Default)]
pub(crate) struct Numbers {
    choices: Vec<ChoiceId>,
    /// By choice and term.
    terms: Vec<Vec<u16>>,
    subjects: Vec<SubjectId>,
    fields: Vec<FieldId>,
    groups: Vec<GroupId>,
    questions: Vec<QuestionId>,
}

impl Numbers {
    pub(crate) fn field(&self, id: FieldId) -> FieldId {
        self.fields.get(usize::from(id.0)).copied().unwrap_or(id)
    }

    pub(crate) fn group(&self, id: GroupId) -> GroupId {
        self.groups.get(usize::from(id.0)).copied().unwrap_or(id)
    }

    pub(crate) fn question(&self, id: QuestionId) -> QuestionId {
        self.questions.get(usize::from(id.0)).copied().unwrap_or(id)
    }

    pub(crate) fn subject(&self, id: SubjectId) -> SubjectId {
        self.subjects.get(usize::from(id.0)).copied().unwrap_or(id)
    }

    /// A term of one of the glossary's own choices.
    pub(crate) fn term(&self, choice: ChoiceId, term: u16) -> u16 {
        self.terms.get(usize::from(choice.0)).and_then(|terms| terms.get(usize::from(term))).copied().unwrap_or(term)
    }

    /// Terms of one of the glossary's own choices.
    pub(crate) fn terms(&self, choice: ChoiceId, terms: Terms) -> Terms {
        terms.iter().fold(Terms::NONE, |all, term| all.union(Terms::one(self.term(choice, term))))
    }

    /// A value in common numbers as the glossary numbers it; terms that it does not
    /// know are left out.
    pub(crate) fn back(&self, value: Given, shape: Shape) -> Given {
        let (Shape::Choice(choice) | Shape::Several(choice)) = shape else { return value };
        let own = |common: u16| {
            let terms = self.terms.get(usize::from(choice.0))?;
            terms.iter().position(|term| *term == common).and_then(|term| u16::try_from(term).ok())
        };
        match value {
            Given::Term(term) => own(term).map_or(Given::Unknown, Given::Term),
            Given::Set(terms) => {
                let held = terms.iter().filter_map(own);
                Given::Set(held.fold(Terms::NONE, |all, term| all.union(Terms::one(term))))
            }
            other => other,
        }
    }

    /// Fields of the glossary with their common numbers.
    pub(crate) fn all_fields(&self) -> impl Iterator<Item = (FieldId, FieldId)> {
        (0u16..).map(FieldId).zip(self.fields.iter().copied())
    }

    /// Lists and records of the glossary with their common numbers.
    pub(crate) fn all_groups(&self) -> impl Iterator<Item = (GroupId, GroupId)> {
        (0u16..).map(GroupId).zip(self.groups.iter().copied())
    }
}

/// A glossary as seen from a place.
#[derive(Clone, Copy)]
pub(crate) struct Seen<'g> {
    pub(crate) glossary: &'g Glossary,
    /// The place and all places around it.
    pub(crate) path: &'g [PlaceId],
}

impl Seen<'_> {
    fn knows(&self, scope: Scope) -> bool {
        scope.is_none_or(|place| self.path.contains(&place))
    }

    fn scope(&self, scope: Scope) -> Scope {
        if self.knows(scope) { None } else { NOWHERE }
    }
}

impl Common {
    /// Joins two glossaries; gives the numbers of each in the common one. Names that
    /// mean another thing on the other side stand twice.
    pub(crate) fn new(before: Seen<'_>, after: Seen<'_>) -> (Common, [Numbers; 2]) {
        let mut common = Common {
            choices: Vec::new(),
            subjects: Vec::new(),
            fields: Vec::new(),
            groups: Vec::new(),
            questions: Vec::new(),
            roles: Roles::default(),
        };
        let sides = [before, after].map(|side| common.take(side));
        (common, sides)
    }

    /// The common glossary as the evaluator reads it.
    pub(crate) fn lexicon(&self) -> Lexicon<'_> {
        Lexicon {
            choices: &self.choices,
            subjects: &self.subjects,
            fields: &self.fields,
            groups: &self.groups,
            questions: &self.questions,
            roles: self.roles,
            path: &[],
        }
    }

    fn take(&mut self, side: Seen<'_>) -> Numbers {
        let mut numbers = Numbers::default();
        for choice in &side.glossary.choices {
            self.choice(side, choice, &mut numbers);
        }
        for subject in &side.glossary.subjects {
            let at = self.subjects.iter().position(|known| known.name == subject.name).unwrap_or_else(|| {
                self.subjects.push(subject.clone());
                self.subjects.len() - 1
            });
            numbers.subjects.push(SubjectId(at as u16));
        }
        for group in &side.glossary.groups {
            let known = side.knows(group.scope);
            let same = |other: &Group| other.name == group.name && other.list == group.list && other.scope.is_none();
            let at = self.groups.iter().position(|other| known && same(other)).unwrap_or_else(|| {
                self.groups.push(Group { fields: Vec::new(), scope: side.scope(group.scope), ..group.clone() });
                self.groups.len() - 1
            });
            numbers.groups.push(GroupId(at as u16));
        }
        for field in &side.glossary.fields {
            self.field(side, field, &mut numbers);
        }
        for (field, id) in side.glossary.fields.iter().zip(0u16..) {
            let common = numbers.field(FieldId(id));
            let earlier = field.never_before.map(|earlier| numbers.field(earlier));
            if let Some(slot) = self.fields.get_mut(usize::from(common.0)) {
                slot.never_before = earlier;
            }
        }
        for question in &side.glossary.questions {
            self.question(side, question, &mut numbers);
        }
        let roles = side.glossary.roles;
        self.roles = Roles {
            dates: self.roles.dates.or(roles.dates.map(|field| numbers.field(field))),
            text: self.roles.text.or_else(|| {
                let (field, earlier, later) = roles.text?;
                let Shape::Choice(choice) = side.glossary[field].shape else { return None };
                Some((numbers.field(field), numbers.term(choice, earlier), numbers.term(choice, later)))
            }),
            code: self.roles.code.or(roles.code.map(|field| numbers.field(field))),
            supplier: self.roles.supplier.or(roles.supplier.map(|field| numbers.field(field))),
        };
        numbers
    }

    fn choice(&mut self, side: Seen<'_>, choice: &Choice, numbers: &mut Numbers) {
        let at = self.choices.iter().position(|known| known.name == choice.name).unwrap_or_else(|| {
            self.choices.push(Choice { terms: Vec::new(), ..choice.clone() });
            self.choices.len() - 1
        });
        numbers.choices.push(ChoiceId(at as u16));
        let Some(own) = self.choices.get_mut(at) else { return };
        let mut terms: Vec<u16> = Vec::with_capacity(choice.terms.len());
        for term in &choice.terms {
            let known = side.knows(term.scope);
            let same = |other: &crate::glossary::model::Term| other.name == term.name && other.scope.is_none();
            let number = own.terms.iter().position(|other| known && same(other)).unwrap_or_else(|| {
                own.terms.push(crate::glossary::model::Term { scope: side.scope(term.scope), ..term.clone() });
                own.terms.len() - 1
            });
            terms.push(number as u16);
        }
        let spread = |covers: Terms| {
            covers
                .iter()
                .filter_map(|term| terms.get(usize::from(term)))
                .fold(Terms::NONE, |all, term| all.union(Terms::one(*term)))
        };
        for (term, number) in choice.terms.iter().zip(&terms) {
            if let Some(slot) = own.terms.get_mut(usize::from(*number)) {
                slot.under = term.under.and_then(|under| terms.get(usize::from(under)).copied());
                slot.covers = slot.covers.union(spread(term.covers));
            }
        }
        numbers.terms.push(terms);
    }

    fn field(&mut self, side: Seen<'_>, field: &Field, numbers: &mut Numbers) {
        let known = side.knows(field.scope);
        let shape = match field.shape {
            Shape::Choice(choice) => Shape::Choice(choice_of(numbers, choice)),
            Shape::Several(choice) => Shape::Several(choice_of(numbers, choice)),
            other => other,
        };
        let group = field.group.map(|group| numbers.group(group));
        let same = |other: &Field| {
            other.path == field.path && other.group == group && other.scope.is_none() && alike(other.shape, shape)
        };
        let at = self.fields.iter().position(|other| known && same(other)).unwrap_or_else(|| {
            let at = self.fields.len();
            let mut column = field.column;
            if let Some(own) = group.and_then(|group| self.groups.get_mut(usize::from(group.0))) {
                column = own.fields.len() as u16;
                own.fields.push(FieldId(at as u16));
            }
            self.fields.push(Field {
                shape,
                group,
                column,
                never_before: None,
                presumed: None,
                scope: side.scope(field.scope),
                ..field.clone()
            });
            at
        });
        numbers.fields.push(FieldId(at as u16));
    }

    fn question(&mut self, side: Seen<'_>, question: &Question, numbers: &mut Numbers) {
        let known = side.knows(question.scope);
        let order = match &question.order {
            Order::Only(choice) => Order::Only(choice_of(numbers, *choice)),
            Order::AllOf(choice) => Order::AllOf(choice_of(numbers, *choice)),
            other => other.clone(),
        };
        let per = question.per.map(|(field, choice)| (numbers.field(field), choice_of(numbers, choice)));
        let same = |other: &Question| {
            other.name == question.name && other.scope.is_none() && other.per == per && ordered(&other.order, &order)
        };
        let at = self.questions.iter().position(|other| known && same(other)).unwrap_or_else(|| {
            self.questions.push(Question {
                subject: numbers.subject(question.subject),
                order,
                per,
                measures: None,
                met: None,
                asked: None,
                contrary: Vec::new(),
                scope: side.scope(question.scope),
                ..question.clone()
            });
            self.questions.len() - 1
        });
        numbers.questions.push(QuestionId(at as u16));
    }
}

fn choice_of(numbers: &Numbers, choice: ChoiceId) -> ChoiceId {
    numbers.choices.get(usize::from(choice.0)).copied().unwrap_or(choice)
}

fn alike(one: Shape, two: Shape) -> bool {
    match (one, two) {
        (Shape::Quantity(one), Shape::Quantity(two)) => one.dimension == two.dimension,
        _ => one == two,
    }
}

fn ordered(one: &Order, two: &Order) -> bool {
    let scales = |one: &Scale, two: &Scale| match (one, two) {
        (Scale::Quantity(one), Scale::Quantity(two)) => one.dimension == two.dimension,
        _ => one == two,
    };
    match (one, two) {
        (Order::AtLeast(one), Order::AtLeast(two)) | (Order::AtMost(one), Order::AtMost(two)) => scales(one, two),
        _ => one == two,
    }
}
