//! What two laws answer otherwise, line by line.

use crate::review::effect::{Bench, Change, Joint, Known, Side};
use crate::verdict::survey::Window;

/// Every change with each of its conditions, every question that one side alone
/// knows, and every question that is not decided, a line each, in order.
pub(crate) fn lines(before: Side<'_>, after: Side<'_>) -> Vec<String> {
    let joint = Joint::new(before, after).expect("two laws");
    let bench = Bench::new(&joint);
    let effect = bench.effect(Window::default());
    let name = |id| bench.question(id).map(|question| question.name.to_string()).expect("a question");
    let mut lines: Vec<String> = Vec::new();
    for (id, known) in &effect.apart {
        let side = if *known == Known::Before { "before" } else { "after" };
        lines.push(format!("{}: known {side} alone", name(*id)));
    }
    lines.extend(effect.undecided.iter().map(|id| format!("{}: undecided", name(*id))));
    for changed in &effect.changed {
        for change in &changed.changes {
            let answers = answers(&bench, change);
            for condition in &change.conditions {
                let mut words: Vec<String> =
                    condition.tests.iter().map(|(cond, holds)| bench.test(*cond, *holds)).collect();
                words.sort();
                let words = if words.is_empty() { "always".to_owned() } else { words.join(" and ") };
                lines.push(format!("{}: {answers} if {words}", name(changed.question)));
            }
        }
    }
    lines.sort();
    lines
}

fn answers(bench: &Bench<'_>, change: &Change) -> String {
    let of = |held| {
        let value =
            bench.value(held).map(|value| crate::report::speech::Reader::default().value(&value)).unwrap_or_default();
        let marks = [(held.referred(), " or as referred"), (held.conflict(), " in conflict")];
        marks.into_iter().filter(|(mark, _)| *mark).fold(value, |all, (_, word)| all + word)
    };
    format!("{} -> {}", of(&change.before), of(&change.after))
}
