//! What stands around every page: the rooms of the counter, the reader's language
//! and units, the cautions.

use super::link::{LANGUAGE, Link, UNITS};
use crate::report::sheet::closing::always;
use crate::report::speech::{Language, Units};
use serde::Serialize;

/// A room of the counter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Room {
    Job,
    Verdict,
    Ways,
    Compare,
    Rules,
    Map,
}

impl Room {
    /// Every room, in the order of the work.
    const ALL: [Room; 6] = [Room::Job, Room::Verdict, Room::Ways, Room::Compare, Room::Rules, Room::Map];

    /// The address of the room.
    pub(crate) fn path(self) -> &'static str {
        match self {
            Room::Job => "/",
            Room::Verdict => "/verdict",
            Room::Ways => "/ways",
            Room::Compare => "/compare",
            Room::Rules => "/rules",
            Room::Map => "/map",
        }
    }
}

/// A link with its words.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Way {
    pub(crate) title: String,
    pub(crate) href: String,
    /// Whether the page is there already.
    pub(crate) here: bool,
    /// The language of the words, where it is another.
    pub(crate) lang: Option<&'static str>,
}

/// What stands around a page.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Frame {
    pub(crate) home: String,
    pub(crate) rooms: Vec<Way>,
    pub(crate) choices: Vec<Way>,
    /// What is said at the end.
    pub(crate) cautions: Vec<String>,
    pub(crate) engine: &'static str,
    pub(crate) library: String,
}

impl Frame {
    /// The frame of the page at an address, in a room, with its link. `cautions` is
    /// what a page says of its place; the standing ones where it has none.
    pub(crate) fn new(path: &str, room: Room, link: &Link, library: &str, cautions: Option<Vec<String>>) -> Frame {
        let reader = link.reader();
        let title = |room| match room {
            Room::Job => reader.say("pages-room-job"),
            Room::Verdict => reader.say("pages-room-verdict"),
            Room::Ways => reader.say("pages-room-ways"),
            Room::Compare => reader.say("pages-room-compare"),
            Room::Rules => reader.say("pages-room-rules"),
            Room::Map => reader.say("pages-room-map"),
        };
        let rooms = Room::ALL
            .into_iter()
            .map(|each| Way { title: title(each), href: link.to(each.path()), here: each == room, lang: None })
            .collect();
        let languages = Language::ALL.into_iter().map(|language| Way {
            title: match language {
                Language::English => "English".to_owned(),
                Language::Spanish => "Español".to_owned(),
            },
            href: link.with(LANGUAGE, language.tag()).to(path),
            here: language == reader.language,
            lang: Some(language.tag()),
        });
        let units = Units::ALL.into_iter().map(|units| Way {
            title: match units {
                Units::Customary => reader.say("pages-feet"),
                Units::Metric => reader.say("pages-metres"),
            },
            href: link.with(UNITS, units.name()).to(path),
            here: units == reader.units,
            lang: None,
        });
        Frame {
            home: link.bare().to("/"),
            rooms,
            choices: languages.chain(units).collect(),
            cautions: cautions.unwrap_or_else(|| always(reader)),
            engine: env!("CARGO_PKG_VERSION"),
            library: library.to_owned(),
        }
    }
}
