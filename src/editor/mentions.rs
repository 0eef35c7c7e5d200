//! Every word of a rule file or job sheet that stands for something, with what it
//! stands for. Names are looked up as the library looks them up: from the place
//! whose law it is, in its list first, in its edition first.

mod conditions;
mod jobs;
mod texts;

use super::things::{Mention, Part, Thing};
use super::view::{Spot, View, holds};
use crate::glossary::Territory;
use crate::glossary::model::{GroupId, PlaceId, Scope};
use crate::law::instrument::InstrumentId;
use crate::law::library::Library;
use crate::law::places::IssuerKind;
use crate::law::text::EditionId;
use crate::syntax::diagnostic::{FileId, Location};
use crate::syntax::tree::{self, Item, Order, Path, Reference, Shape, Span, Word};

/// The text in which sections are named.
#[derive(Clone, Copy)]
enum Text {
    Edition(EditionId),
    Instrument(InstrumentId),
}

/// A walk through a file.
struct Walk<'w> {
    view: &'w View,
    library: &'w Library,
    file: FileId,
    /// Words that are of no interest are not looked up.
    wanted: &'w dyn Fn(&str) -> bool,
    see: &'w mut dyn FnMut(Mention),
    /// The place whose law it is.
    from: Scope,
    /// The list whose entry is tested.
    list: Option<GroupId>,
    text: Option<Text>,
    /// The one issuer that the file declares.
    sole: Option<PlaceId>,
}

/// Shows every mention in a file of which the word is wanted.
pub(super) fn mentions(view: &View, file: FileId, wanted: &dyn Fn(&str) -> bool, see: &mut dyn FnMut(Mention)) {
    walk(view, file, wanted, see, &|_| true);
}

/// What stands at a place.
pub(super) fn at(view: &View, spot: Spot<'_>) -> Option<Mention> {
    let mut found: Option<Mention> = None;
    let mut see = |mention: Mention| {
        let span = mention.at.span;
        let size = |span: Span| span.end - span.start;
        let smaller = found.as_ref().is_none_or(|kept| {
            // Where two words meet the one that begins here is meant.
            (size(span), kept.at.span.start) < (size(kept.at.span), span.start)
        });
        if holds(span, spot.offset) && smaller {
            found = Some(mention);
        }
    };
    walk(view, spot.file, &|_| true, &mut see, &|item| holds(item.span(), spot.offset));
    found
}

fn walk(
    view: &View,
    file: FileId,
    wanted: &dyn Fn(&str) -> bool,
    see: &mut dyn FnMut(Mention),
    item_wanted: &dyn Fn(&Item) -> bool,
) {
    let Some(tree) = view.tree(file) else { return };
    let library = view.rules.library();
    let mut walk = Walk { view, library, file, wanted, see, from: None, list: None, text: None, sole: None };
    walk.sole = walk.sole_issuer(tree);
    for item in tree.items.iter().filter(|item| item_wanted(item)) {
        walk.item(item);
        (walk.from, walk.list, walk.text) = (None, None, None);
    }
}

impl Walk<'_> {
    fn at(&self, span: Span) -> Location {
        Location { file: self.file, span }
    }

    /// Shows a word, where it is wanted and stands for something.
    fn word(&mut self, word: &Word, declares: bool, find: impl FnOnce(&Self) -> Option<Thing>) {
        if (self.wanted)(&word.text)
            && let Some(thing) = find(self)
        {
            self.show(word.span, thing, declares, None);
        }
    }

    fn show(&mut self, span: Span, thing: Thing, declares: bool, edition: Option<EditionId>) {
        let at = self.at(span);
        (self.see)(Mention { at, thing, declares, edition });
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Choice(choice) => self.choice(choice),
            Item::Extend(extend) => self.extend(extend),
            Item::Subject(subject) => {
                self.word(&subject.name, true, |walk| walk.subject(&subject.name.text));
            }
            Item::Fact(fact) => self.fact(fact, None),
            Item::Group(group) => self.group(group),
            Item::Question(question) => self.question(question),
            Item::Definition(definition) => {
                let name = &definition.name;
                self.word(name, true, |_| Some(Thing::Definition(name.text.clone())));
                self.cond(&definition.cond);
            }
            Item::Code(code) => {
                self.code(&code.name, true);
                self.subjects(&code.subjects);
            }
            Item::Edition(edition) => self.edition(edition),
            Item::Place(place) => self.place_item(place),
            Item::Issuer(issuer) => {
                self.issuer_declared(&issuer.name);
                self.from = None;
                issuer.dates_by.iter().for_each(|path| self.path(path));
            }
            Item::Instrument(instrument) => self.instrument(instrument),
            Item::Example(example) => {
                self.job(&example.job);
                example.expects.iter().for_each(|expect| self.expect(expect));
            }
            Item::Job(job) => self.job(job),
        }
    }

    fn choice(&mut self, choice: &tree::Choice) {
        self.word(&choice.name, true, |walk| walk.choice_named(&choice.name.text));
        self.terms_declared(&choice.name, &choice.terms);
    }

    fn extend(&mut self, extend: &tree::Extend) {
        self.word(&extend.choice, false, |walk| walk.choice_named(&extend.choice.text));
        self.reference(&extend.place);
        self.from = self.resolved(&extend.place);
        self.terms_declared(&extend.choice, &extend.terms);
    }

    fn terms_declared(&mut self, choice: &Word, terms: &[tree::Term]) {
        let Some(choice) = self.library.glossary.choice(&choice.text) else { return };
        for term in terms {
            self.word(&term.name, true, |walk| walk.term(choice, &term.name.text));
            if let Some(under) = &term.under {
                self.word(under, false, |walk| walk.term(choice, &under.text));
            }
        }
    }

    fn fact(&mut self, fact: &tree::Fact, group: Option<GroupId>) {
        if let Some(place) = &fact.place {
            self.reference(place);
            self.from = self.resolved(place);
        }
        self.word(&fact.name, true, |walk| {
            let (glossary, places) = (&walk.library.glossary, &walk.library.places);
            let field = match group {
                Some(group) => glossary.attribute(group, &fact.name.text, walk.from, places),
                None => glossary.field(&fact.name.text, walk.from, places),
            };
            field.map(Thing::Field)
        });
        if let Shape::Choice(choice) | Shape::Several(choice) = &fact.shape {
            self.word(choice, false, |walk| walk.choice_named(&choice.text));
        }
        let list = group.filter(|group| self.library.glossary[*group].list);
        self.list = list;
        fact.presumed.iter().for_each(|cond| self.cond(cond));
        fact.never_before.iter().for_each(|path| self.path(path));
        self.list = None;
    }

    fn group(&mut self, group: &tree::Group) {
        if let Some(place) = &group.place {
            self.reference(place);
            self.from = self.resolved(place);
        }
        self.word(&group.name, true, |walk| walk.group_named(&group.name.text).map(Thing::Group));
        let id = self.group_named(&group.name.text);
        for attribute in &group.attributes {
            let from = self.from;
            self.fact(attribute, id);
            self.from = from;
        }
    }

    fn question(&mut self, question: &tree::Question) {
        if let Some(place) = &question.place {
            self.reference(place);
            self.from = self.resolved(place);
        }
        self.question_named(&question.name, true);
        self.word(&question.subject, false, |walk| walk.subject(&question.subject.text));
        match &question.order {
            Order::Ladder(rungs) => {
                for (rung, at) in rungs.iter().zip(0u16..) {
                    self.word(rung, true, |walk| {
                        walk.question_id(&question.name.text).map(|question| Thing::Rung(question, at))
                    });
                }
            }
            Order::Only(choice) | Order::AllOf(choice) => {
                self.word(choice, false, |walk| walk.choice_named(&choice.text));
            }
            Order::AtLeast(_) | Order::AtMost(_) => {}
        }
        question.per.iter().chain(&question.measures).for_each(|path| self.path(path));
        if let Some(tree::Met::Where(cond)) = &question.met {
            self.cond(cond);
        }
        question.asked.iter().for_each(|cond| self.cond(cond));
        question.contrary.iter().for_each(|other| self.question_named(other, false));
    }

    fn place_item(&mut self, place: &tree::Place) {
        self.issuer_declared(&place.name);
        place.within.iter().for_each(|outer| self.reference(outer));
        place.nothing.iter().for_each(|nothing| self.subjects(&nothing.subjects));
        self.from = self.view.issuer_at(self.at(place.name.span));
        place.dates_by.iter().for_each(|path| self.path(path));
    }

    fn issuer_declared(&mut self, name: &Word) {
        let at = self.at(name.span);
        self.word(name, true, |walk| walk.view.issuer_at(at).map(Thing::Issuer));
    }

    /// A place or issuer as named.
    fn reference(&mut self, reference: &Reference) {
        let last = reference.text.rsplit('/').next().unwrap_or(&reference.text);
        let interesting = reference.printed || (self.wanted)(last);
        if interesting && let Some(place) = self.resolved(reference) {
            self.show(reference.span, Thing::Issuer(place), false, None);
        }
    }

    fn resolved(&self, reference: &Reference) -> Option<PlaceId> {
        self.library.places.resolve(reference, self.file).ok()
    }

    /// The one issuer that a file declares.
    fn sole_issuer(&self, tree: &tree::File) -> Option<PlaceId> {
        let mut names = tree.items.iter().filter_map(|item| match item {
            Item::Place(place) => Some(&place.name),
            Item::Issuer(issuer) => Some(&issuer.name),
            _ => None,
        });
        let name = names.next()?;
        names.next().is_none().then(|| self.view.issuer_at(self.at(name.span)))?
    }

    fn subject(&self, name: &str) -> Option<Thing> {
        self.library.glossary.subject(name).map(Thing::Subject)
    }

    fn subjects(&mut self, words: &[Word]) {
        for word in words {
            self.word(word, false, |walk| walk.subject(&word.text));
        }
    }

    fn choice_named(&self, name: &str) -> Option<Thing> {
        self.library.glossary.choice(name).map(Thing::Choice)
    }

    fn term(&self, choice: crate::glossary::model::ChoiceId, name: &str) -> Option<Thing> {
        let term = self.library.glossary.term(choice, name, self.from, &self.library.places)?;
        Some(Thing::Term(choice, term))
    }

    fn group_named(&self, name: &str) -> Option<GroupId> {
        self.library.glossary.group(name, self.from, &self.library.places)
    }

    fn code(&mut self, name: &Word, declares: bool) {
        self.word(name, declares, |walk| walk.library.codes.by_name.get(&name.text).copied().map(Thing::Code));
    }

    /// A fact or record attribute, outside a condition.
    fn path(&mut self, path: &Path) {
        self.path_in(path, false);
    }

    /// The place of an issuer whose words may be used.
    fn place_of(&self, issuer: PlaceId) -> Scope {
        let kind = self.library.places.issuer(issuer).map(|issuer| issuer.kind);
        (kind == Some(IssuerKind::Place)).then_some(issuer)
    }

    fn part(&mut self, span: Span, part: Part, declares: bool, edition: Option<EditionId>) {
        self.show(span, Thing::Section(part), declares, edition);
    }
}
