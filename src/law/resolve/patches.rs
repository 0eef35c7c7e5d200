//! `amend` blocks: which text is patched, and by whom it may be.

use super::codes::{code_number, edition_named};
use super::instruments::Register;
use super::sections::Head;
use super::{Reader, Standing};
use crate::glossary::Territory;
use crate::glossary::model::PlaceId;
use crate::law::instrument::{Amend, End, Instrument, InstrumentId, Patch, Target, Weight};
use crate::law::text::{Codes, EditionId};
use crate::syntax::codes as errors;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::{self, Action, AmendTarget, Clause, TextClause};
use std::collections::HashSet;
use std::sync::Arc;

/// Reads the `amend` blocks of every instrument. Adoptions must be read before:
/// they say which edition's numbers an amendment of any edition means.
pub(crate) fn read_amends(register: &mut Register, codes: &Codes, reader: &mut Reader) {
    let read: Vec<(usize, Vec<Amend>)> = (0..register.instruments.len())
        .filter(|number| register.is_fresh(*number))
        .map(|number| (number, amends_of(InstrumentId(number as u32), register, codes, reader)))
        .collect();
    for (number, amends) in read {
        if let Some(instrument) = register.instruments.get_mut(number) {
            instrument.amends = amends;
        }
    }
}

fn amends_of(id: InstrumentId, register: &Register, codes: &Codes, reader: &mut Reader) -> Vec<Amend> {
    let (Some(own), Some(&(file, tree))) = (register.get(id), register.trees.get(id.0 as usize)) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    if !matches!(own.kind.weight(), Weight::Binding | Weight::Advisory) {
        return found;
    }
    for clause in &tree.clauses {
        let Clause::Amend(amend) = clause else { continue };
        let plain = Standing::plain(file, Some(own.issuer));
        let Some(target) = target_of(&amend.target, own, register, codes, &plain, reader) else { continue };
        let names = defined_names(&target, amend, codes);
        let defined = |name: &str| names.contains(name);
        let standing = Standing { file, from: Some(own.issuer), definitions: &defined };
        let mut read = Amend { target, renumbers: Vec::new(), patches: Vec::new(), at: standing.at(amend.span) };
        for clause in &amend.clauses {
            match clause {
                TextClause::Renumber(line) => read.renumbers.push((line.from.text.clone(), line.to.text.clone())),
                TextClause::Patch(patch) => {
                    let twice = read.patches.iter().any(|other: &Patch| {
                        *other.number == *patch.number.text
                            && other.action != Action::Except
                            && !matches!(patch.action, Action::Except | Action::Reads)
                    });
                    if twice {
                        reader.tell(
                            Diagnostic::new(errors::DUPLICATE_ID, standing.at(patch.number.span), format!("`{}` is patched twice here", patch.number.text))
                                .help("one instrument patches a section once; only an `except` may stand beside another patch"),
                        );
                        continue;
                    }
                    if patch.extract.is_some() {
                        reader.tell(
                            Diagnostic::new(
                                errors::INSTRUMENT,
                                standing.at(patch.span),
                                "an amendment does not take over another code's section",
                            )
                            .help("write what the section is to say"),
                        );
                        continue;
                    }
                    let head = Head { title: patch.title.as_ref(), subjects: &patch.subjects, span: patch.number.span };
                    let section = reader.section(&head, &patch.body, &own.provenance, &standing);
                    read.patches.push(Patch {
                        action: patch.action,
                        number: patch.number.text.clone(),
                        and_under: patch.and_under,
                        section: Arc::new(section),
                        at: standing.at(patch.number.span),
                    });
                }
                TextClause::Definition(definition) => {
                    let mut section = reader.section(
                        &Head { title: definition.title.as_ref(), subjects: &[], span: definition.name.span },
                        &tree::Body { provenance: definition.provenance.clone(), ..tree::Body::default() },
                        &own.provenance,
                        &standing,
                    );
                    section.definition = true;
                    section.wheres = vec![reader.condition(&definition.cond, &standing)];
                    read.patches.push(Patch {
                        action: Action::Replace,
                        number: definition.name.text.clone(),
                        and_under: false,
                        section: Arc::new(section),
                        at: standing.at(definition.name.span),
                    });
                }
                TextClause::Section(section) => reader.tell(
                    Diagnostic::new(
                        errors::INSTRUMENT,
                        standing.at(section.number.span),
                        "a section of its own does not stand in an amendment",
                    )
                    .help("write `add` for a new section of the text amended"),
                ),
                TextClause::LeftOut(line) => reader.tell(Diagnostic::new(
                    errors::INSTRUMENT,
                    standing.at(line.span),
                    "only an edition keeps account of what was left out",
                )),
                TextClause::Unread(line) => reader.tell(
                    Diagnostic::new(
                        errors::INSTRUMENT,
                        standing.at(line.span),
                        "only an edition keeps account of what was not read",
                    )
                    .help("write `refer` with the questions and why"),
                ),
            }
        }
        found.push(read);
    }
    found
}

fn target_of(
    target: &AmendTarget,
    own: &Instrument,
    register: &Register,
    codes: &Codes,
    standing: &Standing,
    reader: &mut Reader,
) -> Option<Target> {
    match target {
        AmendTarget::Edition(name) => edition_named(name, codes, standing, reader).map(Target::Edition),
        AmendTarget::Any { code: word, numbered } => {
            let code = code_number(word, codes, standing, reader)?;
            if let Some(year) = numbered {
                let name = tree::EditionName { code: word.clone(), year: year.clone() };
                let numbered = edition_named(&name, codes, standing, reader)?;
                return Some(Target::Any { code, numbered });
            }
            match in_force_at(code, own, register, codes, reader).as_slice() {
                [numbered] => Some(Target::Any { code, numbered: *numbered }),
                found => {
                    let how_many = if found.is_empty() { "no edition" } else { "more than one edition" };
                    reader.tell(
                        Diagnostic::new(
                            errors::NUMBERED_AS,
                            standing.at(word.span),
                            format!("{how_many} of `{}` is in force when this amendment begins", word.text),
                        )
                        .help("say whose numbers are meant: `numbered as in` and the year of an edition"),
                    );
                    None
                }
            }
        }
        AmendTarget::Instrument { id, of } => {
            let target = register.named(id, of.as_ref(), own.issuer, standing, reader)?;
            let other = register.get(target)?;
            if !reader.places.within(other.issuer, own.issuer) {
                reader.tell(
                    Diagnostic::new(
                        errors::AUTHORITY,
                        standing.at(id.span),
                        format!("`{}` is not this issuer's to amend", other.id),
                    )
                    .also(other.at, "it was made here")
                    .help("sections of an instrument are amended by its issuer or by a place around it"),
                );
                return None;
            }
            Some(Target::Instrument(target))
        }
    }
}

/// The editions of a code that are in force at the issuer's place on the day on
/// which its instrument begins.
fn in_force_at(code: usize, own: &Instrument, register: &Register, codes: &Codes, reader: &Reader) -> Vec<EditionId> {
    let Some(day) = own.first_day() else { return Vec::new() };
    let stands = |instrument: &Instrument| {
        instrument.is_law()
            && instrument.first_day().is_some_and(|first| first <= day)
            && instrument.force.is_none_or(|force| !matches!(force.end, End::On(last) if last < day))
    };
    let repealed = |id: InstrumentId| {
        register.instruments.iter().any(|other| {
            stands(other) && other.ends.iter().any(|ends| ends.repeals && ends.number.is_none() && ends.target == id)
        })
    };
    let path: Vec<PlaceId> = reader.places.path(own.issuer);
    for place in path.iter().rev() {
        let mut held: Vec<_> = register
            .instruments
            .iter()
            .enumerate()
            .filter(|(number, instrument)| {
                instrument.issuer == *place && stands(instrument) && !repealed(InstrumentId(*number as u32))
            })
            .map(|(_, instrument)| (instrument.rank(), &instrument.adoptions))
            .filter(|(_, adoptions)| {
                adoptions.iter().any(|adoption| codes.edition(adoption.edition).is_some_and(|of| of.code == code))
            })
            .collect();
        held.sort_by_key(|(rank, _)| *rank);
        let Some((newest, _)) = held.last() else { continue };
        let newest = *newest;
        let mut editions: Vec<EditionId> = held
            .iter()
            .filter(|(rank, _)| *rank == newest)
            .flat_map(|(_, adoptions)| adoptions.iter())
            .filter(|adoption| {
                adoption.from.is_none_or(|from| from <= day) && adoption.before.is_none_or(|before| day < before)
            })
            .map(|adoption| adoption.edition)
            .filter(|id| codes.edition(*id).is_some_and(|of| of.code == code))
            .collect();
        editions.sort();
        editions.dedup();
        return editions;
    }
    Vec::new()
}

/// The definitions that the patched text has, and those that the patches bring.
fn defined_names(target: &Target, amend: &tree::Amend, codes: &Codes) -> HashSet<Box<str>> {
    let base = match target {
        Target::Edition(id) | Target::Any { numbered: id, .. } => codes.edition(*id),
        Target::Instrument(_) => None,
    };
    let own = amend.clauses.iter().filter_map(|clause| match clause {
        TextClause::Definition(definition) => Some(definition.name.text.clone()),
        _ => None,
    });
    base.into_iter()
        .flat_map(|edition| &edition.sections)
        .filter(|printed| printed.section.definition)
        .map(|printed| printed.number.clone())
        .chain(own)
        .collect()
}
