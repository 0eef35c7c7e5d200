//! Conditions turned round: `is` and `is not`, `and` and `or`, `any` and `no`, a
//! comparison and its opposite, a part left out.

use super::tape::Tape;
use super::walk;
use super::{days, figures, lists};
use crate::syntax::tree::{Cond, CondKind, Test};

const TURNED: &str = "add an example of a job in which this test decides";
const PART: &str = "add an example of a job in which this part alone decides";

/// Every change of a condition and of its parts.
pub(super) fn all(cond: &mut Cond, tape: &mut Tape<'_>) {
    turned(cond, tape);
    if tape.made {
        return;
    }
    let span = cond.span;
    match &mut cond.kind {
        CondKind::And(parts) | CondKind::Or(parts) => {
            left_out(parts, tape);
            parts.iter_mut().for_each(|part| all(part, tape));
        }
        CondKind::Not(inner) => all(inner, tape),
        CondKind::Entries { with: Some(inner), .. } => all(inner, tape),
        CondKind::Test { test, .. } => match test {
            Test::Is(values) | Test::IsNot(values) | Test::Includes(values) => {
                lists::values(values, span, tape);
                if let [one] = values.as_mut_slice() {
                    days::value(one, span, tape);
                }
            }
            Test::AtLeast(value) | Test::AtMost(value) | Test::Over(value) | Test::Under(value) => {
                figures::value(value, span, tape);
            }
            Test::Before(value) | Test::From(value) => days::value(value, span, tape),
            Test::Within { count, .. } => days::count(count, span, tape),
        },
        CondKind::Say(demand) => walk::demand(demand, tape),
        CondKind::Entries { with: None, .. } | CondKind::Named(_) => {}
    }
}

fn turned(cond: &mut Cond, tape: &mut Tape<'_>) {
    let span = cond.span;
    let words: Option<(&str, &str)> = match &cond.kind {
        CondKind::And(_) => Some((" and ", " or ")),
        CondKind::Or(_) => Some((" or ", " and ")),
        CondKind::Entries { any: true, .. } => Some(("any ", "no ")),
        CondKind::Entries { any: false, .. } => Some(("no ", "any ")),
        CondKind::Test { test, .. } => match test {
            Test::Is(_) => Some((" is ", " is not ")),
            Test::IsNot(_) => Some((" is not ", " is ")),
            Test::AtLeast(_) => Some((" at least ", " under ")),
            Test::AtMost(_) => Some((" at most ", " over ")),
            Test::Over(_) => Some((" over ", " at most ")),
            Test::Under(_) => Some((" under ", " at least ")),
            Test::Before(_) => Some((" before ", " from ")),
            Test::From(_) => Some((" from ", " before ")),
            Test::Includes(_) | Test::Within { .. } => None,
        },
        CondKind::Not(_) | CondKind::Say(_) | CondKind::Named(_) => None,
    };
    let told = |tape: &Tape<'_>| {
        let old = tape.source(span);
        match words {
            Some((from, to)) if old.contains(from) => format!("`{old}` → `{}`", old.replacen(from, to, 1)),
            Some((from, to)) => format!("`{}` → `{}` in `{old}`", from.trim(), to.trim()),
            None if matches!(cond.kind, CondKind::Not(_)) => format!("`not` left out of `{old}`"),
            None => format!("`{old}` → `not ({old})`"),
        }
    };
    if !tape.offer(span, TURNED, told) {
        return;
    }
    let kind = std::mem::replace(&mut cond.kind, CondKind::And(Vec::new()));
    cond.kind = opposite(kind, cond.span);
}

fn opposite(kind: CondKind, span: crate::syntax::tree::Span) -> CondKind {
    match kind {
        CondKind::And(parts) => CondKind::Or(parts),
        CondKind::Or(parts) => CondKind::And(parts),
        CondKind::Entries { any, list, with } => CondKind::Entries { any: !any, list, with },
        CondKind::Not(inner) => inner.kind,
        CondKind::Test { path, test } => {
            let test = match test {
                Test::Is(values) => Test::IsNot(values),
                Test::IsNot(values) => Test::Is(values),
                Test::AtLeast(value) => Test::Under(value),
                Test::AtMost(value) => Test::Over(value),
                Test::Over(value) => Test::AtMost(value),
                Test::Under(value) => Test::AtLeast(value),
                Test::Before(value) => Test::From(value),
                Test::From(value) => Test::Before(value),
                test @ (Test::Includes(_) | Test::Within { .. }) => {
                    let kind = CondKind::Test { path, test };
                    return CondKind::Not(Box::new(Cond { kind, span }));
                }
            };
            CondKind::Test { path, test }
        }
        kind @ (CondKind::Say(_) | CondKind::Named(_)) => CondKind::Not(Box::new(Cond { kind, span })),
    }
}

/// Each part of `and` or `or` is left out once.
fn left_out(parts: &mut Vec<Cond>, tape: &mut Tape<'_>) {
    if parts.len() < 2 {
        return;
    }
    for (number, at) in parts.iter().map(|part| part.span).enumerate().collect::<Vec<_>>() {
        if tape.offer(at, PART, |tape| format!("the part {} left out", tape.quoted(at))) {
            parts.remove(number);
            return;
        }
    }
}
