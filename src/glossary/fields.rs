//! Facts, and the attributes of lists and records.

use super::build::{Builder, Named, Sheet, location, title};
use super::choices::in_a_circle;
use super::circle::circles;
use super::condition::Context;
use super::model::{Field, FieldId, Group, GroupId, Scope, Shape};
use super::read::{Fault, common};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::tree;
use crate::values::Unit;

/// Words that a job uses for itself.
const TAKEN: [&str; 3] = ["place", "reference", "schema"];

/// A field of the glossary with the tree that it came from.
pub(super) type Source<'a> = (FieldId, FileId, &'a tree::Fact);

#[derive(Clone, Copy)]
enum Entry<'a> {
    Fact(&'a tree::Fact),
    Group(&'a tree::Group),
}

struct Pending<'a> {
    path: Box<str>,
    scope: Scope,
    file: FileId,
    fact: &'a tree::Fact,
    shape: Shape,
    group: Option<GroupId>,
    column: u16,
}

impl Builder<'_> {
    /// Declares facts, lists and records; what refers to other facts waits.
    pub(super) fn fields<'a>(&mut self, sheet: &Sheet<'a>) -> Vec<Source<'a>> {
        let facts = sheet.facts.iter().map(|(file, fact)| (*file, &fact.name, fact.place.as_ref(), Entry::Fact(fact)));
        let groups =
            sheet.groups.iter().map(|(file, group)| (*file, &group.name, group.place.as_ref(), Entry::Group(group)));
        let mut all = Vec::new();
        for (file, name, place, it) in facts.chain(groups) {
            if TAKEN.contains(&&*name.text) {
                let message = format!("a job uses the word `{}` for itself", name.text);
                let at = location(file, name.span);
                self.report(Diagnostic::new(codes::RESERVED, at, message).help("give the fact another name"));
                self.spoil(&name.text);
                continue;
            }
            match self.scope(place, file) {
                Ok(scope) => all.push(Named { name, scope, file, it }),
                Err(()) => self.spoil(&name.text),
            }
        }
        let all = self.distinct("fact", all);
        let mut pending = Vec::new();
        for one in &all {
            match one.it {
                Entry::Fact(fact) => {
                    let path = one.name.text.clone();
                    pending.extend(self.pending(path, one.scope, one.file, fact, None));
                }
                Entry::Group(group) => self.group(one, group, &mut pending),
            }
        }
        pending.sort_by(|a, b| (&a.path, a.scope, a.file).cmp(&(&b.path, b.scope, b.file)));
        self.hold(&mut pending, |one| location(one.file, one.fact.name.span));
        let sources = pending.into_iter().zip(0u16..).map(|(one, number)| self.field(one, FieldId(number))).collect();
        let mut members: Vec<(GroupId, u16, FieldId)> = Vec::new();
        for (field, id) in self.glossary.fields.iter().zip(0u16..) {
            members.extend(field.group.map(|group| (group, field.column, FieldId(id))));
        }
        members.sort_unstable();
        for (group, _, id) in members {
            if let Some(group) = self.glossary.groups.get_mut(usize::from(group.0)) {
                group.fields.push(id);
            }
        }
        sources
    }

    fn group<'a>(&mut self, one: &Named<'a, Entry<'a>>, group: &'a tree::Group, pending: &mut Vec<Pending<'a>>) {
        let Ok(number) = u16::try_from(self.glossary.groups.len()) else {
            return;
        };
        let id = GroupId(number);
        let mut attributes = Vec::new();
        for fact in &group.attributes {
            let own = match &fact.place {
                Some(place) => self.scope(Some(place), one.file),
                None => Ok(one.scope),
            };
            match own {
                Ok(scope) => attributes.push(Named { name: &fact.name, scope, file: one.file, it: fact }),
                Err(()) => self.spoil(&format!("{}.{}", group.name.text, fact.name.text)),
            }
        }
        let mut attributes = self.distinct("attribute", attributes);
        attributes.sort_by_key(Named::at);
        let mut column = 0;
        for attribute in attributes {
            let path = format!("{}.{}", group.name.text, attribute.name.text).into_boxed_str();
            let at = Some((id, column));
            if let Some(field) = self.pending(path, attribute.scope, one.file, attribute.it, at) {
                pending.push(field);
                column += 1;
            }
        }
        self.glossary.names.groups.entry(group.name.text.clone()).or_default().push(id);
        self.glossary.groups.push(Group {
            name: group.name.text.clone(),
            title: title(group.title.as_ref(), &group.name),
            list: group.list,
            fields: Vec::new(),
            scope: one.scope,
            at: one.at(),
        });
    }

    fn pending<'a>(
        &mut self,
        path: Box<str>,
        scope: Scope,
        file: FileId,
        fact: &'a tree::Fact,
        within: Option<(GroupId, u16)>,
    ) -> Option<Pending<'a>> {
        match self.shape(&fact.shape, file) {
            Ok(shape) => {
                let group = within.map(|(group, _)| group);
                let column = within.map_or(0, |(_, column)| column);
                Some(Pending { path, scope, file, fact, shape, group, column })
            }
            Err(finding) => {
                if let Some(finding) = finding {
                    self.report(finding);
                }
                self.spoil(&path);
                None
            }
        }
    }

    fn shape(&self, shape: &tree::Shape, file: FileId) -> Result<Shape, Option<Diagnostic>> {
        let choice = |word: &tree::Word| {
            self.glossary.choice(&word.text).ok_or_else(|| self.unknown_choice(word, location(file, word.span)))
        };
        Ok(match shape {
            tree::Shape::YesNo => Shape::YesNo,
            tree::Shape::Date => Shape::Date,
            tree::Shape::Count => Shape::Count,
            tree::Shape::Gauge => Shape::Gauge,
            tree::Shape::Name => Shape::Name,
            tree::Shape::Code => Shape::Code,
            tree::Shape::Quantity(word) => Shape::Quantity(unit(word, location(file, word.span)).map_err(Some)?),
            tree::Shape::Choice(word) => Shape::Choice(choice(word)?),
            tree::Shape::Several(word) => Shape::Several(choice(word)?),
        })
    }

    /// The finding on a choice that is not declared; nothing where its
    /// declaration is known to be spoilt.
    pub(super) fn unknown_choice(&self, word: &tree::Word, at: Location) -> Option<Diagnostic> {
        if self.glossary.is_broken(&word.text) {
            return None;
        }
        let shapes = ["yes-no", "date", "count", "gauge", "name", "code"];
        let names = self.glossary.choices.iter().map(|choice| &*choice.name).chain(shapes);
        let fault = Fault::new(codes::UNKNOWN_NAME, format!("the choice `{}` is not known", word.text))
            .help("declare it with `choice`, or mend the name")
            .near(&word.text, names);
        Some(fault.at(at))
    }

    fn field<'a>(&mut self, one: Pending<'a>, id: FieldId) -> Source<'a> {
        let fact = one.fact;
        let known = fact.known.iter().map(|known| {
            let who = known.who.iter().map(|word| word.text.clone()).collect();
            (who, known.when.as_ref().map(|word| word.text.clone()))
        });
        self.glossary.names.fields.entry(one.path.clone()).or_default().push(id);
        self.glossary.fields.push(Field {
            name: fact.name.text.clone(),
            path: one.path,
            shape: one.shape,
            title: title(fact.title.as_ref(), &fact.name),
            ask: fact.ask.as_ref().map(|text| text.text.clone()),
            known: known.collect(),
            ours: fact.ours,
            group: one.group,
            column: one.column,
            presumed: None,
            never_before: None,
            scope: one.scope,
            at: location(one.file, fact.name.span),
        });
        (id, one.file, fact)
    }

    /// `never before FACT`
    pub(super) fn bounds(&mut self, sources: &[Source<'_>]) {
        for (id, file, fact) in sources {
            let Some(path) = &fact.never_before else {
                continue;
            };
            let at = location(*file, path.head.span);
            let (shape, scope) = (self.glossary[*id].shape, self.glossary[*id].scope);
            let lists = self.glossary.in_list(*id);
            if shape != Shape::Date || lists {
                let message = format!("`{}` cannot be `never before` anything", self.glossary[*id].path);
                let help = "`never before` stands on a fact or record attribute of the shape `date`";
                self.report(Diagnostic::new(codes::SHAPE, at, message).help(help));
                continue;
            }
            let context = Context::plain(*file, scope, self.territory);
            let Some(other) = self.glossary.fact_named(path, &context, self.diagnostics) else {
                continue;
            };
            if self.glossary[other].shape != Shape::Date {
                let message = format!("`{}` is not a date", self.glossary[other].path);
                let help = "`never before` names another fact of the shape `date`";
                self.report(Diagnostic::new(codes::SHAPE, at, message).help(help));
                continue;
            }
            self.set(*id, |field| field.never_before = Some(other));
        }
        let next = |at: usize| {
            let field = self.glossary.fields.get(at);
            field.and_then(|field| field.never_before).map(|id| usize::from(id.0)).into_iter().collect()
        };
        for circle in circles(self.glossary.fields.len(), next) {
            let finding = in_a_circle("dates are `never before` each other", &self.members(&circle));
            self.report(finding);
            circle.iter().for_each(|at| self.set_at(*at, |field| field.never_before = None));
        }
    }

    /// `presumed where C`
    pub(super) fn presumptions(&mut self, sources: &[Source<'_>]) {
        for (id, file, fact) in sources {
            let Some(cond) = &fact.presumed else {
                continue;
            };
            let (shape, scope) = (self.glossary[*id].shape, self.glossary[*id].scope);
            if shape != Shape::YesNo || self.glossary.in_list(*id) {
                let message = format!("`{}` cannot be presumed", self.glossary[*id].path);
                let help = "`presumed where` stands on a fact or record attribute of the shape `yes-no`";
                self.report(Diagnostic::new(codes::SHAPE, location(*file, cond.span), message).help(help));
                continue;
            }
            let context = Context::plain(*file, scope, self.territory);
            let found = self.glossary.condition(cond, &context, self.diagnostics);
            self.set(*id, |field| field.presumed = found);
        }
        let next = |at: usize| {
            let presumed = self.glossary.fields.get(at).and_then(|field| field.presumed.as_ref());
            presumed.map(|cond| cond.fields().iter().rev().map(|id| usize::from(id.0)).collect()).unwrap_or_default()
        };
        for circle in circles(self.glossary.fields.len(), next) {
            let finding = in_a_circle("facts are presumed from each other", &self.members(&circle));
            self.report(finding);
            circle.iter().for_each(|at| self.set_at(*at, |field| field.presumed = None));
        }
    }

    fn members(&self, circle: &[usize]) -> Vec<(&str, Location)> {
        circle.iter().filter_map(|at| self.glossary.fields.get(*at)).map(|field| (&*field.path, field.at)).collect()
    }

    fn set(&mut self, id: FieldId, change: impl FnOnce(&mut Field)) {
        self.set_at(usize::from(id.0), change);
    }

    fn set_at(&mut self, at: usize, change: impl FnOnce(&mut Field)) {
        if let Some(field) = self.glossary.fields.get_mut(at) {
            change(field);
        }
    }
}

/// The unit with this name.
///
/// # Errors
/// Where there is none; the finding names the nearest.
pub(super) fn unit(word: &tree::Word, at: Location) -> Result<Unit, Diagnostic> {
    Unit::find(&word.text).ok_or_else(|| {
        let all: Vec<&str> = Unit::names().collect();
        let fault = Fault::new(codes::UNIT, format!("the unit `{}` is not known", word.text))
            .help(format!("the units are {}", all.join(", ")));
        match common(&word.text) {
            Some(name) => Fault { near: vec![name.into()], ..fault },
            None => fault.near(&word.text, Unit::names()),
        }
        .at(at)
    })
}
