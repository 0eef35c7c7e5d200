//! The lawful ways side by side, for a bid: what each choice of piping asks for, what
//! that costs in kind, and what is prohibited.

use crate::cure::{self, Way, Ways};
use crate::glossary::model::{Field, FieldId, GroupId, Met};
use crate::job::model::{Given, Job};
use crate::report::look::{Look, Page, Tone};
use crate::report::screen::order;
use crate::report::sheet::answers;
use crate::report::sheet::jumper::Jumper;
use crate::report::speech::Reader;
use crate::report::speech::facts::field_title;
use crate::verdict::found::State;
use crate::verdict::model::{Answered, Inquiry, Role, Verdict};
use crate::verdict::paths::Path;
use crate::verdict::{Lexicon, Matter, Scratch, Show, full};
use serde::Serialize;
use serde_json::Value;

/// The name of the form.
pub(crate) const SCHEMA: &str = "groundrule/ways/1";

/// The ways of one job side by side.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct WaysTold {
    pub(crate) schema: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) reference: Option<String>,
    /// Those that are lawful first.
    pub(crate) ways: Vec<WayTold>,
    /// Whether there are too many combinations to be laid side by side.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub(crate) too_many: bool,
}

impl WaysTold {
    /// The ways as a JSON value; every name in it is a text, so that writing it does not
    /// fail.
    pub(crate) fn to_value(&self) -> Value {
        serde_json::to_value(self).unwrap_or_else(|problem| problem.to_string().into())
    }
}

/// One way.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct WayTold {
    /// What is chosen, in one line, by the paths of a job; empty where the job leaves
    /// nothing open.
    pub(crate) choice: String,
    /// The same for people, by the titles of the glossary.
    #[serde(skip)]
    pub(crate) heading: String,
    pub(crate) choices: Vec<Choice>,
    /// Whether it is settled that nothing prohibits it.
    pub(crate) lawful: bool,
    /// By which texts it is prohibited.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) prohibited: Vec<Required>,
    /// What is required, in the order of the work.
    pub(crate) requires: Vec<Required>,
    /// What hangs on facts that are still to be known or chosen, with its cases.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) not_settled: Vec<Required>,
    /// What is left to the authority.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) refers: Vec<String>,
    /// The facts, not the contractor's to choose, that are still to be known.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) to_know: Vec<String>,
    /// The same for people.
    #[serde(skip)]
    pub(crate) to_know_words: Vec<String>,
    /// The facts, the contractor's to choose, on which it hangs what is not settled.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) to_choose: Vec<String>,
    /// The same for people.
    #[serde(skip)]
    pub(crate) to_choose_words: Vec<String>,
}

/// The values of one attribute in a way.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Choice {
    pub(crate) fact: String,
    /// Nothing where it does not matter which.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) values: Option<Vec<String>>,
}

/// One thing that is required or prohibited.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Required {
    pub(crate) question: String,
    pub(crate) title: String,
    pub(crate) value: String,
    /// What it costs, in kind.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) costs: Option<String>,
    /// The texts on which it stands.
    pub(crate) by: Vec<String>,
}

/// The ways of a job. A job that says nothing of its runs is taken as having one, part
/// of the gas piping, that stands for all.
pub(crate) fn ways(matter: &Matter<'_>, scratch: &mut Scratch, reader: Reader) -> WaysTold {
    let filled = filled(matter.job, &matter.lexicon);
    let matter = Matter { job: &filled, ..*matter };
    let Ways { ways, cut } = cure::ways(&matter, scratch);
    let mut told: Vec<WayTold> = ways
        .iter()
        .map(|way| {
            let chosen = Matter { job: &way.job, ..matter };
            let verdict = full(&chosen, scratch);
            one(way, &verdict, &chosen, reader)
        })
        .collect();
    told.sort_by_key(|way| (!way.lawful, !way.prohibited.is_empty()));
    WaysTold {
        schema: SCHEMA,
        reference: matter.job.reference.as_deref().map(str::to_owned),
        ways: told,
        too_many: cut,
    }
}

/// The job with one run of the piping where it says nothing of any.
fn filled(job: &Job, lexicon: &Lexicon<'_>) -> Job {
    let mut job = job.clone();
    let run = lexicon.groups.iter().position(|group| &*group.name == "run" && group.list);
    let Some((number, group)) = run.and_then(|number| Some((number, lexicon.groups.get(number)?))) else { return job };
    let mut row = vec![Given::Unknown; group.fields.len()];
    for field in &group.fields {
        let Some(known) = lexicon.field(*field).filter(|known| &*known.name == "role") else { continue };
        let choice = lexicon.choice_of(*field).and_then(|choice| lexicon.choice(choice));
        let term = choice.and_then(|choice| choice.terms.iter().position(|term| &*term.name == "distribution"));
        let term = term.and_then(|term| u16::try_from(term).ok());
        if let (Some(slot), Some(term)) = (row.get_mut(usize::from(known.column)), term) {
            *slot = Given::Term(term);
        }
    }
    let list = u16::try_from(number).ok().map(GroupId).and_then(|group| job.lists.get_mut(usize::from(group.0)));
    if let Some(list) = list.filter(|list| list.entries.is_empty() && list.more) {
        list.entries.push(row);
        list.more = false;
    }
    job
}

fn one(way: &Way, verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> WayTold {
    let lexicon = &matter.lexicon;
    let choices: Vec<Choice> = way
        .choices
        .iter()
        .filter_map(|(field, values)| {
            let words =
                |values: &Vec<Given>| values.iter().filter_map(|value| reader.given(value, *field, lexicon)).collect();
            Some(Choice { fact: lexicon.field(*field)?.path.to_string(), values: values.as_ref().map(words) })
        })
        .collect();
    let paths: Vec<&str> = choices.iter().map(|choice| &*choice.fact).collect();
    let titles = titles(way, lexicon, reader);
    let titles: Vec<&str> = titles.iter().map(String::as_str).collect();
    let (choice, heading) = (chosen(&choices, &paths, reader), chosen(&choices, &titles, reader));
    let mut sorted: Vec<&Answered<'_>> = verdict.answers.iter().collect();
    sorted.sort_by_key(|answer| order::rank(&answer.question.name));
    // A bid counts also what a jumper takes that is still to be put in.
    let to_come = Jumper::of(verdict, matter).to_come();
    let (mut prohibited, mut requires, mut not_settled, mut refers) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    let mut lawful = true;
    for answer in sorted.into_iter().filter(|answer| answer.found.asked || to_come) {
        let Some(ask) = matter.plan.asks.get(answer.number) else { continue };
        if answer.found.state == State::Referred || answer.found.no_equivalent || answer.found.state == State::Conflict
        {
            refers.push(answer.question.printed().to_owned());
        }
        let open = answer.found.state == State::Open;
        let value = match answer.value.as_ref().filter(|_| answer.found.state != State::Silent) {
            Some(value) => reader.value(value),
            None if open => answers::state(answer, matter, reader),
            None => continue,
        };
        if !open && answer.found.value.as_ref().is_some_and(|parts| ask.form.is_loosest(parts)) {
            continue;
        }
        let mut by: Vec<String> = Vec::new();
        for reason in answer.because.iter().filter(|reason| reason.role == Role::Governs) {
            let cited = reader.cite_short(reason.source, &verdict.codes);
            if !by.contains(&cited) {
                by.push(cited);
            }
        }
        let required = Required {
            question: answer.question.name.to_string(),
            title: answer.question.printed().to_owned(),
            value,
            costs: answer.question.costs.as_deref().map(str::to_owned),
            by,
        };
        let list = match ask.show {
            _ if open => &mut not_settled,
            Show::Never => &mut prohibited,
            _ => &mut requires,
        };
        list.push(required);
        lawful &= ask.show != Show::Never;
    }
    let ours = |path: &Path| match path {
        Path::Fact(field) | Path::Attribute { field, .. } => lexicon.field(*field).is_some_and(|known| known.ours),
        _ => false,
    };
    let to_know: Vec<_> = verdict.ask.iter().filter(|ask| !ours(&ask.path)).collect();
    let open =
        || verdict.answers.iter().filter(|it| not_settled.iter().any(|told| *told.question == *it.question.name));
    let hang = |ask: &&Inquiry<'_>| open().any(|answer| decides(answer, &ask.path));
    let to_choose: Vec<_> = verdict.ask.iter().filter(|ask| ours(&ask.path)).filter(hang).collect();
    let words = |asks: &[&Inquiry<'_>]| reader.facts(asks.iter().map(|ask| &ask.path), matter);
    let paths = |asks: &[&Inquiry<'_>]| asks.iter().map(|ask| ask.fact.clone()).collect();
    WayTold {
        choice,
        heading,
        choices,
        lawful,
        prohibited,
        to_know_words: words(&to_know),
        to_know: paths(&to_know),
        to_choose_words: words(&to_choose),
        to_choose: paths(&to_choose),
        requires,
        not_settled,
        refers,
    }
}

/// Whether an answer itself hangs on a fact, and not only whether it is done.
fn decides(answer: &Answered<'_>, path: &Path) -> bool {
    let shows = |field: &FieldId| {
        let met = match &answer.question.met {
            Some(Met::Where(condition)) => condition.fields().contains(field),
            _ => false,
        };
        answer.question.measures == Some(*field) || met
    };
    answer.found.asks.contains(path) && !matches!(path, Path::Fact(field) if shows(field))
}

/// What is chosen, each attribute under its name.
fn chosen(choices: &[Choice], names: &[&str], reader: Reader) -> String {
    let each = choices.iter().zip(names).map(|(choice, name)| {
        let values = choice.values.as_ref().map(|values| values.join(&format!(" {} ", reader.say("cures-or"))));
        let values = values.unwrap_or_else(|| reader.say("cures-whatever"));
        reader.say_with("cures-change", &[("fact", name), ("to", &values)])
    });
    each.collect::<Vec<_>>().join("; ")
}

/// The attributes of a way by their titles, with their list where there are several.
fn titles(way: &Way, lexicon: &Lexicon<'_>, reader: Reader) -> Vec<String> {
    let fields: Vec<&Field> = way.choices.iter().filter_map(|(field, _)| lexicon.field(*field)).collect();
    let one_list = fields.iter().zip(fields.iter().skip(1)).all(|(one, next)| one.group == next.group);
    way.choices
        .iter()
        .filter_map(|(field, _)| {
            let known = lexicon.field(*field)?;
            Some(if one_list { field_title(known).to_owned() } else { reader.field(*field, lexicon) })
        })
        .collect()
}

/// The ways of a job as a page of text; `standing` is what is said at the end of every page.
pub(crate) fn page(told: &WaysTold, standing: &[String], look: Look, reader: Reader) -> String {
    let mut page = Page::new(look);
    if told.too_many {
        page.hung(0, 2, &reader.say("cures-too-many-ways"), Tone::Plain);
    }
    for way in &told.ways {
        let (head, tone) = head(way, reader);
        page.hung(0, 2, &head, tone);
        for line in way.prohibited.iter().chain(&way.requires) {
            page.hung(2, 4, &written(line, way.prohibited.is_empty(), reader), Tone::Plain);
        }
        if !way.not_settled.is_empty() {
            page.hung(2, 4, &reader.say("cures-way-not-settled"), Tone::Doubt);
        }
        for line in &way.not_settled {
            page.hung(4, 6, &written(line, way.prohibited.is_empty(), reader), Tone::Plain);
        }
        let lists = [
            (Further::Refers, &way.refers),
            (Further::Know, &way.to_know_words),
            (Further::Choose, &way.to_choose_words),
        ];
        for (further, list) in lists.into_iter().filter(|(_, list)| !list.is_empty()) {
            let list = list.join(", ");
            let said = match further {
                Further::Refers => reader.say_with("cures-way-refers", &[("titles", &list)]),
                Further::Know => reader.say_with("cures-way-to-know", &[("facts", &list)]),
                Further::Choose => reader.say_with("cures-way-to-choose", &[("facts", &list)]),
            };
            page.hung(2, 4, &said, Tone::Plain);
        }
        page.blank();
    }
    page.hung(0, 2, &reader.say("cures-costs-in-kind"), Tone::Quiet);
    page.blank();
    for said in standing {
        page.hung(0, 2, said, Tone::Quiet);
    }
    page.finish()
}

/// What follows what a way requires.
enum Further {
    Refers,
    Know,
    Choose,
}

/// What stands over a way.
fn head(way: &WayTold, reader: Reader) -> (String, Tone) {
    let choice = [("choice", &*way.heading)];
    match (way.lawful, way.prohibited.is_empty()) {
        (true, _) if way.heading.is_empty() => (reader.say("cures-way-as-said"), Tone::Good),
        (true, _) => (reader.say_with("cures-way", &choice), Tone::Good),
        (false, true) => (reader.say_with("cures-way-perhaps", &choice), Tone::Doubt),
        (false, false) => (reader.say_with("cures-way-prohibited", &choice), Tone::Bad),
    }
}

/// One answer of a way in a line, with what it costs where the way is not prohibited.
fn written(line: &Required, costs: bool, reader: Reader) -> String {
    let mut text = format!("{}: {}", line.title, line.value);
    if !line.by.is_empty() {
        text.push_str(&format!(" [{}]", line.by.join("; ")));
    }
    if let Some(cost) = line.costs.as_ref().filter(|_| costs) {
        text.push_str(&format!("; {}", reader.say_with("cures-costs", &[("cost", cost)])));
    }
    text
}
