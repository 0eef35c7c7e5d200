//! The time line as sentences, for whoever does not see the drawing.

use super::{Bar, How, Stretch, TimeLine};
use crate::report::speech::Reader;

/// The bars in sentences, lane by lane; then what is coming, and the marked days.
pub(super) fn list(line: &TimeLine, reader: Reader) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    for lane in &line.lanes {
        for bar in &lane.bars {
            told.push(format!("{}: {}", lane.title, sentence(bar, reader)));
        }
    }
    told.extend(line.coming.iter().map(|coming| coming.words.clone()));
    told.extend(line.marks.iter().map(|mark| mark.label.clone()));
    told
}

/// A bar in one sentence.
pub(super) fn sentence(bar: &Bar, reader: Reader) -> String {
    let spans: Vec<String> = bar.spans.iter().map(|span| stretch(*span, reader)).collect();
    let mut words = format!("{}, {}: {}", bar.label, bar.issuer, spans.join("; "));
    if !bar.does.is_empty() {
        words.push_str(&format!("; {}", bar.does));
    }
    if !bar.scope.is_empty() {
        words.push_str(&format!("; {}", reader.say_with("time-line-where", &[("condition", &bar.scope)])));
    }
    if let Some(by) = &bar.ended_by {
        words.push_str(&format!("; {}", reader.say_with("time-line-repealed-by", &[("instrument", by)])));
    }
    if bar.end_not_known {
        words.push_str(&format!("; {}", reader.say("time-line-end-not-known")));
    }
    words
}

/// A stretch in words.
fn stretch(span: Stretch, reader: Reader) -> String {
    let days = dates(span, reader);
    match span.how {
        How::InForce => days,
        how => format!("{days} ({})", how_words(how, reader)),
    }
}

/// The days of a stretch.
pub(super) fn dates(span: Stretch, reader: Reader) -> String {
    let from = span.from.to_string();
    match span.through {
        Some(through) => {
            reader.say_with("time-line-from-through", &[("from", &from), ("through", &through.to_string())])
        }
        None => reader.say_with("time-line-from", &[("from", &from)]),
    }
}

/// The days from the first to the last of some stretches; where it is not known on which day
/// they begin, the earliest.
pub(super) fn all_dates(first: Stretch, last: Stretch, reader: Reader) -> String {
    if first.how != How::NotKnown {
        return dates(Stretch { through: last.through, ..first }, reader);
    }
    let from = first.from.to_string();
    match last.through {
        Some(through) => {
            let parts = [("from", &*from), ("through", &*through.to_string())];
            reader.say_with("time-line-not-before-through", &parts)
        }
        None => reader.say_with("time-line-not-before", &[("from", &from)]),
    }
}

/// A way to stand in words.
pub(super) fn how_words(how: How, reader: Reader) -> String {
    match how {
        How::InForce => reader.say("time-line-in-force"),
        How::Elective => reader.say("time-line-elective"),
        How::NotKnown => reader.say("time-line-not-known"),
        How::Suspended => reader.say("time-line-suspended"),
    }
}
