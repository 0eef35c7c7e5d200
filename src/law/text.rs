//! The texts of law: sections with their conditions and demands resolved, and
//! the editions made of them.

use crate::glossary::demand::Asked;
use crate::glossary::expr::Expr;
use crate::glossary::model::{FieldId, QuestionId, SubjectId};
use crate::law::model::Provenance;
use crate::syntax::diagnostic::Location;
use crate::values::{Date, Measure, Terms};
use std::collections::HashMap;
use std::sync::Arc;

/// What a section, table or definition says.
#[derive(Clone, Debug)]
pub(crate) struct Section {
    pub(crate) title: Box<str>,
    pub(crate) summary: Box<str>,
    /// The subjects that it names with `on`; empty for those of its text.
    pub(crate) subjects: Vec<SubjectId>,
    pub(crate) wheres: Vec<Expr>,
    /// Conditions under which it does not apply.
    pub(crate) excepts: Vec<Expr>,
    pub(crate) demands: Vec<Demanded>,
    pub(crate) table: Option<Table>,
    /// Excepted cases that carry demands of their own.
    pub(crate) cases: Vec<Case>,
    /// A named condition of the edition, not a rule.
    pub(crate) definition: bool,
    pub(crate) provenance: Provenance,
    pub(crate) at: Location,
}

/// An excepted case with what holds in it.
#[derive(Clone, Debug)]
pub(crate) struct Case {
    pub(crate) cond: Expr,
    pub(crate) demands: Vec<Demanded>,
}

/// One demand of a section.
#[derive(Clone, Debug)]
pub(crate) struct Demanded {
    pub(crate) kind: DemandedKind,
    /// The demand as a reader sees it, such as `direct-bond is required`.
    pub(crate) words: Box<str>,
    pub(crate) at: Location,
}

/// The forms of a demand.
#[derive(Clone, Debug)]
pub(crate) enum DemandedKind {
    Value(Asked),
    Table { question: QuestionId, from: TableName },
    Refer { questions: Vec<QuestionId>, why: Box<str> },
    Bind(Vec<QuestionId>),
    Note(Box<str>),
}

/// Which table a demand looks up.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(crate) struct TableName {
    /// None for a table of the same text.
    pub(crate) code: Option<Box<str>>,
    /// None for the edition in force at the place.
    pub(crate) year: Option<i32>,
    pub(crate) number: Box<str>,
}

/// A table, every cell read.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    pub(crate) key: FieldId,
    pub(crate) per: Option<(FieldId, Vec<Terms>)>,
    pub(crate) gives: QuestionId,
    /// The terms for which each column of results stands; one `None` for a
    /// question that is not `per` a fact.
    pub(crate) columns: Vec<Option<Terms>>,
    pub(crate) rows: Vec<Row>,
}

/// One row of a table.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    /// `over` and not `through`.
    pub(crate) over: bool,
    pub(crate) limits: Vec<Measure>,
    pub(crate) gives: Vec<Measure>,
}

/// The number of an edition among those of a library.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct EditionId(pub(crate) u32);

/// A section's identity, which stays when it is renumbered or replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Lineage(pub(crate) u32);

/// One section of an edition as published.
#[derive(Clone, Debug)]
pub(crate) struct Printed {
    pub(crate) lineage: Lineage,
    pub(crate) number: Box<str>,
    pub(crate) section: Arc<Section>,
}

/// A code.
#[derive(Clone, Debug)]
pub(crate) struct Code {
    pub(crate) name: Box<str>,
    pub(crate) title: Box<str>,
    pub(crate) subjects: Vec<SubjectId>,
    /// Its editions by year, ascending.
    pub(crate) editions: Vec<(i32, EditionId)>,
    pub(crate) at: Location,
}

/// An edition of a code as published, `revises` carried out.
#[derive(Clone, Debug)]
pub(crate) struct Edition {
    pub(crate) code: usize,
    pub(crate) year: i32,
    pub(crate) revises: Option<EditionId>,
    pub(crate) published: Option<Date>,
    /// `text not here`
    pub(crate) text_not_here: bool,
    pub(crate) provenance: Provenance,
    pub(crate) sections: Vec<Printed>,
    /// Sections passed over on purpose, with the reason.
    pub(crate) left_out: Vec<(Box<str>, Box<str>, Location)>,
    /// Sections not read, here or in the edition revised.
    pub(crate) unread: Vec<Unread>,
    /// The other editions that `revises` ties to this one.
    pub(crate) family: u32,
    pub(crate) at: Location,
}

/// A section not read: its number, the questions that it bears on, none for all of
/// the code's subjects, and where it is said.
pub(crate) type Unread = (Box<str>, Vec<QuestionId>, Location);

/// The codes of a library and their editions.
#[derive(Clone, Debug, Default)]
pub(crate) struct Codes {
    pub(crate) codes: Vec<Code>,
    pub(crate) by_name: HashMap<Box<str>, usize>,
    pub(crate) editions: Vec<Edition>,
}

impl Codes {
    /// The code with this name.
    pub(crate) fn code(&self, name: &str) -> Option<&Code> {
        self.by_name.get(name).and_then(|number| self.codes.get(*number))
    }

    /// The edition of a code of this year.
    pub(crate) fn find(&self, code: &str, year: i32) -> Option<EditionId> {
        let code = self.code(code)?;
        code.editions.iter().find(|(of, _)| *of == year).map(|(_, id)| *id)
    }

    /// The edition with this number.
    pub(crate) fn edition(&self, id: EditionId) -> Option<&Edition> {
        self.editions.get(id.0 as usize)
    }

    /// The code of an edition.
    pub(crate) fn code_of(&self, edition: &Edition) -> Option<&Code> {
        self.codes.get(edition.code)
    }
}

impl Edition {
    /// The section printed with this number.
    pub(crate) fn section(&self, number: &str) -> Option<&Printed> {
        self.sections.iter().find(|printed| &*printed.number == number)
    }

    /// The section that has this identity.
    pub(crate) fn by_lineage(&self, lineage: Lineage) -> Option<&Printed> {
        self.sections.iter().find(|printed| printed.lineage == lineage)
    }
}

impl Section {
    /// The questions that the section answers or refers.
    pub(crate) fn questions(&self) -> Vec<QuestionId> {
        let mut questions: Vec<QuestionId> = self
            .demands
            .iter()
            .chain(self.cases.iter().flat_map(|case| &case.demands))
            .flat_map(|demand| demand.kind.questions())
            .chain(self.table.as_ref().map(|table| table.gives))
            .collect();
        questions.sort();
        questions.dedup();
        questions
    }
}

impl DemandedKind {
    /// The questions that the demand speaks of.
    pub(crate) fn questions(&self) -> Vec<QuestionId> {
        match self {
            DemandedKind::Value(asked) => vec![asked.question],
            DemandedKind::Table { question, .. } => vec![*question],
            DemandedKind::Refer { questions, .. } | DemandedKind::Bind(questions) => questions.clone(),
            DemandedKind::Note(_) => Vec::new(),
        }
    }
}

/// Whether `number` is a sub-section of `whole`: `310.1.1` of `310.1`,
/// `250.104(B)(1)` of `250.104(B)`.
pub(crate) fn is_under(number: &str, whole: &str) -> bool {
    number.strip_prefix(whole).is_some_and(|rest| rest.starts_with(['.', '(']))
}
