//! Where the instructions of a maker have a say: places whose rules make instructions
//! binding on what they speak of, or ask what they say.

use super::desk::{Desk, Pointer};
use crate::glossary::expr::Expr;
use crate::glossary::model::{PlaceId, QuestionId};
use crate::law::instrument::{Instrument, Kind};
use crate::law::places::IssuerKind;
use crate::law::text::{DemandedKind, Section};

/// The places by whose own rules these instructions have a say; none for other papers.
pub(super) fn heard_at(desk: &Desk<'_>, own: &Instrument) -> Vec<Pointer> {
    if own.kind != Kind::Instructions {
        return Vec::new();
    }
    let library = desk.library();
    let spoken_of: Vec<QuestionId> = own.sections.iter().flat_map(|(_, section)| answered(section)).collect();
    let mut places: Vec<PlaceId> = Vec::new();
    for law in library.instruments.iter() {
        let of_place = library.places.issuer(law.issuer).is_some_and(|issuer| issuer.kind == IssuerKind::Place);
        if of_place && !places.contains(&law.issuer) && sections(desk, law).any(|one| listens(one, &spoken_of)) {
            places.push(law.issuer);
        }
    }
    let mut told: Vec<Pointer> = places.into_iter().map(|place| desk.issuer(place)).collect();
    told.sort_by(|one, two| one.words.cmp(&two.words));
    told
}

/// Every section that an instrument says, puts into a text or adopts.
fn sections<'l>(desk: &Desk<'l>, law: &'l Instrument) -> impl Iterator<Item = &'l Section> {
    let patched = law.amends.iter().flat_map(|amend| &amend.patches).map(|patch| &*patch.section);
    let codes = &desk.library().codes;
    let adopted = law.adoptions.iter().filter_map(|adoption| codes.edition(adoption.edition));
    let printed = adopted.flat_map(|edition| &edition.sections).map(|printed| &*printed.section);
    law.sections.iter().map(|(_, section)| &**section).chain(patched).chain(printed)
}

/// The questions to which a section gives an answer.
fn answered(section: &Section) -> impl Iterator<Item = QuestionId> {
    section.demands.iter().filter_map(|demand| match &demand.kind {
        DemandedKind::Value(asked) => Some(asked.question),
        DemandedKind::Table { question, .. } => Some(*question),
        DemandedKind::Refer { .. } | DemandedKind::Bind(_) | DemandedKind::Note(_) => None,
    })
}

/// Whether a section makes instructions binding on one of these questions, or asks what they say of it.
fn listens(section: &Section, questions: &[QuestionId]) -> bool {
    let cases = section.cases.iter();
    let mut demands = section.demands.iter().chain(cases.clone().flat_map(|case| &case.demands));
    let binds = demands.any(|demand| match &demand.kind {
        DemandedKind::Bind(on) => on.iter().any(|question| questions.contains(question)),
        _ => false,
    });
    let mut conditions = section.wheres.iter().chain(&section.excepts).chain(cases.map(|case| &case.cond));
    binds || conditions.any(|condition| asks(condition, questions))
}

fn asks(condition: &Expr, questions: &[QuestionId]) -> bool {
    let mut found = false;
    condition.walk(&mut |part| {
        if let Expr::Say(say) = part {
            found |= questions.contains(&say.question);
        }
    });
    found
}
