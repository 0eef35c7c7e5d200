//! Places, issuers and instruments.

use super::*;

/// A place or issuer as named: an end of a path, or a printed name.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Reference {
    pub(crate) text: Box<str>,
    /// True where the name stood in double quotes.
    pub(crate) printed: bool,
    pub(crate) span: Span,
}

/// `place NAME "printed name" within PLACE …`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Place {
    pub(crate) name: Word,
    pub(crate) title: Option<Text>,
    pub(crate) within: Option<Reference>,
    pub(crate) also: Vec<Text>,
    /// `known as SCHEME ID`
    pub(crate) known_as: Vec<(Word, Word)>,
    pub(crate) office: Option<Text>,
    pub(crate) provenance: Option<Provenance>,
    pub(crate) nothing: Vec<Nothing>,
    pub(crate) boundary: Option<Text>,
    pub(crate) dates_by: Option<Path>,
    pub(crate) span: Span,
}

/// `nothing of its own on SUBJECT, SUBJECT read "…" on DATE`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Nothing {
    pub(crate) subjects: Vec<Word>,
    pub(crate) provenance: Option<Provenance>,
    pub(crate) span: Span,
}

/// `maker NAME "…"` or `supplier NAME "…"`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Issuer {
    pub(crate) name: Word,
    /// True for a `maker`, false for a `supplier`.
    pub(crate) maker: bool,
    pub(crate) title: Option<Text>,
    pub(crate) provenance: Option<Provenance>,
    pub(crate) dates_by: Option<Path>,
    pub(crate) span: Span,
}

/// `instrument ID of ISSUER "title" …`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Instrument {
    pub(crate) id: Word,
    pub(crate) of: Option<Reference>,
    pub(crate) title: Option<Text>,
    pub(crate) kind: Option<Word>,
    pub(crate) adopted: Option<Word>,
    pub(crate) force: Option<Force>,
    pub(crate) status: Option<Word>,
    pub(crate) applies: Vec<Cond>,
    pub(crate) provenance: Option<Provenance>,
    pub(crate) clauses: Vec<Clause>,
    pub(crate) span: Span,
}

/// `in force from … through … by FACT`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Force {
    pub(crate) from: Option<Start>,
    pub(crate) through: Option<End>,
    pub(crate) by: Option<Path>,
    pub(crate) span: Span,
}

/// When an instrument begins.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Start {
    On(Word),
    /// `90 days after D`
    After {
        count: Word,
        unit: Word,
        date: Word,
    },
    Unknown,
    /// `between D and D`
    Between(Word, Word),
}

/// When an instrument ends; the day itself is included.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum End {
    On(Word),
    Unknown,
}

/// A clause of an instrument, in the order written.
#[expect(clippy::large_enum_variant, reason = "read once, and sections are the common case")]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Clause {
    Adopts(Adopts),
    Election(Election),
    Amend(Amend),
    Section(Section),
    Power(Power),
    Prevails(Prevails),
    Ends(Ends),
}

/// `adopts CODE YEAR [or CODE YEAR] [for SUBJECT] [where C | otherwise] …`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Adopts {
    /// More than one: a standing choice between codes.
    pub(crate) editions: Vec<Adopted>,
    pub(crate) subjects: Vec<Word>,
    pub(crate) scope: Option<Cond>,
    pub(crate) otherwise: bool,
    pub(crate) as_published: bool,
    pub(crate) beside: Vec<Word>,
    pub(crate) span: Span,
}

/// One edition named in an adoption.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Adopted {
    Edition(EditionName),
    /// `CODE newest [after N UNIT]`
    Newest {
        code: Word,
        delay: Option<(Word, Word)>,
    },
}

/// `election [from D] through D [by FACT]`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Election {
    pub(crate) from: Option<Word>,
    pub(crate) through: Word,
    pub(crate) by: Option<Path>,
    pub(crate) span: Span,
}

/// `amend …` and its patches.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Amend {
    pub(crate) target: AmendTarget,
    pub(crate) clauses: Vec<TextClause>,
    pub(crate) span: Span,
}

/// The text that an `amend` block patches.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum AmendTarget {
    Edition(EditionName),
    /// `CODE any [numbered as in YEAR]`
    Any {
        code: Word,
        numbered: Option<Word>,
    },
    /// `ID [of ISSUER]`
    Instrument {
        id: Word,
        of: Option<Reference>,
    },
}

/// The three powers over what inner places say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum PowerKind {
    Preempts,
    Floor,
    Ceiling,
}

impl PowerKind {
    /// The word that the clause begins with.
    pub(crate) fn word(self) -> &'static str {
        match self {
            PowerKind::Preempts => "preempts",
            PowerKind::Floor => "floor",
            PowerKind::Ceiling => "ceiling",
        }
    }
}

/// `preempts Q, Q [where C]`, `floor …`, `ceiling …`; a target is a question or a subject.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Power {
    pub(crate) kind: PowerKind,
    pub(crate) targets: Vec<Word>,
    pub(crate) scope: Option<Cond>,
    pub(crate) span: Span,
}

/// `prevails over CODE, instructions on Q, Q` or `on every question`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Prevails {
    pub(crate) over: Vec<Word>,
    /// Empty for `on every question`.
    pub(crate) questions: Vec<Word>,
    pub(crate) span: Span,
}

/// `repeals ID [of ISSUER]`, `suspends ID [of ISSUER] [N]`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ends {
    /// True for `repeals`, false for `suspends`.
    pub(crate) repeals: bool,
    pub(crate) id: Word,
    pub(crate) of: Option<Reference>,
    /// A section or a patch of that instrument.
    pub(crate) number: Option<Word>,
    pub(crate) span: Span,
}
