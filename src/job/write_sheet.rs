//! A job back to a job sheet.

use super::Desk;
use super::model::{Given, Job};
use crate::glossary::model::{FieldId, Shape};
use crate::syntax::words::quoted;
use std::collections::BTreeMap;

/// The text of a job sheet with what is known, by name in byte order. Reading
/// it again gives the same job.
pub(crate) fn to_sheet(job: &Job, desk: Desk<'_>) -> String {
    let glossary = desk.glossary;
    let mut lines: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for (field, id) in glossary.fields.iter().zip(0u16..) {
        let given = job.values.get(usize::from(id)).unwrap_or(&Given::Unknown);
        if field.group.is_none()
            && let Some(line) = line(&field.name, given, FieldId(id), desk)
        {
            lines.insert(&field.path, vec![line]);
        }
    }
    for (group, entries) in glossary.groups.iter().zip(&job.lists) {
        let mut own = Vec::new();
        if group.list {
            let block = |entry: &Vec<Given>| braces(&group.name, group.fields.iter().copied().zip(entry), desk);
            own.extend(entries.entries.iter().map(block));
            match (own.is_empty(), entries.more) {
                (true, false) => own.push(format!("{} none", group.name)),
                (false, true) => own.push(format!("{} unknown", group.name)),
                _ => {}
            }
        } else {
            let given = |field: FieldId| job.values.get(usize::from(field.0)).unwrap_or(&Given::Unknown);
            if group.fields.iter().any(|field| *given(*field) != Given::Unknown) {
                own.push(braces(&group.name, group.fields.iter().map(|field| (*field, given(*field))), desk));
            }
        }
        if !own.is_empty() {
            lines.insert(&group.name, own);
        }
    }
    let mut text = format!("job\n    place {}\n", desk.gazetteer.path(job.place));
    if let Some(reference) = &job.reference {
        text.push_str(&format!("    reference {}\n", quoted(reference)));
    }
    for line in lines.values().flatten() {
        text.push_str(&format!("    {line}\n"));
    }
    text
}

fn braces<'g>(name: &str, all: impl Iterator<Item = (FieldId, &'g Given)>, desk: Desk<'_>) -> String {
    let parts: Vec<String> =
        all.filter_map(|(field, given)| line(&desk.glossary[field].name, given, field, desk)).collect();
    if parts.is_empty() { format!("{name} {{ }}") } else { format!("{name} {{ {} }}", parts.join(" ")) }
}

fn line(name: &str, given: &Given, field: FieldId, desk: Desk<'_>) -> Option<String> {
    let shape = desk.glossary[field].shape;
    let value = match given {
        Given::Unknown => return None,
        Given::NoDate => "none".into(),
        Given::Date(date) => date.to_string(),
        Given::Term(0) if shape == Shape::YesNo => "no".into(),
        Given::Term(_) if shape == Shape::YesNo => "yes".into(),
        Given::Term(term) => desk.term(desk.glossary.choice_of(shape)?, *term)?.to_owned(),
        Given::Set(terms) if terms.is_empty() => "none".into(),
        Given::Set(terms) => {
            let choice = desk.glossary.choice_of(shape)?;
            let names: Vec<&str> = terms.iter().filter_map(|term| desk.term(choice, term)).collect();
            names.join(", ")
        }
        Given::Measure(measure) => measure.shown.to_string(),
        Given::Name(name) => name.to_string(),
    };
    Some(format!("{name} {value}"))
}
