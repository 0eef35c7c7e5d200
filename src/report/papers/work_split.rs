//! Who does which part of the bond, under which permit, and what one trade hands to the
//! other.

use super::Drawn;
use super::clause::clause;
use crate::report::speech::Reader;
use crate::values::Terms;
use crate::verdict::found::State;
use crate::verdict::model::Answered;
use serde::Serialize;

/// What stands on it.
#[derive(Serialize)]
pub(super) struct Body {
    trades: Vec<Trade>,
    /// Who may do it, in one line, and by which text.
    rule: String,
    cite: Option<String>,
    steps: Vec<Step>,
    permits: Vec<[String; 3]>,
    permits_cite: Option<String>,
    to_electrician: Vec<[String; 2]>,
    to_gas: Vec<[String; 2]>,
}

#[derive(Serialize)]
struct Trade {
    name: String,
    word: String,
    /// Whether the job names it.
    ours: bool,
}

#[derive(Serialize)]
struct Step {
    what: String,
    who: String,
    under: String,
}

/// The split.
pub(super) fn body(drawn: &Drawn<'_, '_>, reader: Reader) -> Body {
    let line = |question: &str| drawn.line(question).filter(|line| !line.silent);
    let rule = line("performer").map_or_else(|| reader.say("papers-trade-no-rule"), |line| clause(drawn, line, reader));
    let cite = |question: &str| line(question).map(|line| line.section.clone());
    let who = line("performer").map_or_else(|| reader.say("papers-who-board"), |line| line.value.clone());
    Body {
        trades: trades(drawn, reader),
        steps: steps(drawn, &who, reader),
        rule,
        cite: cite("performer"),
        permits: permits(drawn, reader),
        permits_cite: cite("permits"),
        to_electrician: to_electrician(drawn, reader),
        to_gas: to_gas(drawn, reader),
    }
}

/// The terms that an answer names in every case, and those that it names in some.
fn named(answer: &Answered<'_>) -> Option<(Terms, Terms)> {
    let first = |parts: &crate::verdict::answer::Parts| parts.part(0).map(Terms);
    let found = &answer.found;
    match found.state {
        State::Settled => first(found.value.as_ref()?).map(|terms| (terms, terms)),
        State::Open if !found.may_refer && !found.may_conflict => {
            let (one, other) = found.between.as_ref()?;
            let (one, other) = (first(one)?, first(other)?);
            Some((one.common(other), one.union(other)))
        }
        _ => None,
    }
}

fn trades(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<Trade> {
    let facts = drawn.facts(reader);
    // Eight lines that all say nothing help nobody.
    let answer = drawn.answered("performer").filter(|answer| answer.found.state != State::Silent);
    let Some(answer) = answer else { return Vec::new() };
    let held = facts.held("performer").unwrap_or_default();
    let all = facts.choices("performer").into_iter();
    all.map(|(number, _, title)| {
        let word = match named(answer) {
            Some((always, _)) if always.has(number) => reader.say("papers-trade-may"),
            Some((_, ever)) if !ever.has(number) => reader.say("papers-trade-may-not"),
            Some(_) => reader.say("papers-trade-hangs"),
            None if answer.found.state == State::Open => reader.say("papers-trade-hangs"),
            None => reader.say("papers-trade-ask"),
        };
        Trade { name: title, word, ours: held.contains(&number) }
    })
    .collect()
}

fn steps(drawn: &Drawn<'_, '_>, rule: &str, reader: Reader) -> Vec<Step> {
    let permit = |kind: &str| {
        let asked = drawn.answered("permits").and_then(named);
        let number = drawn.facts(reader).choices("permits-held").into_iter().find(|(_, name, _)| *name == kind);
        match (asked, number) {
            (Some((always, _)), Some((number, _, title))) if always.has(number) => title,
            (Some((_, ever)), Some((number, ..))) if !ever.has(number) => reader.say("papers-permit-none"),
            (Some(_), Some((_, _, title))) => reader.say_with("papers-permit-hangs", &[("permit", &title)]),
            _ => reader.say("papers-permit-ask"),
        }
    };
    let (gas, electrical) = (permit("gas"), permit("electrical"));
    let inspection = drawn
        .line("inspection")
        .filter(|line| !line.silent)
        .map_or_else(|| reader.say("papers-inspection-ask"), |line| line.value.clone());
    let step = |what: String, who: String, under: &str| Step { what, who, under: under.to_owned() };
    vec![
        step(reader.say("papers-step-piping"), reader.say("papers-who-gas"), &gas),
        step(reader.say("papers-step-clamp"), rule.to_owned(), &electrical),
        step(reader.say("papers-step-wire"), rule.to_owned(), &electrical),
        step(reader.say("papers-step-landing"), reader.say_with("papers-who-panel", &[("rule", rule)]), &electrical),
        step(reader.say("papers-step-leak"), reader.say("papers-who-leak"), &gas),
        step(reader.say("papers-step-inspection"), reader.say("papers-who-permit"), &inspection),
    ]
}

/// Each kind of permit: whether it is asked for, and whether the job has it.
fn permits(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<[String; 3]> {
    let facts = drawn.facts(reader);
    let asked = drawn.answered("permits").and_then(named);
    let held = facts.held("permits-held");
    let silent = drawn.answered("permits").is_none_or(|answer| answer.found.state == State::Silent);
    let all = facts.choices("permits-held").into_iter();
    all.map(|(number, _, title)| {
        let asks = match asked {
            _ if silent => reader.say("papers-none-known"),
            Some((always, _)) if always.has(number) => reader.say("papers-asked"),
            Some((_, ever)) if !ever.has(number) => reader.say("papers-not-asked"),
            Some(_) => reader.say("papers-trade-hangs"),
            None => reader.say("papers-trade-ask"),
        };
        let has = match &held {
            Some(held) if held.contains(&number) => reader.say("papers-held"),
            Some(_) => reader.say("papers-not-held"),
            None => reader.say("papers-blank"),
        };
        [title, asks, has]
    })
    .collect()
}

/// What the rules ask, and where it stands; of a jumper that nothing requires, that it is not
/// asked of this job.
fn asked_for(drawn: &Drawn<'_, '_>, question: &str, reader: Reader) -> String {
    match drawn.line(question).filter(|line| !line.silent) {
        None => reader.say("papers-none-known"),
        Some(line) => {
            let told = format!("{} [{}]", line.value, line.section);
            if drawn.told(line) { told } else { reader.say_with("papers-not-of-job", &[("what", &told)]) }
        }
    }
}

fn to_electrician(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<[String; 2]> {
    let facts = drawn.facts(reader);
    let answer = |label: String, question: &str| [label, asked_for(drawn, question, reader)];
    let products = facts.over("run", "product");
    let products = if products.is_empty() { reader.say("papers-blank") } else { products.join(", ") };
    vec![
        answer(reader.say("papers-hand-bond"), "direct-bond"),
        facts.row(reader.say("papers-built-clamped"), "jumper.attached-to"),
        facts.row(reader.say("papers-built-position"), "jumper.position"),
        facts.row(reader.say("papers-built-pipe-size"), "jumper.pipe-size"),
        answer(reader.say("papers-built-listing"), "clamp"),
        answer(reader.say("papers-hand-size"), "jumper-size"),
        answer(reader.say("papers-hand-length"), "jumper-length"),
        facts.row(reader.say("papers-built-length"), "jumper.length"),
        [reader.say("papers-hand-product"), products],
        facts.row(reader.say("papers-hand-supplier"), "gas-supplier"),
        facts.row(reader.say("papers-built-concealed"), "concealed"),
    ]
}

fn to_gas(drawn: &Drawn<'_, '_>, reader: Reader) -> Vec<[String; 2]> {
    let facts = drawn.facts(reader);
    vec![
        [reader.say("papers-hand-may-land"), asked_for(drawn, "landing", reader)],
        facts.row(reader.say("papers-built-landing"), "jumper.landed-on"),
        facts.row(reader.say("papers-hand-electrodes"), "electrodes"),
        facts.row(reader.say("papers-hand-service"), "service-rating"),
        facts.row(reader.say("papers-hand-distance"), "service-distance"),
        [reader.say("papers-hand-day"), reader.say("papers-line")],
        [reader.say("papers-hand-license"), reader.say("papers-line")],
    ]
}
