//! Cures as JSON, as part of `groundrule/verdict/1`.

use super::question_of;
use crate::cure::{Change, Cure, Cures, End, To};
use crate::report::json::given;
use crate::verdict::Matter;
use serde::Serialize;
use serde_json::{Map, Value, json as object};

/// The cures of one answer.
#[derive(Clone, Debug, Default, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Json {
    #[serde(skip_serializing_if = "Option::is_none")]
    cures: Option<Vec<Value>>,
    /// `none` where it is proven that there is none, else `not-decided`.
    #[serde(skip_serializing_if = "Option::is_none")]
    no_cure: Option<&'static str>,
}

/// What was found of cures, as JSON.
pub(crate) fn json(cures: &Cures, matter: &Matter<'_>) -> Json {
    match cures {
        Cures::Found(cures) => {
            Json { cures: Some(cures.iter().map(|cure| one(cure, matter)).collect()), no_cure: None }
        }
        Cures::None => Json { cures: None, no_cure: Some("none") },
        Cures::NotDecided => Json { cures: None, no_cure: Some("not-decided") },
    }
}

fn one(cure: &Cure, matter: &Matter<'_>) -> Value {
    let mut told = Map::new();
    told.insert("changes".into(), cure.changes.iter().map(|each| change(each, matter)).collect());
    let names = |questions: &[usize]| -> Vec<&str> {
        questions.iter().filter_map(|question| question_of(*question, matter)).map(|known| &*known.name).collect()
    };
    let facts: Vec<String> = cure.opens.iter().map(|path| path.write(&matter.lexicon)).collect();
    for (name, list) in [("mends", names(&cure.mends)), ("leaves", names(&cure.leaves))] {
        if !list.is_empty() {
            told.insert(name.into(), list.into());
        }
    }
    if !facts.is_empty() {
        told.insert("then-known".into(), facts.into());
    }
    Value::Object(told)
}

fn change(change: &Change, matter: &Matter<'_>) -> Value {
    let mut told = Map::new();
    let mut paths = change.paths().into_iter().map(|path| path.write(&matter.lexicon));
    told.insert("fact".into(), paths.next().unwrap_or_default().into());
    let more: Vec<String> = paths.collect();
    if !more.is_empty() {
        told.insert("and".into(), more.into());
    }
    if let Some(from) = given(&change.from, change.field, &matter.lexicon) {
        told.insert("from".into(), from);
    }
    told.insert("to".into(), change.to.iter().filter_map(|each| to(each, change, matter)).collect());
    if let Some(value) = given(&change.such_as, change.field, &matter.lexicon) {
        told.insert("such-as".into(), value);
    }
    Value::Object(told)
}

fn to(to: &To, change: &Change, matter: &Matter<'_>) -> Option<Value> {
    Some(match to {
        To::Value(value) => given(value, change.field, &matter.lexicon)?,
        To::Other(names) => object!({ "none-of": names.iter().map(|name| &**name).collect::<Vec<_>>() }),
        To::Stretch { least, most } => {
            let mut ends = Map::new();
            let mut put = |end: &Option<End>, itself: &str, beyond: &str| {
                if let Some(end) = end {
                    ends.insert(if end.itself { itself } else { beyond }.into(), (*end.figure.shown).into());
                }
            };
            put(least, "at-least", "over");
            put(most, "at-most", "under");
            Value::Object(ends)
        }
    })
}
