//! What shows over all jobs of a place, by proof and never by trying some: each
//! finding holds for every job that the law tells apart, and comes with a job
//! that shows it where a job can.
//!
//! Where jobs are too many to be told apart, that is told, and nothing on a guess.

mod conflicts;
mod expected;
mod gaps;
mod look;
mod lost;
mod never_stands;
mod orphaned;
mod powers;
mod site;
mod tell;
mod texts;
mod unread;

use crate::glossary::model::PlaceId;
use crate::law::model::Source;
use crate::law::places::IssuerKind;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::values::Date;
use crate::verdict::survey::Window;
use site::Site;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use texts::Texts;

/// Which files are reviewed.
type Own<'o> = dyn Fn(FileId) -> bool + Sync + 'o;

/// What is asked of a review beside the files.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Asked {
    /// The days of the jobs that are looked at.
    pub(crate) window: Window,
    /// The day since which the rules of a place should have been read.
    pub(crate) read_since: Option<Date>,
}

/// Whether the work is no longer wanted.
type Stopped<'o> = dyn Fn() -> bool + Sync + 'o;

/// The findings about given files, in their order. The rules must be usable.
pub(crate) fn findings(rules: &Rules, own: &Own<'_>, asked: Asked) -> Vec<Diagnostic> {
    findings_unless(rules, own, asked, &|| false).unwrap_or_default()
}

/// The same, unless it is stopped on the way.
pub(crate) fn findings_unless(
    rules: &Rules,
    own: &Own<'_>,
    asked: Asked,
    stopped: &Stopped<'_>,
) -> Option<Vec<Diagnostic>> {
    let window = asked.window;
    let library = rules.library();
    let mut told = unread::places(rules, own, asked.read_since);
    told.extend(orphaned::amendments(rules, own, window));
    told.extend(powers::idle(rules, own, window));
    let ground = Territories::of(rules, own);
    let answering = gaps::Answering::new(rules, window, stopped);
    let mut expected = expected::texts(rules, own);
    for (block, texts) in lost::blocks(rules, own) {
        told.push(block);
        expected.retain(|one| !texts.contains(&one.at));
    }
    let cases: BTreeSet<Location> = expected.iter().filter(|one| one.excepts).map(|one| one.at).collect();
    let near = each(&ground.near, stopped, |place| {
        let Ok(site) = Site::new(rules, *place, window) else { return Default::default() };
        near(&site, own, &ground, &answering, &cases)
    })?;
    let mut all = Texts::new();
    let mut conflicts = Vec::new();
    for (found, theirs, more) in near {
        texts::merge(&mut all, found);
        conflicts.extend(theirs);
        told.extend(more);
    }
    // What is in doubt in its own place may still count within it.
    let printed = library.codes.editions.iter().any(|edition| own(edition.at.file));
    let outside =
        library.outsiders().iter().any(|id| library.instruments.get(id.0 as usize).is_some_and(|one| own(one.at.file)));
    let everywhere: Vec<PlaceId>;
    let further = if printed || outside {
        everywhere = library.lawgivers().collect();
        &everywhere
    } else {
        &ground.all
    };
    let shared = Mutex::new(all);
    let doubt = |at: &Location| shared.lock().is_ok_and(|all| all.get(at).is_none_or(|found| !found.clear()));
    let rest = each(further, stopped, |place| {
        let Ok(site) = Site::new(rules, *place, window) else { return Default::default() };
        let looked_at = ground.near.contains(place);
        let wanted = |source: &Source| {
            own(source.at.file)
                && !(looked_at && source.depth == site.depth() && !texts::printed(source))
                && doubt(&source.at)
        };
        let found = look::at_place(&site, &wanted, &cases);
        if let Ok(mut all) = shared.lock() {
            texts::merge(&mut all, found);
        }
        let mut told = Vec::new();
        let conflicts = if looked_at { Vec::new() } else { of_conflicts(&site, own, &ground, &mut told) };
        (conflicts, told)
    })?;
    for (theirs, more) in rest {
        conflicts.extend(theirs);
        told.extend(more);
    }
    let all = shared.into_inner().unwrap_or_default();
    told.extend(tell::texts(rules, &all, &expected));
    let mut known: BTreeSet<Vec<Location>> = BTreeSet::new();
    told.extend(conflicts.into_iter().filter(|one| known.insert(one.texts.clone())).map(|one| one.told));
    Some(super::in_order(told))
}

/// A look at a place to which given files belong.
fn near(
    site: &Site<'_>,
    own: &Own<'_>,
    ground: &Territories,
    answering: &gaps::Answering<'_>,
    cases: &BTreeSet<Location>,
) -> (Texts, Vec<conflicts::Conflict>, Vec<Diagnostic>) {
    let mut told = Vec::new();
    let wanted = |source: &Source| own(source.at.file) && source.depth == site.depth() && !texts::printed(source);
    let found = look::at_place(site, &wanted, cases);
    let conflicts = of_conflicts(site, own, ground, &mut told);
    let (more, undecided) = never_stands::adoptions(site, own);
    told.extend(more);
    if let Some(at) = ground.stands.get(&site.place) {
        told.extend(gaps::unanswered(site, answering, *at));
        let (more, open) = gaps::ungoverned(site, *at);
        told.extend(more);
        if undecided || open {
            told.push(too_many(site, *at, "the editions in force"));
        }
    }
    (found, conflicts, told)
}

fn of_conflicts(
    site: &Site<'_>,
    own: &Own<'_>,
    ground: &Territories,
    told: &mut Vec<Diagnostic>,
) -> Vec<conflicts::Conflict> {
    match conflicts::of_place(site, own) {
        Ok(found) => found,
        Err(question) => {
            let name = site.rules.library().glossary[question].name.clone();
            told.extend(ground.at(site).map(|at| too_many(site, at, &format!("`{name}`"))));
            Vec::new()
        }
    }
}

fn too_many(site: &Site<'_>, at: Location, what: &str) -> Diagnostic {
    let message =
        format!("{what} at {} could not be looked at for all jobs: there are too many to tell apart", site.title());
    Diagnostic::new(codes::UNDECIDED, at, message)
        .help("nothing is said of it here; fewer conditions on one list or set would bring it within the bound")
}

/// The places under review.
struct Territories {
    /// Places that given files declare, or for which their instruments speak, as far as
    /// they make law: the law of any other is that of a place around it.
    near: Vec<PlaceId>,
    /// Those and all places within them that make law.
    all: Vec<PlaceId>,
    /// Where a finding about the place as a whole stands.
    stands: BTreeMap<PlaceId, Location>,
}

impl Territories {
    fn of(rules: &Rules, own: &Own<'_>) -> Territories {
        let library = rules.library();
        let mut stands: BTreeMap<PlaceId, Location> = BTreeMap::new();
        let places = library.places.only_places().filter(|(_, issuer)| own(issuer.at.file));
        stands.extend(places.map(|(id, issuer)| (id, issuer.at)));
        for instrument in library.instruments.iter().filter(|one| own(one.at.file)) {
            let is_place = |kind| kind == IssuerKind::Place;
            if library.places.issuer(instrument.issuer).is_some_and(|issuer| is_place(issuer.kind)) {
                stands.entry(instrument.issuer).or_insert(instrument.at);
            }
        }
        let near: BTreeSet<PlaceId> = stands.keys().copied().collect();
        let makes_law: BTreeSet<PlaceId> = library.lawgivers().collect();
        let inside = |place: &PlaceId| library.places.path(*place).iter().any(|outer| near.contains(outer));
        let mut all: Vec<PlaceId> = library.lawgivers().filter(inside).collect();
        let depth = |place: &PlaceId| library.places.issuer(*place).map_or(0, |issuer| issuer.depth);
        all.sort_by_key(|place| (depth(place), *place));
        let mut near: Vec<PlaceId> = near.intersection(&makes_law).copied().collect();
        near.sort_by_key(|place| (depth(place), *place));
        Territories { near, all, stands }
    }
}

impl Territories {
    /// Where a finding about a place stands: with the place, or with the nearest around
    /// it that was given.
    fn at(&self, site: &Site<'_>) -> Option<Location> {
        let path = site.rules.library().places.path(site.place);
        path.iter().rev().find_map(|place| self.stands.get(place)).copied()
    }
}

/// Does the work of each place, on as many threads as the machine has; the results
/// in the order of the places, or nothing where it was stopped on the way.
fn each<T: Send>(places: &[PlaceId], stopped: &Stopped<'_>, work: impl Fn(&PlaceId) -> T + Sync) -> Option<Vec<T>> {
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(places.len().max(1));
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<(usize, T)>> = Mutex::new(Vec::with_capacity(places.len()));
    let run = || {
        while let at = next.fetch_add(1, Ordering::Relaxed)
            && let Some(place) = places.get(at)
            && !stopped()
        {
            let result = work(place);
            if let Ok(mut done) = done.lock() {
                done.push((at, result));
            }
        }
    };
    std::thread::scope(|scope| {
        for _ in 1..threads {
            scope.spawn(run);
        }
        run();
    });
    let mut done = done.into_inner().unwrap_or_default();
    done.sort_by_key(|(at, _)| *at);
    (!stopped()).then(|| done.into_iter().map(|(_, result)| result).collect())
}
