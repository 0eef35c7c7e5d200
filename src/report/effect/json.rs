//! The account as JSON, schema `groundrule/effect/1`. The same rules give the same
//! bytes.

use super::{Account, AnswerTold, CaseTold, ChangeTold, Named, NoteTold, QuestionTold, SideTold};
use crate::review::effect::{Direction, Known};
use serde_json::{Map, Value, json};

/// The name of the form.
pub(crate) const SCHEMA: &str = "groundrule/effect/1";

/// The largest whole number that every reader of JSON holds exactly, 2 to the 53rd
/// (RFC 8259, section 6).
const EXACT: u128 = 1 << 53;

/// The whole account.
pub(crate) fn json(account: &Account) -> Value {
    let [before, after] = &account.sides;
    let mut whole = Map::new();
    whole.insert("schema".into(), SCHEMA.into());
    whole.insert("engine".into(), env!("CARGO_PKG_VERSION").into());
    whole.insert("title".into(), account.title.as_str().into());
    whole.insert("before".into(), side(before));
    whole.insert("after".into(), side(after));
    if let Some(day) = account.window.from {
        whole.insert("from".into(), day.to_string().into());
    }
    if let Some(day) = account.window.through {
        whole.insert("through".into(), day.to_string().into());
    }
    if let Some((some, all)) = account.kinds {
        whole.insert("kinds".into(), json!({ "changed": number(some), "all": number(all) }));
    }
    whole.insert("alike".into(), account.alike.into());
    whole.insert("changed".into(), account.changed.iter().map(question).collect());
    let apart = |side: Known| -> Value {
        account.apart.iter().filter(|(_, known)| *known == side).map(|(named, _)| name(named)).collect()
    };
    whole.insert("only-before".into(), apart(Known::Before));
    whole.insert("only-after".into(), apart(Known::After));
    whole.insert("undecided".into(), account.undecided.iter().map(name).collect());
    let [before, after] = &account.notes;
    let notes = |notes: &[NoteTold]| -> Value {
        let one = |note: &NoteTold| {
            let mut one = Map::new();
            one.insert("text".into(), note.text.as_str().into());
            one.insert("by".into(), note.by.iter().map(String::as_str).collect());
            if let Some(cases) = &note.cases {
                one.insert("conditions".into(), json!(cases));
            }
            Value::Object(one)
        };
        notes.iter().map(one).collect()
    };
    whole.insert("notes".into(), json!({ "only-before": notes(before), "only-after": notes(after) }));
    whole.insert("cautions".into(), account.cautions.iter().map(String::as_str).collect());
    Value::Object(whole)
}

fn name(named: &Named) -> Value {
    named.name.as_str().into()
}

fn number(count: u128) -> Value {
    match u64::try_from(count) {
        Ok(small) if count <= EXACT => small.into(),
        _ => count.to_string().into(),
    }
}

fn side(side: &SideTold) -> Value {
    let mut one = Map::new();
    one.insert("what".into(), side.words.as_str().into());
    one.insert("place".into(), side.place.iter().map(String::as_str).collect());
    if let Some(day) = side.on {
        one.insert("on".into(), day.to_string().into());
    }
    one.insert("library".into(), side.library.as_str().into());
    Value::Object(one)
}

fn question(question: &QuestionTold) -> Value {
    let mut one = Map::new();
    one.insert("question".into(), name(&question.named));
    one.insert("title".into(), question.named.title.as_str().into());
    if let Some(costs) = &question.costs {
        one.insert("costs".into(), costs.as_str().into());
    }
    if let Some(kinds) = question.kinds {
        one.insert("kinds".into(), number(kinds));
    }
    one.insert("changes".into(), question.changes.iter().map(change).collect());
    Value::Object(one)
}

/// The word for what becomes of an answer.
pub(crate) fn becomes(direction: Direction) -> &'static str {
    match direction {
        Direction::Contradicts => "contradicts",
        Direction::Stricter => "stricter",
        Direction::Looser => "looser",
        Direction::Otherwise => "otherwise",
        Direction::Leaves => "leaves-to-authority",
        Direction::Decides => "decides",
        Direction::Reconciles => "reconciles",
    }
}

fn change(change: &ChangeTold) -> Value {
    let mut one = Map::new();
    one.insert("before".into(), answer(&change.before));
    one.insert("after".into(), answer(&change.after));
    one.insert("becomes".into(), becomes(change.direction).into());
    if change.in_part {
        one.insert("in-part".into(), true.into());
    }
    if let Some(kinds) = change.kinds {
        one.insert("kinds".into(), number(kinds));
    }
    one.insert("proven-fewest".into(), change.fewest.into());
    one.insert("conditions".into(), change.cases.iter().map(case).collect());
    if let Some(witness) = &change.witness {
        let [before, after] = &witness.by;
        let texts = |texts: &[String]| -> Value { texts.iter().map(String::as_str).collect() };
        one.insert("example".into(), witness.example.as_str().into());
        one.insert("by".into(), json!({ "before": texts(before), "after": texts(after) }));
    }
    Value::Object(one)
}

fn answer(answer: &AnswerTold) -> Value {
    json!({ "state": answer.state, "value": answer.value, "words": answer.words })
}

fn case(case: &CaseTold) -> Value {
    json!({ "words": case.parts, "tests": case.exact, "job": case.job })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_past_what_a_reader_holds_are_texts() {
        assert_eq!(number(9_007_199_254_740_992), json!(9_007_199_254_740_992_u64));
        assert_eq!(number(9_007_199_254_740_993), json!("9007199254740993"));
        assert_eq!(number(u128::MAX), json!(u128::MAX.to_string()));
    }
}
