//! Gathers what is in force.

use super::instruments::{power_in_words, titled};
use super::{Clause, CodeLine, InForce, Inquest, InstrumentLine, PlaceLine, SCHEMA, Standing};
use crate::law::instrument::{DaysInForce, Instrument, InstrumentId, Target, Weight};
use crate::law::text::Section;
use crate::report::speech::Reader;
use crate::syntax::tree::ProvenanceKind;
use crate::verdict::{Look, Scratch, held};

/// What is in force at the place of the matter, on the day of its dates.
pub(crate) fn collect(inquest: &Inquest<'_>) -> InForce {
    let library = inquest.library();
    let path = library.places.path(inquest.matter.job.place);
    let issuers: Vec<_> = path.iter().filter_map(|place| library.places.issuer(*place)).collect();
    let codes = codes(inquest);
    let all = inquest.instruments();
    let standings: Vec<Standing> = all.iter().map(|(id, own)| inquest.standing(*id, own).0).collect();
    let holding =
        || all.iter().zip(&standings).filter(|(_, standing)| standing.holds()).map(|((_, own), at)| (*own, *at));
    let binding = || holding().filter(|(own, _)| own.kind.weight() == Weight::Binding);
    let mut answer = InForce {
        schema: SCHEMA,
        place: issuers.iter().map(|issuer| issuer.name.to_string()).collect(),
        title: issuers.iter().rev().map(|issuer| &*issuer.title).collect::<Vec<_>>().join(", "),
        on: inquest.on.to_string(),
        amendments: binding().flat_map(|(own, standing)| amendments(inquest, own, standing, &codes)).collect(),
        sections: binding().flat_map(|(own, standing)| sections(inquest, own, standing)).collect(),
        powers: binding().flat_map(|(own, standing)| powers(inquest, own, standing)).collect(),
        advisory: holding()
            .filter(|(own, _)| own.kind.weight() == Weight::Advisory)
            .flat_map(|(own, standing)| sections(inquest, own, standing))
            .collect(),
        pending: Vec::new(),
        history: Vec::new(),
        places: issuers.iter().map(|issuer| place(inquest, issuer)).collect(),
        codes,
    };
    for (id, own) in all {
        let line = instrument(inquest, id, own, &answer.codes);
        let coming = matches!(line.standing, Standing::NotYet | Standing::Proposed | Standing::Enacted);
        if coming { answer.pending.push(line) } else { answer.history.push(line) }
    }
    answer
}

/// The editions in force on the day of the inquest, subject by subject.
pub(in crate::report) fn codes(inquest: &Inquest<'_>) -> Vec<CodeLine> {
    let mut scratch = Scratch::default();
    scratch.weigh(inquest.matter);
    let mut lines: Vec<CodeLine> = Vec::new();
    for code in &inquest.matter.law.codes {
        let Some(scope) = held(inquest.matter, &mut scratch, code.reach) else { continue };
        let title = inquest.library().codes.code(&code.code).map_or("", |code| &code.title);
        let source = inquest.matter.law.source(code.source);
        lines.push(CodeLine {
            subject: inquest.library().glossary[code.subject].name.to_string(),
            code: code.code.to_string(),
            edition: code.edition,
            title: title.to_owned(),
            by: code.by.to_string(),
            issuer: source.map_or_else(String::new, |source| source.issuer.to_string()),
            scope,
        });
    }
    let order = |name: &str| {
        inquest.library().glossary.subjects.iter().position(|subject| !subject.governed && *subject.name == *name)
    };
    lines.sort_by(|one, two| {
        (order(&one.subject), &one.subject, &one.code, one.edition, &one.by).cmp(&(
            order(&two.subject),
            &two.subject,
            &two.code,
            two.edition,
            &two.by,
        ))
    });
    lines
}

fn clause(
    inquest: &Inquest<'_>,
    own: &Instrument,
    standing: Standing,
    does: String,
    section: Option<&Section>,
) -> Clause {
    let issuer = inquest.library().places.issuer(own.issuer).map_or("", |issuer| &issuer.title);
    Clause {
        does,
        title: section.map_or_else(String::new, |section| section.title.to_string()),
        summary: section.map_or_else(String::new, |section| section.summary.to_string()),
        by: own.id.to_string(),
        issuer: issuer.to_owned(),
        standing,
    }
}

/// The amendments of editions that may apply, and of other instruments.
fn amendments(inquest: &Inquest<'_>, own: &Instrument, standing: Standing, codes: &[CodeLine]) -> Vec<Clause> {
    let applies = |target: &Target| match target {
        Target::Edition(id) => {
            let name = super::instruments::edition(inquest.library(), *id);
            codes.iter().any(|line| name == format!("{} {}", line.code, line.edition))
        }
        Target::Any { .. } | Target::Instrument(_) => true,
    };
    let mut clauses = Vec::new();
    for amend in own.amends.iter().filter(|amend| applies(&amend.target)) {
        for (does, number) in inquest.amends(amend, Reader::default()) {
            let section = amend.patches.get(number).map(|patch| &*patch.section);
            clauses.push(clause(inquest, own, standing, does, section));
        }
    }
    clauses
}

fn sections(inquest: &Inquest<'_>, own: &Instrument, standing: Standing) -> Vec<Clause> {
    own.sections
        .iter()
        .map(|(number, section)| clause(inquest, own, standing, number.to_string(), Some(section)))
        .collect()
}

fn powers(inquest: &Inquest<'_>, own: &Instrument, standing: Standing) -> Vec<Clause> {
    let words = |power| power_in_words(inquest.library(), power, Reader::default());
    own.powers.iter().map(|power| clause(inquest, own, standing, words(power), None)).collect()
}

fn instrument(inquest: &Inquest<'_>, id: InstrumentId, own: &Instrument, codes: &[CodeLine]) -> InstrumentLine {
    let (standing, ended_by) = inquest.standing(id, own);
    let issuer =
        inquest.library().places.issuer(own.issuer).map_or_else(String::new, |issuer| issuer.title.to_string());
    let stands = codes.iter().any(|code| *code.by == *own.id && code.issuer == issuer);
    InstrumentLine {
        instrument: own.id.to_string(),
        superseded: standing.holds() && !own.adoptions.is_empty() && !stands,
        issuer,
        kind: own.kind.word().to_owned(),
        title: own.title.to_string(),
        adopted: own.adopted.map(|day| day.to_string()),
        in_force: DaysInForce::of(own).map(|days| days.to_string()).unwrap_or_default(),
        standing,
        ended_by,
        does: inquest.does(own),
        provenance: Reader::default().provenance(&own.provenance),
    }
}

fn place(inquest: &Inquest<'_>, issuer: &crate::law::places::Issuer) -> PlaceLine {
    let read = issuer.provenance.as_ref().and_then(|provenance| match &provenance.kind {
        ProvenanceKind::Read { place, on } => Some(titled(&on.text, &place.text)),
        ProvenanceKind::Memory | ProvenanceKind::CommonPractice => None,
    });
    PlaceLine {
        place: issuer.name.to_string(),
        title: issuer.title.to_string(),
        office: issuer.office.as_ref().map(ToString::to_string),
        read,
        nothing_of_its_own: issuer
            .nothing
            .iter()
            .map(|subject| inquest.library().glossary[*subject].name.to_string())
            .collect(),
    }
}
