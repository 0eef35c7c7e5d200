//! Texts in double quotes, closed on their line.

use super::{Scanner, limits};
use crate::syntax::codes;

impl Scanner<'_> {
    /// A text in quotes, closed on its line.
    pub(super) fn quoted(&mut self, close: &str) {
        let start = self.at;
        self.nots = 0;
        self.at += 1;
        while !self.text.is_char_boundary(self.at) {
            self.at += 1;
        }
        let content = self.at;
        let mut continued: usize = 0;
        loop {
            let Some(&byte) = self.bytes.get(self.at) else { return self.unfinished(start, content) };
            match byte {
                b'\n' => return self.unfinished(start, content),
                b'"' => break,
                b'\\' => match self.bytes.get(self.at + 1) {
                    Some(b'"' | b'\\') => {
                        self.at += 2;
                        continued += 1;
                    }
                    _ => {
                        self.report(
                            codes::SYNTAX,
                            self.at,
                            self.at + 1,
                            "a backslash stands in a text without `\"` or `\\` behind it".into(),
                            "write two backslashes for one",
                        );
                        self.mend(self.at, 1, b"/");
                        self.at += 1;
                    }
                },
                b'\t' | 32..=126 => self.at += 1,
                b'\r' if self.bytes.get(self.at + 1) == Some(&b'\n') => self.at += 1,
                0..=31 | 127 => self.control(),
                128..=191 => self.at += 1,
                192.. => {
                    if close != "\"" && self.text.get(self.at..).is_some_and(|rest| rest.starts_with(close)) {
                        break;
                    }
                    self.inside();
                }
            }
            if self.refused {
                return;
            }
        }
        let end = self.at;
        let length = end - content - continued;
        if length > limits::TEXT.most {
            let characters = self.text.get(content..end).unwrap_or_default().chars().count();
            if characters - continued > limits::TEXT.most {
                return self.refuse(&limits::TEXT, start, end);
            }
        }
        self.at += 1;
        while !self.text.is_char_boundary(self.at) {
            self.at += 1;
        }
        if close != "\"" {
            let width = self.at - end;
            self.mend(start, content - start, if content - start == 2 { b"\" " } else { b"\"  " });
            self.mend(
                end,
                width,
                match width {
                    1 => b"\"",
                    2 => b" \"",
                    _ => b"  \"",
                },
            );
        }
    }

    fn unfinished(&mut self, start: usize, content: usize) {
        let line = self.text.get(start..self.at).unwrap_or_default().trim_end();
        let end = start + line.len();
        self.report(
            codes::UNFINISHED_TEXT,
            start,
            end,
            "a text is not closed on its line".into(),
            "put a double quote at its end; a text stands on one line",
        );
        let mut harmless = vec![b' '; end - start];
        if end > content {
            harmless.fill(b'.');
            for quote in [0, end - start - 1] {
                if let Some(byte) = harmless.get_mut(quote) {
                    *byte = b'"';
                }
            }
        }
        self.mend(start, harmless.len(), &harmless);
    }
}
