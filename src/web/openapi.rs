//! `/openapi.json`: what may be asked, as OpenAPI 3.1
//! (<https://spec.openapis.org/oas/v3.1.0>).
//!
//! Addresses, parameters and our own forms are read off the types that answer them; the
//! schemas of jobs, verdicts, effects and findings are those that `groundrule schema`
//! prints.

use super::body::TYPE;
use super::problem::{Details, PROBLEM};
use super::state::Shared;
use super::{api, errors, health};
use crate::report::schema;
use crate::rules::Rules;
use axum::extract::State;
use axum::response::{IntoResponse, Response};
use serde_json::{Map, Value, json};
use utoipa::OpenApi;
use utoipa::openapi::schema::{ArrayBuilder, KnownFormat, ObjectBuilder, OneOfBuilder, SchemaFormat, Type};
use utoipa::openapi::{Ref, RefOr, Schema};

/// What the types say.
#[derive(OpenApi)]
#[openapi(
    info(
        title = "Groundrule",
        description = "What the rules in force ask of the electrical bonding of a gas-piping job, at a place and on \
                       a date. No state is kept between requests, and nothing of a job is kept at all. Every refusal is a \
                       problem (RFC 9457) but for two kinds, which end with their status alone: bytes that are no HTTP \
                       (400), and a head of several times the bytes or fields that are read (431).",
    ),
    paths(
        api::verdict::verdict,
        api::batch::batch,
        api::compare::compare,
        api::in_force::in_force,
        api::section::section,
        api::effect::effect,
        api::glossary::glossary,
        api::places::places,
        api::locate::locate,
        errors::list,
        errors::page,
        health::live,
        health::ready,
    ),
    components(schemas(Details)),
    tags(
        (name = "jobs", description = "Jobs in, verdicts out"),
        (name = "rules", description = "What stands where and when, and what differs"),
        (name = "errors", description = "What can be wrong with a job, code by code"),
        (name = "health", description = "For whoever watches over the server"),
    ),
)]
struct Types;

/// The findings of a problem.
pub(super) fn findings() -> RefOr<Schema> {
    let one = Ref::from_schema_name("Finding");
    Schema::Array(ArrayBuilder::new().items(RefOr::Ref(one)).build()).into()
}

/// Two days, or nothing.
pub(super) fn two_days() -> Schema {
    let day = ObjectBuilder::new().schema_type(Type::String).format(Some(SchemaFormat::KnownFormat(KnownFormat::Date)));
    let nothing = ObjectBuilder::new().schema_type(Type::Null);
    let days = ArrayBuilder::new().items(day).min_items(Some(2)).max_items(Some(2));
    Schema::OneOf(OneOfBuilder::new().item(nothing).item(days).build())
}

/// The statuses that a problem may have, those of every address and those of bodies.
const ALWAYS: [(&str, &str); 10] = [
    ("400", "The request cannot be read"),
    ("401", "The server asks for a token"),
    ("403", "A page of another server sends the request"),
    ("404", "There is no such place, section or page"),
    ("406", "The answer has a type that is not accepted"),
    ("414", "The address is too long"),
    ("421", "The server is called by a name that it does not have"),
    ("431", "The head of the request is too large"),
    ("500", "The program has a fault"),
    ("503", "Too much waits, or the answer took too long"),
];
const OF_BODIES: [(&str, &str); 4] = [
    ("408", "The body did not arrive in time"),
    ("413", "The body is too large"),
    ("415", "The body has a type that cannot be read"),
    ("422", "The body can be read and not be used"),
];

/// The description of the API over a set of rules.
pub(super) fn describe(rules: &Rules) -> Value {
    // Everything in it is a text, so that writing it does not fail.
    let mut whole = serde_json::to_value(Types::openapi()).unwrap_or_default();
    if let Some(info) = whole.get_mut("info").and_then(Value::as_object_mut) {
        info.retain(|name, _| name != "contact" && name != "license");
        info.insert(
            "license".into(),
            json!({ "name": env!("CARGO_PKG_LICENSE"), "identifier": env!("CARGO_PKG_LICENSE") }),
        );
    }
    if let Some(whole) = whole.as_object_mut() {
        whole.insert("security".into(), json!([{}, { "token": [] }, { "password": [] }]));
    }
    if let Some(components) = whole.get_mut("components").and_then(Value::as_object_mut) {
        components.insert(
            "securitySchemes".into(),
            json!({
                "token": { "type": "http", "scheme": "bearer", "description": "Where the server asks for a token" },
                "password": { "type": "http", "scheme": "basic",
                    "description": "The same for browsers: any user name, and the token as the password" } }),
        );
        let all = ALWAYS.into_iter().chain(OF_BODIES);
        let problems: Map<String, Value> =
            all.map(|(status, words)| (format!("Problem{status}"), problem(words))).collect();
        components.insert("responses".into(), Value::Object(problems));
    }
    if let Some(schemas) = whole.pointer_mut("/components/schemas").and_then(Value::as_object_mut) {
        for (name, schema) in [
            ("Job", schema::job(rules.library())),
            ("Verdict", schema::verdict()),
            ("Effect", schema::effect()),
            ("Compare", schema::compare()),
            ("Finding", schema::finding()),
        ] {
            put(schemas, name, schema);
        }
        schemas.insert("Rows".into(), json!({ "type": "array", "maxItems": crate::syntax::limits::JOBS.most, "items": {},
            "description": "Jobs, each as `Job` describes it; whatever else stands in a row is answered by a problem" }));
        schemas.insert(
            "Answers".into(),
            json!({ "type": "array", "items": { "oneOf": [
            { "$ref": "#/components/schemas/Verdict" }, { "$ref": "#/components/schemas/Problem" } ] } }),
        );
        schemas.sort_keys();
    }
    let operations = whole.get_mut("paths").and_then(Value::as_object_mut).into_iter();
    for operation in operations.flat_map(Map::values_mut).filter_map(Value::as_object_mut).flat_map(Map::values_mut) {
        let with_body = operation.get("requestBody").is_some();
        let Some(responses) = operation.get_mut("responses").and_then(Value::as_object_mut) else { continue };
        for (status, _) in ALWAYS.iter().chain(OF_BODIES.iter().filter(|_| with_body)) {
            let to = format!("#/components/responses/Problem{status}");
            responses.insert((*status).into(), json!({ "$ref": to }));
        }
        responses.sort_keys();
    }
    whole
}

fn problem(words: &str) -> Value {
    json!({ "description": words, "content": { PROBLEM: { "schema": { "$ref": "#/components/schemas/Problem" } } } })
}

/// Puts a schema among the others, its own definitions beside it: a name within it is
/// one of the whole.
fn put(schemas: &mut Map<String, Value>, name: &str, mut schema: Value) {
    rename(&mut schema, name);
    if let Some(members) = schema.as_object_mut() {
        members.retain(|member, _| member != "$schema" && member != "$id");
        if let Some(Value::Object(own)) = members.remove("$defs") {
            schemas.extend(own.into_iter().map(|(own, schema)| (format!("{name}.{own}"), schema)));
        }
    }
    schemas.insert(name.to_owned(), schema);
}

fn rename(schema: &mut Value, name: &str) {
    match schema {
        Value::Object(members) => {
            for (member, value) in members {
                match value {
                    Value::String(to) if member == "$ref" => {
                        if let Some(own) = to.strip_prefix("#/$defs/") {
                            *to = format!("#/components/schemas/{name}.{own}");
                        }
                    }
                    other => rename(other, name),
                }
            }
        }
        Value::Array(all) => all.iter_mut().for_each(|one| rename(one, name)),
        _ => {}
    }
}

/// The description of this server.
pub(super) async fn show(State(state): State<Shared>) -> Response {
    let text = state.described.get_or_init(|| format!("{:#}\n", describe(&state.rules)));
    ([(TYPE, "application/json")], text.clone()).into_response()
}
