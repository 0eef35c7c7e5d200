//! Items of the glossary.

use super::*;

/// `choice NAME "title"` and its terms in order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Choice {
    pub(crate) name: Word,
    pub(crate) title: Option<Text>,
    pub(crate) terms: Vec<Term>,
    pub(crate) span: Span,
}

/// A term of a choice: `NAME "title" under NAME`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Term {
    pub(crate) name: Word,
    pub(crate) title: Option<Text>,
    pub(crate) under: Option<Word>,
    pub(crate) span: Span,
}

/// `subject NAME "title" [must be governed]`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Subject {
    pub(crate) name: Word,
    pub(crate) title: Option<Text>,
    pub(crate) governed: bool,
    pub(crate) span: Span,
}

/// A fact, or an attribute of a list or record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fact {
    pub(crate) name: Word,
    pub(crate) shape: Shape,
    pub(crate) title: Option<Text>,
    pub(crate) roles: Vec<Role>,
    pub(crate) ask: Option<Text>,
    pub(crate) known: Vec<Known>,
    pub(crate) ours: bool,
    pub(crate) presumed: Option<Cond>,
    pub(crate) never_before: Option<Path>,
    pub(crate) place: Option<Reference>,
    pub(crate) span: Span,
}

/// The shape of a fact's value.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Shape {
    YesNo,
    Date,
    Count,
    Gauge,
    /// `quantity UNIT`
    Quantity(Word),
    Name,
    Code,
    /// A choice by its name.
    Choice(Word),
    /// `several CHOICE`
    Several(Word),
}

/// The part that a fact plays for the engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Role {
    /// `dates instruments`: the default date fact.
    DatesInstruments,
    /// `chooses the text`
    ChoosesText,
    /// `chooses the code`
    ChoosesCode,
    /// `names the supplier`
    NamesSupplier,
}

/// `known to WHO, WHO at WHEN`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Known {
    pub(crate) who: Vec<Word>,
    pub(crate) when: Option<Word>,
}

/// `list NAME "title"` or `record NAME "title"` with its attributes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Group {
    pub(crate) name: Word,
    /// True for a `list`, false for a `record`.
    pub(crate) list: bool,
    pub(crate) title: Option<Text>,
    pub(crate) place: Option<Reference>,
    pub(crate) attributes: Vec<Fact>,
    pub(crate) span: Span,
}

/// A question with its order of strictness.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Question {
    pub(crate) name: Word,
    pub(crate) subject: Word,
    pub(crate) title: Option<Text>,
    pub(crate) order: Order,
    pub(crate) per: Option<Path>,
    pub(crate) measures: Option<Path>,
    pub(crate) met: Option<Met>,
    pub(crate) asked: Option<Cond>,
    pub(crate) costs: Option<Text>,
    pub(crate) contrary: Vec<Word>,
    pub(crate) caution: Option<Text>,
    pub(crate) place: Option<Reference>,
    pub(crate) span: Span,
}

/// The order of a question's answers.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Order {
    /// Rungs, loosest first.
    Ladder(Vec<Word>),
    /// `at least` with `gauge`, `count` or a unit.
    AtLeast(Word),
    /// `at most` with `gauge`, `count` or a unit.
    AtMost(Word),
    /// `only CHOICE`
    Only(Word),
    /// `all of CHOICE`
    AllOf(Word),
}

/// How a job shows that it does what the answer asks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Met {
    Where(Cond),
    Never,
}

/// A named condition, of the glossary or of an edition.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Definition {
    pub(crate) name: Word,
    pub(crate) title: Option<Text>,
    pub(crate) cond: Cond,
    pub(crate) provenance: Option<Provenance>,
    pub(crate) span: Span,
}

/// `extend CHOICE in PLACE` and the added terms.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Extend {
    pub(crate) choice: Word,
    pub(crate) place: Reference,
    pub(crate) terms: Vec<Term>,
    pub(crate) span: Span,
}
