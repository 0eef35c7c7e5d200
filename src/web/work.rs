//! Work on the rules: on threads of its own, so much at once, so much waiting, and
//! no longer than it is waited for.
//!
//! Whoever goes away, or has waited long enough, calls the work off; its slot is free
//! as soon as it has noticed.

use super::limits::Limits;
use super::problem::Problem;
use super::state::Shared;
use crate::verdict::Stop;
use std::sync::Arc;
use tokio::sync::Semaphore;
use tokio::time::timeout;

/// Turns.
#[derive(Debug)]
pub(crate) struct Slots {
    /// Work that is being done.
    turns: Arc<Semaphore>,
    /// Work that is being done or waits.
    queue: Arc<Semaphore>,
}

impl Slots {
    pub(super) fn new(limits: &Limits) -> Slots {
        Slots {
            turns: Arc::new(Semaphore::new(limits.slots)),
            queue: Arc::new(Semaphore::new(limits.slots.saturating_add(limits.queue).min(Semaphore::MAX_PERMITS))),
        }
    }
}

/// Calls work off unless it has been done.
struct CallsOff(Option<Stop>);

impl Drop for CallsOff {
    fn drop(&mut self) {
        if let Some(stop) = self.0.take() {
            stop.call();
        }
    }
}

/// Does some work when its turn comes.
///
/// # Errors
/// Where too much waits already, where it takes too long, and where the program has a
/// fault.
pub(crate) async fn work<R: Send + 'static>(
    state: &Shared,
    job: impl FnOnce(&Shared) -> R + Send + 'static,
) -> Result<R, Problem> {
    let Ok(queued) = Arc::clone(&state.slots.queue).try_acquire_owned() else {
        return Err(Problem::busy("more requests wait than this server keeps waiting"));
    };
    let stop = Stop::default();
    let mut calls_off = CallsOff(Some(stop.clone()));
    let done = timeout(state.limits.work_time, async {
        // The semaphore is never closed.
        let turn = Arc::clone(&state.slots.turns).acquire_owned().await.map_err(|_| Problem::fault())?;
        let state = Arc::clone(state);
        let run = move || {
            // Both are given back when the work has ended, not when nobody waits any more.
            let _held = (turn, queued);
            stop.unless_called(|| job(&state))
        };
        tokio::task::spawn_blocking(run).await.map_err(|_| Problem::fault())
    })
    .await;
    match done {
        Ok(Ok(Some(done))) => {
            calls_off.0 = None;
            Ok(done)
        }
        Ok(Err(problem)) => Err(problem),
        Ok(Ok(None)) | Err(_) => {
            let most = state.limits.work_time.as_secs_f32();
            Err(Problem::busy(&format!("the answer was not ready within {most} seconds"))
                .help("ask for less at once: shorter spans, smaller batches; or ask again when less is going on"))
        }
    }
}
