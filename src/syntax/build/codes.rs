//! Codes, editions, and the text that they hold: sections, tables, patches.

use super::{Builder, Line, Match, Matches};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    Action, Body, Code, Edition, EditionName, LeftOut, Patch, Path, Renumber, Row, Section, Span, Table, Text,
    TextClause, Unread, Word,
};

/// The number, title, subjects and source that a section or a patch begins with.
struct Head {
    number: Word,
    title: Option<Text>,
    subjects: Vec<Word>,
    extract: Option<(EditionName, Word)>,
    body: Body,
    and_under: bool,
}

impl<'a> Builder<'a> {
    pub(super) fn code(&mut self, found: Match<'a>) -> Option<Code> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let (mut title, mut subjects): (_, Option<Line<Vec<Word>>>) = (None, None);
        for clause in inner {
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut title, text, "a title");
                }
                Rule::knowingly => self.knowingly(clause, span),
                _ => {
                    let line = self.on_names(clause);
                    self.once(&mut subjects, line, "`on`");
                }
            }
        }
        if subjects.is_none() {
            self.missing(
                name.span,
                format!("the code `{}` does not say what it governs", name.text),
                "add `on` and its subjects",
            );
        }
        let subjects = subjects.map(|line| line.value).unwrap_or_default();
        Some(Code { name, title, subjects, span })
    }

    /// `on A, B` with the span of the line.
    pub(super) fn on_names(&mut self, found: Match<'a>) -> Line<Vec<Word>> {
        let span = self.span(&found);
        Line { value: self.inner_words(found), span }
    }

    pub(super) fn edition_name(&mut self, found: Match<'a>) -> Option<EditionName> {
        let mut inner = found.into_inner();
        Some(EditionName { code: self.word(&inner.next()?), year: self.word(&inner.next()?) })
    }

    pub(super) fn edition(&mut self, found: Match<'a>) -> Option<Edition> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.edition_name(inner.next()?)?;
        let (mut published, mut text_not_here, mut provenance) = (None, None, None);
        let mut revises: Option<Line<EditionName>> = None;
        let mut clauses = Vec::new();
        for clause in inner {
            match clause.as_rule() {
                Rule::published => {
                    let date = self.inner_word(clause)?;
                    self.once(&mut published, date, "`published`");
                }
                Rule::revises => {
                    let span = self.span(&clause);
                    let value = self.edition_name(clause.into_inner().next()?)?;
                    self.once(&mut revises, Line { value, span }, "`revises`");
                }
                Rule::text_not_here => {
                    let span = self.span(&clause);
                    self.once(&mut text_not_here, span, "`text not here`");
                }
                Rule::read | Rule::memory | Rule::practice => {
                    let source = self.provenance(clause)?;
                    self.once(&mut provenance, source, "the source");
                }
                Rule::knowingly => self.knowingly(clause, span),
                _ => clauses.extend(self.text_clause(clause)),
            }
        }
        Some(Edition {
            name,
            revises: revises.map(|line| line.value),
            published,
            text_not_here: text_not_here.is_some(),
            provenance,
            clauses,
            span,
        })
    }

    /// A clause of an edition or of an `amend` block.
    pub(super) fn text_clause(&mut self, found: Match<'a>) -> Option<TextClause> {
        let span = self.span(&found);
        Some(match found.as_rule() {
            Rule::section | Rule::table => TextClause::Section(self.section(found)?),
            Rule::patch => TextClause::Patch(self.patch(found)?),
            Rule::definition => TextClause::Definition(self.definition(found)?),
            Rule::renumber => {
                let mut inner = found.into_inner();
                let (from, to) = (self.word(&inner.next()?), self.word(&inner.next()?));
                TextClause::Renumber(Renumber { from, to, span })
            }
            Rule::left_out => {
                let mut inner = found.into_inner();
                let (number, why) = (self.word(&inner.next()?), self.text(&inner.next()?));
                TextClause::LeftOut(LeftOut { number, why, span })
            }
            _ => {
                let mut inner = found.into_inner();
                let number = self.word(&inner.next()?);
                let questions = inner.next().map(|on| self.inner_words(on)).unwrap_or_default();
                TextClause::Unread(Unread { number, questions, span })
            }
        })
    }

    /// A section or a table.
    pub(super) fn section(&mut self, found: Match<'a>) -> Option<Section> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let number = self.word(&inner.next()?);
        let Head { number, title, subjects, extract, body, .. } = self.text_of(number, inner, span)?;
        Some(Section { number, title, subjects, extract, body, span })
    }

    fn patch(&mut self, found: Match<'a>) -> Option<Patch> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let action = match inner.next()?.as_str() {
            "replace" => Action::Replace,
            "add" => Action::Add,
            "delete" => Action::Delete,
            "except" => Action::Except,
            _ => Action::Reads,
        };
        let number = self.word(&inner.next()?);
        let Head { number, title, subjects, extract, body, and_under } = self.text_of(number, inner, span)?;
        Some(Patch { action, number, and_under, title, subjects, extract, body, span })
    }

    /// Everything behind the number of a section, table or patch.
    fn text_of(&mut self, number: Word, clauses: Matches<'a>, span: Span) -> Option<Head> {
        let (mut title, mut subjects, mut extract) = (None, None, None);
        let (mut body, mut and_under) = (Body::default(), false);
        let (mut key, mut column, mut question, mut terms): (Option<Path>, _, Option<Word>, _) =
            (None, None, None, Vec::new());
        let mut rows: Vec<Row> = Vec::new();
        for clause in clauses {
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut title, text, "a title");
                }
                Rule::on_names => {
                    let line = self.on_names(clause);
                    self.once(&mut subjects, line, "`on`");
                }
                Rule::extract => {
                    let span = self.span(&clause);
                    let mut inner = clause.into_inner();
                    let value = (self.edition_name(inner.next()?)?, self.word(&inner.next()?));
                    self.once(&mut extract, Line { value, span }, "`as`");
                }
                Rule::and_under => and_under = true,
                Rule::summary => {
                    let text = self.inner_text(clause)?;
                    self.once(&mut body.summary, text, "`summary`");
                }
                Rule::where_line => body.wheres.extend(self.inner_cond(clause)),
                Rule::except_where => body.excepts.extend(self.inner_cond(clause)),
                Rule::read | Rule::memory | Rule::practice => {
                    let source = self.provenance(clause)?;
                    self.once(&mut body.provenance, source, "the source");
                }
                Rule::by_key => key = self.inner_path(clause),
                Rule::by_column => {
                    let mut inner = clause.into_inner();
                    let path = self.path(&inner.next()?);
                    column = Some((path, self.words(inner)));
                }
                Rule::gives => question = self.inner_word(clause),
                Rule::for_terms => terms = self.inner_words(clause),
                Rule::row_through | Rule::row_over => rows.extend(self.row(clause)),
                Rule::knowingly => self.knowingly(clause, span),
                _ => body.demands.extend(self.demand(clause)),
            }
        }
        if let (Some(key), Some(gives)) = (key, question) {
            if rows.is_empty() {
                self.missing(
                    number.span,
                    format!("the table `{}` has no rows", number.text),
                    "write its rows below it, such as `through 15 A gives 14 AWG`",
                );
            }
            let span = rows.last().map_or(span, |row| key.head.span.to(row.span));
            body.table = Some(Table { key, per: column, gives, terms, rows, span });
        }
        let subjects = subjects.map(|line: Line<Vec<Word>>| line.value).unwrap_or_default();
        let extract = extract.map(|line: Line<(EditionName, Word)>| line.value);
        Some(Head { number, title, subjects, extract, body, and_under })
    }

    fn row(&mut self, found: Match<'a>) -> Option<Row> {
        let span = self.span(&found);
        let over = found.as_rule() == Rule::row_over;
        let mut inner = found.into_inner();
        let gives = inner.next_back()?;
        let limits = self.values(inner);
        Some(Row { over, limits, gives: self.values(gives.into_inner()), span })
    }
}
