//! Why a command answers nothing.

use super::options::As;
use super::screen;
use super::status::Status;
use crate::report::finding::Finding;

/// Why nothing is answered.
pub(crate) enum Trouble {
    Findings(Vec<Finding>),
    /// Arguments that make no sense together.
    Usage {
        message: String,
        help: String,
    },
    /// A page does not come out of its template.
    Unwritten(minijinja::Error),
}

impl Trouble {
    /// Arguments that make no sense together.
    pub(crate) fn usage(message: impl Into<String>, help: impl Into<String>) -> Trouble {
        Trouble::Usage { message: message.into(), help: help.into() }
    }

    /// Tells it on standard error; gives how the command ends.
    pub(crate) fn tell(self, form: As) -> Status {
        match self {
            Trouble::Findings(findings) => {
                screen::report(&findings, form);
                Status::Unusable
            }
            Trouble::Usage { message, help } => {
                screen::complain(&format!("error: {message}\n  help: {help}\n"));
                Status::Usage
            }
            Trouble::Unwritten(problem) => {
                screen::complain(&format!("error: the page cannot be written: {problem:#}\n"));
                Status::Unusable
            }
        }
    }
}

impl From<Vec<Finding>> for Trouble {
    fn from(findings: Vec<Finding>) -> Trouble {
        Trouble::Findings(findings)
    }
}

impl From<Finding> for Trouble {
    fn from(finding: Finding) -> Trouble {
        Trouble::Findings(vec![finding])
    }
}

impl From<minijinja::Error> for Trouble {
    fn from(problem: minijinja::Error) -> Trouble {
        Trouble::Unwritten(problem)
    }
}
