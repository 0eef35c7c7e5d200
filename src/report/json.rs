//! A verdict as JSON, schema `groundrule/verdict/1`. The same job against the
//! same library gives the same bytes.

use crate::glossary::model::{FieldId, Shape};
use crate::job::model::Given;
use crate::law::model::{Provenance, Source};
use crate::syntax::diagnostic::FileId;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Edition, Reason, Remark, Verdict};
use crate::verdict::paths::{Path, Told};
use crate::verdict::value::{Item, Items, Value as Answer};
use crate::verdict::{Lexicon, Matter, Scratch, Way, turned_on};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// The name of the form.
pub(crate) const SCHEMA: &str = "groundrule/verdict/1";

/// What a verdict takes from outside the evaluator.
pub(crate) struct Frame<'a> {
    /// The names of the place and of all around it, outermost first.
    pub(crate) place: Vec<&'a str>,
    /// The hash of the library.
    pub(crate) library: &'a str,
    /// The hash of the files whose provisions took part.
    pub(crate) rests_on: &'a dyn Fn(&[FileId]) -> String,
}

/// The verdict on a job. The scratch is the one with which it was made.
pub(crate) fn verdict(verdict: &Verdict<'_>, matter: &Matter<'_>, scratch: &mut Scratch, frame: &Frame<'_>) -> Value {
    let mut whole = Map::new();
    whole.insert("schema".into(), SCHEMA.into());
    whole.insert("outcome".into(), verdict.outcome.word().into());
    whole.insert("place".into(), frame.place.iter().copied().collect());
    if let Some(reference) = verdict.reference {
        whole.insert("reference".into(), reference.into());
    }
    whole.insert("library".into(), frame.library.into());
    whole.insert("rests-on".into(), (frame.rests_on)(&verdict.files).into());
    whole.insert("engine".into(), env!("CARGO_PKG_VERSION").into());
    whole.insert("codes".into(), verdict.codes.iter().map(edition).collect());
    let mut answers = Map::new();
    for answer in &verdict.answers {
        answers.insert(answer.question.name.to_string(), answered(answer, matter, scratch));
    }
    whole.insert("answers".into(), answers.into());
    let asks = verdict.ask.iter().map(|ask| {
        let mut one = Map::new();
        one.insert("fact".into(), ask.fact.as_str().into());
        one.insert("prompt".into(), ask.prompt.into());
        one.insert("changes".into(), ask.changes.iter().copied().collect());
        Value::Object(one)
    });
    whole.insert("ask".into(), asks.collect());
    whole.insert("notes".into(), verdict.notes.iter().map(|note| remark(note, matter)).collect());
    whole.insert("cautions".into(), verdict.cautions.iter().map(|caution| Value::from(&**caution)).collect());
    let pending = verdict.pending.iter().map(|coming| {
        let mut one = Map::new();
        one.insert("status".into(), (&*coming.pending.status).into());
        source(&mut one, coming.source);
        Value::Object(one)
    });
    whole.insert("pending".into(), pending.collect());
    Value::Object(whole)
}

fn edition(edition: &Edition<'_>) -> Value {
    let mut one = Map::new();
    one.insert("code".into(), (&*edition.code.code).into());
    one.insert("edition".into(), edition.code.edition.into());
    one.insert("subject".into(), edition.subject.into());
    one.insert("by".into(), (&*edition.code.by).into());
    if edition.possible {
        one.insert("possible".into(), true.into());
    }
    Value::Object(one)
}

/// The word for a state.
pub(crate) fn state(state: State) -> &'static str {
    match state {
        State::Silent => "silent",
        State::Settled => "settled",
        State::Open => "open",
        State::Referred => "referred",
        State::Conflict => "conflict",
    }
}

/// The word for a finding.
pub(crate) fn finding(finding: Finding) -> &'static str {
    match finding {
        Finding::Met => "met",
        Finding::NotMet => "not-met",
        Finding::Open => "open",
    }
}

fn answered(answer: &Answered<'_>, matter: &Matter<'_>, scratch: &mut Scratch) -> Value {
    let found = &answer.found;
    let mut one = Map::new();
    one.insert("state".into(), state(found.state).into());
    if let Some(held) = &answer.value {
        one.insert("value".into(), value(held));
    }
    if let Some((loosest, strictest)) = &answer.between {
        one.insert("between".into(), [value(loosest), value(strictest)].into_iter().collect());
    }
    for (name, holds) in
        [("may-refer", found.may_refer), ("may-conflict", found.may_conflict), ("bounds-only", found.bounds_only)]
    {
        if holds {
            one.insert(name.into(), true.into());
        }
    }
    if let Some(held) = found.finding {
        one.insert("finding".into(), finding(held).into());
    }
    if !found.asks.is_empty() {
        let mut asks: Vec<String> = found.asks.iter().map(|path| path.write(&matter.lexicon)).collect();
        asks.sort();
        one.insert("ask".into(), asks.into_iter().collect());
    }
    if let Some(witnesses) = &found.witnesses {
        one.insert("witnesses".into(), witnesses.iter().map(|told| witness(told, matter)).collect());
    }
    for (name, reasons) in
        [("because", &answer.because), ("advice", &answer.advice), ("set-aside", &answer.set_aside)]
    {
        if !reasons.is_empty() {
            one.insert(name.into(), reasons.iter().map(|each| reason(each, matter, scratch)).collect());
        }
    }
    Value::Object(one)
}

/// An answer's value.
pub(crate) fn value(answer: &Answer<'_>) -> Value {
    let mut one = Map::new();
    match &answer.items {
        Items::One(Item::Rung(rung)) => return (*rung).into(),
        Items::One(item) => {
            let (name, held) = told(item, answer.way);
            one.insert(name.into(), held);
            if let Item::Only { but, .. } = item
                && !but.is_empty()
            {
                one.insert("none-of".into(), but.iter().copied().collect());
            }
        }
        Items::PerTerm(terms) if answer.way == Way::Ladder => {
            for (term, item) in terms {
                one.insert((*term).into(), told(item, answer.way).1);
            }
        }
        Items::PerTerm(terms) => {
            let mut parts: BTreeMap<&str, Map<String, Value>> = BTreeMap::new();
            for (term, item) in terms {
                let (name, held) = told(item, answer.way);
                parts.entry(name).or_default().insert((*term).into(), held);
                if let Item::Only { but, .. } = item
                    && !but.is_empty()
                {
                    parts.entry("none-of").or_default().insert((*term).into(), but.iter().copied().collect());
                }
            }
            one.extend(parts.into_iter().map(|(name, terms)| (name.to_owned(), Value::Object(terms))));
        }
    }
    Value::Object(one)
}

fn told(item: &Item<'_>, way: Way) -> (&'static str, Value) {
    let limit = if way == Way::AtMost { "at-most" } else { "at-least" };
    match item {
        Item::Rung(rung) => ("is", (*rung).into()),
        Item::Limit(Some(figure)) => (limit, (&**figure).into()),
        Item::Limit(None) => (limit, "no-limit".into()),
        Item::Any => ("only", "any".into()),
        Item::Only { names, .. } => ("only", names.iter().copied().collect()),
        Item::NoneOf(names) => ("none-of", names.iter().copied().collect()),
        Item::AllOf(names) => ("all-of", names.iter().copied().collect()),
    }
}

fn reason(reason: &Reason<'_>, matter: &Matter<'_>, scratch: &mut Scratch) -> Value {
    let mut one = Map::new();
    source(&mut one, reason.source);
    one.insert("demand".into(), (&*reason.provision.words).into());
    one.insert("role".into(), reason.role.word().into());
    if let Some(by) = reason.by {
        let mut who = Map::new();
        if let Some(section) = &by.section {
            who.insert("section".into(), (&**section).into());
        }
        who.insert("instrument".into(), (&*by.instrument).into());
        who.insert("issuer".into(), (&*by.issuer).into());
        one.insert("by".into(), who.into());
    }
    if let Some(provenance) = provenance(&reason.source.provenance) {
        one.insert("provenance".into(), provenance);
    }
    let facts = turned_on(matter, &mut scratch.memo, reason.provision);
    let facts: BTreeMap<String, Value> = facts
        .into_iter()
        .filter_map(|(path, value)| Some((path.write(&matter.lexicon), given(value, field(&path)?, &matter.lexicon)?)))
        .collect();
    one.insert("facts".into(), facts.into_iter().collect::<Map<_, _>>().into());
    if !reason.failed.is_empty() {
        one.insert("failed".into(), reason.failed.iter().map(|phrase| phrase.write(matter)).collect());
    }
    if let Some(condition) = &reason.condition {
        one.insert("if".into(), condition.write(matter).into());
    }
    Value::Object(one)
}

fn source(one: &mut Map<String, Value>, source: &Source) {
    let texts = [
        ("section", source.section.as_deref()),
        ("instrument", Some(&*source.instrument)),
        ("issuer", Some(&*source.issuer)),
        ("adopted-by", source.adopted_by.as_deref()),
        ("code", source.code.as_deref()),
    ];
    for (name, text) in texts {
        if let Some(text) = text {
            one.insert(name.into(), text.into());
        }
    }
    if let Some(year) = source.edition {
        one.insert("edition".into(), year.into());
    }
    for (name, text) in [("title", &source.title), ("summary", &source.summary), ("in-force", &source.in_force)] {
        if !text.is_empty() {
            one.insert(name.into(), (&**text).into());
        }
    }
}

fn provenance(provenance: &Provenance) -> Option<Value> {
    Some(match provenance {
        Provenance::Read { place, on } => {
            let mut one = Map::new();
            one.insert("read".into(), (&**place).into());
            one.insert("on".into(), on.to_string().into());
            Value::Object(one)
        }
        Provenance::Memory => "from-memory".into(),
        Provenance::CommonPractice => "common-practice".into(),
        Provenance::Missing => return None,
    })
}

fn remark(remark: &Remark<'_>, matter: &Matter<'_>) -> Value {
    let mut one = Map::new();
    one.insert("text".into(), (&*remark.text).into());
    if let Some(question) = remark.question {
        one.insert("question".into(), question.into());
    }
    if let Some(held) = remark.source {
        source(&mut one, held);
    }
    if let Some(condition) = &remark.condition {
        one.insert("if".into(), condition.write(matter).into());
    }
    Value::Object(one)
}

/// The field that a path speaks of.
fn field(path: &Path) -> Option<FieldId> {
    match path {
        Path::Fact(field) | Path::Attribute { field, .. } => Some(*field),
        _ => None,
    }
}

/// A completion as facts of a job.
fn witness(told: &[Told], matter: &Matter<'_>) -> Value {
    let lexicon = &matter.lexicon;
    let mut one = Map::new();
    let mut spans = Map::new();
    for each in told {
        match each {
            Told::Value(path, held) => {
                if let Some(held) = field(path).and_then(|field| given(held, field, lexicon)) {
                    one.insert(path.write(lexicon), held);
                }
            }
            Told::Entries(path, entries) => {
                let rows = entries.iter().map(|entry| {
                    let row: Map<String, Value> = entry
                        .iter()
                        .filter_map(|(field, held)| {
                            Some((lexicon.field(*field)?.name.to_string(), given(held, *field, lexicon)?))
                        })
                        .collect();
                    Value::Object(row)
                });
                one.insert(path.write(lexicon), rows.collect());
            }
            Told::InForce(span, holds) => {
                if let Some(span) = matter.law.spans.get(*span) {
                    spans.insert(span.instrument.to_string(), (*holds).into());
                }
            }
        }
    }
    if !spans.is_empty() {
        one.insert("in-force".into(), spans.into());
    }
    Value::Object(one)
}

/// One value as a job writes it; nothing where it is unknown.
fn given(given: &Given, field: FieldId, lexicon: &Lexicon<'_>) -> Option<Value> {
    let shape = lexicon.field(field)?.shape;
    let term = |number: u16| {
        let choice = lexicon.choice(lexicon.choice_of(field)?)?;
        choice.terms.get(usize::from(number)).map(|term| Value::from(&*term.name))
    };
    Some(match given {
        Given::Unknown => return None,
        Given::NoDate => "none".into(),
        Given::Date(date) => date.to_string().into(),
        Given::Term(number) if shape == Shape::YesNo => (*number == 1).into(),
        Given::Term(number) => term(*number)?,
        Given::Set(terms) => terms.iter().filter_map(term).collect(),
        Given::Measure(measure) if shape == Shape::Count => measure.shown.parse::<u64>().ok()?.into(),
        Given::Measure(measure) => (&*measure.shown).into(),
        Given::Name(name) => (&**name).into(),
    })
}
