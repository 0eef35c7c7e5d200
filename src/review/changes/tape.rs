//! The tape that a walk over an item runs along: at every place where something could be
//! changed the walk asks it, and it either writes the change down or lets it be made.

use super::Ladders;
use crate::syntax::tree::Span;

/// A clause that the walk is in.
#[derive(Clone, Debug, Default)]
pub(super) struct Scope {
    /// In words, such as `section 310.2.3`.
    pub(super) name: String,
    pub(super) span: Span,
}

/// One change that can be made.
#[derive(Clone, Debug)]
pub(super) struct Offer {
    /// Its place among those of its item.
    pub(super) number: usize,
    pub(super) clause: String,
    pub(super) clause_span: Span,
    pub(super) at: Span,
    /// What is changed, in words; empty where the clause is left out as a whole.
    pub(super) what: String,
    /// What would make an example notice it.
    pub(super) help: &'static str,
    pub(super) whole: bool,
}

/// What was asked so far, and what is wanted.
pub(super) struct Tape<'t> {
    text: &'t str,
    ladders: &'t Ladders,
    /// The change to make; none while they are written down.
    wanted: Option<usize>,
    next: usize,
    /// Whether the change was made: nothing else is to be looked at then.
    pub(super) made: bool,
    scope: Scope,
    pub(super) offers: Vec<Offer>,
}

impl<'t> Tape<'t> {
    /// Writes down what can be changed.
    pub(super) fn listing(text: &'t str, ladders: &'t Ladders) -> Tape<'t> {
        let (wanted, next, made) = (None, 0, false);
        Tape { text, ladders, wanted, next, made, scope: Scope::default(), offers: Vec::new() }
    }

    /// Lets one change be made.
    pub(super) fn making(number: usize, ladders: &'t Ladders) -> Tape<'t> {
        Tape { wanted: Some(number), ..Tape::listing("", ladders) }
    }

    /// Enters a clause.
    pub(super) fn enter(&mut self, scope: Scope) {
        self.scope = scope;
    }

    /// Whether the clause is to be left out as a whole.
    pub(super) fn whole(&mut self) -> bool {
        let at = head(self.scope.span, self.text);
        self.ask(at, "", true, String::new)
    }

    /// Whether this change is to be made.
    pub(super) fn offer(&mut self, at: Span, help: &'static str, what: impl FnOnce(&Tape<'t>) -> String) -> bool {
        if self.wanted.is_none() {
            let what = what(self);
            return self.ask(at, help, false, || what);
        }
        self.ask(at, help, false, String::new)
    }

    fn ask(&mut self, at: Span, help: &'static str, whole: bool, what: impl FnOnce() -> String) -> bool {
        if self.made {
            return false;
        }
        let number = self.next;
        self.next += 1;
        if let Some(wanted) = self.wanted {
            self.made = wanted == number;
            return self.made;
        }
        let (clause, clause_span) = (self.scope.name.clone(), self.scope.span);
        self.offers.push(Offer { number, clause, clause_span, at, what: what(), help, whole });
        false
    }

    /// The text of a span on one line, in backticks.
    pub(super) fn quoted(&self, span: Span) -> String {
        format!("`{}`", self.source(span))
    }

    /// The text of a span on one line.
    pub(super) fn source(&self, span: Span) -> String {
        let text = self.text.get(span.start as usize..span.end as usize).unwrap_or_default();
        let plain = text.lines().map(|line| line.split(" #").next().unwrap_or_default());
        let words: Vec<&str> = plain.flat_map(str::split_whitespace).collect();
        let mut line = words.join(" ");
        // A condition's span ends before the parentheses that close it.
        let count = |sign: char| line.matches(sign).count();
        let open = count('(').saturating_sub(count(')'));
        line.push_str(&")".repeat(open));
        crate::glossary::cut(&line)
    }

    /// The rungs of a ladder question.
    pub(super) fn ladder(&self, question: &str) -> &'t [Box<str>] {
        self.ladders.get(question).map_or(&[], Vec::as_slice)
    }
}

/// The first line of a span.
fn head(span: Span, text: &str) -> Span {
    let whole = text.get(span.start as usize..span.end as usize).unwrap_or_default();
    let line = whole.lines().next().unwrap_or_default().trim_end();
    Span { start: span.start, end: span.start + u32::try_from(line.len()).unwrap_or_default() }
}
