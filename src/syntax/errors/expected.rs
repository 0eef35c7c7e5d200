//! What could stand at a place: read off what the grammar tried there.

use crate::syntax::Kind;
use crate::syntax::grammar::{Grammar, Rule};
use crate::syntax::nearest::nearest;
use crate::syntax::words;
use pest::Parser;
use pest::error::{ErrorVariant, InputLocation};
use pest::iterators::Pairs;
use std::collections::BTreeSet;
use std::sync::{Mutex, PoisonError};

/// What could have stood at a place.
#[derive(Debug, Default)]
pub(crate) struct Expected {
    /// Words and signs of the language.
    pub(super) words: BTreeSet<String>,
    /// What the author chooses: a name, a figure.
    pub(super) parts: BTreeSet<&'static str>,
    /// A name of the author's own could have stood here.
    pub(super) name: bool,
    /// Another part of a list could have followed.
    pub(super) comma: bool,
}

/// pest keeps what was tried only while a process-wide switch is on.
static DETAIL: Mutex<()> = Mutex::new(());

/// What the shape of a fact is called in messages.
const SHAPE: &str = "a shape such as `yes-no`, `date` or a choice";

/// What a date is called in messages.
pub(super) const DATE: &str = "a date such as `2024-07-01`";

/// A letter that no rule matches: what is tried at a place is found by putting it there.
const PROBE: char = '\u{1}';

/// What could have stood at `at`, if the grammar comes that far.
pub(super) fn expected_at(piece: &str, at: usize, kind: Kind) -> Option<Expected> {
    let mut probed = piece.get(..at)?.to_owned();
    probed.push(' ');
    probed.push(PROBE);
    let (reached, expected) = attempt(&probed, kind);
    (reached == at + 1).then_some(expected)
}

/// Reads a piece with everything that is tried kept: how far it came, and what
/// was tried there.
pub(super) fn attempt(piece: &str, kind: Kind) -> (usize, Expected) {
    let guard = DETAIL.lock().unwrap_or_else(PoisonError::into_inner);
    pest::set_error_detail(true);
    let rule = match kind {
        Kind::Rules => Rule::rules,
        Kind::Job => Rule::job_sheet,
    };
    let outcome: Result<Pairs<'_, Rule>, _> = Grammar::parse(rule, piece);
    pest::set_error_detail(false);
    drop(guard);
    let Err(error) = outcome else { return (piece.len(), Expected::default()) };
    let furthest_rule = match error.location {
        InputLocation::Pos(position) | InputLocation::Span((position, _)) => position,
    };
    let mut expected = Expected::default();
    let mut reached = furthest_rule;
    if let Some(attempts) = error.parse_attempts() {
        reached = reached.max(attempts.max_position);
        if attempts.max_position == reached {
            for token in attempts.expected_tokens() {
                expected.token(&token.to_string());
            }
        }
    }
    if reached == furthest_rule
        && let ErrorVariant::ParsingError { positives, .. } = &error.variant
    {
        for rule in positives {
            expected.rule(*rule);
        }
    }
    (reached, expected)
}

impl Expected {
    /// Words and signs of the language.
    pub(crate) fn words(&self) -> impl Iterator<Item = &str> {
        self.words.iter().map(String::as_str)
    }

    /// What the author may write, as messages call it: `a condition`, `a name`.
    pub(crate) fn parts(&self) -> impl Iterator<Item = &str> {
        self.parts.iter().copied()
    }

    fn token(&mut self, token: &str) {
        match token {
            "a..z" => self.name = true,
            "," => self.comma = true,
            "\"" => {
                self.parts.insert("a text in double quotes");
            }
            "(" | ")" | "{" | "}" | "[" => {
                self.words.insert(token.to_owned());
            }
            word if word.len() > 1 && word.bytes().all(|byte| byte.is_ascii_lowercase()) => {
                self.words.insert(token.to_owned());
            }
            _ => {}
        }
    }

    fn rule(&mut self, rule: Rule) {
        if matches!(rule, Rule::name | Rule::term | Rule::path | Rule::attribute | Rule::term_line | Rule::demand) {
            self.name = true;
        }
        let part = match rule {
            Rule::name => "a name",
            Rule::term | Rule::term_line => "a term",
            Rule::path => "a fact",
            Rule::attribute => "an attribute",
            Rule::number => "a number or id",
            Rule::code_name => "a code in capitals",
            Rule::edition_name => "a code and its year",
            Rule::year => "a year",
            Rule::date => DATE,
            Rule::amount | Rule::figure | Rule::limit | Rule::count | Rule::delay => "a figure",
            Rule::unit_word => "a unit",
            Rule::text => "a text in double quotes",
            Rule::value_word => "a value",
            Rule::plain_shape => SHAPE,
            Rule::place_name | Rule::place_path => "a place",
            Rule::cond => "a condition",
            Rule::demand => "a question and its answer",
            Rule::job_fact | Rule::job_entry => "a fact and its value",
            Rule::expect_state | Rule::expect_demand | Rule::expect_loosest => "a question and what is expected of it",
            Rule::layer => "a code or `instructions`",
            _ => return,
        };
        self.parts.insert(part);
    }

    /// All that was expected, when it is no more than `most`.
    pub(super) fn in_words(&self, most: usize) -> Option<String> {
        let next_item = words::ITEMS.iter().all(|item| self.words.contains(*item));
        let signs = self.words.iter().filter(|word| !(next_item && words::begins_item(word)));
        let mut all: Vec<String> = self.parts.iter().map(|part| (*part).to_owned()).collect();
        all.extend(signs.map(|word| format!("`{word}`")));
        if next_item {
            all.push("the next item".to_owned());
        }
        if all.is_empty() || all.len() > most {
            return None;
        }
        let last = all.pop()?;
        Some(if all.is_empty() { last } else { format!("{} or {last}", all.join(", ")) })
    }

    /// Whether a word joins the parts of a list where commas should.
    pub(super) fn joins(&self, word: &str) -> bool {
        self.comma && matches!(word, "and" | "or")
    }

    /// The expected words that the written one is near to.
    pub(super) fn near(&self, word: &str) -> Vec<&str> {
        if self.joins(word) || !word.starts_with(|letter: char| letter.is_ascii_alphabetic()) {
            return Vec::new();
        }
        let shapes: &[&str] = if self.parts.contains(SHAPE) { words::SHAPES } else { &[] };
        let known = self.words.iter().map(String::as_str).filter(|one| *one != word && one.len() > 1);
        nearest(word, known.chain(shapes.iter().copied()))
    }
}
