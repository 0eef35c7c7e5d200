//! The schema of one thing that is found wrong.

use serde_json::{Value, json};

/// The schema of a finding, as every command with `--as json` tells it on standard error.
pub(crate) fn finding() -> Value {
    let place = json!({
        "file": { "type": "string", "description": "the file, the body, the row of a batch or the parameter" },
        "line": { "type": "integer", "minimum": 1 },
        "column": { "type": "integer", "minimum": 1, "description": "counted in letters" },
        "path": { "type": "string", "description": "the path of a fact, such as run[0].jacket" },
    });
    let with = |more: Value| -> Value {
        let mut all = place.clone();
        if let (Some(all), Value::Object(more)) = (all.as_object_mut(), more) {
            all.extend(more);
        }
        all
    };
    let properties = with(json!({
        "code": { "type": "string", "pattern": "^GR[0-9]{4}$" },
        "severity": { "enum": ["error", "warning"] },
        "message": { "type": "string" },
        "help": { "type": "string", "description": "what would mend it" },
        "also": { "type": "array", "items": {
            "type": "object",
            "required": ["file", "note"],
            "additionalProperties": false,
            "properties": with(json!({ "note": { "type": "string" } })) } },
        "example": { "type": "string", "description": "an example that shows it, as a rule file keeps it" },
    }));
    json!({
        "title": "One thing that is wrong: its place, what it is, and what would mend it",
        "type": "object",
        "required": ["code", "severity", "file", "message"],
        "additionalProperties": false,
        "properties": properties,
    })
}
