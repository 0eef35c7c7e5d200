//! The schema of the lawful ways of a job, side by side.

use super::DIALECT;
use crate::report::cures::SCHEMA;
use serde_json::{Value, json};

/// The schema of the ways of one job; several jobs give an array of these.
pub(crate) fn ways() -> Value {
    let texts = json!({ "type": "array", "items": { "type": "string" } });
    json!({
        "$schema": DIALECT,
        "$id": SCHEMA,
        "title": "The lawful ways that a job leaves open, side by side",
        "type": "object",
        "required": ["schema", "ways"],
        "additionalProperties": false,
        "properties": {
            "schema": { "const": SCHEMA },
            "reference": { "type": "string" },
            "ways": { "type": "array", "items": { "$ref": "#/$defs/way" }, "description": "those that are lawful first" },
            "too-many": { "const": true, "description": "there are more combinations than are laid side by side" }
        },
        "$defs": {
            "way": {
                "type": "object",
                "required": ["choice", "choices", "lawful", "requires"],
                "additionalProperties": false,
                "properties": {
                    "choice": { "type": "string",
                                "description": "what is chosen, in one line; empty where the job leaves nothing open" },
                    "choices": { "type": "array", "items": { "$ref": "#/$defs/choice" } },
                    "lawful": { "type": "boolean" },
                    "prohibited": { "type": "array", "minItems": 1, "items": { "$ref": "#/$defs/required" },
                                    "description": "by which texts it is prohibited" },
                    "requires": { "type": "array", "items": { "$ref": "#/$defs/required" },
                                  "description": "in the order of the work" },
                    "not-settled": { "type": "array", "minItems": 1, "items": { "$ref": "#/$defs/required" },
                                     "description": "answers that hang on what is not known, with what they lie between" },
                    "refers": { "$ref": "#/$defs/some-texts", "description": "titles of what is left to the authority" },
                    "to-know": { "$ref": "#/$defs/some-texts",
                                 "description": "facts, as in a verdict's `ask`, that are not the contractor's to choose" },
                    "to-choose": { "$ref": "#/$defs/some-texts",
                                   "description": "facts, the contractor's to choose, on which hangs what is not settled" }
                }
            },
            "choice": {
                "type": "object",
                "required": ["fact"],
                "additionalProperties": false,
                "properties": {
                    "fact": { "type": "string", "description": "an attribute of every entry that leaves it open" },
                    "values": { "$ref": "#/$defs/some-texts",
                                "description": "any of these comes to the same; absent where it does not matter which" }
                }
            },
            "required": {
                "type": "object",
                "required": ["question", "title", "value", "by"],
                "additionalProperties": false,
                "properties": {
                    "question": { "type": "string" },
                    "title": { "type": "string" },
                    "value": { "type": "string" },
                    "costs": { "type": "string", "description": "in kind, as common practice of the trade has it" },
                    "by": texts
                }
            },
            "some-texts": { "type": "array", "minItems": 1, "items": { "type": "string" } }
        }
    })
}
