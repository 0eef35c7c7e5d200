//! In which form a fact is answered, and what can be picked at the job's place.

use super::step::{Form, Pick};
use crate::glossary::expr::Check;
use crate::glossary::model::{ChoiceId, FieldId, GroupId, Shape};
use crate::law::library::Library;
use crate::law::model::Node;
use crate::law::places::IssuerKind;
use crate::verdict::Matter;
use crate::verdict::paths::Path;
use std::collections::BTreeSet;

/// The form of a fact, of an attribute or of a list.
pub(super) fn form<'a>(matter: &Matter<'a>, library: Option<&'a Library>, path: Path) -> Form<'a> {
    match path {
        Path::Fact(field) | Path::Attribute { field, .. } => value(matter, library, field),
        Path::List(group) => Form::Entries { known: known(matter, group), further: false },
        Path::Further(group) => Form::Entries { known: known(matter, group), further: true },
        Path::Span(_) => Form::YesNo,
    }
}

fn known(matter: &Matter<'_>, group: GroupId) -> usize {
    matter.list(group).map_or(0, |list| list.entries.len())
}

fn value<'a>(matter: &Matter<'a>, library: Option<&'a Library>, id: FieldId) -> Form<'a> {
    let Some(field) = matter.lexicon.field(id) else { return Form::Name(Vec::new()) };
    match field.shape {
        Shape::YesNo => Form::YesNo,
        Shape::Date => Form::Date,
        Shape::Count => Form::Count,
        Shape::Gauge => Form::Gauge,
        Shape::Quantity(unit) => Form::Quantity(unit),
        Shape::Name => Form::Name(names(matter, library, id)),
        Shape::Code => Form::Code(codes(matter, library)),
        Shape::Choice(choice) => Form::Choice(terms(matter, choice)),
        Shape::Several(choice) => Form::Several(terms(matter, choice)),
    }
}

/// The terms of a choice that are known at the place, in the order declared.
fn terms<'a>(matter: &Matter<'a>, choice: ChoiceId) -> Vec<Pick<'a>> {
    let all = matter.lexicon.choice(choice).map_or(&[][..], |choice| &choice.terms);
    let here = all.iter().filter(|term| matter.lexicon.known(term.scope));
    here.map(|term| Pick { name: &term.name, title: told(&term.title, &term.name) }).collect()
}

/// A title, where it says more than the name.
fn told<'a>(title: &'a str, name: &str) -> &'a str {
    if title == name { "" } else { title }
}

/// The codes between which the job's place leaves the choice.
fn codes<'a>(matter: &Matter<'a>, library: Option<&'a Library>) -> Vec<Pick<'a>> {
    let title = |name: &str| {
        let known = library.and_then(|library| library.codes.codes.iter().find(|code| *code.name == *name));
        known.map_or("", |code| told(&code.title, &code.name))
    };
    matter.plan.codes.iter().map(|name| Pick { name, title: title(name) }).collect()
}

/// The names that are worth offering: those after which the law of the place asks,
/// and for the fact that names the supplier all suppliers.
fn names<'a>(matter: &Matter<'a>, library: Option<&'a Library>, id: FieldId) -> Vec<Pick<'a>> {
    let mut found: BTreeSet<&'a str> = BTreeSet::new();
    for node in &matter.law.nodes {
        if let Node::Field(field, Check::Named(names)) = node
            && *field == id
        {
            found.extend(names.iter().map(|name| &**name));
        }
    }
    let issuers = || library.into_iter().flat_map(|library| library.places.all()).map(|(_, issuer)| issuer);
    if matter.lexicon.roles.supplier == Some(id) {
        found.extend(issuers().filter(|issuer| issuer.kind == IssuerKind::Supplier).map(|issuer| &*issuer.name));
    }
    let title = |name: &str| {
        let known = issuers().find(|issuer| issuer.kind != IssuerKind::Place && *issuer.name == *name);
        known.map_or("", |issuer| told(&issuer.title, &issuer.name))
    };
    found.into_iter().map(|name| Pick { name, title: title(name) }).collect()
}
