//! Findings for programs: one array.

use super::{Finding, Spot, word};
use serde_json::{Map, Value};

/// The findings as an array, a finding an object; behind them the warnings that the
/// files pass over, with a severity of their own and the reason.
pub(crate) fn list(findings: &[Finding], silenced: &[(Finding, String)]) -> String {
    let passed_over = |(finding, why): &(Finding, String)| {
        let mut one = members(finding);
        one.insert("severity".into(), "silenced".into());
        one.insert("reason".into(), why.as_str().into());
        Value::Object(one)
    };
    let all: Value = findings.iter().map(object).chain(silenced.iter().map(passed_over)).collect();
    format!("{all:#}\n")
}

/// One finding.
pub(crate) fn object(finding: &Finding) -> Value {
    Value::Object(members(finding))
}

fn members(finding: &Finding) -> Map<String, Value> {
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
    one
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
