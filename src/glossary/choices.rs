//! Choices, the terms that places add to them, and which terms stand under which.

use super::build::{Builder, Named, Sheet, declared_twice, location, title};
use super::circle::circles;
use super::model::{Choice, ChoiceId, Term};
use super::names::sees;
use super::read::Fault;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::syntax::limits::TERMS;
use crate::syntax::tree;
use crate::values::Terms;
use std::collections::{BTreeMap, BTreeSet};

type Added<'a> = Vec<Named<'a, &'a tree::Term>>;

impl Builder<'_> {
    pub(super) fn choices(&mut self, sheet: &Sheet<'_>) {
        let mut added = self.added(sheet);
        let all = sheet
            .choices
            .iter()
            .map(|(file, choice)| Named { name: &choice.name, scope: None, file: *file, it: *choice })
            .collect();
        let mut all = self.distinct("choice", all);
        self.hold(&mut all, Named::at);
        for (one, number) in all.into_iter().zip(0u16..) {
            let extra = added.remove(&*one.name.text).unwrap_or_default();
            let choice = self.one_choice(&one, extra);
            self.glossary.names.choices.insert(choice.name.clone(), ChoiceId(number));
            self.glossary.choices.push(choice);
        }
    }

    /// The added terms by the name of their choice, each list sorted.
    fn added<'a>(&mut self, sheet: &Sheet<'a>) -> BTreeMap<&'a str, Added<'a>> {
        let known: BTreeSet<&str> = sheet.choices.iter().map(|(_, choice)| &*choice.name.text).collect();
        let mut added: BTreeMap<&str, Added<'_>> = BTreeMap::new();
        for (file, extend) in &sheet.extensions {
            let name = &*extend.choice.text;
            if !known.contains(name) {
                let fault = Fault::new(codes::UNKNOWN_NAME, format!("the choice `{name}` is not known"))
                    .help("declare it with `choice`, or mend the name")
                    .near(name, known.iter().copied());
                self.report(fault.at(location(*file, extend.choice.span)));
                continue;
            }
            let Ok(scope) = self.scope(Some(&extend.place), *file) else {
                extend.terms.iter().for_each(|term| self.spoil(&term.name.text));
                continue;
            };
            let terms = extend.terms.iter().map(|term| Named { name: &term.name, scope, file: *file, it: term });
            added.entry(name).or_default().extend(terms);
        }
        for terms in added.values_mut() {
            terms.sort_by(|a, b| (&a.name.text, a.scope, a.at()).cmp(&(&b.name.text, b.scope, b.at())));
        }
        added
    }

    fn one_choice(&mut self, one: &Named<'_, &tree::Choice>, extra: Added<'_>) -> Choice {
        let own = one.it.terms.iter().map(|term| Named { name: &term.name, scope: None, file: one.file, it: term });
        let mut kept: Added<'_> = Vec::new();
        let mut by_name: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        for term in own.chain(extra) {
            let same = by_name.entry(&term.name.text).or_default();
            let clash = same.iter().filter_map(|at| kept.get(*at)).find(|other| self.overlap(other.scope, term.scope));
            if let Some(first) = clash.map(Named::at) {
                let finding = declared_twice("term", &term.name.text, term.at(), first);
                self.report(finding);
                continue;
            }
            same.push(kept.len());
            kept.push(term);
        }
        if let Some(past) = kept.get(TERMS.most) {
            let finding = TERMS.passed(past.at());
            self.report(finding);
            kept.truncate(TERMS.most);
        }
        let under = self.unders(&kept);
        let terms = kept.iter().zip(&under).map(|(term, under)| Term {
            name: term.name.text.clone(),
            title: title(term.it.title.as_ref(), term.name),
            under: *under,
            covers: Terms::NONE,
            scope: term.scope,
            at: term.at(),
        });
        let mut terms: Vec<Term> = terms.collect();
        cover(&mut terms);
        Choice { name: one.name.text.clone(), title: title(one.it.title.as_ref(), one.name), terms, at: one.at() }
    }

    /// For each term the number of the one that it stands under, circles cut.
    fn unders(&mut self, terms: &Added<'_>) -> Vec<Option<u16>> {
        let mut under = Vec::with_capacity(terms.len());
        for term in terms {
            under.push(term.it.under.as_ref().and_then(|word| self.under(terms, term, word)));
        }
        let next = |at: usize| under.get(at).copied().flatten().map(usize::from).into_iter().collect();
        for circle in circles(terms.len(), next) {
            let members: Vec<(&str, Location)> =
                circle.iter().filter_map(|at| terms.get(*at)).map(|term| (&*term.name.text, term.at())).collect();
            self.report(in_a_circle("terms stand under each other", &members));
            for at in circle {
                if let Some(cut) = under.get_mut(at) {
                    *cut = None;
                }
            }
        }
        under
    }

    fn under(&mut self, terms: &Added<'_>, term: &Named<'_, &tree::Term>, word: &tree::Word) -> Option<u16> {
        let seen = |other: &Named<'_, &tree::Term>| sees(term.scope, other.scope, self.territory);
        let found = terms.iter().zip(0u16..).find(|(other, _)| other.name.text == word.text && seen(other));
        if let Some((_, at)) = found {
            return Some(at);
        }
        if self.glossary.is_broken(&word.text) {
            return None;
        }
        let message = format!("`{}` stands under `{}`, which is no term of the choice", term.name.text, word.text);
        let fault = Fault::new(codes::UNKNOWN_TERM, message)
            .help("name a term of the same choice that is known where this one is")
            .near(&word.text, terms.iter().filter(|other| seen(other)).map(|other| &*other.name.text));
        self.report(fault.at(location(term.file, word.span)));
        None
    }
}

/// Gives every term its own number and those of the terms under it.
fn cover(terms: &mut [Term]) {
    for at in 0..terms.len() {
        let mut up = u16::try_from(at).ok();
        let own = up.map_or(Terms::NONE, Terms::one);
        while let Some(term) = up.and_then(|up| terms.get_mut(usize::from(up))) {
            term.covers = term.covers.union(own);
            up = term.under;
        }
    }
}

/// The finding on a circle, with every member and its place.
pub(super) fn in_a_circle(what: &str, members: &[(&str, Location)]) -> Diagnostic {
    let way: Vec<&str> = members.iter().chain(members.first()).map(|(name, _)| *name).collect();
    let at = members.first().map(|(_, at)| *at).unwrap_or_default();
    let finding = Diagnostic::new(codes::CIRCLE, at, format!("{what} in a circle: `{}`", way.join("`, `")))
        .help("take one of them out of the circle");
    members.iter().skip(1).fold(finding, |finding, (name, at)| finding.also(*at, format!("`{name}` is declared here")))
}
