//! The words, texts and marks of a file that was read without an error, in
//! order, and its comments, each before the token that it stands before.

/// A word, number, text, comma, bracket or brace.
#[derive(Clone, Copy, Debug)]
pub(super) struct Token<'t> {
    pub(super) text: &'t str,
    /// Where it begins in the file.
    pub(super) start: usize,
    /// A blank line stands above it.
    pub(super) blank: bool,
}

/// A comment, from `#` on, without the white space at its end.
#[derive(Clone, Copy, Debug)]
pub(super) struct Comment<'t> {
    pub(super) text: &'t str,
    /// The number of the token that it stands before.
    pub(super) before: usize,
    /// It stands on the line of the token before it.
    pub(super) trails: bool,
    /// A blank line stands above it.
    pub(super) blank: bool,
}

/// A whole file.
#[derive(Debug, Default)]
pub(super) struct Tokens<'t> {
    pub(super) list: Vec<Token<'t>>,
    pub(super) comments: Vec<Comment<'t>>,
    /// A blank line stands behind the last of them.
    pub(super) blank_end: bool,
}

impl<'t> Tokens<'t> {
    /// Divides a text.
    pub(super) fn of(text: &'t str) -> Tokens<'t> {
        let mut tokens = Tokens::default();
        let bytes = text.as_bytes();
        let (mut at, mut breaks) = (0, 0);
        while let Some(&byte) = bytes.get(at) {
            let end = match byte {
                b'\n' => {
                    breaks += 1;
                    at += 1;
                    continue;
                }
                b' ' | b'\t' | b'\r' => {
                    at += 1;
                    continue;
                }
                b'#' => super::super::lines::line_end(text, at),
                b'"' => text_end(bytes, at),
                b',' | b'(' | b')' | b'{' | b'}' => at + 1,
                _ => run_end(bytes, at),
            };
            let found = text.get(at..end).unwrap_or_default();
            let (blank, before) = (breaks > 1, tokens.list.len());
            if byte == b'#' {
                let trails = breaks == 0 && before > 0;
                tokens.comments.push(Comment { text: found.trim_end(), before, trails, blank });
            } else {
                tokens.list.push(Token { text: found, start: at, blank });
            }
            breaks = 0;
            at = end.max(at + 1);
        }
        tokens.blank_end = breaks > 1;
        tokens
    }

    /// The number of the first token that begins at a place or behind it.
    pub(super) fn at(&self, start: usize) -> usize {
        self.list.partition_point(|token| token.start < start)
    }

    /// The text of a token.
    pub(super) fn text(&self, number: usize) -> &'t str {
        self.list.get(number).map_or("", |token| token.text)
    }

    /// Whether a comment stands before one of these tokens.
    pub(super) fn comment_within(&self, from: usize, until: usize) -> bool {
        let first = self.comments.partition_point(|comment| comment.before < from);
        self.comments.get(first).is_some_and(|comment| comment.before < until)
    }
}

/// The end of a text in double quotes.
fn text_end(bytes: &[u8], start: usize) -> usize {
    let mut at = start + 1;
    while let Some(&byte) = bytes.get(at) {
        match byte {
            b'"' => return at + 1,
            b'\\' => at += 2,
            _ => at += 1,
        }
    }
    bytes.len()
}

/// The end of a run of letters, digits and marks. The bracket of a number such as
/// `250.104(B)` belongs to it.
fn run_end(bytes: &[u8], start: usize) -> usize {
    let numbered = bytes.get(start).is_some_and(|byte| byte.is_ascii_digit() || byte.is_ascii_uppercase());
    let mut at = start;
    while let Some(&byte) = bytes.get(at) {
        match byte {
            b'(' if numbered => match bracket_end(bytes, at) {
                Some(end) => at = end,
                None => break,
            },
            b' ' | b'\t' | b'\r' | b'\n' | b'#' | b'"' | b',' | b'(' | b')' | b'{' | b'}' => break,
            _ => at += 1,
        }
    }
    at
}

/// The end of a bracket of a number, where it is one.
fn bracket_end(bytes: &[u8], start: usize) -> Option<usize> {
    let mut open = 0;
    for (at, &byte) in bytes.iter().enumerate().skip(start) {
        match byte {
            b'(' => open += 1,
            b')' if open == 1 => return (at > start + 1).then_some(at + 1),
            b')' => open -= 1,
            b'0'..=b'9' | b'.' | b'-' | b'a'..=b'z' | b'A'..=b'Z' | b'/' => {}
            _ => return None,
        }
    }
    None
}
