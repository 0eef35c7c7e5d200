//! A page of text: how wide it is, whether it has color, and lines that fit it.
//!
//! Color repeats what the words say; nothing is told by it alone.

use super::visible;
use anstyle::{AnsiColor, Style};

/// How a page looks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Look {
    /// Columns.
    pub(crate) width: usize,
    pub(crate) color: bool,
}

/// What a stretch of text is, for its color.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tone {
    Plain,
    Strong,
    Quiet,
    Good,
    Bad,
    Doubt,
}

impl Tone {
    fn style(self) -> Style {
        match self {
            Tone::Plain => Style::new(),
            Tone::Strong => Style::new().bold(),
            Tone::Quiet => Style::new().dimmed(),
            Tone::Good => Style::new().bold().fg_color(Some(AnsiColor::Green.into())),
            Tone::Bad => Style::new().bold().fg_color(Some(AnsiColor::Red.into())),
            Tone::Doubt => Style::new().bold().fg_color(Some(AnsiColor::Yellow.into())),
        }
    }
}

/// A page that is being written.
#[derive(Debug)]
pub(crate) struct Page {
    look: Look,
    text: String,
}

impl Page {
    /// An empty page.
    pub(crate) fn new(look: Look) -> Page {
        Page { look, text: String::new() }
    }

    /// The page as it is printed.
    pub(crate) fn finish(self) -> String {
        self.text
    }

    /// An empty line, never two, and none at the head.
    pub(crate) fn blank(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    /// A paragraph whose lines all begin at a column.
    pub(crate) fn paragraph(&mut self, column: usize, text: &str, tone: Tone) {
        self.hanging("", Tone::Plain, column, column, text, tone);
    }

    /// A paragraph that begins with a label at the margin; its lines begin at a column.
    pub(crate) fn labeled(&mut self, label: &str, label_tone: Tone, column: usize, text: &str, tone: Tone) {
        self.hanging(label, label_tone, column, column, text, tone);
    }

    /// A paragraph whose first line begins at one column and whose others at another.
    pub(crate) fn hung(&mut self, first: usize, rest: usize, text: &str, tone: Tone) {
        self.hanging("", Tone::Plain, first, rest, text, tone);
    }

    /// Lines as they are, to be copied: nothing is folded, so that they may be wider
    /// than the page.
    pub(crate) fn verbatim(&mut self, text: &str) {
        for line in visible::lines(text).lines() {
            self.text.push_str(line);
            self.text.push('\n');
        }
    }

    /// One line as it is, laid out by whoever writes it.
    pub(crate) fn line(&mut self, text: &str, tone: Tone) {
        self.styled(text, tone);
        self.text.push('\n');
    }

    fn hanging(&mut self, label: &str, label_tone: Tone, first: usize, rest: usize, text: &str, tone: Tone) {
        let text = visible::line(text);
        let gap =
            " ".repeat(first.saturating_sub(textwrap::core::display_width(label)).max(usize::from(!label.is_empty())));
        let head = " ".repeat(first);
        let indent = " ".repeat(rest);
        let options = textwrap::Options::new(self.look.width)
            .initial_indent(&head)
            .subsequent_indent(&indent)
            .word_splitter(textwrap::WordSplitter::NoHyphenation);
        for (number, line) in textwrap::wrap(&text, options).iter().enumerate() {
            if number == 0 {
                self.styled(label, label_tone);
                self.text.push_str(if label.is_empty() { &head } else { &gap });
                self.styled(line.trim_start(), tone);
            } else {
                self.text.push_str(&indent);
                self.styled(line.trim_start(), tone);
            }
            self.text.truncate(self.text.trim_end_matches(' ').len());
            self.text.push('\n');
        }
    }

    fn styled(&mut self, text: &str, tone: Tone) {
        if !self.look.color || tone == Tone::Plain || text.is_empty() {
            self.text.push_str(text);
            return;
        }
        let style = tone.style();
        self.text.push_str(&format!("{style}{text}{style:#}"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_fit_the_page() {
        let mut page = Page::new(Look { width: 30, color: false });
        page.labeled("met", Tone::Good, 9, "Size of the bonding jumper: at least 6 AWG", Tone::Strong);
        assert_eq!(page.finish(), "met      Size of the bonding\n         jumper: at least 6\n         AWG\n");
    }

    #[test]
    fn color_never_carries_the_word() {
        let write = |color| {
            let mut page = Page::new(Look { width: 40, color });
            page.labeled("NOT MET", Tone::Bad, 9, "Length", Tone::Strong);
            page.finish()
        };
        assert_eq!(write(false), "NOT MET  Length\n");
        assert!(write(true).contains("\u{1b}[") && write(true).contains("NOT MET"));
    }
}
