//! Instruments: from tree to resolved law of somebody, with what each may do.

use super::adoptions::adoptions_of;
use super::codes::code_number;
use super::dates::{default_dates, election_of, force_of, status_of};
use super::sections::Head;
use super::{Reader, Standing, did_you_mean};
use crate::glossary::Territory;
use crate::glossary::expr::Expr;
use crate::glossary::model::PlaceId;
use crate::law::instrument::{Ends, Instrument, InstrumentId, Instruments, Kind, Power, Prevails, Weight};
use crate::law::model::Provenance;
use crate::law::places::IssuerKind;
use crate::law::text::Codes;
use crate::syntax::codes as errors;
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::nearest::nearest;
use crate::syntax::tree::{self, Clause};
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// Every instrument with the tree that it came from, in a fixed order.
pub(crate) struct Register<'t> {
    pub(crate) instruments: Instruments,
    pub(crate) trees: Vec<(FileId, &'t tree::Instrument)>,
    by_issuer: HashMap<(PlaceId, Box<str>), InstrumentId>,
    /// Whether each is read here, and not taken over as it was read before.
    pub(super) fresh: Vec<bool>,
}

/// Instruments that were read before, from the same words and places.
#[derive(Clone, Copy)]
pub(crate) struct ReadBefore<'k> {
    pub(crate) instruments: &'k Instruments,
    /// The files whose instruments are to be read again.
    pub(crate) again: &'k HashSet<FileId>,
}

/// Reads the instruments of the files: first what each is and when, then what
/// each says, since they name each other. Those that were read before are taken
/// over where all instruments have the numbers that they had then; whether they
/// have is told.
pub(crate) fn read_instruments<'t>(
    files: &[(FileId, &'t tree::File)],
    codes: &Codes,
    before: Option<ReadBefore<'_>>,
    reader: &mut Reader,
) -> (Register<'t>, bool) {
    let mut register = Register {
        instruments: Instruments::default(),
        trees: Vec::new(),
        by_issuer: HashMap::new(),
        fresh: Vec::new(),
    };
    let mut found = Vec::new();
    for (file, tree) in files {
        let sole = sole_issuer(tree, *file, reader);
        for item in &tree.items {
            let tree::Item::Instrument(instrument) = item else { continue };
            let standing = Standing::plain(*file, None);
            let issuer = match &instrument.of {
                Some(reference) => match reader.places.resolve(reference, *file) {
                    Ok(issuer) => issuer,
                    Err(problem) => {
                        reader.tell(problem);
                        continue;
                    }
                },
                None => match sole {
                    Some(issuer) => issuer,
                    None => {
                        reader.tell(
                            Diagnostic::new(errors::INSTRUMENT, standing.at(instrument.id.span), format!("whose instrument is `{}`?", instrument.id.text))
                                .help("write `of` and the place, maker or supplier; it may be left out only in a file that declares just one"),
                        );
                        continue;
                    }
                },
            };
            found.push((issuer, *file, instrument));
        }
    }
    found.sort_by(|one, other| {
        (one.0, &one.2.id.text, one.1, one.2.span).cmp(&(other.0, &other.2.id.text, other.1, other.2.span))
    });
    let before = before.filter(|before| {
        let named = found.iter().map(|(issuer, _, tree)| (*issuer, &tree.id.text));
        before.instruments.len() == found.len() && before.instruments.iter().map(|own| (own.issuer, &own.id)).eq(named)
    });
    for ((issuer, file, tree), number) in found.into_iter().zip(0usize..) {
        let kept = before.filter(|before| !before.again.contains(&file));
        match kept.and_then(|before| before.instruments.share(number)) {
            Some(own) => {
                register.by_issuer.insert((issuer, tree.id.text.clone()), InstrumentId(number as u32));
                register.instruments.push(own);
                register.trees.push((file, tree));
                register.fresh.push(false);
            }
            None => register.head(issuer, file, tree, reader),
        }
    }
    for number in 0..register.instruments.len() {
        if register.is_fresh(number) {
            register.clauses(InstrumentId(number as u32), codes, reader);
        }
    }
    // One of those read again may not be an instrument any more.
    let same = before.is_some_and(|before| before.instruments.len() == register.instruments.len());
    (register, same)
}

/// The one issuer that a file declares.
fn sole_issuer(tree: &tree::File, file: FileId, reader: &Reader) -> Option<PlaceId> {
    let mut names = tree.items.iter().filter_map(|item| match item {
        tree::Item::Place(place) => Some(&place.name),
        tree::Item::Issuer(issuer) => Some(&issuer.name),
        _ => None,
    });
    let name = names.next()?;
    if names.next().is_some() {
        return None;
    }
    let reference = tree::Reference { text: name.text.clone(), printed: false, span: name.span };
    reader.places.resolve(&reference, file).ok()
}

impl Register<'_> {
    /// The instrument that a text names: the issuer's own, else that of the
    /// nearest outer place, else that of the issuer named.
    pub(crate) fn named(
        &self,
        id: &tree::Word,
        of: Option<&tree::Reference>,
        own: PlaceId,
        standing: &Standing,
        reader: &mut Reader,
    ) -> Option<InstrumentId> {
        let issuers = match of {
            Some(reference) => match reader.places.resolve(reference, standing.file) {
                Ok(issuer) => vec![issuer],
                Err(problem) => {
                    reader.tell(problem);
                    return None;
                }
            },
            None => reader.places.path(own).into_iter().rev().collect(),
        };
        let found = issuers.iter().find_map(|issuer| self.by_issuer.get(&(*issuer, id.text.clone())).copied());
        if found.is_none() {
            let others: Vec<&str> = self
                .instruments
                .iter()
                .filter(|instrument| instrument.id == id.text)
                .filter_map(|instrument| reader.places.issuer(instrument.issuer))
                .map(|issuer| &*issuer.name)
                .collect();
            let help = match others.as_slice() {
                [] => {
                    let near = nearest(&id.text, self.instruments.iter().map(|instrument| &*instrument.id));
                    did_you_mean(
                        &near,
                        "name an instrument of the place itself or of one around it, or write `of` and the place",
                    )
                }
                [one, ..] => format!("there is one of `{one}`: write `{} of {one}`", id.text),
            };
            reader.tell(
                Diagnostic::new(
                    errors::UNKNOWN_INSTRUMENT,
                    standing.at(id.span),
                    format!("no instrument `{}` is known here", id.text),
                )
                .help(help),
            );
        }
        found
    }

    /// Whether an instrument is read here.
    pub(super) fn is_fresh(&self, number: usize) -> bool {
        self.fresh.get(number).copied().unwrap_or(true)
    }

    /// The instrument with this number.
    pub(crate) fn get(&self, id: InstrumentId) -> Option<&Instrument> {
        self.instruments.get(id.0 as usize)
    }
}

impl<'t> Register<'t> {
    fn head(&mut self, issuer: PlaceId, file: FileId, tree: &'t tree::Instrument, reader: &mut Reader) {
        let Some(about) = reader.places.issuer(issuer) else { return };
        let is_place = about.kind == IssuerKind::Place;
        let standing = Standing::plain(file, is_place.then_some(issuer));
        let key = (issuer, tree.id.text.clone());
        if let Some(first) = self.by_issuer.get(&key).and_then(|id| self.get(*id)) {
            reader.tell(
                Diagnostic::new(
                    errors::DUPLICATE_ID,
                    standing.at(tree.id.span),
                    format!("`{}` is used twice by the same issuer", tree.id.text),
                )
                .also(first.at, "first used here")
                .help("an id is unique for its issuer"),
            );
            return;
        }
        let Some(kind) = self.kind(tree, about.kind, &standing, reader) else { return };
        let status = tree.status.as_ref().and_then(|word| status_of(word, &standing, reader));
        let adopted = tree.adopted.as_ref().and_then(|word| reader.date(word, &standing));
        let by = default_dates(issuer, reader);
        let force = tree.force.as_ref().and_then(|force| force_of(force, by, &standing, reader));
        if tree.force.is_none() && tree.status.is_none() {
            reader.tell(
                Diagnostic::new(
                    errors::MISSING_LINE,
                    standing.at(tree.id.span),
                    format!("`{}` does not say when it is in force", tree.id.text),
                )
                .help("write `in force from` and a date, or `status proposed` or `status enacted`"),
            );
        }
        let around = match &about.provenance {
            Some(own) => {
                let own = own.clone();
                let place = Standing::plain(about.at.file, None);
                reader.provenance(Some(&own), &Provenance::Missing, &place)
            }
            None => Provenance::Missing,
        };
        let provenance = reader.provenance(tree.provenance.as_ref(), &around, &standing);
        self.by_issuer.insert(key, InstrumentId(self.instruments.len() as u32));
        self.fresh.push(true);
        self.instruments.push(Arc::new(Instrument {
            id: tree.id.text.clone(),
            issuer,
            title: tree.title.as_ref().map(|title| title.text.clone()).unwrap_or_default(),
            kind,
            adopted,
            force,
            status,
            applies: Vec::new(),
            adoptions: Vec::new(),
            election: None,
            amends: Vec::new(),
            sections: Vec::new(),
            powers: Vec::new(),
            prevails: Vec::new(),
            ends: Vec::new(),
            provenance,
            at: standing.at(tree.id.span),
        }));
        self.trees.push((file, tree));
    }

    fn kind(
        &self,
        tree: &tree::Instrument,
        issuer: IssuerKind,
        standing: &Standing,
        reader: &mut Reader,
    ) -> Option<Kind> {
        let Some(word) = &tree.kind else {
            reader.tell(
                Diagnostic::new(
                    errors::MISSING_LINE,
                    standing.at(tree.id.span),
                    format!("`{}` does not say of what kind it is", tree.id.text),
                )
                .help("write `kind` and a word such as `ordinance`, `statute` or `bulletin`"),
            );
            return None;
        };
        let Some(kind) = Kind::parse(&word.text) else {
            let near = nearest(&word.text, Kind::ALL.iter().map(|(name, _)| *name));
            let all: Vec<&str> = Kind::ALL.iter().map(|(name, _)| *name).collect();
            reader.tell(
                Diagnostic::new(
                    errors::INSTRUMENT,
                    standing.at(word.span),
                    format!("`{}` is no kind of instrument", word.text),
                )
                .help(did_you_mean(&near, &format!("the kinds are {}", all.join(", ")))),
            );
            return None;
        };
        let fits = match kind.weight() {
            Weight::Binding => issuer == IssuerKind::Place,
            Weight::Advisory => true,
            Weight::Instructions => issuer == IssuerKind::Maker,
            Weight::Service => issuer == IssuerKind::Supplier,
        };
        if !fits {
            reader.tell(
                Diagnostic::new(errors::AUTHORITY, standing.at(word.span), format!("this issuer makes no `{}`", word.text))
                    .help("places make law, makers `instructions`, suppliers a `service-rule`; anybody may give advice such as a `bulletin`"),
            );
            return None;
        }
        Some(kind)
    }

    fn clauses(&mut self, id: InstrumentId, codes: &Codes, reader: &mut Reader) {
        let Some(&(file, tree)) = self.trees.get(id.0 as usize) else { return };
        let Some(mut own) = self.get(id).cloned() else { return };
        let is_place = reader.places.issuer(own.issuer).is_some_and(|issuer| issuer.kind == IssuerKind::Place);
        let standing = Standing::plain(file, is_place.then_some(own.issuer));
        own.applies = tree.applies.iter().map(|cond| reader.reach(cond, &standing)).collect();
        let weight = own.kind.weight();
        let by = own.force.map(|force| force.by).or_else(|| default_dates(own.issuer, reader));
        for clause in &tree.clauses {
            if !allowed(clause, weight) {
                reader.tell(
                    Diagnostic::new(
                        errors::AUTHORITY,
                        standing.at(span_of(clause)),
                        format!("`{}` of the kind `{}` may not do this", own.id, own.kind.word()),
                    )
                    .help("only law adopts, amends, repeals or holds powers; other kinds carry sections, and advice may also read a disputed text"),
                );
                continue;
            }
            match clause {
                Clause::Section(section) => {
                    if own.sections.iter().any(|(number, _)| *number == section.number.text) {
                        reader.tell(
                            Diagnostic::new(
                                errors::DUPLICATE_ID,
                                standing.at(section.number.span),
                                format!("there is a section `{}` already", section.number.text),
                            )
                            .help("give each section of an instrument a number of its own"),
                        );
                        continue;
                    }
                    let head =
                        Head { title: section.title.as_ref(), subjects: &section.subjects, span: section.number.span };
                    let read = reader.section(&head, &section.body, &own.provenance, &standing);
                    own.sections.push((section.number.text.clone(), Arc::new(read)));
                }
                Clause::Election(election) => own.election = election_of(election, by, &standing, reader),
                Clause::Power(power) => own.powers.extend(power_of(power, &standing, reader)),
                Clause::Prevails(prevails) => own.prevails.push(prevails_of(prevails, codes, &standing, reader)),
                Clause::Ends(ends) => own.ends.extend(self.ends_of(ends, &own, &standing, reader)),
                Clause::Adopts(adopts) => own.adoptions.extend(adoptions_of(adopts, tree, codes, &standing, reader)),
                Clause::Amend(_) => {}
            }
        }
        if let Some(slot) = self.instruments.get_mut(id.0 as usize) {
            *slot = own;
        }
    }

    fn ends_of(&self, ends: &tree::Ends, own: &Instrument, standing: &Standing, reader: &mut Reader) -> Option<Ends> {
        let target = self.named(&ends.id, ends.of.as_ref(), own.issuer, standing, reader)?;
        let other = self.get(target)?;
        if !reader.places.within(other.issuer, own.issuer) {
            reader.tell(
                Diagnostic::new(
                    errors::AUTHORITY,
                    standing.at(ends.span),
                    format!("`{}` is not this issuer's to end", other.id),
                )
                .also(other.at, "it was made here")
                .help("an instrument is ended by its issuer or by a place around it"),
            );
            return None;
        }
        if let Some(number) = &ends.number {
            let tree = self.trees.get(target.0 as usize).map(|(_, tree)| *tree)?;
            let numbers = numbers_of(tree);
            if !numbers.contains(&&*number.text) {
                reader.no_section(number, numbers.into_iter(), standing);
                return None;
            }
        }
        Some(Ends {
            repeals: ends.repeals,
            target,
            number: ends.number.as_ref().map(|number| number.text.clone()),
            at: standing.at(ends.span),
        })
    }
}

/// The numbers of an instrument's sections and patches.
fn numbers_of(tree: &tree::Instrument) -> Vec<&str> {
    let mut numbers = Vec::new();
    for clause in &tree.clauses {
        match clause {
            Clause::Section(section) => numbers.push(&*section.number.text),
            Clause::Amend(amend) => numbers.extend(amend.clauses.iter().filter_map(|clause| match clause {
                tree::TextClause::Patch(patch) => Some(&*patch.number.text),
                tree::TextClause::Section(section) => Some(&*section.number.text),
                tree::TextClause::Definition(definition) => Some(&*definition.name.text),
                _ => None,
            })),
            _ => {}
        }
    }
    numbers
}

/// Whether an instrument of this weight may carry such a clause.
fn allowed(clause: &Clause, weight: Weight) -> bool {
    match (weight, clause) {
        (Weight::Binding, _) | (_, Clause::Section(_)) => true,
        (Weight::Advisory, Clause::Amend(amend)) => amend
            .clauses
            .iter()
            .all(|clause| matches!(clause, tree::TextClause::Patch(patch) if patch.action == tree::Action::Reads)),
        _ => false,
    }
}

fn span_of(clause: &Clause) -> tree::Span {
    match clause {
        Clause::Adopts(clause) => clause.span,
        Clause::Election(clause) => clause.span,
        Clause::Amend(clause) => clause.span,
        Clause::Section(clause) => clause.number.span,
        Clause::Power(clause) => clause.span,
        Clause::Prevails(clause) => clause.span,
        Clause::Ends(clause) => clause.span,
    }
}

fn power_of(power: &tree::Power, standing: &Standing, reader: &mut Reader) -> Option<Power> {
    let scope = power.scope.as_ref().map_or(Expr::Constant(true), |cond| reader.reach(cond, standing));
    let (mut questions, mut subjects) = (Vec::new(), Vec::new());
    for target in &power.targets {
        match reader.glossary.subject(&target.text) {
            Some(subject) => subjects.push(subject),
            None => questions.push(reader.question_or_subject(target, standing)?),
        }
    }
    Some(Power { kind: power.kind, questions, subjects, scope, at: standing.at(power.span) })
}

fn prevails_of(prevails: &tree::Prevails, codes: &Codes, standing: &Standing, reader: &mut Reader) -> Prevails {
    let mut found = Prevails { codes: Vec::new(), instructions: false, questions: Vec::new() };
    for over in &prevails.over {
        if &*over.text == "instructions" {
            found.instructions = true;
        } else if code_number(over, codes, standing, reader).is_some() {
            found.codes.push(over.text.clone());
        }
    }
    found.questions = reader.questions(&prevails.questions, standing);
    found
}
