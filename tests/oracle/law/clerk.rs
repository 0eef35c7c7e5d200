//! The clerk who works out one job step by step: what is in effect, which
//! editions stand, what their text is, and what it asks.

use super::answer::Final;
use super::facts::Facts;
use super::force::View;
use super::text::Text;
use crate::glossary::model::{PlaceId, QuestionId};
use crate::job::model::Job;
use crate::law::instrument::InstrumentId;
use crate::law::library::Library;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, HashMap};
use std::rc::Rc;

/// How deep instruments may hang on each other before the clerk gives up: no
/// library of this size nests so far but in a circle.
const DEEPEST: u32 = 60;

/// Texts worked out before: in what view, whose, and by which of its adoptions.
type Texts = HashMap<(View, InstrumentId, Option<usize>), Rc<Text>>;

pub(super) struct Clerk<'a> {
    pub(super) library: &'a Library,
    pub(super) facts: Facts<'a>,
    /// The places around the job, outermost first.
    pub(super) path: Vec<PlaceId>,
    /// Whether an instrument whose beginning is not known has begun.
    pub(super) spans: BTreeMap<InstrumentId, bool>,
    depth: Cell<u32>,
    /// Set where instruments hang on each other in a circle.
    pub(super) circular: Cell<bool>,
    pub(super) finals: RefCell<HashMap<QuestionId, Final>>,
    pub(super) texts: RefCell<Texts>,
}

impl<'a> Clerk<'a> {
    pub(super) fn new(library: &'a Library, job: &'a Job, spans: BTreeMap<InstrumentId, bool>) -> Clerk<'a> {
        Clerk {
            library,
            facts: Facts { glossary: &library.glossary, job },
            path: library.places.path(job.place),
            spans,
            depth: Cell::new(0),
            circular: Cell::new(false),
            finals: RefCell::default(),
            texts: RefCell::default(),
        }
    }

    /// All places of the path.
    pub(super) fn whole(&self) -> View {
        self.path.len()
    }

    /// Guards a step that may lead back to itself.
    pub(super) fn descend(&self, step: impl FnOnce() -> bool) -> bool {
        if self.depth.get() >= DEEPEST || self.circular.get() {
            self.circular.set(true);
            return false;
        }
        self.depth.set(self.depth.get() + 1);
        let found = step();
        self.depth.set(self.depth.get() - 1);
        found
    }
}
