//! Whether a change can be told at all: where no job at any place can see it, no example
//! could.
//!
//! It says yes only where that is proven. What it cannot decide it leaves open. Where a
//! text was read, its title and its summary bear on no answer.

use super::Change;
use crate::glossary::Territory;
use crate::glossary::model::PlaceId;
use crate::law::model::{Law, Source};
use crate::law::places::IssuerKind;
use crate::review::effect::{Alike, Bench, Joint, Side};
use crate::review::show::example;
use crate::rules::Rules;
use crate::syntax::diagnostic::Location;
use crate::syntax::tree::Item;

/// The places whose law a change can touch.
#[derive(Clone, Copy)]
pub(super) enum Reach {
    Everywhere,
    /// A place and those within it.
    Within(PlaceId),
}

impl Reach {
    /// Whether the law of a place can be touched.
    pub(super) fn covers(self, rules: &Rules, place: PlaceId) -> bool {
        match self {
            Reach::Everywhere => true,
            Reach::Within(outer) => rules.library().places.within(place, outer),
        }
    }
}

/// What a place has enacted is law there and within, and nowhere else.
pub(super) fn reach(rules: &Rules, change: &Change) -> Reach {
    let item = rules.trees().find(|(file, _)| *file == change.file).and_then(|(_, tree)| tree.items.get(change.item));
    let Some(Item::Instrument(instrument)) = item else { return Reach::Everywhere };
    let library = rules.library();
    let at = Location { file: change.file, span: instrument.id.span };
    let own = library.instruments.iter().find(|own| own.at == at);
    let issuer = own.and_then(|own| Some((own.issuer, library.places.issuer(own.issuer)?)));
    match issuer {
        Some((place, issuer)) if issuer.kind == IssuerKind::Place => Reach::Within(place),
        _ => Reach::Everywhere,
    }
}

/// Whether the law of a place is the same before and after a change; nothing where it is
/// not, or cannot be made.
pub(super) fn equivalent(before: &Rules, after: &Rules, place: PlaceId) -> Option<bool> {
    let (Ok(one), Ok(two)) = (before.library().law(place), after.library().law(place)) else { return None };
    same_answers(one, two).then_some(true)
}

/// Whether two laws are the same but for where texts were read and what people are told
/// of them.
fn same_answers(one: &Law, two: &Law) -> bool {
    let Law { place, nodes, questions, provisions, sources, codes, governed, presumed, notes, .. } = one;
    let Law { cautions, pending, spans, dating, first_day, days, periods, code_choices, .. } = one;
    *place == two.place
        && *nodes == two.nodes
        && *questions == two.questions
        && *provisions == two.provisions
        && *codes == two.codes
        && *governed == two.governed
        && *presumed == two.presumed
        && *notes == two.notes
        && *cautions == two.cautions
        && *pending == two.pending
        && *spans == two.spans
        && *dating == two.dating
        && *first_day == two.first_day
        && *days == two.days
        && *periods == two.periods
        && *code_choices == two.code_choices
        && sources.len() == two.sources.len()
        && sources.iter().zip(&two.sources).all(|(one, two)| same_text(one, two))
}

/// Whether two sources are one text by whom it is and how it is cited.
fn same_text(one: &Source, two: &Source) -> bool {
    let cited = |source: &Source| (source.depth, source.edition);
    cited(one) == cited(two)
        && one.issuer == two.issuer
        && one.instrument == two.instrument
        && one.kind == two.kind
        && one.adopted_by == two.adopted_by
        && one.code == two.code
        && one.section == two.section
}

/// Who can tell a change.
pub(super) enum Tellers {
    /// No job at any place.
    None,
    /// Some job may; the example of one that does, where one was found.
    Some(Option<String>),
}

/// Who at a place can tell a change.
fn at_place(before: &Rules, after: &Rules, place: PlaceId) -> Tellers {
    let side = |rules| Side { rules, place, on: None };
    let Ok(joint) = Joint::new(side(before), side(after)) else { return Tellers::Some(None) };
    let bench = Bench::new(&joint);
    let told = match bench.alike() {
        Alike::Yes => return Tellers::None,
        Alike::No(told) => told,
        Alike::NotDecided => None,
    };
    let example = told.and_then(|(question, job)| {
        let known = &bench.question(question)?.name;
        let own = before.library().glossary.question(known, Some(place), &before.library().places)?;
        let title = before.library().places.issuer(place).map_or("", |issuer| &*issuer.title);
        let name = format!("a job at {title} that tells it");
        example(before, &bench.job(&job, 0, side(before)), &name, &[own])
    });
    Tellers::Some(example)
}

/// Who can tell a change. Names are looked up and jobs are read against the glossary, so
/// that where other jobs can be read every one may.
pub(super) fn tellers(before: &Rules, after: &Rules, reach: Reach) -> Tellers {
    if !jobs_read_alike(before, after) {
        return Tellers::Some(None);
    }
    let places: Vec<PlaceId> = before.library().lawgivers().chain(after.library().lawgivers()).collect();
    let mut some = false;
    for place in places.into_iter().filter(|place| reach.covers(before, *place)) {
        if equivalent(before, after, place) == Some(true) {
            continue;
        }
        match at_place(before, after, place) {
            Tellers::None => {}
            Tellers::Some(None) => some = true,
            found => return found,
        }
    }
    if some { Tellers::Some(None) } else { Tellers::None }
}

/// Whether the same jobs can be read, with the same completions.
fn jobs_read_alike(before: &Rules, after: &Rules) -> bool {
    let bounds =
        |rules: &Rules| -> Vec<_> { rules.library().glossary.fields.iter().map(|field| field.never_before).collect() };
    bounds(before) == bounds(after)
}
