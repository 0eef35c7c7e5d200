//! A job as pairs of a path and what was typed for it, as a link carries it and a
//! form sends it; and back.
//!
//! What cannot be read is told beside its path, and the rest of the job stands.

use super::forms::form;
use super::read::{Problem, Wrong, is_unknown, read};
use super::so_far::{Refused, Reply, SoFar};
use super::step::{Form, Step, Topic};
use crate::glossary::model::{FieldId, GroupId, PlaceId, Shape};
use crate::job::model::{Given, Job};
use crate::job::{Defaults, code_of, reference};
use crate::rules::Rules;
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::nearest::nearest;
use crate::values::Date;
use crate::verdict::paths::Path;
use crate::verdict::{Lexicon, Matter};

/// The path under which a job's place stands.
pub(crate) const PLACE: &str = "place";
/// The path under which its reference stands.
pub(crate) const REFERENCE: &str = "reference";
/// The most entries of one list that a link opens: a bare number in it is short, and the
/// work on so many entries is not.
pub(crate) const ENTRIES_OF_A_LINK: usize = 200;

/// What the pairs say.
#[derive(Debug)]
pub(crate) struct Heard {
    /// The job with what could be read; nothing where its place could not be.
    pub(crate) so_far: Option<SoFar>,
    /// What could not be read.
    pub(crate) wrong: Vec<Unheard>,
}

/// A pair that could not be read.
#[derive(Debug)]
pub(crate) struct Unheard {
    pub(crate) path: String,
    pub(crate) typed: String,
    pub(crate) why: Why,
}

/// Why a pair could not be read.
#[derive(Debug)]
pub(crate) enum Why {
    /// No fact has this path; the nearest that there are.
    NoFact(Vec<String>),
    Wrong(Wrong),
    Refused(Refused),
    /// The law of the place cannot be made.
    NoLaw(Diagnostic),
    /// The path stands twice where one value is asked.
    Twice,
    /// A list has more entries than a link opens.
    TooMany,
    /// The place is not said.
    NoPlace,
}

/// Reads a job from pairs. Of several values of one path each is a term of a set;
/// `date` is for dates that the pairs leave unsaid.
pub(crate) fn from_pairs<'p>(
    rules: &Rules,
    pairs: impl Iterator<Item = (&'p str, &'p str)>,
    date: Option<Date>,
) -> Heard {
    let pairs = together(pairs);
    let mut heard = Heard { so_far: None, wrong: Vec::new() };
    let desk = rules.desk();
    let said = pairs.iter().find(|(path, _)| *path == PLACE);
    let Some((_, values)) = said else {
        heard.tell(PLACE, "", Why::NoPlace);
        return heard;
    };
    let typed = values.join(", ");
    if values.len() > 1 {
        heard.tell(PLACE, &typed, Why::Twice);
        return heard;
    }
    let place = match read(desk, None, &Step::first(), &typed) {
        Ok(Reply::Place(place)) => place,
        Ok(_) => {
            heard.tell(PLACE, &typed, Why::NoPlace);
            return heard;
        }
        Err(wrong) => {
            heard.tell(PLACE, &typed, Why::Wrong(wrong));
            return heard;
        }
    };
    let so_far = match SoFar::at(desk, place, &Defaults { place: None, date }) {
        Ok(so_far) => so_far,
        Err(refused) => {
            heard.tell(PLACE, &typed, Why::Refused(refused));
            return heard;
        }
    };
    heard.facts(rules, so_far, place, &pairs);
    heard
}

/// The values of each path, in the order in which paths first stand.
fn together<'p>(pairs: impl Iterator<Item = (&'p str, &'p str)>) -> Vec<(&'p str, Vec<&'p str>)> {
    let mut all: Vec<(&str, Vec<&str>)> = Vec::new();
    for (path, typed) in pairs {
        match all.iter_mut().find(|(known, _)| *known == path) {
            Some((_, values)) => values.push(typed),
            None => all.push((path, vec![typed])),
        }
    }
    all
}

impl Heard {
    /// Whether there is a job, and all that was said of it could be read.
    pub(crate) fn is_whole(&self) -> bool {
        self.so_far.is_some() && self.wrong.is_empty()
    }

    fn tell(&mut self, path: &str, typed: &str, why: Why) {
        self.wrong.push(Unheard { path: path.to_owned(), typed: typed.to_owned(), why });
    }

    fn facts(&mut self, rules: &Rules, start: SoFar, place: PlaceId, pairs: &[(&str, Vec<&str>)]) {
        let desk = rules.desk();
        let matter = match rules.matter(&start.job) {
            Ok(matter) => matter,
            Err(told) => {
                self.tell(PLACE, "", Why::NoLaw(told.clone()));
                return;
            }
        };
        // An entry can be spoken of only once its list has it.
        let mut said: Vec<(Path, &str, String)> = Vec::new();
        for (path, values) in pairs.iter().filter(|(path, _)| *path != PLACE) {
            if *path == REFERENCE {
                continue;
            }
            match find(path, &matter.lexicon) {
                Some(_) if values.len() > 1 && !takes_several(path, &matter.lexicon) => {
                    self.tell(path, &values.join(", "), Why::Twice);
                }
                Some(found) => said.push((found, path, values.join(", "))),
                None => {
                    let near = near(path, &matter.lexicon);
                    self.tell(path, &values.join(", "), Why::NoFact(near));
                }
            }
        }
        said.sort_by_key(|(path, ..)| matches!(path, Path::Attribute { .. }));
        let mut so_far = start.clone();
        for (path, written, typed) in said {
            let step = Step {
                topic: Topic::Fact(path),
                form: empty(form(&matter, Some(rules.library()), path)),
                ..Step::first()
            };
            let reply = match read(desk, Some(place), &step, &typed) {
                Ok(Reply::Entries { count, .. }) if count > ENTRIES_OF_A_LINK => {
                    self.tell(written, &typed, Why::TooMany);
                    continue;
                }
                Ok(reply) => reply,
                Err(wrong) => {
                    self.tell(written, &typed, Why::Wrong(wrong));
                    continue;
                }
            };
            match so_far.answered(desk, step.topic, &reply) {
                Ok(next) => so_far = next,
                Err(refused) => self.tell(written, &typed, Why::Refused(refused)),
            }
        }
        so_far.job.reference = self.reference(pairs);
        self.so_far = Some(so_far);
    }

    fn reference(&mut self, pairs: &[(&str, Vec<&str>)]) -> Option<Box<str>> {
        let (_, values) = pairs.iter().find(|(path, _)| *path == REFERENCE)?;
        let [text] = values.as_slice() else {
            self.tell(REFERENCE, &values.join(", "), Why::Twice);
            return None;
        };
        match reference(text) {
            Ok(read) => Some(read).filter(|read| !read.is_empty()),
            Err(fault) => {
                let wrong = Wrong { typed: crate::glossary::cut(text), problem: Problem::Unread(fault) };
                self.tell(REFERENCE, text, Why::Wrong(wrong));
                None
            }
        }
    }
}

/// A list is told in whole numbers, whatever was named of it before.
fn empty(form: Form<'_>) -> Form<'_> {
    match form {
        Form::Entries { .. } => Form::Entries { known: 0, further: false },
        other => other,
    }
}

fn takes_several(path: &str, lexicon: &Lexicon<'_>) -> bool {
    let field = match find(path, lexicon) {
        Some(Path::Fact(field) | Path::Attribute { field, .. }) => lexicon.field(field),
        _ => None,
    };
    field.is_some_and(|field| matches!(field.shape, Shape::Several(_)))
}

/// What a path names: `jumper.size`, `run`, `run[0].material`.
pub(crate) fn find(text: &str, lexicon: &Lexicon<'_>) -> Option<Path> {
    let group = |name: &str| {
        let groups = lexicon.groups.iter().zip(0u16..);
        let mut found = groups.filter(|(group, _)| group.list && *group.name == *name && lexicon.known(group.scope));
        found.next().map(|(_, number)| GroupId(number))
    };
    if let Some((list, rest)) = text.split_once('[') {
        let (number, name) = rest.split_once("].")?;
        let group = group(list)?;
        let mut fields = lexicon.group(group)?.fields.iter().copied();
        let field = fields
            .find(|id| lexicon.field(*id).is_some_and(|field| *field.name == *name && lexicon.known(field.scope)))?;
        // A number as people would not write it names nothing.
        let entry = number.parse().ok().filter(|entry: &usize| entry.to_string() == number)?;
        return Some(Path::Attribute { group, entry, field });
    }
    if let Some(group) = group(text) {
        return Some(Path::List(group));
    }
    let fields = lexicon.fields.iter().zip(0u16..).map(|(field, number)| (field, FieldId(number)));
    let mut fields = fields
        .filter(|(field, id)| *field.path == *text && lexicon.known(field.scope) && lexicon.list_of(*id).is_none());
    fields.next().map(|(_, id)| Path::Fact(id))
}

/// The paths that a link takes and that were perhaps meant: of a record its attributes, of
/// an attribute of a list the one of an entry.
fn near(path: &str, lexicon: &Lexicon<'_>) -> Vec<String> {
    let apart = path.split_once('[').and_then(|(list, rest)| Some((list, rest.split_once(']')?)));
    let (plain, entry) = match apart {
        Some((list, (number, rest))) => (format!("{list}{rest}"), number.parse().unwrap_or(0)),
        None => (path.to_owned(), 0),
    };
    let fields = lexicon.fields.iter().filter(|field| lexicon.known(field.scope)).map(|field| &*field.path);
    let groups = lexicon.groups.iter().filter(|group| lexicon.known(group.scope)).map(|group| &*group.name);
    let named = nearest(&plain, fields.chain(groups));
    let mut near: Vec<String> = named.into_iter().flat_map(|name| taken(name, entry, lexicon)).collect();
    near.dedup();
    near.truncate(NEAR);
    near
}

/// How many paths are offered at most.
const NEAR: usize = 3;

/// The paths by which a link says what has this name in the glossary.
fn taken(name: &str, entry: usize, lexicon: &Lexicon<'_>) -> Vec<String> {
    let paths = |ids: &mut dyn Iterator<Item = FieldId>| -> Vec<String> {
        ids.filter(|id| lexicon.field(*id).is_some_and(|field| lexicon.known(field.scope)))
            .map(|field| match lexicon.list_of(field) {
                Some(group) => Path::Attribute { group, entry, field }.write(lexicon),
                None => Path::Fact(field).write(lexicon),
            })
            .collect()
    };
    let group = lexicon.groups.iter().find(|group| *group.name == *name && lexicon.known(group.scope));
    match group {
        Some(group) if group.list => vec![name.to_owned()],
        Some(group) => paths(&mut group.fields.iter().copied()),
        None => {
            let named = lexicon.fields.iter().zip(0u16..).filter(|(field, _)| *field.path == *name);
            paths(&mut named.map(|(_, number)| FieldId(number)))
        }
    }
}

/// A job as pairs that read the same again, its place by its path first.
pub(crate) fn to_pairs(job: &Job, matter: &Matter<'_>, place: &str) -> Vec<(String, String)> {
    let lexicon = &matter.lexicon;
    let mut pairs = vec![(PLACE.to_owned(), place.to_owned())];
    if let Some(reference) = &job.reference {
        pairs.push((REFERENCE.to_owned(), reference.to_string()));
    }
    for ((given, number), field) in job.values.iter().zip(0u16..).zip(lexicon.fields) {
        if lexicon.list_of(FieldId(number)).is_none() {
            pairs.extend(typed(given, FieldId(number), lexicon).map(|value| (field.path.to_string(), value)));
        }
    }
    for ((list, number), group) in job.lists.iter().zip(0u16..).zip(lexicon.groups) {
        if !group.list || (list.entries.is_empty() && list.more) {
            continue;
        }
        pairs.push((group.name.to_string(), counted(list.entries.len(), list.more)));
        for (entry, values) in list.entries.iter().enumerate() {
            for (given, id) in values.iter().zip(&group.fields) {
                let path = Path::Attribute { group: GroupId(number), entry, field: *id };
                pairs.extend(typed(given, *id, lexicon).map(|value| (path.write(lexicon), value)));
            }
        }
    }
    pairs
}

/// How many entries a list has, as a person would type it: `2+` where there may be more.
pub(crate) fn counted(known: usize, more: bool) -> String {
    match (known, more) {
        (0, false) => "none".to_owned(),
        (known, false) => known.to_string(),
        (known, true) => format!("{known}+"),
    }
}

/// A value as a person would type it.
pub(crate) fn typed(given: &Given, field: FieldId, lexicon: &Lexicon<'_>) -> Option<String> {
    let term = |number: u16| {
        let choice = lexicon.choice(lexicon.choice_of(field)?)?;
        choice.terms.get(usize::from(number)).map(|term| term.name.to_string())
    };
    Some(match given {
        Given::Unknown => return None,
        Given::NoDate => "none".to_owned(),
        Given::Date(date) => date.to_string(),
        Given::Term(number) if lexicon.field(field)?.shape == Shape::YesNo => {
            if *number == 1 { "yes" } else { "no" }.to_owned()
        }
        Given::Term(number) => term(*number)?,
        Given::Set(terms) if terms.is_empty() => "none".to_owned(),
        Given::Set(terms) => terms.iter().filter_map(term).collect::<Vec<_>>().join(", "),
        Given::Measure(measure) => measure.shown.to_string(),
        // A name that is a word for what is not known stands in quotes, or it would be none.
        Given::Name(name) if lexicon.field(field)?.shape == Shape::Name && is_unknown(name) => format!("\"{name}\""),
        Given::Name(name) => name.to_string(),
    })
}

impl Unheard {
    /// Under which code it is found wrong.
    pub(crate) fn code(&self) -> Code {
        match &self.why {
            Why::NoFact(_) => codes::JOB_NAME,
            Why::NoLaw(told) => told.code,
            Why::Twice => codes::JOB_TWICE,
            Why::TooMany => codes::LIMIT,
            Why::NoPlace => codes::JOB,
            Why::Refused(Refused::Misplaced) => codes::JOB_VALUE,
            Why::Refused(Refused::TooMany(fault)) => fault.code,
            Why::Refused(Refused::Dates(_)) => codes::JOB_DATE,
            Why::Wrong(wrong) => match &wrong.problem {
                Problem::NoPlace { .. } | Problem::SeveralPlaces { .. } | Problem::SeveralFit { .. } => codes::JOB_NAME,
                Problem::PlaceNeeded => codes::JOB,
                Problem::Empty | Problem::NoNumber { .. } | Problem::NoCount => codes::JOB_VALUE,
                Problem::Unread(fault) => code_of(fault.code),
            },
        }
    }

    /// The names that were near, and the paths that fit.
    pub(crate) fn near(&self) -> &[String] {
        match &self.why {
            Why::NoFact(near) => near,
            Why::Wrong(wrong) => wrong.problem.near(),
            _ => &[],
        }
    }
}
