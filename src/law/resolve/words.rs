//! Demands in the words of the language, as a reader sees them.

use crate::syntax::tree::{Demand, DemandKind, Limit, Value, Word};

/// The demand as written, in one line.
pub(crate) fn demand_words(demand: &Demand) -> Box<str> {
    match &demand.kind {
        DemandKind::Is { question, rung } => format!("{} is {}", question.text, rung.text),
        DemandKind::AtLeast { question, limits } => format!("{} at least {}", question.text, limits_words(limits)),
        DemandKind::AtMost { question, limits } => format!("{} at most {}", question.text, limits_words(limits)),
        DemandKind::ByTable { question, least, code, year, number } => {
            let bound = if *least { "at least" } else { "at most" };
            let name: Vec<&str> =
                [code.as_ref(), year.as_ref(), Some(number)].into_iter().flatten().map(|word| &*word.text).collect();
            format!("{} {bound} by table {}", question.text, name.join(" "))
        }
        DemandKind::Only { question, terms } => format!("{} only {}", question.text, list(terms)),
        DemandKind::NoneOf { question, terms } => format!("{} none of {}", question.text, list(terms)),
        DemandKind::AllOf { question, terms } => format!("{} all of {}", question.text, list(terms)),
        DemandKind::Refer { questions, why } => format!("refer {} \"{}\"", list(questions), why.text),
        DemandKind::Bind { questions } => format!("instructions bind on {}", list(questions)),
        DemandKind::Note { text } => format!("note \"{}\"", text.text),
    }
    .into()
}

/// A value as written.
pub(crate) fn value_words(value: &Value) -> String {
    match value {
        Value::Word(word) | Value::Date(word) => word.text.to_string(),
        Value::Figure { number, unit: Some(unit) } => format!("{} {}", number.text, unit.text),
        Value::Figure { number, unit: None } => number.text.to_string(),
        Value::Text(text) => format!("\"{}\"", text.text),
    }
}

fn limits_words(limits: &[Limit]) -> String {
    let each: Vec<String> = limits
        .iter()
        .map(|limit| {
            let value = value_words(&limit.value);
            if limit.terms.is_empty() { value } else { format!("{value} for {}", list(&limit.terms)) }
        })
        .collect();
    each.join(", ")
}

fn list(words: &[Word]) -> String {
    words.iter().map(|word| &*word.text).collect::<Vec<_>>().join(", ")
}
