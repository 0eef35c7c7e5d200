//! Facts as people name them: by the titles of the glossary, an entry of a list by its
//! number and, where it says one, by its name.

use super::Reader;
use crate::glossary::model::{Field, FieldId, Group, GroupId};
use crate::job::model::Given;
use crate::report::screen::words::spoken;
use crate::verdict::paths::Path;
use crate::verdict::{Lexicon, Matter};

/// The attribute by which an entry of a list tells its own name.
const NAME: &str = "name";

impl Reader {
    /// Who knows a fact; a word that only some rule file has stays as it is there.
    pub(crate) fn who(self, word: &str) -> String {
        match word {
            "contractor" => self.say("sheet-who-contractor"),
            "electrician" => self.say("sheet-who-electrician"),
            "inspector" => self.say("sheet-who-inspector"),
            "owner" => self.say("sheet-who-owner"),
            other => spoken(other),
        }
    }

    /// The stage of a job at which a fact is known first.
    pub(crate) fn stage(self, word: &str) -> String {
        match word {
            "bid" => self.say("sheet-stage-bid"),
            "permit" => self.say("sheet-stage-permit"),
            "rough" => self.say("sheet-stage-rough"),
            "final" => self.say("sheet-stage-final"),
            other => spoken(other),
        }
    }

    /// A fact of a job.
    pub(crate) fn fact(self, path: &Path, matter: &Matter<'_>) -> String {
        match path {
            Path::Fact(field) => self.field(*field, &matter.lexicon),
            Path::Attribute { group, entry, field } => self.attribute(*group, &[*entry], *field, matter),
            Path::List(group) | Path::Further(group) => {
                matter.lexicon.group(*group).map_or_else(String::new, |group| list_title(group).to_owned())
            }
            Path::Span(_) => path.write(&matter.lexicon),
        }
    }

    /// Facts in a row, each once.
    pub(crate) fn facts<'p>(self, paths: impl IntoIterator<Item = &'p Path>, matter: &Matter<'_>) -> Vec<String> {
        let mut all: Vec<String> = Vec::new();
        for path in paths {
            let fact = self.fact(path, matter);
            if !all.contains(&fact) {
                all.push(fact);
            }
        }
        all
    }

    /// A field of a job; one of a record or of a list with what it belongs to.
    pub(crate) fn field(self, field: FieldId, lexicon: &Lexicon<'_>) -> String {
        let Some(known) = lexicon.field(field) else { return String::new() };
        match known.group.and_then(|group| lexicon.group(group)) {
            Some(group) => {
                let parts = [("record", list_title(group)), ("title", field_title(known))];
                self.say_with("walk-title-of-record", &parts)
            }
            None => field_title(known).to_owned(),
        }
    }

    /// One attribute of some entries of a list.
    pub(crate) fn attribute(self, list: GroupId, entries: &[usize], field: FieldId, matter: &Matter<'_>) -> String {
        let lexicon = &matter.lexicon;
        let (Some(group), Some(known)) = (lexicon.group(list), lexicon.field(field)) else { return String::new() };
        let numbers: Vec<String> = entries.iter().map(|entry| self.entry(list, *entry, matter)).collect();
        let numbers = match numbers.split_last() {
            Some((last, rest)) if !rest.is_empty() => format!("{} {} {last}", rest.join(", "), self.say("sheet-and")),
            _ => numbers.concat(),
        };
        let parts = [("list", list_title(group)), ("number", &*numbers), ("title", field_title(known))];
        self.say_with("walk-title-of-entry", &parts)
    }

    /// The number of an entry, counted from 1, with its name where it says one.
    fn entry(self, list: GroupId, entry: usize, matter: &Matter<'_>) -> String {
        let number = entry + 1;
        match name_of(list, entry, matter) {
            Some(name) => format!("{number} ({name})"),
            None => number.to_string(),
        }
    }
}

fn name_of<'m>(list: GroupId, entry: usize, matter: &Matter<'m>) -> Option<&'m str> {
    let fields = &matter.lexicon.group(list)?.fields;
    let named = fields.iter().filter_map(|field| matter.lexicon.field(*field)).find(|field| &*field.name == NAME)?;
    match matter.list(list)?.entries.get(entry)?.get(usize::from(named.column))? {
        Given::Name(name) => Some(name),
        _ => None,
    }
}

/// The printed name of a field.
pub(crate) fn field_title(field: &Field) -> &str {
    if field.title.is_empty() { &field.name } else { &field.title }
}

/// The printed name of a list or a record.
fn list_title(group: &Group) -> &str {
    if group.title.is_empty() { &group.name } else { &group.title }
}
