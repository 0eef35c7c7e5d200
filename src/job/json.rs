//! Jobs from JSON.

use super::draft::{Draft, reference, twice};
use super::keys::Key;
use super::model::{Entries, Given, Job};
use super::node::Node;
use super::problem::JobProblem;
use super::{Defaults, Desk, SCHEMA};
use crate::glossary::model::{FieldId, GroupId, PlaceId, Scale, Shape};
use crate::glossary::{self, Fault, cut};
use crate::syntax::codes;
use crate::syntax::limits::{ENTRIES, JOBS, NAME, NUMBER, SHOWN, TEXT};
use crate::syntax::nearest::nearest;
use crate::values::Terms;
use std::collections::BTreeSet;

/// Reads one job, or a list of jobs.
///
/// # Errors
/// Where the text is not JSON or a job cannot be used; every problem up to a
/// hundred, in the order of the text.
pub(crate) fn read_json(text: &str, desk: Desk<'_>, defaults: &Defaults) -> Result<Vec<Job>, Vec<JobProblem>> {
    let node = Node::read(text).map_err(|problem| vec![problem])?;
    let mut reader = Reader { desk, defaults, problems: Vec::new() };
    let jobs = match &node {
        Node::List(all) if all.is_empty() => {
            let fault = Fault::new(codes::JOB, "the list holds no job").help("write at least one job");
            reader.problem("", fault);
            Vec::new()
        }
        Node::List(all) if all.len() > JOBS.most => {
            reader.problem("", glossary::past(&JOBS));
            Vec::new()
        }
        Node::List(all) => all
            .iter()
            .enumerate()
            .map_while(|(at, node)| reader.goes_on().then(|| reader.job(node, &format!("[{at}]"))))
            .flatten()
            .collect(),
        one => reader.job(one, "").into_iter().collect(),
    };
    if reader.problems.is_empty() { Ok(jobs) } else { Err(reader.problems) }
}

struct Reader<'a> {
    desk: Desk<'a>,
    defaults: &'a Defaults,
    problems: Vec<JobProblem>,
}

type Members = [(String, Node)];

fn too_long(key: &str) -> bool {
    key.chars().nth(NAME.most).is_some()
}

/// The path of a member of what stands at `path`.
fn member(path: &str, key: &str) -> String {
    let key = cut(key);
    if path.is_empty() { key } else { format!("{path}.{key}") }
}

impl<'a> Reader<'a> {
    fn problem(&mut self, path: &str, fault: Fault) {
        // A second member of one name is found as such before its value is.
        let known = |problem: &JobProblem| problem.code == codes::JOB_TWICE && problem.path == path;
        if fault.code != codes::JOB_TWICE || !self.problems.iter().any(known) {
            self.problems.push(JobProblem::new(path, fault));
        }
    }

    fn goes_on(&self) -> bool {
        self.problems.len() < SHOWN
    }

    /// What a result holds, its fault reported.
    fn keep<T>(&mut self, path: &str, found: Result<T, Fault>) -> Option<T> {
        match found {
            Ok(found) => Some(found),
            Err(fault) => {
                self.problem(path, fault);
                None
            }
        }
    }

    fn job(&mut self, node: &Node, path: &str) -> Option<Job> {
        let Node::Object(members) = node else {
            let message = format!("{} is not a job", node.in_words());
            self.problem(
                path,
                Fault::new(codes::JOB, message).help("a job is an object such as `{ \"place\": \"…\" }`"),
            );
            return None;
        };
        let before = self.problems.len();
        self.distinct(members, path);
        let place = self.place(members, path)?;
        let mut draft = Draft::new(self.desk, place);
        for (key, node) in members {
            if !self.goes_on() {
                break;
            }
            let at = member(path, key);
            match &**key {
                "place" => {}
                "schema" => self.schema(node, &at),
                "reference" => draft.job.reference = self.reference(node, &at),
                key if too_long(key) => {}
                _ => self.fact(&mut draft, key, node, &at),
            }
        }
        if self.problems.len() > before {
            return None;
        }
        match draft.finish(self.defaults) {
            Ok(job) => Some(job),
            Err(faults) => {
                for (field, fault) in faults {
                    let at = member(path, &self.desk.glossary[field].path);
                    self.problem(&at, fault);
                }
                None
            }
        }
    }

    /// Every member of an object stands once and has a name of a sane length.
    fn distinct(&mut self, members: &Members, path: &str) {
        let mut seen = BTreeSet::new();
        for (key, _) in members {
            if too_long(key) {
                self.problem(&member(path, key), glossary::past(&NAME));
            } else if !seen.insert(key) {
                self.problem(&member(path, key), twice(key));
            }
            if !self.goes_on() {
                break;
            }
        }
    }

    fn place(&mut self, members: &Members, path: &str) -> Option<PlaceId> {
        let at = member(path, "place");
        let said = members.iter().find(|(key, _)| key == "place").map(|(_, node)| node);
        let found = match said {
            None | Some(Node::Null) => None,
            Some(node) => {
                let text = self.text(node, &at)?;
                let place = self.desk.place(text);
                Some(self.keep(&at, place)?)
            }
        };
        match (found, self.defaults.place) {
            (Some(said), Some(given)) if said != given => {
                let path = |place| self.desk.gazetteer.path(place);
                let message =
                    format!("the job is at `{}`, and the place given beside it is `{}`", path(said), path(given));
                let help = "leave the place out of the job, or out of the options";
                self.problem(&at, Fault::new(codes::JOB, message).help(help));
                None
            }
            (Some(place), _) | (None, Some(place)) => Some(place),
            (None, None) => {
                let keys: Vec<&str> = members.iter().map(|(key, _)| &**key).take(SHOWN).collect();
                let near = keys.into_iter().find(|key| !nearest(key, ["place"]).is_empty());
                let help = match near {
                    Some(key) => format!("is `{}` meant to be `place`?", cut(key)),
                    None => "add `\"place\"` with the name of the place".into(),
                };
                self.problem(path, Fault::new(codes::JOB, "the job does not say its place").help(help));
                None
            }
        }
    }

    fn text<'n>(&mut self, node: &'n Node, path: &str) -> Option<&'n str> {
        match node {
            Node::Text(text) if text.chars().nth(TEXT.most).is_some() => {
                self.problem(path, glossary::past(&TEXT));
                None
            }
            Node::Text(text) => Some(text),
            _ => {
                let message = format!("{} stands where a text is asked", node.in_words());
                self.problem(path, Fault::new(codes::JOB_VALUE, message).help("write a text in double quotes"));
                None
            }
        }
    }

    fn schema(&mut self, node: &Node, path: &str) {
        if *node != Node::Text(SCHEMA.into()) {
            let message = format!("{} is not the form of a job that is read here", node.in_words());
            let help = format!("write `{SCHEMA}`, or leave `schema` out");
            self.problem(path, Fault::new(codes::JOB, message).help(help));
        }
    }

    fn reference(&mut self, node: &Node, path: &str) -> Option<Box<str>> {
        if *node == Node::Null {
            return None;
        }
        let text = self.text(node, path)?;
        self.keep(path, reference(text))
    }

    fn fact(&mut self, draft: &mut Draft<'a>, key: &str, node: &Node, path: &str) {
        let key = self.desk.key(key, draft.job.place);
        match self.keep(path, key) {
            None => {}
            Some(Key::Fact(field)) => self.say(draft, field, node, path),
            Some(Key::Record(group)) => self.record(draft, group, node, path),
            Some(Key::List(group)) => self.list(draft, group, node, path),
        }
    }

    fn say(&mut self, draft: &mut Draft<'a>, field: FieldId, node: &Node, path: &str) {
        if let Some(given) = self.value(field, node, draft.job.place, path) {
            let said = draft.say(field, given);
            self.keep(path, said);
        }
    }

    fn record(&mut self, draft: &mut Draft<'a>, group: GroupId, node: &Node, path: &str) {
        let members = match node {
            Node::Null => return,
            Node::Object(members) => members,
            _ => {
                let name = &self.desk.glossary[group].name;
                let message = format!("`{name}` is a record, and {} stands here", node.in_words());
                let help = format!("write an object: `\"{name}\": {{ … }}`");
                self.problem(path, Fault::new(codes::JOB_VALUE, message).help(help));
                return;
            }
        };
        self.distinct(members, path);
        for (key, node) in members {
            if too_long(key) || !self.goes_on() {
                continue;
            }
            let at = member(path, key);
            let field = self.desk.attribute(group, key, draft.job.place);
            if let Some(field) = self.keep(&at, field) {
                self.say(draft, field, node, &at);
            }
        }
    }

    fn list(&mut self, draft: &mut Draft<'a>, group: GroupId, node: &Node, path: &str) {
        let name = &*self.desk.glossary[group].name;
        let nodes = match node {
            Node::Null => return,
            Node::List(nodes) => nodes,
            _ => {
                let message = format!("`{name}` is a list, and {} stands here", node.in_words());
                let help = format!("write `\"{name}\": [ {{ … }} ]`, an object for each entry, `[]` for none");
                self.problem(path, Fault::new(codes::JOB_VALUE, message).help(help));
                return;
            }
        };
        if nodes.len() > ENTRIES.most {
            self.problem(path, glossary::past(&ENTRIES));
            return;
        }
        let mut list = Entries::default();
        for (number, node) in nodes.iter().enumerate() {
            if !self.goes_on() {
                break;
            }
            let at = format!("{path}[{number}]");
            match node {
                Node::Null => list.more = true,
                Node::Object(members) => list.entries.push(self.entry(draft, group, members, &at)),
                _ => {
                    let message = format!("{} stands where an entry of `{name}` is asked", node.in_words());
                    let help = "an entry is an object; `null` stands for any number of further entries";
                    self.problem(&at, Fault::new(codes::JOB_VALUE, message).help(help));
                }
            }
        }
        let said = draft.list(group, list);
        self.keep(path, said);
    }

    fn entry(&mut self, draft: &Draft<'a>, group: GroupId, members: &Members, path: &str) -> Vec<Given> {
        self.distinct(members, path);
        let mut entry = draft.entry(group);
        for (key, node) in members {
            if too_long(key) || !self.goes_on() {
                continue;
            }
            let at = member(path, key);
            let field = self.desk.attribute(group, key, draft.job.place);
            let Some(field) = self.keep(&at, field) else {
                continue;
            };
            if let Some(given) = self.value(field, node, draft.job.place, &at)
                && let Some(slot) = entry.get_mut(usize::from(self.desk.glossary[field].column))
            {
                *slot = given;
            }
        }
        entry
    }

    fn value(&mut self, field: FieldId, node: &Node, place: PlaceId, path: &str) -> Option<Given> {
        if let Node::Text(_) = node {
            self.text(node, path)?;
        }
        let found = self.scalar(self.desk.glossary[field].shape, node, place);
        self.keep(path, found)
    }

    fn scalar(&self, shape: Shape, node: &Node, place: PlaceId) -> Result<Given, Fault> {
        let misfit = |help: String| Err(self.desk.misfit(shape, &node.in_words()).help(help));
        match (shape, node) {
            (_, Node::Null) => Ok(Given::Unknown),
            (Shape::YesNo, Node::Bool(truth)) => Ok(Given::Term(u16::from(*truth))),
            (Shape::YesNo, _) => misfit("write `true` or `false`, without quotes".into()),
            (Shape::Count, Node::Whole(number)) => {
                glossary::measure(Scale::Count, &number.to_string(), None).map(Given::Measure)
            }
            (Shape::Count, Node::Number(number)) if number.abs() >= 1e18 => Err(glossary::past(&NUMBER)),
            (Shape::Count, _) => misfit("write a whole number such as `3`, without quotes".into()),
            (Shape::Date, Node::Text(text)) if text == "none" => Ok(Given::NoDate),
            (Shape::Date, Node::Text(text)) => glossary::date(text).map(Given::Date),
            (Shape::Date, _) => {
                misfit("write a date such as `\"2024-03-01\"`, or `\"none\"` where there is none".into())
            }
            (Shape::Gauge | Shape::Quantity(_), _) => self.figure(shape, node),
            (Shape::Several(choice), Node::Text(text)) => {
                let term = self.desk.glossary.term_named(choice, text, Some(place), self.desk.territory);
                Ok(Given::Set(Terms::one(self.in_a_list(text, term)?)))
            }
            (Shape::Several(choice), Node::List(nodes)) => {
                let mut all = Terms::NONE;
                for node in nodes {
                    let Node::Text(text) = node else {
                        let fault = self.desk.misfit(Shape::Choice(choice), &node.in_words());
                        return Err(fault.help("write each term in double quotes"));
                    };
                    let term = self.desk.glossary.term_named(choice, text, Some(place), self.desk.territory)?;
                    if all.has(term) {
                        return Err(twice(text));
                    }
                    all = all.union(Terms::one(term));
                }
                Ok(Given::Set(all))
            }
            (Shape::Several(_), _) => misfit("write a list of terms such as `[\"gas\"]`, `[]` for none".into()),
            (Shape::Name | Shape::Code | Shape::Choice(_), Node::Text(text)) => self.desk.word(shape, text, place),
            (Shape::Choice(choice), _) => {
                misfit(self.desk.glossary.terms_in_words(choice, Some(place), self.desk.territory))
            }
            (Shape::Name | Shape::Code, _) => misfit("write a name in double quotes".into()),
        }
    }

    fn figure(&self, shape: Shape, node: &Node) -> Result<Given, Fault> {
        let Some(scale) = shape.scale() else {
            return Err(self.desk.misfit(shape, &node.in_words()));
        };
        let help = format!("write {} in double quotes", scale.example());
        let Node::Text(text) = node else {
            return Err(self.desk.misfit(shape, &node.in_words()).help(help));
        };
        let mut words = text.split(' ').filter(|word| !word.is_empty());
        match (words.next(), words.next(), words.next()) {
            (Some(number), unit, None) => glossary::measure(scale, number, unit).map(Given::Measure),
            _ => Err(self.desk.misfit(shape, &node.in_words()).help(help)),
        }
    }

    /// A fault in a single term that holds a comma speaks of a list.
    fn in_a_list(&self, text: &str, found: Result<u16, Fault>) -> Result<u16, Fault> {
        match found {
            Err(fault) if text.contains(',') => {
                Err(fault.help("write several terms as a list, each in its own quotes"))
            }
            found => found,
        }
    }
}
