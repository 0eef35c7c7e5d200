//! One question: what is asked, what can be answered, and why it is asked.

use super::super::look::{Page, Tone};
use super::super::screen::order::rank;
use super::super::speech::Reader;
use super::Voice;
use super::words::{hint, said, title, when, who};
use crate::interview::{Change, Form, Mark, Step};
use crate::job::model::Given;
use crate::verdict::Matter;
use crate::verdict::paths::Path;

/// How far an interview has come.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Count {
    /// The number of the question, from 1.
    pub(crate) number: usize,
    /// How many steps could still change an answer.
    pub(crate) left: usize,
    /// Whether the question is put again; why it is asked was said then.
    pub(crate) again: bool,
}

/// How many of the answers that could change are named beside the question.
const NAMED: usize = 3;

/// A question as it is put; at the place there is no matter yet.
pub(crate) fn question(step: &Step<'_>, matter: Option<&Matter<'_>>, count: Count, voice: Voice) -> String {
    let Voice { reader, look } = voice;
    let mut page = Page::new(look);
    page.hung(0, 2, &head(reader, step, count), Tone::Quiet);
    if let Some(entry) = matter.and_then(|matter| entry(reader, step, matter)) {
        page.hung(0, 2, &entry, Tone::Plain);
    }
    page.hung(0, 2, &prompt(reader, step), Tone::Strong);
    for (number, pick) in step.form.picks().iter().enumerate() {
        let text = if pick.title.is_empty() { pick.name.to_owned() } else { format!("{}: {}", pick.name, pick.title) };
        page.labeled(&format!("{:>3}", number + 1), Tone::Plain, 5, &text, Tone::Plain);
    }
    page.hung(2, 4, &hint(reader, &step.form), Tone::Quiet);
    let now = matter.and_then(|matter| said(reader, step, &matter.lexicon));
    match (now, step.mark) {
        (Some(now), Mark::Stated) => {
            page.hung(2, 4, &reader.say_with("walk-now", &[("value", &now)]), Tone::Plain);
        }
        (None, Mark::Waived | Mark::Idle) => page.hung(2, 4, &reader.say("walk-now-unknown"), Tone::Plain),
        _ => {}
    }
    if !count.again {
        reasons(&mut page, reader, step);
    }
    page.finish()
}

fn head(reader: Reader, step: &Step<'_>, count: Count) -> String {
    let (number, left) = (count.number.to_string(), count.left.to_string());
    let mut text = reader.say_with("walk-head", &[("number", &number)]);
    match (step.part.who, step.part.when) {
        (Some(_), Some(stage)) if step.own => {
            text.push_str(&format!(" {}", reader.say_with("walk-part-own", &[("when", &when(reader, stage))])));
        }
        (Some(first), _) if !step.own => {
            let mut all: Vec<String> = vec![who(reader, first)];
            for knows in step.known.iter().flat_map(|(knows, _)| knows).filter(|knows| ***knows != *first) {
                all.push(who(reader, knows));
            }
            let all = all.join(&reader.say("walk-or"));
            text.push_str(&format!(" {}", reader.say_with("walk-part-other", &[("who", &all)])));
        }
        _ => {}
    }
    if count.left > 1 {
        text.push_str(&format!(" {}", reader.say_with("walk-left", &[("left", &left)])));
    }
    text
}

/// Of which entry an attribute is, and what is known of it.
fn entry(reader: Reader, step: &Step<'_>, matter: &Matter<'_>) -> Option<String> {
    let (list, number) = step.entry?;
    let Some(Path::Attribute { group, entry, .. }) = step.topic.path() else { return None };
    let entries = &matter.list(group)?.entries;
    let fields = &matter.lexicon.group(group)?.fields;
    let known: Vec<String> = fields
        .iter()
        .zip(entries.get(entry)?)
        .filter(|(_, given)| **given != Given::Unknown)
        .filter_map(|(field, given)| {
            let name = &matter.lexicon.field(*field)?.title;
            Some(format!("{name}: {}", reader.given(given, *field, &matter.lexicon)?))
        })
        .collect();
    let (number, all) = (number.to_string(), entries.len().to_string());
    let head = reader.say_with("walk-entry", &[("list", list), ("number", &number), ("all", &all)]);
    Some(if known.is_empty() { head } else { format!("{head} ({})", known.join("; ")) })
}

fn prompt(reader: Reader, step: &Step<'_>) -> String {
    match &step.form {
        Form::Place => reader.say("walk-ask-place"),
        Form::Entries { further: false, .. } => reader.say_with("walk-ask-entries", &[("list", step.prompt)]),
        Form::Entries { known, further: true } => {
            let known = known.to_string();
            reader.say_with("walk-ask-further", &[("list", step.prompt), ("known", &known)])
        }
        _ if step.prompt.is_empty() => title(reader, step),
        _ => step.prompt.to_owned(),
    }
}

fn reasons(page: &mut Page, reader: Reader, step: &Step<'_>) {
    if !step.governs.is_empty() {
        let subjects = step.governs.join(", ");
        page.hung(2, 4, &reader.say_with("walk-why-governed", &[("subjects", &subjects)]), Tone::Plain);
    }
    let mut changes: Vec<&Change<'_>> = step.changes.iter().collect();
    if changes.is_empty() {
        return;
    }
    changes.sort_by_key(|change| rank(&change.question.name));
    let all = changes.len().to_string();
    page.hung(2, 4, &reader.say_with("walk-why", &[("count", &all)]), Tone::Plain);
    for change in changes.iter().take(NAMED) {
        page.hung(4, 6, &could(reader, change), Tone::Plain);
    }
    if let Some(others) = changes.len().checked_sub(NAMED).filter(|others| *others > 0) {
        page.hung(4, 6, &reader.say_with("walk-why-others", &[("count", &others.to_string())]), Tone::Plain);
    }
}

/// What could become of an answer.
pub(super) fn could(reader: Reader, change: &Change<'_>) -> String {
    let title = change.question.printed();
    let mut text = match (&change.between, &change.settled) {
        (Some((low, high)), _) => {
            let (low, high) = (reader.value(low), reader.value(high));
            reader.say_with("walk-change-between", &[("question", title), ("low", &low), ("high", &high)])
        }
        (None, Some(value)) => {
            reader.say_with("walk-change-met", &[("question", title), ("answer", &reader.value(value))])
        }
        (None, None) => title.to_string(),
    };
    if change.may_refer {
        text.push_str(&reader.say("walk-change-refer"));
    }
    text
}
