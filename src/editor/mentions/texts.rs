//! Words of editions and instruments: sections through all their numbers.

use super::{Text, Walk};
use crate::editor::things::{Part, Thing};
use crate::law::instrument::{InstrumentId, Target};
use crate::law::resolve::codes::renumbered;
use crate::law::text::{Edition, EditionId};
use crate::law::{Line, meetings};
use crate::syntax::diagnostic::Location;
use crate::syntax::tree::{
    self, Action, Adopted, Amend, AmendTarget, Body, Clause, EditionName, Patch, Reference, Section, Table, TextClause,
    Word,
};
use std::collections::HashMap;

impl Walk<'_> {
    pub(super) fn edition(&mut self, edition: &tree::Edition) {
        let id = self.edition_id(&edition.name);
        self.edition_name(&edition.name, true);
        edition.revises.iter().for_each(|name| self.edition_name(name, false));
        let Some(id) = id else { return };
        self.text = Some(Text::Edition(id));
        let renumbers: Vec<(Box<str>, Box<str>)> = edition
            .clauses
            .iter()
            .filter_map(|clause| match clause {
                TextClause::Renumber(line) => Some((line.from.text.clone(), line.to.text.clone())),
                _ => None,
            })
            .collect();
        let codes = &self.library.codes;
        let base = codes.edition(id).and_then(|own| codes.edition(own.revises?));
        for clause in &edition.clauses {
            match clause {
                TextClause::Section(section) => {
                    self.printed(&section.number, id, None, &renumbers, true);
                    self.extract(section.extract.as_ref());
                    self.head(&section.subjects);
                    self.body(&section.body);
                }
                TextClause::Patch(patch) => {
                    let declares = !matches!(patch.action, Action::Delete);
                    self.printed(&patch.number, id, base, &renumbers, declares);
                    self.extract(patch.extract.as_ref());
                    self.head(&patch.subjects);
                    self.body(&patch.body);
                }
                TextClause::Renumber(line) => {
                    let lineage = base.and_then(|base| base.section(&line.from.text)).map(|printed| printed.lineage);
                    let base_id = codes.edition(id).and_then(|own| own.revises);
                    if let Some(lineage) = lineage {
                        for (word, edition) in [(&line.from, base_id), (&line.to, Some(id))] {
                            if (self.wanted)(&word.text) {
                                self.part(word.span, Part::Printed(lineage), false, edition);
                            }
                        }
                    }
                }
                TextClause::Definition(definition) => {
                    self.printed(&definition.name, id, base, &renumbers, true);
                    self.cond(&definition.cond);
                }
                TextClause::LeftOut(_) => {}
                TextClause::Unread(unread) => {
                    unread.questions.iter().for_each(|question| self.question_named(question, false));
                }
            }
        }
    }

    /// A section named in its edition. One that is deleted there is looked for in
    /// the edition revised, under the number that it had.
    fn printed(
        &mut self,
        number: &Word,
        id: EditionId,
        base: Option<&Edition>,
        renumbers: &[(Box<str>, Box<str>)],
        declares: bool,
    ) {
        if !(self.wanted)(&number.text) {
            return;
        }
        let codes = &self.library.codes;
        let here = codes.edition(id).and_then(|edition| edition.section(&number.text)).map(|printed| printed.lineage);
        let before = || {
            let base = base?;
            let moved = |old: &str| renumbered(old, renumbers).map_or(old.into(), |new| new) == number.text;
            base.sections.iter().find(|printed| moved(&printed.number)).map(|printed| printed.lineage)
        };
        let edition = if here.is_some() { Some(id) } else { codes.edition(id).and_then(|own| own.revises) };
        if let Some(lineage) = here.or_else(before) {
            self.part(number.span, Part::Printed(lineage), declares, edition);
        }
    }

    fn extract(&mut self, extract: Option<&(EditionName, Word)>) {
        if let Some((name, number)) = extract {
            self.edition_name(name, false);
            self.section_of(self.edition_id(name), number);
        }
    }

    /// A section of an edition by its number.
    pub(super) fn section_of(&mut self, edition: Option<EditionId>, number: &Word) {
        let Some(id) = edition.filter(|_| (self.wanted)(&number.text)) else { return };
        let printed = self.library.codes.edition(id).and_then(|edition| edition.section(&number.text));
        if let Some(printed) = printed {
            self.part(number.span, Part::Printed(printed.lineage), false, Some(id));
        }
    }

    fn head(&mut self, subjects: &[Word]) {
        self.subjects(subjects);
    }

    fn body(&mut self, body: &Body) {
        body.wheres.iter().chain(&body.excepts).for_each(|cond| self.cond(cond));
        body.demands.iter().for_each(|demand| self.demand(demand));
        body.table.iter().for_each(|table| self.table_body(table));
    }

    fn table_body(&mut self, table: &Table) {
        self.path(&table.key);
        if let Some((path, terms)) = &table.per {
            self.path(path);
            self.terms(self.choice_of(path), terms);
        }
        self.question_named(&table.gives, false);
        let per = self.question_id(&table.gives.text).and_then(|id| self.library.glossary[id].per);
        self.terms(per.map(|(_, choice)| choice), &table.terms);
    }

    pub(super) fn edition_id(&self, name: &EditionName) -> Option<EditionId> {
        self.library.codes.find(&name.code.text, name.year.text.parse().ok()?)
    }

    fn edition_name(&mut self, name: &EditionName, declares: bool) {
        self.code(&name.code, false);
        if (self.wanted)(&name.year.text)
            && let Some(id) = self.edition_id(name)
        {
            self.show(name.year.span, Thing::Edition(id), declares, None);
        }
    }

    /// The table that a demand looks up.
    pub(super) fn table(&mut self, code: Option<&Word>, year: Option<&Word>, number: &Word) {
        let codes = &self.library.codes;
        match (code, year) {
            (None, _) => match self.text {
                Some(Text::Edition(id)) => self.section_of(Some(id), number),
                Some(Text::Instrument(id)) => self.own_section(id, number, false),
                None => {}
            },
            (Some(code), Some(year)) => {
                let name = EditionName { code: code.clone(), year: year.clone() };
                self.edition_name(&name, false);
                self.section_of(self.edition_id(&name), number);
            }
            (Some(code), None) => {
                self.code(code, false);
                let with_it = codes.code(&code.text).and_then(|code| {
                    let editions = code.editions.iter().rev().map(|(_, id)| *id);
                    editions
                        .into_iter()
                        .find(|id| codes.edition(*id).is_some_and(|edition| edition.section(&number.text).is_some()))
                });
                self.section_of(with_it, number);
            }
        }
    }

    pub(super) fn instrument(&mut self, instrument: &tree::Instrument) {
        let id = self.view.instrument_at(self.at(instrument.id.span));
        self.word(&instrument.id, true, |_| id.map(Thing::Instrument));
        instrument.of.iter().for_each(|of| self.reference(of));
        let issuer = match &instrument.of {
            Some(reference) => self.resolved(reference),
            None => self.sole,
        };
        self.from = issuer.and_then(|issuer| self.place_of(issuer));
        self.text = id.map(Text::Instrument);
        instrument.applies.iter().for_each(|cond| self.cond(cond));
        instrument.force.iter().filter_map(|force| force.by.as_ref()).for_each(|path| self.path(path));
        for clause in &instrument.clauses {
            match clause {
                Clause::Adopts(adopts) => self.adopts(adopts),
                Clause::Election(election) => election.by.iter().for_each(|path| self.path(path)),
                Clause::Amend(amend) => {
                    self.amend(id, amend);
                    self.text = id.map(Text::Instrument);
                }
                Clause::Section(section) => self.own(id, section),
                Clause::Power(power) => {
                    for target in &power.targets {
                        self.word(target, false, |walk| {
                            walk.question_id(&target.text).map(Thing::Question).or_else(|| walk.subject(&target.text))
                        });
                    }
                    power.scope.iter().for_each(|cond| self.cond(cond));
                }
                Clause::Prevails(prevails) => {
                    prevails.over.iter().for_each(|code| self.code(code, false));
                    prevails.questions.iter().for_each(|question| self.question_named(question, false));
                }
                Clause::Ends(ends) => {
                    let target = self.named_instrument(&ends.id, ends.of.as_ref());
                    if let (Some(number), Some(target)) = (&ends.number, target) {
                        self.own_section(target, number, false);
                    }
                }
            }
        }
    }

    fn adopts(&mut self, adopts: &tree::Adopts) {
        for adopted in &adopts.editions {
            match adopted {
                Adopted::Edition(name) => self.edition_name(name, false),
                Adopted::Newest { code, .. } => self.code(code, false),
            }
        }
        self.subjects(&adopts.subjects);
        adopts.scope.iter().for_each(|cond| self.cond(cond));
        adopts.beside.iter().for_each(|code| self.code(code, false));
    }

    fn own(&mut self, id: Option<InstrumentId>, section: &Section) {
        if let Some(id) = id {
            self.own_section(id, &section.number, true);
        }
        self.head(&section.subjects);
        self.body(&section.body);
    }

    /// A section or patch of an instrument by its number.
    pub(super) fn own_section(&mut self, id: InstrumentId, number: &Word, declares: bool) {
        if !(self.wanted)(&number.text) {
            return;
        }
        let Some(own) = self.view.instrument(id) else { return };
        if let Some(at) = own.sections.iter().position(|(own, _)| *own == number.text) {
            return self.part(number.span, Part::Own(id, at), declares, None);
        }
        let mut found = Vec::new();
        for amend in own.amends.iter().filter(|amend| amend.patches.iter().any(|patch| patch.number == number.text)) {
            let lines = self.lines(id, &amend.target);
            let at = amend.patches.iter().find(|patch| patch.number == number.text).map(|patch| patch.at);
            found.extend(at.and_then(|at| lines.get(&at).cloned()).unwrap_or_default());
        }
        for part in found {
            self.part(number.span, part, false, None);
        }
    }

    /// The instrument that a text names: of the issuer named, else the issuer's own
    /// or that of the nearest place around.
    pub(super) fn named_instrument(&mut self, id: &Word, of: Option<&Reference>) -> Option<InstrumentId> {
        of.into_iter().for_each(|of| self.reference(of));
        let issuers = match of {
            Some(of) => self.resolved(of).into_iter().collect(),
            None => {
                let mut path = self.from.map(|place| self.library.places.path(place)).unwrap_or_default();
                path.reverse();
                path
            }
        };
        let found = issuers
            .iter()
            .flat_map(|issuer| self.library.of_issuer(*issuer))
            .copied()
            .find(|own| self.view.instrument(*own).is_some_and(|own| own.id == id.text));
        self.word(id, false, |_| found.map(Thing::Instrument));
        found
    }

    fn amend(&mut self, id: Option<InstrumentId>, amend: &Amend) {
        let base = match &amend.target {
            AmendTarget::Edition(name) => {
                self.edition_name(name, false);
                self.edition_id(name)
            }
            AmendTarget::Any { code, numbered } => {
                self.code(code, false);
                numbered.as_ref().and_then(|year| {
                    let name = EditionName { code: code.clone(), year: year.clone() };
                    if (self.wanted)(&year.text)
                        && let Some(id) = self.edition_id(&name)
                    {
                        self.show(year.span, Thing::Edition(id), false, None);
                    }
                    self.edition_id(&name)
                })
            }
            AmendTarget::Instrument { id, of } => {
                self.named_instrument(id, of.as_ref());
                None
            }
        };
        let own = id.and_then(|id| self.view.instrument(id));
        let read = own.and_then(|own| own.amends.iter().find(|read| read.at == self.at(amend.span)));
        let edition = read.and_then(|read| match read.target {
            Target::Edition(id) | Target::Any { numbered: id, .. } => Some(id),
            Target::Instrument(_) => None,
        });
        let edition = edition.or(base);
        if let Some(edition) = edition {
            self.text = Some(Text::Edition(edition));
        } else if let Some(Target::Instrument(id)) = read.map(|read| &read.target) {
            self.text = Some(Text::Instrument(*id));
        }
        let numbers = amend.clauses.iter().any(|clause| match clause {
            TextClause::Patch(Patch { number, .. }) => (self.wanted)(&number.text),
            TextClause::Renumber(line) => (self.wanted)(&line.from.text) || (self.wanted)(&line.to.text),
            TextClause::Definition(definition) => (self.wanted)(&definition.name.text),
            _ => false,
        });
        let lines = match (id, read) {
            (Some(id), Some(read)) if numbers => self.lines(id, &read.target),
            _ => HashMap::new(),
        };
        for clause in &amend.clauses {
            match clause {
                TextClause::Patch(patch) => {
                    self.patched(&patch.number, &lines, edition);
                    self.head(&patch.subjects);
                    self.body(&patch.body);
                }
                TextClause::Renumber(line) => {
                    let parts = self.moved(id, amend, &line.to.text);
                    for (word, edition) in [(&line.from, edition), (&line.to, None)] {
                        for part in parts.iter().filter(|_| (self.wanted)(&word.text)) {
                            self.part(word.span, *part, false, edition);
                        }
                    }
                }
                TextClause::Definition(definition) => {
                    self.patched(&definition.name, &lines, edition);
                    self.cond(&definition.cond);
                }
                TextClause::Section(section) => self.body(&section.body),
                TextClause::LeftOut(_) => {}
                TextClause::Unread(unread) => {
                    unread.questions.iter().for_each(|question| self.question_named(question, false));
                }
            }
        }
    }

    fn patched(&mut self, number: &Word, lines: &HashMap<Location, Vec<Part>>, edition: Option<EditionId>) {
        if !(self.wanted)(&number.text) {
            return;
        }
        let at = self.at(number.span);
        for part in lines.get(&at).cloned().unwrap_or_default() {
            let declares =
                matches!(part, Part::Added(name) if self.view.added(name).is_some_and(|patch| patch.at == at));
            self.part(number.span, part, declares, edition);
        }
    }

    /// What the patches of an instrument mean, by where they stand.
    fn lines(&self, id: InstrumentId, target: &Target) -> HashMap<Location, Vec<Part>> {
        let mut found = HashMap::new();
        self.met(id, target, &mut |met| {
            for (patch, lines) in met.block.patches.iter().zip(met.lines) {
                found.insert(patch.at, lines.iter().map(|line| part(*line, target)).collect());
            }
        });
        found
    }

    /// The section that a block renumbers to a number.
    fn moved(&self, id: Option<InstrumentId>, amend: &Amend, to: &str) -> Vec<Part> {
        let at = self.at(amend.span);
        let own = id.and_then(|id| self.view.instrument(id));
        let read = own.and_then(|own| own.amends.iter().find(|read| read.at == at));
        let (Some(id), Some(read)) = (id, read) else { return Vec::new() };
        let mut found = Vec::new();
        self.met(id, &read.target, &mut |met| {
            if met.block.at == at {
                let here = met.text.iter().filter(|section| *section.number == *to);
                found.extend(here.map(|section| part(section.line, &read.target)));
            }
        });
        found
    }

    fn met(&self, id: InstrumentId, target: &Target, see: &mut dyn FnMut(&crate::law::Meeting<'_, '_>)) {
        let Some(own) = self.view.instrument(id) else { return };
        let pending = (!own.is_law()).then_some(id);
        meetings(self.library, own.issuer, pending, target, &mut |met| {
            if met.instrument == id {
                see(met);
            }
        });
    }
}

fn part(line: Line, target: &Target) -> Part {
    match (line, target) {
        (Line::Printed(lineage), _) => Part::Printed(lineage),
        (Line::Own(at), Target::Instrument(id)) => Part::Own(*id, at),
        // Only a text of an instrument has sections of its own.
        (Line::Own(at), _) => Part::Own(InstrumentId(u32::MAX), at),
        (Line::Added(name), _) => Part::Added(name),
    }
}
