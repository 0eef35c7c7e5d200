//! The schema of a job, made from the glossary.

use super::DIALECT;
use crate::glossary::Glossary;
use crate::glossary::model::{ChoiceId, Field, Group, Scope, Shape};
use crate::job::SCHEMA;
use crate::law::library::Library;
use crate::syntax::limits::{ENTRIES, NAME, NUMBER, TEXT};
use crate::values::{SIZES, Unit};
use serde_json::{Map, Value, json};

/// The schema of one job against a library: every fact with its shape, terms and
/// units. What is declared in one place only is described as such.
pub(crate) fn job(library: &Library) -> Value {
    let glossary = &library.glossary;
    let mut properties = Map::new();
    properties.insert("schema".into(), json!({ "const": SCHEMA }));
    properties.insert(
        "place".into(),
        json!({ "type": "string", "minLength": 1, "maxLength": TEXT.most,
                "description": "the place: its name, an end of its path such as `tamarrow/osier`, or its printed name" }),
    );
    properties.insert(
        "reference".into(),
        json!({ "type": ["string", "null"], "maxLength": TEXT.most,
                "description": "a permit number, say; comes back in the verdict" }),
    );
    let schemas = Schemas { library, glossary };
    for field in &glossary.fields {
        let list = field.group.is_some_and(|group| glossary[group].list);
        if !list {
            properties.insert(field.path.to_string(), schemas.field(field));
        }
    }
    for group in &glossary.groups {
        properties.insert(group.name.to_string(), schemas.group(group));
    }
    json!({
        "$schema": DIALECT,
        "$id": SCHEMA,
        "title": "One job. What is left out, or null, is unknown",
        "type": "object",
        "required": ["place"],
        "additionalProperties": false,
        "properties": properties,
    })
}

struct Schemas<'l> {
    library: &'l Library,
    glossary: &'l Glossary,
}

impl Schemas<'_> {
    fn group(&self, group: &Group) -> Value {
        let properties: Map<String, Value> = group
            .fields
            .iter()
            .map(|field| (self.glossary[*field].name.to_string(), self.field(&self.glossary[*field])))
            .collect();
        let description = self.described(&group.title, None, group.scope);
        if group.list {
            json!({ "type": ["array", "null"], "maxItems": ENTRIES.most,
                    "description": format!("{description}; [] for none, a null entry for any number of further ones"),
                    "items": { "type": ["object", "null"], "additionalProperties": false, "properties": properties } })
        } else {
            json!({ "type": ["object", "null"], "additionalProperties": false, "description": description, "properties": properties })
        }
    }

    fn field(&self, field: &Field) -> Value {
        let mut schema = self.shape(field.shape);
        if let Some(schema) = schema.as_object_mut() {
            schema.insert("description".into(), self.described(&field.title, field.ask.as_deref(), field.scope).into());
        }
        schema
    }

    fn described(&self, title: &str, ask: Option<&str>, scope: Scope) -> String {
        let ask = ask.map_or_else(String::new, |ask| format!(": {ask}"));
        let only = scope
            .map_or_else(String::new, |place| format!(" (known in {} only)", self.library.places.path_text(place)));
        format!("{title}{ask}{only}")
    }

    fn shape(&self, shape: Shape) -> Value {
        match shape {
            Shape::YesNo => json!({ "type": ["boolean", "null"] }),
            Shape::Date => json!({ "type": ["string", "null"], "pattern": "^([0-9]{4}-[0-9]{2}-[0-9]{2}|none)$" }),
            Shape::Count => {
                json!({ "type": ["integer", "null"], "minimum": 0, "exclusiveMaximum": 10u64.pow(NUMBER.most as u32) })
            }
            Shape::Gauge => json!({ "type": ["string", "null"], "pattern": gauge() }),
            Shape::Quantity(unit) => json!({ "type": ["string", "null"], "pattern": quantity(unit) }),
            Shape::Name => json!({ "type": ["string", "null"], "minLength": 1, "maxLength": TEXT.most }),
            Shape::Code => {
                let mut codes: Vec<&str> = self.library.codes.codes.iter().map(|code| &*code.name).collect();
                codes.sort_unstable();
                json!({ "type": ["string", "null"], "maxLength": NAME.most, "enum": or_null(codes) })
            }
            Shape::Choice(choice) => json!({ "enum": or_null(self.terms(choice)) }),
            Shape::Several(choice) => {
                let terms = self.terms(choice);
                json!({ "oneOf": [
                    { "enum": or_null(terms.clone()) },
                    { "type": "array", "uniqueItems": true, "items": { "enum": terms } } ] })
            }
        }
    }

    fn terms(&self, choice: ChoiceId) -> Vec<&str> {
        self.glossary[choice].terms.iter().map(|term| &*term.name).collect()
    }
}

fn or_null(names: Vec<&str>) -> Vec<Value> {
    names.into_iter().map(Value::from).chain([Value::Null]).collect()
}

const FIGURE: &str = "[0-9]+(\\.[0-9]+)?";

/// A wire gauge: the printed AWG sizes, or any area in kcmil or mm2.
fn gauge() -> String {
    let sizes: Vec<&str> = SIZES.iter().filter_map(|size| size.name.strip_suffix(" AWG")).collect();
    format!("^ *(({}) +AWG|{FIGURE} +(kcmil|mm2)) *$", sizes.join("|"))
}

/// A figure with one of the units that measure the same as this one.
fn quantity(unit: Unit) -> String {
    let fits = |name: &&str| Unit::find(name).is_some_and(|found| found.dimension == unit.dimension);
    let units: Vec<&str> = Unit::names().filter(fits).collect();
    format!("^ *{FIGURE} +({}) *$", units.join("|"))
}
