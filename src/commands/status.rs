//! Exit statuses, each for one kind of end.

use crate::verdict::model::Outcome;
use std::process::ExitCode;

/// How a command ended. Most wrong usage is told by the reader of the arguments.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Status {
    /// Done, and every job complies.
    Done,
    /// Rules or a job could not be used.
    Unusable,
    /// Arguments that each can be read make no sense together.
    Usage,
    Corrections,
    Conflict,
    Refer,
    Open,
    /// `proofread` found warnings and no error.
    Warnings,
    /// `layout --dry` would change something.
    WouldChange,
}

impl Status {
    /// The number that the shell sees.
    pub(crate) fn number(self) -> u8 {
        match self {
            Status::Done => 0,
            Status::Unusable => 1,
            Status::Usage => 2,
            Status::Corrections => 10,
            Status::Conflict => 11,
            Status::Refer => 12,
            Status::Open => 13,
            Status::Warnings => 14,
            Status::WouldChange => 15,
        }
    }
}

impl From<Outcome> for Status {
    fn from(outcome: Outcome) -> Status {
        match outcome {
            Outcome::Complies => Status::Done,
            Outcome::Open => Status::Open,
            Outcome::Refer => Status::Refer,
            Outcome::Conflict => Status::Conflict,
            Outcome::Corrections => Status::Corrections,
        }
    }
}

impl From<Status> for ExitCode {
    fn from(status: Status) -> ExitCode {
        ExitCode::from(status.number())
    }
}
