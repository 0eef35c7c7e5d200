//! One instrument: what it is, when it is in force, what it adopts, amends, adds, takes
//! away and says itself.

use super::Missing;
use super::amends::{self, Change};
use super::clause::{Said, said};
use super::conditions;
use super::desk::{Desk, Pointer};
use super::issuer::given_way;
use super::lookup;
use super::times;
use crate::law::instrument::{Ends, Instrument, InstrumentId};
use crate::law::places::IssuerKind;
use crate::report::in_force::{always, by_time, codes, inquire};
use crate::report::pages::frame::Frame;
use crate::syntax::tree::PowerKind;
use serde::Serialize;

#[derive(Debug, Serialize)]
struct View {
    frame: Frame,
    trail: Vec<Pointer>,
    id: String,
    title: String,
    kind: String,
    issuer: Pointer,
    adopted: Option<String>,
    span: String,
    standing: String,
    provenance: String,
    applies: Vec<String>,
    election: Option<String>,
    adopts: Vec<Adopts>,
    amends: Vec<Amends>,
    sections: Vec<Section>,
    powers: Vec<Power>,
    prevails: Vec<Prevails>,
    ends: Vec<Ended>,
    ended_by: Vec<Ended>,
    amended_by: Vec<Pointer>,
    effect: Option<String>,
}

#[derive(Debug, Serialize)]
struct Adopts {
    edition: Pointer,
    subjects: Vec<String>,
    scope: Vec<String>,
    as_published: bool,
    from: Option<String>,
    until: Option<String>,
    beside: Vec<Pointer>,
}

#[derive(Debug, Serialize)]
struct Amends {
    target: Pointer,
    renumbers: Vec<(String, String)>,
    changes: Vec<Change>,
}

#[derive(Debug, Serialize)]
struct Section {
    number: String,
    said: Said,
}

/// A power over what places within say.
#[derive(Debug, Serialize)]
pub(super) struct Power {
    by: Pointer,
    says: String,
    /// Questions with their pointers, subjects with none.
    over: Vec<Pointer>,
    wheres: Vec<String>,
}

#[derive(Debug, Serialize)]
struct Prevails {
    codes: Vec<Pointer>,
    instructions: bool,
    questions: Vec<Pointer>,
}

/// A repeal or suspension.
#[derive(Debug, Serialize)]
struct Ended {
    does: String,
    /// The other instrument.
    other: Pointer,
    issuer: String,
    number: Option<String>,
}

/// The page.
pub(super) fn page(desk: &Desk<'_>, path: &[&str], id: &str) -> Result<String, Missing> {
    let (number, own) = lookup::instrument(desk, path, id)?;
    let library = desk.library();
    let of_place = library.places.issuer(own.issuer).is_some_and(|issuer| issuer.kind == IssuerKind::Place);
    let around = library.places.path(own.issuer);
    let sections = own
        .sections
        .iter()
        .map(|(number, section)| Section { number: number.to_string(), said: said(desk, section, None) });
    let amends = own.amends.iter().map(|amend| Amends {
        target: amends::target(desk, &amend.target),
        renumbers: amend.renumbers.iter().map(|(from, to)| (from.to_string(), to.to_string())).collect(),
        changes: amend.patches.iter().map(|patch| amends::change(desk, amend, patch)).collect(),
    });
    let prevails = own.prevails.iter().map(|prevails| Prevails {
        codes: prevails.codes.iter().map(|code| desk.code(code)).collect(),
        instructions: prevails.instructions,
        questions: prevails.questions.iter().map(|question| desk.question(*question)).collect(),
    });
    let standing = standing(desk, number, own);
    let view = View {
        frame: desk.frame(of_place.then_some(&around)),
        trail: std::iter::once(desk.start()).chain(around.iter().map(|place| desk.issuer(*place))).collect(),
        id: own.id.to_string(),
        title: own.title.to_string(),
        kind: desk.reader.kind(own.kind),
        issuer: desk.issuer(own.issuer),
        adopted: own.adopted.map(|day| day.to_string()),
        span: times::span(desk, own),
        standing,
        provenance: desk.reader.provenance(&own.provenance),
        applies: conditions::parts(desk, &own.applies),
        election: times::election(desk, own),
        adopts: own.adoptions.iter().filter_map(|adoption| adopts(desk, adoption)).collect(),
        amends: amends.collect(),
        sections: sections.collect(),
        powers: powers(desk, own),
        prevails: prevails.collect(),
        ends: own.ends.iter().filter_map(|ends| ended(desk, ends, ends.target)).collect(),
        ended_by: ended_by(desk, number),
        amended_by: amended_by(desk, number),
        effect: super::effect::of(own).map(|_| desk.effect(own)),
    };
    desk.lay("rules/instrument.html", view)
}

/// How it stands today: at its own place, so that repeals count.
fn standing(desk: &Desk<'_>, number: InstrumentId, own: &Instrument) -> String {
    let there = inquire(desk.rules, own.issuer, desk.today, |inquest| {
        let (standing, by) = inquest.standing(number, own);
        let words = times::standing(desk.reader, standing, by.as_deref());
        let told = given_way(desk, own, &codes(inquest), &words).filter(|_| standing.holds());
        told.unwrap_or(words)
    });
    there.unwrap_or_else(|_| times::standing(desk.reader, by_time(own, desk.today), None))
}

fn adopts(desk: &Desk<'_>, adoption: &crate::law::instrument::Adoption) -> Option<Adopts> {
    let glossary = &desk.library().glossary;
    Some(Adopts {
        edition: desk.edition_of(adoption.edition)?,
        subjects: adoption.subjects.iter().map(|subject| glossary[*subject].title.to_string()).collect(),
        scope: if always(&adoption.scope) {
            Vec::new()
        } else {
            conditions::parts(desk, std::slice::from_ref(&adoption.scope))
        },
        as_published: adoption.as_published,
        from: adoption.from.map(|day| day.to_string()),
        until: adoption.before.map(|day| day.eve().to_string()),
        beside: adoption.beside.iter().map(|code| desk.code(code)).collect(),
    })
}

/// The powers of an instrument.
pub(super) fn powers(desk: &Desk<'_>, own: &Instrument) -> Vec<Power> {
    let glossary = &desk.library().glossary;
    let told = own.powers.iter().map(|power| Power {
        by: desk.instrument(own),
        says: match power.kind {
            PowerKind::Preempts => desk.reader.say("browse-preempts"),
            PowerKind::Floor => desk.reader.say("browse-floor"),
            PowerKind::Ceiling => desk.reader.say("browse-ceiling"),
        },
        over: power
            .questions
            .iter()
            .map(|question| desk.question(*question))
            .chain(
                power
                    .subjects
                    .iter()
                    .map(|subject| Pointer { words: glossary[*subject].title.to_string(), href: String::new() }),
            )
            .collect(),
        wheres: if always(&power.scope) {
            Vec::new()
        } else {
            conditions::parts(desk, std::slice::from_ref(&power.scope))
        },
    });
    told.collect()
}

fn ended(desk: &Desk<'_>, ends: &Ends, other: InstrumentId) -> Option<Ended> {
    let other = desk.library().instruments.get(other.0 as usize)?;
    Some(Ended {
        does: if ends.repeals { desk.reader.say("browse-repeals") } else { desk.reader.say("browse-suspends") },
        other: desk.instrument(other),
        issuer: desk.issuer(other.issuer).words,
        number: ends.number.as_ref().map(ToString::to_string),
    })
}

/// Who repeals or suspends it.
fn ended_by(desk: &Desk<'_>, id: InstrumentId) -> Vec<Ended> {
    let all = desk.library().instruments.iter().zip(0u32..);
    let ends = all.flat_map(|(other, number)| {
        other.ends.iter().filter(|ends| ends.target == id).map(move |ends| (ends, InstrumentId(number)))
    });
    ends.filter_map(|(ends, other)| ended(desk, ends, other)).collect()
}

/// Who amends it.
fn amended_by(desk: &Desk<'_>, id: InstrumentId) -> Vec<Pointer> {
    let amends = |own: &&Instrument| {
        own.amends.iter().any(|amend| amend.target == crate::law::instrument::Target::Instrument(id))
    };
    desk.library().instruments.iter().filter(amends).map(|own| desk.instrument(own)).collect()
}
