//! One thing that a reader may be asked, or has said.

use crate::glossary::model::{FieldId, Known, Question};
use crate::job::model::Given;
use crate::values::Unit;
use crate::verdict::paths::Path;
use crate::verdict::value::Value;

/// What a step is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Topic {
    /// Where the job is.
    Place,
    /// A fact, an attribute of an entry, or a list.
    Fact(Path),
}

impl Topic {
    /// The path of a fact.
    pub(crate) fn path(self) -> Option<Path> {
        match self {
            Topic::Place => None,
            Topic::Fact(path) => Some(path),
        }
    }

    /// The field whose value answers it; none for the place and for whole lists.
    pub(crate) fn field(self) -> Option<FieldId> {
        match self {
            Topic::Fact(Path::Fact(field) | Path::Attribute { field, .. }) => Some(field),
            Topic::Place | Topic::Fact(_) => None,
        }
    }
}

/// How a step stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Mark {
    /// Not known yet, and it can still change an answer.
    Asked,
    /// The job says it.
    Stated,
    /// The reader said that it is not known, and it can still change an answer.
    Waived,
    /// The reader said that it is not known, and it can no longer change an answer.
    Idle,
}

/// One of several answers to choose from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Pick<'a> {
    /// As a job writes it.
    pub(crate) name: &'a str,
    pub(crate) title: &'a str,
}

/// In which form a step is answered.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Form<'a> {
    Place,
    YesNo,
    Date,
    Count,
    Gauge,
    Quantity(Unit),
    /// Any name; those that are known here can be picked.
    Name(Vec<Pick<'a>>),
    /// One of these codes.
    Code(Vec<Pick<'a>>),
    /// One of these terms.
    Choice(Vec<Pick<'a>>),
    /// Any of these terms, or none.
    Several(Vec<Pick<'a>>),
    /// How many entries a list has.
    Entries {
        /// How many are named already.
        known: usize,
        /// Whether others beside those that are named are asked for.
        further: bool,
    },
}

impl<'a> Form<'a> {
    /// What can be picked, in the order in which it is shown and numbered from 1.
    pub(crate) fn picks(&self) -> &[Pick<'a>] {
        match self {
            Form::Name(picks) | Form::Code(picks) | Form::Choice(picks) | Form::Several(picks) => picks,
            _ => &[],
        }
    }
}

/// A question that a fact could change.
#[derive(Clone, Debug)]
pub(crate) struct Change<'a> {
    pub(crate) question: &'a Question,
    /// The loosest and the strictest answer, where the answer itself is open.
    pub(crate) between: Option<(Value<'a>, Value<'a>)>,
    /// The answer where it is settled, and only whether the job does it is open.
    pub(crate) settled: Option<Value<'a>>,
    /// Whether it may be left to the authority.
    pub(crate) may_refer: bool,
}

/// What the job says of a step.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Said<'a> {
    Nothing,
    Value(&'a Given),
    /// How many entries are named, and whether there may be others.
    Entries {
        known: usize,
        more: bool,
    },
    /// The place by its path, outermost first.
    Place(Vec<&'a str>),
}

/// One step of an interview.
#[derive(Clone, Debug)]
pub(crate) struct Step<'a> {
    pub(crate) topic: Topic,
    /// As a job writes it: `jumper.length`, `run[0].material`, `run`, `place`.
    pub(crate) path: String,
    pub(crate) title: &'a str,
    /// The question for a person; empty for the place.
    pub(crate) prompt: &'a str,
    pub(crate) form: Form<'a>,
    /// For an attribute of an entry the title of its list, and its number from 1.
    pub(crate) entry: Option<(&'a str, usize)>,
    /// For an attribute of a record the record's title.
    pub(crate) record: Option<&'a str>,
    /// Who knows it, and when it is known first; nothing for lists.
    pub(crate) known: &'a [Known],
    /// Whether the reader can know it.
    pub(crate) own: bool,
    /// Among whom and when it is asked: one of the `known`, else nothing.
    pub(crate) part: Part<'a>,
    /// The questions that it could change, by name; empty where it is stated.
    pub(crate) changes: Vec<Change<'a>>,
    /// The subjects of which it decides whether a code governs them.
    pub(crate) governs: Vec<&'a str>,
    pub(crate) said: Said<'a>,
    pub(crate) mark: Mark,
}

/// The part of an interview in which a step is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Part<'a> {
    /// Who is asked: the reader, else whoever knows.
    pub(crate) who: Option<&'a str>,
    pub(crate) when: Option<&'a str>,
}
