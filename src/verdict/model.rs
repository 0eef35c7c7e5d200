//! A verdict as values: what stands, why, and what is still unknown.

use super::aside::Aside;
use super::found::Found;
use super::paths::Path;
use super::value::Value;
use super::words::Phrase;
use crate::glossary::model::Question;
use crate::law::model::{CodeReach, Fate, Pending, Provision, ProvisionId, Source};
use crate::syntax::diagnostic::FileId;

/// What becomes of a job, the better first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Every finding is met, and nothing is left open.
    Complies,
    /// Facts are missing that could change it.
    Open,
    /// The authority has to say.
    Refer,
    /// The rules contradict each other.
    Conflict,
    /// Something is not done as the rules ask.
    Corrections,
}

impl Outcome {
    /// The word in the verdict.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Outcome::Complies => "complies",
            Outcome::Open => "open",
            Outcome::Refer => "refer",
            Outcome::Conflict => "conflict",
            Outcome::Corrections => "corrections",
        }
    }
}

/// The part that a provision plays for an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Role {
    Governs,
    Weaker,
    Advice,
    SetAside(Fate),
}

impl Role {
    /// The word in the verdict.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Role::Governs => "governs",
            Role::Weaker => "weaker",
            Role::Advice => "advice",
            Role::SetAside(fate) => match fate {
                Fate::NotInForce => "not-in-force",
                Fate::PassedOver => "passed-over",
                Fate::Replaced => "replaced",
                Fate::Deleted => "deleted",
                Fate::Excepted => "excepted",
                Fate::Superseded => "superseded",
                Fate::Suspended => "suspended",
                Fate::Repealed => "repealed",
                Fate::PreEmpted => "pre-empted",
                Fate::ReadAs => "read-as",
            },
        }
    }
}

/// One reason of an answer.
#[derive(Clone, Debug)]
pub(crate) struct Reason<'a> {
    pub(crate) id: ProvisionId,
    pub(crate) provision: &'a Provision,
    pub(crate) source: &'a Source,
    pub(crate) role: Role,
    /// The instrument or section that set it aside.
    pub(crate) by: Option<&'a Source>,
    /// The tests that failed.
    pub(crate) failed: Vec<Phrase>,
    /// What it waits for.
    pub(crate) condition: Option<Phrase>,
}

/// One question's answer with its reasons.
#[derive(Clone, Debug)]
pub(crate) struct Answered<'a> {
    pub(crate) question: &'a Question,
    /// Its place in the law's questions.
    pub(crate) number: usize,
    pub(crate) found: Found,
    pub(crate) value: Option<Value<'a>>,
    pub(crate) between: Option<(Value<'a>, Value<'a>)>,
    /// The answers of the two witnesses.
    pub(crate) ends: Option<[Option<Value<'a>>; 2]>,
    pub(crate) because: Vec<Reason<'a>>,
    pub(crate) advice: Vec<Reason<'a>>,
    pub(crate) set_aside: Vec<Reason<'a>>,
}

/// A fact to ask.
#[derive(Clone, Debug)]
pub(crate) struct Inquiry<'a> {
    pub(crate) path: Path,
    pub(crate) fact: String,
    pub(crate) prompt: &'a str,
    /// The names of the questions that it could change, sorted.
    pub(crate) changes: Vec<&'a str>,
}

/// An edition that may apply.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Edition<'a> {
    pub(crate) code: &'a CodeReach,
    pub(crate) subject: &'a str,
    pub(crate) possible: bool,
}

/// Something to know beside the answers.
#[derive(Clone, Debug)]
pub(crate) struct Remark<'a> {
    pub(crate) aside: Aside<'a>,
    pub(crate) question: Option<&'a str>,
    pub(crate) source: Option<&'a Source>,
    pub(crate) condition: Option<Phrase>,
}

/// An instrument that is on its way.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Coming<'a> {
    pub(crate) pending: &'a Pending,
    pub(crate) source: &'a Source,
}

/// What the law asks of one job, and how the job stands.
#[derive(Clone, Debug)]
pub(crate) struct Verdict<'a> {
    pub(crate) outcome: Outcome,
    pub(crate) reference: Option<&'a str>,
    pub(crate) codes: Vec<Edition<'a>>,
    /// The subjects that must be governed and of which it is open whether a code
    /// reaches the job, each with what that hangs on.
    pub(crate) ungoverned: Vec<(&'a str, Phrase)>,
    /// By the question's name.
    pub(crate) answers: Vec<Answered<'a>>,
    /// Most questions first, then by name.
    pub(crate) ask: Vec<Inquiry<'a>>,
    pub(crate) notes: Vec<Remark<'a>>,
    pub(crate) cautions: Vec<Aside<'a>>,
    pub(crate) pending: Vec<Coming<'a>>,
    /// The files whose provisions took part, sorted.
    pub(crate) files: Vec<FileId>,
}
