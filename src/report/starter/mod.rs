//! The starter: a first rule file for a place, which reads clean as it stands and
//! says beside every line what to write there.
//!
//! What an official may need besides stands in it as sleeping lines, marked `#-`;
//! each block of them is right as soon as the marks are taken away. This module
//! knows words of the trade where the rules know them too, and does without them
//! where they do not.

mod example;
mod ground;
mod names;
mod text;

pub(crate) use names::{NoName, declared};

use crate::glossary::model::PlaceId;
use crate::rules::Rules;
use crate::values::Date;

/// For which place a file is begun.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum For {
    /// A place that no rule file declares yet.
    New { name: String, title: String, within: PlaceId },
    /// A place of the library.
    Known(PlaceId),
}

impl For {
    /// The place whose law the new file adds to.
    fn ground(&self) -> PlaceId {
        match self {
            For::New { within, .. } => *within,
            For::Known(place) => *place,
        }
    }
}

/// A rule file for the place, its first instrument adopted on the day given. Where the
/// place leaves questions open that others answer, the file passes that over for now.
pub(crate) fn starter(rules: &Rules, of: &For, adopted: Date, leaves_open: bool) -> String {
    let ground = ground::Ground { leaves_open, ..ground::Ground::of(rules, of, adopted) };
    text::write(&ground, &example::Example::of(rules, &ground))
}
