//! What is wrong with a job in JSON, and where.

use crate::glossary::Fault;
use crate::syntax::codes::{self, Code};
use std::fmt;

/// One error in a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct JobProblem {
    pub(crate) code: Code,
    /// Where it stands: `run[0].jacket`, `[1].place` in the second of several
    /// jobs; empty for the job as a whole.
    pub(crate) path: String,
    /// Lower case, without a full stop, user text in backticks, near names included.
    pub(crate) message: String,
    pub(crate) help: Option<String>,
    /// Line and column, counted from 1, where the text is not JSON at all.
    pub(crate) position: Option<(usize, usize)>,
}

impl JobProblem {
    /// A fault at its place. Near names stand in the message.
    pub(crate) fn new(path: impl Into<String>, fault: Fault) -> JobProblem {
        let fault = of_job(fault);
        let message = match fault.did_you_mean() {
            Some(near) => format!("{}; {near}", fault.message),
            None => fault.message,
        };
        JobProblem { code: fault.code, path: path.into(), message, help: fault.help, position: None }
    }
}

impl fmt::Display for JobProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&*self.path, self.position) {
            ("", None) => write!(f, "{}", self.message),
            ("", Some((line, column))) => write!(f, "line {line}, column {column}: {}", self.message),
            (path, _) => write!(f, "{path}: {}", self.message),
        }
    }
}

impl std::error::Error for JobProblem {}

/// A fault of a value with the code that it has in a job.
pub(crate) fn of_job(fault: Fault) -> Fault {
    Fault { code: code_of(fault.code), ..fault }
}

/// The code that a fault of a value has in a job.
pub(crate) fn code_of(code: Code) -> Code {
    match code {
        codes::UNKNOWN_TERM | codes::UNKNOWN_NAME | codes::UNKNOWN_CODE | codes::UNKNOWN_PLACE => codes::JOB_NAME,
        codes::AMBIGUOUS_PLACE => codes::JOB_NAME,
        codes::SHAPE | codes::UNIT | codes::NUMBER | codes::DATE | codes::RESERVED => codes::JOB_VALUE,
        own => own,
    }
}
