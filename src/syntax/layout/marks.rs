//! Which token begins a line, how deep, which begins a column, and where a line
//! that is too long may be broken. This is where the layout of each form is
//! settled; nothing here looks at how the file was laid out before.

use super::tokens::Tokens;
use super::{INDENT, WIDTH};
use crate::syntax::grammar::{Grammar, Rule};
use pest::Parser;
use pest::iterators::{Pair, Pairs};

/// What is settled of one token.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Mark {
    /// It begins a line.
    pub(super) line: Option<Start>,
    /// It begins a column, with at least so many blanks before it.
    pub(super) column: Option<usize>,
    /// A long line may be broken before it, at the lowest of these first.
    pub(super) rank: Option<usize>,
}

/// How a line begins.
#[derive(Clone, Copy, Debug)]
pub(super) struct Start {
    /// How many blocks it stands in.
    pub(super) depth: usize,
    pub(super) class: Class,
}

/// Lines of one class that follow each other have their columns aligned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Class {
    /// A line without columns.
    Plain,
    /// `kind ordinance`, `in force from …`: a clause's word and what it says.
    Told,
    Term,
    Subject,
    Fact,
    /// A fact of a list or record; the names of one list stand in one column.
    Attribute,
    /// A row of a table.
    Row,
    /// `nothing of its own on …`
    Nothing,
}

/// Where a clause of a line begins.
const CLAUSE: usize = 0;
/// For which terms the columns of a table are.
const TERMS: usize = 1;
/// The outermost `or` and `and` of a condition; each bracket around is two more.
pub(super) const OR: usize = 10;
const AND: usize = 11;
/// Between the values of a list: where nothing else will do.
pub(super) const LIST: usize = 10_000;

/// Settles the layout of a file; `found` is what the grammar made of it.
pub(super) fn marks(tokens: &Tokens<'_>, found: Pairs<'_, Rule>) -> Vec<Mark> {
    let mut marker = Marker { tokens, marks: vec![Mark::default(); tokens.list.len()] };
    for pair in found {
        match pair.as_rule() {
            Rule::EOI => {}
            Rule::sheet => marker.sheet(pair),
            _ => marker.clause(pair, 0),
        }
    }
    let mut nest = 0;
    let mut previous = "";
    for (mark, token) in marker.marks.iter_mut().zip(&tokens.list) {
        match previous {
            "(" => nest += 1,
            ")" => nest -= 1,
            "," if mark.rank.is_none() => mark.rank = Some(LIST),
            _ => {}
        }
        if let Some(rank) = mark.rank.as_mut().filter(|rank| (OR..LIST).contains(&**rank)) {
            *rank += 2 * nest;
        }
        previous = token.text;
    }
    marker.marks
}

struct Marker<'m, 't> {
    tokens: &'m Tokens<'t>,
    marks: Vec<Mark>,
}

impl Marker<'_, '_> {
    fn number(&self, pair: &Pair<'_, Rule>) -> usize {
        self.tokens.at(pair.as_span().start())
    }

    fn line(&mut self, number: usize, depth: usize, class: Class) {
        if let Some(mark) = self.marks.get_mut(number) {
            mark.line = Some(Start { depth, class });
        }
    }

    fn column(&mut self, number: usize, gap: usize) {
        if let Some(mark) = self.marks.get_mut(number) {
            mark.column = Some(gap);
        }
    }

    fn rank(&mut self, number: usize, rank: usize) {
        if let Some(mark) = self.marks.get_mut(number) {
            mark.rank = Some(rank);
        }
    }

    /// A clause on a line of its own, with what belongs to it below.
    fn clause(&mut self, pair: Pair<'_, Rule>, depth: usize) {
        let number = self.number(&pair);
        match pair.as_rule() {
            Rule::example => self.example(pair, depth),
            Rule::job_entry => self.entry(pair, depth),
            rule if is_block(rule) => self.block(pair, depth),
            rule => {
                let class = class(rule);
                self.line(number, depth, class);
                match class {
                    Class::Told if rule == Rule::in_force => self.column(number + 2, 1),
                    Class::Told | Class::Row => self.column(number + 1, 1),
                    _ => {}
                }
                self.inside(pair);
            }
        }
    }

    /// An item or clause that has clauses of its own. The short ones stand on its
    /// first line as long as no other came before them.
    fn block(&mut self, pair: Pair<'_, Rule>, depth: usize) {
        let class = class(pair.as_rule());
        self.line(self.number(&pair), depth, class);
        let mut below = false;
        let mut before = None;
        for part in pair.into_inner() {
            let rule = part.as_rule();
            let number = self.number(&part);
            if rule == Rule::per_path && matches!(before, Some(Rule::order_least | Rule::order_most)) {
                self.rank(number, CLAUSE);
            } else if !below && (is_named(rule) || is_short(rule)) {
                match (class, rule) {
                    (Class::Term, Rule::term) | (_, Rule::name) => {}
                    (Class::Term | Class::Subject | Class::Fact | Class::Attribute, _) => self.column(number, 2),
                    (_, Rule::in_place) => self.column(number, 2),
                    _ => {}
                }
                if is_short(rule) {
                    self.rank(number, if rule == Rule::for_terms { TERMS } else { CLAUSE });
                }
            } else {
                below = true;
                self.clause(part, depth + 1);
            }
            before = Some(rule);
        }
    }

    /// An example: its job and what its verdict must show, each a block.
    fn example(&mut self, pair: Pair<'_, Rule>, depth: usize) {
        self.line(self.number(&pair), depth, Class::Plain);
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::text => {}
                Rule::knowingly => self.clause(part, depth + 1),
                Rule::example_job => {
                    self.line(self.number(&part), depth + 1, Class::Plain);
                    // The word `verdict` leaves nothing behind in what the grammar finds.
                    self.line(self.tokens.at(part.as_span().end()), depth + 1, Class::Plain);
                    for line in part.into_inner() {
                        self.clause(line, depth + 2);
                    }
                }
                _ => self.clause(part, depth + 2),
            }
        }
    }

    /// A job sheet; its first word may be `job`.
    fn sheet(&mut self, pair: Pair<'_, Rule>) {
        let headed = self.tokens.text(0) == "job";
        if headed {
            self.line(0, 0, Class::Plain);
        }
        for line in pair.into_inner() {
            self.clause(line, usize::from(headed));
        }
    }

    /// An entry of a list, on one line where it fits, else a fact to a line.
    fn entry(&mut self, pair: Pair<'_, Rule>, depth: usize) {
        let (first, end) = (self.number(&pair), self.tokens.at(pair.as_span().end()));
        self.line(first, depth, Class::Plain);
        let apart = pair.clone().into_inner().flatten().all(|part| self.is_apart(&part));
        if apart && self.fits(first, end, depth) {
            return;
        }
        for name in pair.into_inner().filter(|part| part.as_rule() == Rule::name).skip(1) {
            self.line(self.number(&name), depth + 1, Class::Plain);
        }
        self.line(end - 1, depth, Class::Plain);
    }

    /// Whether an entry is short enough for one line, and no comment stands in it.
    fn fits(&self, first: usize, end: usize, depth: usize) -> bool {
        let width: usize = (first..end).map(|number| self.tokens.text(number).chars().count() + 1).sum();
        depth * INDENT + width <= WIDTH + 1 && !self.tokens.comment_within(first + 1, end)
    }

    /// Whether a figure stays what it is where a word follows it on its line: a unit
    /// that the language does not know is one only at the end of a line, and a name
    /// that is a unit too would be taken for one.
    fn is_apart(&self, part: &Pair<'_, Rule>) -> bool {
        if part.as_rule() != Rule::figure {
            return true;
        }
        match part.clone().into_inner().find(|word| word.as_rule() == Rule::unit) {
            Some(unit) => is_known_unit(unit.as_str()),
            None => !is_known_unit(self.tokens.text(self.number(part) + 1)),
        }
    }

    /// What stands inside of a line: conditions, and clauses at which it may be broken.
    fn inside(&mut self, pair: Pair<'_, Rule>) {
        let parted = pair.as_rule() == Rule::nothing;
        for part in pair.into_inner().flatten() {
            let number = self.number(&part);
            match part.as_rule() {
                Rule::or => self.rank(number, OR),
                Rule::and => self.rank(number, AND),
                Rule::row_gives => self.column(number, 2),
                Rule::read | Rule::memory | Rule::practice if parted => self.column(number, 1),
                rule if is_part(rule) => self.rank(number, CLAUSE),
                _ => {}
            }
        }
    }
}

fn is_known_unit(word: &str) -> bool {
    let figure = format!("1 {word} x");
    Grammar::parse(Rule::figure, &figure).is_ok_and(|found| found.as_str().len() == word.len() + 2)
}

/// What has clauses of its own.
fn is_block(rule: Rule) -> bool {
    matches!(
        rule,
        Rule::choice
            | Rule::term_line
            | Rule::extend
            | Rule::subject
            | Rule::fact
            | Rule::list
            | Rule::record
            | Rule::attribute
            | Rule::question
            | Rule::definition
            | Rule::code
            | Rule::edition
            | Rule::section
            | Rule::table
            | Rule::patch
            | Rule::place
            | Rule::maker
            | Rule::supplier
            | Rule::instrument
            | Rule::amend
    )
}

/// What an item begins with, before any of which no line is broken.
fn is_named(rule: Rule) -> bool {
    matches!(
        rule,
        Rule::name
            | Rule::term
            | Rule::number
            | Rule::code_name
            | Rule::text
            | Rule::edition_name
            | Rule::action
            | Rule::plain_shape
            | Rule::quantity
            | Rule::several
            | Rule::place_name
            | Rule::amend_any
            | Rule::amend_instrument
            | Rule::and_under
            | Rule::extract
    )
}

/// Short clauses of an item, which stand on its first line.
fn is_short(rule: Rule) -> bool {
    matches!(
        rule,
        Rule::under_term
            | Rule::governed
            | Rule::never_before
            | Rule::in_place
            | Rule::dates_instruments
            | Rule::chooses_text
            | Rule::chooses_code
            | Rule::names_supplier
            | Rule::on_names
            | Rule::published
            | Rule::revises
            | Rule::text_not_here
            | Rule::by_key
            | Rule::by_column
            | Rule::gives
            | Rule::for_terms
            | Rule::within_place
            | Rule::of_issuer
    )
}

/// Clauses inside of a line before which it may be broken.
fn is_part(rule: Rule) -> bool {
    matches!(
        rule,
        Rule::on_names
            | Rule::for_names
            | Rule::where_line
            | Rule::otherwise
            | Rule::as_published
            | Rule::beside
            | Rule::by_authority
    )
}

fn class(rule: Rule) -> Class {
    match rule {
        Rule::term_line => Class::Term,
        Rule::subject => Class::Subject,
        Rule::fact => Class::Fact,
        Rule::attribute => Class::Attribute,
        Rule::row_through | Rule::row_over => Class::Row,
        Rule::nothing => Class::Nothing,
        Rule::kind
        | Rule::adopted
        | Rule::in_force
        | Rule::status
        | Rule::read
        | Rule::office
        | Rule::also
        | Rule::boundary => Class::Told,
        _ => Class::Plain,
    }
}
