//! Conditions of rules in the reader's words, under the titles of the glossary, so that
//! they say what the tests say and no more. No place and no job is asked: a text is
//! told as it was published.

use super::demands;
use super::desk::Desk;
use crate::glossary::expr::{Check, Expr};
use crate::glossary::model::{ChoiceId, FieldId, GroupId, Order, QuestionId, Shape};
use crate::report::effect::words::{listed, lower, without_article};
use crate::report::screen::words::spoken;
use crate::values::{Exact, Terms};
use crate::verdict::amount;

/// What has to hold, each part in words of its own; nothing where it always holds.
pub(super) fn parts(desk: &Desk<'_>, conditions: &[Expr]) -> Vec<String> {
    let mut told = Vec::new();
    for condition in conditions {
        flat(desk, condition, &mut told);
    }
    told
}

/// The parts of a condition that hold together, one by one.
fn flat(desk: &Desk<'_>, condition: &Expr, told: &mut Vec<String>) {
    match condition {
        Expr::Constant(true) => {}
        Expr::And(parts) if named(desk, condition).is_none() => parts.iter().for_each(|part| flat(desk, part, told)),
        _ => {
            let words = whole(desk, condition);
            if !told.contains(&words) {
                told.push(words);
            }
        }
    }
}

/// A condition in one sentence.
pub(super) fn whole(desk: &Desk<'_>, condition: &Expr) -> String {
    Teller { desk, within: None }.say(condition, true)
}

/// What a definition says, its own name put aside.
pub(super) fn opened(desk: &Desk<'_>, condition: &Expr) -> Vec<String> {
    match condition {
        Expr::And(parts) => self::parts(desk, parts),
        other => vec![Teller { desk, within: None }.plainly(other, true)],
    }
}

/// The definition of the glossary that says just this.
fn named<'a>(desk: &Desk<'a>, condition: &Expr) -> Option<&'a str> {
    let mut defined = desk.library().glossary.defined();
    defined.find(|(title, known)| !title.is_empty() && *known == condition).map(|(title, _)| title)
}

struct Teller<'t, 'a> {
    desk: &'t Desk<'a>,
    /// The list in whose entry a test stands.
    within: Option<GroupId>,
}

impl Teller<'_, '_> {
    fn say(&self, condition: &Expr, holds: bool) -> String {
        let reader = self.desk.reader;
        if let Some(title) = named(self.desk, condition) {
            let title = lower(title);
            return if holds {
                reader.say_with("browse-there-is", &[("what", &title)])
            } else {
                reader.say_with("browse-there-is-no", &[("what", &without_article(&title))])
            };
        }
        self.plainly(condition, holds)
    }

    /// The same, whatever the glossary calls it.
    fn plainly(&self, condition: &Expr, holds: bool) -> String {
        let reader = self.desk.reader;
        match condition {
            Expr::Constant(fixed) if *fixed == holds => reader.say("browse-always"),
            Expr::Constant(_) => reader.say("browse-never"),
            Expr::And(parts) if holds => self.joined(parts, &reader.say("sheet-and")),
            Expr::Or(parts) if holds => self.joined(parts, &reader.say("sheet-or")),
            Expr::And(parts) => self.not(&self.joined(parts, &reader.say("sheet-and"))),
            Expr::Or(parts) => self.not(&self.joined(parts, &reader.say("sheet-or"))),
            Expr::Not(part) => self.say(part, !holds),
            Expr::Field(field, check) => self.test(*field, check, holds),
            Expr::Entries { any, group, with } => self.entries(*any == holds, *group, with),
            Expr::Answer { question, rungs } => self.answer(*question, *rungs, holds),
            Expr::Say(say) => {
                let demand = demands::value(self.desk, &say.demand);
                let title = lower(&self.desk.question(say.question).words);
                let said = reader.say_with("browse-instructions-say", &[("what", &format!("{title}: {demand}"))]);
                if holds { said } else { self.not(&said) }
            }
            Expr::Defined(name, _) => {
                let said = reader.say_with("browse-as-defined", &[("name", &spoken(name))]);
                if holds { said } else { self.not(&said) }
            }
        }
    }

    fn not(&self, what: &str) -> String {
        self.desk.reader.say_with("browse-not", &[("what", what)])
    }

    fn joined(&self, parts: &[Expr], word: &str) -> String {
        let told = parts.iter().map(|part| match part {
            Expr::And(inner) | Expr::Or(inner) if inner.len() > 1 && named(self.desk, part).is_none() => {
                format!("({})", self.say(part, true))
            }
            _ => self.say(part, true),
        });
        told.collect::<Vec<_>>().join(&format!("; {word} "))
    }

    fn entries(&self, some: bool, group: GroupId, with: &Expr) -> String {
        let own = &self.desk.library().glossary[group];
        let title = if own.title.is_empty() { spoken(&own.name) } else { without_article(&lower(&own.title)) };
        let mut parts = Vec::new();
        let teller = Teller { desk: self.desk, within: Some(group) };
        match with {
            Expr::Constant(true) => {}
            Expr::And(inner) => parts.extend(inner.iter().map(|part| teller.say(part, true))),
            other => parts.push(teller.say(other, true)),
        }
        let lead = if some {
            self.desk.reader.say_with("browse-at-least-one", &[("what", &title)])
        } else {
            self.desk.reader.say_with("browse-no-entry", &[("what", &title)])
        };
        if parts.is_empty() { lead } else { format!("{lead} ({})", parts.join("; ")) }
    }

    fn answer(&self, question: QuestionId, rungs: Terms, holds: bool) -> String {
        let title = lower(&self.desk.question(question).words);
        let Order::Ladder(ladder) = &self.desk.library().glossary[question].order else { return title };
        let names = rungs.iter().filter_map(|rung| ladder.get(usize::from(rung))).map(|rung| spoken(rung)).collect();
        self.values(&title, names, holds)
    }

    /// `title: one, two or three`, or anything but these.
    fn values(&self, title: &str, names: Vec<String>, holds: bool) -> String {
        let names = listed(&names, &self.desk.reader.say("sheet-or"));
        if holds {
            format!("{title}: {names}")
        } else {
            format!("{title}: {}", self.desk.reader.say_with("browse-anything-but", &[("names", &names)]))
        }
    }

    fn test(&self, field: FieldId, check: &Check, holds: bool) -> String {
        let reader = self.desk.reader;
        let title = self.title(field);
        let shape = self.desk.library().glossary[field].shape;
        let figure =
            |limit: &Exact| amount(*limit, shape).map_or_else(|| limit.to_string(), |shown| reader.amount(&shown));
        let limit = |key: &str, limit: &Exact| match key {
            "over" => reader.say_with("browse-over", &[("figure", &figure(limit))]),
            "under" => reader.say_with("browse-under", &[("figure", &figure(limit))]),
            "most" => reader.say_with("value-at-most", &[("figure", &figure(limit))]),
            _ => reader.say_with("value-at-least", &[("figure", &figure(limit))]),
        };
        let said = match (check, holds) {
            (Check::Among(terms), _) if shape == Shape::YesNo => {
                return match (terms.has(1) == holds, terms.has(0) == terms.has(1)) {
                    (true, true) => reader.say("browse-always"),
                    (false, true) => reader.say("browse-never"),
                    (true, false) => title,
                    (false, false) => format!("{title}: {}", reader.say("value-no")),
                };
            }
            (Check::Among(terms), _) => {
                let names = match shape {
                    Shape::Choice(choice) => names(self.desk, choice, *terms),
                    _ => Vec::new(),
                };
                return self.values(&title, names, holds);
            }
            (Check::Named(names), _) => {
                return self.values(&title, names.iter().map(|name| name.to_string()).collect(), holds);
            }
            (Check::Includes(terms), _) => {
                let names = match shape {
                    Shape::Several(choice) | Shape::Choice(choice) => names(self.desk, choice, *terms),
                    _ => Vec::new(),
                };
                let parts = [("what", &*title), ("names", &listed(&names, &reader.say("sheet-or")))];
                return if holds {
                    reader.say_with("browse-among", &parts)
                } else {
                    reader.say_with("browse-not-among", &parts)
                };
            }
            (Check::AtLeast(at), true) | (Check::Under(at), false) => limit("least", at),
            (Check::AtLeast(at), false) | (Check::Under(at), true) => limit("under", at),
            (Check::Over(at), true) | (Check::AtMost(at), false) => limit("over", at),
            (Check::Over(at), false) | (Check::AtMost(at), true) => limit("most", at),
            (Check::Before(day), true) | (Check::From(day), false) => {
                reader.say_with("browse-before", &[("day", &day.to_string())])
            }
            (Check::From(day), true) | (Check::Before(day), false) => {
                reader.say_with("browse-from", &[("day", &day.to_string())])
            }
            (Check::Within(period, other), _) => {
                let other = self.title(*other);
                let said = reader.say_with("browse-within", &[("period", &period.to_string()), ("fact", &other)]);
                if holds { said } else { self.not(&said) }
            }
        };
        format!("{title}: {said}")
    }

    /// What a fact is called; of an attribute also what it belongs to.
    fn title(&self, field: FieldId) -> String {
        let glossary = &self.desk.library().glossary;
        let known = &glossary[field];
        let own = if known.title.is_empty() { spoken(&known.path) } else { lower(&known.title) };
        let Some(group) = known.group.filter(|group| Some(*group) != self.within).map(|group| &glossary[group]) else {
            return own;
        };
        // A statement stands by itself, and a title that names the group needs no other.
        let last = group.title.rsplit(' ').next().unwrap_or_default();
        if known.shape == Shape::YesNo || group.title.is_empty() || own.split(' ').any(|word| word == last) {
            return own;
        }
        format!("{}, {own}", lower(&group.title))
    }
}

/// The spoken names of terms; a term stands for all under it.
pub(super) fn names(desk: &Desk<'_>, choice: ChoiceId, terms: Terms) -> Vec<String> {
    let known = &desk.library().glossary[choice].terms;
    let whole = |at: u16| known.get(usize::from(at)).is_some_and(|term| term.covers.within(terms));
    let told = terms.iter().filter(|at| {
        let up = known.get(usize::from(*at)).and_then(|term| term.under);
        !up.is_some_and(whole)
    });
    told.filter_map(|at| known.get(usize::from(at))).map(|term| spoken(&term.name)).collect()
}
