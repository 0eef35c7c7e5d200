//! GR0608: a demand by a table that no text has, GR0305: by a code or edition
//! that is not known.

use crate::law::instrument::{Instrument, Target};
use crate::law::library::Library;
use crate::law::text::{DemandedKind, Edition, Section, TableName};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::syntax::nearest::{did_you_mean, nearest};

/// The demands by table for which there is no table.
pub(super) fn missing(library: &Library) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for edition in &library.codes.editions {
        for printed in &edition.sections {
            check(library, &printed.section, &|| tables_of(edition), &mut found);
        }
    }
    for own in &library.instruments {
        let known = || {
            let mut known = tables(own.sections.iter().map(|(number, section)| (&**number, &**section)));
            known.extend(patched_tables(library, &|target| amends_own(library, target, own)));
            known
        };
        for (_, section) in &own.sections {
            check(library, section, &known, &mut found);
        }
        for amend in &own.amends {
            let known = || tables_amended(library, &amend.target);
            for patch in &amend.patches {
                check(library, &patch.section, &known, &mut found);
            }
        }
    }
    found
}

fn amends_own(library: &Library, target: &Target, own: &Instrument) -> bool {
    matches!(target, Target::Instrument(id) if library.instruments.get(id.0 as usize).is_some_and(|of| of.at == own.at))
}

fn tables<'s>(sections: impl Iterator<Item = (&'s str, &'s Section)>) -> Vec<&'s str> {
    sections.filter(|(_, section)| section.table.is_some()).map(|(number, _)| number).collect()
}

fn tables_of(edition: &Edition) -> Vec<&str> {
    tables(edition.sections.iter().map(|printed| (&*printed.number, &*printed.section)))
}

/// The tables that patches of certain texts bring, whoever writes them.
fn patched_tables<'l>(library: &'l Library, of: &dyn Fn(&Target) -> bool) -> Vec<&'l str> {
    let amends = library.instruments.iter().flat_map(|own| &own.amends).filter(|amend| of(&amend.target));
    tables(amends.flat_map(|amend| &amend.patches).map(|patch| (&*patch.number, &*patch.section)))
}

/// The tables that a patched text may have, whatever renumbering came between.
fn tables_amended<'l>(library: &'l Library, target: &Target) -> Vec<&'l str> {
    let mut known = match target {
        Target::Edition(id) | Target::Any { numbered: id, .. } => {
            library.codes.edition(*id).map(tables_of).unwrap_or_default()
        }
        Target::Instrument(id) => library
            .instruments
            .get(id.0 as usize)
            .map(|own| tables(own.sections.iter().map(|(number, section)| (&**number, &**section))))
            .unwrap_or_default(),
    };
    let code = |target: &Target| match target {
        Target::Edition(id) => library.codes.edition(*id).map(|edition| edition.code),
        Target::Any { code, .. } => Some(*code),
        Target::Instrument(_) => None,
    };
    known.extend(patched_tables(library, &|other| {
        other == target || code(other).is_some() && code(other) == code(target)
    }));
    let renumbers = library.instruments.iter().flat_map(|own| &own.amends).flat_map(|amend| &amend.renumbers);
    known.extend(renumbers.map(|(_, to)| &**to));
    known
}

/// Checks the demands of a section; the tables of its own text are looked up only
/// where one is asked for.
fn check<'l>(library: &'l Library, section: &Section, own: &dyn Fn() -> Vec<&'l str>, found: &mut Vec<Diagnostic>) {
    let demands = section.demands.iter().chain(section.cases.iter().flat_map(|case| &case.demands));
    for demand in demands {
        if let DemandedKind::Table { from, .. } = &demand.kind {
            found.extend(one(library, from, own, demand.at));
        }
    }
}

fn one<'l>(library: &'l Library, from: &TableName, own: &dyn Fn() -> Vec<&'l str>, at: Location) -> Option<Diagnostic> {
    let Some(name) = &from.code else { return lacking(&from.number, "this text", &own(), at) };
    let Some(code) = library.codes.code(name) else {
        let near = nearest(name, library.codes.codes.iter().map(|code| &*code.name));
        let help =
            did_you_mean(&near).unwrap_or_else(|| "declare it with `code`, and its editions with `edition`".into());
        return Some(Diagnostic::new(codes::UNKNOWN_CODE, at, format!("no code is named `{name}`")).help(help));
    };
    let Some(year) = from.year else {
        let editions = code.editions.iter().filter_map(|(_, id)| library.codes.edition(*id));
        let all: Vec<&Edition> = editions.collect();
        if all.is_empty() || all.iter().any(|edition| edition.text_not_here) {
            return None;
        }
        let mut known: Vec<&str> = all.iter().flat_map(|edition| tables_of(edition)).collect();
        for (_, id) in &code.editions {
            known.extend(tables_amended(library, &Target::Edition(*id)));
        }
        return lacking(&from.number, name, &known, at);
    };
    let Some(edition) = library.codes.find(name, year).and_then(|id| library.codes.edition(id)) else {
        let years: Vec<String> = code.editions.iter().map(|(year, _)| year.to_string()).collect();
        let help = format!("the editions of {name} here are: {}", years.join(", "));
        return Some(
            Diagnostic::new(codes::UNKNOWN_CODE, at, format!("there is no edition `{name} {year}`")).help(help),
        );
    };
    if edition.text_not_here {
        return None;
    }
    lacking(&from.number, &format!("{name} {year}"), &tables_of(edition), at)
}

fn lacking(number: &str, text: &str, known: &[&str], at: Location) -> Option<Diagnostic> {
    if known.contains(&number) {
        return None;
    }
    let help = did_you_mean(&nearest(number, known.iter().copied()))
        .unwrap_or_else(|| "write the table, or name the code that has it: `by table CODE N`".to_owned());
    Some(Diagnostic::new(codes::NO_TABLE, at, format!("{text} has no table `{number}`")).help(help))
}
