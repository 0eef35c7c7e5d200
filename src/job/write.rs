//! A job back to JSON.

use super::Desk;
use super::SCHEMA;
use super::model::{Given, Job};
use crate::glossary::model::{ChoiceId, FieldId, Shape};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// The job as JSON: its place by the whole path, its reference, and what is
/// known, by name in byte order. Reading it again gives the same job.
pub(crate) fn to_json(job: &Job, desk: Desk<'_>) -> Value {
    let glossary = desk.glossary;
    let mut facts: BTreeMap<&str, Value> = BTreeMap::new();
    for (field, id) in glossary.fields.iter().zip(0u16..) {
        let given = job.values.get(usize::from(id)).unwrap_or(&Given::Unknown);
        if field.group.is_none()
            && let Some(value) = value(given, FieldId(id), desk)
        {
            facts.insert(&field.path, value);
        }
    }
    for (group, entries) in glossary.groups.iter().zip(&job.lists) {
        if group.list {
            let known = |entry: &Vec<Given>| {
                let pairs = group.fields.iter().zip(entry);
                Value::Object(members(pairs.map(|(field, given)| (*field, given)), desk))
            };
            let mut all: Vec<Value> = entries.entries.iter().map(known).collect();
            if entries.more && !all.is_empty() {
                all.push(Value::Null);
            }
            if !entries.more || !all.is_empty() {
                facts.insert(&group.name, Value::Array(all));
            }
            continue;
        }
        let given = |field: &FieldId| job.values.get(usize::from(field.0)).unwrap_or(&Given::Unknown);
        let record = members(group.fields.iter().map(|field| (*field, given(field))), desk);
        if !record.is_empty() {
            facts.insert(&group.name, Value::Object(record));
        }
    }
    let mut whole = Map::new();
    whole.insert("schema".into(), SCHEMA.into());
    whole.insert("place".into(), desk.gazetteer.path(job.place).into());
    if let Some(reference) = &job.reference {
        whole.insert("reference".into(), (&**reference).into());
    }
    whole.extend(facts.into_iter().map(|(name, value)| (name.to_owned(), value)));
    Value::Object(whole)
}

fn members<'g>(all: impl Iterator<Item = (FieldId, &'g Given)>, desk: Desk<'_>) -> Map<String, Value> {
    all.filter_map(|(field, given)| Some((desk.glossary[field].name.to_string(), value(given, field, desk)?))).collect()
}

/// One value as JSON; nothing where it is unknown.
pub(crate) fn value(given: &Given, field: FieldId, desk: Desk<'_>) -> Option<Value> {
    let shape = desk.glossary[field].shape;
    Some(match given {
        Given::Unknown => return None,
        Given::NoDate => "none".into(),
        Given::Date(date) => date.to_string().into(),
        Given::Term(term) if shape == Shape::YesNo => Value::Bool(*term == 1),
        Given::Term(term) => desk.term(desk.glossary.choice_of(shape)?, *term)?.into(),
        Given::Set(terms) => {
            let choice = desk.glossary.choice_of(shape)?;
            terms.iter().filter_map(|term| desk.term(choice, term)).map(Value::from).collect()
        }
        Given::Measure(measure) if shape == Shape::Count => measure.shown.parse::<u64>().ok()?.into(),
        Given::Measure(measure) => (&*measure.shown).into(),
        Given::Name(name) => (&**name).into(),
    })
}

impl<'a> Desk<'a> {
    /// The name of a term.
    pub(super) fn term(&self, choice: ChoiceId, term: u16) -> Option<&'a str> {
        self.glossary[choice].terms.get(usize::from(term)).map(|term| &*term.name)
    }
}
