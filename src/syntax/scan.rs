//! The first look at a file, before the grammar: letter by letter, without
//! recursion. It keeps the comments, holds the limits, and finds what no editor
//! shows: control characters, look-alike letters, texts that are not closed.
//!
//! Where the file can still be read, it hands on a mended copy of the same
//! length, so that one such letter does not hide the errors behind it.

use super::build::offset;
use super::codes;
use super::diagnostic::{Diagnostic, FileId, Location};
use super::limits;
use super::tree::{Span, Text};

mod foreign;
mod letters;
mod texts;

/// What the first look finds.
pub(super) struct Scan {
    /// Every comment, without the white space at its end.
    pub(super) comments: Vec<Text>,
    pub(super) found: Vec<Diagnostic>,
    /// The text with the letters that were reported made harmless.
    pub(super) mended: Option<String>,
    /// A limit is passed, or too much is wrong: the file is not read further.
    pub(super) refused: bool,
}

/// What is told of a letter in a name that looks like a plain one and is none.
pub(super) fn look_alike(name: &str) -> Option<String> {
    letters::in_words(name)
}

/// Looks through a whole file.
pub(super) fn scan(file: FileId, text: &str) -> Scan {
    let mut scanner = Scanner {
        file,
        text,
        bytes: text.as_bytes(),
        at: 0,
        comments: Vec::new(),
        found: Vec::new(),
        mended: None,
        open: Vec::new(),
        depth: 0,
        nots: 0,
        refused: false,
    };
    // A byte order mark at the very beginning is what some editors write.
    if text.starts_with('\u{feff}') {
        scanner.mend(0, 3, b"   ");
        scanner.at = 3;
    }
    scanner.run();
    Scan {
        comments: scanner.comments,
        found: scanner.found,
        mended: scanner.mended.and_then(|bytes| String::from_utf8(bytes).ok()),
        refused: scanner.refused,
    }
}

struct Scanner<'a> {
    file: FileId,
    text: &'a str,
    bytes: &'a [u8],
    at: usize,
    comments: Vec<Text>,
    found: Vec<Diagnostic>,
    mended: Option<Vec<u8>>,
    /// How many levels each open parenthesis or brace counts, `not` included.
    open: Vec<usize>,
    depth: usize,
    nots: usize,
    refused: bool,
}

impl Scanner<'_> {
    fn run(&mut self) {
        while let Some(&byte) = self.bytes.get(self.at) {
            match byte {
                b' ' | b'\n' | b'\t' => self.at += 1,
                b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' => self.word(),
                b'#' => self.comment(),
                b'"' => self.quoted("\""),
                b'(' | b'{' => self.opens(),
                b')' | b'}' => self.closes(),
                b'\r' if self.bytes.get(self.at + 1) == Some(&b'\n') => self.at += 1,
                0..=31 | 127 => self.control(),
                128.. => self.foreign(),
                b',' => self.comma(),
                _ => {
                    self.nots = 0;
                    self.at += 1;
                }
            }
            if self.refused {
                return;
            }
        }
    }

    /// `1,000` would be read as two figures.
    fn comma(&mut self) {
        let before = self.at.checked_sub(1).and_then(|at| self.bytes.get(at));
        let behind = self.bytes.get(self.at + 1..).unwrap_or_default();
        let digits = behind.iter().take_while(|byte| byte.is_ascii_digit()).count();
        if digits == 3 && before.is_some_and(u8::is_ascii_digit) {
            let message = "a comma stands between digits".to_owned();
            let help = "write a figure without commas, such as `1000`; put a blank behind the comma of a list";
            self.report(codes::SYNTAX, self.at, self.at + 1, message, help);
        }
        self.nots = 0;
        self.at += 1;
    }

    fn word(&mut self) {
        let start = self.at;
        let rest = self.bytes.get(start..).unwrap_or_default();
        let length = rest.iter().take_while(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_')).count();
        self.at += length;
        let word = rest.get(..length).unwrap_or_default();
        if length > limits::NAME.most && !word.iter().all(u8::is_ascii_digit) {
            return self.refuse(&limits::NAME, start, start + length);
        }
        if word.iter().all(u8::is_ascii_digit) {
            let behind = rest.get(length..).unwrap_or_default();
            let digits = length + decimals(behind);
            if digits > limits::NUMBER.most {
                return self.refuse(&limits::NUMBER, start, start + length);
            }
        }
        if word == b"not" {
            self.nots += 1;
            self.check_depth(start);
        } else {
            self.nots = 0;
        }
    }

    fn opens(&mut self) {
        let levels = 1 + self.nots;
        self.nots = 0;
        self.depth += levels;
        self.open.push(levels);
        self.check_depth(self.at);
        self.at += 1;
    }

    fn closes(&mut self) {
        self.nots = 0;
        self.depth -= self.open.pop().unwrap_or(0);
        self.at += 1;
    }

    fn check_depth(&mut self, at: usize) {
        if self.depth + self.nots > limits::NESTING.most {
            self.refuse(&limits::NESTING, at, at + 1);
        }
    }

    /// A comment runs to the end of its line.
    fn comment(&mut self) {
        let start = self.at;
        while let Some(&byte) = self.bytes.get(self.at) {
            match byte {
                b'\n' => break,
                b'\t' | 32..=126 => self.at += 1,
                b'\r' if self.bytes.get(self.at + 1) == Some(&b'\n') => self.at += 1,
                0..=31 | 127 => self.control(),
                128.. => self.inside(),
            }
            if self.refused {
                return;
            }
        }
        let text = self.text.get(start..self.at).unwrap_or_default().trim_end();
        let span = Span { start: offset(start), end: offset(start + text.len()) };
        self.comments.push(Text { text: text.into(), span });
    }

    fn blank(&mut self, width: usize) {
        let blanks = vec![b' '; width];
        self.mend(self.at, width, &blanks);
    }

    fn mend(&mut self, at: usize, width: usize, with: &[u8]) {
        let copy = self.mended.get_or_insert_with(|| self.bytes.to_vec());
        if let Some(old) = copy.get_mut(at..at + width)
            && old.len() == with.len()
        {
            old.copy_from_slice(with);
        }
    }

    fn report(&mut self, code: codes::Code, start: usize, end: usize, message: String, help: &str) {
        let at = Location { file: self.file, span: Span { start: offset(start), end: offset(end) } };
        self.found.push(Diagnostic::new(code, at, message).help(help));
        if self.found.len() >= limits::SHOWN {
            self.refused = true;
        }
    }

    fn refuse(&mut self, limit: &limits::Limit, start: usize, end: usize) {
        let at = Location { file: self.file, span: Span { start: offset(start), end: offset(end) } };
        self.found.push(limit.passed(at));
        self.refused = true;
    }
}

/// How many digits stand behind the point of a figure. A run with several points
/// is the number of a section.
fn decimals(behind: &[u8]) -> usize {
    let Some((b'.', rest)) = behind.split_first() else { return 0 };
    let digits = rest.iter().take_while(|byte| byte.is_ascii_digit()).count();
    match rest.get(digits) {
        Some(byte) if byte.is_ascii_alphanumeric() || matches!(byte, b'.' | b'-' | b'/' | b'(') => 0,
        _ => digits,
    }
}
