//! The talk on a terminal, or with a script: lines in, lines out, nothing else.
//!
//! On a terminal everything goes to standard output. Where standard output leads
//! elsewhere it holds the verdict and the sheet alone, and the talk goes to
//! standard error.

use super::super::screen;
use crate::report::look::Look;
use crate::report::speech::Reader;
use crate::report::walk::Voice;
use crate::syntax::limits::FILE;
use std::io::{BufRead, IsTerminal, Read};

/// Where questions go and answers come from.
pub(crate) struct Console {
    voice: Voice,
    /// Whether the talk goes to standard output.
    out: bool,
    /// Whether answers have to be shown, because no terminal shows them.
    echo: bool,
}

impl Console {
    pub(super) fn new(reader: Reader) -> Console {
        let out = std::io::stdout().is_terminal();
        let look = if out { screen::look() } else { Look { color: false, ..screen::look() } };
        Console { voice: Voice { reader, look }, out, echo: !std::io::stdin().is_terminal() }
    }

    pub(super) fn voice(&self) -> Voice {
        self.voice
    }

    /// Whether what is printed goes where the talk goes.
    pub(super) fn shows_sheets(&self) -> bool {
        self.out
    }

    /// Says something of the talk.
    pub(super) fn tell(&self, text: &str) {
        if self.out { screen::print(text) } else { screen::complain(text) }
    }

    /// Says a sentence.
    pub(super) fn line(&self, text: &str) {
        self.tell(&self.voice.line(text, crate::report::look::Tone::Plain));
    }

    /// The next line; nothing where the input has ended or cannot be read.
    pub(super) fn answer(&self) -> Option<String> {
        self.tell("> ");
        let mut bytes = Vec::new();
        let read = std::io::stdin().lock().take(FILE.most as u64).read_until(b'\n', &mut bytes);
        if !matches!(read, Ok(1..)) {
            self.tell("\n");
            return None;
        }
        let text = String::from_utf8_lossy(&bytes);
        let text = text.trim_start_matches('\u{feff}').trim_end_matches(['\n', '\r']).to_owned();
        if self.echo {
            self.tell(&format!("{}\n", crate::report::visible::line(&text)));
        }
        Some(text)
    }
}
