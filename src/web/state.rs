//! What every request sees: the rules, loaded once, and how much may be done at once.
//!
//! Nothing here remembers a request.

use super::gate::Gate;
use super::limits::Limits;
use super::metrics::Metrics;
use super::work::Slots;
use crate::rules::Rules;
use crate::values::Date;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, OnceLock};

/// What handlers are given.
pub(crate) type Shared = Arc<State>;

/// A running server.
pub(crate) struct State {
    pub(crate) rules: Rules,
    pub(crate) limits: Limits,
    pub(crate) slots: Slots,
    pub(crate) gate: Gate,
    /// Where they are wanted.
    pub(crate) metrics: Option<Metrics>,
    /// The day against which the age of rules is told.
    pub(crate) today: fn() -> Date,
    /// The description of the API, made when it is first asked for.
    pub(super) described: OnceLock<String>,
    stopping: AtomicBool,
}

impl State {
    /// A server that has answered nothing yet.
    pub(crate) fn new(rules: Rules, limits: Limits, gate: Gate, metrics: bool, today: fn() -> Date) -> State {
        State {
            rules,
            limits,
            slots: Slots::new(&limits),
            gate,
            metrics: metrics.then(Metrics::new),
            today,
            described: OnceLock::new(),
            stopping: AtomicBool::new(false),
        }
    }

    /// Says that no further request is wanted.
    pub(super) fn stop(&self) {
        self.stopping.store(true, Ordering::Relaxed);
    }

    /// Whether the server is about to stop.
    pub(crate) fn stopping(&self) -> bool {
        self.stopping.load(Ordering::Relaxed)
    }
}
