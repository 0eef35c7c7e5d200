//! The names of each kind that are known where the cursor stands.

use super::Offers;
use super::tokens::Tokens;
use super::wanted::Wanted;
use crate::editor::things::{Part, Thing};
use crate::editor::view::{SHEETS, View};
use crate::glossary::Territory;
use crate::glossary::model::{ChoiceId, FieldId, GroupId, Order, PlaceId, QuestionId, Scope, Shape, SubjectId};
use crate::law::instrument::{InstrumentId, Kind, Target};
use crate::law::library::Library;
use crate::law::places::IssuerKind;
use crate::law::text::EditionId;
use crate::syntax::codes;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::{Item, JobEntry, Reference, Span};
use lsp_types::CompletionItemKind;

/// Names as seen from the cursor.
pub(super) struct Names<'v, 't> {
    view: &'v View,
    library: &'v Library,
    file: FileId,
    from: Scope,
    /// The list whose entry is being tested or written.
    list: Option<GroupId>,
    tokens: &'t Tokens<'t>,
}

impl<'v, 't> Names<'v, 't> {
    /// Names as seen behind these words of a file.
    pub(super) fn new(view: &'v View, file: FileId, tokens: &'t Tokens<'t>) -> Names<'v, 't> {
        let library = view.rules.library();
        let mut names = Names { view, library, file, from: None, list: None, tokens };
        names.from = names.place();
        names.list = tokens.list().and_then(|list| library.glossary.group(list, names.from, &library.places));
        names
    }

    /// The place whose law the item is, or whose job.
    fn place(&self) -> Scope {
        let place = |id: PlaceId| {
            let kind = self.library.places.issuer(id).map(|issuer| issuer.kind);
            (kind == Some(IssuerKind::Place)).then_some(id)
        };
        let named = |text: &str| {
            let printed = text.starts_with('"');
            let text = text.trim_matches('"').into();
            let reference = Reference { text, printed, span: Span::default() };
            self.library.places.resolve(&reference, self.file).ok().and_then(place)
        };
        match self.tokens.first() {
            "instrument" => match self.tokens.behind("of").filter(|_| self.tokens.behind("instrument").is_some()) {
                Some(of) => named(of),
                None => self.sole().and_then(place),
            },
            "fact" | "list" | "record" | "question" | "extend" => self.tokens.behind("in").and_then(named),
            _ => self.tokens.behind("place").and_then(named).or_else(|| self.of_sheet()),
        }
    }

    /// The one issuer that the file declares.
    fn sole(&self) -> Option<PlaceId> {
        let tree = self.view.tree(self.file)?;
        let mut spans = tree.items.iter().filter_map(|item| match item {
            Item::Place(place) => Some(place.name.span),
            Item::Issuer(issuer) => Some(issuer.name.span),
            _ => None,
        });
        let span = spans.next()?;
        let at = crate::syntax::diagnostic::Location { file: self.file, span };
        spans.next().is_none().then(|| self.view.issuer_at(at))?
    }

    /// The place that a job sheet names, wherever it stands in it.
    fn of_sheet(&self) -> Scope {
        let tree = self.view.tree(self.file).filter(|_| self.is_job())?;
        tree.items.iter().find_map(|item| match item {
            Item::Job(job) => job.entries.iter().find_map(|entry| match entry {
                JobEntry::Place(reference) => self.library.places.find(&reference.text).ok(),
                _ => None,
            }),
            _ => None,
        })
    }

    /// Whether the file is a job sheet.
    pub(super) fn is_job(&self) -> bool {
        self.file.0 >= SHEETS
    }

    /// Whether a word is a fact, or an attribute of the list.
    pub(super) fn is_fact(&self, word: &str) -> bool {
        self.field(word).is_some()
    }

    fn field(&self, path: &str) -> Option<FieldId> {
        let (glossary, places) = (&self.library.glossary, &self.library.places);
        let own = self.list.and_then(|list| glossary.attribute(list, path, self.from, places));
        own.or_else(|| glossary.field(path, self.from, places))
    }

    fn question(&self, name: &str) -> Option<QuestionId> {
        self.library.glossary.question(name, self.from, &self.library.places)
    }

    fn seen(&self, scope: Scope) -> bool {
        match (scope, self.from) {
            (None, _) => true,
            (Some(_), None) => false,
            (Some(scope), Some(from)) => self.library.places.within(from, scope),
        }
    }

    /// Offers all names of a kind.
    pub(super) fn offer(&self, wanted: &Wanted<'_>, offers: &mut Offers<'_>) {
        let library = self.library;
        match wanted {
            Wanted::Tested => {
                if let Some(list) = self.list {
                    self.attributes(list, offers);
                }
                self.facts(&|_| true, offers);
                self.questions(true, offers);
                let names: Vec<&str> = library.glossary.definitions().collect();
                names.iter().for_each(|name| offers.thing(name, &Thing::Definition((*name).into())));
            }
            Wanted::Facts => self.facts(&|_| true, offers),
            Wanted::Dates => self.facts(&|shape| shape == Shape::Date, offers),
            Wanted::JobFacts => {
                self.facts(&|_| true, offers);
                self.lists(false, offers);
            }
            Wanted::Attributes(list) => {
                if let Some(group) = library.glossary.group(list, self.from, &library.places) {
                    self.attributes(group, offers);
                }
            }
            Wanted::Lists => self.lists(true, offers),
            Wanted::Values(of) => self.values(of, offers),
            Wanted::TermsOf(question) => {
                if let Some(id) = self.question(question)
                    && let Order::Only(choice) | Order::AllOf(choice) = library.glossary[id].order
                {
                    self.terms(choice, offers);
                }
            }
            Wanted::TermsPer(question) => {
                let per = self.question(question).and_then(|id| library.glossary[id].per);
                per.into_iter().for_each(|(_, choice)| self.terms(choice, offers));
            }
            Wanted::TermsIn(choice) => {
                library.glossary.choice(choice).into_iter().for_each(|choice| self.terms(choice, offers));
            }
            Wanted::Questions => self.questions(false, offers),
            Wanted::Subjects => {
                for (subject, id) in library.glossary.subjects.iter().zip(0u16..) {
                    offers.thing(&subject.name, &Thing::Subject(SubjectId(id)));
                }
            }
            Wanted::Choices => {
                for (choice, id) in library.glossary.choices.iter().zip(0u16..) {
                    offers.thing(&choice.name, &Thing::Choice(ChoiceId(id)));
                }
            }
            Wanted::Places => self.issuers(true, offers),
            Wanted::Issuers => self.issuers(false, offers),
            Wanted::Instruments => self.instruments(offers),
            Wanted::Codes => {
                for (at, code) in library.codes.codes.iter().enumerate() {
                    offers.thing(&code.name, &Thing::Code(at));
                }
            }
            Wanted::Editions => self.editions(None, offers),
            Wanted::Years(code) => self.editions(Some(code), offers),
            Wanted::Sections => self.sections(offers),
            Wanted::SectionsOf(id) => {
                if let Some(id) = self.instrument(id) {
                    self.sections_of(id, offers);
                }
            }
            Wanted::Words(words) => words.iter().for_each(|word| offers.word(word)),
            Wanted::Kinds => Kind::ALL.iter().for_each(|(word, _)| offers.word(word)),
            Wanted::ErrorCodes => {
                for (code, title) in codes::ALL {
                    offers.name(&code.to_string(), Some((*title).to_owned()), CompletionItemKind::CONSTANT);
                }
            }
        }
    }

    fn facts(&self, of: &dyn Fn(Shape) -> bool, offers: &mut Offers<'_>) {
        let glossary = &self.library.glossary;
        for (field, id) in glossary.fields.iter().zip(0u16..) {
            if !glossary.in_list(FieldId(id)) && self.seen(field.scope) && of(field.shape) {
                offers.thing(&field.path, &Thing::Field(FieldId(id)));
            }
        }
    }

    fn attributes(&self, group: GroupId, offers: &mut Offers<'_>) {
        let glossary = &self.library.glossary;
        for id in glossary[group].fields.iter().filter(|id| self.seen(glossary[**id].scope)) {
            offers.thing(&glossary[*id].name, &Thing::Field(*id));
        }
    }

    fn lists(&self, only_lists: bool, offers: &mut Offers<'_>) {
        for (group, id) in self.library.glossary.groups.iter().zip(0u16..) {
            if (group.list || !only_lists) && self.seen(group.scope) {
                offers.thing(&group.name, &Thing::Group(GroupId(id)));
            }
        }
    }

    fn questions(&self, ladders: bool, offers: &mut Offers<'_>) {
        for (question, id) in self.library.glossary.questions.iter().zip(0u16..) {
            let fits = !ladders || matches!(question.order, Order::Ladder(_));
            if fits && self.seen(question.scope) {
                offers.thing(&question.name, &Thing::Question(QuestionId(id)));
            }
        }
    }

    fn terms(&self, choice: ChoiceId, offers: &mut Offers<'_>) {
        let glossary = &self.library.glossary;
        for at in glossary.terms_at(choice, self.from, &self.library.places).iter() {
            if let Some(term) = glossary[choice].terms.get(usize::from(at)) {
                offers.thing(&term.name, &Thing::Term(choice, at));
            }
        }
    }

    /// What a fact is said to be, or an answer of a question.
    fn values(&self, of: &str, offers: &mut Offers<'_>) {
        let library = self.library;
        // In a demand, and where no fact has the name, it is the question.
        let demanded = self.tokens.list().is_none() && self.question(of).is_some() && !self.in_condition();
        if let Some(id) = self.field(of).filter(|_| !demanded) {
            match library.glossary[id].shape {
                Shape::YesNo => ["yes", "no"].iter().for_each(|word| offers.word(word)),
                Shape::Choice(choice) | Shape::Several(choice) => self.terms(choice, offers),
                Shape::Code => self.offer(&Wanted::Codes, offers),
                Shape::Name if library.glossary.roles.supplier == Some(id) => {
                    for (id, issuer) in library.places.all().filter(|(_, issuer)| issuer.kind == IssuerKind::Supplier) {
                        offers.thing(&issuer.name, &Thing::Issuer(id));
                    }
                }
                Shape::Name | Shape::Date | Shape::Count | Shape::Gauge | Shape::Quantity(_) => {}
            }
        } else if let Some(id) = self.question(of)
            && let Order::Ladder(rungs) = &library.glossary[id].order
        {
            for (rung, at) in rungs.iter().zip(0u16..) {
                offers.thing(rung, &Thing::Rung(id, at));
            }
        }
    }

    fn in_condition(&self) -> bool {
        self.tokens.nearest(&["where", "definition", "summary", "only", "least", "most"]).is_some_and(|(word, far)| {
            matches!(word, "where" | "definition") && (0..far).all(|back| !self.tokens.back(back).starts_with('"'))
        })
    }

    fn issuers(&self, places_alone: bool, offers: &mut Offers<'_>) {
        let places = &self.library.places;
        for (id, issuer) in places.all() {
            if !places_alone || issuer.kind == IssuerKind::Place {
                // The end of a path that is unique.
                let alone = places.named(&issuer.name).len() == 1;
                let name = if alone { issuer.name.to_string() } else { places.path_text(id) };
                offers.thing(&name, &Thing::Issuer(id));
            }
            if offers.cut {
                return;
            }
        }
    }

    /// The instruments of the place and of those around it, or all of the file's
    /// own where the place is not known.
    fn instruments(&self, offers: &mut Offers<'_>) {
        let mut path = self.from.map(|place| self.library.places.path(place)).unwrap_or_default();
        path.reverse();
        for id in path.iter().flat_map(|place| self.library.of_issuer(*place)) {
            if let Some(own) = self.view.instrument(*id) {
                offers.thing(&own.id, &Thing::Instrument(*id));
            }
        }
    }

    fn instrument(&self, id: &str) -> Option<InstrumentId> {
        let mut path = self.from.map(|place| self.library.places.path(place)).unwrap_or_default();
        path.reverse();
        let mut all = path.iter().flat_map(|place| self.library.of_issuer(*place)).copied();
        all.find(|own| self.view.instrument(*own).is_some_and(|own| *own.id == *id))
    }

    fn editions(&self, code: Option<&str>, offers: &mut Offers<'_>) {
        for known in &self.library.codes.codes {
            if code.is_some_and(|code| code != &*known.name) {
                continue;
            }
            for (year, id) in known.editions.iter().rev() {
                let name = if code.is_some() { year.to_string() } else { format!("{} {year}", known.name) };
                offers.name(&name, Some(known.title.to_string()), super::kind_of(&Thing::Edition(*id)));
            }
        }
    }

    /// The sections of the text at hand: named after `as`, amended, or revised.
    fn sections(&self, offers: &mut Offers<'_>) {
        let edition = |code: &str, year: &str| self.library.codes.find(code, year.parse().ok()?);
        let back = |places| self.tokens.back(places);
        if back(2) == "as" {
            return edition(back(1), back(0)).into_iter().for_each(|id| self.printed(id, offers));
        }
        match self.tokens.first() {
            "edition" => {
                let own = self.tokens.behind("edition").unwrap_or_default();
                let year = (0..).map(back).take_while(|word| !word.is_empty()).zip(1..);
                let year = year.filter(|(word, _)| *word == own).last().map(|(_, at)| self.tokens.back(at - 2));
                let id = year.and_then(|year| edition(own, year));
                let revised = id.and_then(|id| self.library.codes.edition(id)).and_then(|edition| edition.revises);
                id.into_iter().chain(revised).for_each(|id| self.printed(id, offers));
            }
            _ => {
                let Some((_, far)) = self.tokens.nearest(&["amend"]) else { return };
                let (target, year) = (back(far.wrapping_sub(1)), back(far.wrapping_sub(2)));
                if let Some(id) = edition(target, year) {
                    self.printed(id, offers);
                } else if let Some(id) = self.instrument(target) {
                    self.sections_of(id, offers);
                } else if let Some(code) = self.library.codes.code(target) {
                    code.editions.iter().rev().for_each(|(_, id)| self.printed(*id, offers));
                }
            }
        }
    }

    fn printed(&self, id: EditionId, offers: &mut Offers<'_>) {
        for printed in self.library.codes.edition(id).iter().flat_map(|edition| &edition.sections) {
            let title = printed.section.title.to_string();
            let title = (!title.is_empty()).then_some(title);
            offers.name(&printed.number, title, super::kind_of(&Thing::Section(Part::Printed(printed.lineage))));
        }
    }

    /// The sections of an instrument, and the numbers that it patches.
    fn sections_of(&self, id: InstrumentId, offers: &mut Offers<'_>) {
        let Some(own) = self.view.instrument(id) else { return };
        for (at, (number, _)) in own.sections.iter().enumerate() {
            offers.thing(number, &Thing::Section(Part::Own(id, at)));
        }
        for amend in &own.amends {
            for patch in &amend.patches {
                let title = Some(patch.section.title.to_string()).filter(|title| !title.is_empty());
                offers.name(&patch.number, title, CompletionItemKind::FUNCTION);
            }
        }
        if self.tokens.first() == "example" {
            let adopted = own.adoptions.iter().map(|adoption| adoption.edition);
            let amended = own.amends.iter().filter_map(|amend| match amend.target {
                Target::Edition(id) => Some(id),
                Target::Any { .. } | Target::Instrument(_) => None,
            });
            let mut editions: Vec<EditionId> = adopted.chain(amended).collect();
            editions.sort_unstable();
            editions.dedup();
            editions.into_iter().for_each(|id| self.printed(id, offers));
        }
    }
}
