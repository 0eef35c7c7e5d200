//! What is amiss with one question, by kind. The worst of it is the outcome.

use super::found::{Finding, Found, State};
use super::plan::Show;

/// What is amiss with a question; several may hold at once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Trouble {
    /// The authority has to say.
    pub(crate) refer: bool,
    /// The rules contradict each other.
    pub(crate) conflict: bool,
    /// The job does not do what is asked.
    pub(crate) not_met: bool,
    /// Facts are missing that could change it.
    pub(crate) open: bool,
}

impl Trouble {
    /// What is amiss by what was found.
    pub(crate) fn of(found: &Found, show: Show) -> Trouble {
        if found.state == State::Silent {
            return Trouble::default();
        }
        let unsettled = found.state == State::Open && (found.may_refer || show == Show::Nothing);
        Trouble {
            refer: found.asked && found.state == State::Referred || found.no_equivalent,
            conflict: found.state == State::Conflict,
            not_met: found.finding == Some(Finding::NotMet),
            open: found.asked && unsettled || found.finding == Some(Finding::Open),
        }
    }

    /// Whether nothing is amiss.
    pub(crate) fn none(self) -> bool {
        self == Trouble::default()
    }

    /// Whether more is amiss than missing facts.
    pub(crate) fn heavy(self) -> bool {
        self.refer || self.conflict || self.not_met
    }

    /// Whether something heavier than missing facts is amiss that is not so in the other.
    pub(crate) fn worse_than(self, other: Trouble) -> bool {
        self.refer && !other.refer || self.conflict && !other.conflict || self.not_met && !other.not_met
    }
}
