//! Sections, tables and demands: from tree to resolved text.

use super::words::demand_words;
use super::{Reader, Standing};
use crate::glossary::model::{Order, QuestionId, Scale, Shape};
use crate::law::model::Provenance;
use crate::law::text::{Demanded, DemandedKind, Row, Section, Table, TableName};
use crate::syntax::codes as errors;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree;
use crate::values::{Measure, Terms};

/// The head of a section or patch: its title and the subjects it names.
pub(crate) struct Head<'t> {
    pub(crate) title: Option<&'t tree::Text>,
    pub(crate) subjects: &'t [tree::Word],
    pub(crate) span: tree::Span,
}

impl Reader<'_> {
    /// Reads what a section or patch says.
    pub(crate) fn section(&mut self, head: &Head, body: &tree::Body, around: &Provenance, standing: &Standing) -> Section {
        Section {
            title: head.title.map(|title| title.text.clone()).unwrap_or_default(),
            summary: body.summary.as_ref().map(|summary| summary.text.clone()).unwrap_or_default(),
            subjects: self.subjects(head.subjects, standing),
            wheres: body.wheres.iter().map(|cond| self.condition(cond, standing)).collect(),
            excepts: body.excepts.iter().map(|cond| self.condition(cond, standing)).collect(),
            demands: body.demands.iter().filter_map(|demand| self.demand(demand, standing)).collect(),
            table: body.table.as_ref().and_then(|table| self.table(table, standing)),
            cases: Vec::new(),
            definition: false,
            provenance: self.provenance(body.provenance.as_ref(), around, standing),
            at: standing.at(head.span),
        }
    }

    fn demand(&mut self, demand: &tree::Demand, standing: &Standing) -> Option<Demanded> {
        let kind = match &demand.kind {
            tree::DemandKind::ByTable { question, least, code, year, number } => {
                let question = self.question(question, standing)?;
                self.bound_fits(question, *least, demand.span, standing)?;
                let year = match year {
                    Some(year) => Some(self.year(year, standing)?),
                    None => None,
                };
                let code = code.as_ref().map(|code| code.text.clone());
                DemandedKind::Table { question, from: TableName { code, year, number: number.text.clone() } }
            }
            tree::DemandKind::Refer { questions, why } => {
                let questions = self.questions(questions, standing);
                DemandedKind::Refer { questions, why: why.text.clone() }
            }
            tree::DemandKind::Bind { questions } => DemandedKind::Bind(self.questions(questions, standing)),
            tree::DemandKind::Note { text } => DemandedKind::Note(text.text.clone()),
            _ => {
                let context = self.context(standing, true);
                DemandedKind::Value(self.glossary.demand(demand, &context, self.diagnostics)?)
            }
        };
        Some(Demanded { kind, words: demand_words(demand), at: standing.at(demand.span) })
    }

    /// Looks up several questions.
    pub(crate) fn questions(&mut self, words: &[tree::Word], standing: &Standing) -> Vec<QuestionId> {
        words.iter().filter_map(|word| self.question(word, standing)).collect()
    }

    /// Whether `at least` or `at most` is the bound that the question asks for.
    fn bound_fits(&mut self, question: QuestionId, least: bool, span: tree::Span, standing: &Standing) -> Option<()> {
        let question = self.glossary.questions.get(question.0 as usize)?;
        let fits = match question.order {
            Order::AtLeast(_) => least,
            Order::AtMost(_) => !least,
            _ => false,
        };
        if fits {
            return Some(());
        }
        let name = question.name.clone();
        self.tell(
            Diagnostic::new(errors::QUESTION, standing.at(span), format!("`{name}` is not answered by such a table"))
                .help("a table gives limits: `at least by table` for a question of the order `at least`, `at most by table` for one of `at most`"),
        );
        None
    }

    fn table(&mut self, table: &tree::Table, standing: &Standing) -> Option<Table> {
        let key = self.field(&table.key, standing)?;
        let key_scale = self.scale_of(key, &table.key, standing)?;
        let per = match &table.per {
            None => None,
            Some((path, terms)) => {
                let field = self.field(path, standing)?;
                let Some(Shape::Choice(choice)) = self.glossary.fields.get(field.0 as usize).map(|field| field.shape) else {
                    self.tell(
                        Diagnostic::new(errors::SHAPE, standing.at(path.head.span), format!("`{}` is no choice", path.head.text))
                            .help("the columns of a table stand for the terms of a choice"),
                    );
                    return None;
                };
                let terms: Vec<Terms> = terms.iter().filter_map(|term| self.terms(choice, term, standing)).collect();
                Some((field, terms))
            }
        };
        let gives = self.question(&table.gives, standing)?;
        let question = self.glossary.questions.get(gives.0 as usize)?;
        let (Order::AtLeast(scale) | Order::AtMost(scale)) = question.order else {
            let name = question.name.clone();
            self.tell(
                Diagnostic::new(errors::QUESTION, standing.at(table.gives.span), format!("`{name}` has no limits"))
                    .help("a table gives a question of the order `at least` or `at most`"),
            );
            return None;
        };
        let columns = match question.per.map(|(_, choice)| choice) {
            None if table.terms.is_empty() => vec![None],
            None => {
                self.tell(
                    Diagnostic::new(errors::QUESTION, standing.at(table.gives.span), "the question is not asked for each term")
                        .help("leave out `for` here"),
                );
                return None;
            }
            Some(_) if table.terms.is_empty() => vec![None],
            Some(choice) => table.terms.iter().map(|term| self.terms(choice, term, standing)).collect(),
        };
        let limits = per.as_ref().map_or(1, |(_, terms)| terms.len());
        let mut rows: Vec<Row> = Vec::new();
        for row in &table.rows {
            if row.limits.len() != limits || row.gives.len() != columns.len() {
                self.tell(
                    Diagnostic::new(errors::SHAPE, standing.at(row.span), "the row does not have as many figures as the table has columns")
                        .help(format!("give {limits} after `through` or `over`, and {} after `gives`", columns.len())),
                );
                continue;
            }
            let read = Row {
                over: row.over,
                limits: row.limits.iter().filter_map(|value| self.limit(value, key_scale, standing)).collect(),
                gives: row.gives.iter().filter_map(|value| self.limit(value, scale, standing)).collect(),
            };
            if let Some(before) = rows.last() {
                let falls = before.limits.iter().zip(&read.limits).any(|(before, here)| here.amount < before.amount);
                if falls || before.over {
                    self.tell(
                        Diagnostic::new(errors::SHAPE, standing.at(row.span), "the rows do not rise")
                            .help("write the rows from the smallest limit to the largest, a row with `over` last"),
                    );
                }
            }
            rows.push(read);
        }
        Some(Table { key, per, gives, columns, rows })
    }

    fn scale_of(&mut self, field: crate::glossary::model::FieldId, path: &tree::Path, standing: &Standing) -> Option<Scale> {
        match self.glossary.fields.get(field.0 as usize).map(|field| field.shape) {
            Some(Shape::Gauge) => Some(Scale::Gauge),
            Some(Shape::Count) => Some(Scale::Count),
            Some(Shape::Quantity(unit)) => Some(Scale::Quantity(unit)),
            _ => {
                self.tell(
                    Diagnostic::new(errors::SHAPE, standing.at(path.head.span), format!("`{}` is not measured", path.head.text))
                        .help("a table is looked up by a count, a gauge or a quantity"),
                );
                None
            }
        }
    }

    fn limit(&mut self, value: &tree::Value, scale: Scale, standing: &Standing) -> Option<Measure> {
        let context = self.context(standing, true);
        self.glossary.limit_value(value, scale, &context, self.diagnostics)
    }

    fn terms(&mut self, choice: crate::glossary::model::ChoiceId, word: &tree::Word, standing: &Standing) -> Option<Terms> {
        let context = self.context(standing, true);
        self.glossary.terms_named(choice, std::slice::from_ref(word), &context, self.diagnostics)
    }
}
