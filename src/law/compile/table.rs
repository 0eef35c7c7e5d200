//! Demands by table: one draft for each row, so that a table is nothing but
//! guarded provisions.

use super::clauses::cond_of;
use super::draft::{DraftKind, Origin, Told};
use super::expr::Inside;
use super::patch::Variant;
use super::reach::Reach;
use crate::glossary::demand::{Asked, AskedKind};
use crate::glossary::expr::Check;
use crate::glossary::model::QuestionId;
use crate::law::instrument::InstrumentId;
use crate::law::model::{CondId, Node, SourceId};
use crate::law::text::{EditionId, Section, Table, TableName};
use crate::values::Terms;

/// The condition of a row, what it gives, its words, and the table it is of.
pub(crate) type Selected = (CondId, DraftKind, Option<Box<str>>, Option<SourceId>);

/// A table that a demand can mean: when it is there, when it applies, where it
/// comes from, and what it gives.
struct Meant {
    present: CondId,
    applies: CondId,
    source: SourceId,
    table: Table,
}

impl Reach<'_, '_> {
    /// The rows that a demand by table can mean.
    pub(crate) fn rows(&mut self, question: QuestionId, from: &TableName, told: &Told) -> Vec<Selected> {
        let mut tables: Vec<Meant> = Vec::new();
        match (&from.code, from.year) {
            (None, _) => {
                for variant in told.text.tables(&from.number) {
                    let present = cond_of(&mut self.compiler.arena, &variant.presence);
                    tables.extend(self.meant(variant, present, told.text.inside(), told.adopter, told.edition));
                }
            }
            (Some(code), Some(year)) => {
                let library = self.compiler.library;
                let id = library.codes.find(code, year);
                let printed =
                    id.and_then(|id| library.codes.edition(id)).and_then(|edition| edition.section(&from.number));
                if let Some(section) = printed.map(|printed| &printed.section) {
                    let applies = self.applies(section, Inside::default());
                    let source = self.compiler.section_source(told.adopter, id, &from.number, section, None);
                    let table = section.table.clone();
                    tables.extend(table.map(|table| Meant { present: CondId::TRUE, applies, source, table }));
                }
            }
            (Some(code), None) => tables = self.tables_in_force(code, &from.number),
        }
        let mut rows = Vec::new();
        let mut found = Vec::new();
        for meant in tables {
            found.push(meant.present);
            let holds = self.compiler.arena.and([meant.present, meant.applies]);
            self.table(question, from, holds, &meant, &mut rows);
        }
        let some = self.compiler.arena.or(found);
        let none = self.compiler.arena.not(some);
        if none != CondId::FALSE {
            let why = format!("{} is not in force here, and this text sizes by it", name(from));
            rows.push((none, DraftKind::Refer(why.into()), None, None));
        }
        rows
    }

    /// The table of a code's editions in force at the place.
    fn tables_in_force(&mut self, code: &str, number: &str) -> Vec<Meant> {
        let mut tables = Vec::new();
        for text in self.texts {
            let Origin::Adopted(standing) = text.origin else { continue };
            if self.compiler.code_name(standing.edition()) != code {
                continue;
            }
            let mut ways = Vec::new();
            for subject in &standing.adoption.subjects {
                let level = self.around.as_deref_mut().unwrap_or(&mut *self.level);
                let clauses = standing.stands(self.compiler, level, self.standings, *subject);
                let stands = cond_of(&mut self.compiler.arena, &clauses);
                ways.push(stands);
            }
            let stands = self.compiler.arena.or(ways);
            for variant in text.variants.tables(number) {
                let present = cond_of(&mut self.compiler.arena, &variant.presence);
                let held = self.compiler.arena.and([stands, present]);
                let (adopter, edition) = (standing.instrument, Some(standing.edition()));
                tables.extend(self.meant(variant, held, text.variants.inside(), adopter, edition));
            }
        }
        tables
    }

    /// The table of a section in one of its forms, there on a condition.
    fn meant(
        &mut self,
        variant: &Variant,
        present: CondId,
        inside: Inside,
        adopter: InstrumentId,
        edition: Option<EditionId>,
    ) -> Option<Meant> {
        let table = variant.section.table.clone()?;
        let applies = self.applies(&variant.section, inside);
        let (number, section) = (&variant.number, &variant.section);
        let source = self.compiler.section_source(adopter, edition, number, section, variant.amended_by);
        Some(Meant { present, applies, source, table })
    }

    /// When a table applies by its own conditions.
    fn applies(&mut self, section: &Section, inside: Inside) -> CondId {
        let mut parts: Vec<CondId> = section.wheres.iter().map(|cond| self.compiler.expr(cond, inside)).collect();
        for cond in &section.excepts {
            let excepted = self.compiler.expr(cond, inside);
            parts.push(self.compiler.arena.not(excepted));
        }
        self.compiler.arena.and(parts)
    }

    fn table(
        &mut self,
        question: QuestionId,
        from: &TableName,
        present: CondId,
        Meant { table, source, .. }: &Meant,
        rows: &mut Vec<Selected>,
    ) {
        let columns: Vec<CondId> = match &table.per {
            None => vec![CondId::TRUE],
            Some((field, terms)) => {
                terms.iter().map(|terms| self.compiler.arena.put(Node::Field(*field, Check::Among(*terms)))).collect()
            }
        };
        let mut taken = Vec::new();
        for (at, row) in table.rows.iter().enumerate() {
            let before = at.checked_sub(1).and_then(|at| table.rows.get(at));
            let mut ways = Vec::new();
            for (column, (is_column, limit)) in columns.iter().zip(&row.limits).enumerate() {
                let mut parts = vec![present, *is_column];
                if row.over {
                    parts.push(self.compiler.arena.put(Node::Field(table.key, Check::Over(limit.amount))));
                } else {
                    parts.push(self.compiler.arena.put(Node::Field(table.key, Check::AtMost(limit.amount))));
                    if let Some(before) = before.and_then(|before| before.limits.get(column)) {
                        parts.push(self.compiler.arena.put(Node::Field(table.key, Check::Over(before.amount))));
                    }
                }
                let way = self.compiler.arena.and(parts);
                ways.push(way);
            }
            let selected = self.compiler.arena.or(ways);
            taken.push(selected);
            let limits: Vec<(crate::values::Measure, Option<Terms>)> =
                row.gives.iter().cloned().zip(table.columns.iter().copied()).collect();
            let asked = Asked { question, kind: AskedKind::Limits(limits) };
            let words = self.row_words(question, from, table, at);
            rows.push((selected, DraftKind::Ask(asked), Some(words), Some(*source)));
        }
        let any = self.compiler.arena.or(taken);
        let past = self.compiler.arena.not(any);
        let past = self.compiler.arena.and([present, past]);
        let why = format!("{} does not reach this case", name(from));
        rows.push((past, DraftKind::Refer(why.into()), None, Some(*source)));
    }

    fn row_words(&self, question: QuestionId, from: &TableName, table: &Table, at: usize) -> Box<str> {
        let glossary = &self.compiler.library.glossary;
        let about = &glossary[question];
        let bound =
            if matches!(about.order, crate::glossary::model::Order::AtMost(_)) { "at most" } else { "at least" };
        let gives: Vec<String> = table
            .rows
            .get(at)
            .map(|row| row.gives.as_slice())
            .unwrap_or_default()
            .iter()
            .zip(&table.columns)
            .map(|(measure, terms)| match (terms, about.per) {
                (Some(terms), Some((_, choice))) => {
                    let names: Vec<&str> = glossary
                        .broadest(choice, *terms, self.compiler.place, &self.compiler.library.places)
                        .into_iter()
                        .filter_map(|term| glossary[choice].terms.get(usize::from(term)))
                        .map(|term| &*term.name)
                        .collect();
                    format!("{} for {}", measure.shown, names.join(", "))
                }
                _ => measure.shown.to_string(),
            })
            .collect();
        format!("{} {bound} {} by {}", about.name, gives.join(", "), name(from)).into()
    }
}

fn name(from: &TableName) -> String {
    let year = from.year.map(|year| format!("{year} ")).unwrap_or_default();
    match &from.code {
        Some(code) => format!("table {code} {year}{}", from.number),
        None => format!("table {}", from.number),
    }
}
