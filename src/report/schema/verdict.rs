//! The schema of a verdict.

use super::DIALECT;
use crate::report::json::SCHEMA;
use serde_json::{Value, json};

/// The schema of one verdict; several jobs give an array of these.
pub(crate) fn verdict() -> Value {
    json!({
        "$schema": DIALECT,
        "$id": SCHEMA,
        "title": "What the rules in force ask of one job, and how the job stands",
        "type": "object",
        "required": ["schema", "outcome", "place", "library", "rests-on", "engine", "codes", "answers", "ask", "notes", "cautions", "pending"],
        "additionalProperties": false,
        "properties": {
            "schema": { "const": SCHEMA },
            "outcome": { "enum": ["complies", "open", "refer", "conflict", "corrections"] },
            "place": { "type": "array", "minItems": 1, "items": { "type": "string" }, "description": "names, outermost first" },
            "reference": { "type": "string" },
            "library": { "$ref": "#/$defs/hash" },
            "rests-on": { "$ref": "#/$defs/hash" },
            "engine": { "type": "string" },
            "codes": { "type": "array", "items": { "$ref": "#/$defs/code" } },
            "answers": { "type": "object", "additionalProperties": { "$ref": "#/$defs/answer" } },
            "ask": { "type": "array", "items": { "$ref": "#/$defs/ask" } },
            "notes": { "type": "array", "items": { "$ref": "#/$defs/note" } },
            "cautions": { "type": "array", "items": { "type": "string" } },
            "pending": { "type": "array", "items": { "$ref": "#/$defs/pending" } }
        },
        "$defs": definitions()
    })
}

fn definitions() -> Value {
    let source = json!({
        "section": { "type": "string" },
        "instrument": { "type": "string" },
        "issuer": { "type": "string" },
        "adopted-by": { "type": "string" },
        "code": { "type": "string" },
        "edition": { "type": "integer" },
        "title": { "type": "string" },
        "summary": { "type": "string" },
        "in-force": { "type": "string" }
    });
    let with = |more: Value| -> Value {
        let parts = [source.clone(), more].into_iter().filter_map(|part| part.as_object().cloned());
        Value::Object(parts.flatten().collect())
    };
    let reason = with(json!({
        "demand": { "type": "string" },
        "role": { "enum": [
            "governs", "weaker", "advice", "passed-over", "replaced", "deleted", "excepted", "superseded", "suspended",
            "repealed", "pre-empted", "read-as"] },
        "by": { "type": "object", "required": ["instrument", "issuer"], "additionalProperties": false,
                "properties": { "section": { "type": "string" }, "instrument": { "type": "string" }, "issuer": { "type": "string" } } },
        "provenance": { "oneOf": [
            { "enum": ["from-memory", "common-practice"] },
            { "type": "object", "required": ["read", "on"], "additionalProperties": false,
              "properties": { "read": { "type": "string" }, "on": { "$ref": "#/$defs/date" } } }] },
        "facts": { "type": "object" },
        "failed": { "type": "array", "items": { "type": "string" } },
        "if": { "type": "string" }
    }));
    let note =
        with(json!({ "text": { "type": "string" }, "question": { "type": "string" }, "if": { "type": "string" } }));
    let pending = with(json!({ "status": { "enum": ["proposed", "enacted"] } }));
    json!({
        "hash": { "type": "string", "pattern": "^sha256:[0-9a-f]{64}$" },
        "date": { "type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$" },
        "code": {
            "type": "object",
            "required": ["code", "edition", "subject", "by"],
            "additionalProperties": false,
            "properties": {
                "code": { "type": "string" }, "edition": { "type": "integer" }, "subject": { "type": "string" },
                "by": { "type": "string", "description": "the adopting instrument" },
                "possible": { "const": true, "description": "it is not settled that the edition applies" }
            }
        },
        "answer": {
            "type": "object",
            "required": ["state"],
            "additionalProperties": false,
            "properties": {
                "state": { "enum": ["settled", "open", "silent", "referred", "conflict"] },
                "value": { "$ref": "#/$defs/value" },
                "between": { "type": "array", "minItems": 2, "maxItems": 2, "items": { "$ref": "#/$defs/value" } },
                "may-refer": { "const": true },
                "may-conflict": { "const": true },
                "bounds-only": { "const": true },
                "finding": { "enum": ["met", "not-met", "open"] },
                "cures": { "type": "array", "minItems": 1, "items": { "$ref": "#/$defs/cure" },
                           "description": "where it is not met, referred or contradictory: the smallest changes that mend it, fewest first" },
                "no-cure": { "enum": ["none", "not-decided"],
                             "description": "no choice of the contractor mends it, which is proven; or none was found within the bounds" },
                "ask": { "type": "array", "items": { "type": "string" } },
                "witnesses": { "type": "array", "minItems": 2, "maxItems": 2, "items": { "type": "object" } },
                "because": { "type": "array", "items": { "$ref": "#/$defs/reason" } },
                "advice": { "type": "array", "items": { "$ref": "#/$defs/reason" } },
                "set-aside": { "type": "array", "items": { "$ref": "#/$defs/reason" } }
            }
        },
        "cure": {
            "type": "object",
            "required": ["changes"],
            "additionalProperties": false,
            "properties": {
                "changes": { "type": "array", "minItems": 1, "items": { "$ref": "#/$defs/change" } },
                "mends": { "type": "array", "items": { "type": "string" }, "description": "questions that it mends beside" },
                "leaves": { "type": "array", "items": { "type": "string" },
                            "description": "questions that stay not met, referred or contradictory as they were" },
                "then-known": { "type": "array", "items": { "type": "string" },
                                "description": "facts on which an answer hangs then, and on which none hangs now" }
            }
        },
        "change": {
            "type": "object",
            "required": ["fact", "to", "such-as"],
            "additionalProperties": false,
            "properties": {
                "fact": { "type": "string", "description": "as in `ask`" },
                "and": { "type": "array", "items": { "type": "string" },
                         "description": "the same attribute of further entries that say the same, changed alike" },
                "from": { "description": "what the job says" },
                "to": { "type": "array", "minItems": 1,
                        "description": "each works with each of the other changes: a value as a job writes it, at-least, over, at-most and under for figures, none-of for names" },
                "such-as": { "description": "one value that works" }
            }
        },
        "value": { "oneOf": [
            { "type": "string", "description": "a rung" },
            { "type": "object", "minProperties": 1, "description": "at-least, at-most, only, none-of, all-of; or a rung for each term" }] },
        "reason": { "type": "object", "required": ["instrument", "issuer", "demand", "role", "facts"], "additionalProperties": false, "properties": reason },
        "ask": {
            "type": "object",
            "required": ["fact", "prompt", "changes"],
            "additionalProperties": false,
            "properties": {
                "fact": { "type": "string", "description": "a path such as run[0].jacket, run, run[]" },
                "prompt": { "type": "string" },
                "changes": { "type": "array", "minItems": 1, "items": { "type": "string" } }
            }
        },
        "note": { "type": "object", "required": ["text"], "additionalProperties": false, "properties": note },
        "pending": { "type": "object", "required": ["status", "instrument", "issuer"], "additionalProperties": false, "properties": pending }
    })
}
