//! The schema of a comparison.

use super::DIALECT;
use crate::report::compare::{COLUMNS, SCHEMA};
use serde_json::{Value, json};

/// The schema of one job at several places or on several days.
pub(crate) fn compare() -> Value {
    json!({
        "$schema": DIALECT,
        "$id": SCHEMA,
        "title": "One job at several places or on several days, side by side",
        "type": "object",
        "required": ["schema", "outcome", "library", "engine", "job", "columns", "rows", "cautions"],
        "additionalProperties": false,
        "properties": {
            "schema": { "const": SCHEMA },
            "outcome": { "$ref": "#/$defs/outcome", "description": "the worst of all columns" },
            "reference": { "type": "string" },
            "library": { "$ref": "#/$defs/hash" },
            "engine": { "type": "string" },
            "job": { "type": "object", "description": "the facts that every column has alike, as in a job" },
            "columns": { "type": "array", "minItems": 1, "maxItems": COLUMNS, "items": { "$ref": "#/$defs/column" } },
            "rows": { "type": "array", "items": { "$ref": "#/$defs/row" },
                      "description": "a question each, those that are answered otherwise first" },
            "cautions": { "type": "array", "items": { "type": "string" } },
            "for-all": {
                "type": "object", "additionalProperties": false,
                "description": "the fewest choices after which nothing is not met, referred or contradictory in any column",
                "properties": {
                    "cures": { "type": "array", "minItems": 1, "items": { "type": "object", "required": ["changes"] },
                               "description": "as in a verdict" },
                    "no-cure": { "enum": ["none", "not-decided"] }
                }
            }
        },
        "$defs": definitions()
    })
}

fn definitions() -> Value {
    let texts = json!({ "type": "array", "items": { "type": "string" } });
    json!({
        "hash": { "type": "string", "pattern": "^sha256:[0-9a-f]{64}$" },
        "date": { "type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$" },
        "outcome": { "enum": ["complies", "open", "refer", "conflict", "corrections"] },
        "column": {
            "type": "object",
            "required": ["place", "title", "label", "dates", "outcome", "outcome-words", "codes", "read", "notes",
                         "cautions", "ask", "rests-on"],
            "additionalProperties": false,
            "properties": {
                "place": { "type": "array", "minItems": 1, "items": { "type": "string" },
                           "description": "names, outermost first" },
                "title": { "type": "string" },
                "label": { "type": "string", "description": "what tells the column from the others" },
                "date": { "$ref": "#/$defs/date", "description": "the day that chooses the texts, where it is known" },
                "dates": { "type": "object", "additionalProperties": { "type": "string" } },
                "outcome": { "$ref": "#/$defs/outcome" },
                "outcome-words": { "type": "string" },
                "codes": { "type": "array", "items": {
                    "type": "object", "required": ["code", "edition", "subjects", "by", "words"],
                    "additionalProperties": false,
                    "properties": {
                        "code": { "type": "string" }, "edition": { "type": "integer" }, "subjects": texts,
                        "by": { "type": "string", "description": "the adopting instrument" },
                        "possible": { "const": true, "description": "it is not settled that the edition applies" },
                        "words": { "type": "string" }
                    } } },
                "read": { "type": "array", "items": {
                    "type": "object", "required": ["place"], "additionalProperties": false,
                    "properties": { "place": { "type": "string" }, "on": { "$ref": "#/$defs/date" } } },
                    "description": "when the rules of the place and of those around it were last read" },
                "notes": texts,
                "cautions": texts,
                "ask": texts,
                "rests-on": { "$ref": "#/$defs/hash" }
            }
        },
        "row": {
            "type": "object",
            "required": ["question", "title", "order", "differs", "strictest", "not-comparable", "cells"],
            "additionalProperties": false,
            "properties": {
                "question": { "type": "string" },
                "title": { "type": "string" },
                "order": { "enum": ["ladder", "at-least", "at-most", "only", "all-of"] },
                "differs": { "type": "boolean" },
                "strictest": { "type": "array", "items": { "type": "integer", "minimum": 0 }, "uniqueItems": true,
                               "description": "columns, counted from 0" },
                "not-comparable": { "type": "boolean",
                                    "description": "the ranked answers differ and none is as strict as all others" },
                "cells": { "type": "array", "minItems": 1, "items": { "$ref": "#/$defs/cell" } }
            }
        },
        "cell": {
            "type": "object",
            "required": ["state", "words", "asked", "may-change", "strictest", "texts"],
            "additionalProperties": false,
            "properties": {
                "state": { "enum": ["settled", "open", "silent", "referred", "conflict", "absent"] },
                "value": { "$ref": "#/$defs/value" },
                "between": { "type": "array", "minItems": 2, "maxItems": 2, "items": { "$ref": "#/$defs/value" } },
                "words": { "type": "string" },
                "finding": { "enum": ["met", "not-met", "open"] },
                "asked": { "type": "boolean" },
                "not-applicable": { "const": "prohibited" },
                "may-change": { "type": "boolean" },
                "hangs-on": texts,
                "strictest": { "type": "boolean" },
                "unranked": { "enum": ["open", "referred", "conflict", "silent", "not-asked", "no-such-question"] },
                "texts": texts,
                "instead": { "type": "string", "description": "where no text governs, why that is so" }
            }
        },
        "value": { "oneOf": [
            { "type": "string", "description": "a rung" },
            { "type": "object", "minProperties": 1, "description": "as in a verdict" }] }
    })
}
