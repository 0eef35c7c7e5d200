//! Tags and texts of a page or a drawing: every text that is not the program's own goes
//! through [`Sheet::text`], and becomes no tag.

use super::visible;

/// A page or a drawing that is being written.
#[derive(Default)]
pub(crate) struct Sheet(pub(crate) String);

impl Sheet {
    /// Tags.
    pub(crate) fn raw(&mut self, tags: &str) -> &mut Sheet {
        self.0.push_str(tags);
        self
    }

    /// Text of others: nothing in it is a tag, ends one, or turns the line around.
    pub(crate) fn text(&mut self, text: &str) -> &mut Sheet {
        for letter in visible::lines(text).chars() {
            match letter {
                '&' => self.0.push_str("&amp;"),
                '<' => self.0.push_str("&lt;"),
                '>' => self.0.push_str("&gt;"),
                '"' => self.0.push_str("&quot;"),
                '\'' => self.0.push_str("&#39;"),
                // No document may hold these, however they are written.
                '\u{fffe}' | '\u{ffff}' => self.0.push('\u{fffd}'),
                other => self.0.push(other),
            }
        }
        self
    }

    /// A text between a tag and its end.
    pub(crate) fn element(&mut self, name: &str, text: &str) -> &mut Sheet {
        self.raw("<").raw(name).raw(">").text(text).raw("</").raw(name).raw(">\n")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_becomes_a_tag() {
        let mut sheet = Sheet::default();
        sheet.element("p", "</p><script>alert(1)</script> & \"quoted\" 'so' \u{202e}x\u{ffff}");
        assert_eq!(
            sheet.0,
            "<p>&lt;/p&gt;&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;quoted&quot; &#39;so&#39; \u{fffd}x\u{fffd}</p>\n"
        );
    }
}
