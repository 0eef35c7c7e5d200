//! Codes, editions, sections and patches.

use super::*;

/// `code NAME "title" on SUBJECT, SUBJECT`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Code {
    pub(crate) name: Word,
    pub(crate) title: Option<Text>,
    pub(crate) subjects: Vec<Word>,
    pub(crate) span: Span,
}

/// A code and the year of one of its editions.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct EditionName {
    pub(crate) code: Word,
    pub(crate) year: Word,
}

/// An edition of a code.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Edition {
    pub(crate) name: EditionName,
    pub(crate) revises: Option<EditionName>,
    pub(crate) published: Option<Word>,
    /// `text not here`
    pub(crate) text_not_here: bool,
    pub(crate) provenance: Option<Provenance>,
    pub(crate) clauses: Vec<TextClause>,
    pub(crate) span: Span,
}

/// A clause of an edition or of an `amend` block, in the order written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum TextClause {
    Section(Section),
    Renumber(Renumber),
    Patch(Patch),
    Definition(Definition),
    LeftOut(LeftOut),
    Unread(Unread),
}

/// `renumber N to M`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Renumber {
    pub(crate) from: Word,
    pub(crate) to: Word,
    pub(crate) span: Span,
}

/// `left out N "why"`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LeftOut {
    pub(crate) number: Word,
    pub(crate) why: Text,
    pub(crate) span: Span,
}

/// `unread N [on Q, Q]`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Unread {
    pub(crate) number: Word,
    pub(crate) questions: Vec<Word>,
    pub(crate) span: Span,
}

/// A section or table: `section N "title" on SUBJECT …`, `table N …`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Section {
    pub(crate) number: Word,
    pub(crate) title: Option<Text>,
    pub(crate) subjects: Vec<Word>,
    /// `as CODE YEAR M`: the published text of another code's section.
    pub(crate) extract: Option<(EditionName, Word)>,
    pub(crate) body: Body,
    pub(crate) span: Span,
}

/// What a section or patch says.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Body {
    pub(crate) summary: Option<Text>,
    /// `where` lines, joined by and.
    pub(crate) wheres: Vec<Cond>,
    /// `except where` lines, joined by or.
    pub(crate) excepts: Vec<Cond>,
    pub(crate) demands: Vec<Demand>,
    pub(crate) table: Option<Table>,
    pub(crate) provenance: Option<Provenance>,
}

/// A table as in the code books.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Table {
    /// `by FACT`
    pub(crate) key: Path,
    /// `per FACT TERM, TERM`: one column of limits for each term.
    pub(crate) per: Option<(Path, Vec<Word>)>,
    /// `gives QUESTION`
    pub(crate) gives: Word,
    /// `for TERM, TERM`: one column of results for each term.
    pub(crate) terms: Vec<Word>,
    pub(crate) rows: Vec<Row>,
    pub(crate) span: Span,
}

/// `through LIMIT, LIMIT gives V, V` or `over LIMIT, LIMIT gives V, V`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Row {
    pub(crate) over: bool,
    pub(crate) limits: Vec<Value>,
    pub(crate) gives: Vec<Value>,
    pub(crate) span: Span,
}

/// What a patch does to the section that it names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Action {
    Replace,
    Add,
    Delete,
    Except,
    Reads,
}

impl Action {
    /// The word that a patch begins with.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Action::Replace => "replace",
            Action::Add => "add",
            Action::Delete => "delete",
            Action::Except => "except",
            Action::Reads => "reads",
        }
    }
}

/// `replace N "title" …`, `add`, `delete`, `except`, `reads`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Patch {
    pub(crate) action: Action,
    pub(crate) number: Word,
    /// `N and under`: the sub-sections too.
    pub(crate) and_under: bool,
    pub(crate) title: Option<Text>,
    pub(crate) subjects: Vec<Word>,
    pub(crate) extract: Option<(EditionName, Word)>,
    pub(crate) body: Body,
    pub(crate) span: Span,
}

/// Where a text was seen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Provenance {
    pub(crate) kind: ProvenanceKind,
    pub(crate) span: Span,
}

/// The three forms of provenance.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum ProvenanceKind {
    /// `read "where" on DATE`
    Read { place: Text, on: Word },
    /// `from memory`
    Memory,
    /// `common practice`
    CommonPractice,
}
