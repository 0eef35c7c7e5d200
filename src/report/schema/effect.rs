//! The schema of an effect.

use super::DIALECT;
use crate::report::effect::SCHEMA;
use serde_json::{Value, json};

/// The schema of what `groundrule effect` tells.
pub(crate) fn effect() -> Value {
    json!({
        "$schema": DIALECT,
        "$id": SCHEMA,
        "title": "What one set of rules answers otherwise than another, at a place",
        "type": "object",
        "required": ["schema", "engine", "title", "before", "after", "alike", "changed", "only-before", "only-after", "undecided", "notes", "cautions"],
        "additionalProperties": false,
        "properties": {
            "schema": { "const": SCHEMA },
            "engine": { "type": "string" },
            "title": { "type": "string" },
            "before": { "$ref": "#/$defs/side" },
            "after": { "$ref": "#/$defs/side" },
            "from": { "$ref": "#/$defs/date", "description": "the first day of the jobs that are looked at" },
            "through": { "$ref": "#/$defs/date", "description": "the last" },
            "kinds": {
                "type": "object",
                "description": "kinds of job that the tests of both texts tell apart; missing where they are too many to be counted",
                "required": ["changed", "all"],
                "additionalProperties": false,
                "properties": { "changed": { "$ref": "#/$defs/number" }, "all": { "$ref": "#/$defs/number" } }
            },
            "alike": { "type": "integer", "minimum": 0, "description": "how many questions are answered alike for every job" },
            "changed": { "type": "array", "items": { "$ref": "#/$defs/question" } },
            "only-before": { "$ref": "#/$defs/names" },
            "only-after": { "$ref": "#/$defs/names" },
            "undecided": { "$ref": "#/$defs/names" },
            "notes": {
                "type": "object",
                "description": "what only one side's texts say without answering a question",
                "required": ["only-before", "only-after"],
                "additionalProperties": false,
                "properties": { "only-before": { "$ref": "#/$defs/notes" }, "only-after": { "$ref": "#/$defs/notes" } }
            },
            "cautions": { "type": "array", "items": { "type": "string" } }
        },
        "$defs": definitions()
    })
}

fn definitions() -> Value {
    json!({
        "hash": { "type": "string", "pattern": "^sha256:[0-9a-f]{64}$" },
        "date": { "type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$" },
        "names": { "type": "array", "items": { "type": "string" }, "description": "questions by name" },
        "notes": { "type": "array", "items": {
            "type": "object",
            "required": ["text", "by"],
            "additionalProperties": false,
            "properties": { "text": { "type": "string" }, "by": { "$ref": "#/$defs/texts", "description": "the texts that say it" },
                            "conditions": { "type": "array", "minItems": 1, "items": { "$ref": "#/$defs/texts" },
                                            "description": "one of these, in words, holds for exactly the jobs to which only this side says it; missing where they are too many to be told apart" } } } },
        "number": { "oneOf": [
            { "type": "integer", "minimum": 0, "maximum": 9_007_199_254_740_992_u64 },
            { "type": "string", "pattern": "^[1-9][0-9]{15,}$", "description": "where it is over 2 to the 53rd" }] },
        "side": {
            "type": "object",
            "required": ["what", "place", "library"],
            "additionalProperties": false,
            "properties": {
                "what": { "type": "string" },
                "place": { "type": "array", "minItems": 1, "items": { "type": "string" }, "description": "names, outermost first" },
                "on": { "$ref": "#/$defs/date", "description": "the day of every date of the jobs" },
                "library": { "$ref": "#/$defs/hash" }
            }
        },
        "question": {
            "type": "object",
            "required": ["question", "title", "changes"],
            "additionalProperties": false,
            "properties": {
                "question": { "type": "string" },
                "title": { "type": "string" },
                "costs": { "type": "string", "description": "what a stricter answer costs" },
                "kinds": { "$ref": "#/$defs/number" },
                "changes": { "type": "array", "minItems": 1, "items": { "$ref": "#/$defs/change" } }
            }
        },
        "change": {
            "type": "object",
            "required": ["before", "after", "becomes", "proven-fewest", "conditions"],
            "additionalProperties": false,
            "properties": {
                "before": { "$ref": "#/$defs/answer" },
                "after": { "$ref": "#/$defs/answer" },
                "becomes": { "enum": ["contradicts", "stricter", "looser", "otherwise", "leaves-to-authority", "decides", "reconciles"] },
                "in-part": { "const": true, "description": "of a required set the answers hold only what goes and what comes" },
                "kinds": { "$ref": "#/$defs/number" },
                "proven-fewest": { "type": "boolean", "description": "whether it is proven that no fewer conditions say it" },
                "conditions": { "type": "array", "minItems": 1, "items": { "$ref": "#/$defs/condition" },
                                "description": "one of these holds for exactly the jobs concerned" },
                "example": { "type": "string", "description": "a job that shows it, as a rule file keeps it" },
                "by": { "type": "object", "required": ["before", "after"], "additionalProperties": false,
                        "description": "the texts that govern the example's job",
                        "properties": { "before": { "$ref": "#/$defs/texts" }, "after": { "$ref": "#/$defs/texts" } } }
            }
        },
        "texts": { "type": "array", "items": { "type": "string" } },
        "answer": {
            "type": "object",
            "required": ["state", "value", "words"],
            "additionalProperties": false,
            "properties": {
                "state": { "enum": ["settled", "referred", "conflict"] },
                "value": { "oneOf": [{ "type": "string" }, { "type": "object", "minProperties": 1 }, { "type": "null" }] },
                "words": { "type": "string" }
            }
        },
        "condition": {
            "type": "object",
            "required": ["words", "tests", "job"],
            "additionalProperties": false,
            "properties": {
                "words": { "$ref": "#/$defs/texts", "description": "what holds together, in plain words" },
                "tests": { "$ref": "#/$defs/texts", "description": "the same in the language; joined by `and`" },
                "job": { "type": "object", "description": "a job that fulfils it, schema groundrule/job/1" }
            }
        }
    })
}
