//! When an instrument is in force and how it stands on a day, in the reader's words.

use super::desk::Desk;
use crate::law::instrument::{DaysInForce, Instrument, Status};
use crate::report::effect::words::lower;
use crate::report::in_force::Standing;
use crate::report::speech::Reader;

/// When it is in force, with the date fact by which it is where that is another than
/// usual; what is said instead where it has no day.
pub(super) fn span(desk: &Desk<'_>, own: &Instrument) -> String {
    let reader = desk.reader;
    match own.status {
        Some(Status::Proposed) => return reader.say("browse-proposed"),
        Some(Status::Enacted) => return reader.say("browse-enacted"),
        None => {}
    }
    let (Some(force), Some(days)) = (own.force, DaysInForce::of(own)) else {
        return reader.say("sheet-no-day-recorded");
    };
    let span = reader.in_force(days);
    let glossary = &desk.library().glossary;
    if glossary.roles.dates == Some(force.by) {
        return span;
    }
    let by = &glossary[force.by];
    let by = if by.title.is_empty() { by.path.to_string() } else { lower(&by.title) };
    reader.say_with("browse-by-date", &[("span", &span), ("fact", &by)])
}

/// Until when an applicant may choose the earlier text; nothing where none may.
pub(super) fn election(desk: &Desk<'_>, own: &Instrument) -> Option<String> {
    let election = own.election?;
    let through = election.through.to_string();
    Some(match election.from {
        Some(from) => {
            desk.reader.say_with("browse-election-from", &[("from", &from.to_string()), ("through", &through)])
        }
        None => desk.reader.say_with("browse-election", &[("through", &through)]),
    })
}

/// How it stands, by whom it ended where somebody ended it.
pub(super) fn standing(reader: Reader, standing: Standing, by: Option<&str>) -> String {
    let word = match standing {
        Standing::InForce => reader.say("browse-standing-in-force"),
        Standing::Possible => reader.say("browse-standing-possible"),
        Standing::Elective => reader.say("browse-standing-elective"),
        Standing::NotYet => reader.say("browse-standing-not-yet"),
        Standing::Ended => reader.say("browse-standing-ended"),
        Standing::Repealed => reader.say("browse-standing-repealed"),
        Standing::Suspended => reader.say("browse-standing-suspended"),
        Standing::Proposed => reader.say("browse-standing-proposed"),
        Standing::Enacted => reader.say("browse-standing-enacted"),
    };
    by.map_or_else(|| word.clone(), |by| reader.say_with("browse-standing-by", &[("word", &word), ("by", by)]))
}
