//! The text of a document: places as the protocol counts them, by lines and UTF-16
//! units, and as the reader of rule files counts them, by bytes.

use crate::syntax::tree::Span;
use lsp_types::{Position, Range, TextDocumentContentChangeEvent};

/// A text and where its lines begin.
#[derive(Clone, Debug, Default)]
pub(super) struct Document {
    text: String,
    lines: Vec<usize>,
}

impl Document {
    /// A document with this text.
    pub(super) fn new(text: String) -> Document {
        let lines = line_starts(&text);
        Document { text, lines }
    }

    /// The text.
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    /// The part of the text in a span; nothing where the span is not of this text.
    pub(super) fn part(&self, span: Span) -> Option<&str> {
        self.text.get(span.start as usize..span.end as usize)
    }

    /// The byte at a place. A place behind the end of a line is that end, one
    /// behind the last line the end of the text, one inside a letter its beginning.
    pub(super) fn offset(&self, place: Position) -> usize {
        let Some(&start) = self.lines.get(place.line as usize) else { return self.text.len() };
        let end = self.line_end(place.line as usize);
        let line = self.text.get(start..end).unwrap_or_default();
        let mut units = 0;
        for (at, letter) in line.char_indices() {
            units += letter.len_utf16() as u32;
            if units > place.character {
                return start + at;
            }
        }
        end
    }

    /// The place of a byte; one behind the end is the end.
    pub(super) fn position(&self, offset: usize) -> Position {
        let mut offset = offset.min(self.text.len());
        while !self.text.is_char_boundary(offset) {
            offset -= 1;
        }
        let line = self.lines.partition_point(|start| *start <= offset).saturating_sub(1);
        let start = self.lines.get(line).copied().unwrap_or(0);
        let before = self.text.get(start..offset).unwrap_or_default();
        let character = before.chars().map(char::len_utf16).sum::<usize>();
        Position { line: line as u32, character: character as u32 }
    }

    /// The range of a span.
    pub(super) fn range(&self, span: Span) -> Range {
        Range { start: self.position(span.start as usize), end: self.position(span.end as usize) }
    }

    /// The range of the whole text.
    pub(super) fn whole(&self) -> Range {
        Range { start: Position::default(), end: self.position(self.text.len()) }
    }

    /// Carries out a change that an editor tells.
    pub(super) fn change(&mut self, change: TextDocumentContentChangeEvent) {
        match change.range {
            None => *self = Document::new(change.text),
            Some(range) => {
                let (one, other) = (self.offset(range.start), self.offset(range.end));
                self.text.replace_range(one.min(other)..one.max(other), &change.text);
                self.lines = line_starts(&self.text);
            }
        }
    }

    /// The end of a line, without what parts it from the next.
    fn line_end(&self, line: usize) -> usize {
        let start = self.lines.get(line).copied().unwrap_or(0);
        let next = self.lines.get(line + 1).copied().unwrap_or(self.text.len());
        let whole = self.text.get(start..next).unwrap_or_default();
        let bare = whole.strip_suffix("\r\n").or_else(|| whole.strip_suffix(['\n', '\r'])).unwrap_or(whole);
        start + bare.len()
    }
}

/// Lines end with a line feed, a carriage return, or both.
fn line_starts(text: &str) -> Vec<usize> {
    let bytes = text.as_bytes();
    let mut starts = vec![0];
    for (at, byte) in bytes.iter().enumerate() {
        let ends = match byte {
            b'\n' => true,
            b'\r' => bytes.get(at + 1) != Some(&b'\n'),
            _ => false,
        };
        if ends {
            starts.push(at + 1);
        }
    }
    starts
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn at(line: u32, character: u32) -> Position {
        Position { line, character }
    }

    fn changed(text: &str, from: Position, to: Position, new: &str) -> String {
        let mut document = Document::new(text.to_owned());
        let range = Some(Range { start: from, end: to });
        document.change(TextDocumentContentChangeEvent { range, range_length: None, text: new.to_owned() });
        document.text
    }

    #[test]
    fn letters_count_as_the_protocol_counts_them() {
        let document = Document::new("aé\u{1f525}b\r\nc\rd\n".to_owned());
        for (place, offset) in [
            (at(0, 0), 0),
            (at(0, 1), 1),
            (at(0, 2), 3),
            (at(0, 4), 7),
            (at(0, 5), 8),
            (at(1, 0), 10),
            (at(2, 1), 13),
            (at(3, 0), 14),
        ] {
            assert_eq!(document.offset(place), offset, "{place:?}");
            assert_eq!(document.position(offset), place, "{offset}");
        }
        assert_eq!(document.offset(at(0, 3)), 3, "inside a letter");
        assert_eq!(document.offset(at(0, 99)), 8, "behind the end of a line");
        assert_eq!(document.offset(at(99, 0)), 14, "behind the last line");
        assert_eq!(document.position(2), at(0, 1), "inside a letter");
        assert_eq!(document.position(99), at(3, 0));
    }

    #[test]
    fn changes_are_carried_out() {
        assert_eq!(changed("one\ntwo\n", at(0, 1), at(1, 1), "X\nY"), "oX\nYwo\n");
        assert_eq!(changed("\u{1f525}x", at(0, 2), at(0, 2), "é"), "\u{1f525}éx");
        assert_eq!(changed("abc", at(0, 2), at(0, 1), ""), "ac", "a range the wrong way round");
        assert_eq!(changed("abc", at(7, 7), at(9, 9), "!"), "abc!");
    }

    proptest! {
        #[test]
        fn no_change_breaks_a_document(text in "[a\u{e9}\u{1f525}\r\n]{0,20}", from in (0u32..6, 0u32..9), to in (0u32..6, 0u32..9), new in "[b\u{e9}\n\r]{0,4}") {
            let document = Document::new(changed(&text, at(from.0, from.1), at(to.0, to.1), &new));
            prop_assert_eq!(&document.lines, &line_starts(&document.text));
            for (offset, _) in document.text.char_indices() {
                let place = document.position(offset);
                let parts_a_line = document.text.get(..offset).is_some_and(|before| before.ends_with('\r')) && document.text.get(offset..).is_some_and(|rest| rest.starts_with('\n'));
                if !parts_a_line {
                    prop_assert_eq!(document.offset(place), offset);
                }
            }
        }
    }
}
