//! Instruments with every name resolved.

use super::places::IssuerId;
use super::text::{EditionId, Section};
use crate::glossary::expr::Expr;
use crate::glossary::model::{FieldId, QuestionId, SubjectId};
use crate::law::model::Provenance;
use crate::syntax::diagnostic::Location;
use crate::syntax::tree::{Action, PowerKind};
use crate::values::Date;
use std::fmt;
use std::sync::Arc;

/// The number of an instrument among those of a library.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct InstrumentId(pub(crate) u32);

/// The instruments of a library by their numbers. Libraries that differ in a file
/// share those that are the same.
#[derive(Clone, Debug, Default)]
pub(crate) struct Instruments(Vec<Arc<Instrument>>);

impl Instruments {
    /// The instrument with this number.
    pub(crate) fn get(&self, number: usize) -> Option<&Instrument> {
        self.0.get(number).map(|own| &**own)
    }

    /// The same, to be shared.
    pub(crate) fn share(&self, number: usize) -> Option<Arc<Instrument>> {
        self.0.get(number).cloned()
    }

    /// How many there are.
    pub(crate) fn len(&self) -> usize {
        self.0.len()
    }

    /// All of them, in the order of their numbers.
    pub(crate) fn iter(&self) -> impl DoubleEndedIterator<Item = &Instrument> + ExactSizeIterator {
        self.0.iter().map(|own| &**own)
    }

    /// Adds one behind the others.
    pub(super) fn push(&mut self, own: Arc<Instrument>) {
        self.0.push(own);
    }

    /// One that is being read; one that is shared is copied first.
    pub(super) fn get_mut(&mut self, number: usize) -> Option<&mut Instrument> {
        self.0.get_mut(number).map(Arc::make_mut)
    }
}

impl<'i> IntoIterator for &'i Instruments {
    type Item = &'i Instrument;
    type IntoIter = std::iter::Map<std::slice::Iter<'i, Arc<Instrument>>, fn(&'i Arc<Instrument>) -> &'i Instrument>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter().map(|own| &**own)
    }
}

/// What kind of instrument one is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    Statute,
    Regulation,
    EmergencyRule,
    Ordinance,
    Resolution,
    Order,
    Ruling,
    Bulletin,
    Opinion,
    Interpretation,
    Guidance,
    Instructions,
    ServiceRule,
}

/// With what force an instrument speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Weight {
    Binding,
    Advisory,
    Instructions,
    Service,
}

impl Kind {
    /// Every kind with the word for it.
    pub(crate) const ALL: &'static [(&'static str, Kind)] = &[
        ("statute", Kind::Statute),
        ("regulation", Kind::Regulation),
        ("emergency-rule", Kind::EmergencyRule),
        ("ordinance", Kind::Ordinance),
        ("resolution", Kind::Resolution),
        ("order", Kind::Order),
        ("ruling", Kind::Ruling),
        ("bulletin", Kind::Bulletin),
        ("opinion", Kind::Opinion),
        ("interpretation", Kind::Interpretation),
        ("guidance", Kind::Guidance),
        ("instructions", Kind::Instructions),
        ("service-rule", Kind::ServiceRule),
    ];

    /// The kind of this word.
    pub(crate) fn parse(word: &str) -> Option<Kind> {
        Kind::ALL.iter().find(|(name, _)| *name == word).map(|(_, kind)| *kind)
    }

    /// The word for it.
    pub(crate) fn word(self) -> &'static str {
        Kind::ALL.iter().find(|(_, kind)| *kind == self).map_or("", |(name, _)| name)
    }

    /// The force with which it speaks.
    pub(crate) fn weight(self) -> Weight {
        match self {
            Kind::Statute
            | Kind::Regulation
            | Kind::EmergencyRule
            | Kind::Ordinance
            | Kind::Resolution
            | Kind::Order
            | Kind::Ruling => Weight::Binding,
            Kind::Bulletin | Kind::Opinion | Kind::Interpretation | Kind::Guidance => Weight::Advisory,
            Kind::Instructions => Weight::Instructions,
            Kind::ServiceRule => Weight::Service,
        }
    }
}

/// When an instrument begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Start {
    On(Date),
    /// Not known; false before the day on which it was adopted.
    Unknown,
    /// On some day of a span, by its last day at the latest.
    Between(Date, Date),
}

/// When an instrument ends, the day included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum End {
    Never,
    On(Date),
    /// Taken as in force still.
    Unknown,
}

/// The time in which an instrument is in force.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Force {
    pub(crate) start: Start,
    pub(crate) end: End,
    /// The date fact by which it is.
    pub(crate) by: FieldId,
}

/// When an instrument is in force, as it was recorded; in print such as
/// `from 2023-01-01 through 2025-06-30`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct DaysInForce {
    pub(crate) start: Start,
    pub(crate) end: End,
    pub(crate) adopted: Option<Date>,
}

impl DaysInForce {
    /// The days of an instrument; nothing where it has none.
    pub(crate) fn of(own: &Instrument) -> Option<DaysInForce> {
        own.force.map(|force| DaysInForce { start: force.start, end: force.end, adopted: own.adopted })
    }
}

impl fmt::Display for DaysInForce {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.start, self.adopted) {
            (Start::On(day), _) => write!(f, "from {day}")?,
            (Start::Unknown, Some(day)) => write!(f, "from a day not known, adopted {day}")?,
            (Start::Unknown, None) => f.write_str("from a day not known")?,
            (Start::Between(first, last), _) => write!(f, "from a day between {first} and {last}")?,
        }
        match self.end {
            End::Never => Ok(()),
            End::On(day) => write!(f, " through {day}"),
            End::Unknown => f.write_str(", its end not known"),
        }
    }
}

/// A window in which an applicant chooses the text.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Election {
    pub(crate) from: Option<Date>,
    pub(crate) through: Date,
    pub(crate) by: FieldId,
}

/// A status instead of a time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Status {
    Proposed,
    Enacted,
}

/// An instrument.
#[derive(Clone, Debug)]
pub(crate) struct Instrument {
    pub(crate) id: Box<str>,
    pub(crate) issuer: IssuerId,
    pub(crate) title: Box<str>,
    pub(crate) kind: Kind,
    pub(crate) adopted: Option<Date>,
    pub(crate) force: Option<Force>,
    pub(crate) status: Option<Status>,
    pub(crate) applies: Vec<Expr>,
    pub(crate) adoptions: Vec<Adoption>,
    pub(crate) election: Option<Election>,
    pub(crate) amends: Vec<Amend>,
    pub(crate) sections: Vec<(Box<str>, Arc<Section>)>,
    pub(crate) powers: Vec<Power>,
    pub(crate) prevails: Vec<Prevails>,
    pub(crate) ends: Vec<Ends>,
    pub(crate) provenance: Provenance,
    pub(crate) at: Location,
}

impl Instrument {
    /// The first day on which it may be in force, whatever its date fact and
    /// election; nothing where no day is known.
    pub(crate) fn first_day(&self) -> Option<Date> {
        let start = match self.force?.start {
            Start::On(day) | Start::Between(day, _) => Some(day),
            Start::Unknown => self.adopted,
        };
        match self.election.and_then(|election| election.from) {
            Some(opens) => Some(start.map_or(opens, |start| start.min(opens))),
            None => start,
        }
    }

    /// The order of instruments in time: the first day, then the day adopted; an
    /// adopted day that is not told is the first day.
    pub(crate) fn rank(&self) -> (Option<Date>, Option<Date>) {
        let day = self.first_day();
        (day, self.adopted.or(day))
    }

    /// Whether it is law at some time: neither proposed nor awaiting a date.
    pub(crate) fn is_law(&self) -> bool {
        self.status.is_none() && self.force.is_some()
    }
}

/// One edition adopted, subject by subject.
#[derive(Clone, Debug)]
pub(crate) struct Adoption {
    pub(crate) edition: EditionId,
    pub(crate) subjects: Vec<SubjectId>,
    pub(crate) scope: Expr,
    /// The time within the instrument's, for `newest`: from this day until the
    /// other.
    pub(crate) from: Option<Date>,
    pub(crate) before: Option<Date>,
    pub(crate) as_published: bool,
    /// Codes beside which it stands without displacing them.
    pub(crate) beside: Vec<Box<str>>,
    pub(crate) at: Location,
}

/// Patches of one text.
#[derive(Clone, Debug)]
pub(crate) struct Amend {
    pub(crate) target: Target,
    pub(crate) renumbers: Vec<(Box<str>, Box<str>)>,
    pub(crate) patches: Vec<Patch>,
    pub(crate) at: Location,
}

/// The text that is patched.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Target {
    Edition(EditionId),
    /// Every edition of the code, with the numbers of this one.
    Any {
        code: usize,
        numbered: EditionId,
    },
    Instrument(InstrumentId),
}

/// One patch.
#[derive(Clone, Debug)]
pub(crate) struct Patch {
    pub(crate) action: Action,
    pub(crate) number: Box<str>,
    pub(crate) and_under: bool,
    /// What is put in place, excepted or read; for an exception its `wheres` are
    /// the condition and its demands what holds in the case.
    pub(crate) section: Arc<Section>,
    pub(crate) at: Location,
}

/// A power over what inner places say, on one question or a whole subject.
#[derive(Clone, Debug)]
pub(crate) struct Power {
    pub(crate) kind: PowerKind,
    pub(crate) questions: Vec<QuestionId>,
    pub(crate) subjects: Vec<SubjectId>,
    pub(crate) scope: Expr,
    pub(crate) at: Location,
}

/// `prevails over …`.
#[derive(Clone, Debug)]
pub(crate) struct Prevails {
    pub(crate) codes: Vec<Box<str>>,
    pub(crate) instructions: bool,
    /// Empty for every question.
    pub(crate) questions: Vec<QuestionId>,
}

/// A repeal or suspension.
#[derive(Clone, Debug)]
pub(crate) struct Ends {
    pub(crate) repeals: bool,
    pub(crate) target: InstrumentId,
    pub(crate) number: Option<Box<str>>,
    pub(crate) at: Location,
}
