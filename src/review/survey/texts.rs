//! What was found of single texts over all jobs, place by place: sections,
//! amendments, exceptions, conditions and demands.

use crate::glossary::model::QuestionId;
use crate::job::model::Job;
use crate::law::model::Source;
use crate::syntax::diagnostic::Location;
use crate::verdict::TooMany;
use std::collections::{BTreeMap, BTreeSet};

/// Whether something was seen in some job; where it was not, whether it could be
/// decided everywhere.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Seen {
    pub(super) seen: bool,
    pub(super) undecided: bool,
}

impl Seen {
    /// Adds what one look showed.
    pub(super) fn add(&mut self, found: Result<bool, TooMany>) {
        match found {
            Ok(found) => self.seen |= found,
            Err(TooMany) => self.undecided = true,
        }
    }

    fn merge(&mut self, other: Seen) {
        self.seen |= other.seen;
        self.undecided |= other.undecided;
    }

    /// There is no such job.
    pub(super) fn never(self) -> bool {
        !self.seen && !self.undecided
    }

    /// Not seen, and not decided everywhere.
    pub(super) fn open(self) -> bool {
        !self.seen && self.undecided
    }
}

/// A demand of a text on one question.
#[derive(Clone, Debug, Default)]
pub(super) struct Demanded {
    pub(super) words: BTreeSet<Box<str>>,
    pub(super) binds: Seen,
    /// Whether some answer is another without it.
    pub(super) changes: Seen,
    /// What says as much in the job that shows it.
    pub(super) beside: Vec<(Location, String)>,
    pub(super) job: Option<Job>,
}

/// A condition, or a part of one: whether it decides some job.
#[derive(Clone, Debug, Default)]
pub(super) struct Decides {
    pub(super) decides: Seen,
    /// A job that the text binds, with a question that it answers there.
    pub(super) job: Option<(Job, QuestionId)>,
}

/// What a part of a condition is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Part {
    /// One of several that are joined by `and`: it decides where it alone fails.
    Needed,
    /// One of several that are joined by `or`: it decides where it alone holds.
    Arm,
}

/// A `where` of a text.
#[derive(Clone, Debug, Default)]
pub(super) struct Where {
    pub(super) whole: Decides,
    pub(super) parts: BTreeMap<(Part, String), Decides>,
}

/// What was found of one text so far.
#[derive(Clone, Debug, Default)]
pub(super) struct Found {
    pub(super) name: String,
    /// Whether the law of some place that was looked at holds it.
    pub(super) met: bool,
    pub(super) binds: Seen,
    /// Why it does not, as far as one look shows it, and by what.
    pub(super) why: Option<(String, Option<Location>)>,
    pub(super) wheres: BTreeMap<String, Where>,
    /// By their words; an exception that is an amendment has none here.
    pub(super) exceptions: BTreeMap<String, Seen>,
    pub(super) demands: BTreeMap<QuestionId, Demanded>,
}

/// The texts that were looked at, by where they stand.
pub(super) type Texts = BTreeMap<Location, Found>;

impl Found {
    /// Whether nothing of it is in doubt.
    pub(super) fn clear(&self) -> bool {
        let only_excepts = self.demands.is_empty() && !self.exceptions.is_empty();
        self.met
            && (self.binds.seen || only_excepts)
            && self
                .wheres
                .values()
                .all(|one| one.whole.decides.seen && one.parts.values().all(|part| part.decides.seen))
            && self.exceptions.values().all(|applies| applies.seen)
            && self.demands.values().all(|demand| demand.changes.seen)
    }

    /// Adds what another place showed.
    fn merge(&mut self, other: Found) {
        if !self.met {
            self.name = other.name;
        }
        self.met |= other.met;
        self.binds.merge(other.binds);
        self.why = self.why.take().or(other.why);
        for (words, theirs) in other.wheres {
            let mine = self.wheres.entry(words).or_default();
            mine.whole.merge(theirs.whole);
            for (part, theirs) in theirs.parts {
                mine.parts.entry(part).or_default().merge(theirs);
            }
        }
        for (words, theirs) in other.exceptions {
            self.exceptions.entry(words).or_default().merge(theirs);
        }
        for (question, theirs) in other.demands {
            let mine = self.demands.entry(question).or_default();
            mine.words.extend(theirs.words);
            mine.binds.merge(theirs.binds);
            mine.changes.merge(theirs.changes);
            if mine.job.is_none() {
                mine.beside = theirs.beside;
                mine.job = theirs.job;
            }
        }
    }
}

impl Decides {
    fn merge(&mut self, other: Decides) {
        self.decides.merge(other.decides);
        self.job = self.job.take().or(other.job);
    }
}

/// Adds what one place showed to what others did.
pub(super) fn merge(all: &mut Texts, found: Texts) {
    for (at, theirs) in found {
        all.entry(at).or_default().merge(theirs);
    }
}

/// Whether a text is an edition's own. Others rest on it, so that only what it says
/// itself is looked at: not whether a place's law lets it count.
pub(super) fn printed(source: &Source) -> bool {
    source.code.is_some() && source.adopted_by.is_none()
}

/// A text in words: by its code, edition and number, or by its instrument and number.
pub(super) fn name(source: &Source) -> String {
    let number = source.section.as_deref().unwrap_or_default();
    let text = match (&source.code, source.edition, &source.adopted_by) {
        (Some(code), Some(year), None) => format!("{code} {year} {number}"),
        (Some(code), Some(year), Some(_)) => format!("{} {number} ({code} {year})", source.instrument),
        _ => format!("{} {number}", source.instrument),
    };
    text.trim_end().to_owned()
}

/// A demand in words, without the reason that a referral gives.
pub(super) fn short(words: &str) -> &str {
    words.split(" \"").next().unwrap_or(words)
}
