//! Control characters, and letters beyond ASCII.

use super::{Scanner, letters};
use crate::syntax::codes;

impl Scanner<'_> {
    /// A control character, where the scanner stands.
    pub(super) fn control(&mut self) {
        let byte = self.bytes.get(self.at).copied().unwrap_or_default();
        let name = match byte {
            0 => "NUL".to_owned(),
            b'\r' => "a carriage return without a line feed".to_owned(),
            other => format!("U+{other:04X}"),
        };
        self.report(
            codes::CONTROL_CHARACTER,
            self.at,
            self.at + 1,
            format!("a control character stands here: {name}"),
            "take it out; nothing but text and line ends belongs in the file",
        );
        self.mend(self.at, 1, b" ");
        self.at += 1;
    }

    /// A letter beyond ASCII inside a text or comment: only what turns or hides text is refused.
    pub(super) fn inside(&mut self) {
        let Some(letter) = self.text.get(self.at..).and_then(|rest| rest.chars().next()) else {
            self.at += 1;
            return;
        };
        let width = letter.len_utf8();
        if let Some(name) = letters::turns_text(letter) {
            self.turning(letter, name, width);
        } else if letter.is_control() || matches!(letter, '\u{2028}' | '\u{2029}') {
            self.report(
                codes::CONTROL_CHARACTER,
                self.at,
                self.at + width,
                format!("a control character stands here: U+{:04X}", u32::from(letter)),
                "take it out; nothing but text and line ends belongs in the file",
            );
            self.blank(width);
        }
        self.at += width;
    }

    /// A letter beyond ASCII outside texts and comments.
    pub(super) fn foreign(&mut self) {
        let Some(letter) = self.text.get(self.at..).and_then(|rest| rest.chars().next()) else {
            self.at += 1;
            return;
        };
        let width = letter.len_utf8();
        if let Some(name) = letters::turns_text(letter) {
            self.turning(letter, name, width);
        } else if letter.is_control() {
            self.inside();
            return;
        } else {
            let known = letters::look_alike(letter);
            let shown = format!("U+{:04X}", u32::from(letter));
            let (message, help) = match known {
                Some((name, None)) => (
                    format!("{name} ({shown}) stands here, which cannot be seen"),
                    "take it out, or type a plain blank".to_owned(),
                ),
                Some((name, Some(plain))) => (
                    format!("{name} ({shown}) stands here"),
                    format!("it looks like `{plain}` and is another letter: type `{plain}`"),
                ),
                None => (
                    format!("the letter `{letter}` ({shown}) stands outside a text"),
                    "names and words are written with the letters a to z".to_owned(),
                ),
            };
            self.report(codes::LOOK_ALIKE, self.at, self.at + width, message, &help);
            if matches!(letter, '“' | '”' | '„' | '«') {
                return self.quoted(if letter == '«' { "»" } else { "”" });
            }
            match known {
                Some((_, None)) => self.blank(width),
                _ => {
                    let filler = vec![b'x'; width];
                    self.mend(self.at, width, &filler);
                }
            }
        }
        self.nots = 0;
        self.at += width;
    }

    fn turning(&mut self, letter: char, name: &str, width: usize) {
        self.report(
            codes::BIDI_CONTROL,
            self.at,
            self.at + width,
            format!(
                "a character that turns the direction of writing stands here: {name} (U+{:04X})",
                u32::from(letter)
            ),
            "take it out; the file must read as it is shown",
        );
        self.blank(width);
    }
}
