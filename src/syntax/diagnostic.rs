//! What is wrong with a file, and where: a stable code, a place, a message and
//! a help. This module draws nothing; renderings are the reporter's business.

use super::tree::Span;
use serde::{Deserialize, Serialize};

/// The number of a file among those loaded together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct FileId(pub(crate) u32);

/// A place in one of the loaded files.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Location {
    pub(crate) file: FileId,
    pub(crate) span: Span,
}

/// How grave a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The file cannot be used.
    Error,
    /// The file can be used, and its author should look again.
    Warning,
}

/// One finding about a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Diagnostic {
    /// A code of [`super::codes`], such as `GR0201`.
    pub(crate) code: super::codes::Code,
    pub(crate) at: Location,
    /// Lower case, without a full stop, user text in backticks.
    pub(crate) message: String,
    pub(crate) help: Option<String>,
    /// Further places that belong to the finding, each with a note.
    pub(crate) also: Vec<(Location, String)>,
    /// An `example` block in the language that shows it, ready to be pasted.
    pub(crate) example: Option<String>,
}

impl Diagnostic {
    /// A finding with a code, a place and a message.
    pub(crate) fn new(code: super::codes::Code, at: Location, message: impl Into<String>) -> Self {
        Self { code, at, message: message.into(), help: None, also: Vec::new(), example: None }
    }

    /// The same with a help: what would mend it.
    pub(crate) fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// The same with a further place.
    pub(crate) fn also(mut self, at: Location, note: impl Into<String>) -> Self {
        self.also.push((at, note.into()));
        self
    }

    /// The same with an example that shows it, where there is one.
    pub(crate) fn shown_by(mut self, example: Option<String>) -> Self {
        self.example = example;
        self
    }

    /// Whether the file can still be used.
    pub(crate) fn severity(&self) -> Severity {
        self.code.severity()
    }
}
