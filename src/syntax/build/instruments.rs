//! Instruments: their time, what they adopt, amend, add and end.

use super::{Builder, Line, Match};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    Adopted, Adopts, Amend, AmendTarget, Clause, Election, End, Ends, Force, Instrument, Power, PowerKind, Prevails,
    Start, TextClause, Word,
};

impl<'a> Builder<'a> {
    pub(super) fn instrument(&mut self, found: Match<'a>) -> Option<Instrument> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let mut instrument = Instrument {
            id: self.word(&inner.next()?),
            of: None,
            title: None,
            kind: None,
            adopted: None,
            force: None,
            status: None,
            applies: Vec::new(),
            provenance: None,
            clauses: Vec::new(),
            span,
        };
        for clause in inner {
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut instrument.title, text, "a title");
                }
                Rule::of_issuer => {
                    let issuer = self.inner_place(clause)?;
                    self.once(&mut instrument.of, issuer, "`of`");
                }
                Rule::kind => {
                    let word = self.inner_word(clause)?;
                    self.once(&mut instrument.kind, word, "`kind`");
                }
                Rule::adopted => {
                    let date = self.inner_word(clause)?;
                    self.once(&mut instrument.adopted, date, "`adopted`");
                }
                Rule::in_force => {
                    let force = self.force(clause)?;
                    self.once(&mut instrument.force, force, "`in force`");
                }
                Rule::status => {
                    let word = self.inner_word(clause)?;
                    self.once(&mut instrument.status, word, "`status`");
                }
                Rule::applies => instrument.applies.extend(self.inner_cond(clause)),
                Rule::read | Rule::memory | Rule::practice => {
                    let source = self.provenance(clause)?;
                    self.once(&mut instrument.provenance, source, "the source");
                }
                Rule::knowingly => self.knowingly(clause, span),
                _ => instrument.clauses.extend(self.clause(clause)),
            }
        }
        if instrument.kind.is_none() {
            self.missing(
                instrument.id.span,
                format!("the instrument `{}` does not say of what kind it is", instrument.id.text),
                "add a line `kind`, such as `kind ordinance`",
            );
        }
        if instrument.force.is_none() && instrument.status.is_none() {
            self.missing(
                instrument.id.span,
                format!("the instrument `{}` does not say when it is in force", instrument.id.text),
                "add a line such as `in force from 2024-07-01`, or `status proposed`",
            );
        }
        Some(instrument)
    }

    fn clause(&mut self, found: Match<'a>) -> Option<Clause> {
        Some(match found.as_rule() {
            Rule::adopts => Clause::Adopts(self.adopts(found)?),
            Rule::election => Clause::Election(self.election(found)?),
            Rule::amend => Clause::Amend(self.amend(found)?),
            Rule::section | Rule::table => Clause::Section(self.section(found)?),
            Rule::power => Clause::Power(self.power(found)?),
            Rule::prevails => Clause::Prevails(self.prevails(found)),
            Rule::repeals => Clause::Ends(self.ends(found, true)?),
            _ => Clause::Ends(self.ends(found, false)?),
        })
    }

    fn force(&mut self, found: Match<'a>) -> Option<Force> {
        let span = self.span(&found);
        let mut from: Option<Line<Start>> = None;
        let mut through: Option<Line<End>> = None;
        let mut by = None;
        for part in found.into_inner() {
            let span = self.span(&part);
            match part.as_rule() {
                Rule::force_from => {
                    let value = self.start(part)?;
                    self.once(&mut from, Line { value, span }, "`from`");
                }
                Rule::force_through => {
                    let inner = part.into_inner().next()?;
                    let value = match inner.as_rule() {
                        Rule::from_unknown => End::Unknown,
                        _ => End::On(self.word(&inner)),
                    };
                    self.once(&mut through, Line { value, span }, "`through`");
                }
                _ => {
                    let path = self.inner_path(part)?;
                    self.once(&mut by, path, "`by`");
                }
            }
        }
        Some(Force { from: from.map(|line| line.value), through: through.map(|line| line.value), by, span })
    }

    fn start(&mut self, found: Match<'a>) -> Option<Start> {
        let mut inner = found.into_inner();
        let first = inner.next()?;
        Some(match first.as_rule() {
            Rule::from_unknown => Start::Unknown,
            Rule::between => {
                let mut days = first.into_inner();
                Start::Between(self.word(&days.next()?), self.word(&days.next()?))
            }
            Rule::delay => {
                let (count, unit) = self.delay(first)?;
                Start::After { count, unit, date: self.word(&inner.next()?) }
            }
            _ => Start::On(self.word(&first)),
        })
    }

    fn adopts(&mut self, found: Match<'a>) -> Option<Adopts> {
        let span = self.span(&found);
        let mut editions = Vec::new();
        let mut subjects: Option<Line<Vec<Word>>> = None;
        let (mut scope, mut otherwise, mut as_published, mut beside) = (None, None, None, Vec::new());
        for clause in found.into_inner() {
            let line = self.span(&clause);
            match clause.as_rule() {
                Rule::edition_name => editions.push(Adopted::Edition(self.edition_name(clause)?)),
                Rule::newest => {
                    let mut inner = clause.into_inner();
                    let code = self.word(&inner.next()?);
                    let delay = match inner.next() {
                        Some(delay) => Some(self.delay(delay)?),
                        None => None,
                    };
                    editions.push(Adopted::Newest { code, delay });
                }
                Rule::for_names => {
                    let value = self.inner_words(clause);
                    self.once(&mut subjects, Line { value, span: line }, "`for`");
                }
                Rule::where_line => {
                    let cond = self.inner_cond(clause)?;
                    self.once(&mut scope, cond, "the `where` of an adoption");
                }
                Rule::otherwise => self.once(&mut otherwise, line, "`otherwise`"),
                Rule::as_published => self.once(&mut as_published, line, "`as published`"),
                _ => beside.extend(self.inner_words(clause)),
            }
        }
        Some(Adopts {
            editions,
            subjects: subjects.map(|line| line.value).unwrap_or_default(),
            scope,
            otherwise: otherwise.is_some(),
            as_published: as_published.is_some(),
            beside,
            span,
        })
    }

    fn election(&mut self, found: Match<'a>) -> Option<Election> {
        let span = self.span(&found);
        let (mut from, mut through, mut by) = (None, None, None);
        for part in found.into_inner() {
            match part.as_rule() {
                Rule::election_from => from = self.inner_word(part),
                Rule::by_path => by = self.inner_path(part),
                _ => through = Some(self.word(&part)),
            }
        }
        Some(Election { from, through: through?, by, span })
    }

    fn amend(&mut self, found: Match<'a>) -> Option<Amend> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let target = inner.next()?;
        let target = match target.as_rule() {
            Rule::edition_name => AmendTarget::Edition(self.edition_name(target)?),
            Rule::amend_any => {
                let mut words = target.into_inner();
                let code = self.word(&words.next()?);
                let numbered = words.find(|word| word.as_rule() == Rule::year).map(|year| self.word(&year));
                AmendTarget::Any { code, numbered }
            }
            _ => {
                let mut words = target.into_inner();
                let id = self.word(&words.next()?);
                let of = match words.next() {
                    Some(issuer) => Some(self.inner_place(issuer)?),
                    None => None,
                };
                AmendTarget::Instrument { id, of }
            }
        };
        let mut clauses: Vec<TextClause> = Vec::new();
        for clause in inner {
            match clause.as_rule() {
                Rule::knowingly => self.knowingly(clause, span),
                _ => clauses.extend(self.text_clause(clause)),
            }
        }
        if clauses.is_empty() {
            self.missing(span, "nothing is amended".to_owned(), "write the patches below it, such as `delete 310.3`");
        }
        Some(Amend { target, clauses, span })
    }

    fn power(&mut self, found: Match<'a>) -> Option<Power> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let kind = match inner.next()?.as_str() {
            "preempts" => PowerKind::Preempts,
            "floor" => PowerKind::Floor,
            _ => PowerKind::Ceiling,
        };
        let (mut targets, mut scope) = (Vec::new(), None);
        for part in inner {
            match part.as_rule() {
                Rule::where_line => scope = self.inner_cond(part),
                _ => targets.push(self.word(&part)),
            }
        }
        Some(Power { kind, targets, scope, span })
    }

    fn prevails(&mut self, found: Match<'a>) -> Prevails {
        let span = self.span(&found);
        let (mut over, mut questions) = (Vec::new(), Vec::new());
        for part in found.into_inner() {
            match part.as_rule() {
                Rule::layer => over.push(self.word(&part)),
                Rule::every_question => {}
                _ => questions.push(self.word(&part)),
            }
        }
        Prevails { over, questions, span }
    }

    fn ends(&mut self, found: Match<'a>, repeals: bool) -> Option<Ends> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let id = self.word(&inner.next()?);
        let (mut of, mut number) = (None, None);
        for part in inner {
            match part.as_rule() {
                Rule::of_issuer => of = self.inner_place(part),
                _ => number = Some(self.word(&part)),
            }
        }
        Some(Ends { repeals, id, of, number, span })
    }
}
