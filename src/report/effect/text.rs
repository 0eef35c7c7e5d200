//! The account as a page of text.

use super::{
    Account, ChangeTold, EXACT, Group, IN_PART, KIND, NOT_PROVEN, NOTES, Named, QuestionTold, UNDECIDED, capital,
    cited, counted, directions, grouped, meaning, together, word,
};
use crate::report::look::{Look, Page, Tone};
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

/// The page.
pub(crate) fn page(account: &Account, look: Look, length: Length) -> String {
    let mut page = Page::new(look);
    head(&mut page, account);
    for question in &account.changed {
        write(&mut page, question, length);
    }
    foot(&mut page, account, length);
    page.finish()
}

fn head(page: &mut Page, account: &Account) {
    page.paragraph(0, &account.title, Tone::Strong);
    page.paragraph(0, &format!("{}.", capital(&account.sentence())), Tone::Plain);
    page.blank();
    let [before, after] = &account.sides;
    page.labeled("Before", Tone::Quiet, HEAD, &before.words, Tone::Plain);
    page.labeled("After", Tone::Quiet, HEAD, &after.words, Tone::Plain);
    page.labeled("Jobs", Tone::Quiet, HEAD, &account.jobs, Tone::Plain);
    let kinds = account.share().unwrap_or_else(|| "too many to be counted".to_owned());
    page.labeled("Kinds", Tone::Quiet, HEAD, &kinds, Tone::Plain);
    page.paragraph(HEAD, KIND, Tone::Quiet);
    if !account.changed.is_empty() {
        page.labeled("Exact", Tone::Quiet, HEAD, EXACT, Tone::Plain);
    }
    if account.alike > 0 {
        let alike = counted(account.alike as u128, "question is", "questions are");
        page.labeled("Alike", Tone::Quiet, HEAD, &format!("{alike} answered alike for every job"), Tone::Plain);
    }
    for (label, side) in [("Only before", Known::Before), ("Only after", Known::After)] {
        let titles: Vec<&str> =
            account.apart.iter().filter(|(_, known)| *known == side).map(|(named, _)| &*named.title).collect();
        if !titles.is_empty() {
            page.hung(0, HEAD, &format!("{label}, and compared with nothing: {}", titles.join("; ")), Tone::Plain);
        }
    }
    if !account.undecided.is_empty() {
        let titles: Vec<&str> = account.undecided.iter().map(|Named { title, .. }| &**title).collect();
        page.labeled("Undecided", Tone::Doubt, HEAD, &format!("{} ({UNDECIDED})", titles.join("; ")), Tone::Plain);
    }
}

fn write(page: &mut Page, question: &QuestionTold, length: Length) {
    page.blank();
    page.paragraph(0, &question.named.title, Tone::Strong);
    if let Some(costs) = &question.costs {
        page.hung(2, 4, &format!("what a stricter answer costs: {costs}"), Tone::Quiet);
    }
    let told = if length.all { question.groups.len() } else { GROUPS };
    for group in question.groups.iter().take(told) {
        page.blank();
        write_group(page, question, group, length);
    }
    let rest: Vec<&ChangeTold> = question.groups.iter().skip(told).flat_map(|group| members(question, group)).collect();
    if !rest.is_empty() {
        page.blank();
        let mut counts: Vec<(Direction, usize)> = Vec::new();
        for change in &rest {
            match counts.iter_mut().find(|(direction, _)| *direction == change.direction) {
                Some((_, count)) => *count += 1,
                None => counts.push((change.direction, 1)),
            }
        }
        let words: Vec<String> =
            counts.iter().map(|(direction, count)| format!("{count} {}", word(*direction))).collect();
        let further = counted(rest.len() as u128, "further change of this answer", "further changes of this answer");
        page.hung(2, 4, &format!("{further}: {} (--all tells them)", words.join(", ")), Tone::Quiet);
    }
}

fn write_group(page: &mut Page, question: &QuestionTold, group: &Group, length: Length) {
    let all: Vec<&ChangeTold> = members(question, group).collect();
    let Some(first) = all.first() else { return };
    let tone = match first.direction {
        Direction::Contradicts | Direction::Stricter => Tone::Bad,
        Direction::Looser => Tone::Good,
        _ => Tone::Doubt,
    };
    let label = format!("  {}", word(first.direction));
    let alone = all.len() == 1;
    let head = if alone { arrow(first) } else { format!("{} changes for jobs that share what follows", all.len()) };
    page.labeled(&label, tone, COLUMN, &head, Tone::Strong);
    conditions(page, &first.choices, &group.base, length);
    if alone {
        let notes = notes(question, first);
        if !notes.is_empty() {
            page.hung(COLUMN, COLUMN + 2, &format!("({notes})"), Tone::Quiet);
        }
    } else {
        page.paragraph(COLUMN, "each where besides", Tone::Plain);
        let told = if length.all { all.len() } else { LINES };
        for change in all.iter().take(told) {
            let notes = notes(question, change);
            page.hung(COLUMN, COLUMN + 2, &format!("- {}", arrow(change)), Tone::Strong);
            let text = format!("where {} ({notes})", together(&change.own(group)));
            page.hung(COLUMN + 2, COLUMN + 4, &text, Tone::Plain);
        }
        if all.len() > told {
            let more = all.len() - told;
            page.hung(COLUMN, COLUMN + 2, &format!("and {more} more like these (--all tells them)"), Tone::Quiet);
        }
    }
    for (label, side) in [("before", 0), ("after", 1)] {
        let text = format!("{label}: {}", cited(&group.texts(&question.changes, side)));
        page.hung(COLUMN, COLUMN + 2, &text, Tone::Quiet);
    }
    if length.jobs {
        let jobs = if alone { "a job that shows it" } else { "jobs that show them" };
        page.paragraph(COLUMN, &format!("{jobs}, to be pasted into a rule file:"), Tone::Plain);
        for witness in all.iter().filter_map(|change| change.witness.as_ref()) {
            page.verbatim(&witness.example);
        }
    }
}

fn members<'q>(question: &'q QuestionTold, group: &Group) -> impl Iterator<Item = &'q ChangeTold> {
    group.members.clone().into_iter().filter_map(|member| question.changes.get(member))
}

fn arrow(change: &ChangeTold) -> String {
    format!("{} → {}", change.before.words, change.after.words)
}

/// How many kinds of job a change is about, and what is not proven of it.
fn notes(question: &QuestionTold, change: &ChangeTold) -> String {
    let mut notes = Vec::new();
    if let (Some(some), Some(all)) = (change.kinds, question.kinds) {
        notes.push(format!("{} of {} kinds of job", grouped(some), grouped(all)));
    }
    if change.in_part {
        notes.push(IN_PART.to_owned());
    }
    if !change.fewest {
        notes.push(NOT_PROVEN.to_owned());
    }
    notes.join("; ")
}

/// What holds in every case, and the cases.
fn conditions(page: &mut Page, choices: &[Vec<Vec<String>>], base: &[String], length: Length) {
    if base.is_empty() && choices.is_empty() {
        page.paragraph(COLUMN, "for every job", Tone::Plain);
    }
    if !base.is_empty() {
        points(page, "where", base);
    }
    several(page, choices, !base.is_empty(), length);
}

fn points(page: &mut Page, lead: &str, parts: &[String]) {
    page.paragraph(COLUMN, lead, Tone::Plain);
    for part in parts {
        page.hung(COLUMN, COLUMN + 2, &format!("- {part}"), Tone::Plain);
    }
}

fn several(page: &mut Page, choices: &[Vec<Vec<String>>], besides: bool, length: Length) {
    for (number, choice) in choices.iter().enumerate() {
        let besides = besides || number > 0;
        page.paragraph(COLUMN, if besides { "and one of these" } else { "where one of these holds" }, Tone::Plain);
        let told = if length.all { choice.len() } else { CASES };
        for (number, case) in choice.iter().take(told).enumerate() {
            let mark = format!("{}) ", number + 1);
            page.hung(COLUMN, COLUMN + mark.len(), &format!("{mark}{}", together(case)), Tone::Plain);
        }
        if choice.len() > told {
            let more = (choice.len() - told).to_string();
            page.hung(COLUMN, COLUMN + 2, &format!("or one of {more} more (--all tells them)"), Tone::Quiet);
        }
    }
}

fn foot(page: &mut Page, account: &Account, length: Length) {
    for (lead, notes) in NOTES.iter().zip(&account.notes) {
        if notes.is_empty() {
            continue;
        }
        page.blank();
        page.paragraph(0, lead, Tone::Strong);
        for note in notes {
            page.blank();
            page.hung(2, 4, &format!("{} [{}]", note.text, note.by.join("; ")), Tone::Plain);
            if note.cases.is_none() {
                page.paragraph(COLUMN, UNDECIDED, Tone::Doubt);
            } else {
                conditions(page, &note.choices, &note.shared, length);
            }
        }
    }
    if !account.changed.is_empty() {
        page.blank();
        page.paragraph(0, "What the words mean", Tone::Strong);
        for direction in directions(account) {
            page.hung(2, 4, &format!("{}: {}", word(direction), meaning(direction)), Tone::Plain);
        }
        for (name, meaning) in &account.meanings {
            page.hung(2, 4, &format!("{name}: {meaning}"), Tone::Plain);
        }
    }
    page.blank();
    for caution in &account.cautions {
        page.hung(0, 2, caution, Tone::Plain);
    }
}
