//! What the rules know of the place for which a file is begun: how it is named in
//! a file, which edition stands there, which of its sections can be amended, and
//! which words there are to do it with.

use super::super::in_force::{Inquest, collect, inquire};
use super::{For, names};
use crate::glossary::model::{Order, QuestionId, Shape};
use crate::law::instrument::InstrumentId;
use crate::law::model::{CondId, Effect};
use crate::law::places::Issuer;
use crate::law::text::{DemandedKind, Edition};
use crate::rules::Rules;
use crate::values::{Date, Period};
use crate::verdict::{Look, Scratch, held};
use std::collections::BTreeSet;

/// The subject whose edition is amended, where the rules know it.
const SUBJECT: &str = "fuel-gas";
/// The question with which the examples of the file are made, where the rules know it.
const QUESTION: &str = "direct-bond";
/// The fact and the term by which a case is told apart, where the rules know them.
const CASE: (&str, &str) = ("occupancy", "commercial");
/// Between adoption and the first day.
const NOTICE: Period = Period::Days(30);

/// What is known of the place.
pub(super) struct Ground {
    /// The name and printed name of a place still to be declared.
    pub(super) place: Option<(String, String)>,
    /// The place's name, or its path where its name alone fits others too.
    pub(super) name: String,
    /// The place around a new one, in the same way.
    pub(super) within: String,
    pub(super) title: String,
    pub(super) id: String,
    /// The number in the title of the instrument, such as `26-1`.
    pub(super) number: String,
    pub(super) next_id: String,
    pub(super) adopted: Date,
    pub(super) from: Date,
    /// The edition to amend.
    pub(super) edition: Option<Standing>,
    /// What else stands on the subject, such as `IRC 2021`.
    pub(super) beside: Vec<String>,
    /// An edition that could be adopted where none stands.
    pub(super) adoptable: Option<String>,
    /// A condition that some jobs fulfil.
    pub(super) case: String,
    /// A demand that any section may make, where there is a question.
    pub(super) demand: Option<String>,
    /// The question of that demand.
    pub(super) question: Option<String>,
    /// What a job says whose applicant takes the later text, where there is a fact for it.
    pub(super) elects_later: Option<String>,
    /// The facts by whose date the law of the place stands.
    pub(super) dates: Vec<String>,
    /// Whether other places answer questions that nothing answers here.
    pub(super) leaves_open: bool,
}

/// An edition in force, and what of it can be amended.
pub(super) struct Standing {
    pub(super) name: String,
    /// A number that no section has.
    pub(super) free: String,
    /// Up to three sections that stand, each with a title and a demand of its own.
    pub(super) sections: Vec<(String, String, Option<String>)>,
}

impl Ground {
    pub(super) fn of(rules: &Rules, of: &For, adopted: Date) -> Ground {
        let library = rules.library();
        let from = adopted.after(NOTICE);
        let issuer = library.places.issuer(of.ground());
        let (name, title) = match of {
            For::New { name, title, .. } => (name.clone(), title.clone()),
            For::Known(_) => issuer.map(|known| (short(rules, known), known.title.to_string())).unwrap_or_default(),
        };
        let plain = name.rsplit('/').next().unwrap_or_default();
        let [(number, id), (_, next_id)] = ids(rules, of, &names::initials(plain), adopted);
        let shown_name = match of {
            For::New { name, .. } => declared_path(rules, of, name),
            For::Known(_) => name.clone(),
        };
        let question = question(rules, of);
        let mut ground = Ground {
            place: matches!(of, For::New { .. }).then(|| (name.clone(), title.clone())),
            name: shown_name,
            within: issuer.map(|around| short(rules, around)).unwrap_or_default(),
            title,
            id,
            number,
            next_id,
            adopted,
            from,
            edition: None,
            beside: Vec::new(),
            adoptable: None,
            case: case(rules, from),
            demand: question.and_then(|question| demand(rules, question)),
            question: question.map(|question| library.glossary[question].name.to_string()),
            elects_later: library.glossary.roles.text.map(|(field, _, _)| {
                let path = &library.glossary[field].path;
                format!("{path} later")
            }),
            dates: dates(rules, of),
            leaves_open: false,
        };
        // On a day of which no job can be, nothing is known to stand.
        let _none = inquire(rules, of.ground(), from, |inquest| ground.stands(rules, inquest));
        if ground.edition.is_none() {
            ground.adoptable = adoptable(rules, from);
        }
        ground
    }

    /// Finds the edition in force on the first day, and what of it can be amended.
    fn stands(&mut self, rules: &Rules, inquest: &Inquest<'_>) {
        let codes = collect(inquest).codes;
        let mut lines: Vec<_> = codes.iter().filter(|line| line.subject == SUBJECT).collect();
        if lines.is_empty() {
            lines = codes.iter().collect();
        }
        // What stands for every job goes before what stands for some.
        lines.sort_by_key(|line| !line.scope.is_empty());
        let mut names: Vec<String> = lines.iter().map(|line| format!("{} {}", line.code, line.edition)).collect();
        let mut seen = BTreeSet::new();
        names.retain(|name| seen.insert(name.clone()));
        let Some(line) = lines.first() else { return };
        let library = rules.library();
        let found = library.codes.find(&line.code, line.edition).and_then(|id| library.codes.edition(id));
        let Some(edition) = found else { return };
        self.beside = names.split_off(1);
        self.edition = names.pop().map(|name| {
            let sections = sections(rules, inquest, &line.code, edition, self.question.as_deref());
            let base = sections.first().map(|(number, ..)| &**number);
            Standing { name, free: free(rules, base), sections }
        });
    }
}

/// The name of a place, or its path where the name fits others too.
fn short(rules: &Rules, issuer: &Issuer) -> String {
    let places = &rules.library().places;
    let same = places.all().filter(|(_, other)| other.name == issuer.name).count();
    match places.all().find(|(_, other)| std::ptr::eq(*other, issuer)) {
        Some((id, _)) if same > 1 => places.path_text(id),
        _ => issuer.name.to_string(),
    }
}

/// How a job names a place that is still to be declared.
fn declared_path(rules: &Rules, of: &For, name: &str) -> String {
    let places = &rules.library().places;
    let lower = |text: &str| text.to_lowercase() == name;
    let named =
        |issuer: &Issuer| *issuer.name == *name || lower(&issuer.title) || issuer.also.iter().any(|also| lower(also));
    if places.all().any(|(_, issuer)| named(issuer)) {
        format!("{}/{name}", places.path_text(of.ground()))
    } else {
        name.to_owned()
    }
}

/// Two ids that no instrument of the place has, each with its number.
fn ids(rules: &Rules, of: &For, initials: &str, adopted: Date) -> [(String, String); 2] {
    let library = rules.library();
    let known: &[InstrumentId] = match of {
        For::New { .. } => &[],
        For::Known(place) => library.of_issuer(*place),
    };
    let taken =
        |id: &str| known.iter().filter_map(|own| library.instruments.get(own.0 as usize)).any(|own| *own.id == *id);
    let day = adopted.to_string();
    let year = day.get(2..4).unwrap_or_default();
    let mut free = (1u32..).map(|count| format!("{year}-{count}")).map(|number| {
        let id = format!("{initials}-{number}");
        (number, id)
    });
    let mut next = || free.find(|(_, id)| !taken(id)).unwrap_or_default();
    [next(), next()]
}

/// The question for the demands of the file: the usual one, else the first ladder that
/// is known everywhere.
fn question(rules: &Rules, of: &For) -> Option<QuestionId> {
    let library = rules.library();
    let path = library.places.path(of.ground());
    let known = || {
        let all = library.glossary.questions.iter().zip(0u16..);
        all.filter(|(question, _)| question.scope.is_none_or(|scope| path.contains(&scope)))
    };
    let ladder = |order: &Order| matches!(order, Order::Ladder(rungs) if rungs.len() > 1);
    let found = known()
        .find(|(question, _)| *question.name == *QUESTION)
        .or_else(|| known().find(|(question, _)| ladder(&question.order)))
        .or_else(|| known().next());
    found.map(|(_, number)| QuestionId(number))
}

/// A demand on a question: its strictest rung.
fn demand(rules: &Rules, question: QuestionId) -> Option<String> {
    let question = &rules.library().glossary[question];
    match &question.order {
        Order::Ladder(rungs) => rungs.last().map(|rung| format!("{} is {rung}", question.name)),
        _ => None,
    }
}

/// A condition that some jobs fulfil: the usual case, else a date.
fn case(rules: &Rules, from: Date) -> String {
    let glossary = &rules.library().glossary;
    let (fact, term) = CASE;
    let known = glossary.fields.iter().find(|field| *field.path == *fact && field.scope.is_none());
    let has = known.is_some_and(|field| match field.shape {
        Shape::Choice(choice) => glossary[choice].terms.iter().any(|known| *known.name == *term),
        _ => false,
    });
    if has {
        return format!("{fact} is {term}");
    }
    let dates = glossary.roles.dates.map(|field| format!("{} from {from}", glossary[field].path));
    dates.unwrap_or_else(|| format!("{fact} is {term}"))
}

/// The facts by whose date law is in force at the place.
fn dates(rules: &Rules, of: &For) -> Vec<String> {
    let library = rules.library();
    let law = library.law(of.ground()).ok();
    let dating = law.map(|law| law.dating.clone()).unwrap_or_default();
    let mut names: Vec<String> = Vec::new();
    for field in library.glossary.roles.dates.into_iter().chain(dating) {
        let path = library.glossary[field].path.to_string();
        if !names.contains(&path) {
            names.push(path);
        }
    }
    names
}

/// The newest edition on the subject of which there is a text.
fn adoptable(rules: &Rules, from: Date) -> Option<String> {
    let library = rules.library();
    let on_subject = |edition: &&Edition| {
        library
            .codes
            .code_of(edition)
            .is_some_and(|code| code.subjects.iter().any(|subject| *library.glossary[*subject].name == *SUBJECT))
    };
    let there = |edition: &&Edition| !edition.text_not_here && edition.published.is_none_or(|day| day <= from);
    let key = |edition: &&Edition| {
        let code = library.codes.code_of(edition).map(|code| (code.subjects.len(), &code.name));
        (edition.year, std::cmp::Reverse(code))
    };
    let newest = library.codes.editions.iter().filter(on_subject).filter(there).max_by_key(key)?;
    let code = library.codes.code_of(newest)?;
    Some(format!("{} {}", code.name, newest.year))
}

/// Up to three sections of an edition that stand there on the day, those on the
/// question first.
fn sections(
    rules: &Rules,
    inquest: &Inquest<'_>,
    code: &str,
    edition: &Edition,
    question: Option<&str>,
) -> Vec<(String, String, Option<String>)> {
    let law = inquest.matter.law;
    let mut scratch = Scratch::default();
    scratch.weigh(inquest.matter);
    let mut standing: BTreeSet<&str> = BTreeSet::new();
    for provision in &law.provisions {
        let Some(source) = law.source(provision.source) else { continue };
        let of_it = source.code.as_deref() == Some(code) && source.edition == Some(edition.year);
        let (Some(number), true) = (&source.section, of_it && provision.guard != CondId::FALSE) else { continue };
        let demands = matches!(provision.effect, Effect::Demand(_));
        if demands && held(inquest.matter, &mut scratch, provision.guard).is_some() {
            standing.insert(number);
        }
    }
    let glossary = &rules.library().glossary;
    let mut found: Vec<(bool, String, String, Option<String>)> = Vec::new();
    for printed in &edition.sections {
        let section = &printed.section;
        if section.definition || section.table.is_some() || !standing.contains(&*printed.number) {
            continue;
        }
        let on = |asked: QuestionId| question.is_some_and(|name| *glossary[asked].name == *name);
        let asks = section.questions().into_iter().any(on);
        let words = section.demands.iter().find(|demand| matches!(demand.kind, DemandedKind::Value(_)));
        let title = if section.title.is_empty() { "As the ordinance says" } else { &*section.title };
        found.push((!asks, printed.number.to_string(), title.to_owned(), words.map(|demand| demand.words.to_string())));
    }
    found.sort_by_key(|(other, ..)| *other);
    found.truncate(3);
    found.into_iter().map(|(_, number, title, words)| (number, title, words)).collect()
}

/// A number for an added section that nothing has, beside the sections of the base.
fn free(rules: &Rules, base: Option<&str>) -> String {
    let library = rules.library();
    let base = base.unwrap_or("1");
    let stem = base.split('(').next().unwrap_or(base);
    let stem = stem.rsplit_once('.').map_or(stem, |(stem, _)| stem);
    let taken = |number: &str| {
        library.codes.editions.iter().any(|edition| edition.section(number).is_some())
            || library.instruments.iter().flat_map(|own| &own.amends).any(|amend| {
                amend.patches.iter().any(|patch| *patch.number == *number)
                    || amend.renumbers.iter().any(|(from, to)| **from == *number || **to == *number)
            })
    };
    (90u32..).map(|count| format!("{stem}.{count}")).find(|number| !taken(number)).unwrap_or_default()
}
