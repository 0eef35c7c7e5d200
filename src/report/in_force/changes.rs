//! What a section said before the last change there, who changed it and from when.
//!
//! The place is looked at on the eve of every day that its law names, from the day
//! asked of backwards, until some of what the section says did not stand, or somebody
//! had not yet set aside what stood beside it. That an applicant can no longer choose
//! an earlier text is no change of the section.

use super::Inquest;
use super::clauses::{Became, Key, Line, Stood, fate_in_words, on_the_day};
use crate::law::model::Fate;
use crate::values::Date;
use serde::{Serialize, Serializer};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use utoipa::ToSchema;

/// What was done to a section, and by whom; in print such as `replaced by HC-22-118`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::report) enum How {
    SetAside(Fate, Option<String>),
    Excepted {
        by: String,
    },
    /// An exception came to its end.
    ExceptionEnded {
        by: String,
    },
    /// Another edition took its place.
    TookPlace {
        new: String,
        by: String,
        old: String,
    },
    /// The edition now in force has no such section.
    NoSuchSection {
        new: String,
        by: String,
    },
    /// The instrument that said it is no longer in force.
    Ended {
        by: String,
    },
    Added {
        by: String,
        beside: bool,
    },
    Came {
        new: String,
        by: String,
        beside: bool,
    },
}

impl fmt::Display for How {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let beside = |beside: &bool| if *beside { " beside what stood there" } else { "" };
        match self {
            How::SetAside(fate, by) => f.write_str(&fate_in_words(*fate, by.as_deref())),
            How::Excepted { by } => write!(f, "excepted by {by}"),
            How::ExceptionEnded { by } => write!(f, "an exception by {by} came to its end"),
            How::TookPlace { new, by, old } => write!(f, "{new}, adopted by {by}, took the place of {old}"),
            How::NoSuchSection { new, by } => write!(f, "{new}, adopted by {by}, has no such section"),
            How::Ended { by } => write!(f, "{by} is no longer in force"),
            How::Added { by, beside: there } => write!(f, "added by {by}{}", beside(there)),
            How::Came { new, by, beside: there } => write!(f, "came with {new}, adopted by {by}{}", beside(there)),
        }
    }
}

impl Serialize for How {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// The last change of a section at a place.
#[derive(Debug, Serialize, ToSchema)]
pub(crate) struct Change {
    #[serde(skip)]
    pub(crate) key: Key,
    /// The number that it has now, or had last.
    pub(crate) section: String,
    /// The first day on which it said what it says.
    pub(crate) on: String,
    /// What was done and by whom.
    #[schema(value_type = Vec<String>)]
    pub(in crate::report) how: Vec<How>,
    /// Whether nothing of it stood before.
    pub(crate) first: bool,
    /// What it said before and says no longer.
    pub(crate) before: Vec<Line>,
}

/// The clauses on a day, and the editions of the code in force on it with those
/// who adopted them.
pub(super) struct Day {
    pub(super) stood: Vec<Stood>,
    pub(super) editions: Vec<(i32, String)>,
}

impl Day {
    pub(super) fn of(inquest: &Inquest<'_>, code: &str, provisions: &BTreeMap<usize, Key>) -> Day {
        let lines = super::collect::codes(inquest);
        let mut editions: Vec<(i32, String)> =
            lines.into_iter().filter(|line| line.code == code).map(|line| (line.edition, line.by)).collect();
        editions.dedup();
        Day { stood: on_the_day(inquest, code, provisions), editions }
    }

    fn standing<'d>(&'d self, key: &'d Key) -> impl Iterator<Item = &'d Stood> {
        self.stood.iter().filter(move |stood| stood.key == *key && stood.stands())
    }

    fn says<'d>(&'d self, key: &'d Key) -> BTreeSet<&'d str> {
        self.standing(key).map(|stood| &*stood.says).collect()
    }
}

/// The last change of each of these sections, in the order of the keys; none where
/// a section said nothing on any day.
pub(super) fn changes(
    inquest: &Inquest<'_>,
    code: &str,
    provisions: &BTreeMap<usize, Key>,
    today: &Day,
) -> Vec<Change> {
    let named = &inquest.matter.law.days;
    let mut days: Vec<Date> =
        named.iter().flat_map(|day| [*day, day.next()]).filter(|day| *day <= inquest.on).collect();
    days.sort_unstable();
    days.dedup();
    let mut waiting: BTreeSet<&Key> = provisions.values().collect();
    let mut found = BTreeMap::new();
    let mut later: Option<Day> = None;
    for day in days.into_iter().rev() {
        if waiting.is_empty() {
            break;
        }
        let Some(eve) = inquest.at(day.eve(), |there| Day::of(there, code, provisions)) else { continue };
        let after = later.as_ref().unwrap_or(today);
        for key in waiting.clone() {
            if let Some(change) = change(code, key, day, [&eve, after, today]) {
                found.insert(key, change);
                waiting.remove(key);
            }
        }
        later = Some(eve);
    }
    found.into_values().collect()
}

/// What changed in a section on a day, by its eve, the day, and the day asked of.
fn change(code: &str, key: &Key, day: Date, [eve, after, today]: [&Day; 3]) -> Option<Change> {
    let (said, says) = (eve.says(key), today.says(key));
    let gone: Vec<&Stood> = eve.standing(key).filter(|stood| !says.contains(&*stood.says)).collect();
    // As they stood on the first day: a later edition may have taken them over.
    let new: Vec<&Stood> =
        after.standing(key).filter(|stood| says.contains(&*stood.says) && !said.contains(&*stood.says)).collect();
    let then = |stood: &Stood| after.stood.iter().find(|then| then.provision == stood.provision);
    let set_aside = |stood: &&Stood| then(stood).is_some_and(|then| matches!(then.became, Became::SetAside(..)));
    if new.is_empty() && !gone.iter().any(set_aside) && (gone.is_empty() || !says.is_empty() || stays(after, &gone)) {
        return None;
    }
    let mut how: Vec<How> = Vec::new();
    for stood in &gone {
        let then = then(stood);
        match then.map(|then| &then.became) {
            Some(Became::SetAside(fate, by)) => how.push(How::SetAside(*fate, by.clone())),
            Some(Became::Stands(_)) => {
                let excepted = then.map(|then| excepted(stood, then)).unwrap_or_default();
                how.extend(if excepted.is_empty() { vec![given_way(code, stood, &new, after)] } else { excepted });
            }
            Some(Became::Foreign) | None => how.push(given_way(code, stood, &new, after)),
        }
    }
    if gone.is_empty() {
        how.extend(new.iter().map(|stood| came(code, stood, !said.is_empty())));
    }
    let mut once: Vec<How> = Vec::new();
    for one in how {
        if !once.contains(&one) {
            once.push(one);
        }
    }
    let shown = today.standing(key).next().or_else(|| eve.standing(key).next());
    Some(Change {
        key: key.clone(),
        section: shown.map_or_else(String::new, |stood| stood.line.section.clone()),
        on: day.to_string(),
        how: once,
        first: said.is_empty(),
        before: lines(gone),
    })
}

/// Whether all of these stand on the day as well.
fn stays(day: &Day, stood: &[&Stood]) -> bool {
    stood.iter().all(|one| day.standing(&one.key).any(|then| then.says == one.says))
}

/// Lines each once, in the order of their sections.
pub(super) fn lines<'s>(stood: impl IntoIterator<Item = &'s Stood>) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    for stood in stood {
        if !lines.contains(&stood.line) {
            lines.push(stood.line.clone());
        }
    }
    // Stable, so that the rows of a table stay in their order.
    lines.sort_by(|one, two| {
        crate::verdict::by_parts(&one.section, &two.section)
            .then_with(|| (one.edition, &one.author).cmp(&(two.edition, &two.author)))
    });
    lines
}

/// Whose exceptions came, and whose ended.
fn excepted(before: &Stood, after: &Stood) -> Vec<How> {
    let came = after.exceptions.iter().filter(|one| !before.exceptions.contains(one));
    let went = before.exceptions.iter().filter(|one| !after.exceptions.contains(one));
    let came = came.map(|(_, by)| How::Excepted { by: by.clone() });
    came.chain(went.map(|(_, by)| How::ExceptionEnded { by: by.clone() })).collect()
}

/// How a clause lost its standing without anybody's patch.
fn given_way(code: &str, gone: &Stood, new: &[&Stood], after: &Day) -> How {
    let was = gone.line.edition;
    let old = format!("{code} {was}");
    if let Some(other) = new.iter().find(|stood| stood.line.edition != was) {
        let by = other.line.adopted_by.as_ref().unwrap_or(&other.instrument).clone();
        return How::TookPlace { new: format!("{code} {}", other.line.edition), by, old };
    }
    match after.editions.iter().find(|(year, _)| *year != was) {
        Some((year, by)) if new.is_empty() => How::NoSuchSection { new: format!("{code} {year}"), by: by.clone() },
        Some((year, by)) => How::TookPlace { new: format!("{code} {year}"), by: by.clone(), old },
        None => How::Ended { by: gone.instrument.clone() },
    }
}

/// How a clause came that took no other's place; `beside` what stood there already.
fn came(code: &str, new: &Stood, beside: bool) -> How {
    let by = new.instrument.clone();
    match &new.line.adopted_by {
        Some(_) => How::Added { by, beside },
        None => How::Came { new: format!("{code} {}", new.line.edition), by, beside },
    }
}
