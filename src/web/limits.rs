//! How much a request may cost, in one place.

use std::time::Duration;

/// The limits of a running server.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Limits {
    /// The bytes of a body: one job, or what is asked of an effect.
    pub(crate) body: usize,
    /// The bytes of a batch.
    pub(crate) batch: usize,
    /// How long a body may take to arrive.
    pub(crate) body_time: Duration,
    /// How long a head may take to arrive, and an open connection may stay idle.
    pub(crate) head_time: Duration,
    /// The bytes of a head, its address included.
    pub(crate) head: usize,
    /// The fields of a head.
    pub(crate) head_fields: usize,
    /// How long a client may leave an answer lying without taking any of it.
    pub(crate) write_time: Duration,
    /// How long work may take, waiting for its turn included.
    pub(crate) work_time: Duration,
    /// How much work is done at once.
    pub(crate) slots: usize,
    /// How much work may wait for its turn.
    pub(crate) queue: usize,
    /// How many connections may be open at once.
    pub(crate) connections: usize,
    /// How long requests that have begun may take once the server is to stop.
    pub(crate) farewell: Duration,
}

impl Limits {
    /// The limits on a machine with so many processors.
    pub(crate) fn of(processors: usize) -> Limits {
        Limits {
            body: 1024 * 1024,
            batch: 8 * 1024 * 1024,
            body_time: Duration::from_secs(30),
            head_time: Duration::from_secs(10),
            head: 64 * 1024,
            head_fields: 64,
            write_time: Duration::from_secs(30),
            work_time: Duration::from_secs(20),
            slots: processors.max(1),
            queue: 256,
            connections: 512,
            farewell: Duration::from_secs(10),
        }
    }
}

impl Limits {
    /// The letters of a link that still has a head to itself: the rest is for the other fields,
    /// among them the address of the page before, of which browsers send 4 KiB at most.
    pub(crate) fn link(&self) -> usize {
        self.head.saturating_sub(8 * 1024)
    }
}

/// The seconds after which a client that was turned away may ask again.
pub(crate) const ASK_AGAIN: &str = "2";
