//! A verdict as JSON, schema `groundrule/verdict/1`. The same job against the
//! same library gives the same bytes.

use super::cures;
use crate::cure::Cures;
use crate::glossary::model::{FieldId, Shape};
use crate::job::model::Given;
use crate::law::instrument::DaysInForce;
use crate::law::model::{Provenance, Source};
use crate::verdict::aside::Aside;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Edition, Reason, Remark, Verdict};
use crate::verdict::paths::{Path, Told};
use crate::verdict::value::{Item, Items, Value as Answer};
use crate::verdict::{Lexicon, Matter, Scratch, Way, turned_on};
use serde::{Serialize, Serializer};
use serde_json::{Map, Value};
use std::collections::{BTreeMap, HashMap};
use std::rc::Rc;

/// The name of the form.
pub(crate) const SCHEMA: &str = "groundrule/verdict/1";

/// What a verdict takes from outside the evaluator.
pub(crate) struct Frame<'a> {
    /// The names of the place and of all around it, outermost first.
    pub(crate) place: Vec<&'a str>,
    /// The hash of the library.
    pub(crate) library: &'a str,
    /// The hash of the files whose provisions took part.
    pub(crate) rests_on: String,
}

/// A verdict ready to be written as JSON.
#[derive(Debug, Serialize)]
pub(crate) struct Whole<'a> {
    schema: &'static str,
    outcome: &'static str,
    place: Vec<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reference: Option<&'a str>,
    library: &'a str,
    #[serde(rename = "rests-on")]
    rests_on: String,
    engine: &'static str,
    codes: Vec<EditionView<'a>>,
    answers: Pairs<&'a str, AnswerView<'a>>,
    ask: Vec<AskView<'a>>,
    notes: Vec<NoteView<'a>>,
    cautions: &'a [Aside<'a>],
    pending: Vec<PendingView<'a>>,
}

impl Whole<'_> {
    /// The verdict as a JSON value; every name in it is a text, so that writing it
    /// does not fail.
    pub(crate) fn to_value(&self) -> Value {
        serde_json::to_value(self).unwrap_or_else(|problem| problem.to_string().into())
    }
}

impl Serialize for Aside<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl Serialize for DaysInForce {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// Pairs that are written as one object, in their order.
#[derive(Debug)]
struct Pairs<K, V>(Vec<(K, V)>);

impl<K: Serialize, V: Serialize> Serialize for Pairs<K, V> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(name, value)| (name, value)))
    }
}

#[derive(Debug, Serialize)]
struct EditionView<'a> {
    code: &'a str,
    edition: i32,
    subject: &'a str,
    by: &'a str,
    #[serde(skip_serializing_if = "is_false")]
    possible: bool,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct AnswerView<'a> {
    state: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<Value>,
    #[serde(skip_serializing_if = "Option::is_none")]
    between: Option<[Value; 2]>,
    #[serde(skip_serializing_if = "is_false")]
    may_refer: bool,
    #[serde(skip_serializing_if = "is_false")]
    may_conflict: bool,
    #[serde(skip_serializing_if = "is_false")]
    bounds_only: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    finding: Option<&'static str>,
    #[serde(flatten)]
    cures: cures::Json,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    ask: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    witnesses: Option<Vec<Value>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    because: Vec<ReasonView<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    advice: Vec<ReasonView<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    set_aside: Vec<ReasonView<'a>>,
}

#[derive(Debug, Serialize)]
struct AskView<'a> {
    fact: &'a str,
    prompt: &'a str,
    changes: &'a [&'a str],
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct SourceView<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    section: Option<&'a str>,
    instrument: &'a str,
    issuer: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    adopted_by: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    code: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    edition: Option<i32>,
    #[serde(skip_serializing_if = "str::is_empty")]
    title: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    summary: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    in_force: Option<DaysInForce>,
}

#[derive(Debug, Serialize)]
struct ReasonView<'a> {
    #[serde(flatten)]
    source: SourceView<'a>,
    demand: &'a str,
    role: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    by: Option<ByView<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    provenance: Option<ProvenanceView<'a>>,
    facts: Pairs<Rc<str>, Rc<Value>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    failed: Vec<String>,
    #[serde(rename = "if", skip_serializing_if = "Option::is_none")]
    condition: Option<String>,
}

#[derive(Debug, Serialize)]
struct ByView<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    section: Option<&'a str>,
    instrument: &'a str,
    issuer: &'a str,
}

#[derive(Debug, Serialize)]
#[serde(untagged)]
pub(super) enum ProvenanceView<'a> {
    Read { read: &'a str, on: String },
    Word(&'static str),
}

#[derive(Debug, Serialize)]
struct NoteView<'a> {
    text: &'a Aside<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    question: Option<&'a str>,
    #[serde(flatten)]
    source: Option<SourceView<'a>>,
    #[serde(rename = "if", skip_serializing_if = "Option::is_none")]
    condition: Option<String>,
}

#[derive(Debug, Serialize)]
struct PendingView<'a> {
    status: &'a str,
    #[serde(flatten)]
    source: SourceView<'a>,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the serializer gives references")]
fn is_false(flag: &bool) -> bool {
    !flag
}

/// What a verdict's reasons are told with.
struct Teller<'a, 's> {
    matter: &'a Matter<'a>,
    scratch: &'s mut Scratch,
    facts: Written,
    cures: &'s [(usize, Cures)],
}

/// The paths of facts that were written before, with their name and their value as JSON. A path that has none to show
/// is kept too, so that it is looked for once.
type Written = HashMap<Path, Option<(Rc<str>, Rc<Value>)>>;

/// The verdict on a job. The scratch is the one with which it was made.
pub(crate) fn verdict<'a>(
    verdict: &'a Verdict<'a>,
    matter: &'a Matter<'a>,
    scratch: &mut Scratch,
    frame: Frame<'a>,
    cures: &[(usize, Cures)],
) -> Whole<'a> {
    let mut teller = Teller { matter, scratch, facts: HashMap::new(), cures };
    Whole {
        schema: SCHEMA,
        outcome: verdict.outcome.word(),
        place: frame.place,
        reference: verdict.reference,
        library: frame.library,
        rests_on: frame.rests_on,
        engine: env!("CARGO_PKG_VERSION"),
        codes: verdict.codes.iter().map(edition).collect(),
        answers: Pairs(
            verdict.answers.iter().map(|answer| (&*answer.question.name, teller.answered(answer))).collect(),
        ),
        ask: verdict
            .ask
            .iter()
            .map(|ask| AskView { fact: &ask.fact, prompt: ask.prompt, changes: &ask.changes })
            .collect(),
        notes: verdict.notes.iter().map(|note| remark(note, matter)).collect(),
        cautions: &verdict.cautions,
        pending: verdict
            .pending
            .iter()
            .map(|coming| PendingView { status: &coming.pending.status, source: source(coming.source, true) })
            .collect(),
    }
}

fn edition<'a>(edition: &Edition<'a>) -> EditionView<'a> {
    EditionView {
        code: &edition.code.code,
        edition: edition.code.edition,
        subject: edition.subject,
        by: &edition.code.by,
        possible: edition.possible,
    }
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

impl<'a> Teller<'a, '_> {
    fn answered(&mut self, answer: &'a Answered<'a>) -> AnswerView<'a> {
        let found = &answer.found;
        let mut ask: Vec<String> = found.asks.iter().map(|path| path.write(&self.matter.lexicon)).collect();
        ask.sort();
        let witnesses = found.witnesses.as_ref();
        let cures = self.cures.iter().find(|(question, _)| *question == answer.number);
        AnswerView {
            state: state(found.state),
            value: answer.value.as_ref().map(value),
            between: answer.between.as_ref().map(|(loosest, strictest)| [value(loosest), value(strictest)]),
            may_refer: found.may_refer,
            may_conflict: found.may_conflict,
            bounds_only: found.bounds_only,
            finding: found.finding.map(finding),
            cures: cures.map_or_else(cures::Json::default, |(_, cures)| cures::json(cures, self.matter)),
            ask,
            witnesses: witnesses.map(|both| both.iter().map(|told| witness(told, self.matter)).collect()),
            because: answer.because.iter().map(|each| self.reason(each, true)).collect(),
            advice: answer.advice.iter().map(|each| self.reason(each, true)).collect(),
            set_aside: answer.set_aside.iter().map(|each| self.reason(each, false)).collect(),
        }
    }

    /// One reason; what was set aside is told without its summary.
    fn reason(&mut self, reason: &'a Reason<'a>, summary: bool) -> ReasonView<'a> {
        let matter = self.matter;
        let turned_on = turned_on(matter, &mut self.scratch.memo, reason.provision);
        let mut facts: Vec<(Rc<str>, Rc<Value>)> = Vec::with_capacity(turned_on.len());
        for (path, held) in turned_on {
            let written = self.facts.entry(path).or_insert_with(|| {
                let held = field(&path).and_then(|field| given(held, field, &matter.lexicon))?;
                Some((path.write(&matter.lexicon).into(), Rc::new(held)))
            });
            if let Some((path, held)) = written {
                facts.push((Rc::clone(path), Rc::clone(held)));
            }
        }
        facts.sort_by(|one, other| one.0.cmp(&other.0));
        ReasonView {
            source: source(reason.source, summary),
            demand: &reason.provision.words,
            role: reason.role.word(),
            by: reason.by.map(|by| ByView {
                section: by.section.as_deref(),
                instrument: &by.instrument,
                issuer: &by.issuer,
            }),
            provenance: provenance(&reason.source.provenance),
            facts: Pairs(facts),
            failed: reason.failed.iter().map(|phrase| phrase.write(matter)).collect(),
            condition: reason.condition.as_ref().map(|condition| condition.write(matter)),
        }
    }
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

fn source(source: &Source, summary: bool) -> SourceView<'_> {
    SourceView {
        section: source.section.as_deref(),
        instrument: &source.instrument,
        issuer: &source.issuer,
        adopted_by: source.adopted_by.as_deref(),
        code: source.code.as_deref(),
        edition: source.edition,
        title: &source.title,
        summary: if summary { &source.summary } else { "" },
        in_force: source.in_force,
    }
}

/// Where a text was seen, as JSON; nothing where it is not said.
pub(super) fn provenance(provenance: &Provenance) -> Option<ProvenanceView<'_>> {
    Some(match provenance {
        Provenance::Read { place, on } => ProvenanceView::Read { read: place, on: on.to_string() },
        Provenance::Memory => ProvenanceView::Word("from-memory"),
        Provenance::CommonPractice => ProvenanceView::Word("common-practice"),
        Provenance::Missing => return None,
    })
}

fn remark<'a>(remark: &'a Remark<'a>, matter: &Matter<'_>) -> NoteView<'a> {
    NoteView {
        text: &remark.aside,
        question: remark.question,
        source: remark.source.map(|held| source(held, false)),
        condition: remark.condition.as_ref().map(|condition| condition.write(matter)),
    }
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
pub(crate) fn given(given: &Given, field: FieldId, lexicon: &Lexicon<'_>) -> Option<Value> {
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
