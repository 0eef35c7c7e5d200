//! A sheet on which is drawn: text with an estimate of its width, bars and lines. Every text of
//! others is made harmless here.

use crate::report::markup::Sheet;
use crate::report::visible;
use std::fmt::Write;

/// Letters of the system's sans are at most so wide on average, in parts of their size.
const LETTER: f64 = 0.58;

/// Where a text stands, for telling whether two stand on each other.
#[derive(Clone, Debug)]
#[cfg_attr(not(test), expect(dead_code, reason = "read by the test that no text stands on another"))]
pub(super) struct Spot {
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) top: f64,
    pub(super) bottom: f64,
}

/// A drawing that is being written.
#[derive(Default)]
pub(super) struct Drawing {
    pub(super) out: String,
    pub(super) texts: Vec<Spot>,
}

/// From which side a text is set.
#[derive(Clone, Copy)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// How wide a text is, about.
pub(in crate::report) fn width(text: &str, size: f64) -> f64 {
    textwrap::core::display_width(text) as f64 * size * LETTER
}

/// A text of one line that is no tag and ends none.
pub(in crate::report) fn harmless(text: &str) -> String {
    let mut sheet = Sheet::default();
    sheet.text(&visible::line(text));
    sheet.0
}

impl Drawing {
    /// Tags.
    pub(super) fn raw(&mut self, tags: &str) {
        self.out.push_str(tags);
        self.out.push('\n');
    }

    /// An element with a text in it, which is not drawn.
    pub(super) fn told(&mut self, element: &str, text: &str) {
        // Writing to a text does not fail.
        let _written = writeln!(self.out, "<{element}>{}</{}>", harmless(text), tag(element));
    }

    /// A text; its foot at `y`.
    pub(super) fn text(&mut self, x: f64, y: f64, size: f64, anchor: Anchor, class: &str, text: &str) {
        let wide = width(text, size);
        let (word, left) = match anchor {
            Anchor::Start => ("start", x),
            Anchor::Middle => ("middle", x - wide / 2.0),
            Anchor::End => ("end", x - wide),
        };
        self.texts.push(Spot { left, right: left + wide, top: y - size * 0.8, bottom: y + size * 0.25 });
        let weight = if class == "lane" { " font-weight=\"bold\"" } else { "" };
        let fill = if class == "inside" { "#ffffff" } else { "#1a1a1a" };
        // A rim of paper keeps a line that crosses from touching the letters.
        let rim = if class == "inside" { "" } else { " stroke=\"#ffffff\" stroke-width=\"3\" paint-order=\"stroke\"" };
        let _written = writeln!(
            self.out,
            "<text class=\"{class}\" x=\"{x:.1}\" y=\"{y:.1}\" font-size=\"{size}\" text-anchor=\"{word}\" fill=\"{fill}\"{weight}{rim}>{}</text>",
            harmless(text)
        );
    }

    /// A box.
    pub(super) fn bar(&mut self, x: f64, y: f64, wide: f64, high: f64, class: &str, fill: &str) {
        let _written = writeln!(
            self.out,
            "<rect class=\"{class}\" x=\"{x:.1}\" y=\"{y:.1}\" width=\"{wide:.1}\" height=\"{high:.1}\" fill=\"{fill}\" stroke=\"#1a1a1a\" stroke-width=\"1\"/>"
        );
    }

    /// An upright line; `dashes` as in SVG, empty for none.
    pub(super) fn upright(&mut self, x: f64, top: f64, bottom: f64, class: &str, thick: f64, dashes: &str) {
        let dashes = if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dashes}\"") };
        let tone = if class == "year" { "#c8c8c8" } else { "#1a1a1a" };
        let _written = writeln!(
            self.out,
            "<line class=\"{class}\" x1=\"{x:.1}\" y1=\"{top:.1}\" x2=\"{x:.1}\" y2=\"{bottom:.1}\" stroke=\"{tone}\" stroke-width=\"{thick}\"{dashes}/>"
        );
    }
}

fn tag(element: &str) -> &str {
    element.split(' ').next().unwrap_or(element)
}

#[cfg(test)]
mod tests {
    use super::harmless;

    #[test]
    fn a_text_is_one_line_and_no_tag() {
        assert_eq!(harmless("</a> & 'b'\n\u{ffff}"), "&lt;/a&gt; &amp; &#39;b&#39;␊\u{fffd}");
    }
}
