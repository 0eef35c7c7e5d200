//! What one set of rules answers otherwise than another, for whoever votes on it or
//! has to live with it: a page of text, a page of HTML for a packet, and JSON.
//!
//! An [`Account`] holds everything in words; the three forms only lay it out. This
//! module refuses to find any difference itself.

mod account;
mod groups;
mod html;
mod json;
mod text;
mod witness;
pub(in crate::report) mod words;

pub(crate) use html::{body, html};
pub(crate) use json::{SCHEMA, json};
pub(crate) use text::{Length, page};

use crate::report::speech::Reader;
use crate::review::effect::{Direction, Known, Side};
use crate::values::Date;
use crate::verdict::survey::Window;
use serde_json::Value;

/// What is compared, as whoever asked named it.
#[derive(Clone, Debug)]
pub(crate) enum Between {
    /// Two sets of rules at one place.
    Files { before: String, after: String },
    /// A set of rules without these files and with them.
    Amendment(String),
    /// Two places under one set of rules.
    Places,
    /// Two days at one place.
    Days,
}

/// What an account takes from outside.
#[derive(Clone)]
pub(crate) struct Frame<'a> {
    pub(crate) sides: [Side<'a>; 2],
    pub(crate) between: Between,
    /// The days of the jobs that are looked at.
    pub(crate) window: Window,
    /// The day against which the age of rules is told.
    pub(crate) today: Date,
    pub(crate) reader: Reader,
}

/// Everything that is told of an effect.
#[derive(Debug)]
pub(crate) struct Account {
    reader: Reader,
    /// What the page is about, in one line.
    title: String,
    sides: [SideTold; 2],
    window: Window,
    /// Which jobs are looked at, in words.
    jobs: String,
    changed: Vec<QuestionTold>,
    alike: usize,
    apart: Vec<(Named, Known)>,
    undecided: Vec<Named>,
    /// What only the texts before and only the texts after say without answering a question.
    notes: [Vec<NoteTold>; 2],
    /// Kinds of job of which some answer changes, and all kinds.
    kinds: Option<(u128, u128)>,
    /// Words of the glossary that the page uses, and what they mean.
    meanings: Vec<(String, String)>,
    cautions: Vec<String>,
}

/// One side of the comparison.
#[derive(Debug)]
struct SideTold {
    /// In words, such as `Town of Elm, on 2024-03-01`.
    words: String,
    /// The names of the place and of all around it, outermost first.
    place: Vec<String>,
    on: Option<Date>,
    /// The hash of the rules.
    library: String,
}

/// Something that a text says without answering a question.
#[derive(Debug)]
struct NoteTold {
    text: String,
    /// The texts that say it.
    by: Vec<String>,
    /// To which jobs only this side says it, as conditions of a change are told.
    shared: Vec<String>,
    choices: Vec<Vec<Vec<String>>>,
    /// The conditions one by one; nothing where the jobs are too many to be told apart.
    cases: Option<Vec<Vec<String>>>,
}

/// A question by its name and its title.
#[derive(Debug)]
struct Named {
    name: String,
    title: String,
}

/// A question of which some answer changes.
#[derive(Debug)]
struct QuestionTold {
    named: Named,
    /// What a stricter answer costs, in the words of the glossary.
    costs: Option<String>,
    /// How many kinds of job the texts on this question tell apart.
    kinds: Option<u128>,
    /// The graver first.
    changes: Vec<ChangeTold>,
    /// All of them, those that differ by little together.
    groups: Vec<Group>,
}

/// Changes of one question that are told together.
#[derive(Debug)]
struct Group {
    /// By their place among the changes.
    members: Vec<usize>,
    /// What holds of every job of all of them.
    base: Vec<String>,
}

/// Jobs that had one answer and get another.
#[derive(Debug)]
struct ChangeTold {
    before: AnswerTold,
    after: AnswerTold,
    direction: Direction,
    kinds: Option<u128>,
    fewest: bool,
    /// The answers hold only what goes and what comes; more may be asked before and
    /// after alike.
    in_part: bool,
    /// What holds in every case.
    shared: Vec<String>,
    /// Of each of these lists one member holds besides, a member being what holds
    /// together. What they say together is what the cases say.
    choices: Vec<Vec<Vec<String>>>,
    /// The conditions one by one.
    cases: Vec<CaseTold>,
    witness: Option<Witness>,
}

/// An answer in words and as JSON.
#[derive(Debug)]
struct AnswerTold {
    words: String,
    state: &'static str,
    value: Value,
}

/// One condition of a change.
#[derive(Debug)]
struct CaseTold {
    /// Everything that holds, a part for each fact.
    parts: Vec<String>,
    /// The same tests in the language.
    exact: Vec<String>,
    /// A job that fulfils it, as the side after knows it.
    job: Value,
}

/// A job of a change, and what governs it.
#[derive(Debug)]
struct Witness {
    /// An example as it can be pasted into a rule file.
    example: String,
    /// The texts that govern before and after.
    by: [Vec<String>; 2],
}

impl Account {
    /// How many questions were compared.
    fn compared(&self) -> usize {
        self.changed.len() + self.alike + self.undecided.len()
    }

    /// The outcome in one sentence.
    fn sentence(&self) -> String {
        let (changed, all) = (self.changed.len(), self.compared().to_string());
        let all = ("all", &*all);
        match (changed, self.undecided.len()) {
            (0, 0) if self.notes.iter().any(|notes| !notes.is_empty()) => {
                self.reader.say_with("effect-alike-but-notes", &[all])
            }
            (0, 0) => self.reader.say_with("effect-alike", &[all]),
            (0, open) => self.reader.say_with("effect-undecided", &[("open", &open.to_string()), all]),
            (some, _) => self.reader.say_with("effect-changed", &[("some", &some.to_string()), all]),
        }
    }

    /// The kinds of job of which some answer changes, and all kinds, their figures in
    /// groups; nothing where they are too many to be counted.
    pub(crate) fn grouped_kinds(&self) -> Option<(String, String)> {
        self.kinds.map(|(some, all)| (grouped(some), grouped(all)))
    }

    /// How many kinds of job are concerned, in one sentence.
    fn share(&self) -> String {
        let Some((some, all)) = self.kinds else { return self.reader.say("effect-kinds-uncounted") };
        let whole = grouped(all);
        if some == 0 {
            return self.reader.say_with("effect-kinds-none", &[("all", &whole)]);
        }
        let told = self.reader.say_with("effect-kinds-some", &[("some", &grouped(some)), ("all", &whole)]);
        part(some, all, self.reader).map_or_else(|| told.clone(), |part| format!("{told}, {part}"))
    }

    /// What stands above the notes of each side.
    fn notes_heads(&self) -> [String; 2] {
        [self.reader.say("effect-notes-before"), self.reader.say("effect-notes-after")]
    }
}

/// The word for what becomes of an answer.
fn word(direction: Direction, reader: Reader) -> String {
    match direction {
        Direction::Contradicts => reader.say("effect-conflict"),
        Direction::Stricter => reader.say("effect-stricter"),
        Direction::Looser => reader.say("effect-looser"),
        Direction::Otherwise => reader.say("effect-otherwise"),
        Direction::Leaves => reader.say("effect-leaves"),
        Direction::Decides => reader.say("effect-decides"),
        Direction::Reconciles => reader.say("effect-reconciles"),
    }
}

/// The same in a sentence.
fn meaning(direction: Direction, reader: Reader) -> String {
    match direction {
        Direction::Contradicts => reader.say("effect-conflict-means"),
        Direction::Stricter => reader.say("effect-stricter-means"),
        Direction::Looser => reader.say("effect-looser-means"),
        Direction::Otherwise => reader.say("effect-otherwise-means"),
        Direction::Leaves => reader.say("effect-leaves-means"),
        Direction::Decides => reader.say("effect-decides-means"),
        Direction::Reconciles => reader.say("effect-reconciles-means"),
    }
}

/// Every kind of change that the account has, the graver first.
fn directions(account: &Account) -> Vec<Direction> {
    let mut all: Vec<Direction> =
        account.changed.iter().flat_map(|question| question.changes.iter().map(|change| change.direction)).collect();
    all.sort();
    all.dedup();
    all
}

/// The texts that govern, in a row.
fn cited(texts: &[String], reader: Reader) -> String {
    if texts.is_empty() { reader.say("effect-no-text") } else { texts.join("; ") }
}

/// What holds together, in a row.
fn together(parts: &[String], reader: Reader) -> String {
    if parts.is_empty() { reader.say("effect-nothing-more") } else { parts.join("; ") }
}

/// A sentence begins.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A number in groups of three figures: `1,234,567`.
pub(crate) fn grouped(number: u128) -> String {
    let figures = number.to_string();
    let mut text = String::with_capacity(figures.len() * 4 / 3);
    for (at, figure) in figures.chars().enumerate() {
        if at > 0 && (figures.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(figure);
    }
    text
}

/// A part of a whole in words; nothing where it is all.
fn part(some: u128, all: u128, reader: Reader) -> Option<String> {
    if some == 0 || some >= all {
        return None;
    }
    let hundredths = some.checked_mul(100)?.checked_add(all / 2)? / all;
    Some(match hundredths {
        0 | 1 => reader.say_with("effect-about-one-in", &[("count", &grouped((all + some / 2) / some))]),
        100 => reader.say("effect-nearly-all"),
        hundredths => reader.say_with("effect-about-in-hundred", &[("count", &hundredths.to_string())]),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn large_numbers_are_grouped() {
        for (number, text) in [(0, "0"), (999, "999"), (1_000, "1,000"), (42_354_081_792, "42,354,081,792")] {
            assert_eq!(grouped(number), text);
        }
    }

    #[test]
    fn parts_of_a_whole_are_told_as_people_say_them() {
        let part = |some, all| part(some, all, Reader::default());
        assert_eq!(part(15, 100).unwrap(), "about 15 in 100");
        assert_eq!(part(320, 64_172).unwrap(), "about 1 in 201");
        assert_eq!(part(9_999, 10_000).unwrap(), "nearly all");
        assert_eq!(part(0, 7), None);
        assert_eq!(part(7, 7), None);
    }
}
