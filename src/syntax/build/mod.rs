//! From what the grammar matched to the tree. One file for each part of the
//! language; this one holds what they share: spans, words, texts, and lines that
//! may stand once.

mod codes;
mod conditions;
mod demands;
mod glossary;
mod instruments;
mod jobs;
mod knowingly;
mod places;

use super::codes as code;
use super::diagnostic::{Diagnostic, FileId, Location};
use super::grammar::Rule;
use super::tree::{Cond, Item, Knowingly, Path, Provenance, ProvenanceKind, Reference, Span, Text, Word};
use pest::iterators::{Pair, Pairs};

/// One match of the grammar.
pub(super) type Match<'a> = Pair<'a, Rule>;
/// The matches within one.
pub(super) type Matches<'a> = Pairs<'a, Rule>;

/// Builds the items of one file.
pub(super) struct Builder<'a> {
    file: FileId,
    /// Where the parsed piece begins in the file.
    base: usize,
    /// The text of the parsed piece.
    piece: &'a str,
    /// Where the comments of the file begin and end, in order.
    comments: &'a [Text],
    found: Vec<Diagnostic>,
    knowingly: Vec<Knowingly>,
    /// A fact of the job at hand had no value, and what follows is shifted.
    shifted: bool,
}

impl<'a> Builder<'a> {
    pub(super) fn new(file: FileId, comments: &'a [Text]) -> Self {
        Self { file, base: 0, piece: "", comments, found: Vec::new(), knowingly: Vec::new(), shifted: false }
    }

    /// Turns to a piece of the file that begins at `base`.
    pub(super) fn turn_to(&mut self, piece: &'a str, base: usize) {
        self.piece = piece;
        self.base = base;
    }

    /// What was found while building, in the order found.
    pub(super) fn take_found(&mut self) -> Vec<Diagnostic> {
        std::mem::take(&mut self.found)
    }

    /// The item that was matched.
    pub(super) fn item(&mut self, found: Match<'a>) -> Option<Item> {
        Some(match found.as_rule() {
            Rule::choice => Item::Choice(self.choice(found)?),
            Rule::subject => Item::Subject(self.subject(found)?),
            Rule::fact => Item::Fact(self.fact(found)?),
            Rule::list => Item::Group(self.group(found, true)?),
            Rule::record => Item::Group(self.group(found, false)?),
            Rule::question => Item::Question(self.question(found)?),
            Rule::definition => Item::Definition(self.definition(found)?),
            Rule::extend => Item::Extend(self.extend(found)?),
            Rule::code => Item::Code(self.code(found)?),
            Rule::edition => Item::Edition(self.edition(found)?),
            Rule::place => Item::Place(self.place(found)?),
            Rule::maker => Item::Issuer(self.issuer(found, true)?),
            Rule::supplier => Item::Issuer(self.issuer(found, false)?),
            Rule::instrument => Item::Instrument(self.instrument(found)?),
            Rule::example => Item::Example(self.example(found)?),
            Rule::sheet => Item::Job(self.job_sheet(found)),
            _ => return None,
        })
    }

    /// The span of a match without the white space and comments behind it.
    fn span(&self, found: &Match<'a>) -> Span {
        let span = found.as_span();
        let mut end = span.end();
        let bytes = self.piece.as_bytes();
        loop {
            while end > span.start() && bytes.get(end - 1).is_some_and(u8::is_ascii_whitespace) {
                end -= 1;
            }
            let here = offset(self.base + end);
            match self.comments.binary_search_by_key(&here, |comment| comment.span.end) {
                Ok(index) => match self.comments.get(index) {
                    Some(comment) if comment.span.start as usize > self.base + span.start() => {
                        end = comment.span.start as usize - self.base;
                    }
                    _ => break,
                },
                Err(_) => break,
            }
        }
        Span { start: offset(self.base + span.start()), end: offset(self.base + end) }
    }

    /// The span of a match that has nothing behind it.
    fn exact(&self, found: &Match<'a>) -> Span {
        let span = found.as_span();
        Span { start: offset(self.base + span.start()), end: offset(self.base + span.end()) }
    }

    fn word(&self, found: &Match<'a>) -> Word {
        Word { text: found.as_str().into(), span: self.exact(found) }
    }

    /// A word that another match wraps.
    fn inner_word(&self, found: Match<'a>) -> Option<Word> {
        Some(self.word(&found.into_inner().next()?))
    }

    /// All words that another match wraps.
    fn inner_words(&self, found: Match<'a>) -> Vec<Word> {
        self.words(found.into_inner())
    }

    fn words(&self, found: Matches<'a>) -> Vec<Word> {
        found.map(|one| self.word(&one)).collect()
    }

    fn text(&self, found: &Match<'a>) -> Text {
        let written = found.as_str();
        let inside = written.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')).unwrap_or(written);
        let text = if inside.contains('\\') { unescaped(inside).into() } else { inside.into() };
        Text { text, span: self.exact(found) }
    }

    /// A text that another match wraps.
    fn inner_text(&self, found: Match<'a>) -> Option<Text> {
        Some(self.text(&found.into_inner().next()?))
    }

    fn path(&self, found: &Match<'a>) -> Path {
        let span = self.exact(found);
        match found.as_str().split_once('.') {
            None => Path { head: Word { text: found.as_str().into(), span }, attribute: None },
            Some((head, attribute)) => {
                let middle = span.start + offset(head.len());
                Path {
                    head: Word { text: head.into(), span: Span { start: span.start, end: middle } },
                    attribute: Some(Word { text: attribute.into(), span: Span { start: middle + 1, end: span.end } }),
                }
            }
        }
    }

    /// A path that another match wraps.
    fn inner_path(&self, found: Match<'a>) -> Option<Path> {
        Some(self.path(&found.into_inner().next()?))
    }

    /// A place or issuer as named.
    fn place_name(&self, found: Match<'a>) -> Option<Reference> {
        let inner = found.into_inner().next()?;
        Some(if inner.as_rule() == Rule::text {
            let text = self.text(&inner);
            Reference { text: text.text, printed: true, span: text.span }
        } else {
            let word = self.word(&inner);
            Reference { text: word.text, printed: false, span: word.span }
        })
    }

    /// A place that another match wraps.
    fn inner_place(&self, found: Match<'a>) -> Option<Reference> {
        self.place_name(found.into_inner().next()?)
    }

    fn provenance(&self, found: Match<'a>) -> Option<Provenance> {
        let span = self.span(&found);
        let kind = match found.as_rule() {
            Rule::read => {
                let mut inner = found.into_inner();
                ProvenanceKind::Read { place: self.text(&inner.next()?), on: self.word(&inner.next()?) }
            }
            Rule::memory => ProvenanceKind::Memory,
            _ => ProvenanceKind::CommonPractice,
        };
        Some(Provenance { kind, span })
    }

    /// Keeps what may stand once; a second one is an error that names both.
    fn once<T: Spanned>(&mut self, slot: &mut Option<T>, value: T, what: &str) {
        match slot {
            None => *slot = Some(value),
            Some(first) => {
                let (first, second) = (self.at(first.span()), self.at(value.span()));
                self.found.push(
                    Diagnostic::new(code::TWICE_SAID, second, format!("{what} stands twice"))
                        .also(first, "it stands here first")
                        .help("keep the one that is meant and take the other out"),
                );
            }
        }
    }

    /// Reports a line that must stand and does not.
    fn missing(&mut self, at: Span, message: String, help: &str) {
        let at = self.at(at);
        self.found.push(Diagnostic::new(code::MISSING_LINE, at, message).help(help));
    }

    fn at(&self, span: Span) -> Location {
        Location { file: self.file, span }
    }
}

/// Whatever has a place in the file.
trait Spanned {
    fn span(&self) -> Span;
}

impl Spanned for Span {
    fn span(&self) -> Span {
        *self
    }
}

macro_rules! spanned {
    ($($kind:ty),*) => { $(impl Spanned for $kind { fn span(&self) -> Span { self.span } })* };
}
spanned!(Word, Text, Cond, Provenance, Reference, super::tree::Force, super::tree::Table);

impl Spanned for Path {
    fn span(&self) -> Span {
        self.attribute.as_ref().map_or(self.head.span, |attribute| self.head.span.to(attribute.span))
    }
}

/// Something together with the span of the whole line that says it.
struct Line<T> {
    value: T,
    span: Span,
}

impl<T> Spanned for Line<T> {
    fn span(&self) -> Span {
        self.span
    }
}

/// A byte offset; files are far shorter than 4 GiB (see [`super::limits`]).
pub(super) fn offset(position: usize) -> u32 {
    u32::try_from(position).unwrap_or(u32::MAX)
}

fn unescaped(inside: &str) -> String {
    let mut text = String::with_capacity(inside.len());
    let mut letters = inside.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '\\' => text.extend(letters.next()),
            other => text.push(other),
        }
    }
    text
}
