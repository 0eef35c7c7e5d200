//! What to say where a text does not follow the grammar: the furthest place that
//! was reached, what could have stood there, and the word that was meant.

use super::Kind;
use super::codes::{self, Code};
use super::grammar::{Grammar, Rule};
use super::nearest::{did_you_mean, nearest};
use super::recover::{blank_end, first_word, good_end, line_end, line_start};
use super::words;
use pest::Parser;
use pest::error::{ErrorVariant, InputLocation};
use pest::iterators::Pairs;
use std::collections::BTreeSet;
use std::sync::{Mutex, PoisonError};

/// An error of syntax in a piece of a file.
pub(super) struct Fault {
    pub(super) code: Code,
    pub(super) start: usize,
    pub(super) end: usize,
    pub(super) message: String,
    pub(super) help: Option<String>,
}

/// What could have stood at a place.
#[derive(Default)]
struct Expected {
    /// Words and signs of the language.
    words: BTreeSet<String>,
    /// What the author chooses: a name, a figure.
    parts: BTreeSet<&'static str>,
    /// A name of the author's own could have stood here.
    name: bool,
    /// Another part of a list could have followed.
    comma: bool,
}

/// pest keeps what was tried only while a process-wide switch is on.
static DETAIL: Mutex<()> = Mutex::new(());

/// What the shape of a fact is called in messages.
const SHAPE: &str = "a shape such as `yes-no`, `date` or a choice";

/// What a date is called in messages.
const DATE: &str = "a date such as `2024-07-01`";

/// A letter that no rule matches: what is tried at a place is found by putting it there.
const PROBE: char = '\u{1}';

/// Longer pieces are looked at through a part of them: keeping all that is tried is slow.
const LONG: usize = 16 * 1024;

/// The error of a piece of which everything before `broken` follows the grammar.
pub(super) fn fault(piece: &str, broken: usize, kind: Kind) -> Fault {
    if piece.len() <= LONG {
        return near_fault(piece, broken, kind);
    }
    let Some((context, shift)) = shortened(piece, broken, kind) else {
        let at = blank_end(piece, broken);
        let end = at + run_length(piece.get(at..).unwrap_or_default()).max(1);
        let word = piece.get(at..end).unwrap_or_default();
        let message = format!("`{word}` cannot stand here");
        return Fault { code: codes::SYNTAX, start: at, end: end.min(piece.len()), message, help: None };
    };
    let mut fault = near_fault(&context, broken - shift, kind);
    fault.start += shift;
    fault.end += shift;
    fault
}

/// The first line of a long piece, and the last lines around `broken` that make
/// sense behind it; with the distance that places in it are moved by.
fn shortened(piece: &str, broken: usize, kind: Kind) -> Option<(String, usize)> {
    let head = piece.get(..line_end(piece, 0))?;
    let mut end = broken;
    for _ in 0..8 {
        end = line_end(piece, (end + 1).min(piece.len()));
    }
    let mut line = line_start(piece, broken);
    for _ in 0..400 {
        if line <= head.len() || broken - line > LONG {
            return None;
        }
        let context = format!("{head} {}", piece.get(line..end)?);
        let shift = line - head.len() - 1;
        if good_end(&context, kind) == broken - shift {
            return Some((context, shift));
        }
        line = line_start(piece, line - 1);
    }
    None
}

fn near_fault(piece: &str, broken: usize, kind: Kind) -> Fault {
    let (reached, _) = attempt(piece, kind);
    let mut at = blank_end(piece, word_start(piece, reached.max(broken)));
    let mut expected = expected_at(piece, at, kind);
    if expected.is_none() && reached > broken {
        // The word that ends here was looked at and refused.
        at = word_start(piece, reached - 1);
        expected = expected_at(piece, at, kind);
    }
    let expected = expected.unwrap_or_default();
    let rest = piece.get(at..).unwrap_or_default();
    let word = first_word(rest);
    let end = at + if word.is_empty() { rest.chars().next().map_or(0, char::len_utf8) } else { run_length(rest) };

    if let Some(fault) = lone_fact(piece, at, kind)
        .or_else(|| slip_before(piece, broken, at, kind))
        .or_else(|| unfinished_line(piece, at, word, &expected))
        .or_else(|| reserved(piece, broken, at, end, word, &expected))
    {
        return fault;
    }
    let written = rest.get(..end - at).unwrap_or_default();
    let near = if joins(written, &expected) { Vec::new() } else { near_words(written, &expected) };
    let first_on_its_line = piece.get(line_start(piece, at)..at).is_some_and(|before| before.trim().is_empty());
    if written.is_empty() || (near.is_empty() && first_on_its_line && line_start(piece, at) > broken) {
        return ends_early(piece.get(..at).unwrap_or(piece), &expected);
    }
    let found = if written == "\"" { "a text".to_owned() } else { format!("`{written}`") };
    let choices = expected.in_words(4);
    let message = match &choices {
        Some(choices) => format!("expected {choices}, found {found}"),
        None => format!("{found} cannot stand here"),
    };
    let help = did_you_mean(&near).or_else(|| plain_help(written, &expected)).or_else(|| {
        if choices.is_some() { None } else { expected.in_words(40).map(|all| format!("here may stand {all}")) }
    });
    Fault { code: codes::SYNTAX, start: at, end, message, help }
}

/// Whether a word joins the parts of a list where commas should.
fn joins(word: &str, expected: &Expected) -> bool {
    expected.comma && matches!(word, "and" | "or")
}

/// The expected words that the written one is near to.
fn near_words<'e>(word: &str, expected: &'e Expected) -> Vec<&'e str> {
    if !word.starts_with(|letter: char| letter.is_ascii_alphabetic()) {
        return Vec::new();
    }
    let shapes: &[&str] = if expected.parts.contains(SHAPE) { words::SHAPES } else { &[] };
    let known = expected.words.iter().map(String::as_str).filter(|one| *one != word && one.len() > 1);
    nearest(word, known.chain(shapes.iter().copied()))
}

/// The piece ends where something is still to come.
fn ends_early(piece: &str, expected: &Expected) -> Fault {
    let (start, end) = last_word(piece);
    let word = piece.get(start..end).unwrap_or_default();
    let message = format!("something is missing behind `{word}`");
    let help = expected.in_words(40).map(|all| format!("here may stand {all}"));
    Fault { code: codes::SYNTAX, start, end, message, help }
}

/// Where the last word of a text begins and ends; comments are passed over.
fn last_word(piece: &str) -> (usize, usize) {
    let mut end = 0;
    let mut line = 0;
    while line < piece.len() {
        let next = line_end(piece, line);
        let text = piece.get(line..next).unwrap_or_default();
        let text = match text.find('#') {
            Some(comment) if text.get(..comment).is_some_and(|before| before.matches('"').count() % 2 == 0) => {
                text.get(..comment).unwrap_or_default()
            }
            _ => text,
        };
        if !text.trim().is_empty() {
            end = line + text.trim_end().len();
        }
        line = next + 1;
    }
    (word_before(piece, end), end)
}

/// Where the word begins that ends at `end`.
fn word_before(piece: &str, end: usize) -> usize {
    let before = piece.get(..end).unwrap_or_default();
    let length = before.bytes().rev().take_while(|byte| in_run(*byte)).count();
    if length > 0 {
        return end - length;
    }
    if let Some(text) = before.strip_suffix('"') {
        return text.rfind(['"', '\n']).filter(|&at| text.as_bytes().get(at) == Some(&b'"')).unwrap_or(text.len());
    }
    before.char_indices().next_back().map_or(0, |(at, _)| at)
}

/// A line of a job that names a fact and gives no value: everything behind it is
/// read shifted by one word.
fn lone_fact(piece: &str, at: usize, kind: Kind) -> Option<Fault> {
    if kind != Kind::Job {
        return None;
    }
    let mut start = 0;
    while start < at {
        let end = line_end(piece, start);
        let written = piece.get(start..end)?.trim();
        let next = blank_end(piece, end);
        let next = piece.get(next..line_end(piece, next))?.trim();
        let lone = !written.is_empty() && written.bytes().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'.'));
        if lone && written != "job" && next.split_whitespace().nth(1).is_some_and(|second| !second.starts_with('#')) {
            let begin = end - piece.get(start..end)?.trim_start().len();
            let message = format!("no value is given for `{written}`");
            let help = format!("write the value behind it, or `{written} unknown`");
            return Some(Fault { code: codes::SYNTAX, start: begin, end: begin + written.len(), message, help: Some(help) });
        }
        start = end + 1;
    }
    None
}

/// A line whose end is missing takes the first word of the next line for it.
fn unfinished_line(piece: &str, at: usize, word: &str, expected: &Expected) -> Option<Fault> {
    let line = line_start(piece, at);
    let before = piece.get(line..at)?;
    let taken = before.trim();
    let lone = !taken.is_empty() && taken.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
    if !lone || line == 0 || !(words::ANSWERS.contains(&word) || expected.words.contains(taken)) {
        return None;
    }
    let (start, end) = last_word(piece.get(..line)?);
    let last = piece.get(start..end)?;
    if last.is_empty() {
        return None;
    }
    let message = format!("something is missing behind `{last}`");
    let help = format!("`{taken}` on the next line was taken for it");
    Some(Fault { code: codes::SYNTAX, start, end, message, help: Some(help) })
}

/// A word just before the place that is a slip of a word of the language.
fn slip_before(piece: &str, broken: usize, at: usize, kind: Kind) -> Option<Fault> {
    let before = piece.get(..at)?.trim_end();
    let length = before.bytes().rev().take_while(|byte| byte.is_ascii_alphanumeric() || *byte == b'-').count();
    let start = before.len() - length;
    if length < 3 || start < broken {
        return None;
    }
    let word = before.get(start..)?;
    let expected = expected_at(piece, start, kind)?;
    if expected.words.contains(word) {
        return None;
    }
    let near = nearest(word, expected.words.iter().map(String::as_str).filter(|one| one.len() > 2));
    let help = did_you_mean(&near)?;
    let message = format!("`{word}` is not a word that can stand here");
    Some(Fault { code: codes::SYNTAX, start, end: before.len(), message, help: Some(help) })
}

/// A word of the language where a name of the author's own should stand.
fn reserved(piece: &str, broken: usize, at: usize, end: usize, word: &str, expected: &Expected) -> Option<Fault> {
    if !words::is_reserved(word) || end - at != word.len() || joins(word, expected) || !expected.name || expected.words.contains(word) {
        return None;
    }
    let same_line = piece.get(line_start(piece, at)..at).is_some_and(|before| !before.trim().is_empty());
    let next = first_word(piece.get(blank_end(piece, end)..).unwrap_or_default());
    let begins_answer = words::ANSWERS.contains(&next);
    let own_words = expected.parts.contains("a term") || expected.parts.contains("a name");
    let begins_term = broken == at && own_words && !expected.words.contains("summary");
    if !(same_line || begins_answer || begins_term) || words::begins_item(word) && !same_line {
        return None;
    }
    Some(Fault {
        code: codes::RESERVED,
        start: at,
        end,
        message: format!("`{word}` is a word of the language and cannot be a name"),
        help: Some(format!("choose another name; these words are taken: {}", words::RESERVED.join(", "))),
    })
}

/// Help that does not depend on what was expected.
fn plain_help(written: &str, expected: &Expected) -> Option<String> {
    let lower = written.to_ascii_lowercase().replace('_', "-");
    let letters = written.bytes().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_'));
    if letters && expected.parts.contains("a code in capitals") {
        return Some(format!("codes are written in capitals: `{}`", written.to_ascii_uppercase()));
    }
    if letters && lower != written && !written.starts_with(|letter: char| letter.is_ascii_digit()) {
        if expected.parts.contains("a text in double quotes") {
            return Some("texts stand in double quotes".to_owned());
        }
        if expected.name {
            return Some(format!("names are lower case with hyphens: `{lower}`"));
        }
    }
    if written == "(" && expected.words.contains("with") {
        return Some("write `with` before the parenthesis, such as `any run with (material is csst)`".to_owned());
    }
    if expected.comma && written.starts_with(|letter: char| letter.is_ascii_lowercase()) {
        return Some("the parts of a list stand apart by commas; `and` and `or` join conditions".to_owned());
    }
    if expected.parts.contains(DATE) && written.starts_with(|letter: char| letter.is_ascii_digit()) {
        return Some("a date is written year, month, day, such as `2024-07-01`".to_owned());
    }
    if expected.name && letters && written.starts_with(|letter: char| letter.is_ascii_digit()) && written.contains('-') {
        return Some("a name begins with a letter".to_owned());
    }
    Some(match written.chars().next()? {
        '\'' => "texts stand in double quotes".to_owned(),
        '%' => "write `percent`, with a blank before it".to_owned(),
        '$' => "write the amount and then `dollars`, such as `1000 dollars`".to_owned(),
        '=' => "write `is`, `at least` or `at most`".to_owned(),
        '<' => "write `under` or `at most`".to_owned(),
        '>' => "write `over` or `at least`".to_owned(),
        ';' | ':' => "no such sign is needed: a line ends where the next word begins".to_owned(),
        '/' => "a comment begins with `#`".to_owned(),
        '0'..='9' if written.contains('/') => "write a figure with a fraction as one, such as `1.5 inch`".to_owned(),
        _ => {
            let figure = written.find(|letter: char| !letter.is_ascii_digit() && letter != '.')?;
            let (number, unit) = written.split_at_checked(figure)?;
            if number.is_empty() || !unit.bytes().all(|byte| byte.is_ascii_alphabetic()) {
                return None;
            }
            format!("put a blank between figure and unit: `{number} {unit}`")
        }
    })
}

/// What could have stood at `at`, if the grammar comes that far.
fn expected_at(piece: &str, at: usize, kind: Kind) -> Option<Expected> {
    let mut probed = piece.get(..at)?.to_owned();
    probed.push(' ');
    probed.push(PROBE);
    let (reached, expected) = attempt(&probed, kind);
    (reached == at + 1).then_some(expected)
}

/// Reads a piece with everything that is tried kept: how far it came, and what
/// was tried there.
fn attempt(piece: &str, kind: Kind) -> (usize, Expected) {
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
            Rule::expect_state | Rule::expect_demand => "a question and what is expected of it",
            Rule::layer => "a code or `instructions`",
            _ => return,
        };
        self.parts.insert(part);
    }

    /// All that was expected, when it is no more than `most`.
    fn in_words(&self, most: usize) -> Option<String> {
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
}

fn in_run(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.' | b'/')
}

fn run_length(rest: &str) -> usize {
    rest.bytes().take_while(|byte| in_run(*byte)).count()
}

/// The beginning of the word in whose middle a place lies.
fn word_start(piece: &str, at: usize) -> usize {
    let bytes = piece.as_bytes();
    if !bytes.get(at).is_some_and(|byte| in_run(*byte)) {
        return at;
    }
    let mut start = at;
    while start > 0 && bytes.get(start - 1).is_some_and(|byte| in_run(*byte)) {
        start -= 1;
    }
    start
}
