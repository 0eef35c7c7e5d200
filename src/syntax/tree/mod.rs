//! The tree of a rule file or job sheet: one node for every form of the
//! language, each with the span of text that it came from.
//!
//! The tree keeps words as they were written. It refuses to know what any of
//! them means: whether `6 AWG` is a wire gauge, whether `harlow` is a place and
//! whether `direct-bond` is a question is decided by the modules above.

mod glossary;
mod instruments;
mod jobs;
mod texts;

pub(crate) use glossary::*;
pub(crate) use instruments::*;
pub(crate) use jobs::*;
pub(crate) use texts::*;

use serde::{Deserialize, Serialize};

/// A stretch of bytes of one file, `start` inclusive and `end` exclusive.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Span {
    pub(crate) start: u32,
    pub(crate) end: u32,
}

impl Span {
    /// The span from the beginning of this one to the end of `other`.
    pub(crate) fn to(self, other: Span) -> Span {
        Span { start: self.start.min(other.start), end: self.end.max(other.end) }
    }
}

/// A word as written: a name, a code, a number of a section, an instrument's id,
/// a date or a figure.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Word {
    pub(crate) text: Box<str>,
    pub(crate) span: Span,
}

/// A text that stood in double quotes, with `\"` and `\\` resolved.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Text {
    pub(crate) text: Box<str>,
    pub(crate) span: Span,
}

/// One parsed file.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct File {
    pub(crate) items: Vec<Item>,
    /// Every `#` comment, in order; the text runs from `#` to the end of line.
    pub(crate) comments: Vec<Text>,
    /// Every `knowingly`, wherever it stands.
    pub(crate) knowingly: Vec<Knowingly>,
}

/// `knowingly GR5105 "why"`: a warning that is not told within a block.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Knowingly {
    /// The code of a warning, as it was written.
    pub(crate) code: Word,
    pub(crate) why: Text,
    pub(crate) span: Span,
    /// The innermost block that it stands in.
    pub(crate) within: Span,
}

/// A top-level item of a rule file, or the job of a job sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Item {
    Choice(Choice),
    Subject(Subject),
    Fact(Fact),
    Group(Group),
    Question(Question),
    Definition(Definition),
    Extend(Extend),
    Code(Code),
    Edition(Edition),
    Place(Place),
    Issuer(Issuer),
    Instrument(Instrument),
    Example(Example),
    /// The whole of a `.job` file.
    Job(JobSheet),
}

impl Item {
    /// Where the item stands.
    pub(crate) fn span(&self) -> Span {
        match self {
            Item::Choice(item) => item.span,
            Item::Subject(item) => item.span,
            Item::Fact(item) => item.span,
            Item::Group(item) => item.span,
            Item::Question(item) => item.span,
            Item::Definition(item) => item.span,
            Item::Extend(item) => item.span,
            Item::Code(item) => item.span,
            Item::Edition(item) => item.span,
            Item::Place(item) => item.span,
            Item::Issuer(item) => item.span,
            Item::Instrument(item) => item.span,
            Item::Example(item) => item.span,
            Item::Job(item) => item.span,
        }
    }
}

/// A fact by its name: `concealed`, or `jumper.length`.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Path {
    pub(crate) head: Word,
    pub(crate) attribute: Option<Word>,
}

/// A condition.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cond {
    pub(crate) kind: CondKind,
    pub(crate) span: Span,
}

/// The forms of a condition.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum CondKind {
    And(Vec<Cond>),
    Or(Vec<Cond>),
    Not(Box<Cond>),
    /// A test of a fact, of an attribute, or of a ladder question's answer.
    Test {
        path: Path,
        test: Test,
    },
    /// `any run with (…)`, `no run with (…)`; without `with`, any entry at all.
    Entries {
        any: bool,
        list: Word,
        with: Option<Box<Cond>>,
    },
    /// `instructions say Q is W`
    Say(Box<Demand>),
    /// A definition's name standing alone.
    Named(Word),
}

/// What is tested of a fact.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Test {
    /// `is V`, `is any of V, V`
    Is(Vec<Value>),
    /// `is not V`, `is not any of V, V`
    IsNot(Vec<Value>),
    /// `includes V`, `includes any of V, V`
    Includes(Vec<Value>),
    AtLeast(Value),
    AtMost(Value),
    Over(Value),
    Under(Value),
    Before(Value),
    /// `from DATE`: that day or later
    From(Value),
    /// `within N UNIT after FACT`
    Within {
        count: Word,
        unit: Word,
        after: Path,
    },
}

/// A value as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Value {
    /// `yes`, `no`, a term, a name or a code.
    Word(Word),
    /// A date in the form of ISO 8601.
    Date(Word),
    /// A figure with its unit if it has one: `3`, `75 ft`, `1/0 AWG`.
    Figure { number: Word, unit: Option<Word> },
    /// A quoted text (a printed name, in a job).
    Text(Text),
}

/// One demand of a section.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Demand {
    pub(crate) kind: DemandKind,
    pub(crate) span: Span,
}

/// The forms of a demand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum DemandKind {
    Is {
        question: Word,
        rung: Word,
    },
    AtLeast {
        question: Word,
        limits: Vec<Limit>,
    },
    AtMost {
        question: Word,
        limits: Vec<Limit>,
    },
    /// `Q at least by table [CODE [YEAR]] N`, `Q at most by table …`
    ByTable {
        question: Word,
        least: bool,
        code: Option<Word>,
        year: Option<Word>,
        number: Word,
    },
    Only {
        question: Word,
        terms: Vec<Word>,
    },
    NoneOf {
        question: Word,
        terms: Vec<Word>,
    },
    AllOf {
        question: Word,
        terms: Vec<Word>,
    },
    Refer {
        questions: Vec<Word>,
        why: Text,
    },
    /// `instructions bind on Q, Q`
    Bind {
        questions: Vec<Word>,
    },
    Note {
        text: Text,
    },
}

/// `V [for TERM, TERM]`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Limit {
    pub(crate) value: Value,
    pub(crate) terms: Vec<Word>,
}
