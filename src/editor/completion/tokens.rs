//! The words before a cursor, back to the beginning of their item: enough to know
//! what is being written where the item does not follow the grammar yet.

use crate::syntax::Kind;
use crate::syntax::item_start;

/// The words of an item before the cursor.
#[derive(Debug, Default)]
pub(super) struct Tokens<'t> {
    all: Vec<&'t str>,
    /// Where the word begins in whose middle or at whose end the cursor stands.
    pub(super) start: usize,
    /// The lists whose `with (` is open, the innermost last.
    open: Vec<Option<&'t str>>,
}

impl<'t> Tokens<'t> {
    /// The words before a place; nothing inside a text or a comment, where the
    /// language has nothing to say.
    pub(super) fn before(text: &'t str, at: usize, kind: Kind) -> Option<Tokens<'t>> {
        let from = item_start(text, at, kind);
        let piece = text.get(from..at)?;
        let mut tokens = Tokens { all: Vec::new(), start: at, open: Vec::new() };
        let bytes = piece.as_bytes();
        let mut here = 0;
        while let Some(byte) = bytes.get(here) {
            let length = match byte {
                b'#' => {
                    let line = piece.get(here..)?.find('\n')?;
                    here += line;
                    continue;
                }
                b'"' => text_length(bytes, here)?,
                b' ' | b'\t' | b'\r' | b'\n' => {
                    here += 1;
                    continue;
                }
                b if in_run(*b) => run_length(bytes, here),
                _ => piece.get(here..)?.chars().next()?.len_utf8(),
            };
            let token = piece.get(here..here + length)?;
            // A run that touches the cursor is what is being written.
            if here + length == piece.len() && token.bytes().next().is_some_and(in_run) {
                tokens.start = from + here;
                return Some(tokens);
            }
            tokens.push(token);
            here += length;
        }
        Some(tokens)
    }

    fn push(&mut self, token: &'t str) {
        match token {
            "(" => {
                let list = (self.back(0) == "with").then(|| self.back(1)).filter(|list| !list.is_empty());
                self.open.push(list);
            }
            ")" => {
                self.open.pop();
            }
            "{" => self.open.push(Some(self.back(0)).filter(|list| !list.is_empty())),
            "}" => {
                self.open.pop();
            }
            _ => {}
        }
        self.all.push(token);
    }

    /// The word so many places before the cursor, 0 the nearest; empty before the
    /// first.
    pub(super) fn back(&self, places: usize) -> &'t str {
        self.all.len().checked_sub(places + 1).and_then(|at| self.all.get(at)).copied().unwrap_or_default()
    }

    /// The word with which the item begins.
    pub(super) fn first(&self) -> &'t str {
        self.all.first().copied().unwrap_or_default()
    }

    /// The list of which an entry is being tested or written.
    pub(super) fn list(&self) -> Option<&'t str> {
        self.open.iter().rev().find_map(|list| *list)
    }

    /// Whether the cursor stands between braces.
    pub(super) fn in_entry(&self) -> bool {
        let count = |sign: &str| self.all.iter().filter(|token| **token == sign).count();
        count("{") > count("}")
    }

    /// The nearest of these words before the cursor, and how far back it stands.
    pub(super) fn nearest(&self, words: &[&str]) -> Option<(&'t str, usize)> {
        (0..self.all.len()).map(|back| (self.back(back), back)).find(|(word, _)| words.contains(word))
    }

    /// The first word behind one of these, anywhere in the item.
    pub(super) fn behind(&self, word: &str) -> Option<&'t str> {
        let at = self.all.iter().position(|token| *token == word)?;
        self.all.get(at + 1).copied()
    }

    /// How far back the word stands that begins the list of values, terms or names
    /// whose next part is being written: that of `is any of a, b, ` is `of`.
    pub(super) fn list_head(&self) -> usize {
        let mut back = 0;
        while self.back(back) == "," {
            // A figure has its unit, a part of a `for` list stands alone.
            let mut part = back + 1;
            if self.back(part + 1) != "," && is_figure(self.back(part + 1)) && !is_figure(self.back(part)) {
                part += 1;
            }
            back = part + 1;
        }
        back
    }
}

/// Whether a word begins as figures do.
pub(super) fn is_figure(word: &str) -> bool {
    word.bytes().next().is_some_and(|byte| byte.is_ascii_digit())
}

fn in_run(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.' | b'/')
}

/// The length of a run; a parenthesis belongs to one that begins with a figure or a
/// capital.
fn run_length(bytes: &[u8], from: usize) -> usize {
    let numbered = bytes.get(from).is_some_and(|byte| byte.is_ascii_digit() || byte.is_ascii_uppercase());
    let mut depth = 0usize;
    let mut at = from;
    while let Some(byte) = bytes.get(at) {
        match byte {
            b'(' if numbered && at > from => depth += 1,
            b')' if depth > 0 => depth -= 1,
            byte if in_run(*byte) => {}
            _ => break,
        }
        at += 1;
    }
    at - from
}

/// The length of a quoted text; nothing where it is not closed on its line.
fn text_length(bytes: &[u8], from: usize) -> Option<usize> {
    let mut at = from + 1;
    loop {
        match bytes.get(at)? {
            b'"' => return Some(at + 1 - from),
            b'\n' => return None,
            b'\\' => at += 2,
            _ => at += 1,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn before(text: &str) -> Option<Vec<&str>> {
        Tokens::before(text, text.len(), Kind::Rules).map(|tokens| tokens.all)
    }

    #[test]
    fn words_before_the_cursor() {
        let text = "choice a\ninstrument X-1 # of\n    section 250.104(B) \"(with\" where a.b is b,";
        let all = ["instrument", "X-1", "section", "250.104(B)", "\"(with\"", "where", "a.b", "is", "b", ","];
        assert_eq!(before(text).unwrap(), all);
        assert_eq!(
            before("place x\n    within tam").unwrap(),
            ["place", "x", "within"],
            "what is being written is no word yet"
        );
        assert_eq!(before("place x \"a text "), None);
        assert_eq!(before("place x # a comment"), None);
    }

    #[test]
    fn the_open_list_is_known() {
        let list = |text: &'static str| Tokens::before(text, text.len(), Kind::Rules).unwrap().list();
        assert_eq!(list("definition a any run with (material is csst and ("), Some("run"));
        assert_eq!(list("definition a any run with (material is csst) and "), None);
        assert_eq!(list("example \"x\" job run { material "), Some("run"));
    }

    #[test]
    fn the_head_of_a_list_is_found() {
        let head = |text: &'static str| {
            let tokens = Tokens::before(text, text.len(), Kind::Rules).unwrap();
            tokens.back(tokens.list_head())
        };
        assert_eq!(head("definition a x is any of b, c, "), "of");
        assert_eq!(head("definition a x is "), "is");
        assert_eq!(head("definition a x is any of 3 ft, 4 ft, "), "of");
    }
}
