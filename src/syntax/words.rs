//! The words of the language that cannot be names, and what messages call the
//! parts of the grammar.

/// The reserved words, in order. No other word of the language is: `summary`,
/// `floor`, `kind` and the like may be names. The grammar holds the same list
/// (its rule `reserved`), and a test compares them.
pub(crate) const RESERVED: &[&str] = &[
    "all",
    "and",
    "any",
    "as",
    "at",
    "before",
    "by",
    "choice",
    "code",
    "definition",
    "edition",
    "example",
    "extend",
    "fact",
    "for",
    "from",
    "gives",
    "in",
    "includes",
    "instrument",
    "is",
    "job",
    "list",
    "maker",
    "no",
    "none",
    "not",
    "of",
    "on",
    "only",
    "or",
    "outcome",
    "over",
    "per",
    "place",
    "question",
    "record",
    "reference",
    "subject",
    "supplier",
    "table",
    "through",
    "under",
    "unknown",
    "verdict",
    "where",
    "with",
    "within",
    "yes",
];

/// The words that begin an item of a rule file.
pub(crate) const ITEMS: &[&str] = &[
    "choice",
    "code",
    "definition",
    "edition",
    "example",
    "extend",
    "fact",
    "instrument",
    "list",
    "maker",
    "place",
    "question",
    "record",
    "subject",
    "supplier",
];

/// The shapes of a fact that are no choice.
pub(crate) const SHAPES: &[&str] = &["code", "count", "date", "gauge", "name", "quantity", "several", "yes-no"];

/// The words between a question and its answer.
pub(crate) const ANSWERS: &[&str] = &["all", "at", "is", "none", "only"];

/// A text in double quotes, as a rule file or a job sheet holds it.
pub(crate) fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}

/// Whether a word of the author may not be this one.
pub(crate) fn is_reserved(word: &str) -> bool {
    RESERVED.binary_search(&word).is_ok()
}

/// Whether an item of a rule file begins with this word.
pub(crate) fn begins_item(word: &str) -> bool {
    ITEMS.binary_search(&word).is_ok()
}
