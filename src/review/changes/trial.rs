//! Trying changes: each is made, everything is linked with it, and the examples are run
//! until one notices.

use super::equal::{Reach, Tellers, equivalent, reach, tellers};
use super::{Change, Ladders, changed};
use crate::glossary::model::PlaceId;
use crate::job::{Defaults, read_sheet};
use crate::review::examples::comes_out;
use crate::rules::Rules;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::{Example, Item};
use crate::verdict::Scratch;
use std::collections::HashMap;
use std::sync::atomic::{AtomicUsize, Ordering};

/// What became of a change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Fate {
    /// An example no longer comes out, or the rules cannot be used.
    Noticed,
    /// No example notices it, and some job may tell it: the example of one that does,
    /// where one was found.
    Unnoticed(Option<String>),
    /// No job of any place can tell it.
    Equal,
}

/// An example with the place of its job.
struct Witness<'r> {
    file: FileId,
    example: &'r Example,
    place: Option<PlaceId>,
}

/// The rules as they are, and the examples that may notice.
pub(super) struct Trials<'r> {
    rules: &'r Rules,
    ladders: &'r Ladders,
    witnesses: Vec<Witness<'r>>,
}

impl<'r> Trials<'r> {
    pub(super) fn new(rules: &'r Rules, ladders: &'r Ladders, wanted: impl Fn(FileId) -> bool) -> Trials<'r> {
        let mut witnesses = Vec::new();
        for (file, tree) in rules.trees().filter(|(file, _)| wanted(*file)) {
            for item in &tree.items {
                let Item::Example(example) = item else { continue };
                let job = read_sheet(&example.job, file, rules.desk(), &Defaults::default());
                witnesses.push(Witness { file, example, place: job.ok().map(|job| job.place) });
            }
        }
        Trials { rules, ladders, witnesses }
    }

    /// What becomes of each change, on as many threads as the machine has.
    pub(super) fn run(&self, changes: &[&Change]) -> Vec<Fate> {
        let threads = std::thread::available_parallelism().map_or(1, usize::from).min(changes.len().div_ceil(8)).max(1);
        let next = AtomicUsize::new(0);
        let work = || {
            let mut worker = Worker::new(self);
            let mut done = Vec::new();
            loop {
                let number = next.fetch_add(1, Ordering::Relaxed);
                let Some(change) = changes.get(number) else { return done };
                done.push((number, worker.fate(change)));
            }
        };
        let mut fates: Vec<(usize, Fate)> = std::thread::scope(|scope| {
            let workers: Vec<_> = (1..threads).map(|_| scope.spawn(work)).collect();
            let mut all = work();
            for worker in workers {
                all.extend(worker.join().unwrap_or_else(|problem| std::panic::resume_unwind(problem)));
            }
            all
        });
        fates.sort_unstable_by_key(|(number, _)| *number);
        fates.into_iter().map(|(_, fate)| fate).collect()
    }
}

/// One thread's share of the work.
struct Worker<'t, 'r> {
    trials: &'t Trials<'r>,
    scratch: Scratch,
    /// The examples, those first that noticed last: neighbours of a change that one noticed
    /// are likely noticed by the same.
    order: Vec<usize>,
}

impl<'t, 'r> Worker<'t, 'r> {
    fn new(trials: &'t Trials<'r>) -> Worker<'t, 'r> {
        Worker { trials, scratch: Scratch::default(), order: (0..trials.witnesses.len()).collect() }
    }

    fn fate(&mut self, change: &Change) -> Fate {
        let before = self.trials.rules;
        let Some(after) = self.made(change) else { return Fate::Noticed };
        let reach = reach(before, change);
        if !after.linked() || self.notices(&after, reach) || !after.usable() {
            return Fate::Noticed;
        }
        match tellers(before, &after, reach) {
            Tellers::None => Fate::Equal,
            Tellers::Some(example) => Fate::Unnoticed(example),
        }
    }

    /// The rules with the change; nothing where it cannot be made.
    fn made(&self, change: &Change) -> Option<Rules> {
        let rules = self.trials.rules;
        let (_, tree) = rules.trees().find(|(file, _)| *file == change.file)?;
        let mut tree = tree.clone();
        let item = tree.items.get_mut(change.item)?;
        *item = changed(item, change.offer.number, self.trials.ladders);
        rules.with_tree(change.file, tree)
    }

    /// Whether some example does not come out any more.
    fn notices(&mut self, after: &Rules, reach: Reach) -> bool {
        let before = self.trials.rules;
        // Where the law of a place is the same, its examples come out as they did.
        let mut same: HashMap<PlaceId, bool> = HashMap::new();
        let mut found = None;
        for (at, number) in self.order.iter().enumerate() {
            let Some(witness) = self.trials.witnesses.get(*number) else { continue };
            let untouched = witness.place.is_some_and(|place| {
                *same
                    .entry(place)
                    .or_insert_with(|| !reach.covers(before, place) || equivalent(before, after, place) == Some(true))
            });
            if !untouched && !comes_out(after, witness.file, witness.example, &mut self.scratch) {
                found = Some(at);
                break;
            }
        }
        if let Some(at) = found {
            let number = self.order.remove(at);
            self.order.insert(0, number);
        }
        found.is_some()
    }
}
