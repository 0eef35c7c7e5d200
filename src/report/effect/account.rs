//! An effect in words: what every form of the page tells.

use super::groups::groups;
use super::witness::{own, witness};
use super::words::{Parts, Words};
use super::{Account, AnswerTold, Between, CaseTold, ChangeTold, Frame, Named, NoteTold, QuestionTold, SideTold};
use crate::glossary::model::{Order, PlaceId, Question, QuestionId};
use crate::job::to_json;
use crate::report::json::value as as_json;
use crate::report::screen::order;
use crate::report::sheet::closing::{ages, always};
use crate::review::effect::{Bench, Change, Changed, Effect, Held, Joint, Names, Noted, Side};
use crate::syntax::diagnostic::Diagnostic;
use crate::verdict::survey::Window;
use crate::verdict::value::{Item, Items};
use crate::verdict::{Look, Scratch};

impl Account {
    /// Compares the two sides and tells what changes.
    ///
    /// # Errors
    /// Where the law of a side cannot be made; with the number of the side.
    pub(crate) fn new(frame: &Frame<'_>) -> Result<Account, (usize, Diagnostic)> {
        for (number, side) in frame.sides.iter().enumerate() {
            side.rules.library().law(side.place).map_err(|told| (number, told.clone()))?;
        }
        let [before, after] = frame.sides;
        let joint = Joint::new(before, after).map_err(|told| (0, told))?;
        let bench = Bench::new(&joint);
        let names = Names::new(&joint, frame.sides);
        let effect = bench.effect(frame.window);
        let mut teller = Teller {
            bench: &bench,
            frame,
            words: Words::new(&bench, &names, frame.reader),
            scratch: Scratch::default(),
        };
        Ok(teller.account(&effect))
    }
}

struct Teller<'b, 'f> {
    bench: &'b Bench<'b>,
    frame: &'f Frame<'f>,
    words: Words<'b>,
    scratch: Scratch,
}

impl<'b> Teller<'b, '_> {
    fn account(&mut self, effect: &Effect) -> Account {
        let mut changed: Vec<QuestionTold> =
            effect.changed.iter().filter_map(|changed| self.question(changed)).collect();
        changed.sort_by(|one, two| order::rank(&one.named.name).cmp(&order::rank(&two.named.name)));
        let apart = effect.apart.iter().filter_map(|(id, known)| Some((self.named(*id)?, *known))).collect();
        let undecided = effect.undecided.iter().filter_map(|id| self.named(*id)).collect();
        let notes = self.bench.noted(&effect.notes, self.frame.window);
        let notes = notes.each_ref().map(|notes| notes.iter().map(|note| self.note(note)).collect());
        Account {
            reader: self.frame.reader,
            title: title(self.frame),
            sides: told_sides(self.frame),
            window: self.frame.window,
            jobs: jobs(self.frame),
            changed,
            alike: effect.alike,
            apart,
            undecided,
            notes,
            kinds: effect.kinds,
            meanings: self.words.meanings(),
            cautions: cautions(self.frame),
        }
    }

    fn note(&mut self, note: &Noted) -> NoteTold {
        let mut by: Vec<String> = Vec::new();
        for source in note.sources.iter().filter_map(|source| self.bench.matter().law.source(*source)) {
            let text = self.frame.reader.cite(source);
            if !by.contains(&text) {
                by.push(text);
            }
        }
        let parts: Vec<Parts> = note.conditions.iter().flatten().map(|condition| self.words.parts(condition)).collect();
        let (shared, choices) = factored(&parts);
        let cases = note.conditions.as_ref().map(|_| parts.iter().map(Parts::all).collect());
        NoteTold { text: note.text.to_string(), by, shared, choices, cases }
    }

    fn named(&self, id: QuestionId) -> Option<Named> {
        self.bench.question(id).map(named)
    }

    fn question(&mut self, changed: &Changed) -> Option<QuestionTold> {
        let question = self.bench.question(changed.question)?;
        let mut changes: Vec<ChangeTold> = changed.changes.iter().map(|change| self.change(question, change)).collect();
        changes.sort_by(|one, two| {
            let key = |change: &ChangeTold| (change.direction, std::cmp::Reverse(change.kinds));
            key(one)
                .cmp(&key(two))
                .then_with(|| (&one.before.words, &one.after.words).cmp(&(&two.before.words, &two.after.words)))
        });
        Some(QuestionTold {
            named: named(question),
            costs: question.costs.as_deref().map(str::to_owned),
            kinds: changed.kinds,
            groups: groups(&changes),
            changes,
        })
    }

    fn change(&mut self, question: &'b Question, change: &Change) -> ChangeTold {
        let [before, after] = self.answers(question, change);
        let parts: Vec<Parts> = change.conditions.iter().map(|condition| self.words.parts(&condition.tests)).collect();
        let (shared, choices) = factored(&parts);
        let [_, side] = self.frame.sides;
        let cases = change.conditions.iter().zip(parts).map(|(condition, parts)| CaseTold {
            parts: parts.all(),
            exact: condition.tests.iter().map(|(cond, holds)| self.bench.test(*cond, *holds)).collect(),
            job: to_json(&own(self.bench, &condition.job, 1, side), side.rules.desk()),
        });
        let cases: Vec<CaseTold> = cases.collect();
        let parts = [("question", question.printed()), ("after", &*after.words), ("before", &*before.words)];
        let about = self.frame.reader.say_with("effect-example-name", &parts);
        let witness = change.conditions.first().and_then(|condition| {
            witness(self.bench, self.frame, &condition.job, &question.name, &about, &mut self.scratch)
        });
        ChangeTold {
            before,
            after,
            direction: self.bench.direction(change),
            kinds: change.kinds,
            fewest: change.fewest,
            in_part: change.in_part,
            shared,
            choices,
            cases,
            witness,
        }
    }

    /// Both answers of a change. Where they hold only what goes and what comes, each says
    /// it of its own side.
    fn answers(&mut self, question: &Question, change: &Change) -> [AnswerTold; 2] {
        let sides = [&change.before, &change.after];
        let reader = self.frame.reader;
        let value = |held| self.bench.value(held).as_ref().map(|told| reader.value(told)).unwrap_or_default();
        let words = sides.map(value);
        let without = |answer: &str| Some(reader.say_with("effect-without", &[("answer", answer)]));
        let nothing = sides.map(|held| self.bench.asks_nothing(held));
        let [before, after] = match (change.in_part, nothing) {
            (true, [true, true]) => [(), ()].map(|()| Some(reader.say("effect-what-is-asked"))),
            (true, [true, false]) => [without(&words[1]), None],
            (true, [false, true]) => [None, without(&words[0])],
            _ => [None, None],
        };
        [self.answer(question, &change.before, before), self.answer(question, &change.after, after)]
    }

    fn answer(&mut self, question: &Question, held: &Held, said: Option<String>) -> AnswerTold {
        let reader = self.frame.reader;
        let told = self.bench.value(held);
        let words = said.unwrap_or_else(|| told.as_ref().map(|told| reader.value(told)).unwrap_or_default());
        if let Some(told) = &told {
            self.remember(question, &told.items);
        }
        let value = told.as_ref().map_or(serde_json::Value::Null, as_json);
        if held.conflict() {
            let words = reader.say_with("sheet-contradict-value", &[("value", &words)]);
            return AnswerTold { words, state: "conflict", value };
        }
        if held.referred() {
            let words = if self.bench.asks_nothing(held) {
                reader.say("sheet-left-to-authority")
            } else {
                reader.say_with("sheet-left-apart-from", &[("value", &words)])
            };
            return AnswerTold { words, state: "referred", value };
        }
        AnswerTold { words, state: "settled", value }
    }

    /// Remembers the terms of an answer, whose meanings are told.
    fn remember(&mut self, question: &Question, items: &Items<'_>) {
        let (Order::Only(choice) | Order::AllOf(choice)) = question.order else { return };
        let mut note = |item: &Item<'_>| match item {
            Item::Only { names, but } => {
                self.words.named(choice, names);
                self.words.named(choice, but);
            }
            Item::NoneOf(names) | Item::AllOf(names) => self.words.named(choice, names),
            Item::Rung(_) | Item::Limit(_) | Item::Any => {}
        };
        match items {
            Items::One(item) => note(item),
            Items::PerTerm(terms) => terms.iter().for_each(|(_, item)| note(item)),
        }
    }
}

fn named(question: &Question) -> Named {
    Named { name: question.name.to_string(), title: question.printed().to_owned() }
}

/// The printed names of a place and of those around it, the place first.
fn printed(side: &Side<'_>) -> String {
    let places = &side.rules.library().places;
    let path = places.path(side.place);
    let titles: Vec<&str> = path.iter().rev().filter_map(|id| places.issuer(*id)).map(|place| &*place.title).collect();
    titles.join(", ")
}

/// The printed name of a place alone.
fn short(side: &Side<'_>) -> String {
    side.rules.library().places.issuer(side.place).map_or_else(String::new, |place| place.title.to_string())
}

fn title(frame: &Frame<'_>) -> String {
    let [before, after] = &frame.sides;
    let reader = frame.reader;
    let place = short(after);
    match &frame.between {
        Between::Files { after: files, before: other } => {
            let (files, other) = apart(files, other);
            reader.say_with("effect-title-files", &[("after", files), ("before", other), ("place", &place)])
        }
        Between::Amendment(file) => reader.say_with("effect-title-amendment", &[("file", file), ("place", &place)]),
        Between::Places => reader.say_with("effect-title-places", &[("after", &place), ("before", &short(before))]),
        Between::Days => match (before.on, after.on) {
            (Some(one), Some(two)) => {
                let (one, two) = (one.to_string(), two.to_string());
                reader.say_with("effect-title-days", &[("place", &place), ("first", &one), ("second", &two)])
            }
            _ => reader.say_with("effect-title-day", &[("place", &place)]),
        },
    }
}

/// Two paths by their last parts, where these differ.
fn apart<'p>(one: &'p str, other: &'p str) -> (&'p str, &'p str) {
    let last = |path: &'p str| path.trim_end_matches('/').rsplit('/').next().unwrap_or(path);
    if last(one) == last(other) { (one, other) } else { (last(one), last(other)) }
}

fn told_sides(frame: &Frame<'_>) -> [SideTold; 2] {
    let words = |number: usize, side: &Side<'_>| match (&frame.between, side.on) {
        (Between::Files { before, .. }, _) if number == 0 => before.clone(),
        (Between::Files { after, .. }, _) => after.clone(),
        (Between::Amendment(file), _) if number == 0 => frame.reader.say_with("effect-side-without", &[("file", file)]),
        (Between::Amendment(file), _) => frame.reader.say_with("effect-side-with", &[("file", file)]),
        (Between::Places, _) => printed(side),
        (Between::Days, Some(day)) => frame.reader.say_with("effect-side-day", &[("day", &day.to_string())]),
        (Between::Days, None) => printed(side),
    };
    let told = |number: usize, side: &Side<'_>| {
        let places = &side.rules.library().places;
        let path = places.path(side.place);
        SideTold {
            words: words(number, side),
            place: path.iter().filter_map(|id| places.issuer(*id)).map(|place| place.name.to_string()).collect(),
            on: side.on,
            library: side.rules.hash().to_owned(),
        }
    };
    let [before, after] = &frame.sides;
    [told(0, before), told(1, after)]
}

/// Which jobs are looked at.
fn jobs(frame: &Frame<'_>) -> String {
    let [_, after] = &frame.sides;
    let reader = frame.reader;
    let at = match frame.between {
        Between::Places => reader.say("effect-jobs-places"),
        _ => reader.say_with("effect-jobs-place", &[("place", &printed(after))]),
    };
    let Window { from, through } = frame.window;
    match super::words::span(from, through.map(crate::values::Date::next), reader) {
        Some(days) => reader.say_with("effect-jobs-dated", &[("jobs", &at), ("days", &days)]),
        None if matches!(frame.between, Between::Days) => at,
        None => reader.say_with("effect-jobs-any-date", &[("jobs", &at)]),
    }
}

fn cautions(frame: &Frame<'_>) -> Vec<String> {
    // Whoever reads an effect stands at no gas pipe: the cautions about the work itself
    // stay with the verdicts.
    let mut told: Vec<String> = always(frame.reader).into_iter().skip(2).collect();
    told.push(frame.reader.say("effect-caution"));
    // Each place once: of two neighbours what is around both, then either.
    let [before, after] = &frame.sides;
    let places = &after.rules.library().places;
    let mut path = places.path(after.place);
    if std::ptr::eq(before.rules, after.rules) {
        let own: Vec<PlaceId> = places.path(before.place).into_iter().filter(|place| !path.contains(place)).collect();
        path.extend(own);
    }
    told.push(ages(&path, places, frame.today, frame.reader));
    told
}

/// What all cases share, and what one of them has besides; where every thing besides
/// goes with every stretch of days, the two stand apart.
fn factored(cases: &[Parts]) -> (Vec<String>, Vec<Vec<Vec<String>>>) {
    let shared: Vec<String> = cases.first().map_or_else(Vec::new, |first| {
        let all: Vec<Vec<String>> = cases.iter().map(Parts::all).collect();
        first.all().into_iter().filter(|part| all.iter().all(|case| case.contains(part))).collect()
    });
    if cases.len() < 2 {
        return (shared, Vec::new());
    }
    let own =
        |parts: &[String]| -> Vec<String> { parts.iter().filter(|part| !shared.contains(part)).cloned().collect() };
    let (mut facts, mut days): (Vec<Vec<String>>, Vec<Vec<String>>) = (Vec::new(), Vec::new());
    for case in cases {
        for (parts, into) in [(own(&case.facts), &mut facts), (own(&case.days), &mut days)] {
            if !into.contains(&parts) {
                into.push(parts);
            }
        }
    }
    let every_pair = facts.iter().all(|fact| {
        let goes_with =
            |day: &Vec<String>| cases.iter().any(|case| own(&case.facts) == *fact && own(&case.days) == *day);
        days.iter().all(goes_with)
    });
    if facts.len() > 1 && days.len() > 1 && every_pair {
        return (shared, vec![facts, days]);
    }
    let whole = cases.iter().map(|case| own(&case.all())).collect();
    (shared, vec![whole])
}
