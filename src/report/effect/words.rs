//! Conditions in plain words: each fact's tests taken together, under the titles of
//! the glossary, so that they say what the tests say and no more.

use crate::glossary::expr::Check;
use crate::glossary::model::{ChoiceId, FieldId, GroupId, Order, Shape};
use crate::law::model::{CondId, Node};
use crate::report::screen::words::spoken;
use crate::report::speech::{Language, Reader};
use crate::review::effect::{Bench, Names};
use crate::values::{Date, Exact, Period, Terms};
use crate::verdict::value::broadest;
use crate::verdict::{Look, Matter, amount, in_words};
use std::collections::{BTreeMap, BTreeSet};

/// Words for the conditions of one comparison; remembers which terms it used.
pub(super) struct Words<'b> {
    matter: Matter<'b>,
    names: &'b Names,
    reader: Reader,
    used: BTreeSet<(ChoiceId, u16)>,
}

/// What holds together.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Parts {
    /// What the job is like.
    pub(super) facts: Vec<String>,
    /// When it is, and by which text.
    pub(super) days: Vec<String>,
}

impl Parts {
    /// All of them, days last.
    pub(super) fn all(&self) -> Vec<String> {
        self.facts.iter().chain(&self.days).cloned().collect()
    }
}

/// What is said of one fact by tests that hold together.
#[derive(Default)]
struct Said {
    /// For a choice or yes-no the values that are left.
    among: Option<Terms>,
    /// For a set the terms in it and not in it.
    holds: Vec<Terms>,
    lacks: Terms,
    from: Option<Date>,
    before: Option<Date>,
    /// Whatever else is said, each in words.
    others: Vec<Other>,
}

/// A test in words.
struct Other {
    /// Whether it is a lower limit, which is told before others.
    least: bool,
    words: String,
}

impl Said {
    /// A lower limit.
    fn least(&mut self, key: &str, figure: &str, reader: Reader) {
        self.others.push(Other { least: true, words: reader.say_with(key, &[("figure", figure)]) });
    }

    /// An upper limit.
    fn most(&mut self, key: &str, figure: &str, reader: Reader) {
        self.others.push(Other { least: false, words: reader.say_with(key, &[("figure", figure)]) });
    }
}

impl<'b> Words<'b> {
    pub(super) fn new(bench: &'b Bench<'b>, names: &'b Names, reader: Reader) -> Words<'b> {
        Words { matter: bench.matter(), names, reader, used: BTreeSet::new() }
    }

    /// Tests that hold together, a part for each fact: lists first, dates last.
    pub(super) fn parts(&mut self, tests: &[(CondId, bool)]) -> Parts {
        let mut facts: BTreeMap<FieldId, Said> = BTreeMap::new();
        let (mut lists, mut spans): (Vec<String>, Vec<String>) = (Vec::new(), Vec::new());
        for (cond, holds) in tests {
            match self.matter.law.node(*cond) {
                Node::Field(field, check) => self.note(facts.entry(*field).or_default(), *field, check, *holds),
                Node::Entries { any, group, with } => lists.push(self.entries(*cond, *any == *holds, *group, *with)),
                Node::Span(span) => {
                    let id = self.matter.law.spans.get(*span).map_or("", |span| &*span.instrument);
                    let instrument = [("instrument", id)];
                    spans.push(if *holds {
                        self.reader.say_with("effect-already-in-force", &instrument)
                    } else {
                        self.reader.say_with("effect-not-yet-in-force", &instrument)
                    });
                }
                Node::Answer { question, rungs } => lists.push(self.rungs(*question, *rungs, *holds)),
                _ => lists.push(in_words(&self.matter, *cond, *holds, None)),
            }
        }
        let mut days = Vec::new();
        for (field, said) in facts {
            let told = self.said(field, &said, None);
            let elects = self.matter.lexicon.roles.text.is_some_and(|(text, _, _)| text == field);
            if elects || self.shape(field) == Some(Shape::Date) { days.extend(told) } else { lists.extend(told) }
        }
        days.extend(spans);
        Parts { facts: lists, days }
    }

    /// Every term that was named and what the glossary says of it, in order.
    pub(super) fn meanings(&self) -> Vec<(String, String)> {
        let lexicon = &self.matter.lexicon;
        let told = self.used.iter().filter_map(|(choice, term)| {
            let term = lexicon.choice(*choice)?.terms.get(usize::from(*term))?;
            let name = spoken(&term.name);
            // What only repeats the name means nothing more.
            let more = without_article(&term.title.to_lowercase()) != name.to_lowercase();
            (more && !term.title.is_empty() && term.title != term.name).then(|| (name, term.title.to_string()))
        });
        let mut told: Vec<(String, String)> = told.collect();
        told.sort();
        told.dedup();
        told
    }

    /// Remembers terms that an answer names.
    pub(super) fn named(&mut self, choice: ChoiceId, names: &[&str]) {
        let Some(known) = self.matter.lexicon.choice(choice) else { return };
        for (term, number) in known.terms.iter().zip(0u16..) {
            if names.contains(&&*term.name) {
                self.used.insert((choice, number));
            }
        }
    }

    fn shape(&self, field: FieldId) -> Option<Shape> {
        self.matter.lexicon.field(field).map(|field| field.shape)
    }

    /// What another question's answer is, or is not.
    fn rungs(&self, question: usize, rungs: Terms, holds: bool) -> String {
        let asked = self.matter.law.questions.get(question).and_then(|law| self.matter.lexicon.question(law.question));
        let Some(asked) = asked else { return String::new() };
        let Order::Ladder(ladder) = &asked.order else { return String::new() };
        let names = |wanted: bool| -> Vec<String> {
            let all = ladder.iter().zip(0u16..).filter(|(_, rung)| rungs.has(*rung) == wanted);
            all.map(|(name, _)| spoken(name)).collect()
        };
        let title = if asked.title.is_empty() { spoken(&asked.name) } else { lower(&asked.title) };
        if holds {
            let answers = self.either(&names(true));
            return self.reader.say_with("effect-answer-is", &[("question", &title), ("answers", &answers)]);
        }
        // What is left to the authority is not the answer either.
        let answers = self.either(&names(false));
        self.reader.say_with("effect-answer-is-or-left", &[("question", &title), ("answers", &answers)])
    }

    fn note(&self, said: &mut Said, field: FieldId, check: &Check, holds: bool) {
        let shape = self.shape(field);
        let shown = |limit: &Exact| {
            let shown = shape.and_then(|shape| amount(*limit, shape));
            shown.map_or_else(|| limit.to_string(), |shown| self.reader.amount(shown.as_ref()))
        };
        let reader = self.reader;
        match check {
            Check::Among(terms) => {
                let all = match shape {
                    Some(Shape::Choice(choice)) => self.matter.lexicon.terms(choice),
                    _ => Terms(0b11),
                };
                let left = if holds { terms.common(all) } else { all.without(*terms) };
                said.among = Some(said.among.map_or(left, |before| before.common(left)));
            }
            Check::Includes(terms) if holds => said.holds.push(*terms),
            Check::Includes(terms) => said.lacks = said.lacks.union(*terms),
            Check::From(day) if holds => said.from = said.from.max(Some(*day)),
            Check::Before(day) if !holds => said.from = said.from.max(Some(*day)),
            Check::Before(day) | Check::From(day) => {
                said.before = Some(said.before.map_or(*day, |before| before.min(*day)));
            }
            Check::AtLeast(limit) if holds => said.least("value-at-least", &shown(limit), reader),
            Check::Under(limit) if !holds => said.least("value-at-least", &shown(limit), reader),
            Check::AtLeast(limit) | Check::Under(limit) => said.most("cures-under", &shown(limit), reader),
            Check::Over(limit) if holds => said.least("cures-over", &shown(limit), reader),
            Check::AtMost(limit) if !holds => said.least("cures-over", &shown(limit), reader),
            Check::Over(limit) | Check::AtMost(limit) => said.most("value-at-most", &shown(limit), reader),
            Check::Within(period, other) => {
                let parts = [("period", &*self.period(*period)), ("fact", &*self.title(*other, None))];
                let key = if holds { "effect-within" } else { "effect-not-within" };
                said.others.push(Other { least: false, words: reader.say_with(key, &parts) });
            }
            Check::Named(names) => {
                let names: Vec<String> = names.iter().map(|name| name.to_string()).collect();
                let names = self.either(&names);
                let words = if holds { names } else { reader.say_with("effect-anything-but", &[("names", &names)]) };
                said.others.push(Other { least: false, words });
            }
        }
    }

    /// A length of time.
    fn period(&self, period: Period) -> String {
        let (key, count) = match period {
            Period::Days(count) => ("effect-days", count),
            Period::Months(count) => ("effect-months", count),
            Period::Years(count) => ("effect-years", count),
        };
        self.reader.say_with(key, &[("count", &count.to_string())])
    }

    /// Names of which one holds.
    fn either(&self, names: &[String]) -> String {
        listed(names, &self.reader.say("sheet-or"))
    }

    /// What is said of one fact, each in words of its own.
    fn said(&mut self, field: FieldId, said: &Said, within: Option<GroupId>) -> Vec<String> {
        let title = self.title(field, within);
        let shape = self.shape(field);
        let mut told = Vec::new();
        match (shape, said.among) {
            (Some(Shape::Choice(choice)), Some(left)) => {
                if let Some(words) = self.among(choice, left) {
                    told.push(format!("{title}: {words}"));
                }
            }
            (_, Some(left)) if left == Terms::one(1) => told.push(title.clone()),
            (_, Some(left)) if left == Terms::one(0) => {
                told.push(self.reader.say_with("effect-fact-no", &[("fact", &title)]))
            }
            _ => {}
        }
        if let Some(choice) = self.matter.lexicon.choice_of(field) {
            for terms in &said.holds {
                let names = self.terms(choice, *terms);
                let parts = [("fact", &*self.with_article(&title)), ("names", &*self.either(&names))];
                told.push(self.reader.say_with("effect-among", &parts));
            }
            if !said.lacks.is_empty() {
                let names = self.terms(choice, said.lacks);
                let parts = [("fact", &*self.with_article(&title)), ("names", &*self.either(&names))];
                told.push(self.reader.say_with("effect-not-among", &parts));
            }
        }
        told.extend(self.days(field, said));
        if !said.others.is_empty() {
            // From the lower limit to the upper.
            let (least, others): (Vec<&Other>, Vec<&Other>) = said.others.iter().partition(|other| other.least);
            let words: Vec<&str> = least.into_iter().chain(others).map(|other| &*other.words).collect();
            told.push(format!("{title}: {}", words.join(&self.and())));
        }
        told
    }

    fn days(&self, field: FieldId, said: &Said) -> Option<String> {
        let path = self.matter.lexicon.field(field).map_or("", |field| &*field.path);
        let lead = match path {
            "application-date" => self.reader.say("effect-applied-for"),
            "permit-date" => self.reader.say("effect-permit-issued"),
            "contract-date" => self.reader.say("effect-contract-signed"),
            "work-date" => self.reader.say("effect-work-begun"),
            _ => format!("{}:", self.title(field, None)),
        };
        span(said.from, said.before, self.reader).map(|days| format!("{lead} {days}"))
    }

    /// Values of a choice by the shorter side; nothing where all are left.
    fn among(&mut self, choice: ChoiceId, left: Terms) -> Option<String> {
        let all = self.matter.lexicon.terms(choice);
        let out = all.without(left);
        if out.is_empty() {
            return None;
        }
        let (told, others) = (self.broad(choice, left), self.broad(choice, out));
        let count = |terms: Terms| terms.iter().count();
        Some(if count(told) <= count(others).max(2) {
            let names = self.terms(choice, told);
            self.either(&names)
        } else {
            let names = self.terms(choice, others);
            self.reader.say_with("effect-anything-but", &[("names", &self.either(&names))])
        })
    }

    fn broad(&self, choice: ChoiceId, terms: Terms) -> Terms {
        let told = broadest(&self.matter.lexicon, choice, terms, self.matter.lexicon.terms(choice));
        if told.is_empty() { terms } else { told }
    }

    /// The spoken names of terms, which are remembered.
    fn terms(&mut self, choice: ChoiceId, terms: Terms) -> Vec<String> {
        let terms = self.broad(choice, terms);
        self.used.extend(terms.iter().map(|term| (choice, term)));
        let known = self.matter.lexicon.choice(choice);
        let name = |term: u16| known.and_then(|known| known.terms.get(usize::from(term)));
        terms.iter().filter_map(name).map(|term| spoken(&term.name)).collect()
    }

    /// What a fact is called; of an attribute also what it belongs to.
    fn title(&self, field: FieldId, within: Option<GroupId>) -> String {
        let lexicon = &self.matter.lexicon;
        let Some(known) = lexicon.field(field) else { return String::new() };
        let own = if known.title.is_empty() { spoken(&known.path) } else { lower(&known.title) };
        let group = known.group.filter(|group| Some(*group) != within).and_then(|group| lexicon.group(group));
        match group {
            // A statement stands by itself.
            Some(group) if known.shape != Shape::YesNo && !group.title.is_empty() => {
                // A title that names the group itself needs no other.
                let last = group.title.rsplit(' ').next().unwrap_or_default();
                if own.split(' ').any(|word| word == last) { own } else { format!("{}, {own}", lower(&group.title)) }
            }
            _ => own,
        }
    }

    /// A test on the entries of a list.
    fn entries(&mut self, cond: CondId, some: bool, group: GroupId, with: CondId) -> String {
        if let Some(title) = self.names.title(self.matter.law, cond) {
            // Definitions speak of some entry; a negated one is told by the list.
            let any = matches!(self.matter.law.node(cond), Node::Entries { any: true, .. });
            if any {
                let title = lower(title);
                return if some {
                    self.reader.say_with("effect-there-is", &[("what", &self.some(&title))])
                } else {
                    self.reader.say_with("effect-there-is-no", &[("what", &without_article(&title))])
                };
            }
        }
        let title = self.matter.lexicon.group(group).map_or_else(String::new, |group| {
            if group.title.is_empty() { spoken(&group.name) } else { without_article(&lower(&group.title)) }
        });
        let title = match self.inner(with, group, true).as_slice() {
            [] => title,
            parts => {
                let conditions = parts.join("; ");
                self.reader.say_with("effect-with", &[("what", &title), ("conditions", &conditions)])
            }
        };
        let what = [("what", &*title)];
        if some {
            self.reader.say_with("effect-at-least-one", &what)
        } else {
            self.reader.say_with("effect-none", &what)
        }
    }

    fn and(&self) -> String {
        format!(" {} ", self.reader.say("sheet-and"))
    }

    /// A title of the glossary behind `there is`; its article is English.
    fn some(&self, title: &str) -> String {
        match self.reader.language {
            Language::English => title.to_owned(),
            Language::Spanish => without_article(title),
        }
    }

    /// A title behind `among`.
    fn with_article(&self, title: &str) -> String {
        let first = title.split(' ').next().unwrap_or_default();
        if ["the", "a", "an", "what", "which", "who", "whether"].contains(&first) {
            title.to_owned()
        } else {
            self.reader.say_with("effect-the", &[("fact", title)])
        }
    }

    /// A condition on one entry, as parts that hold together.
    fn inner(&mut self, cond: CondId, group: GroupId, holds: bool) -> Vec<String> {
        match (self.matter.law.node(cond), holds) {
            (Node::True, true) | (Node::False, false) => Vec::new(),
            (Node::Not(part), _) => self.inner(*part, group, !holds),
            (Node::And(parts), true) | (Node::Or(parts), false) => {
                let mut facts: BTreeMap<FieldId, Said> = BTreeMap::new();
                let mut others = Vec::new();
                for part in parts {
                    match self.plain(*part, holds) {
                        Some((field, check, holds)) => {
                            self.note(facts.entry(field).or_default(), field, &check, holds);
                        }
                        None => others.extend(self.inner(*part, group, holds)),
                    }
                }
                let facts = facts.into_iter().flat_map(|(field, said)| self.said(field, &said, Some(group)));
                let mut told: Vec<String> = facts.collect();
                told.extend(others);
                told
            }
            (Node::Or(parts), true) | (Node::And(parts), false) => {
                let either: Vec<String> =
                    parts.iter().map(|part| self.inner(*part, group, holds).join(&self.and())).collect();
                let cases = either.join(&format!(", {} ", self.reader.say("sheet-or")));
                vec![self.reader.say_with("effect-either", &[("cases", &cases)])]
            }
            (Node::Field(field, check), _) => {
                let mut said = Said::default();
                self.note(&mut said, *field, check, holds);
                self.said(*field, &said, Some(group))
            }
            _ => vec![in_words(&self.matter, cond, holds, None)],
        }
    }

    /// A single test of a fact, or its contrary.
    fn plain(&self, cond: CondId, holds: bool) -> Option<(FieldId, Check, bool)> {
        match self.matter.law.node(cond) {
            Node::Field(field, check) => Some((*field, check.clone(), holds)),
            Node::Not(part) => self.plain(*part, !holds),
            _ => None,
        }
    }
}

/// A stretch of days, its last day included.
pub(super) fn span(from: Option<Date>, before: Option<Date>, reader: Reader) -> Option<String> {
    Some(match (from, before) {
        (Some(from), Some(before)) if from == before.eve() => {
            reader.say_with("effect-on-day", &[("day", &from.to_string())])
        }
        (Some(from), Some(before)) => {
            let (from, through) = (from.to_string(), before.eve().to_string());
            reader.say_with("effect-from-through", &[("from", &from), ("through", &through)])
        }
        (Some(from), None) => reader.say_with("effect-on-or-after", &[("day", &from.to_string())]),
        (None, Some(before)) => reader.say_with("effect-before-day", &[("day", &before.to_string())]),
        (None, None) => return None,
    })
}

/// A title inside a sentence: its first letter small, but not that of a mark such as `CSST`.
pub(in crate::report) fn lower(title: &str) -> String {
    let mut letters = title.chars();
    let (Some(first), second) = (letters.next(), title.chars().nth(1)) else { return String::new() };
    if second.is_some_and(|second| second.is_uppercase() || second.is_ascii_digit()) {
        return title.to_owned();
    }
    first.to_lowercase().chain(letters).collect()
}

pub(in crate::report) fn without_article(title: &str) -> String {
    ["a ", "an ", "the "].iter().find_map(|article| title.strip_prefix(article)).unwrap_or(title).to_owned()
}

/// `a`, `a or b`, `a, b or c`.
pub(in crate::report) fn listed(names: &[String], word: &str) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] => format!("{} {word} {last}", all.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_include_their_last() {
        let day = |text| Date::parse(text);
        let span = |from, before| span(from, before, Reader::default());
        assert_eq!(span(day("2016-01-01"), day("2022-07-01")).unwrap(), "from 2016-01-01 through 2022-06-30");
        assert_eq!(span(day("2016-01-01"), None).unwrap(), "on or after 2016-01-01");
        assert_eq!(span(None, day("2016-01-01")).unwrap(), "before 2016-01-01");
        assert_eq!(span(day("2016-01-01"), day("2016-01-02")).unwrap(), "on 2016-01-01");
        assert_eq!(span(None, None), None);
    }

    #[test]
    fn titles_are_put_into_a_sentence() {
        assert_eq!(lower("Kind of work"), "kind of work");
        assert_eq!(lower("CSST listed as arc-resistant"), "CSST listed as arc-resistant");
        assert_eq!(lower(""), "");
        assert_eq!(without_article("a run of gas piping"), "run of gas piping");
        assert_eq!(listed(&["a".into(), "b".into(), "c".into()], "or"), "a, b or c");
    }
}
