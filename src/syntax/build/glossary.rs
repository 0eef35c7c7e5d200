//! Choices, subjects, facts, lists, records, questions and definitions.

use super::{Builder, Line, Match};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    Choice, Definition, Extend, Fact, Group, Known, Met, Order, Question, Reference, Role, Shape, Subject, Term, Text,
    Word,
};

impl<'a> Builder<'a> {
    pub(super) fn choice(&mut self, found: Match<'a>) -> Option<Choice> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let (mut title, mut terms) = (None, Vec::new());
        for clause in inner {
            match clause.as_rule() {
                Rule::text => title = Some(self.text(&clause)),
                _ => terms.extend(self.term(clause)),
            }
        }
        if terms.is_empty() {
            self.missing(
                name.span,
                format!("the choice `{}` has no terms", name.text),
                "write its terms below it, one on a line",
            );
        }
        Some(Choice { name, title, terms, span })
    }

    fn term(&mut self, found: Match<'a>) -> Option<Term> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let (mut title, mut under) = (None, None);
        for clause in inner {
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut title, text, "a title");
                }
                _ => {
                    let broader = self.inner_word(clause)?;
                    self.once(&mut under, broader, "`under`");
                }
            }
        }
        Some(Term { name, title, under, span })
    }

    pub(super) fn extend(&mut self, found: Match<'a>) -> Option<Extend> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let choice = self.word(&inner.next()?);
        let place = self.place_name(inner.next()?)?;
        let terms: Vec<Term> = inner.filter_map(|term| self.term(term)).collect();
        if terms.is_empty() {
            self.missing(
                choice.span,
                format!("nothing is added to `{}`", choice.text),
                "write the added terms below, one on a line",
            );
        }
        Some(Extend { choice, place, terms, span })
    }

    pub(super) fn subject(&mut self, found: Match<'a>) -> Option<Subject> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let (mut title, mut governed) = (None, None);
        for clause in inner {
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut title, text, "a title");
                }
                _ => {
                    let line = self.span(&clause);
                    self.once(&mut governed, line, "`must be governed`");
                }
            }
        }
        Some(Subject { name, title, governed: governed.is_some(), span })
    }

    /// A fact, or an attribute of a list or record.
    pub(super) fn fact(&mut self, found: Match<'a>) -> Option<Fact> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let shape = self.shape(inner.next()?)?;
        let (mut title, mut ask, mut ours) = (None, None, None);
        let (mut presumed, mut never_before, mut place) = (None, None, None);
        let mut roles: Vec<Line<Role>> = Vec::new();
        let mut known = Vec::new();
        for clause in inner {
            let line = self.span(&clause);
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut title, text, "a title");
                }
                Rule::ask => {
                    let text = self.inner_text(clause)?;
                    self.once(&mut ask, text, "`ask`");
                }
                Rule::known => known.push(self.known(clause)),
                Rule::ours => self.once(&mut ours, line, "`ours to choose`"),
                Rule::presumed => {
                    let cond = self.inner_cond(clause)?;
                    self.once(&mut presumed, cond, "`presumed where`");
                }
                Rule::never_before => {
                    let path = self.inner_path(clause)?;
                    self.once(&mut never_before, path, "`never before`");
                }
                Rule::in_place => {
                    let reference = self.inner_place(clause)?;
                    self.once(&mut place, reference, "`in` a place");
                }
                Rule::dates_instruments => self.role(&mut roles, Role::DatesInstruments, line),
                Rule::chooses_text => self.role(&mut roles, Role::ChoosesText, line),
                Rule::chooses_code => self.role(&mut roles, Role::ChoosesCode, line),
                _ => self.role(&mut roles, Role::NamesSupplier, line),
            }
        }
        let roles = roles.into_iter().map(|line| line.value).collect();
        Some(Fact { name, shape, title, roles, ask, known, ours: ours.is_some(), presumed, never_before, place, span })
    }

    fn role(&mut self, roles: &mut Vec<Line<Role>>, role: Role, span: crate::syntax::tree::Span) {
        match roles.iter().position(|line| line.value == role) {
            None => roles.push(Line { value: role, span }),
            Some(index) => {
                let mut first = roles.get(index).map(|line| line.span);
                self.once(&mut first, span, "the part that the fact plays");
            }
        }
    }

    fn known(&mut self, found: Match<'a>) -> Known {
        let mut known = Known { who: Vec::new(), when: None };
        for inner in found.into_inner() {
            match inner.as_rule() {
                Rule::at_moment => known.when = self.inner_word(inner),
                _ => known.who.push(self.word(&inner)),
            }
        }
        known
    }

    fn shape(&mut self, found: Match<'a>) -> Option<Shape> {
        Some(match found.as_rule() {
            Rule::quantity => Shape::Quantity(self.inner_word(found)?),
            Rule::several => Shape::Several(self.inner_word(found)?),
            _ => match found.as_str() {
                "yes-no" => Shape::YesNo,
                "date" => Shape::Date,
                "count" => Shape::Count,
                "gauge" => Shape::Gauge,
                "name" => Shape::Name,
                "code" => Shape::Code,
                _ => Shape::Choice(self.word(&found)),
            },
        })
    }

    pub(super) fn group(&mut self, found: Match<'a>, list: bool) -> Option<Group> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let (mut title, mut place, mut attributes): (Option<Text>, Option<Reference>, Vec<Fact>) =
            (None, None, Vec::new());
        for clause in inner {
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut title, text, "a title");
                }
                Rule::in_place => {
                    let reference = self.inner_place(clause)?;
                    self.once(&mut place, reference, "`in` a place");
                }
                _ => attributes.extend(self.fact(clause)),
            }
        }
        if attributes.is_empty() {
            let kind = if list { "list" } else { "record" };
            self.missing(
                name.span,
                format!("the {kind} `{}` has no attributes", name.text),
                "write its attributes below it: a name and its shape, such as `length quantity ft`",
            );
        }
        Some(Group { name, list, title, place, attributes, span })
    }

    pub(super) fn question(&mut self, found: Match<'a>) -> Option<Question> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let (mut subject, mut title): (Option<Line<Word>>, Option<Text>) = (None, None);
        let (mut order, mut met): (Option<Line<Order>>, Option<Line<Met>>) = (None, None);
        let (mut per, mut measures, mut asked) = (None, None, None);
        let (mut costs, mut caution, mut place) = (None, None, None);
        let mut contrary = Vec::new();
        for clause in inner {
            let line = self.span(&clause);
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut title, text, "a title");
                }
                Rule::on_names => {
                    let mut words = self.inner_words(clause).into_iter();
                    let value = words.next()?;
                    if let Some(second) = words.next() {
                        let mut first = Some(value.span);
                        self.once(&mut first, second.span, "the subject of a question");
                    }
                    self.once(&mut subject, Line { value, span: line }, "`on`");
                }
                Rule::per_path => {
                    let path = self.inner_path(clause)?;
                    self.once(&mut per, path, "`per`");
                }
                Rule::measures => {
                    let path = self.inner_path(clause)?;
                    self.once(&mut measures, path, "`measures`");
                }
                Rule::met_never => self.once(&mut met, Line { value: Met::Never, span: line }, "`met`"),
                Rule::met_where => {
                    let value = Met::Where(self.inner_cond(clause)?);
                    self.once(&mut met, Line { value, span: line }, "`met`");
                }
                Rule::asked => {
                    let cond = self.inner_cond(clause)?;
                    self.once(&mut asked, cond, "`asked where`");
                }
                Rule::costs => {
                    let text = self.inner_text(clause)?;
                    self.once(&mut costs, text, "`costs`");
                }
                Rule::caution => {
                    let text = self.inner_text(clause)?;
                    self.once(&mut caution, text, "`caution`");
                }
                Rule::contrary => contrary.extend(self.inner_words(clause)),
                Rule::in_place => {
                    let reference = self.inner_place(clause)?;
                    self.once(&mut place, reference, "`in` a place");
                }
                _ => {
                    let value = self.order(clause)?;
                    self.once(&mut order, Line { value, span: line }, "the order of the answers");
                }
            }
        }
        if subject.is_none() {
            self.missing(
                name.span,
                format!("the question `{}` names no subject", name.text),
                "add `on` and the subject that it belongs to",
            );
        }
        if order.is_none() {
            self.missing(
                name.span,
                format!("the question `{}` does not say which answers are stricter", name.text),
                "add `ladder …`, `at least …`, `at most …`, `only …` or `all of …`",
            );
        }
        let (subject, order) = (subject?.value, order?.value);
        let met = met.map(|line| line.value);
        Some(Question { name, subject, title, order, per, measures, met, asked, costs, contrary, caution, place, span })
    }

    fn order(&mut self, found: Match<'a>) -> Option<Order> {
        Some(match found.as_rule() {
            Rule::ladder => Order::Ladder(self.inner_words(found)),
            Rule::order_least => Order::AtLeast(self.inner_word(found)?),
            Rule::order_most => Order::AtMost(self.inner_word(found)?),
            Rule::order_only => Order::Only(self.inner_word(found)?),
            _ => Order::AllOf(self.inner_word(found)?),
        })
    }

    pub(super) fn definition(&mut self, found: Match<'a>) -> Option<Definition> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let (mut title, mut cond, mut provenance) = (None, None, None);
        for clause in inner {
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut title, text, "a title");
                }
                Rule::cond => cond = self.cond(clause),
                _ => {
                    let source = self.provenance(clause)?;
                    self.once(&mut provenance, source, "the source");
                }
            }
        }
        Some(Definition { name, title, cond: cond?, provenance, span })
    }
}
