//! How people name a place: by its name, its printed name or an alias, in small or
//! large letters, alone or behind the places around it.
//!
//! Rule files name places more strictly; that is [`Territory::resolve`]'s business.
//!
//! [`Territory::resolve`]: crate::glossary::Territory::resolve

use super::{Issuer, IssuerKind, NotFound, Places};
use crate::glossary::model::PlaceId;
use crate::syntax::nearest::nearest;

impl Places {
    /// The place that a job or a command names: a path or an end of one, each of
    /// its parts a name, a printed name or an alias. The exact name goes before a
    /// printed one; large and small letters are one otherwise.
    ///
    /// # Errors
    /// Where several places fit, with their paths, or none, with the nearest names.
    pub(crate) fn find(&self, text: &str) -> Result<PlaceId, NotFound> {
        let text = text.trim();
        let mut found = self.places(self.ending(text));
        if found.is_empty() {
            found = self.places(self.spoken(text));
        }
        match found.as_slice() {
            [one] => Ok(*one),
            [] => Err(NotFound { candidates: Vec::new(), nearest: self.near(text) }),
            several => {
                let mut candidates: Vec<String> = several.iter().map(|id| self.path_text(*id)).collect();
                candidates.sort();
                Err(NotFound { candidates, nearest: Vec::new() })
            }
        }
    }

    /// Those of the issuers that are places.
    fn places(&self, ids: Vec<PlaceId>) -> Vec<PlaceId> {
        ids.into_iter().filter(|id| self.issuer(*id).is_some_and(|issuer| issuer.kind == IssuerKind::Place)).collect()
    }

    /// Every issuer that a text names in whatever way.
    fn spoken(&self, text: &str) -> Vec<PlaceId> {
        let text = text.to_lowercase();
        let mut found = self.called(&text);
        let parts: Vec<&str> = text.split('/').map(str::trim).collect();
        if let Some(last) = parts.last().filter(|_| parts.len() > 1) {
            found.extend(self.behind(self.called(last), &parts, is_called));
        }
        found.sort_unstable();
        found.dedup();
        found
    }

    /// Every issuer with this name, printed name or alias, in small letters.
    fn called(&self, lower: &str) -> Vec<PlaceId> {
        let mut ids: Vec<PlaceId> = [&self.index.by_name, &self.index.by_printed]
            .iter()
            .filter_map(|index| index.get(lower))
            .flatten()
            .copied()
            .collect();
        ids.sort_unstable();
        ids.dedup();
        ids
    }

    /// Up to three places whose names are near to the last part of a text, each as
    /// it can be written.
    fn near(&self, text: &str) -> Vec<String> {
        let wanted = text.rsplit('/').next().unwrap_or(text).trim().to_lowercase();
        let keys = self
            .index
            .by_name
            .keys()
            .chain(self.index.by_printed.keys())
            .chain(self.reprinted.keys())
            .map(|key| &**key);
        let is_place = |key: &&str| !self.places(self.called(key)).is_empty();
        let mut near: Vec<String> = Vec::new();
        let mut told: Vec<PlaceId> = Vec::new();
        for key in nearest(&wanted, keys.filter(is_place)) {
            let ids = self.places(self.called(key));
            // A place is told once, by the nearest of its names; one of several by its path.
            for id in ids.iter().filter(|id| !told.contains(id)) {
                near.push(match (ids.as_slice(), self.issuer(*id)) {
                    ([_], Some(issuer)) => as_written(issuer, key),
                    _ => self.path_text(*id),
                });
            }
            told.extend(ids);
        }
        near.truncate(3);
        near
    }
}

/// Whether an issuer has this name, printed name or alias, in small letters.
fn is_called(issuer: &Issuer, lower: &str) -> bool {
    *issuer.name == *lower || printed(issuer).any(|name| name.to_lowercase() == lower)
}

fn printed(issuer: &Issuer) -> impl Iterator<Item = &str> {
    std::iter::once(&issuer.title).chain(&issuer.also).map(|name| &**name)
}

/// The name that these small letters stand for, as its declaration writes it.
fn as_written(issuer: &Issuer, lower: &str) -> String {
    if *issuer.name == *lower {
        return issuer.name.to_string();
    }
    printed(issuer).find(|name| name.to_lowercase() == lower).unwrap_or(&issuer.name).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::syntax::diagnostic::FileId;
    use crate::syntax::{Kind, parse};

    /// Two towns of one printed name in two counties, and a supplier of theirs.
    const ATLAS: &str = r#"
place larkspur "State of Larkspur"
place harlow "Harlow County" within larkspur
    also "Harlow Co."
    also "Cty. of Harlow"
place quarry "Quarry County" within larkspur
place fairview "City of Fairview" within harlow
place fairview "City of Fairview" within quarry
    also "New Fairview"
place birch "Birch/Alder District" within quarry
supplier main-gas "Main Gas"
"#;

    fn atlas() -> Places {
        let parsed = parse(FileId(0), ATLAS, Kind::Rules);
        let mut told = parsed.diagnostics.clone();
        let places = Places::build(&[(FileId(0), &parsed.tree)], vec![Box::default()], &mut told);
        assert!(told.is_empty(), "{told:#?}");
        places
    }

    fn found(text: &str) -> Result<String, NotFound> {
        let places = atlas();
        places.find(text).map(|id| places.path_text(id))
    }

    #[test]
    fn a_place_has_many_names() {
        for text in [
            "harlow",
            "Harlow",
            "larkspur/harlow",
            "Larkspur/HARLOW",
            "Harlow County",
            "harlow county",
            "Harlow Co.",
            "HARLOW CO.",
            "cty. of harlow",
            "State of Larkspur/Harlow Co.",
            "state of larkspur / harlow co.",
            " harlow ",
        ] {
            assert_eq!(found(text).as_deref(), Ok("larkspur/harlow"), "{text}");
        }
    }

    #[test]
    fn a_printed_name_may_hold_a_stroke() {
        assert_eq!(found("Birch/Alder District").as_deref(), Ok("larkspur/quarry/birch"));
    }

    #[test]
    fn a_name_in_two_counties_needs_its_county() {
        let both = vec!["larkspur/harlow/fairview".to_owned(), "larkspur/quarry/fairview".to_owned()];
        for text in ["fairview", "Fairview", "City of Fairview", "city of fairview", "FAIRVIEW"] {
            assert_eq!(found(text), Err(NotFound { candidates: both.clone(), nearest: Vec::new() }), "{text}");
        }
        for text in ["harlow/fairview", "Harlow Co./City of Fairview", "harlow county/fairview", "Harlow/Fairview"] {
            assert_eq!(found(text).as_deref(), Ok("larkspur/harlow/fairview"), "{text}");
        }
        assert_eq!(found("new fairview").as_deref(), Ok("larkspur/quarry/fairview"));
    }

    #[test]
    fn a_place_that_does_not_lie_there_is_not_found() {
        assert!(found("quarry/harlow").is_err());
        assert!(found("Quarry County/Birch/Alder").is_err());
    }

    #[test]
    fn near_names_are_told_as_they_are_written() {
        let near = |text| found(text).unwrap_err().nearest;
        assert_eq!(near("harlwo"), ["harlow"]);
        assert_eq!(near("HARLOW COUNTRY"), ["Harlow County"]);
        assert_eq!(near("Harlow Co"), ["Harlow Co."], "and not its other names");
        assert_eq!(near("larkspur/quary"), ["quarry"]);
        assert_eq!(near("fairvew"), ["larkspur/harlow/fairview", "larkspur/quarry/fairview"]);
        assert_eq!(near("nowhere at all"), Vec::<String>::new());
    }

    #[test]
    fn a_supplier_is_no_place() {
        assert_eq!(found("main-gas"), Err(NotFound::default()));
        assert_eq!(found("Main Gas"), Err(NotFound::default()));
    }

    #[test]
    fn there_are_never_more_than_three() {
        let text: String = ["ash", "asp", "ask", "ass"].map(|name| format!("place {name} \"{name}\"\n")).concat();
        let parsed = parse(FileId(0), &text, Kind::Rules);
        let places = Places::build(&[(FileId(0), &parsed.tree)], vec![Box::default()], &mut Vec::new());
        assert_eq!(places.find("asx").unwrap_err().nearest, ["ash", "ask", "asp"]);
    }
}
