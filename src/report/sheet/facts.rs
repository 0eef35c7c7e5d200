//! The facts of a job as they were given, presumed or left unknown.

use crate::glossary::model::{FieldId, GroupId};
use crate::job::model::Given;
use crate::report::speech::Reader;
use crate::verdict::Matter;
use crate::verdict::aside::Aside;
use crate::verdict::model::Verdict;
use crate::verdict::paths::Path;
use serde::Serialize;

/// One fact, or one entry of a list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Echo {
    /// As a job writes it: `jumper.length`, `run[0]`.
    pub(crate) fact: String,
    pub(crate) title: String,
    pub(crate) value: String,
    /// `given`, `presumed` or `unknown`.
    pub(crate) how: &'static str,
    /// The same in words.
    pub(crate) word: String,
}

/// What is given, what is presumed, and of the rest what could change an answer.
pub(crate) fn echo(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> Vec<Echo> {
    let lexicon = &matter.lexicon;
    let asked = |path: &Path| verdict.ask.iter().any(|ask| ask.path == *path);
    let mut told = Vec::new();
    for (field, number) in lexicon.fields.iter().zip(0u16..) {
        let id = FieldId(number);
        if lexicon.list_of(id).is_some() || !lexicon.known(field.scope) {
            continue;
        }
        let title = field.printed();
        let mut tell = |value: String, how| told.push(one(&field.path, title, value, how, reader));
        if let Some(value) = reader.given(matter.fact(id), id, lexicon) {
            tell(value, "given");
        } else if matter.presumed(id).is_some() {
            let presumed = verdict.notes.iter().find_map(|note| match &note.aside {
                Aside::Presumed { fact, presumption, condition } if **fact == *field.path => {
                    Some(reader.presumed(*presumption, condition))
                }
                _ => None,
            });
            tell(presumed.unwrap_or_default(), "presumed");
        } else if asked(&Path::Fact(id)) {
            tell(String::new(), "unknown");
        }
    }
    for (group, number) in lexicon.groups.iter().zip(0u16..) {
        let id = GroupId(number);
        if !group.list || !lexicon.known(group.scope) {
            continue;
        }
        entries(id, verdict, matter, reader, &mut told);
    }
    told
}

fn entries(id: GroupId, verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader, told: &mut Vec<Echo>) {
    let lexicon = &matter.lexicon;
    let Some((group, list)) = lexicon.group(id).zip(matter.job.lists.get(usize::from(id.0))) else { return };
    let title = group.printed();
    for (number, entry) in list.entries.iter().enumerate() {
        let mut parts: Vec<String> = Vec::new();
        for field in &group.fields {
            let Some(about) = lexicon.field(*field) else { continue };
            let held = entry.get(usize::from(about.column)).unwrap_or(&Given::Unknown);
            let asked = Path::Attribute { group: id, entry: number, field: *field };
            match reader.given(held, *field, lexicon) {
                Some(value) => parts.push(format!("{} {value}", about.name)),
                None if verdict.ask.iter().any(|ask| ask.path == asked) => {
                    parts.push(reader.say_with("sheet-fact-not-known", &[("fact", &about.name)]));
                }
                None => {}
            }
        }
        told.push(one(&format!("{}[{number}]", group.name), title, parts.join(", "), "given", reader));
    }
    if list.entries.is_empty() && !list.more {
        told.push(one(&group.name, title, reader.say("value-none"), "given", reader));
    }
    let unknown = if list.entries.is_empty() { Path::List(id) } else { Path::Further(id) };
    if list.more && verdict.ask.iter().any(|ask| ask.path == unknown) {
        let further = if list.entries.is_empty() { String::new() } else { reader.say("sheet-further-entries") };
        told.push(one(&unknown.write(lexicon), title, further, "unknown", reader));
    }
}

fn one(fact: &str, title: &str, value: String, how: &'static str, reader: Reader) -> Echo {
    let word = match how {
        "given" => reader.say("sheet-given"),
        "presumed" => reader.say("sheet-presumed"),
        _ => reader.say("sheet-unknown"),
    };
    Echo { fact: fact.to_owned(), title: title.to_owned(), value, how, word }
}
