//! The steps of a job, in order: what is asked, and what is said already.

use super::Asker;
use super::forms::form;
use super::order::{Order, Rank};
use super::step::{Change, Form, Mark, Part, Said, Step, Topic};
use super::turns::waits_for;
use crate::glossary::model::{FieldId, Group, GroupId};
use crate::job::model::Given;
use crate::law::library::Library;
use crate::verdict::model::Verdict;
use crate::verdict::paths::Path;
use crate::verdict::{Matter, Scratch};
use std::collections::BTreeSet;

/// The steps of a job in the order in which they are asked; what the job says
/// already stands among them. `waived` is what the reader said is not known. The
/// library gives titles and names to pick.
pub(crate) fn agenda<'a>(
    matter: &Matter<'a>,
    verdict: &Verdict<'a>,
    library: Option<&'a Library>,
    asker: Asker<'_>,
    waived: &BTreeSet<Path>,
) -> Vec<Step<'a>> {
    let order = Order::new(asker, matter.lexicon);
    let asks = telling(matter, verdict);
    let mut topics: BTreeSet<Path> = asks.iter().copied().chain(waived.iter().copied()).collect();
    topics.extend(stated(matter));
    // That a list may have others which are not known is said where the list is.
    let listed = topics.clone();
    let told = |path: &Path| matches!(path, Path::Further(group) if listed.contains(&Path::List(*group)));
    topics.retain(|path| !(waived.contains(path) && told(path)));
    let mut steps: Vec<(Rank, Step<'a>)> = Vec::with_capacity(topics.len() + 1);
    let (rank, ..) = order.place(Topic::Place);
    steps.push((rank, place(matter, library)));
    for path in topics {
        let (rank, own, part) = order.place(Topic::Fact(path));
        steps.push((
            rank,
            step(matter, verdict, library, path, (asks.contains(&path), waived.contains(&path)), (own, part)),
        ));
    }
    steps.sort_by_key(|(rank, _)| *rank);
    steps.into_iter().map(|(_, step)| step).collect()
}

/// The step before all others, where it is not known yet where the job is.
impl Step<'_> {
    /// Where is it? All else hangs on that.
    pub(crate) fn first() -> Step<'static> {
        Step {
            topic: Topic::Place,
            path: "place".to_owned(),
            title: "",
            prompt: "",
            form: Form::Place,
            entry: None,
            record: None,
            known: &[],
            own: true,
            part: Part { who: None, when: None },
            changes: Vec::new(),
            governs: Vec::new(),
            said: Said::Nothing,
            mark: Mark::Asked,
        }
    }
}

/// The next step to ask, if any.
pub(crate) fn open<'s, 'a>(steps: &'s [Step<'a>]) -> Option<&'s Step<'a>> {
    steps.iter().find(|step| step.mark == Mark::Asked)
}

/// The unknown facts that could change an answer to a question that is asked of
/// the job, or decide whether a code governs it.
fn telling(matter: &Matter<'_>, verdict: &Verdict<'_>) -> BTreeSet<Path> {
    let asked = verdict.answers.iter().filter(|answer| answer.found.asked);
    let paths = asked.flat_map(|answer| answer.found.asks.iter().copied());
    let reach = verdict.ungoverned.iter().flat_map(|(_, waits)| waits_for(matter, waits));
    paths.chain(reach).filter(|path| !matches!(path, Path::Span(_))).collect()
}

fn place<'a>(matter: &Matter<'a>, library: Option<&'a Library>) -> Step<'a> {
    // A place without instruments shares the law of one around it; the job is where it says.
    let path = library.map(|library| library.places.path(matter.job.place)).unwrap_or_default();
    let named = path.into_iter().filter_map(|id| library?.places.issuer(id)).map(|issuer| &*issuer.title);
    Step { said: Said::Place(named.collect()), mark: Mark::Stated, ..Step::first() }
}

/// Everything that the job says.
fn stated(matter: &Matter<'_>) -> Vec<Path> {
    let lexicon = &matter.lexicon;
    let mut paths = Vec::new();
    for (field, number) in lexicon.fields.iter().zip(0u16..) {
        let id = FieldId(number);
        if lexicon.known(field.scope) && lexicon.list_of(id).is_none() && *matter.fact(id) != Given::Unknown {
            paths.push(Path::Fact(id));
        }
    }
    for (group, number) in lexicon.groups.iter().zip(0u16..) {
        let id = GroupId(number);
        let Some(list) = matter.list(id).filter(|_| group.list && lexicon.known(group.scope)) else { continue };
        if list.entries.is_empty() && list.more {
            continue;
        }
        paths.push(Path::List(id));
        for (entry, values) in list.entries.iter().enumerate() {
            let said = group.fields.iter().zip(values).filter(|(_, given)| **given != Given::Unknown);
            paths.extend(said.map(|(field, _)| Path::Attribute { group: id, entry, field: *field }));
        }
    }
    paths
}

/// What a job says of a path.
pub(super) fn said<'a>(matter: &Matter<'a>, path: Path) -> Said<'a> {
    let value = match path {
        Path::Fact(field) => Some(matter.fact(field)),
        Path::Attribute { group, entry, field } => {
            let column = matter.lexicon.field(field).map_or(0, |field| usize::from(field.column));
            matter.list(group).and_then(|list| list.entries.get(entry)).and_then(|values| values.get(column))
        }
        Path::List(group) | Path::Further(group) => {
            let Some(list) = matter.list(group) else { return Said::Nothing };
            return match (list.entries.len(), list.more) {
                (0, true) => Said::Nothing,
                (known, more) => Said::Entries { known, more },
            };
        }
        Path::Span(_) => None,
    };
    value.filter(|given| **given != Given::Unknown).map_or(Said::Nothing, Said::Value)
}

fn step<'a>(
    matter: &Matter<'a>,
    verdict: &Verdict<'a>,
    library: Option<&'a Library>,
    path: Path,
    (asked, waived): (bool, bool),
    (own, part): (bool, Part<'a>),
) -> Step<'a> {
    let lexicon = &matter.lexicon;
    let field = Topic::Fact(path).field().and_then(|id| lexicon.field(id));
    let group = match path {
        Path::List(group) | Path::Further(group) | Path::Attribute { group, .. } => lexicon.group(group),
        Path::Fact(_) | Path::Span(_) => None,
    };
    let title = match field {
        Some(field) => field.printed(),
        None => group.map_or("", Group::printed),
    };
    Step {
        topic: Topic::Fact(path),
        path: path.write(lexicon),
        title,
        prompt: path.prompt(lexicon),
        form: form(matter, library, path),
        entry: match (path, group) {
            (Path::Attribute { entry, .. }, Some(group)) => Some((&group.title, entry + 1)),
            _ => None,
        },
        record: match path {
            Path::Fact(_) => field.and_then(|field| lexicon.group(field.group?)).map(|record| &*record.title),
            _ => None,
        },
        known: field.map_or(&[], |field| &field.known),
        own,
        part,
        changes: if asked { changes(verdict, path) } else { Vec::new() },
        governs: governs(matter, verdict, path),
        said: said(matter, path),
        mark: match (asked, waived) {
            (true, false) => Mark::Asked,
            (true, true) => Mark::Waived,
            (false, true) => Mark::Idle,
            (false, false) => Mark::Stated,
        },
    }
}

/// The subjects of which a fact decides whether a code governs them.
fn governs<'a>(matter: &Matter<'a>, verdict: &Verdict<'a>, path: Path) -> Vec<&'a str> {
    let waiting = verdict.ungoverned.iter().filter(|(_, waits)| waits_for(matter, waits).contains(&path));
    waiting.map(|(subject, _)| *subject).collect()
}

/// The questions asked of the job that a fact could change.
fn changes<'a>(verdict: &Verdict<'a>, path: Path) -> Vec<Change<'a>> {
    let hang = verdict.answers.iter().filter(|answer| answer.found.asked && answer.found.asks.contains(&path));
    hang.map(|answer| Change {
        question: answer.question,
        between: answer.between.clone().filter(|(low, high)| low != high),
        settled: answer.value.clone(),
        may_refer: answer.found.may_refer,
    })
    .collect()
}

/// Whether what a job says of a fact changes nothing: with the fact unknown, no
/// answer hangs on it.
pub(crate) fn idle(matter: &Matter<'_>, path: Path, scratch: &mut Scratch) -> bool {
    let mut job = matter.job.clone();
    let slot = match path {
        Path::Fact(field) => job.values.get_mut(usize::from(field.0)),
        Path::Attribute { group, entry, field } => {
            let column = matter.lexicon.field(field).map_or(0, |field| usize::from(field.column));
            let list = job.lists.get_mut(usize::from(group.0));
            list.and_then(|list| list.entries.get_mut(entry)).and_then(|values| values.get_mut(column))
        }
        Path::List(_) | Path::Further(_) | Path::Span(_) => return false,
    };
    let Some(slot) = slot else { return false };
    *slot = Given::Unknown;
    let without = Matter { job: &job, ..*matter };
    scratch.weigh(&without);
    !scratch.found.iter().any(|found| found.asked && found.asks.contains(&path))
}
