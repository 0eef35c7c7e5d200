//! What every page of this room has at hand: the rules, the reader, and the addresses
//! of all other pages.

use super::Missing;
use crate::glossary::model::{PlaceId, QuestionId};
use crate::law::instrument::Instrument;
use crate::law::library::Library;
use crate::law::places::IssuerKind;
use crate::law::text::EditionId;
use crate::report::pages::frame::{Frame, Room};
use crate::report::pages::link::Link;
use crate::report::sheet::closing::standing;
use crate::report::speech::{Reader, template};
use crate::report::visible;
use crate::rules::Rules;
use crate::values::Date;
use serde::Serialize;

/// The names in a link that belong to this room and say nothing of a job: what is
/// looked for, the day, the place.
pub(super) const FIND: &str = "find";
pub(super) const ON: &str = "on";
pub(super) const AT: &str = "at";

/// Words that lead to a page.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Pointer {
    pub(crate) words: String,
    pub(crate) href: String,
}

/// What a page is made from.
pub(super) struct Desk<'a> {
    pub(super) rules: &'a Rules,
    pub(super) reader: Reader,
    pub(super) today: Date,
    /// The link as it was asked.
    pub(super) asked: &'a Link,
    /// The job that the link carries, which every page hands on.
    kept: Link,
    /// The address of the page itself.
    pub(super) path: String,
}

impl<'a> Desk<'a> {
    pub(super) fn new(address: &[&str], link: &'a Link, rules: &'a Rules, today: Date) -> Desk<'a> {
        let kept = link.with(FIND, "").with(ON, "").with(AT, "");
        Desk { rules, reader: link.reader(), today, asked: link, kept, path: path(address) }
    }

    pub(super) fn library(&self) -> &'a Library {
        self.rules.library()
    }

    /// The address of the page with these parts.
    pub(super) fn to(&self, parts: &[&str]) -> String {
        self.kept.to(&path(parts))
    }

    /// The same with one value more.
    pub(super) fn to_with(&self, parts: &[&str], name: &str, value: &str) -> String {
        self.kept.with(name, value).to(&path(parts))
    }

    /// What a form has to hand on, so that the job of the link is not lost.
    pub(super) fn carried(&self) -> Vec<(String, String)> {
        self.kept.0.iter().filter(|(_, value)| !value.is_empty()).cloned().collect()
    }

    pub(super) fn code(&self, name: &str) -> Pointer {
        Pointer { words: name.to_owned(), href: self.to(&["code", name]) }
    }

    pub(super) fn edition(&self, code: &str, year: i32) -> Pointer {
        Pointer { words: format!("{code} {year}"), href: self.to(&["code", code, &year.to_string()]) }
    }

    /// The edition with this number; nothing where the library has none.
    pub(super) fn edition_of(&self, id: EditionId) -> Option<Pointer> {
        let codes = &self.library().codes;
        let edition = codes.edition(id)?;
        Some(self.edition(&codes.code_of(edition)?.name, edition.year))
    }

    pub(super) fn section(&self, code: &str, number: &str) -> Pointer {
        Pointer { words: number.to_owned(), href: self.to(&["section", code, number]) }
    }

    /// A place, maker or supplier, by its printed name.
    pub(super) fn issuer(&self, id: PlaceId) -> Pointer {
        let places = &self.library().places;
        let words = places.issuer(id).map_or_else(String::new, |issuer| issuer.title.to_string());
        let path = places.path_text(id);
        let mut parts = vec![match places.issuer(id).map(|issuer| issuer.kind) {
            Some(IssuerKind::Maker) => "maker",
            Some(IssuerKind::Supplier) => "supplier",
            Some(IssuerKind::Place) | None => "place",
        }];
        parts.extend(path.split('/'));
        Pointer { words, href: self.to(&parts) }
    }

    pub(super) fn instrument(&self, own: &Instrument) -> Pointer {
        Pointer { words: own.id.to_string(), href: self.to(&self.instrument_parts(own, &own_path(self, own))) }
    }

    /// The page on the effect of an instrument.
    pub(super) fn effect(&self, own: &Instrument) -> String {
        let path = own_path(self, own);
        let mut parts = self.instrument_parts(own, &path);
        parts.push("effect");
        self.to(&parts)
    }

    fn instrument_parts<'p>(&self, own: &'p Instrument, path: &'p str) -> Vec<&'p str> {
        std::iter::once("instrument").chain(path.split('/')).chain(std::iter::once(&*own.id)).collect()
    }

    /// Where the page of words tells what a question is about.
    pub(super) fn question(&self, id: QuestionId) -> Pointer {
        let question = &self.library().glossary[id];
        let words = question.printed().to_owned();
        let anchor = super::words::question_anchor(self.library(), id);
        Pointer { words, href: format!("{}#{anchor}", self.to(&["words"])) }
    }

    /// The first page.
    pub(super) fn start(&self) -> Pointer {
        Pointer { words: self.reader.say("pages-room-rules"), href: self.to(&[]) }
    }

    /// What stands around the page; with the age of the rules where it is about places.
    pub(super) fn frame(&self, about: Option<&[PlaceId]>) -> Frame {
        let cautions = about.map(|path| standing(path, &self.library().places, self.today, self.reader));
        let frame = |link: &Link, cautions| Frame::new(&self.path, Room::Rules, link, self.rules.hash(), cautions);
        // A day that was chosen here is no fact of the job, but another language keeps it.
        Frame { choices: frame(self.asked, None).choices, ..frame(&self.kept, cautions) }
    }

    /// Lays the page out. Nothing in a text of others moves the cursor or turns the line.
    pub(super) fn lay(&self, template: &str, it: impl Serialize) -> Result<String, Missing> {
        let laid = template::render(template, it, self.reader);
        laid.map(|page| visible::lines(&page)).map_err(|told| Missing {
            message: told.to_string(),
            help: self.reader.say("browse-broken"),
            broken: true,
            ..self.nowhere()
        })
    }

    /// An address of no page at all.
    pub(super) fn nowhere(&self) -> Missing {
        self.missing(self.reader.say("browse-nowhere"), self.reader.say("browse-nowhere-help"), Vec::new())
    }

    /// An address that leads nowhere, and where to look instead.
    pub(super) fn missing(&self, message: String, help: String, mut near: Vec<Pointer>) -> Missing {
        near.push(self.start());
        Missing { place: self.path.clone(), message, help, near, broken: false }
    }
}

fn own_path(desk: &Desk<'_>, own: &Instrument) -> String {
    desk.library().places.path_text(own.issuer)
}

/// The address of the page with these parts, what is no letter of an address escaped.
fn path(parts: &[&str]) -> String {
    let mut path = String::from("/rules");
    for part in parts {
        path.push('/');
        for byte in part.bytes() {
            if byte.is_ascii_alphanumeric() || b"-._~()".contains(&byte) {
                path.push(char::from(byte));
            } else {
                path.push_str(&format!("%{byte:02X}"));
            }
        }
    }
    path
}

#[cfg(test)]
mod tests {
    use super::path;

    #[test]
    fn an_address_holds_only_letters_of_addresses() {
        assert_eq!(path(&[]), "/rules");
        assert_eq!(path(&["section", "NEC", "250.104(B)"]), "/rules/section/NEC/250.104(B)");
        assert_eq!(path(&["place", "a/b", "ä\"<"]), "/rules/place/a%2Fb/%C3%A4%22%3C");
    }
}
