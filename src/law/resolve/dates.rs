//! When an instrument is in force: dates, spans, windows and statuses.

use super::{Reader, Standing};
use crate::glossary::model::{FieldId, PlaceId, Shape};
use crate::law::instrument::{Election, End, Force, Start, Status};
use crate::syntax::codes as errors;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree;
use crate::values::Period;

/// The date fact by which an issuer's instruments are in force unless they say
/// otherwise: its own, that of the places around it, that of the glossary.
pub(super) fn default_dates(issuer: PlaceId, reader: &mut Reader) -> Option<FieldId> {
    let path = reader.places.path(issuer);
    let named = path
        .iter()
        .rev()
        .filter_map(|id| reader.places.issuer(*id))
        .find_map(|issuer| issuer.dates_by.clone().map(|path| (path, issuer.at.file)));
    match named {
        Some((path, file)) => date_field(&path, &Standing::plain(file, Some(issuer)), reader),
        None => reader.glossary.roles.dates,
    }
}

/// A fact that is a date.
fn date_field(path: &tree::Path, standing: &Standing, reader: &mut Reader) -> Option<FieldId> {
    let field = reader.field(path, standing)?;
    match reader.glossary.fields.get(field.0 as usize).map(|field| field.shape) {
        Some(Shape::Date) => Some(field),
        _ => {
            reader.tell(
                Diagnostic::new(errors::SHAPE, standing.at(path.head.span), format!("`{}` is no date", path.head.text))
                    .help("name a fact that is a date, such as `permit-date`"),
            );
            None
        }
    }
}

pub(super) fn status_of(word: &tree::Word, standing: &Standing, reader: &mut Reader) -> Option<Status> {
    match &*word.text {
        "proposed" => Some(Status::Proposed),
        "enacted" => Some(Status::Enacted),
        _ => {
            reader.tell(
                Diagnostic::new(errors::INSTRUMENT, standing.at(word.span), format!("`{}` is no status", word.text))
                    .help("write `status proposed`, or `status enacted` where the date is to come"),
            );
            None
        }
    }
}

pub(super) fn force_of(
    force: &tree::Force,
    by: Option<FieldId>,
    standing: &Standing,
    reader: &mut Reader,
) -> Option<Force> {
    let by = match &force.by {
        Some(path) => date_field(path, standing, reader)?,
        None => match by {
            Some(by) => by,
            None => {
                reader.tell(
                    Diagnostic::new(
                        errors::INSTRUMENT,
                        standing.at(force.span),
                        "it is not said by which date this is in force",
                    )
                    .help("write `by` and a date fact, or let one fact of the glossary say `dates instruments`"),
                );
                return None;
            }
        },
    };
    let start = match &force.from {
        Some(tree::Start::On(day)) => Start::On(reader.date(day, standing)?),
        Some(tree::Start::After { count, unit, date }) => {
            let date = reader.date(date, standing)?;
            Start::On(date.after(reader.period(count, unit, standing)?))
        }
        Some(tree::Start::Unknown) => Start::Unknown,
        Some(tree::Start::Between(first, last)) => {
            let (first_day, last_day) = (reader.date(first, standing)?, reader.date(last, standing)?);
            if last_day < first_day {
                reader.tell(
                    Diagnostic::new(
                        errors::DATE_ORDER,
                        standing.at(first.span.to(last.span)),
                        "the span ends before it begins",
                    )
                    .help("write the earlier day first"),
                );
                return None;
            }
            Start::Between(first_day, last_day)
        }
        None => {
            reader.tell(
                Diagnostic::new(
                    errors::INSTRUMENT,
                    standing.at(force.span),
                    "it is not said from when this is in force",
                )
                .help("write `in force from` and a date, or `from unknown`"),
            );
            return None;
        }
    };
    let end = match &force.through {
        None => End::Never,
        Some(tree::End::Unknown) => End::Unknown,
        Some(tree::End::On(word)) => {
            let day = reader.date(word, standing)?;
            let first = match start {
                Start::On(day) | Start::Between(day, _) => Some(day),
                Start::Unknown => None,
            };
            if first.is_some_and(|first| day < first) {
                reader.tell(
                    Diagnostic::new(errors::DATE_ORDER, standing.at(word.span), "this ends before it begins")
                        .help("the day after `through` is the last on which it is in force"),
                );
            }
            End::On(day)
        }
    };
    Some(Force { start, end, by })
}

pub(super) fn election_of(
    election: &tree::Election,
    by: Option<FieldId>,
    standing: &Standing,
    reader: &mut Reader,
) -> Option<Election> {
    let by = match &election.by {
        Some(path) => date_field(path, standing, reader)?,
        None => by?,
    };
    let from = match &election.from {
        Some(word) => Some(reader.date(word, standing)?),
        None => None,
    };
    let through = reader.date(&election.through, standing)?;
    if from.is_some_and(|from| through < from) {
        reader.tell(
            Diagnostic::new(errors::DATE_ORDER, standing.at(election.span), "the window closes before it opens")
                .help("the day after `through` is the last on which the choice is open"),
        );
        return None;
    }
    if reader.glossary.roles.text.is_none() {
        reader.tell(
            Diagnostic::new(errors::INSTRUMENT, standing.at(election.span), "no fact of the glossary chooses the text")
                .help("declare one with `chooses the text`, with the terms `earlier` and `later`"),
        );
        return None;
    }
    Some(Election { from, through, by })
}

impl Reader<'_> {
    /// Reads a period such as `90 days`.
    pub(crate) fn period(&mut self, count: &tree::Word, unit: &tree::Word, standing: &Standing) -> Option<Period> {
        let period = Period::parse(&count.text, &unit.text);
        if period.is_none() {
            self.tell(
                Diagnostic::new(
                    errors::NUMBER,
                    standing.at(count.span.to(unit.span)),
                    format!("`{} {}` is no period", count.text, unit.text),
                )
                .help("write a whole number and `days`, `months` or `years`"),
            );
        }
        period
    }
}
