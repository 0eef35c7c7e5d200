//! Links that carry a job: the facts of the query string, in their order.
//!
//! The job is in the link and nowhere else: `/verdict?place=osier&jumper.size=6+AWG`.
//! What is no fact of a job stands under a name that begins with `~`, which no name of
//! the glossary can: the language `~lang`, the units `~units`.

use crate::report::speech::{Language, Reader, Units};

/// The name of the reader's language in a link.
pub(crate) const LANGUAGE: &str = "~lang";
/// The name of the reader's units in a link.
pub(crate) const UNITS: &str = "~units";

/// The name of the places that are compared.
pub(crate) const PLACES: &str = "~places";
/// The name of the days that are compared.
pub(crate) const DAYS: &str = "~dates";

/// The names and values of a link, in their order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Link(pub(crate) Vec<(String, String)>);

impl Link {
    /// The first value under a name.
    pub(crate) fn get(&self, name: &str) -> Option<&str> {
        self.0.iter().find(|(known, _)| known == name).map(|(_, value)| &**value)
    }

    /// Every value under a name.
    pub(crate) fn all<'l>(&'l self, name: &'l str) -> impl Iterator<Item = &'l str> {
        self.0.iter().filter(move |(known, _)| known == name).map(|(_, value)| &**value)
    }

    /// The same with one value under a name; none where it is empty.
    #[must_use]
    pub(crate) fn with(&self, name: &str, value: &str) -> Link {
        let mut pairs: Vec<(String, String)> = self.0.iter().filter(|(known, _)| known != name).cloned().collect();
        if !value.is_empty() {
            pairs.push((name.to_owned(), value.to_owned()));
        }
        Link(pairs)
    }

    /// What says something of the job: no names of the tool, nothing left empty.
    pub(crate) fn facts(&self) -> impl Iterator<Item = (&str, &str)> {
        let facts = self.0.iter().filter(|(name, value)| !name.starts_with('~') && !value.trim().is_empty());
        facts.map(|(name, value)| (&**name, &**value))
    }

    /// For whom the page is written.
    pub(crate) fn reader(&self) -> Reader {
        Reader {
            language: self.get(LANGUAGE).and_then(Language::find).unwrap_or_default(),
            units: self.get(UNITS).and_then(Units::find).unwrap_or_default(),
        }
    }

    /// The address of a page with this link; empty values are left out.
    pub(crate) fn to(&self, path: &str) -> String {
        let mut query = form_urlencoded::Serializer::new(String::new());
        for (name, value) in self.0.iter().filter(|(_, value)| !value.is_empty()) {
            query.append_pair(name, value);
        }
        let query = query.finish();
        if query.is_empty() { path.to_owned() } else { format!("{path}?{query}") }
    }

    /// Only what tells for whom the page is written.
    #[must_use]
    pub(crate) fn bare(&self) -> Link {
        Link(self.0.iter().filter(|(name, _)| name == LANGUAGE || name == UNITS).cloned().collect())
    }
}

impl From<&str> for Link {
    /// The pairs of a query string.
    fn from(query: &str) -> Link {
        Link(form_urlencoded::parse(query.as_bytes()).into_owned().collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_link_comes_back_as_it_was() {
        let link = Link::from("place=osier&jumper.size=6+AWG&permits-held=gas&permits-held=electrical&~lang=es&work=");
        assert_eq!(link.get("jumper.size"), Some("6 AWG"));
        assert_eq!(link.all("permits-held").collect::<Vec<_>>(), ["gas", "electrical"]);
        assert_eq!(link.facts().count(), 4);
        assert_eq!(link.reader().language, Language::Spanish);
        let address = link.with("gas", "natural").to("/verdict");
        assert_eq!(
            Link::from(address.split_once('?').unwrap().1),
            Link(link.0.iter().filter(|(name, _)| name != "work").cloned().collect()).with("gas", "natural")
        );
        assert_eq!(Link::default().to("/job"), "/job");
        assert_eq!(link.bare().to("/"), "/?%7Elang=es");
    }
}
