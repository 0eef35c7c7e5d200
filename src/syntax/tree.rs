//! The tree of a rule file or job sheet: one node for every form of the
//! language, each with the span of text that it came from.
//!
//! The tree keeps words as they were written. It refuses to know what any of
//! them means: whether `6 AWG` is a wire gauge, whether `harlow` is a place and
//! whether `direct-bond` is a question is decided by the modules above.

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
    Test { path: Path, test: Test },
    /// `any run with (…)`, `no run with (…)`; without `with`, any entry at all.
    Entries { any: bool, list: Word, with: Option<Box<Cond>> },
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
    Within { count: Word, unit: Word, after: Path },
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
    Is { question: Word, rung: Word },
    AtLeast { question: Word, limits: Vec<Limit> },
    AtMost { question: Word, limits: Vec<Limit> },
    /// `Q at least by table [CODE [YEAR]] N`, `Q at most by table …`
    ByTable { question: Word, least: bool, code: Option<Word>, year: Option<Word>, number: Word },
    Only { question: Word, terms: Vec<Word> },
    NoneOf { question: Word, terms: Vec<Word> },
    AllOf { question: Word, terms: Vec<Word> },
    Refer { questions: Vec<Word>, why: Text },
    /// `instructions bind on Q, Q`
    Bind { questions: Vec<Word> },
    Note { text: Text },
}

/// `V [for TERM, TERM]`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Limit {
    pub(crate) value: Value,
    pub(crate) terms: Vec<Word>,
}

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
    After { count: Word, unit: Word, date: Word },
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
    Newest { code: Word, delay: Option<(Word, Word)> },
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
    Any { code: Word, numbered: Option<Word> },
    /// `ID [of ISSUER]`
    Instrument { id: Word, of: Option<Reference> },
}

/// The three powers over what inner places say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum PowerKind {
    Preempts,
    Floor,
    Ceiling,
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

/// `example "name" job … verdict …`
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Example {
    pub(crate) name: Text,
    pub(crate) job: JobSheet,
    pub(crate) expects: Vec<Expect>,
    pub(crate) span: Span,
}

/// The lines of a job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobSheet {
    pub(crate) entries: Vec<JobEntry>,
    pub(crate) span: Span,
}

/// One line of a job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum JobEntry {
    /// `place harlow`, `place "Harlow County"`
    Place(Reference),
    /// `reference "permit 24-118"`
    Reference(Text),
    /// `concealed yes`, `jumper.length 31 ft`, `run none`, `run unknown`
    Fact { path: Path, value: JobValue, span: Span },
    /// `run { … }`, `jumper { … }`
    Entry { name: Word, facts: Vec<(Word, JobValue)>, span: Span },
}

/// The value that a job gives.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum JobValue {
    /// One value, or several for a fact that holds a set.
    Values(Vec<Value>),
    /// `none`: no entry, no such date, nothing of a set.
    None,
    Unknown,
}

/// A line of an example's `verdict`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Expect {
    pub(crate) kind: ExpectKind,
    pub(crate) span: Span,
}

/// The forms of an expectation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum ExpectKind {
    /// `outcome open`
    Outcome(Word),
    /// `direct-bond is required by HC-22-118 310.3`
    Demand { demand: Demand, by: Option<(Word, Option<Word>)> },
    /// `Q silent`, `Q open`, `Q referred`, `Q conflict`, `Q met`, `Q not met` (as `not-met`)
    State { question: Word, state: Word },
    /// `Q open on FACT`; the text of the path, such as `run[0].jacket`
    OpenOn { question: Word, fact: Word },
}
