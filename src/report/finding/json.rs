//! Findings for programs: one array.

use super::{Finding, Spot, word};
use serde_json::{Map, Value};

/// The findings as an array, a finding an object.
pub(super) fn list(findings: &[Finding]) -> String {
    let all: Value = findings.iter().map(object).collect();
    format!("{all:#}\n")
}

/// One finding.
fn object(finding: &Finding) -> Value {
    let mut one = Map::new();
    one.insert("code".into(), finding.code.to_string().into());
    one.insert("severity".into(), word(finding.severity()).into());
    place(&mut one, &finding.spot);
    one.insert("message".into(), finding.message.as_str().into());
    if let Some(help) = &finding.help {
        one.insert("help".into(), help.as_str().into());
    }
    if !finding.also.is_empty() {
        let also = finding.also.iter().map(|(spot, note)| {
            let mut one = Map::new();
            place(&mut one, spot);
            one.insert("note".into(), note.as_str().into());
            Value::Object(one)
        });
        one.insert("also".into(), also.collect());
    }
    if let Some(example) = &finding.example {
        one.insert("example".into(), example.as_str().into());
    }
    Value::Object(one)
}

fn place(one: &mut Map<String, Value>, spot: &Spot) {
    one.insert("file".into(), spot.name.as_str().into());
    if let Some((line, column)) = spot.line_and_column() {
        one.insert("line".into(), line.into());
        one.insert("column".into(), column.into());
    }
    if !spot.path.is_empty() {
        one.insert("path".into(), spot.path.as_str().into());
    }
}
