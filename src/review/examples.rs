//! The examples inside rule files: each is a job and what its verdict must show.
//!
//! `Q open on FACT` holds where the answer or the finding is open and hangs on the
//! fact; of a `per` question the terms named are compared, the others are not.

mod beside;

use crate::glossary::Context;
use crate::glossary::demand::{Asked, AskedKind};
use crate::glossary::model::{PlaceId, QuestionId};
use crate::job::{Defaults, read_sheet};
use crate::law::model::{QuestionLaw, Source};
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::tree::{Authority, Demand, DemandKind, Example, Expect, ExpectKind, Item, Span, Word};
use crate::values::Terms;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Outcome, Role, Verdict};
use crate::verdict::value::{self, Items, Value};
use crate::verdict::{Matter, Scratch, Way, in_part};

/// The loosest answers in the words of the language.
const NO_LIMIT: &str = "no limit";
const ANYTHING: &str = "anything";
const ANYONE: &str = "anyone";
const NOTHING: &str = "nothing";

/// What came of the examples of some files.
#[derive(Debug, Default)]
pub(crate) struct Ran {
    /// How many examples were run.
    pub(crate) examples: usize,
    /// Expectations that did not come out, and jobs that could not be read.
    pub(crate) findings: Vec<Diagnostic>,
}

/// Runs the examples of the files that are wanted. The rules must be usable.
pub(crate) fn run(rules: &Rules, wanted: impl Fn(FileId) -> bool) -> Ran {
    let mut ran = Ran::default();
    let mut scratch = Scratch::default();
    for (file, tree) in rules.trees().filter(|(file, _)| wanted(*file)) {
        for item in &tree.items {
            if let Item::Example(example) = item {
                ran.examples += 1;
                one(rules, file, example, &mut scratch, &mut ran.findings);
            }
        }
    }
    ran
}

/// Whether an example comes out.
pub(super) fn comes_out(rules: &Rules, file: FileId, example: &Example, scratch: &mut Scratch) -> bool {
    let mut findings = Vec::new();
    one(rules, file, example, scratch, &mut findings);
    findings.is_empty()
}

fn one(rules: &Rules, file: FileId, example: &Example, scratch: &mut Scratch, findings: &mut Vec<Diagnostic>) {
    let job = match read_sheet(&example.job, file, rules.desk(), &Defaults::default()) {
        Ok(job) => job,
        Err(problems) => {
            findings.extend(problems);
            return;
        }
    };
    let matter = match rules.matter(&job) {
        Ok(matter) => matter,
        Err(problem) => {
            findings.push(problem.clone());
            return;
        }
    };
    let verdict = match questions(&matter, example) {
        Some(wanted) => in_part(&matter, scratch, &wanted),
        None => rules.weighed(&matter, scratch),
    };
    let check = Check { rules, file, example, matter: &matter, verdict: &verdict };
    for expect in &example.expects {
        findings.extend(check.expect(expect));
    }
}

/// The questions that an example speaks of, by their place in the law; nothing where it
/// speaks of the verdict as a whole.
fn questions(matter: &Matter<'_>, example: &Example) -> Option<Vec<usize>> {
    let mut names: Vec<&str> = Vec::new();
    for expect in &example.expects {
        match &expect.kind {
            ExpectKind::Outcome(_) | ExpectKind::Note { .. } | ExpectKind::Pending(_) => return None,
            ExpectKind::State { question, .. }
            | ExpectKind::OpenOn { question, .. }
            | ExpectKind::Loosest { question, .. } => names.push(&question.text),
            ExpectKind::Demand { demand, .. } | ExpectKind::Advice { demand, .. } => match &demand.kind {
                DemandKind::Is { question, .. }
                | DemandKind::AtLeast { question, .. }
                | DemandKind::AtMost { question, .. }
                | DemandKind::ByTable { question, .. }
                | DemandKind::Only { question, .. }
                | DemandKind::NoneOf { question, .. }
                | DemandKind::AllOf { question, .. } => names.push(&question.text),
                DemandKind::Refer { questions, .. } | DemandKind::Bind { questions } => {
                    names.extend(questions.iter().map(|question| &*question.text));
                }
                DemandKind::Note { .. } => {}
            },
        }
    }
    let known =
        |law: &QuestionLaw| matter.lexicon.question(law.question).is_some_and(|own| names.contains(&&*own.name));
    let all = matter.law.questions.iter().enumerate();
    Some(all.filter(|(_, law)| known(law)).map(|(number, _)| number).collect())
}

/// One example against its verdict.
struct Check<'a> {
    rules: &'a Rules,
    file: FileId,
    example: &'a Example,
    matter: &'a Matter<'a>,
    verdict: &'a Verdict<'a>,
}

/// Nothing, where it came out; else what is wrong.
type Wrong = Option<Diagnostic>;

impl<'a> Check<'a> {
    fn at(&self, span: Span) -> Location {
        Location { file: self.file, span }
    }

    fn wrong(&self, span: Span, expected: &str, found: &str) -> Diagnostic {
        Diagnostic::new(codes::EXAMPLE, self.at(span), format!("expected {expected}, found {found}"))
            .also(self.at(self.example.name.span), "the example")
    }

    fn place(&self) -> PlaceId {
        self.matter.job.place
    }

    fn expect(&self, expect: &Expect) -> Vec<Diagnostic> {
        let found = match &expect.kind {
            ExpectKind::Outcome(word) => self.outcome(expect.span, word),
            ExpectKind::State { question, state } => {
                self.with(question, |answer| self.state(expect.span, answer, state))
            }
            ExpectKind::OpenOn { question, fact } => {
                self.with(question, |answer| self.open_on(expect.span, answer, fact))
            }
            ExpectKind::Loosest { question, word } => {
                self.with(question, |answer| self.loosest(expect.span, answer, word))
            }
            ExpectKind::Note { by } => self.note(expect.span, by),
            ExpectKind::Pending(id) => self.pending(expect.span, id),
            ExpectKind::Advice { demand, by } => return self.advised(expect.span, demand, by.as_ref()),
            ExpectKind::Demand { demand, by } => return self.demand(expect.span, demand, by.as_ref()),
        };
        found.into_iter().collect()
    }

    /// The answer to a question, or that it has none.
    fn with(&self, question: &Word, check: impl FnOnce(&Answered<'a>) -> Wrong) -> Wrong {
        match self.verdict.answers.iter().find(|answer| *answer.question.name == *question.text) {
            Some(answer) => check(answer),
            None => {
                let mut told = Vec::new();
                let context = Context::plain(self.file, Some(self.place()), self.rules.desk().territory);
                self.rules.library().glossary.question_named(question, &context, &mut told);
                let unknown =
                    || self.wrong(question.span, &format!("an answer to `{}`", question.text), "no such question");
                Some(told.pop().unwrap_or_else(unknown))
            }
        }
    }

    fn outcome(&self, span: Span, word: &Word) -> Wrong {
        const ALL: [Outcome; 5] =
            [Outcome::Complies, Outcome::Open, Outcome::Refer, Outcome::Conflict, Outcome::Corrections];
        let found = self.verdict.outcome;
        if *word.text == *found.word() {
            return None;
        }
        let known = ALL.iter().any(|outcome| outcome.word() == &*word.text);
        let told = self.wrong(span, &format!("outcome `{}`", word.text), &format!("outcome `{}`", found.word()));
        Some(if known { told } else { told.help("an outcome is complies, open, refer, conflict or corrections") })
    }

    fn state(&self, span: Span, answer: &Answered<'a>, state: &Word) -> Wrong {
        let found = &answer.found;
        let holds = match &*state.text {
            "silent" => found.state == State::Silent,
            "open" => found.state == State::Open,
            "referred" => found.state == State::Referred,
            "conflict" => found.state == State::Conflict,
            "met" => found.finding == Some(Finding::Met),
            "not-met" => found.finding == Some(Finding::NotMet),
            "not-asked" => !found.asked,
            _ => false,
        };
        let name = &answer.question.name;
        let expected = format!("`{name} {}`", state.text.replace('-', " "));
        (!holds).then(|| self.because(self.wrong(span, &expected, &in_words(answer)), answer))
    }

    fn open_on(&self, span: Span, answer: &Answered<'a>, fact: &Word) -> Wrong {
        let found = &answer.found;
        let asks: Vec<String> = found.asks.iter().map(|path| path.write(&self.matter.lexicon)).collect();
        let open = found.state == State::Open || found.finding == Some(Finding::Open);
        if open && asks.contains(&fact.text.to_string()) {
            return None;
        }
        let expected = format!("`{} open on {}`", answer.question.name, fact.text);
        let hangs = if asks.is_empty() { String::new() } else { format!(", which hangs on {}", asks.join(", ")) };
        let found = format!("{}{}", in_words(answer), if open { hangs } else { String::new() });
        Some(self.because(self.wrong(span, &expected, &found), answer))
    }

    fn demand(&self, span: Span, demand: &Demand, by: Option<&Authority>) -> Vec<Diagnostic> {
        let mut told = Vec::new();
        let context = Context::plain(self.file, Some(self.place()), self.rules.desk().territory);
        if let DemandKind::Refer { questions, .. } = &demand.kind {
            let referred = |question: &Word| {
                let word = Word { text: "referred".into(), span: question.span };
                self.with(question, |answer| self.state(span, answer, &word))
            };
            return questions.iter().filter_map(referred).collect();
        }
        let Some(asked) = self.rules.library().glossary.demand(demand, &context, &mut told) else { return told };
        let Some(answer) = self.answer_to(asked.question) else { return told };
        let expected = || format!("`{}`", self.written(span));
        if answer.found.state != State::Settled || !self.fits(&asked, answer) {
            told.push(self.because(self.wrong(span, &expected(), &in_words(answer)), answer));
        } else if let Some(by) = by
            && !answer.because.iter().any(|reason| reason.role == Role::Governs && is_by(reason.source, by))
        {
            let found = format!("{} by another text", in_words(answer));
            told.push(self.because(self.wrong(span, &expected(), &found), answer));
        }
        told
    }

    fn answer_to(&self, question: QuestionId) -> Option<&'a Answered<'a>> {
        let known = self.matter.lexicon.question(question)?;
        self.verdict.answers.iter().find(|answer| std::ptr::eq(answer.question, known))
    }

    /// The line of the expectation on one line.
    fn written(&self, span: Span) -> String {
        let text = self.rules.file_text(self.file);
        let line = text.get(span.start as usize..span.end as usize).unwrap_or_default();
        line.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// Whether a settled answer is the one demanded.
    fn fits(&self, asked: &Asked, answer: &Answered<'a>) -> bool {
        let (Some(parts), Some(law), Some(ask)) = (
            &answer.found.value,
            self.matter.law.questions.get(answer.number),
            self.matter.plan.asks.get(answer.number),
        ) else {
            return false;
        };
        let part = |number: usize| parts.part(number).unwrap_or(ask.form.loosest);
        same(asked, law, &part, answer.found.only)
    }

    /// The same with the texts that govern as help.
    fn because(&self, told: Diagnostic, answer: &Answered<'a>) -> Diagnostic {
        let mut texts: Vec<String> = Vec::new();
        for reason in answer.because.iter().filter(|reason| reason.role == Role::Governs) {
            let text = name(reason.source);
            if !texts.contains(&text) {
                texts.push(text);
            }
        }
        texts.truncate(4);
        if texts.is_empty() {
            return told
                .help("no text in force governs this answer; `groundrule verdict --why` tells what was set aside");
        }
        told.help(format!("what governs: {}", texts.join("; ")))
    }
}

/// Whether an answer of these parts is the one demanded.
fn same(asked: &Asked, law: &QuestionLaw, part: &dyn Fn(usize) -> u128, is_only: bool) -> bool {
    match &asked.kind {
        AskedKind::Rung(rung) => part(0) == u128::from(*rung),
        AskedKind::Limits(limits) => limits.iter().all(|(measure, terms)| match terms {
            None => at(law, part(0)) == Some(measure.amount),
            Some(terms) => {
                let here: Vec<u16> = terms.common(law.per_terms).iter().collect();
                !here.is_empty() && here.iter().all(|term| at(law, part(usize::from(*term))) == Some(measure.amount))
            }
        }),
        AskedKind::Permitted { only, terms } => {
            let permitted = if *only { terms.common(law.terms) } else { law.terms.without(*terms) };
            Terms(part(0)).common(law.terms) == permitted && *only == is_only
        }
        AskedKind::Required(terms) => Terms(part(0)).common(law.terms) == terms.common(law.terms),
    }
}

/// The limit at a rank; nothing for no limit.
fn at(law: &QuestionLaw, rank: u128) -> Option<crate::values::Exact> {
    let rank = usize::try_from(rank.checked_sub(1)?).ok()?;
    law.scale.get(rank).map(|limit| limit.amount)
}

/// Whether a text is that of this instrument, adopting or amending, and section.
fn is_by(source: &Source, (instrument, section): &Authority) -> bool {
    let own =
        *source.instrument == *instrument.text || source.adopted_by.as_ref().is_some_and(|by| **by == *instrument.text);
    let number = section.as_ref().is_none_or(|number| source.section.as_ref().is_some_and(|own| **own == *number.text));
    own && number
}

fn name(source: &Source) -> String {
    let section = source.section.as_deref().unwrap_or_default();
    match (&source.code, source.edition) {
        (Some(code), Some(year)) => format!("{} {section} ({code} {year})", source.instrument),
        _ => format!("{} {section}", source.instrument).trim_end().to_owned(),
    }
}

/// An answer and its finding in the words of the language.
fn in_words(answer: &Answered<'_>) -> String {
    let name = &answer.question.name;
    let of = |held: &Value<'_>| format!("`{name} {}`", demand(held));
    let state = match (&answer.value, &answer.between) {
        _ if answer.found.state == State::Silent => format!("`{name} silent`"),
        (_, Some((low, high))) => format!("`{name} open`, between {} and {}", of(low), of(high)),
        (Some(held), _) => match answer.found.state {
            State::Referred => format!("`{name} referred`, apart from that {}", of(held)),
            State::Conflict => format!("`{name} conflict`"),
            _ => of(held),
        },
        (None, None) => match answer.found.state {
            State::Referred => format!("`{name} referred`"),
            State::Conflict => format!("`{name} conflict`"),
            _ => format!("`{name} open`"),
        },
    };
    match answer.found.finding {
        Some(Finding::Met) => format!("{state}, met"),
        Some(Finding::NotMet) => format!("{state}, not met"),
        Some(Finding::Open) => format!("{state}, the finding open"),
        None if !answer.found.asked => format!("{state}, not asked"),
        None => state,
    }
}

/// The line by which an example expects this answer; nothing where no line says it.
pub(crate) fn expectation(answer: &Answered<'_>) -> Option<String> {
    let said = match answer.found.state {
        State::Silent => "silent".to_owned(),
        State::Referred => "referred".to_owned(),
        State::Conflict => "conflict".to_owned(),
        State::Open => "open".to_owned(),
        State::Settled => demand(&sayable(answer.value.as_ref()?)?),
    };
    Some(format!("{} {said}", answer.question.name))
}

/// As much of a value as a demand can say.
fn sayable<'a>(held: &Value<'a>) -> Option<Value<'a>> {
    let plain = |item: &value::Item<'a>| match item {
        value::Item::Only { names, but } => !names.is_empty() && but.is_empty(),
        _ => true,
    };
    let items = match &held.items {
        Items::One(item) => plain(item).then(|| Items::One(item.clone()))?,
        Items::PerTerm(terms) => {
            let limits = terms.iter().filter(|(_, item)| matches!(item, value::Item::Limit(Some(_)))).cloned();
            let limits: Vec<_> = limits.collect();
            (!limits.is_empty()).then_some(Items::PerTerm(limits))?
        }
    };
    Some(Value { way: held.way, items })
}

/// A value as a demand.
fn demand(held: &Value<'_>) -> String {
    let limit = if held.way == Way::AtMost { "at most" } else { "at least" };
    match &held.items {
        Items::One(item) => one_item(item, limit),
        Items::PerTerm(terms) => {
            let parts: Vec<String> = terms
                .iter()
                .map(|(term, item)| match item {
                    value::Item::Limit(Some(figure)) => format!("{figure} for {term}"),
                    other => format!("{} for {term}", one_item(other, limit)),
                })
                .collect();
            format!("{limit} {}", parts.join(", "))
        }
    }
}

fn one_item(item: &value::Item<'_>, limit: &str) -> String {
    match item {
        value::Item::Rung(rung) => format!("is {rung}"),
        value::Item::Limit(Some(figure)) => format!("{limit} {figure}"),
        value::Item::Limit(None) => NO_LIMIT.to_owned(),
        value::Item::Any => ANYTHING.to_owned(),
        value::Item::Only { names, but } if but.is_empty() => format!("only {}", names.join(", ")),
        value::Item::Only { names, but } => format!("only {}, none of {}", names.join(", "), but.join(", ")),
        value::Item::NoneOf(names) => format!("none of {}", names.join(", ")),
        value::Item::AllOf(names) if names.is_empty() => NOTHING.to_owned(),
        value::Item::AllOf(names) => format!("all of {}", names.join(", ")),
    }
}
