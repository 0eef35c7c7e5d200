//! Reading on behind an error. The file is read item by item, as the grammar has
//! it. Where it does not fit, the piece from that item to the next line that
//! begins at the margin with an item's word is looked at on its own: its bad
//! clauses are reported and left out one by one, and the rest of it is kept.

use super::Kind;
use super::build::{Builder, offset};
use super::codes;
use super::diagnostic::{Diagnostic, FileId, Location};
use super::errors;
use super::grammar::{Grammar, Rule};
use super::limits;
use super::lines::{blank_end, first_word, indent, line_end, line_start, next_item};
use super::tree::{Item, Knowingly, Span, Text};
use super::words;
use pest::Parser;

/// How many bad clauses are left out of one piece before the rest of it is dropped.
const CLAUSES_LEFT_OUT: usize = 32;
/// From pieces longer than this fewer clauses are left out.
const LONG_PIECE: usize = 16 * 1024;
/// Pieces longer than this are read twice at most.
const HUGE_PIECE: usize = 256 * 1024;

/// Reads the items of a file that was looked through, and says what is wrong.
pub(super) fn read(
    file: FileId,
    text: &str,
    kind: Kind,
    comments: &[Text],
    before: &[Diagnostic],
) -> (Vec<Item>, Vec<Knowingly>, Vec<Diagnostic>) {
    let mut reader = Reader {
        file,
        text,
        kind,
        comments,
        before,
        items: Vec::new(),
        knowingly: Vec::new(),
        found: Vec::new(),
        builder: Builder::new(file, comments),
    };
    match kind {
        Kind::Rules => reader.rules(),
        Kind::Job => reader.job(),
    }
    (reader.items, reader.knowingly, reader.found)
}

struct Reader<'a> {
    file: FileId,
    text: &'a str,
    kind: Kind,
    comments: &'a [Text],
    /// What the first look found: errors of syntax beside it are its consequences.
    before: &'a [Diagnostic],
    items: Vec<Item>,
    knowingly: Vec<Knowingly>,
    found: Vec<Diagnostic>,
    builder: Builder<'a>,
}

impl<'a> Reader<'a> {
    fn rules(&mut self) {
        let mut at = blank_end(self.text, 0);
        let mut previous: Option<Previous> = None;
        while at < self.text.len() && self.found.len() < limits::SHOWN {
            let rest = self.text.get(at..).unwrap_or_default();
            if let Ok(mut pairs) = Grammar::parse(Rule::item, rest)
                && let Some(pair) = pairs.next()
            {
                let mark = Previous {
                    start: at,
                    items: self.items.len(),
                    knowingly: self.knowingly.len(),
                    found: self.found.len(),
                };
                let end = at + pair.as_span().end();
                self.builder.turn_to(rest, at);
                self.items.extend(self.builder.item(pair));
                self.knowingly.extend(self.builder.take_knowingly());
                self.found.extend(self.builder.take_found());
                previous = Some(mark);
                at = end;
                continue;
            }
            // What stands here begins no item. Does it belong to the item before it?
            let mut from = at;
            if !words::begins_item(first_word(rest))
                && let Some(previous) = &previous
            {
                from = previous.start;
                self.items.truncate(previous.items);
                self.knowingly.truncate(previous.knowingly);
                self.found.truncate(previous.found);
            }
            let until = next_item(self.text, at);
            self.mend(from, until);
            previous = None;
            at = blank_end(self.text, until);
        }
    }

    fn job(&mut self) {
        let text = self.text;
        match Grammar::parse(Rule::job_sheet, text) {
            Ok(mut pairs) => {
                if let Some(pair) = pairs.next() {
                    self.builder.turn_to(text, 0);
                    self.items.extend(self.builder.item(pair));
                    self.found.extend(self.builder.take_found());
                }
            }
            Err(_) => self.mend(0, text.len()),
        }
    }

    /// Reads a piece that does not fit the grammar, without its bad clauses.
    fn mend(&mut self, from: usize, until: usize) {
        let Some(original) = self.text.get(from..until) else { return };
        let mut piece = original.to_owned();
        let tries = match piece.len() {
            HUGE_PIECE.. => 1,
            LONG_PIECE.. => CLAUSES_LEFT_OUT / 4,
            _ => CLAUSES_LEFT_OUT,
        };
        let whole = match self.kind {
            Kind::Rules => Rule::rules,
            Kind::Job => Rule::job_sheet,
        };
        for _ in 0..tries {
            if Grammar::parse(whole, &piece).is_ok() {
                break;
            }
            let broken = good_end(&piece, self.kind);
            let fault = errors::fault(&piece, broken, self.kind);
            let bad = bad_clause(&piece, broken, fault.start);
            let first_of_piece = blank_end(&piece, 0) >= bad.0;
            self.report(from, fault);
            if first_of_piece || self.found.len() >= limits::SHOWN {
                break;
            }
            piece = without(&piece, bad);
        }
        self.keep(&piece, from);
    }

    fn report(&mut self, from: usize, fault: errors::Fault) {
        let span = Span { start: offset(from + fault.start), end: offset(from + fault.end) };
        // What the first look found on this line or the one before has led to this.
        let near = |one: &Diagnostic| {
            let (first, last) = (one.at.span.start.min(span.start), one.at.span.start.max(span.start));
            let between = self.text.as_bytes().get(first as usize..last as usize).unwrap_or_default();
            one.at.span.start <= span.end
                && between.len() < 2 * limits::TEXT.most
                && between.iter().filter(|byte| **byte == b'\n').count() < 2
        };
        if self.before.iter().any(near) {
            return;
        }
        let mut diagnostic = Diagnostic::new(fault.code, Location { file: self.file, span }, fault.message);
        diagnostic.help = fault.help;
        self.found.push(diagnostic);
    }

    /// Keeps what can be read of a piece. What it lacks may stand in what was left out.
    fn keep(&mut self, piece: &str, from: usize) {
        let mut builder = Builder::new(self.file, self.comments);
        let mut at = blank_end(piece, 0);
        let rule = if self.kind == Kind::Job { Rule::sheet } else { Rule::item };
        while let Ok(mut pairs) = Grammar::parse(rule, piece.get(at..).unwrap_or_default()) {
            let Some(pair) = pairs.next() else { break };
            let end = pair.as_span().end();
            builder.turn_to(piece.get(at..).unwrap_or_default(), from + at);
            self.items.extend(builder.item(pair));
            at += end;
            if end == 0 || self.kind == Kind::Job {
                break;
            }
        }
        self.knowingly.extend(builder.take_knowingly());
        self.found.extend(builder.take_found().into_iter().filter(|one| one.code != codes::MISSING_LINE));
    }
}

/// Up to where a piece follows the grammar: where its broken clause begins.
pub(super) fn good_end(piece: &str, kind: Kind) -> usize {
    let mut at = blank_end(piece, 0);
    let rule = if kind == Kind::Job { Rule::sheet } else { Rule::item };
    while let Ok(mut pairs) = Grammar::parse(rule, piece.get(at..).unwrap_or_default()) {
        match pairs.next().map(|pair| pair.as_span().end()) {
            Some(length) if length > 0 => at += length,
            _ => break,
        }
        if kind == Kind::Job {
            break;
        }
    }
    at
}

/// Where an item that was read begins, and what was there before it.
struct Previous {
    start: usize,
    items: usize,
    knowingly: usize,
    found: usize,
}

/// From where to where the clause goes that begins at `broken` and fails at `fault`.
///
/// Indentation does not count in the language; here it tells what the author
/// meant to belong to the bad clause.
fn bad_clause(piece: &str, broken: usize, fault: usize) -> (usize, usize) {
    let line = line_start(piece, broken);
    let fault_line = line_start(piece, fault);
    let first_on_its_line = fault_line + indent(piece, fault_line) == fault;
    if line < fault_line && first_on_its_line {
        // Something is missing at the end of a line; the next line is none of it.
        return (broken, fault_line);
    }
    let mut end = line_end(piece, fault.max(broken));
    let begins_line = line + indent(piece, line) == broken;
    while begins_line && end < piece.len() {
        let next = end + 1;
        let rest = piece.get(next..line_end(piece, next)).unwrap_or_default();
        if !rest.trim().is_empty() && indent(piece, next) <= indent(piece, line) {
            break;
        }
        end = line_end(piece, next);
    }
    (broken, end)
}

/// The same text with blanks from `start` to `end`.
fn without(piece: &str, (start, end): (usize, usize)) -> String {
    let mut bytes = piece.as_bytes().to_vec();
    if let Some(bad) = bytes.get_mut(start..end.max(start + 1)) {
        for byte in bad {
            if *byte != b'\n' {
                *byte = b' ';
            }
        }
    }
    String::from_utf8(bytes).unwrap_or_default()
}
