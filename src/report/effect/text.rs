//! The account as a page of text.

use super::{
    Account, ChangeTold, Group, Named, QuestionTold, capital, cited, directions, grouped, meaning, together, word,
};
use crate::report::look::{Look, Page, Tone};
use crate::report::speech::Reader;
use crate::review::effect::{Direction, Known};

/// How much a page tells.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Length {
    /// Every change and every case.
    pub(crate) all: bool,
    /// The job that shows each change.
    pub(crate) jobs: bool,
}

/// So many groups of changes of a question are told, unless all are asked for.
const GROUPS: usize = 4;
/// So many changes of a group are told, unless all are asked for.
const LINES: usize = 6;
/// So many cases of a change are told, unless all are asked for.
const CASES: usize = 6;
/// Where what stands behind a label begins.
const HEAD: usize = 11;
/// Where the text of a change begins.
const COLUMN: usize = 13;

/// A page that is being written.
struct Sheet {
    page: Page,
    reader: Reader,
    length: Length,
}

/// The page.
pub(crate) fn page(account: &Account, look: Look, length: Length) -> String {
    let mut sheet = Sheet { page: Page::new(look), reader: account.reader, length };
    sheet.head(account);
    for question in &account.changed {
        sheet.question(question);
    }
    sheet.foot(account);
    sheet.page.finish()
}

impl Sheet {
    fn head(&mut self, account: &Account) {
        let reader = self.reader;
        self.page.paragraph(0, &account.title, Tone::Strong);
        self.page.paragraph(0, &format!("{}.", capital(&account.sentence())), Tone::Plain);
        self.page.blank();
        let [before, after] = &account.sides;
        self.labeled("effect-before", &before.words);
        self.labeled("effect-after", &after.words);
        self.labeled("effect-jobs", &account.jobs);
        self.labeled("effect-kinds", &account.share());
        self.page.paragraph(HEAD, &reader.say("effect-kind"), Tone::Quiet);
        if !account.changed.is_empty() {
            self.labeled("effect-exact-label", &reader.say("effect-exact"));
        }
        if account.alike > 0 {
            let alike = reader.say_with("effect-alike-count", &[("count", &account.alike.to_string())]);
            self.labeled("effect-alike-label", &alike);
        }
        for (key, side) in [("effect-only-before-text", Known::Before), ("effect-only-after-text", Known::After)] {
            let titles: Vec<&str> =
                account.apart.iter().filter(|(_, known)| *known == side).map(|(named, _)| &*named.title).collect();
            if !titles.is_empty() {
                self.page.hung(0, HEAD, &reader.say_with(key, &[("titles", &titles.join("; "))]), Tone::Plain);
            }
        }
        if !account.undecided.is_empty() {
            let titles: Vec<&str> = account.undecided.iter().map(|Named { title, .. }| &**title).collect();
            let text = format!("{} ({})", titles.join("; "), reader.say("effect-not-decided"));
            self.page.labeled(&reader.say("effect-undecided-label"), Tone::Doubt, HEAD, &text, Tone::Plain);
        }
    }

    fn labeled(&mut self, key: &str, text: &str) {
        self.page.labeled(&self.reader.say(key), Tone::Quiet, HEAD, text, Tone::Plain);
    }

    fn question(&mut self, question: &QuestionTold) {
        let reader = self.reader;
        self.page.blank();
        self.page.paragraph(0, &question.named.title, Tone::Strong);
        if let Some(costs) = &question.costs {
            self.page.hung(2, 4, &reader.say_with("effect-costs-line", &[("costs", costs)]), Tone::Quiet);
        }
        let told = if self.length.all { question.groups.len() } else { GROUPS };
        for group in question.groups.iter().take(told) {
            self.page.blank();
            self.group(question, group);
        }
        let rest: Vec<&ChangeTold> =
            question.groups.iter().skip(told).flat_map(|group| members(question, group)).collect();
        if !rest.is_empty() {
            self.page.blank();
            let parts = [("count", &*rest.len().to_string()), ("directions", &*counts(&rest, reader))];
            self.page.hung(2, 4, &reader.say_with("effect-further", &parts), Tone::Quiet);
        }
    }

    fn group(&mut self, question: &QuestionTold, group: &Group) {
        let reader = self.reader;
        let all: Vec<&ChangeTold> = members(question, group).collect();
        let Some(first) = all.first() else { return };
        let tone = match first.direction {
            Direction::Contradicts | Direction::Stricter => Tone::Bad,
            Direction::Looser => Tone::Good,
            _ => Tone::Doubt,
        };
        let label = format!("  {}", word(first.direction, reader));
        let alone = all.len() == 1;
        let head = if alone {
            arrow(first)
        } else {
            reader.say_with("effect-share-what-follows", &[("count", &all.len().to_string())])
        };
        self.page.labeled(&label, tone, COLUMN, &head, Tone::Strong);
        self.conditions(&first.choices, &group.base);
        if alone {
            let notes = notes(question, first, reader);
            if !notes.is_empty() {
                self.page.hung(COLUMN, COLUMN + 2, &format!("({notes})"), Tone::Quiet);
            }
        } else {
            self.each(question, group, &all);
        }
        for (key, side) in [("effect-before-line", 0), ("effect-after-line", 1)] {
            let texts = cited(&group.texts(&question.changes, side, reader), reader);
            self.page.hung(COLUMN, COLUMN + 2, &reader.say_with(key, &[("texts", &texts)]), Tone::Quiet);
        }
        if self.length.jobs {
            let key = if alone { "effect-job-line" } else { "effect-jobs-line" };
            self.page.paragraph(COLUMN, &reader.say(key), Tone::Plain);
            for witness in all.iter().filter_map(|change| change.witness.as_ref()) {
                self.page.verbatim(&witness.example);
            }
        }
    }

    /// The changes of a group, a line each.
    fn each(&mut self, question: &QuestionTold, group: &Group, all: &[&ChangeTold]) {
        let reader = self.reader;
        self.page.paragraph(COLUMN, &reader.say("effect-each-where-besides"), Tone::Plain);
        let told = if self.length.all { all.len() } else { LINES };
        for change in all.iter().take(told) {
            self.page.hung(COLUMN, COLUMN + 2, &format!("- {}", arrow(change)), Tone::Strong);
            let notes = notes(question, change, reader);
            let parts = [("conditions", &*together(&change.own(group), reader)), ("notes", &*notes)];
            self.page.hung(COLUMN + 2, COLUMN + 4, &reader.say_with("effect-where-line", &parts), Tone::Plain);
        }
        if all.len() > told {
            let more = (all.len() - told).to_string();
            let more = reader.say_with("effect-more-like-these", &[("count", &more)]);
            self.page.hung(COLUMN, COLUMN + 2, &more, Tone::Quiet);
        }
    }

    /// What holds in every case, and the cases.
    fn conditions(&mut self, choices: &[Vec<Vec<String>>], base: &[String]) {
        if base.is_empty() && choices.is_empty() {
            self.page.paragraph(COLUMN, &self.reader.say("effect-every-job-line"), Tone::Plain);
        }
        if !base.is_empty() {
            self.page.paragraph(COLUMN, &self.reader.say("effect-where"), Tone::Plain);
            for part in base {
                self.page.hung(COLUMN, COLUMN + 2, &format!("- {part}"), Tone::Plain);
            }
        }
        self.several(choices, !base.is_empty());
    }

    fn several(&mut self, choices: &[Vec<Vec<String>>], besides: bool) {
        let reader = self.reader;
        for (number, choice) in choices.iter().enumerate() {
            let key = if besides || number > 0 { "effect-and-one" } else { "effect-where-one-line" };
            self.page.paragraph(COLUMN, &reader.say(key), Tone::Plain);
            let told = if self.length.all { choice.len() } else { CASES };
            for (number, case) in choice.iter().take(told).enumerate() {
                let mark = format!("{}) ", number + 1);
                let text = format!("{mark}{}", together(case, reader));
                self.page.hung(COLUMN, COLUMN + mark.len(), &text, Tone::Plain);
            }
            if choice.len() > told {
                let more = (choice.len() - told).to_string();
                let more = reader.say_with("effect-one-of-more", &[("count", &more)]);
                self.page.hung(COLUMN, COLUMN + 2, &more, Tone::Quiet);
            }
        }
    }

    fn foot(&mut self, account: &Account) {
        let reader = self.reader;
        for (lead, notes) in account.notes_heads().iter().zip(&account.notes) {
            if notes.is_empty() {
                continue;
            }
            self.page.blank();
            self.page.paragraph(0, lead, Tone::Strong);
            for note in notes {
                self.page.blank();
                self.page.hung(2, 4, &format!("{} [{}]", note.text, note.by.join("; ")), Tone::Plain);
                if note.cases.is_none() {
                    self.page.paragraph(COLUMN, &reader.say("effect-not-decided"), Tone::Doubt);
                } else {
                    self.conditions(&note.choices, &note.shared);
                }
            }
        }
        if !account.changed.is_empty() {
            self.page.blank();
            self.page.paragraph(0, &reader.say("effect-words"), Tone::Strong);
            for direction in directions(account) {
                let text = format!("{}: {}", word(direction, reader), meaning(direction, reader));
                self.page.hung(2, 4, &text, Tone::Plain);
            }
            for (name, meaning) in &account.meanings {
                self.page.hung(2, 4, &format!("{name}: {meaning}"), Tone::Plain);
            }
        }
        self.page.blank();
        for caution in &account.cautions {
            self.page.hung(0, 2, caution, Tone::Plain);
        }
    }
}

/// How many changes of each kind there are.
fn counts(changes: &[&ChangeTold], reader: Reader) -> String {
    let mut counts: Vec<(Direction, usize)> = Vec::new();
    for change in changes {
        match counts.iter_mut().find(|(direction, _)| *direction == change.direction) {
            Some((_, count)) => *count += 1,
            None => counts.push((change.direction, 1)),
        }
    }
    let words: Vec<String> =
        counts.iter().map(|(direction, count)| format!("{count} {}", word(*direction, reader))).collect();
    words.join(", ")
}

fn members<'q>(question: &'q QuestionTold, group: &Group) -> impl Iterator<Item = &'q ChangeTold> {
    group.members.clone().into_iter().filter_map(|member| question.changes.get(member))
}

fn arrow(change: &ChangeTold) -> String {
    format!("{} → {}", change.before.words, change.after.words)
}

/// How many kinds of job a change is about, and what is not proven of it.
fn notes(question: &QuestionTold, change: &ChangeTold, reader: Reader) -> String {
    let mut notes = Vec::new();
    if let (Some(some), Some(all)) = (change.kinds, question.kinds) {
        let parts = [("some", &*grouped(some)), ("all", &*grouped(all))];
        notes.push(reader.say_with("effect-some-of-kinds-line", &parts));
    }
    if change.in_part {
        notes.push(reader.say("effect-in-part"));
    }
    if !change.fewest {
        notes.push(reader.say("effect-not-proven"));
    }
    notes.join("; ")
}
