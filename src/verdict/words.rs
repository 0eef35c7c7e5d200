//! Conditions in the words of the language: what failed, and what an answer
//! waits for.

use super::plan::Look;
use super::truth::{Entry, Mark, Matter, Memo};
use super::value::{broadest, sorted};
use crate::glossary::expr::Check;
use crate::glossary::model::{ChoiceId, FieldId, GroupId, Order, Shape};
use crate::job::model::Given;
use crate::law::model::{CondId, Node};
use crate::values::{Exact, Terms};

/// The most entries that are told one by one; of more the whole condition is told.
const ENTRIES_TOLD: usize = 8;

/// A condition, or what remains of one.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Phrase {
    All(Vec<Phrase>),
    Any(Vec<Phrase>),
    /// A test, whether it is to hold, and in which entry it is read.
    Test {
        cond: CondId,
        holds: bool,
        entry: Option<(GroupId, usize)>,
    },
}

impl Phrase {
    /// Whether nothing is left of it.
    pub(crate) fn is_empty(&self) -> bool {
        matches!(self, Phrase::All(parts) | Phrase::Any(parts) if parts.is_empty())
    }

    fn all(parts: Vec<Phrase>) -> Phrase {
        Phrase::joined(parts, true)
    }

    fn any(parts: Vec<Phrase>) -> Phrase {
        Phrase::joined(parts, false)
    }

    fn joined(parts: Vec<Phrase>, all: bool) -> Phrase {
        let mut flat: Vec<Phrase> = Vec::new();
        for part in parts {
            let inner = match part {
                Phrase::All(inner) if all => inner,
                Phrase::Any(inner) if !all => inner,
                other => vec![other],
            };
            for part in inner {
                if !flat.contains(&part) {
                    flat.push(part);
                }
            }
        }
        match flat.pop() {
            Some(only) if flat.is_empty() => only,
            Some(last) => {
                flat.push(last);
                if all { Phrase::All(flat) } else { Phrase::Any(flat) }
            }
            None if all => Phrase::All(flat),
            None => Phrase::Any(flat),
        }
    }

    /// The condition in the words of the language.
    pub(crate) fn write(&self, matter: &Matter<'_>) -> String {
        match self {
            Phrase::All(parts) => join(parts, matter, " and "),
            Phrase::Any(parts) => join(parts, matter, " or "),
            Phrase::Test { cond, holds, entry } => condition(matter, *cond, *holds, *entry),
        }
    }
}

fn join(parts: &[Phrase], matter: &Matter<'_>, with: &str) -> String {
    let texts: Vec<String> = parts
        .iter()
        .map(|part| match part {
            Phrase::Test { .. } => part.write(matter),
            _ => format!("({})", part.write(matter)),
        })
        .collect();
    texts.join(with)
}

fn mark(memo: &mut Memo, matter: &Matter<'_>, cond: CondId, entry: Option<(GroupId, usize)>) -> Mark {
    let row = entry.and_then(|(group, number)| {
        let values = matter.list(group)?.entries.get(number)?;
        Some(Entry { group, values })
    });
    memo.read_in(matter, cond, row)
}

/// What remains of a condition that is to hold, or not to hold.
pub(crate) fn residue(
    memo: &mut Memo,
    matter: &Matter<'_>,
    cond: CondId,
    wanted: bool,
    entry: Option<(GroupId, usize)>,
) -> Phrase {
    match mark(memo, matter, cond, entry) {
        Mark::Yes if wanted => return Phrase::All(Vec::new()),
        Mark::No if !wanted => return Phrase::All(Vec::new()),
        Mark::Yes | Mark::No => return Phrase::Any(Vec::new()),
        Mark::Open | Mark::Refers => {}
    }
    let mut open = |parts: &[CondId], wanted: bool| -> Vec<Phrase> {
        parts
            .iter()
            .filter(|part| matches!(mark(memo, matter, **part, entry), Mark::Open | Mark::Refers))
            .copied()
            .collect::<Vec<_>>()
            .into_iter()
            .map(|part| residue(memo, matter, part, wanted, entry))
            .collect()
    };
    match matter.law.node(cond) {
        Node::Not(part) => residue(memo, matter, *part, !wanted, entry),
        Node::And(parts) if wanted => Phrase::all(open(parts, true)),
        Node::And(parts) => Phrase::any(open(parts, false)),
        Node::Or(parts) if wanted => Phrase::any(open(parts, true)),
        Node::Or(parts) => Phrase::all(open(parts, false)),
        Node::Entries { any, group, with } => {
            let some = *any == wanted;
            let list = matter.list(*group);
            let whole = Phrase::Test { cond, holds: wanted, entry: None };
            let mut parts = Vec::new();
            for number in 0..list.map_or(0, |list| list.entries.len()) {
                let here = Some((*group, number));
                if matches!(mark(memo, matter, *with, here), Mark::Open | Mark::Refers) {
                    if parts.len() == ENTRIES_TOLD {
                        return whole;
                    }
                    parts.push(residue(memo, matter, *with, some, here));
                }
            }
            if list.is_none_or(|list| list.more) {
                parts.push(whole);
            }
            if some { Phrase::any(parts) } else { Phrase::all(parts) }
        }
        _ => Phrase::Test { cond, holds: wanted, entry },
    }
}

/// The tests that failed in a condition that was to hold and does not.
pub(crate) fn failed(memo: &mut Memo, matter: &Matter<'_>, cond: CondId, into: &mut Vec<Phrase>) {
    match matter.law.node(cond) {
        Node::And(parts) => {
            for part in parts {
                if memo.read(matter, *part) == Mark::No {
                    failed(memo, matter, *part, into);
                }
            }
        }
        Node::Or(parts) => parts.iter().for_each(|part| failed(memo, matter, *part, into)),
        Node::Not(part) => match matter.law.node(*part) {
            Node::Or(parts) => {
                for part in parts {
                    if memo.read(matter, *part) == Mark::Yes {
                        push(into, Phrase::Test { cond: *part, holds: false, entry: None });
                    }
                }
            }
            _ => push(into, Phrase::Test { cond: *part, holds: false, entry: None }),
        },
        _ => push(into, Phrase::Test { cond, holds: true, entry: None }),
    }
}

fn push(into: &mut Vec<Phrase>, phrase: Phrase) {
    if !into.contains(&phrase) {
        into.push(phrase);
    }
}

/// A whole condition in words.
pub(crate) fn whole(matter: &Matter<'_>, cond: CondId) -> String {
    condition(matter, cond, true, None)
}

/// A condition, or that it does not hold.
pub(crate) fn condition(matter: &Matter<'_>, cond: CondId, holds: bool, entry: Option<(GroupId, usize)>) -> String {
    let parts = |parts: &[CondId], with: &str| {
        let texts: Vec<String> = parts
            .iter()
            .map(|part| match matter.law.node(*part) {
                Node::And(_) | Node::Or(_) => format!("({})", condition(matter, *part, true, entry)),
                _ => condition(matter, *part, true, entry),
            })
            .collect();
        texts.join(with)
    };
    match matter.law.node(cond) {
        Node::Not(part) => condition(matter, *part, !holds, entry),
        Node::Field(field, check) => test(matter, *field, check, holds, entry),
        Node::Entries { any, group, with } => {
            let word = if *any == holds { "any" } else { "no" };
            let list = matter.lexicon.group(*group).map_or("", |group| &*group.name);
            match with {
                &CondId::TRUE => format!("{word} {list}"),
                with => format!("{word} {list} with ({})", condition(matter, *with, true, Some((*group, usize::MAX)))),
            }
        }
        Node::Answer { question, rungs } => {
            let known = matter.law.questions.get(*question).and_then(|law| matter.lexicon.question(law.question));
            let names: Vec<&str> = match known.map(|known| &known.order) {
                Some(Order::Ladder(ladder)) => {
                    rungs.iter().filter_map(|rung| ladder.get(usize::from(rung))).map(|rung| &**rung).collect()
                }
                _ => Vec::new(),
            };
            among(known.map_or("", |known| &known.name), &names, holds)
        }
        Node::Span(span) => {
            let id = matter.law.spans.get(*span).map_or("", |span| &*span.instrument);
            if holds { format!("{id} is in force") } else { format!("{id} is not in force") }
        }
        Node::True if holds => "always".to_string(),
        Node::False if !holds => "always".to_string(),
        Node::True | Node::False => "never".to_string(),
        Node::And(all) if holds => parts(all, " and "),
        Node::Or(any) if holds => parts(any, " or "),
        Node::And(all) => format!("not ({})", parts(all, " and ")),
        Node::Or(any) => format!("not ({})", parts(any, " or ")),
    }
}

fn among(subject: &str, names: &[&str], holds: bool) -> String {
    let not = if holds { "" } else { "not " };
    match names {
        [one] => format!("{subject} is {not}{one}"),
        several if holds => format!("{subject} is any of {}", several.join(", ")),
        several => format!("not ({subject} is any of {})", several.join(", ")),
    }
}

/// The name of a field where it is tested: in an entry by the entry's number,
/// in a condition on any entry by itself.
fn subject(matter: &Matter<'_>, field: FieldId, entry: Option<(GroupId, usize)>) -> String {
    let Some(known) = matter.lexicon.field(field) else { return String::new() };
    match entry {
        Some((group, usize::MAX)) if known.group == Some(group) => known.name.to_string(),
        Some((group, number)) if known.group == Some(group) => {
            super::paths::Path::Attribute { group, entry: number, field }.write(&matter.lexicon)
        }
        _ => known.path.to_string(),
    }
}

fn test(matter: &Matter<'_>, field: FieldId, check: &Check, holds: bool, entry: Option<(GroupId, usize)>) -> String {
    let name = subject(matter, field, entry);
    let shape = matter.lexicon.field(field).map(|field| field.shape);
    let amount = |limit: &Exact| {
        shape
            .and_then(|shape| super::figures::exactly(*limit, shape))
            .map_or_else(|| limit.to_string(), |m| m.shown.to_string())
    };
    let text = match check {
        Check::Among(terms) => {
            let names: Vec<&str> = match shape {
                Some(Shape::YesNo) => terms.iter().map(|term| if term == 0 { "no" } else { "yes" }).collect(),
                Some(Shape::Choice(choice)) => terms_of(matter, choice, *terms),
                _ => Vec::new(),
            };
            return among(&name, &names, holds);
        }
        Check::Named(names) => {
            let names: Vec<&str> = names.iter().map(|name| &**name).collect();
            return among(&name, &names, holds);
        }
        Check::Includes(terms) => {
            let names = match shape {
                Some(Shape::Several(choice)) => terms_of(matter, choice, *terms),
                _ => Vec::new(),
            };
            let tests: Vec<String> = names.iter().map(|term| format!("{name} includes {term}")).collect();
            tests.join(" or ")
        }
        Check::AtLeast(limit) => format!("{name} at least {}", amount(limit)),
        Check::AtMost(limit) => format!("{name} at most {}", amount(limit)),
        Check::Over(limit) => format!("{name} over {}", amount(limit)),
        Check::Under(limit) => format!("{name} under {}", amount(limit)),
        Check::Before(day) if holds => format!("{name} before {day}"),
        // A date that there is none of is neither before nor from a day.
        Check::Before(day) if dated(matter, field) => return format!("{name} from {day}"),
        Check::Before(day) => format!("{name} before {day}"),
        Check::From(day) if !holds && dated(matter, field) => return format!("{name} before {day}"),
        Check::From(day) => format!("{name} from {day}"),
        Check::Within(period, other) => format!("{name} within {period} after {}", subject(matter, *other, entry)),
    };
    if holds { text } else { format!("not ({text})") }
}

/// Whether the job does not say that there is no such date.
fn dated(matter: &Matter<'_>, field: FieldId) -> bool {
    *matter.fact(field) != Given::NoDate
}

fn terms_of<'a>(matter: &Matter<'a>, choice: ChoiceId, terms: Terms) -> Vec<&'a str> {
    let known = matter.lexicon.terms(choice);
    let told = broadest(&matter.lexicon, choice, terms, known);
    let told = if told.is_empty() { terms } else { told };
    sorted(&matter.lexicon, choice, told)
}
