//! The law of one place as the evaluator reads it: provisions, each with the
//! condition under which it binds, and where each comes from. Nothing else is
//! evaluated, and the set does not depend on the job.

use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId, PlaceId, QuestionId, SubjectId};
use crate::law::instrument::{DaysInForce, Kind};
use crate::syntax::diagnostic::Location;
use crate::values::{Date, Measure, Period, Terms};
use std::sync::Arc;

/// The number of a condition among the [`Law::nodes`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct CondId(pub(crate) u32);
/// The number of a provision among the [`Law::provisions`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct ProvisionId(pub(crate) u32);
/// The number of a source among the [`Law::sources`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct SourceId(pub(crate) u32);

impl CondId {
    /// The condition that never holds; always node 0.
    pub(crate) const FALSE: CondId = CondId(0);
    /// The condition that always holds; always node 1.
    pub(crate) const TRUE: CondId = CondId(1);
}

/// One condition. Equal conditions are one node, and a node's parts come before
/// it, so that evaluating in order never looks ahead.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Node {
    False,
    True,
    Not(CondId),
    And(Box<[CondId]>),
    Or(Box<[CondId]>),
    /// A test of a fact; below [`Node::Entries`] also of an attribute of that
    /// list's entry (a field whose group is the list).
    Field(FieldId, Check),
    /// Some entry (`any`), or no entry, fulfils the condition.
    Entries {
        any: bool,
        group: GroupId,
        with: CondId,
    },
    /// The final answer of a ladder question, by its place in
    /// [`Law::questions`], is one of these rungs. Always an earlier question than
    /// the one whose provisions read it.
    Answer {
        question: usize,
        rungs: Terms,
    },
    /// An instrument in an unknown span is in force; by its place in [`Law::spans`].
    Span(usize),
}

/// The law of one place.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Law {
    pub(crate) place: PlaceId,
    pub(crate) nodes: Vec<Node>,
    /// Every question known at the place; each after all whose answers it reads.
    pub(crate) questions: Vec<QuestionLaw>,
    pub(crate) provisions: Vec<Provision>,
    pub(crate) sources: Vec<Source>,
    /// Every edition that may apply, subject by subject.
    pub(crate) codes: Vec<CodeReach>,
    /// For each subject that must be governed, whether some code on it reaches.
    pub(crate) governed: Vec<(SubjectId, CondId)>,
    /// Facts that are presumed, each with the condition that it follows.
    pub(crate) presumed: Vec<(FieldId, CondId)>,
    /// `note "…"` demands.
    pub(crate) notes: Vec<Note>,
    pub(crate) cautions: Vec<Caution>,
    pub(crate) pending: Vec<Pending>,
    pub(crate) spans: Vec<UnknownSpan>,
    /// Facts by whose date an instrument of the place's path is in force.
    pub(crate) dating: Vec<FieldId>,
    /// The first day on which any instrument of the place's path is in force.
    pub(crate) first_day: Option<Date>,
    /// Every day that a test or an instrument names, ascending.
    pub(crate) days: Vec<Date>,
    /// Every period that a test names.
    pub(crate) periods: Vec<Period>,
    /// The codes that standing choices offer. A job's choice of another code is
    /// as unknown, and an unknown choice ranges over these.
    pub(crate) code_choices: Vec<Arc<str>>,
}

impl Law {
    /// A law of a place that says nothing yet.
    pub(crate) fn empty(place: PlaceId) -> Law {
        Law {
            place,
            nodes: Vec::new(),
            questions: Vec::new(),
            provisions: Vec::new(),
            sources: Vec::new(),
            codes: Vec::new(),
            governed: Vec::new(),
            presumed: Vec::new(),
            notes: Vec::new(),
            cautions: Vec::new(),
            pending: Vec::new(),
            spans: Vec::new(),
            dating: Vec::new(),
            first_day: None,
            days: Vec::new(),
            periods: Vec::new(),
            code_choices: Vec::new(),
        }
    }

    /// The first span of the same instrument. Where two laws are one, each may date it
    /// otherwise, yet whether it has begun is one thing.
    pub(crate) fn begun(&self, span: usize) -> usize {
        let own = self.spans.get(span);
        let same = |other: &UnknownSpan| {
            own.is_some_and(|own| own.instrument == other.instrument && own.issuer == other.issuer)
        };
        self.spans.iter().position(same).unwrap_or(span)
    }
}

/// What the law of a place holds on one question.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct QuestionLaw {
    pub(crate) question: QuestionId,
    /// The terms known at the place of the choice that `only` and `all of` speak
    /// of; empty for other orders.
    pub(crate) terms: Terms,
    /// For a `per` question the terms known at the place of the fact's choice.
    pub(crate) per_terms: Terms,
    /// How many parts an answer has: one, or as many as the choice of a `per`
    /// question has terms.
    pub(crate) parts: usize,
    /// For limits, the limits that the law names, loosest first; rank 0 is no
    /// limit and rank `n` is the limit at `n - 1`.
    pub(crate) scale: Vec<Measure>,
    /// The binding provisions of the whole path.
    pub(crate) whole: Vec<ProvisionId>,
    /// The powers over the question, innermost place first.
    pub(crate) powers: Vec<PowerStep>,
    /// Advisory, service and unbound instruction provisions.
    pub(crate) advice: Vec<ProvisionId>,
    /// Whether the finding is asked for; [`CondId::TRUE`] where nothing is said.
    pub(crate) asked: CondId,
    /// `met where C`.
    pub(crate) met: Option<CondId>,
    /// Ladder questions, by their place in [`Law::questions`], whose strict end
    /// contradicts this one's; told on both sides.
    pub(crate) contrary: Vec<usize>,
}

/// One power of one place over one question.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PowerStep {
    pub(crate) kind: crate::syntax::tree::PowerKind,
    /// When the power holds.
    pub(crate) cond: CondId,
    /// The provisions of the law with all instruments within the place left out.
    pub(crate) outer: Vec<ProvisionId>,
    pub(crate) source: SourceId,
    /// How many places from the outermost the holder is; provisions of deeper
    /// places are those within.
    pub(crate) depth: u32,
}

/// One demand with the condition under which it binds.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Provision {
    pub(crate) effect: Effect,
    /// Dates, adoption, scopes, elections, powers: whether the text is law for
    /// the job at all. Reads facts only, never answers.
    pub(crate) reach: CondId,
    /// When it binds; holds only where `reach` does.
    pub(crate) guard: CondId,
    /// The guard's parts in the order in which a reader is told of them: the
    /// first that fails says what became of the provision.
    pub(crate) clauses: Vec<Clause>,
    pub(crate) source: SourceId,
    /// The table that gives the figures, where one does.
    pub(crate) table: Option<SourceId>,
    /// The demand in the words of the language, such as `direct-bond is required`.
    pub(crate) words: Box<str>,
}

/// What a provision does.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Effect {
    Demand(Demand),
    /// The text leaves the answer to the authority, or readings differ.
    Refer(Box<str>),
}

/// A demand on its question's own scale.
///
/// A part is the rung's number for a ladder, the rank in [`QuestionLaw::scale`]
/// for a limit (0 for no limit), the permitted terms for `only`, the required
/// terms for `all of` (both as the bits of [`Terms`]). Two answers combine part
/// by part: the greater, the greater, the common terms, the union.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Demand {
    pub(crate) parts: Box<[u128]>,
    /// For a `per` question the terms that the demand names.
    pub(crate) named: Terms,
    /// For `only` questions whether it was said with `only` and not `none of`.
    pub(crate) only: bool,
    /// For limits the figure as the text prints it, part by part.
    pub(crate) figures: Box<[Option<Arc<str>>]>,
}

/// One part of a provision's guard.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Clause {
    pub(crate) cond: CondId,
    /// What became of the provision where the part does not hold.
    pub(crate) fate: Fate,
    /// The instrument or section that did it.
    pub(crate) by: Option<SourceId>,
}

/// What becomes of a provision whose guard does not hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Fate {
    /// Not in force for the job at all: not told among the reasons.
    NotInForce,
    PassedOver,
    Replaced,
    Deleted,
    Excepted,
    Superseded,
    Suspended,
    Repealed,
    PreEmpted,
    ReadAs,
}

/// Where a provision comes from.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Source {
    /// How many places from the outermost its issuer is; makers and suppliers
    /// stand after all places.
    pub(crate) depth: u32,
    /// The issuer's printed name.
    pub(crate) issuer: Box<str>,
    /// The instrument that adopted or, where it was amended, amended it.
    pub(crate) instrument: Box<str>,
    pub(crate) instrument_title: Box<str>,
    pub(crate) kind: Kind,
    /// For an amended text the instrument that adopted the edition.
    pub(crate) adopted_by: Option<Box<str>>,
    pub(crate) code: Option<Box<str>>,
    pub(crate) edition: Option<i32>,
    pub(crate) section: Option<Box<str>>,
    pub(crate) title: Box<str>,
    pub(crate) summary: Box<str>,
    pub(crate) provenance: Provenance,
    /// When the instrument is in force; nothing where no day is recorded.
    pub(crate) in_force: Option<DaysInForce>,
    pub(crate) at: Location,
}

/// Where a text was seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Provenance {
    Read {
        place: Box<str>,
        on: Date,
    },
    Memory,
    CommonPractice,
    /// Nothing said.
    Missing,
}

/// An edition that may apply.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CodeReach {
    pub(crate) code: Box<str>,
    pub(crate) edition: i32,
    pub(crate) subject: SubjectId,
    /// The id of the adopting instrument.
    pub(crate) by: Box<str>,
    pub(crate) reach: CondId,
    pub(crate) source: SourceId,
}

/// A duty or caution that answers no question.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Note {
    pub(crate) guard: CondId,
    pub(crate) text: Box<str>,
    pub(crate) source: SourceId,
}

/// What a reader must be told where the condition may hold.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Caution {
    pub(crate) cond: CondId,
    pub(crate) text: Box<str>,
}

/// An instrument that is proposed, or enacted without a date.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Pending {
    pub(crate) status: Box<str>,
    pub(crate) source: SourceId,
}

/// An instrument of which it is not known on which day of a span it began.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct UnknownSpan {
    pub(crate) instrument: Box<str>,
    pub(crate) issuer: Box<str>,
    /// Whether the job's date lies in the span.
    pub(crate) within: CondId,
}
