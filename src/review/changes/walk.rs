//! The walk over an item: clause by clause, and within each over its conditions,
//! demands, tables and days. What can be changed there is the business of its siblings.

use super::tape::Tape;
use super::{conditions, days, figures, lists, rungs, scope};
use crate::syntax::tree::*;

const WHOLE: &str = "add an example that comes out otherwise without it";

pub(super) fn item(item: &mut Item, tape: &mut Tape<'_>) {
    match item {
        Item::Edition(edition) => self::edition(edition, tape),
        Item::Instrument(instrument) => self::instrument(instrument, tape),
        Item::Definition(definition) => self::definition(definition, tape),
        Item::Question(question) => self::question(question, tape),
        Item::Fact(fact) => self::fact(fact, "", tape),
        Item::Group(group) => {
            let of = format!("{}.", group.name.text);
            group.attributes.iter_mut().for_each(|fact| self::fact(fact, &of, tape));
        }
        Item::Place(place) => {
            tape.enter(scope(format!("place `{}`", place.name.text), place.span));
            if let Some(by) = &place.dates_by {
                let at = by.head.span;
                leave_out(&mut place.dates_by, at, "`dates by`", tape);
            }
        }
        Item::Choice(_)
        | Item::Subject(_)
        | Item::Extend(_)
        | Item::Code(_)
        | Item::Issuer(_)
        | Item::Example(_)
        | Item::Job(_) => {}
    }
}

fn fact(fact: &mut Fact, of: &str, tape: &mut Tape<'_>) {
    tape.enter(scope(format!("fact `{of}{}`", fact.name.text), fact.span));
    if let Some(cond) = &mut fact.presumed {
        conditions::all(cond, tape);
        let at = cond.span;
        leave_out(&mut fact.presumed, at, "`presumed`", tape);
    }
    if let Some(path) = &fact.never_before {
        let at = path.head.span;
        leave_out(&mut fact.never_before, at, "`never before`", tape);
    }
}

fn definition(definition: &mut Definition, tape: &mut Tape<'_>) {
    tape.enter(scope(format!("definition `{}`", definition.name.text), definition.span));
    conditions::all(&mut definition.cond, tape);
}

fn question(question: &mut Question, tape: &mut Tape<'_>) {
    tape.enter(scope(format!("question `{}`", question.name.text), question.span));
    if let Some(Met::Where(cond)) = &mut question.met {
        conditions::all(cond, tape);
    }
    if let Some(cond) = &mut question.asked {
        conditions::all(cond, tape);
        let at = cond.span;
        leave_out(&mut question.asked, at, "`asked where`", tape);
    }
    lists::words_or_none(&mut question.contrary, "contrary to", tape);
}

fn edition(edition: &mut Edition, tape: &mut Tape<'_>) {
    let name = format!("{} {}", edition.name.code.text, edition.name.year.text);
    text_clauses(&mut edition.clauses, &name, tape);
}

fn instrument(instrument: &mut Instrument, tape: &mut Tape<'_>) {
    let id = instrument.id.text.clone();
    let head = Span { start: instrument.span.start, end: instrument.span.start };
    tape.enter(scope(format!("instrument `{id}`"), instrument.span.to(head)));
    each(&mut instrument.applies, tape, "`applies where", "`", |cond| cond.span, conditions::all);
    if let Some(force) = &mut instrument.force {
        days::force(force, tape);
    }
    let mut number = 0;
    while let Some(clause) = instrument.clauses.get_mut(number) {
        if tape.made {
            return;
        }
        if instrument_clause(clause, &id, tape) {
            instrument.clauses.remove(number);
            return;
        }
        number += 1;
    }
}

/// Walks over a clause of an instrument; tells whether it is to be left out.
fn instrument_clause(clause: &mut Clause, id: &str, tape: &mut Tape<'_>) -> bool {
    let (name, span) = match clause {
        Clause::Adopts(adopts) => (format!("an adoption of `{id}`"), adopts.span),
        Clause::Election(election) => (format!("the election of `{id}`"), election.span),
        Clause::Section(section) => (format!("section `{}` of `{id}`", section.number.text), section.span),
        Clause::Power(power) => (format!("a power of `{id}`"), power.span),
        Clause::Prevails(prevails) => (format!("the priority of `{id}`"), prevails.span),
        Clause::Ends(ends) if ends.repeals => (format!("a repeal by `{id}`"), ends.span),
        Clause::Ends(ends) => (format!("a suspension by `{id}`"), ends.span),
        Clause::Amend(amend) => {
            text_clauses(&mut amend.clauses, id, tape);
            return false;
        }
    };
    tape.enter(scope(name, span));
    if tape.whole() {
        return true;
    }
    match clause {
        Clause::Adopts(adopts) => self::adopts(adopts, tape),
        Clause::Election(election) => days::election(election, tape),
        Clause::Section(section) => body(&mut section.body, tape),
        Clause::Power(power) => {
            lists::words(&mut power.targets, power.span, tape);
            scoped(&mut power.scope, tape);
        }
        Clause::Prevails(prevails) => {
            lists::words(&mut prevails.over, prevails.span, tape);
            lists::words(&mut prevails.questions, prevails.span, tape);
        }
        Clause::Ends(_) | Clause::Amend(_) => {}
    }
    false
}

fn adopts(adopts: &mut Adopts, tape: &mut Tape<'_>) {
    let span = adopts.span;
    for edition in &mut adopts.editions {
        if let Adopted::Newest { delay: Some((count, _)), .. } = edition {
            days::count(count, span, tape);
        }
    }
    lists::words(&mut adopts.subjects, span, tape);
    lists::words_or_none(&mut adopts.beside, "beside", tape);
    scoped(&mut adopts.scope, tape);
    flag(&mut adopts.otherwise, span, "otherwise", tape);
    flag(&mut adopts.as_published, span, "as published", tape);
}

/// A condition that may be left out.
fn scoped(scope: &mut Option<Cond>, tape: &mut Tape<'_>) {
    if let Some(cond) = scope {
        conditions::all(cond, tape);
        let at = cond.span;
        leave_out(scope, at, "`where`", tape);
    }
}

fn text_clauses(list: &mut Vec<TextClause>, of: &str, tape: &mut Tape<'_>) {
    let mut number = 0;
    while let Some(clause) = list.get_mut(number) {
        if tape.made {
            return;
        }
        if text_clause(clause, of, tape) {
            list.remove(number);
            return;
        }
        number += 1;
    }
}

/// Walks over a clause of an edition or an amendment; tells whether it is to be left out.
fn text_clause(clause: &mut TextClause, of: &str, tape: &mut Tape<'_>) -> bool {
    match clause {
        // It says why something is not there, and changes nothing.
        TextClause::LeftOut(_) => false,
        TextClause::Definition(definition) => {
            self::definition(definition, tape);
            false
        }
        TextClause::Section(section) => {
            tape.enter(scope(format!("section `{}` of {of}", section.number.text), section.span));
            if tape.whole() {
                return true;
            }
            body(&mut section.body, tape);
            false
        }
        TextClause::Renumber(renumber) => {
            let name = format!("the renumbering of `{}` in {of}", renumber.from.text);
            tape.enter(scope(name, renumber.span));
            tape.whole()
        }
        TextClause::Unread(unread) => {
            tape.enter(scope(format!("`unread {}` of {of}", unread.number.text), unread.span));
            if tape.whole() {
                return true;
            }
            lists::words(&mut unread.questions, unread.span, tape);
            false
        }
        TextClause::Patch(patch) => {
            tape.enter(scope(format!("`{} {}` of {of}", patch.action.word(), patch.number.text), patch.span));
            if tape.whole() {
                return true;
            }
            flag(&mut patch.and_under, patch.span, "and under", tape);
            body(&mut patch.body, tape);
            false
        }
    }
}

fn body(body: &mut Body, tape: &mut Tape<'_>) {
    each(&mut body.wheres, tape, "`where ", "`", |cond| cond.span, conditions::all);
    each(&mut body.excepts, tape, "`except where ", "`", |cond| cond.span, conditions::all);
    if body.demands.len() > 1 {
        each(&mut body.demands, tape, "`", "`", |demand| demand.span, demand);
    } else {
        body.demands.iter_mut().for_each(|one| demand(one, tape));
    }
    if let Some(table) = &mut body.table {
        rows(table, tape);
    }
}

fn rows(table: &mut Table, tape: &mut Tape<'_>) {
    let row = |row: &mut Row, tape: &mut Tape<'_>| {
        let span = row.span;
        row.limits.iter_mut().chain(&mut row.gives).for_each(|value| figures::value(value, span, tape));
    };
    if table.rows.len() > 1 {
        each(&mut table.rows, tape, "`", "`", |row| row.span, row);
    } else {
        table.rows.iter_mut().for_each(|one| row(one, tape));
    }
}

/// A demand of a section, or of what makers' instructions say.
pub(super) fn demand(demand: &mut Demand, tape: &mut Tape<'_>) {
    let span = demand.span;
    match &mut demand.kind {
        DemandKind::Is { question, rung } => rungs::rung(&question.text, rung, span, tape),
        DemandKind::AtLeast { limits, .. } | DemandKind::AtMost { limits, .. } => {
            for limit in limits {
                figures::value(&mut limit.value, span, tape);
                lists::words(&mut limit.terms, span, tape);
            }
        }
        DemandKind::Only { terms, .. } | DemandKind::NoneOf { terms, .. } | DemandKind::AllOf { terms, .. } => {
            lists::words(terms, span, tape);
        }
        DemandKind::Refer { questions, .. } | DemandKind::Bind { questions } => lists::words(questions, span, tape),
        DemandKind::ByTable { .. } | DemandKind::Note { .. } => {}
    }
}

/// Each of a list is left out once, and walked over.
fn each<T>(
    list: &mut Vec<T>,
    tape: &mut Tape<'_>,
    before: &str,
    behind: &str,
    span: impl Fn(&T) -> Span,
    inside: impl Fn(&mut T, &mut Tape<'_>),
) {
    let mut number = 0;
    while let Some(one) = list.get_mut(number) {
        let at = span(one);
        if tape.offer(at, WHOLE, |tape| format!("{before}{}{behind} left out", tape.source(at))) {
            list.remove(number);
        }
        if tape.made {
            return;
        }
        inside(one_of(list, number), tape);
        number += 1;
    }
}

/// The part of a list that was just looked at.
#[expect(clippy::indexing_slicing, reason = "the number was found in the list, and nothing was taken out since")]
fn one_of<T>(list: &mut [T], number: usize) -> &mut T {
    &mut list[number]
}

/// What is written or not is left out once.
fn leave_out<T>(part: &mut Option<T>, at: Span, words: &str, tape: &mut Tape<'_>) {
    if part.is_some() && tape.offer(at, WHOLE, |tape| format!("{words} left out ({})", tape.quoted(at))) {
        *part = None;
    }
}

/// A word that is written or not is left out once.
fn flag(flag: &mut bool, at: Span, word: &str, tape: &mut Tape<'_>) {
    if *flag && tape.offer(at, WHOLE, |tape| format!("`{word}` left out of {}", tape.quoted(at))) {
        *flag = false;
    }
}
