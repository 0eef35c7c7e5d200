//! The answers: what is asked, how the job stands, and by which text.

use super::super::look::{Page, Tone};
use super::words::{cite_short, count, given, spoken, value};
use super::{Frame, order, reasons};
use crate::glossary::model::{FieldId, Met, Order};
use crate::law::model::{Effect, Fate};
use crate::verdict::Matter;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Edition, Reason, Role, Verdict};
use crate::verdict::paths::{Path, Told};

/// Where the text of an answer begins.
pub(super) const COLUMN: usize = 9;

/// Writes every answer in the order of the work; silent questions and those that
/// ask nothing share a line at the end.
pub(super) fn write_all(page: &mut Page, verdict: &Verdict<'_>, matter: &Matter<'_>, frame: &Frame<'_>) {
    let mut answers: Vec<&Answered<'_>> = verdict.answers.iter().collect();
    answers.sort_by_key(|answer| order::rank(&answer.question.name));
    page.blank();
    for answer in answers.iter().filter(|answer| place(answer, matter, frame) == Place::Told) {
        write(page, answer, matter, frame, &verdict.codes);
    }
    let titled = |place_of: Place| -> Vec<String> {
        let these = answers.iter().filter(|answer| place(answer, matter, frame) == place_of);
        these
            .map(|answer| match &answer.value {
                _ if answer.found.state == State::Referred => format!("{} (left to the authority)", title(answer)),
                Some(held) if place_of == Place::Idle || ladder(answer) => {
                    format!("{} ({})", title(answer), value(held))
                }
                None if place_of == Place::Idle => match asks(answer, matter).as_slice() {
                    [] => title(answer).to_owned(),
                    facts => format!("{} (hangs on {})", title(answer), facts.join(", ")),
                },
                _ => title(answer).to_owned(),
            })
            .collect()
    };
    let waiting = titled(Place::Idle);
    if !waiting.is_empty() {
        page.hung(
            0,
            2,
            &format!("Only for a jumper that is put in all the same: {}.", waiting.join("; ")),
            Tone::Quiet,
        );
    }
    let loose = titled(Place::Loose);
    if !loose.is_empty() {
        page.hung(0, 2, &format!("Nothing asked of this job: {}.", loose.join("; ")), Tone::Quiet);
    }
    let silent = titled(Place::Silent);
    if !silent.is_empty() {
        page.hung(0, 2, &format!("No rule known here speaks of: {}.", silent.join("; ")), Tone::Quiet);
    }
}

/// How an answer is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    Told,
    /// The finding is not asked for.
    Idle,
    /// Settled at the loosest, where that says nothing by itself.
    Loose,
    Silent,
}

fn place(answer: &Answered<'_>, matter: &Matter<'_>, frame: &Frame<'_>) -> Place {
    let found = &answer.found;
    match found.state {
        // Nothing binds, and what advises is worth a line.
        State::Silent if answer.advice.is_empty() => return Place::Silent,
        State::Silent => return Place::Told,
        State::Settled | State::Open | State::Referred if !found.asked && !frame.why => return Place::Idle,
        State::Settled if found.finding.is_none() => {}
        _ => return Place::Told,
    }
    // That nothing is prohibited or required is worth a line of its own.
    if loosest(answer, matter) && !order::is_main(&answer.question.name) && !frame.why {
        Place::Loose
    } else {
        Place::Told
    }
}

/// Whether an answer asks nothing.
fn loosest(answer: &Answered<'_>, matter: &Matter<'_>) -> bool {
    let ask = matter.plan.asks.get(answer.number);
    ask.is_some_and(|ask| answer.found.value.as_ref().is_some_and(|parts| ask.form.is_loosest(parts)))
}

fn ladder(answer: &Answered<'_>) -> bool {
    matches!(answer.question.order, Order::Ladder(_))
}

fn title<'a>(answer: &Answered<'a>) -> &'a str {
    if answer.question.title.is_empty() { &answer.question.name } else { &answer.question.title }
}

/// The word at the margin.
fn label(answer: &Answered<'_>) -> (&'static str, Tone) {
    let found = &answer.found;
    match (found.finding, found.state) {
        (Some(Finding::NotMet), _) => ("NOT MET", Tone::Bad),
        (_, State::Conflict) => ("CONFLICT", Tone::Bad),
        (_, State::Referred) => ("REFER", Tone::Doubt),
        (Some(Finding::Open), _) if found.no_equivalent => ("REFER", Tone::Doubt),
        (Some(Finding::Open), _) | (_, State::Open) => ("OPEN", Tone::Doubt),
        (Some(Finding::Met), _) => ("met", Tone::Good),
        (None, _) => ("-", Tone::Quiet),
    }
}

fn write(page: &mut Page, answer: &Answered<'_>, matter: &Matter<'_>, frame: &Frame<'_>, codes: &[Edition<'_>]) {
    let (word, tone) = label(answer);
    let found = &answer.found;
    let mut text = format!("{}: {}", title(answer), state(answer, matter));
    if let Some(has) = has(answer, matter) {
        text.push_str(&format!("; the job has {has}"));
    }
    let asks = asks(answer, matter);
    if found.finding == Some(Finding::Open) && found.state != State::Open && !asks.is_empty() {
        text.push_str(&format!("; the job does not say {}", asks.join(", ")));
    }
    if found.state == State::Silent {
        text.push_str(&format!("; {}", advised(answer, matter, codes)));
    } else if !frame.why {
        text.push_str(&format!(" [{}]", citation(answer, matter, codes)));
    }
    page.labeled(word, tone, COLUMN, &text, Tone::Plain);
    if found.finding == Some(Finding::NotMet)
        && let Some(needs) = needs(answer, matter)
    {
        page.hung(COLUMN + 2, COLUMN + 4, &needs, Tone::Plain);
    }
    for why in referrals(answer) {
        page.hung(COLUMN + 2, COLUMN + 4, &why, Tone::Plain);
    }
    if found.state == State::Open {
        witnesses(page, answer, matter);
        if !asks.is_empty() {
            page.hung(COLUMN + 2, COLUMN + 4, &format!("hangs on {}", asks.join(", ")), Tone::Plain);
        }
    }
    if frame.why {
        reasons::write(page, answer, matter);
    }
}

/// The facts that an answer and its finding hang on.
fn asks(answer: &Answered<'_>, matter: &Matter<'_>) -> Vec<String> {
    let mut facts: Vec<String> = answer.found.asks.iter().map(|path| path.write(&matter.lexicon)).collect();
    facts.sort();
    facts
}

/// The answer itself.
fn state(answer: &Answered<'_>, matter: &Matter<'_>) -> String {
    let found = &answer.found;
    match found.state {
        State::Conflict => match &answer.value {
            Some(held) => format!("the rules contradict each other ({})", value(held)),
            None => "the rules contradict each other".to_owned(),
        },
        State::Referred => match &answer.value {
            Some(held) if !loosest(answer, matter) => {
                format!("left to the authority; apart from that, {}", value(held))
            }
            _ => "left to the authority".to_owned(),
        },
        State::Open => {
            let mut words: Vec<String> = Vec::new();
            match &answer.between {
                Some((low, high)) if low == high => words.push(value(low)),
                Some((low, high)) => words.push(format!("either {} or {}", value(low), value(high))),
                None => words.push("not settled".to_owned()),
            }
            if found.may_refer {
                words.push("or it is for the authority to say".to_owned());
            }
            if found.may_conflict {
                words.push("or the rules contradict each other".to_owned());
            }
            if found.bounds_only {
                words.push("too much is unknown to tell all cases apart".to_owned());
            }
            words.join("; ")
        }
        State::Settled => answer.value.as_ref().map_or_else(|| "settled".to_owned(), value),
        State::Silent => "no rule known here binds".to_owned(),
    }
}

/// What the job itself has, where the question measures it.
fn has(answer: &Answered<'_>, matter: &Matter<'_>) -> Option<String> {
    answer.found.finding?;
    let field = answer.question.measures?;
    let has = given(matter.fact(field), field, &matter.lexicon)?;
    let metal = answer.question.per.and_then(|(per, _)| given(matter.fact(per), per, &matter.lexicon));
    Some(metal.map_or_else(|| has.clone(), |metal| format!("{has} {metal}")))
}

/// What a job would have to say, where the question does not measure a fact.
fn needs(answer: &Answered<'_>, matter: &Matter<'_>) -> Option<String> {
    match answer.question.met.as_ref()? {
        Met::Never => Some("nothing that a job can say does this: what is prohibited is not used".to_owned()),
        Met::Where(_) => {
            let cond = matter.law.questions.get(answer.number)?.met?;
            Some(format!("done where {}", crate::verdict::condition(matter, cond)))
        }
    }
}

/// The readings of a referral or of the texts that may refer.
fn referrals(answer: &Answered<'_>) -> Vec<String> {
    let found = &answer.found;
    if found.state != State::Referred && !found.may_refer {
        return if found.no_equivalent {
            vec!["the text that governs names no equivalent for what the job uses: ask the authority".to_owned()]
        } else {
            Vec::new()
        };
    }
    let mut whys: Vec<String> = Vec::new();
    for reason in &answer.because {
        if let Effect::Refer(why) = &reason.provision.effect
            && !whys.iter().any(|known| known == &**why)
        {
            whys.push(why.to_string());
        }
    }
    if whys.is_empty() {
        whys.push("it turns on another answer that is left to the authority".to_owned());
    }
    whys
}

/// The two cases of an open answer: what they share of the facts that matter,
/// then each with its own.
fn witnesses(page: &mut Page, answer: &Answered<'_>, matter: &Matter<'_>) {
    let found = &answer.found;
    let Some([one, other]) = &found.witnesses else { return };
    // What they answer themselves: the two bounds may be no completion's answer.
    let values: [Option<String>; 2] = match (&answer.between, &answer.ends) {
        (Some((low, high)), Some([one, other])) if low != high => {
            [one, other].map(|end| Some(end.as_ref().map_or_else(|| "left to the authority".to_owned(), value)))
        }
        _ => [None, None],
    };
    let matters = |fact: &&Told| match fact {
        Told::Value(path, _) | Told::Entries(path, _) => found.asks.contains(path),
        Told::InForce(..) => true,
    };
    let shared: Vec<&Told> = one.iter().filter(|fact| other.contains(fact)).filter(matters).collect();
    let mut column = COLUMN + 2;
    if !shared.is_empty() {
        page.hung(column, column + 2, &format!("where {}:", told(&shared, matter).join(", ")), Tone::Plain);
        column += 2;
    }
    for ((case, beside), held) in [(one, other), (other, one)].into_iter().zip(values) {
        let own: Vec<&Told> = case.iter().filter(|fact| !beside.contains(fact)).collect();
        let told = told(&own, matter);
        let case = if told.is_empty() { "else".to_owned() } else { format!("if {}", told.join(", ")) };
        let text = held.map_or_else(|| case.clone(), |held| format!("{case}: {held}"));
        page.hung(column, column + 2, &text, Tone::Plain);
    }
}

/// Facts of a case in words.
fn told(case: &[&Told], matter: &Matter<'_>) -> Vec<String> {
    let lexicon = &matter.lexicon;
    let mut words = Vec::new();
    for told in case {
        match *told {
            Told::Value(path @ (Path::Fact(field) | Path::Attribute { field, .. }), held) => {
                if let Some(held) = given(held, *field, lexicon) {
                    words.push(format!("{} is {held}", path.write(lexicon)));
                }
            }
            Told::Value(..) => {}
            Told::Entries(path, entries) if entries.is_empty() => {
                words.push(format!("no further {}", list(path, matter)))
            }
            Told::Entries(path, entries) => {
                let entries: Vec<String> = entries.iter().map(|entry| one_entry(entry, matter)).collect();
                words.push(format!("{} {}", list(path, matter), entries.join(" and ")));
            }
            Told::InForce(span, holds) => {
                if let Some(span) = matter.law.spans.get(*span) {
                    let word = if *holds { "in force" } else { "not yet in force" };
                    words.push(format!("{} is {word}", span.instrument));
                }
            }
        }
    }
    words
}

fn list(path: &Path, matter: &Matter<'_>) -> String {
    path.write(&matter.lexicon).trim_end_matches("[]").to_owned()
}

fn one_entry(entry: &[(FieldId, crate::job::model::Given)], matter: &Matter<'_>) -> String {
    let parts = entry.iter().filter_map(|(field, held)| {
        let name = &matter.lexicon.field(*field)?.name;
        Some(format!("{name} {}", given(held, *field, &matter.lexicon)?))
    });
    format!("({})", parts.collect::<Vec<_>>().join(", "))
}

/// The texts on which the answer stands, each once.
fn citation(answer: &Answered<'_>, matter: &Matter<'_>, codes: &[Edition<'_>]) -> String {
    const MOST: usize = 3;
    let governs = answer.because.iter().filter(|reason| reason.role == Role::Governs);
    let mut cited: Vec<String> = Vec::new();
    for reason in governs {
        let text = cite_short(reason.source, codes);
        if !cited.contains(&text) {
            cited.push(text);
        }
    }
    if cited.is_empty() {
        return passed_over(answer, matter, codes);
    }
    let more = cited.len().saturating_sub(MOST);
    cited.truncate(MOST);
    let mut words = cited.join("; ");
    if more > 0 {
        words.push_str(&format!("; and {} (--why)", count(more, "other text", "other texts")));
    }
    words
}

/// What is advised where nothing binds, and by whom.
fn advised(answer: &Answered<'_>, matter: &Matter<'_>, codes: &[Edition<'_>]) -> String {
    let advice = answer.advice.iter().map(|reason| {
        let condition =
            reason.condition.as_ref().map_or_else(String::new, |held| format!(" if {}", held.write(matter)));
        format!("{}{condition} [{}]", reason.provision.words, cite_short(reason.source, codes))
    });
    format!("advised is {}", advice.collect::<Vec<_>>().join("; "))
}

/// Why nothing governs: the first text that applies but for an exception of it; else
/// the first that was looked at, and what of it failed.
fn passed_over(answer: &Answered<'_>, matter: &Matter<'_>, codes: &[Edition<'_>]) -> String {
    let excepted = |reason: &&Reason<'_>| reason.role == Role::SetAside(Fate::Excepted) && reason.failed.is_empty();
    if let Some(reason) = answer.set_aside.iter().find(excepted) {
        return format!("{}: {}", cite_short(reason.source, codes), spoken(reason.role.word()));
    }
    let failed = |reason: &&Reason<'_>| {
        matches!(reason.role, Role::SetAside(Fate::PassedOver | Fate::Excepted)) && !reason.failed.is_empty()
    };
    match answer.set_aside.iter().find(failed) {
        Some(reason) => {
            let failed: Vec<String> = reason.failed.iter().map(|phrase| phrase.write(matter)).collect();
            format!("{} asks only where {}", cite_short(reason.source, codes), failed.join(" and "))
        }
        None => match answer.set_aside.first() {
            Some(reason) => format!("{}: {}", cite_short(reason.source, codes), spoken(reason.role.word())),
            None => "no text in force asks for more".to_owned(),
        },
    }
}
