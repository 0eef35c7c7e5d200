//! Places, makers and suppliers.

use super::{Builder, Match};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Issuer, Nothing, Place};

impl<'a> Builder<'a> {
    pub(super) fn place(&mut self, found: Match<'a>) -> Option<Place> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let mut place = Place {
            name,
            title: None,
            within: None,
            also: Vec::new(),
            known_as: Vec::new(),
            office: None,
            provenance: None,
            nothing: Vec::new(),
            boundary: None,
            dates_by: None,
            span,
        };
        for clause in inner {
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut place.title, text, "the printed name");
                }
                Rule::within_place => {
                    let outer = self.inner_place(clause)?;
                    self.once(&mut place.within, outer, "`within`");
                }
                Rule::also => place.also.extend(self.inner_text(clause)),
                Rule::known_as => {
                    let mut words = clause.into_inner();
                    place.known_as.push((self.word(&words.next()?), self.word(&words.next()?)));
                }
                Rule::office => {
                    let text = self.inner_text(clause)?;
                    self.once(&mut place.office, text, "`office`");
                }
                Rule::nothing => place.nothing.push(self.nothing(clause)),
                Rule::boundary => {
                    let text = self.inner_text(clause)?;
                    self.once(&mut place.boundary, text, "`boundary`");
                }
                Rule::dates_by => {
                    let path = self.inner_path(clause)?;
                    self.once(&mut place.dates_by, path, "`dates by`");
                }
                Rule::knowingly => self.knowingly(clause, span),
                _ => {
                    let source = self.provenance(clause)?;
                    self.once(&mut place.provenance, source, "the source");
                }
            }
        }
        if place.title.is_none() {
            self.missing(
                place.name.span,
                format!("the place `{}` has no printed name", place.name.text),
                "write its full name in double quotes behind it, as it stands on the permits",
            );
        }
        Some(place)
    }

    fn nothing(&mut self, found: Match<'a>) -> Nothing {
        let span = self.span(&found);
        let mut nothing = Nothing { subjects: Vec::new(), provenance: None, span };
        for clause in found.into_inner() {
            match clause.as_rule() {
                Rule::on_names => nothing.subjects = self.inner_words(clause),
                _ => nothing.provenance = self.provenance(clause),
            }
        }
        nothing
    }

    pub(super) fn issuer(&mut self, found: Match<'a>, maker: bool) -> Option<Issuer> {
        let span = self.span(&found);
        let mut inner = found.into_inner();
        let name = self.word(&inner.next()?);
        let (mut title, mut provenance, mut dates_by) = (None, None, None);
        for clause in inner {
            match clause.as_rule() {
                Rule::text => {
                    let text = self.text(&clause);
                    self.once(&mut title, text, "the printed name");
                }
                Rule::dates_by => {
                    let path = self.inner_path(clause)?;
                    self.once(&mut dates_by, path, "`dates by`");
                }
                Rule::knowingly => self.knowingly(clause, span),
                _ => {
                    let source = self.provenance(clause)?;
                    self.once(&mut provenance, source, "the source");
                }
            }
        }
        Some(Issuer { name, maker, title, provenance, dates_by, span })
    }
}
