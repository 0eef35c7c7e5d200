//! What the words of a job name, as seen from its place.

use super::{Desk, NotFound};
use crate::glossary::model::{FieldId, GroupId, PlaceId};
use crate::glossary::{Fault, cut};
use crate::syntax::codes;

/// What a word at the left of a job's line names.
pub(super) enum Key {
    /// A fact, or a record's attribute by its path.
    Fact(FieldId),
    Record(GroupId),
    List(GroupId),
}

impl Desk<'_> {
    /// The fact, record or list that a job names.
    ///
    /// # Errors
    /// Where nothing has this name at the place; the fault names the nearest.
    pub(super) fn key(&self, word: &str, place: PlaceId) -> Result<Key, Fault> {
        let (glossary, from) = (self.glossary, Some(place));
        if let Some(field) = glossary.field(word, from, self.territory) {
            if !glossary.in_list(field) {
                return Ok(Key::Fact(field));
            }
            let list = word.split_once('.').map_or(word, |(list, _)| list);
            let message = format!("`{}` belongs to one entry of the list `{list}`", cut(word));
            return Err(Fault::new(codes::JOB_NAME, message).help(format!("write it inside an entry of `{list}`")));
        }
        if let Some(group) = glossary.group(word, from, self.territory) {
            return Ok(if glossary[group].list { Key::List(group) } else { Key::Record(group) });
        }
        Err(self.no_key(word, place))
    }

    fn no_key(&self, word: &str, place: PlaceId) -> Fault {
        let (glossary, from) = (self.glossary, Some(place));
        let fault = Fault::new(codes::JOB_NAME, format!("no fact has the name `{}`", cut(word)));
        if let Some(question) = glossary.question(word, from, self.territory) {
            let name = &glossary[question].name;
            return fault.help(format!("`{name}` is a question, which the rules answer; a job says facts"));
        }
        let elsewhere = glossary.fields.iter().any(|field| &*field.path == word)
            || glossary.groups.iter().any(|group| &*group.name == word);
        if elsewhere {
            return fault.help(format!("`{}` is a fact in another place only", cut(word)));
        }
        let owners = glossary.fields.iter().filter(|field| &*field.name == word && self.seen(field.scope, place));
        let owner = owners.filter_map(|field| field.group).next();
        if let Some(owner) = owner {
            let owner = &glossary[owner];
            let what = if owner.list { "list" } else { "record" };
            return fault.help(format!(
                "`{}` is an attribute of the {what} `{}`: write it inside",
                cut(word),
                owner.name
            ));
        }
        let names = self.names(place);
        fault.help("name a fact of the glossary").near(word, names.iter().copied())
    }

    fn names(&self, place: PlaceId) -> Vec<&str> {
        let glossary = self.glossary;
        let facts = glossary
            .fields
            .iter()
            .zip(0u16..)
            .filter(|(field, id)| self.seen(field.scope, place) && !glossary.in_list(FieldId(*id)));
        let groups = glossary.groups.iter().filter(|group| self.seen(group.scope, place));
        let own = ["place", "reference", "schema"];
        facts.map(|(field, _)| &*field.path).chain(groups.map(|group| &*group.name)).chain(own).collect()
    }

    /// The attribute that a line inside a record or an entry names.
    ///
    /// # Errors
    /// Where the list or record has none of that name at the place.
    pub(super) fn attribute(&self, group: GroupId, word: &str, place: PlaceId) -> Result<FieldId, Fault> {
        let glossary = self.glossary;
        glossary.attribute(group, word, Some(place), self.territory).ok_or_else(|| {
            let seen = glossary[group].fields.iter().filter(|field| self.seen(glossary[**field].scope, place));
            let names: Vec<&str> = seen.map(|field| &*glossary[*field].name).collect();
            Fault::new(codes::JOB_NAME, format!("`{}` has no attribute `{}`", glossary[group].name, cut(word)))
                .help(format!("its attributes are {}", names.join(", ")))
                .near(word, names)
        })
    }

    pub(super) fn seen(&self, scope: Option<PlaceId>, place: PlaceId) -> bool {
        self.glossary.known_at(scope, place, self.territory)
    }

    /// The place that a job names.
    ///
    /// # Errors
    /// Where no place fits, or several do; the fault names them.
    pub(super) fn place(&self, text: &str) -> Result<PlaceId, Fault> {
        let NotFound { candidates, nearest } = match self.gazetteer.find(text) {
            Ok(place) => return Ok(place),
            Err(not_found) => not_found,
        };
        if candidates.is_empty() {
            let fault = Fault::new(codes::JOB_NAME, format!("no place has the name `{}`", cut(text)))
                .help("name a place of the loaded rules by its path or its printed name");
            return Err(Fault { near: nearest.into_iter().take(3).collect(), ..fault });
        }
        let message = format!("`{}` fits several places: {}", cut(text), candidates.join(", "));
        let first = candidates.first().map_or("", |first| first);
        Err(Fault::new(codes::JOB_NAME, message).help(format!("write more of its path, such as `{first}`")))
    }
}
