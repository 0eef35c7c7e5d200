//! What a thing is, in words: title, shape, order, text and where that was read.

use super::things::{Mention, Part, Thing};
use super::view::View;
use crate::glossary::model::{FieldId, Met, Order, PlaceId, QuestionId};
use crate::law::instrument::{DaysInForce, Instrument, InstrumentId, Status};
use crate::law::places::IssuerKind;
use crate::law::text::{EditionId, Lineage, Section};
use crate::report::screen::words;
use crate::report::speech::Reader;
use crate::syntax::tree::{Action, Item, Provenance, ProvenanceKind, Span};

/// A thing in words, as the protocol's plain Markdown; nothing where there is
/// nothing to tell.
pub(super) fn describe(view: &View, mention: &Mention) -> Option<String> {
    let library = view.rules.library();
    let glossary = &library.glossary;
    let mut page = Page::default();
    match &mention.thing {
        Thing::Choice(id) => {
            let choice = &glossary[*id];
            page.head(&choice.name, "choice", &choice.title);
            page.line(glossary.terms_in_words(*id, None, &library.places));
        }
        Thing::Term(choice, term) => {
            let terms = &glossary[*choice].terms;
            let own = terms.get(usize::from(*term))?;
            page.head(&own.name, &format!("term of `{}`", glossary[*choice].name), &own.title);
            let under = own.under.and_then(|under| terms.get(usize::from(under)));
            page.maybe(under.map(|under| format!("stands under `{}`", under.name)));
            let covered = own.covers.iter().filter(|at| at != term).filter_map(|at| terms.get(usize::from(at)));
            let covered: Vec<String> = covered.map(|term| format!("`{}`", term.name)).collect();
            page.maybe((!covered.is_empty()).then(|| format!("in a rule it stands for {} too", covered.join(", "))));
            page.maybe(own.scope.map(|place| format!("known in `{}` and within", library.places.path_text(place))));
        }
        Thing::Subject(id) => {
            let subject = &glossary[*id];
            page.head(&subject.name, "subject", &subject.title);
            page.maybe(subject.governed.then(|| "some code must govern it".to_owned()));
        }
        Thing::Field(id) => fact(view, *id, &mut page),
        Thing::Group(id) => {
            let group = &glossary[*id];
            page.head(&group.name, if group.list { "list" } else { "record" }, &group.title);
            let names: Vec<String> = group.fields.iter().map(|field| format!("`{}`", glossary[*field].name)).collect();
            page.line(format!("of each: {}", names.join(", ")));
        }
        Thing::Question(id) => question(view, *id, &mut page),
        Thing::Rung(question, rung) => {
            let Order::Ladder(rungs) = &glossary[*question].order else { return None };
            page.head(rungs.get(usize::from(*rung))?, &format!("answer of `{}`", glossary[*question].name), "");
            page.line(format!("answers, loosest first: {}", rungs.join(", ")));
        }
        Thing::Definition(name) => {
            let (title, text) = definition(view, name)?;
            page.head(name, "definition", &title);
            page.block(&text);
        }
        Thing::Issuer(id) => issuer(view, *id, &mut page),
        Thing::Instrument(id) => instrument(view, *id, &mut page),
        Thing::Code(code) => {
            let code = library.codes.codes.get(*code)?;
            page.head(&code.name, "code", &code.title);
            let subjects: Vec<&str> = code.subjects.iter().map(|subject| &*glossary[*subject].name).collect();
            page.maybe((!subjects.is_empty()).then(|| format!("on {}", subjects.join(", "))));
            let years: Vec<String> = code.editions.iter().map(|(year, _)| year.to_string()).collect();
            page.maybe((!years.is_empty()).then(|| format!("editions here: {}", years.join(", "))));
        }
        Thing::Edition(id) => edition(view, *id, &mut page),
        Thing::Section(part) => match part {
            Part::Printed(lineage) => printed(view, *lineage, mention.edition, &mut page),
            Part::Own(id, at) => {
                let own = view.instrument(*id)?;
                let (number, section) = own.sections.get(*at)?;
                text(view, &format!("{} {number}", own.id), section, &mut page);
            }
            Part::Added(name) => {
                let own = view.instrument(name.instrument)?;
                let patch = view.added(*name)?;
                text(view, &format!("{}, added by {}", patch.number, own.id), &patch.section, &mut page);
            }
        },
    }
    let said = own_words(view, mention);
    page.maybe(said);
    page.told()
}

/// The title of a thing on one line, for a list of names.
pub(super) fn in_brief(view: &View, thing: &Thing) -> Option<String> {
    let library = view.rules.library();
    let glossary = &library.glossary;
    let told = match thing {
        Thing::Choice(id) => glossary[*id].title.to_string(),
        Thing::Term(choice, term) => glossary[*choice].terms.get(usize::from(*term))?.title.to_string(),
        Thing::Subject(id) => glossary[*id].title.to_string(),
        Thing::Field(id) => glossary[*id].ask.as_deref().unwrap_or(&glossary[*id].title).to_owned(),
        Thing::Group(id) => glossary[*id].title.to_string(),
        Thing::Question(id) => glossary[*id].title.to_string(),
        Thing::Definition(name) => definition(view, name)?.0,
        Thing::Issuer(id) => library.places.issuer(*id)?.title.to_string(),
        Thing::Instrument(id) => view.instrument(*id)?.title.to_string(),
        Thing::Code(code) => library.codes.codes.get(*code)?.title.to_string(),
        Thing::Section(Part::Printed(lineage)) => view.printed(*lineage, None)?.1.section.title.to_string(),
        Thing::Section(Part::Own(id, at)) => view.instrument(*id)?.sections.get(*at)?.1.title.to_string(),
        Thing::Section(Part::Added(name)) => view.added(*name)?.section.title.to_string(),
        Thing::Rung(..) | Thing::Edition(_) => return None,
    };
    (!told.is_empty()).then_some(told)
}

/// A page as it is written.
#[derive(Default)]
struct Page(Vec<String>);

impl Page {
    fn head(&mut self, name: &str, kind: &str, title: &str) {
        let titled = if title.is_empty() || title == name { String::new() } else { format!(": {}", plain(title)) };
        self.0.push(format!("**{name}** ({kind}){titled}"));
    }

    fn line(&mut self, line: String) {
        self.0.push(line);
    }

    fn maybe(&mut self, line: Option<String>) {
        self.0.extend(line);
    }

    fn block(&mut self, text: &str) {
        self.0.push(format!("```groundrule\n{text}\n```"));
    }

    fn told(self) -> Option<String> {
        (!self.0.is_empty()).then(|| self.0.join("\n\n"))
    }
}

/// A text of a rule file as Markdown shows it letter by letter.
fn plain(text: &str) -> String {
    let mut told = String::with_capacity(text.len());
    for letter in text.chars() {
        if matches!(letter, '\\' | '`' | '*' | '_' | '<' | '>' | '[' | ']' | '#' | '|') {
            told.push('\\');
        }
        told.push(letter);
    }
    told
}

fn fact(view: &View, id: FieldId, page: &mut Page) {
    let library = view.rules.library();
    let glossary = &library.glossary;
    let field = &glossary[id];
    let kind = match field.group.map(|group| &glossary[group]) {
        Some(group) if group.list => format!("of each `{}`", group.name),
        Some(group) => format!("of the `{}`", group.name),
        None => "fact".to_owned(),
    };
    page.head(&field.name, &kind, &field.title);
    page.line(glossary.shape_in_words(field.shape));
    page.maybe(field.ask.as_ref().map(|ask| format!("asked: {}", plain(ask))));
    for (who, when) in &field.known {
        let when = when.as_ref().map(|when| format!(" at {when}")).unwrap_or_default();
        page.line(format!("known to {}{when}", who.join(", ")));
    }
    page.maybe(field.ours.then(|| "ours to choose".to_owned()));
    page.maybe(field.presumed.as_ref().map(|_| "presumed where the job does not say".to_owned()));
    page.maybe(field.never_before.map(|other| format!("never before `{}`", glossary[other].path)));
    page.maybe(field.scope.map(|place| format!("known in `{}` and within", library.places.path_text(place))));
}

fn question(view: &View, id: QuestionId, page: &mut Page) {
    let library = view.rules.library();
    let glossary = &library.glossary;
    let question = &glossary[id];
    page.head(&question.name, "question", &question.title);
    page.line(format!("on `{}`", glossary[question.subject].name));
    let order = match &question.order {
        Order::Ladder(rungs) => format!("answers, loosest first: {}", rungs.join(", ")),
        Order::AtLeast(scale) => format!("a least value, larger is stricter: {}", scale.example()),
        Order::AtMost(scale) => format!("a greatest value, smaller is stricter: {}", scale.example()),
        Order::Only(choice) => format!("who or what is permitted of `{}`, fewer is stricter", glossary[*choice].name),
        Order::AllOf(choice) => format!("what is required of `{}`, more is stricter", glossary[*choice].name),
    };
    page.line(order);
    page.maybe(question.per.map(|(field, _)| format!("one answer for each `{}`", glossary[field].path)));
    page.maybe(question.measures.map(|field| format!("measures `{}`", glossary[field].path)));
    page.maybe(question.met.as_ref().filter(|met| matches!(met, Met::Never)).map(|_| "never met".to_owned()));
    page.maybe(question.costs.as_ref().map(|costs| format!("costs: {}", plain(costs))));
    page.maybe(question.caution.as_ref().map(|caution| format!("caution: {}", plain(caution))));
    page.maybe(question.scope.map(|place| format!("asked in `{}` and within", library.places.path_text(place))));
}

/// The title and the condition of a definition of the glossary.
fn definition(view: &View, name: &str) -> Option<(String, String)> {
    view.rules.trees().find_map(|(file, tree)| {
        tree.items.iter().find_map(|item| match item {
            Item::Definition(own) if *own.name.text == *name => {
                let at = crate::syntax::diagnostic::Location { file, span: own.cond.span };
                let title = own.title.as_ref().map(|title| title.text.to_string()).unwrap_or_default();
                Some((title, view.written(at)))
            }
            _ => None,
        })
    })
}

fn issuer(view: &View, id: PlaceId, page: &mut Page) {
    let library = view.rules.library();
    let Some(issuer) = library.places.issuer(id) else { return };
    let kind = match issuer.kind {
        IssuerKind::Place => "place",
        IssuerKind::Maker => "maker",
        IssuerKind::Supplier => "supplier",
    };
    page.head(&issuer.name, kind, &issuer.title);
    page.maybe(issuer.parent.map(|_| format!("`{}`", library.places.path_text(id))));
    let also: Vec<String> = issuer.also.iter().map(|also| plain(also)).collect();
    page.maybe((!also.is_empty()).then(|| format!("also {}", also.join(", "))));
    page.maybe(issuer.office.as_ref().map(|office| format!("office: {}", plain(office))));
    let count = library.of_issuer(id).len();
    page.maybe((count > 0).then(|| words::count(count, "instrument", "instruments")));
    page.maybe(issuer.provenance.as_ref().map(read));
}

/// Where a place's law was read, in words.
fn read(provenance: &Provenance) -> String {
    match &provenance.kind {
        ProvenanceKind::Read { place, on } => format!("read on {}: {}", on.text, plain(&place.text)),
        ProvenanceKind::Memory => Reader::default().provenance(&crate::law::model::Provenance::Memory),
        ProvenanceKind::CommonPractice => Reader::default().provenance(&crate::law::model::Provenance::CommonPractice),
    }
}

fn instrument(view: &View, id: InstrumentId, page: &mut Page) {
    let Some(own) = view.instrument(id) else { return };
    let library = view.rules.library();
    let issuer = library.places.issuer(own.issuer);
    let of = issuer.map_or_else(String::new, |issuer| format!(" of `{}`", issuer.name));
    page.head(&own.id, &format!("{}{of}", own.kind.word()), &own.title);
    page.maybe(own.adopted.map(|day| format!("adopted {day}")));
    page.line(standing(view, own));
    let adopted: Vec<String> =
        own.adoptions.iter().filter_map(|adoption| edition_words(view, adoption.edition)).collect();
    page.maybe((!adopted.is_empty()).then(|| format!("adopts {}", adopted.join(", "))));
    let ended: Vec<&str> = library
        .instruments
        .iter()
        .filter(|other| other.ends.iter().any(|ends| ends.target == id && ends.number.is_none()))
        .map(|other| &*other.id)
        .collect();
    page.maybe((!ended.is_empty()).then(|| format!("repealed or suspended by {}", ended.join(", "))));
    page.line(Reader::default().provenance(&own.provenance));
}

fn standing(view: &View, own: &Instrument) -> String {
    let glossary = &view.rules.library().glossary;
    match (own.status, own.force) {
        (Some(Status::Proposed), _) => "proposed, not in force".to_owned(),
        (Some(Status::Enacted), _) => "enacted, its day not known".to_owned(),
        (None, Some(force)) => {
            let days = DaysInForce::of(own).map(|days| days.to_string()).unwrap_or_default();
            format!("in force {days} by `{}`", glossary[force.by].path)
        }
        (None, None) => "it is not said when it is in force".to_owned(),
    }
}

fn edition_words(view: &View, id: EditionId) -> Option<String> {
    let codes = &view.rules.library().codes;
    let edition = codes.edition(id)?;
    Some(format!("{} {}", codes.code_of(edition)?.name, edition.year))
}

fn edition(view: &View, id: EditionId, page: &mut Page) {
    let codes = &view.rules.library().codes;
    let Some(edition) = codes.edition(id) else { return };
    let title = codes.code_of(edition).map(|code| code.title.to_string()).unwrap_or_default();
    page.head(&edition_words(view, id).unwrap_or_default(), "edition", &title);
    page.maybe(edition.published.map(|day| format!("published {day}")));
    page.maybe(edition.revises.and_then(|base| edition_words(view, base)).map(|base| format!("revises {base}")));
    page.line(if edition.text_not_here {
        "its text is not here: what it governs is referred".to_owned()
    } else {
        words::count(edition.sections.len(), "section", "sections")
    });
    let names = |all: Vec<&str>, what: &str| (!all.is_empty()).then(|| format!("{what}: {}", all.join(", ")));
    page.maybe(names(edition.unread.iter().map(|unread| &*unread.0).collect(), "not read"));
    page.maybe(names(edition.left_out.iter().map(|left| &*left.0).collect(), "left out"));
    page.line(Reader::default().provenance(&edition.provenance));
}

fn printed(view: &View, lineage: Lineage, edition: Option<EditionId>, page: &mut Page) {
    let Some((id, printed)) = view.printed(lineage, edition) else { return };
    let name = edition_words(view, id).unwrap_or_default();
    text(view, &format!("{name} {}", printed.number), &printed.section, page);
    let codes = &view.rules.library().codes;
    let code = codes.edition(id).map(|edition| edition.code);
    let mut numbers: Vec<(i32, &str)> = codes
        .editions
        .iter()
        .filter(|edition| Some(edition.code) == code)
        .filter_map(|edition| Some((edition.year, &*edition.by_lineage(lineage)?.number)))
        .collect();
    numbers.sort_unstable();
    if numbers.iter().any(|(_, number)| *number != &*printed.number) {
        let all: Vec<String> = numbers.iter().map(|(year, number)| format!("{number} in {year}")).collect();
        page.line(format!("numbers: {}", all.join(", ")));
    }
}

fn text(view: &View, name: &str, section: &Section, page: &mut Page) {
    page.head(name, if section.definition { "definition" } else { "section" }, &section.title);
    page.maybe((!section.summary.is_empty()).then(|| plain(&section.summary)));
    let mut demands: Vec<String> = section.demands.iter().map(|demand| format!("- `{}`", demand.words)).collect();
    let gives = section.table.as_ref().map(|table| &view.rules.library().glossary[table.gives].name);
    demands.extend(gives.map(|question| format!("- a table for `{question}`")));
    page.maybe((!demands.is_empty()).then(|| demands.join("\n")));
    page.line(Reader::default().provenance(&section.provenance));
}

/// What a patch that stands here says itself, beside the text that it patches.
fn own_words(view: &View, mention: &Mention) -> Option<String> {
    let Thing::Section(_) = mention.thing else { return None };
    let mut patches =
        view.rules.library().instruments.iter().flat_map(|own| own.amends.iter().map(move |amend| (own, amend)));
    let (own, patch) = patches.find_map(|(own, amend)| {
        let patch = amend.patches.iter().find(|patch| patch.at == mention.at)?;
        Some((own, patch))
    })?;
    let does = match patch.action {
        Action::Replace => "replaces it",
        Action::Add => return None,
        Action::Delete => "deletes it",
        Action::Except => "makes an exception",
        Action::Reads => "rules how it is read",
    };
    let title =
        if patch.section.title.is_empty() { String::new() } else { format!(": {}", plain(&patch.section.title)) };
    let mut told = format!("{} {does}{title}", own.id);
    for demand in &patch.section.demands {
        told.push_str(&format!("\n- `{}`", demand.words));
    }
    if patch.action != Action::Delete {
        told.push_str(&format!("\n\n{}", Reader::default().provenance(&patch.section.provenance)));
    }
    Some(told)
}

/// The span of the word at a byte of a text that begins with `GR` and has figures.
pub(super) fn error_code(text: &str, offset: usize) -> Option<Span> {
    let bytes = text.as_bytes();
    let inside = |at: &usize| bytes.get(*at).is_some_and(u8::is_ascii_alphanumeric);
    let mut start = offset.min(bytes.len());
    while start > 0 && inside(&(start - 1)) {
        start -= 1;
    }
    let mut end = start;
    while inside(&end) {
        end += 1;
    }
    let figures = text.get(start..end)?.strip_prefix("GR")?;
    let fits = figures.len() == 4 && figures.bytes().all(|byte| byte.is_ascii_digit());
    fits.then_some(Span { start: start as u32, end: end as u32 })
}
