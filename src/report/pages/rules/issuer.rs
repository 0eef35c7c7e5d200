//! A place, a maker or a supplier: what is in force there on a day, its instruments,
//! its powers, what it lies within and what lies within it.

use super::Missing;
use super::asked::{self, Form, no_inquest};
use super::conditions;
use super::desk::{Desk, Pointer};
use super::instrument::{self, Power};
use super::lookup;
use super::times;
use crate::glossary::model::PlaceId;
use crate::law::instrument::{Instrument, InstrumentId, Target, Weight};
use crate::law::model::Provenance;
use crate::law::places::{Issuer, IssuerKind};
use crate::report::effect::words::lower;
use crate::report::in_force::{CodeLine, Inquest, Standing, by_time, codes, inquire};
use crate::report::pages::frame::Frame;
use crate::report::sheet::closing::ages;
use crate::report::timeline::{Marked, svg, time_line};
use crate::syntax::tree::ProvenanceKind;
use crate::values::Date;
use serde::Serialize;

#[derive(Debug, Serialize)]
struct View {
    frame: Frame,
    trail: Vec<Pointer>,
    kind: &'static str,
    title: String,
    also: Vec<String>,
    known_as: Vec<String>,
    office: Option<String>,
    provenance: String,
    age: Option<String>,
    nothing: Vec<String>,
    within: Vec<Pointer>,
    form: Option<Form>,
    /// Why nothing can be told of the day.
    none: Option<String>,
    day: Option<Day>,
    /// The drawing of its years.
    drawing: Option<String>,
    own: Vec<Line>,
    around: Vec<Line>,
    pending: Vec<Line>,
    powers: Vec<Power>,
}

/// What is in force on the day that was asked of.
#[derive(Debug, Serialize)]
struct Day {
    on: String,
    today: bool,
    codes: Vec<Code>,
}

#[derive(Debug, Serialize)]
struct Code {
    subject: String,
    edition: Pointer,
    title: String,
    by: Pointer,
    issuer: String,
    scope: String,
}

/// An instrument in a list.
#[derive(Debug, Serialize)]
struct Line {
    name: Pointer,
    issuer: Pointer,
    kind: String,
    title: String,
    adopted: Option<String>,
    span: String,
    standing: String,
    holds: bool,
}

/// The page of a place.
pub(super) fn place(desk: &Desk<'_>, path: &[&str]) -> Result<String, Missing> {
    let (id, place) = lookup::issuer(desk, path, |kind| kind == IssuerKind::Place)?;
    let (form, day) = asked::day(desk);
    let mut view = view(desk, id, place, Some(form));
    match day.map(|day| (day, inquire(desk.rules, id, day, |inquest| law(desk, id, inquest, &mut view)))) {
        Some((day, Ok(codes))) => {
            view.day = Some(Day { on: day.to_string(), today: day == desk.today, codes });
            view.drawing = drawing(desk, id, day);
        }
        Some((_, Err(told))) => view.none = Some(no_inquest(desk, &told)),
        None => {}
    }
    if view.day.is_none() {
        by_days_alone(desk, id, &mut view);
    }
    desk.lay("rules/place.html", view)
}

/// The years of a place, today and the day that was asked of marked.
fn drawing(desk: &Desk<'_>, id: PlaceId, on: Date) -> Option<String> {
    let reader = desk.reader;
    let now = reader.say_with("time-line-today", &[("day", &desk.today.to_string())]);
    let mut marks = vec![Marked { on: desk.today, label: now, today: true }];
    if on != desk.today {
        let asked = reader.say_with("time-line-asked", &[("day", &on.to_string())]);
        marks.push(Marked { on, label: asked, today: false });
    }
    let line = time_line(desk.rules, id, on, marks, reader).ok()?;
    Some(svg(&line, reader, "time-line"))
}

/// The page of a maker or a supplier, whose papers bind by their own days.
pub(super) fn outsider(desk: &Desk<'_>, name: &str) -> Result<String, Missing> {
    let (id, issuer) = lookup::issuer(desk, &[name], |kind| kind != IssuerKind::Place)?;
    let mut view = view(desk, id, issuer, None);
    by_days_alone(desk, id, &mut view);
    desk.lay("rules/place.html", view)
}

fn view(desk: &Desk<'_>, id: PlaceId, issuer: &Issuer, form: Option<Form>) -> View {
    let library = desk.library();
    let path = library.places.path(id);
    let around = path.split_last().map(|(_, around)| around).unwrap_or_default();
    let mut within: Vec<Pointer> =
        library.places.all().filter(|(_, other)| other.parent == Some(id)).map(|(id, _)| desk.issuer(id)).collect();
    within.sort_by(|one, two| one.words.cmp(&two.words));
    let place = issuer.kind == IssuerKind::Place;
    View {
        frame: desk.frame(place.then_some(&path)),
        trail: std::iter::once(desk.start()).chain(around.iter().map(|place| desk.issuer(*place))).collect(),
        kind: match issuer.kind {
            IssuerKind::Place => "place",
            IssuerKind::Maker => "maker",
            IssuerKind::Supplier => "supplier",
        },
        title: issuer.title.to_string(),
        also: issuer.also.iter().map(ToString::to_string).collect(),
        known_as: issuer.known_as.iter().map(|(scheme, id)| format!("{scheme} {id}")).collect(),
        office: issuer.office.as_ref().map(ToString::to_string),
        provenance: desk.reader.provenance(&read(issuer)),
        age: issuer.provenance.as_ref().map(|_| ages(&[id], &library.places, desk.today, desk.reader)),
        nothing: issuer.nothing.iter().map(|subject| lower(&library.glossary[*subject].title)).collect(),
        within,
        form,
        none: None,
        day: None,
        drawing: None,
        own: Vec::new(),
        around: Vec::new(),
        pending: Vec::new(),
        powers: Vec::new(),
    }
}

/// Where an issuer's law was read.
fn read(issuer: &Issuer) -> Provenance {
    match issuer.provenance.as_ref().map(|provenance| &provenance.kind) {
        Some(ProvenanceKind::Read { place, on }) => match Date::parse(&on.text) {
            Some(on) => Provenance::Read { place: place.text.clone(), on },
            None => Provenance::Missing,
        },
        Some(ProvenanceKind::Memory) => Provenance::Memory,
        Some(ProvenanceKind::CommonPractice) => Provenance::CommonPractice,
        None => Provenance::Missing,
    }
}

/// Fills in what stands on the day; gives the codes.
fn law(desk: &Desk<'_>, id: PlaceId, inquest: &Inquest<'_>, view: &mut View) -> Vec<Code> {
    let lines = codes(inquest);
    for (number, own) in inquest.instruments() {
        let (standing, by) = inquest.standing(number, own);
        let mut line = line(desk, own, standing, by.as_deref());
        if let Some(told) = given_way(desk, own, &lines, &line.standing).filter(|_| standing.holds()) {
            line.standing = told;
        }
        sort_in(desk, id, own, line, standing, view);
        if standing.holds() && own.kind.weight() == Weight::Binding {
            view.powers.extend(instrument::powers(desk, own));
        }
    }
    let all = inquest.instruments();
    let by = |line: &str, issuer: &str| {
        let same =
            |own: &&(InstrumentId, &Instrument)| *own.1.id == *line && desk.issuer(own.1.issuer).words == *issuer;
        all.iter().find(same).map(|(_, own)| *own)
    };
    lines
        .into_iter()
        .map(|line| {
            let found = by(&line.by, &line.issuer);
            Code {
                scope: found.and_then(|own| scope(desk, own, &line)).unwrap_or_default(),
                by: found
                    .map_or_else(|| Pointer { words: line.by.clone(), href: desk.to(&[]) }, |own| desk.instrument(own)),
                subject: subject(desk, &line.subject),
                edition: desk.edition(&line.code, line.edition),
                title: line.title,
                issuer: line.issuer,
            }
        })
        .collect()
}

/// How it is said that an instrument holds and nothing of it stands for any job: each
/// edition that it adopts, or amends and says nothing else, has given way.
pub(super) fn given_way(desk: &Desk<'_>, own: &Instrument, lines: &[CodeLine], standing: &str) -> Option<String> {
    let issuer = desk.issuer(own.issuer).words;
    let adopted = !own.adoptions.is_empty();
    if adopted && !lines.iter().any(|line| line.by == *own.id && line.issuer == issuer) {
        return Some(desk.reader.say_with("browse-given-way", &[("standing", standing)]));
    }
    let beside = [own.adoptions.len(), own.sections.len(), own.powers.len(), own.prevails.len(), own.ends.len()];
    let only_amends = !own.amends.is_empty() && beside.iter().all(|count| *count == 0);
    let stands = own.amends.iter().any(|amend| still_stands(desk, &amend.target, lines));
    (only_amends && !stands).then(|| desk.reader.say_with("browse-given-way-amended", &[("standing", standing)]))
}

/// Whether a text that is amended is still in force for some job, as far as the codes say so.
fn still_stands(desk: &Desk<'_>, target: &Target, lines: &[CodeLine]) -> bool {
    let codes = &desk.library().codes;
    match target {
        Target::Edition(id) => lines.iter().any(|line| codes.find(&line.code, line.edition) == Some(*id)),
        Target::Any { code, .. } => {
            codes.codes.get(*code).is_some_and(|code| lines.iter().any(|line| line.code == *code.name))
        }
        Target::Instrument(_) => true,
    }
}

/// For which jobs an edition is adopted, in the reader's words; where the law has more
/// to say of it, as the law says it.
fn scope(desk: &Desk<'_>, own: &Instrument, line: &CodeLine) -> Option<String> {
    if line.scope.is_empty() {
        return None;
    }
    let library = desk.library();
    let id = library.codes.find(&line.code, line.edition)?;
    let subject = library.glossary.subject(&line.subject)?;
    let fits = own.adoptions.iter().filter(|one| one.edition == id && one.subjects.contains(&subject));
    let mut told: Vec<String> =
        fits.map(|one| conditions::parts(desk, std::slice::from_ref(&one.scope)).join("; ")).collect();
    told.dedup();
    match told.as_slice() {
        [only] if !only.is_empty() => Some(only.clone()),
        _ => Some(line.scope.clone()),
    }
}

/// The printed name of a subject.
pub(super) fn subject(desk: &Desk<'_>, name: &str) -> String {
    let glossary = &desk.library().glossary;
    glossary.subject(name).map_or_else(|| name.to_owned(), |id| glossary[id].title.to_string())
}

fn sort_in(desk: &Desk<'_>, id: PlaceId, own: &Instrument, line: Line, standing: Standing, view: &mut View) {
    let coming = match standing {
        Standing::Proposed | Standing::Enacted => true,
        // On a day of the past what came later is no news.
        Standing::NotYet => own.first_day().is_none_or(|day| day > desk.today),
        _ => false,
    };
    if coming {
        view.pending.push(line);
    } else if own.issuer == id {
        view.own.push(line);
    } else {
        view.around.push(line);
    }
}

/// The instruments of an issuer by their own days, as of today.
fn by_days_alone(desk: &Desk<'_>, id: PlaceId, view: &mut View) {
    let library = desk.library();
    let own = library.of_issuer(id).iter().filter_map(|number| library.instruments.get(number.0 as usize));
    let mut all: Vec<&Instrument> = own.collect();
    all.sort_by(|one, two| (one.rank(), &one.id).cmp(&(two.rank(), &two.id)));
    for own in all {
        let standing = by_time(own, desk.today);
        sort_in(desk, id, own, line(desk, own, standing, None), standing, view);
    }
}

fn line(desk: &Desk<'_>, own: &Instrument, standing: Standing, by: Option<&str>) -> Line {
    Line {
        name: desk.instrument(own),
        issuer: desk.issuer(own.issuer),
        kind: desk.reader.kind(own.kind),
        title: own.title.to_string(),
        adopted: own.adopted.map(|day| day.to_string()),
        span: times::span(desk, own),
        standing: times::standing(desk.reader, standing, by),
        holds: standing.holds(),
    }
}

/// The codes in force at a place today: by subject, each edition once.
pub(super) fn today(desk: &Desk<'_>, id: PlaceId) -> Option<Vec<(String, Vec<Pointer>)>> {
    let found = inquire(desk.rules, id, desk.today, codes).ok()?;
    let mut subjects: Vec<(String, Vec<Pointer>)> = Vec::new();
    for line in found {
        let edition = desk.edition(&line.code, line.edition);
        match subjects.iter_mut().find(|(known, _)| *known == line.subject) {
            Some((_, editions)) if editions.contains(&edition) => {}
            Some((_, editions)) => editions.push(edition),
            None => subjects.push((line.subject, vec![edition])),
        }
    }
    Some(subjects)
}

/// The last day on which the law of an issuer was read.
pub(super) fn last_read(issuer: &Issuer) -> Option<Date> {
    match read(issuer) {
        Provenance::Read { on, .. } => Some(on),
        Provenance::Memory | Provenance::CommonPractice | Provenance::Missing => None,
    }
}
