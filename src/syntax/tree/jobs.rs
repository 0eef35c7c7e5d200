//! Jobs, and examples with what they expect.

use super::*;

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

/// A text that an expectation names: an instrument, and perhaps a section.
pub(crate) type Authority = (Word, Option<Word>);

/// The forms of an expectation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum ExpectKind {
    /// `outcome open`
    Outcome(Word),
    /// `direct-bond is required by HC-22-118 310.3`
    Demand { demand: Demand, by: Option<Authority> },
    /// `advised direct-bond is required by NG-BUL-4 2`
    Advice { demand: Demand, by: Option<Authority> },
    /// `note by HC-22-118 310.3`
    Note { by: Authority },
    /// `pending HC-26-2`
    Pending(Word),
    /// `Q no limit`, `Q anyone`, `Q anything`, `Q nothing`
    Loosest { question: Word, word: Word },
    /// `Q silent`, `Q open`, `Q referred`, `Q conflict`, `Q met`, `Q not met` (as
    /// `not-met`), `Q not asked` (as `not-asked`)
    State { question: Word, state: Word },
    /// `Q open on FACT`; the text of the path, such as `run[0].jacket`
    OpenOn { question: Word, fact: Word },
}
