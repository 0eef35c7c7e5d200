//! Warnings that the author has looked at.

use super::{Builder, Match};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Severity};
use crate::syntax::nearest::{did_you_mean, nearest};
use crate::syntax::tree::{Knowingly, Span, Text, Word};

impl<'a> Builder<'a> {
    /// `knowingly GR5105 "why"` in a block.
    pub(super) fn knowingly(&mut self, found: Match<'a>, within: Span) {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let Some(code) = inner.next().map(|word| self.word(&word)) else { return };
        let why = inner.next().map(|text| self.text(&text));
        if let Some((message, help)) = misnamed(&code) {
            self.report(code.span, message, help);
            return;
        }
        match why {
            Some(why) if !why.text.trim().is_empty() => self.knowingly.push(Knowingly { code, why, span, within }),
            without => {
                let at = without.map_or(span, |text: Text| text.span);
                let help = format!("write behind it why the warning stands, such as `knowingly {} \"…\"`", code.text);
                self.report(at, format!("no reason is given for passing `{}` over", code.text), help);
            }
        }
    }

    fn report(&mut self, at: Span, message: String, help: String) {
        let at = self.at(at);
        self.found.push(Diagnostic::new(codes::KNOWINGLY, at, message).help(help));
    }

    /// Every `knowingly` that was built since the last call.
    pub(in crate::syntax) fn take_knowingly(&mut self) -> Vec<Knowingly> {
        std::mem::take(&mut self.knowingly)
    }
}

/// What is wrong with a code that is that of no warning, and what would mend it.
fn misnamed(code: &Word) -> Option<(String, String)> {
    let written = &code.text;
    let known = codes::ALL.iter().find(|(code, _)| *code.to_string() == **written);
    match known {
        Some((known, _)) if known.severity() == Severity::Warning => None,
        Some((_, title)) => Some((
            format!("`{written}` is an error ({title}), and only a warning can be passed over"),
            "mend what it tells of, and take the line out".to_owned(),
        )),
        None => {
            let warnings: Vec<String> = codes::ALL
                .iter()
                .filter(|(code, _)| code.severity() == Severity::Warning)
                .map(|(code, _)| code.to_string())
                .collect();
            let near = nearest(written, warnings.iter().map(String::as_str));
            let help = did_you_mean(&near).unwrap_or_else(|| format!("the warnings are {}", warnings.join(", ")));
            Some((format!("no warning has the code `{written}`"), help))
        }
    }
}
