//! A file with other blanks, tabs and line breaks. What counts stays: a figure is
//! on the line of its unit and a job's fact on that of its value, comments end their lines and stand on lines of their
//! own or not, and blank lines part what they parted.

use crate::syntax::Kind;
use crate::syntax::grammar::{Grammar, Rule};
use crate::syntax::layout::marks::marks;
use crate::syntax::layout::tokens::Tokens;
use pest::Parser;

/// Numbers in an order that looks like none.
pub(super) struct Dice(u64);

impl Dice {
    pub(super) fn new(seed: u64) -> Dice {
        Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    pub(super) fn below(&mut self, most: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % most
    }

    fn blanks(&mut self, least: u64) -> String {
        (0..least + self.below(5)).map(|_| if self.below(4) == 0 { '\t' } else { ' ' }).collect()
    }

    fn breaks(&mut self, least: u64, more: u64) -> String {
        let mut text: String =
            (0..least + self.below(more)).map(|_| if self.below(3) == 0 { " \n" } else { "\n" }).collect();
        text.push_str(&self.blanks(0));
        text
    }
}

/// The same file, scrambled.
pub(super) fn scrambled(text: &str, kind: Kind, seed: u64) -> String {
    let mut dice = Dice::new(seed);
    let tokens = Tokens::of(text);
    let rule = if kind == Kind::Job { Rule::job_sheet } else { Rule::rules };
    let read = Grammar::parse(rule, text).unwrap();
    let mut glued = vec![false; tokens.list.len()];
    let mut parted = glued.clone();
    for figure in read.clone().flatten().filter(|pair| pair.as_rule() == Rule::figure) {
        // The word behind a figure is its unit, or must not become it.
        let next = tokens.at(figure.as_span().start()) + 1;
        if next < glued.len() {
            glued[next] = tokens.list[next].start < figure.as_span().end();
            parted[next] = !glued[next] && tokens.list[next].text.starts_with(|letter: char| letter.is_alphabetic());
        }
    }
    // A value on the line below its fact may be a fact whose value was forgotten.
    for fact in read.clone().flatten().filter(|pair| matches!(pair.as_rule(), Rule::job_fact | Rule::job_entry)) {
        for value in fact.into_inner().filter(|part| part.as_rule() != Rule::name) {
            glued[tokens.at(value.as_span().start())] = value.as_rule() != Rule::path;
        }
    }
    let marks = marks(&tokens, read);
    let mut out = String::new();
    let mut comments = tokens.comments.iter().peekable();
    for (number, token) in tokens.list.iter().enumerate() {
        let own_line = marks[number].line.is_some();
        let mut after_comment = false;
        while let Some(comment) = comments.next_if(|comment| comment.before <= number) {
            if !comment.trails && !out.is_empty() {
                let goes_on = !own_line;
                let least = if comment.blank && !goes_on { 2 } else { 1 };
                let more = if least == 2 || goes_on { 3 } else { 1 };
                out.push_str(&dice.breaks(least, more));
            } else if comment.trails {
                out.push_str(&dice.blanks(1));
            }
            out.push_str(comment.text);
            after_comment = true;
        }
        let before = number.checked_sub(1).map_or("", |before| tokens.list[before].text);
        let close = matches!(before, "(" | "{") || matches!(token.text, ")" | "}" | ",");
        out.push_str(&match (own_line, token.blank, after_comment) {
            _ if out.is_empty() => dice.breaks(0, 3),
            (true, true, _) => dice.breaks(2, 3),
            (true, false, true) => dice.breaks(1, 1),
            (false, _, true) => dice.breaks(1, 3),
            _ if glued[number] => dice.blanks(1),
            _ if parted[number] => dice.breaks(1, 1),
            (true, false, false) if dice.below(2) == 0 => dice.breaks(1, 1),
            (false, _, false) if dice.below(4) == 0 => dice.breaks(1, 3),
            _ if close => dice.blanks(0),
            _ => dice.blanks(1),
        });
        out.push_str(token.text);
    }
    for comment in comments {
        let least = if comment.blank { 2 } else { 1 };
        out.push_str(&if comment.trails { dice.blanks(1) } else { dice.breaks(least, if least == 2 { 3 } else { 1 }) });
        out.push_str(comment.text);
    }
    out.push_str(&dice.breaks(0, 4));
    out
}
