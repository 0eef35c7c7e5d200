//! GR5208: amendments that end with the edition that they amend: from some day on
//! another edition of the code stands at the place, and nobody carried them over.

use super::site::Site;
use crate::glossary::model::PlaceId;
use crate::job::model::{Given, Job};
use crate::law::Line;
use crate::law::instrument::{InstrumentId, Patch, Target};
use crate::law::model::CondId;
use crate::law::text::EditionId;
use crate::review::show;
use crate::review::story::{Story, Text, edition_name, stories};
use crate::review::times::Times;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::tree::Action;
use crate::values::Date;
use crate::verdict::survey::{Ground, Survey, Window};
use crate::verdict::{Matter, Memo, TooMany};

/// A stretch of time in which one edition of a code stands at a place, for some job.
#[derive(Clone, Copy, Debug)]
struct Stand {
    edition: EditionId,
    /// The last of the days that are told apart on which it does.
    last: Date,
    /// The next of them, on which it does not any more.
    gone: Option<Date>,
    first: Date,
}

/// The amendments of given files whose edition stands no longer, the window heeded.
pub(super) fn amendments(rules: &Rules, own: &dyn Fn(FileId) -> bool, window: Window) -> Vec<Diagnostic> {
    let library = rules.library();
    let times = Times::of(library);
    let mut told = Vec::new();
    for story in stories(library, &|_| true).filter(|story| own(story.own.at.file) && story.own.is_law()) {
        let Text::Edition(edition) = story.text else { continue };
        let exact = |target: &Target| *target == Target::Edition(edition);
        if !story.mine().any(|block| exact(&block.amend.target)) {
            continue;
        }
        let Ok(stands) = stands(rules, story.own.issuer, edition) else { continue };
        let Some(old) = stands.iter().find(|stand| stand.edition == edition) else { continue };
        let Some(gone) = old.gone else { continue };
        let heeded = window.through.is_none_or(|day| gone <= day) && window.from.is_none_or(|day| gone >= day);
        let newer = stands
            .iter()
            .filter(|stand| stand.edition != edition && stand.last >= gone && stand.first <= gone)
            .max_by_key(|stand| (stand.first, stand.edition));
        let Some(newer) = newer.filter(|_| heeded && !times.may_be_over(story.id, Some(gone))) else { continue };
        for block in story.mine().filter(|block| exact(&block.amend.target)) {
            let patches = block.amend.patches.iter().zip(&block.lines);
            let lost: Vec<(&Patch, Option<Box<str>>)> = patches
                .filter(|(patch, lines)| !carried(rules, &story, newer.edition, lines, &patch.number))
                .filter_map(|(patch, lines)| {
                    Some((patch, successor(rules, edition, newer.edition, lines, patch.action)?))
                })
                .collect();
            let Some((first, _)) = lost.first() else { continue };
            let (was, now) = (edition_name(library, edition), edition_name(library, newer.edition));
            let numbers: Vec<String> = lost.iter().map(|(patch, _)| format!("`{}`", patch.number)).collect();
            let (acts, these) = if lost.len() == 1 { ("acts", "this") } else { ("act", "these") };
            let message =
                format!("from {gone} on {now} stands in the place of {was}, and {} {acts} no more", numbers.join(", "));
            let there = in_the_newer(&lost, &now);
            let help = format!("{there}amend {now} too if {these} should last, or repeal `{}` if not", story.own.id);
            let name = format!("{now} without the amendment of {}", first.number);
            told.push(Diagnostic::new(codes::ORPHANED, first.at, message).help(help).shown_by(shown(
                rules,
                story.own.issuer,
                gone,
                &name,
            )));
        }
    }
    told
}

/// Where the sections stand in the newer edition, in words.
fn in_the_newer(lost: &[(&Patch, Option<Box<str>>)], now: &str) -> String {
    let numbered = lost.iter().filter_map(|(patch, number)| Some((&*patch.number, number.as_deref()?)));
    let words: Vec<String> = numbered
        .map(|(was, is)| if was == is { format!("`{was}` keeps its number") } else { format!("`{was}` is now `{is}`") })
        .collect();
    if words.is_empty() { String::new() } else { format!("in {now} {}; ", words.join(", ")) }
}

/// What a patch would have to meet in a newer edition: the number of the section
/// there that comes from its own, or none where it adds one; nothing at all where
/// there is nothing left to be amended.
fn successor(
    rules: &Rules,
    older: EditionId,
    newer: EditionId,
    lines: &[Line],
    action: Action,
) -> Option<Option<Box<str>>> {
    let codes = &rules.library().codes;
    let (old, new) = (codes.edition(older)?, codes.edition(newer)?);
    let found = lines.iter().find_map(|line| match line {
        Line::Printed(lineage) => new.by_lineage(*lineage).map(|printed| printed.number.clone()),
        _ => None,
    });
    // An edition that does not revise the older one tells nothing of its sections.
    let unknown = old.family != new.family && matches!(action, Action::Replace | Action::Delete);
    (found.is_some() || action == Action::Add || unknown).then_some(found)
}

/// Which editions of the code stand at a place, and when, by the date that is the
/// default there; every date fact by which law is in force is at the same day.
fn stands(rules: &Rules, place: PlaceId, edition: EditionId) -> Result<Vec<Stand>, TooMany> {
    let codes = &rules.library().codes;
    let Some(code) = codes.edition(edition).and_then(|edition| codes.code_of(edition)) else { return Ok(Vec::new()) };
    let Ok(site) = Site::new(rules, place, Window::default()) else { return Ok(Vec::new()) };
    let law = site.law();
    let mut found = Vec::new();
    for (year, id) in &code.editions {
        let reaches: Vec<CondId> = law
            .codes
            .iter()
            .filter(|one| *one.code == *code.name && one.edition == *year)
            .map(|one| one.reach)
            .collect();
        if reaches.is_empty() {
            continue;
        }
        let mut days: Vec<Date> =
            law.days.iter().copied().filter(|day| law.first_day.is_none_or(|first| *day >= first)).collect();
        days.sort();
        let mut stand: Option<Stand> = None;
        for day in days {
            let held = on_day(&site.ground, day, &reaches)?;
            match &mut stand {
                None if held => stand = Some(Stand { edition: *id, first: day, last: day, gone: None }),
                Some(stand) if held => (stand.last, stand.gone) = (day, None),
                Some(stand) if stand.gone.is_none() => stand.gone = Some(day),
                _ => {}
            }
        }
        found.extend(stand);
    }
    Ok(found)
}

/// Whether one of these holds for some job all of whose dates are this day.
fn on_day(ground: &Ground<'_>, day: Date, reaches: &[CondId]) -> Result<bool, TooMany> {
    let matter = ground.matter();
    let mut job: Job = matter.job.clone();
    for field in &matter.law.dating {
        if let Some(slot) = job.values.get_mut(usize::from(field.0)) {
            *slot = Given::Date(day);
        }
    }
    let matter = Matter { job: &job, ..matter };
    for reach in reaches {
        let mut memo = Memo::default();
        let cone = ground.cone([], [*reach]);
        let mut survey = Survey::new(&matter, &mut memo, cone, Window::default())?;
        let held = survey.condition(*reach)?;
        if survey.somewhere(held)? {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Whether the place amends the same section of the newer edition, or has added a
/// section of the same number to it.
fn carried(rules: &Rules, story: &Story, newer: EditionId, lines: &[Line], number: &str) -> bool {
    let library = rules.library();
    let instruments = library.of_issuer(story.own.issuer);
    let mut targets = instruments.iter().filter_map(|id: &InstrumentId| library.instruments.get(id.0 as usize));
    let code = library.codes.edition(newer).map(|edition| edition.code);
    let speaks = |target: &Target| match target {
        Target::Edition(id) => *id == newer,
        Target::Any { code: of, .. } => Some(*of) == code,
        Target::Instrument(_) => false,
    };
    let edition = library.codes.edition(newer);
    let now: Vec<&str> = lines
        .iter()
        .filter_map(|line| match line {
            Line::Printed(lineage) => edition?.by_lineage(*lineage).map(|printed| &*printed.number),
            _ => None,
        })
        .collect();
    targets.any(|own| {
        own.is_law()
            && own.amends.iter().filter(|amend| speaks(&amend.target)).any(|amend| {
                amend.patches.iter().any(|patch| {
                    *patch.number == *number
                        || now.contains(&&*patch.number)
                        || amend.renumbers.iter().any(|(_, to)| **to == *number)
                })
            })
    })
}

/// A job of the first day without the amendment.
fn shown(rules: &Rules, place: PlaceId, day: Date, name: &str) -> Option<String> {
    let ground = rules.ground(place).ok()?;
    let mut job = ground.matter().job.clone();
    let date = ground.matter().lexicon.roles.dates?;
    if let Some(slot) = job.values.get_mut(usize::from(date.0)) {
        *slot = Given::Date(day);
    }
    show::example(rules, &job, name, &[])
}
