//! The answers: what is asked, how the job stands, and by which text.

use super::jumper::{self, Jumper};
use super::own::{missing, own, shown_by};
use super::{Frame, Line, Place, reasons};
use crate::glossary::model::{FieldId, Met, Order};
use crate::law::model::{Effect, Fate};
use crate::report::screen::order;
use crate::report::screen::words::spoken;
use crate::report::speech::Reader;
use crate::verdict::Matter;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Edition, Reason, Role};
use crate::verdict::paths::{Path, Told};
use serde::Serialize;

/// One answer spelled out; `jumper` is how the job stands with one.
pub(super) fn line(
    answer: &Answered<'_>,
    jumper: Jumper,
    matter: &Matter<'_>,
    codes: &[Edition<'_>],
    reader: Reader,
) -> Line {
    let (mark, word) = mark(answer, reader);
    let found = &answer.found;
    let mut who: Vec<String> = Vec::new();
    for reason in answer.because.iter().filter(|reason| reason.role == Role::Governs) {
        if !who.iter().any(|known| **known == *reason.source.issuer) {
            who.push(reason.source.issuer.to_string());
        }
    }
    let (silent, open) = (found.state == State::Silent, found.state == State::Open);
    let (cite, cites_more) =
        if silent { (advised(answer, matter, codes, reader), false) } else { citation(answer, matter, codes, reader) };
    Line {
        question: answer.question.name.to_string(),
        title: title(answer).to_owned(),
        mark,
        word,
        value: state(answer, matter, reader),
        has: has(answer, matter, reader),
        own: own(answer, matter, reader),
        shown: shown_by(answer, matter).is_some(),
        carries: jumper::carries(jumper, &answer.question.name, matter, reader),
        needs: if found.finding == Some(Finding::NotMet) { needs(answer, matter, reader) } else { None },
        referrals: referrals(answer, reader),
        cases: if open { cases(answer, matter, reader) } else { Cases::default() },
        hangs_on: if open { missing(answer, matter, reader) } else { Vec::new() },
        unsaid: if found.finding == Some(Finding::Open) && !open {
            missing(answer, matter, reader)
        } else {
            Vec::new()
        },
        silent,
        section: if governed(answer) {
            cite.clone()
        } else {
            section(answer, codes, reader).unwrap_or_else(|| cite.clone())
        },
        cite,
        cites_more,
        who,
        reasons: reasons::all(answer, matter, reader),
        costs: answer.question.costs.as_deref().map(str::to_owned),
        asked: found.asked,
        loosest: found.state == State::Settled && loosest(answer, matter),
        measured: answer.question.measures.is_some(),
    }
}

/// The titles of the answers that are told together in one line, with what is
/// worth saying beside each.
pub(super) fn titled(
    answers: &[&Answered<'_>],
    place_of: Place,
    matter: &Matter<'_>,
    frame: &Frame<'_>,
) -> Vec<String> {
    let these = answers.iter().filter(|answer| place(answer, matter, frame.all) == place_of);
    these.map(|answer| short(answer, place_of == Place::Idle, matter, frame.reader)).collect()
}

/// A title with what is worth saying beside it; where the answer is not asked of the job also
/// what the job has of its own.
pub(crate) fn short(answer: &Answered<'_>, idle: bool, matter: &Matter<'_>, reader: Reader) -> String {
    let own = if idle { own(answer, matter, reader) } else { None };
    let own = own.map_or_else(String::new, |own| {
        let said = [("value", &*own)];
        if answer.question.measures.is_some() {
            format!("; {}", reader.say_with("sheet-job-has", &said))
        } else {
            format!("; {}", reader.say_with("sheet-job-says", &said))
        }
    });
    let with = |more: String| format!("{} ({more}{own})", title(answer));
    match &answer.value {
        _ if answer.found.state == State::Referred => with(reader.say("sheet-left-to-authority")),
        Some(held) if idle || ladder(answer) => with(reader.value(held)),
        None if idle => match asks(answer, matter).as_slice() {
            [] => title(answer).to_owned(),
            facts => with(reader.say_with("sheet-hangs-on", &[("facts", &facts.join(", "))])),
        },
        _ => title(answer).to_owned(),
    }
}

/// Where an answer is told; `all` where every reason is.
pub(crate) fn place(answer: &Answered<'_>, matter: &Matter<'_>, all: bool) -> Place {
    let found = &answer.found;
    match found.state {
        // Nothing binds, and what advises is worth a line.
        State::Silent if answer.advice.is_empty() => return Place::Silent,
        State::Silent => return Place::Told,
        State::Settled | State::Open | State::Referred if !found.asked && !all => return Place::Idle,
        State::Settled if found.finding.is_none() => {}
        _ => return Place::Told,
    }
    // That nothing is prohibited or required is worth a line of its own.
    if loosest(answer, matter) && !order::is_main(&answer.question.name) && !all { Place::Loose } else { Place::Told }
}

/// Whether an answer asks nothing.
fn loosest(answer: &Answered<'_>, matter: &Matter<'_>) -> bool {
    let ask = matter.plan.asks.get(answer.number);
    ask.is_some_and(|ask| answer.found.value.as_ref().is_some_and(|parts| ask.form.is_loosest(parts)))
}

fn ladder(answer: &Answered<'_>) -> bool {
    matches!(answer.question.order, Order::Ladder(_))
}

/// The printed name of the question.
pub(crate) fn title<'a>(answer: &Answered<'a>) -> &'a str {
    answer.question.printed()
}

/// How an answer is marked: a name for styles, and the word.
pub(crate) fn mark(answer: &Answered<'_>, reader: Reader) -> (&'static str, String) {
    let found = &answer.found;
    match (found.finding, found.state) {
        (Some(Finding::NotMet), _) => ("not-met", reader.say("sheet-mark-not-met")),
        (_, State::Conflict) => ("conflict", reader.say("sheet-mark-conflict")),
        (_, State::Referred) => ("refer", reader.say("sheet-mark-refer")),
        (Some(Finding::Open), _) if found.no_equivalent => ("refer", reader.say("sheet-mark-refer")),
        (Some(Finding::Open), _) | (_, State::Open) => ("open", reader.say("sheet-mark-open")),
        (Some(Finding::Met), _) => ("met", reader.say("sheet-mark-met")),
        (None, _) => ("none", reader.say("sheet-mark-none")),
    }
}

/// The facts that an answer and its finding hang on.
pub(crate) fn asks(answer: &Answered<'_>, matter: &Matter<'_>) -> Vec<String> {
    let mut facts: Vec<String> = answer.found.asks.iter().map(|path| path.write(&matter.lexicon)).collect();
    facts.sort();
    facts
}

/// The answer itself.
pub(crate) fn state(answer: &Answered<'_>, matter: &Matter<'_>, reader: Reader) -> String {
    let found = &answer.found;
    match found.state {
        State::Conflict => match &answer.value {
            Some(held) => reader.say_with("sheet-contradict-value", &[("value", &reader.value(held))]),
            None => reader.say("sheet-contradict"),
        },
        State::Referred => match &answer.value {
            Some(held) if !loosest(answer, matter) => {
                reader.say_with("sheet-left-apart-from", &[("value", &reader.value(held))])
            }
            _ => reader.say("sheet-left-to-authority"),
        },
        State::Open => {
            let mut words: Vec<String> = Vec::new();
            match &answer.between {
                Some((low, high)) if low == high => words.push(reader.value(low)),
                Some((low, high)) => {
                    let (low, high) = (reader.value(low), reader.value(high));
                    words.push(reader.say_with("sheet-either", &[("low", &low), ("high", &high)]));
                }
                None => words.push(reader.say("sheet-not-settled")),
            }
            if found.may_refer {
                words.push(reader.say("sheet-or-refer"));
            }
            if found.may_conflict {
                words.push(reader.say("sheet-or-contradict"));
            }
            if found.bounds_only {
                words.push(reader.say("sheet-too-much-unknown"));
            }
            words.join("; ")
        }
        State::Settled => answer.value.as_ref().map_or_else(|| reader.say("sheet-settled"), |held| reader.value(held)),
        State::Silent => reader.say("sheet-silent"),
    }
}

/// What the job itself has, where the question measures it.
pub(crate) fn has(answer: &Answered<'_>, matter: &Matter<'_>, reader: Reader) -> Option<String> {
    answer.found.finding?;
    answer.question.measures?;
    own(answer, matter, reader)
}

/// What a job would have to say, where the question does not measure a fact.
pub(crate) fn needs(answer: &Answered<'_>, matter: &Matter<'_>, reader: Reader) -> Option<String> {
    match answer.question.met.as_ref()? {
        Met::Never => Some(reader.say("sheet-never-met")),
        Met::Where(_) => {
            let cond = matter.law.questions.get(answer.number)?.met?;
            Some(reader.say_with("sheet-done-where", &[("condition", &crate::verdict::condition(matter, cond))]))
        }
    }
}

/// The readings of a referral or of the texts that may refer.
pub(crate) fn referrals(answer: &Answered<'_>, reader: Reader) -> Vec<String> {
    let found = &answer.found;
    if found.state != State::Referred && !found.may_refer {
        return if found.no_equivalent { vec![reader.say("sheet-no-equivalent")] } else { Vec::new() };
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
        whys.push(reader.say("sheet-turns-on-referred"));
    }
    whys
}

/// The two cases of an open answer.
#[derive(Clone, Debug, Default, Serialize)]
pub(crate) struct Cases {
    /// What they share of the facts that matter.
    pub(crate) shared: Option<String>,
    /// Each with its own.
    pub(crate) each: Vec<String>,
}

/// The two cases of an open answer: what they share of the facts that matter, then
/// each with its own.
pub(crate) fn cases(answer: &Answered<'_>, matter: &Matter<'_>, reader: Reader) -> Cases {
    let found = &answer.found;
    let Some([one, other]) = &found.witnesses else { return Cases::default() };
    // What they answer themselves: the two bounds may be no completion's answer.
    let values: [Option<String>; 2] = match (&answer.between, &answer.ends) {
        (Some((low, high)), Some([one, other])) if low != high => [one, other].map(|end| {
            Some(end.as_ref().map_or_else(|| reader.say("sheet-left-to-authority"), |held| reader.value(held)))
        }),
        _ => [None, None],
    };
    let matters = |fact: &&Told| match fact {
        Told::Value(path, _) | Told::Entries(path, _) => found.asks.contains(path),
        Told::InForce(..) => true,
    };
    let shared: Vec<&Told> = one.iter().filter(|fact| other.contains(fact)).filter(matters).collect();
    let shared = told(&shared, matter, reader).join(", ");
    let each = [(one, other), (other, one)].into_iter().zip(values).map(|((case, beside), held)| {
        let own: Vec<&Told> = case.iter().filter(|fact| !beside.contains(fact)).collect();
        let told = told(&own, matter, reader).join(", ");
        let case = if told.is_empty() {
            reader.say("sheet-else")
        } else {
            reader.say_with("sheet-if", &[("condition", &told)])
        };
        held.map_or_else(|| case.clone(), |held| format!("{case}: {held}"))
    });
    let each = each.collect();
    let shared = (!shared.is_empty()).then(|| reader.say_with("sheet-where", &[("condition", &shared)]));
    Cases { shared, each }
}

/// Facts of a case in words.
fn told(case: &[&Told], matter: &Matter<'_>, reader: Reader) -> Vec<String> {
    let lexicon = &matter.lexicon;
    let mut words = Vec::new();
    for told in case {
        match *told {
            Told::Value(path @ (Path::Fact(field) | Path::Attribute { field, .. }), held) => {
                if let Some(held) = reader.given(held, *field, lexicon) {
                    let parts = [("fact", &*path.write(lexicon)), ("value", &*held)];
                    words.push(reader.say_with("sheet-fact-is", &parts));
                }
            }
            Told::Value(..) => {}
            Told::Entries(path, entries) if entries.is_empty() => {
                words.push(reader.say_with("sheet-no-further", &[("list", &list(path, matter))]));
            }
            Told::Entries(path, entries) => {
                let entries: Vec<String> = entries.iter().map(|entry| one_entry(entry, matter, reader)).collect();
                let and = format!(" {} ", reader.say("sheet-and"));
                words.push(format!("{} {}", list(path, matter), entries.join(&and)));
            }
            Told::InForce(span, holds) => {
                if let Some(span) = matter.law.spans.get(*span) {
                    let instrument = [("instrument", &*span.instrument)];
                    words.push(if *holds {
                        reader.say_with("sheet-in-force", &instrument)
                    } else {
                        reader.say_with("sheet-not-yet-in-force", &instrument)
                    });
                }
            }
        }
    }
    words
}

fn list(path: &Path, matter: &Matter<'_>) -> String {
    path.write(&matter.lexicon).trim_end_matches("[]").to_owned()
}

fn one_entry(entry: &[(FieldId, crate::job::model::Given)], matter: &Matter<'_>, reader: Reader) -> String {
    let parts = entry.iter().filter_map(|(field, held)| {
        let name = &matter.lexicon.field(*field)?.name;
        Some(format!("{name} {}", reader.given(held, *field, &matter.lexicon)?))
    });
    format!("({})", parts.collect::<Vec<_>>().join(", "))
}

/// The texts on which the answer stands, each once, and whether there are more.
pub(crate) fn citation(
    answer: &Answered<'_>,
    matter: &Matter<'_>,
    codes: &[Edition<'_>],
    reader: Reader,
) -> (String, bool) {
    const MOST: usize = 3;
    let governs = answer.because.iter().filter(|reason| reason.role == Role::Governs);
    let mut cited: Vec<String> = Vec::new();
    for reason in governs {
        let text = reader.cite_short(reason.source, codes);
        if !cited.contains(&text) {
            cited.push(text);
        }
    }
    if cited.is_empty() {
        return (passed_over(answer, matter, codes, reader), false);
    }
    let more = cited.len().saturating_sub(MOST);
    cited.truncate(MOST);
    let words = cited.join("; ");
    if more == 0 {
        return (words, false);
    }
    (reader.say_with("sheet-and-more-texts", &[("texts", &words), ("count", &more.to_string())]), true)
}

/// What is advised where nothing binds, and by whom.
pub(crate) fn advised(answer: &Answered<'_>, matter: &Matter<'_>, codes: &[Edition<'_>], reader: Reader) -> String {
    let advice = answer.advice.iter().map(|reason| {
        let condition = reason.condition.as_ref().map_or_else(String::new, |held| {
            format!(" {}", reader.say_with("sheet-if", &[("condition", &held.write(matter))]))
        });
        format!("{}{condition} [{}]", reason.provision.words, reader.cite_short(reason.source, codes))
    });
    reader.say_with("sheet-advised", &[("advice", &advice.collect::<Vec<_>>().join("; "))])
}

/// The text that was looked at first where none governs: one that applies but for an
/// exception of it; else one of which something failed.
fn looked_at<'r, 'a>(answer: &'r Answered<'a>) -> Option<&'r Reason<'a>> {
    let excepted = |reason: &&Reason<'_>| reason.role == Role::SetAside(Fate::Excepted) && reason.failed.is_empty();
    let failed = |reason: &&Reason<'_>| {
        matches!(reason.role, Role::SetAside(Fate::PassedOver | Fate::Excepted)) && !reason.failed.is_empty()
    };
    let all = || answer.set_aside.iter();
    all().find(excepted).or_else(|| all().find(failed)).or_else(|| all().next())
}

fn governed(answer: &Answered<'_>) -> bool {
    answer.found.state == State::Silent || answer.because.iter().any(|reason| reason.role == Role::Governs)
}

/// The section alone where no text governs, without what it would need, which is told in the
/// words of rule files.
fn section(answer: &Answered<'_>, codes: &[Edition<'_>], reader: Reader) -> Option<String> {
    looked_at(answer).map(|reason| reader.cite_short(reason.source, codes))
}

/// Why nothing governs: the first text that was looked at, and what of it failed.
pub(crate) fn passed_over(answer: &Answered<'_>, matter: &Matter<'_>, codes: &[Edition<'_>], reader: Reader) -> String {
    let role =
        |reason: &Reason<'_>| format!("{}: {}", reader.cite_short(reason.source, codes), reasons::role(reason, reader));
    match looked_at(answer) {
        Some(reason) if reason.failed.is_empty() => role(reason),
        Some(reason) if !matches!(reason.role, Role::SetAside(Fate::PassedOver | Fate::Excepted)) => role(reason),
        Some(reason) => {
            let and = format!(" {} ", reader.say("sheet-and"));
            let failed: Vec<String> = reason.failed.iter().map(|phrase| phrase.write(matter)).collect();
            let parts = [("text", &*reader.cite_short(reason.source, codes)), ("condition", &*failed.join(&and))];
            reader.say_with("sheet-asks-only-where", &parts)
        }
        None => reader.say("sheet-nothing-asks-more"),
    }
}

/// A question's name read aloud, where it has no answer at hand.
pub(crate) fn question_title(name: &str, answers: &[Answered<'_>]) -> String {
    answers
        .iter()
        .find(|answer| *answer.question.name == *name)
        .map_or_else(|| spoken(name), |answer| title(answer).to_owned())
}
