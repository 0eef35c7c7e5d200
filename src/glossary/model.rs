//! The glossary as resolved: every name has a number.

use super::expr::Expr;
use crate::syntax::diagnostic::Location;
use crate::values::{Terms, Unit};

/// The number of a choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct ChoiceId(pub(crate) u16);
/// The number of a subject.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct SubjectId(pub(crate) u16);
/// The number of a fact, of an attribute of a record, or of an attribute of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct FieldId(pub(crate) u16);
/// The number of a list or record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct GroupId(pub(crate) u16);
/// The number of a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct QuestionId(pub(crate) u16);
/// The number of a place, given by the module that knows places.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct PlaceId(pub(crate) u32);

/// Where a declaration is known: everywhere, or in one place and within.
pub(crate) type Scope = Option<PlaceId>;

/// A choice and its terms in the order declared; terms that places add follow.
#[allow(dead_code, reason = "kept as declared, also what no verdict reads")]
#[derive(Clone, Debug)]
pub(crate) struct Choice {
    pub(crate) name: Box<str>,
    pub(crate) title: Box<str>,
    pub(crate) terms: Vec<Term>,
    pub(crate) at: Location,
}

/// A term of a choice.
#[allow(dead_code, reason = "kept as declared, also what no verdict reads")]
#[derive(Clone, Debug)]
pub(crate) struct Term {
    pub(crate) name: Box<str>,
    pub(crate) title: Box<str>,
    pub(crate) under: Option<u16>,
    /// This term and every term under it, of whatever place.
    pub(crate) covers: Terms,
    pub(crate) scope: Scope,
    pub(crate) at: Location,
}

/// A subject of law.
#[allow(dead_code, reason = "kept as declared, also what no verdict reads")]
#[derive(Clone, Debug)]
pub(crate) struct Subject {
    pub(crate) name: Box<str>,
    pub(crate) title: Box<str>,
    /// `must be governed`
    pub(crate) governed: bool,
    pub(crate) at: Location,
}

/// The shape of a fact.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Shape {
    YesNo,
    Date,
    Count,
    Gauge,
    Quantity(Unit),
    Name,
    Code,
    Choice(ChoiceId),
    Several(ChoiceId),
}

/// A fact, or an attribute of a record or list.
#[allow(dead_code, reason = "kept as declared, also what no verdict reads")]
#[derive(Clone, Debug)]
pub(crate) struct Field {
    /// The name alone, such as `length`.
    pub(crate) name: Box<str>,
    /// The name as a job writes it outside an entry: `concealed`, `jumper.length`;
    /// for an attribute of a list `run.length`.
    pub(crate) path: Box<str>,
    pub(crate) shape: Shape,
    pub(crate) title: Box<str>,
    pub(crate) ask: Option<Box<str>>,
    /// Who knows it, and when it is known first.
    pub(crate) known: Vec<Known>,
    pub(crate) ours: bool,
    pub(crate) group: Option<GroupId>,
    /// Its place among the attributes of its group.
    pub(crate) column: u16,
    pub(crate) presumed: Option<Expr>,
    pub(crate) never_before: Option<FieldId>,
    pub(crate) scope: Scope,
    pub(crate) at: Location,
}

/// Who knows a fact, and when it is known first.
pub(crate) type Known = (Vec<Box<str>>, Option<Box<str>>);

/// A list or record.
#[allow(dead_code, reason = "kept as declared, also what no verdict reads")]
#[derive(Clone, Debug)]
pub(crate) struct Group {
    pub(crate) name: Box<str>,
    pub(crate) title: Box<str>,
    pub(crate) list: bool,
    pub(crate) fields: Vec<FieldId>,
    pub(crate) scope: Scope,
    pub(crate) at: Location,
}

/// What the limits of a question are measured in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Scale {
    Gauge,
    Count,
    Quantity(Unit),
}

/// A question's order of strictness.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Order {
    /// The rungs, loosest first.
    Ladder(Vec<Box<str>>),
    AtLeast(Scale),
    AtMost(Scale),
    Only(ChoiceId),
    AllOf(ChoiceId),
}

/// How a job shows that it does what an answer asks.
#[derive(Clone, Debug)]
pub(crate) enum Met {
    Where(Expr),
    Never,
}

/// A question that the law may be asked.
#[allow(dead_code, reason = "kept as declared, also what no verdict reads")]
#[derive(Clone, Debug)]
pub(crate) struct Question {
    pub(crate) name: Box<str>,
    pub(crate) title: Box<str>,
    pub(crate) subject: SubjectId,
    pub(crate) order: Order,
    /// `per FACT`: the fact and its choice.
    pub(crate) per: Option<(FieldId, ChoiceId)>,
    pub(crate) measures: Option<FieldId>,
    pub(crate) met: Option<Met>,
    pub(crate) asked: Option<Expr>,
    pub(crate) costs: Option<Box<str>>,
    pub(crate) contrary: Vec<QuestionId>,
    pub(crate) caution: Option<Box<str>>,
    pub(crate) scope: Scope,
    pub(crate) at: Location,
}

/// What is printed for a declaration: its title, else its name.
fn printed<'a>(title: &'a str, name: &'a str) -> &'a str {
    if title.is_empty() { name } else { title }
}

impl Subject {
    /// Its title, else its name.
    pub(crate) fn printed(&self) -> &str {
        printed(&self.title, &self.name)
    }
}

impl Field {
    /// Its title, else its name without the record or list.
    pub(crate) fn printed(&self) -> &str {
        printed(&self.title, &self.name)
    }
}

impl Group {
    /// Its title, else its name.
    pub(crate) fn printed(&self) -> &str {
        printed(&self.title, &self.name)
    }
}

impl Question {
    /// Its title, else its name.
    pub(crate) fn printed(&self) -> &str {
        printed(&self.title, &self.name)
    }
}

/// The fields that play a part for the engine.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Roles {
    /// `dates instruments`
    pub(crate) dates: Option<FieldId>,
    /// `chooses the text`, with the numbers of the terms `earlier` and `later`.
    pub(crate) text: Option<(FieldId, u16, u16)>,
    /// `chooses the code`
    pub(crate) code: Option<FieldId>,
    /// `names the supplier`
    pub(crate) supplier: Option<FieldId>,
}
