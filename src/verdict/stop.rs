//! Work that another thread may call off: whoever asked has gone, or waits no longer.
//!
//! What was called off is found out at the next step of a diagram; what comes out then
//! is worth nothing and is given to nobody. This file refuses to know any clock.

use std::cell::RefCell;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// How work is called off; any number of threads may hold it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Stop(Arc<AtomicBool>);

thread_local! {
    /// What calls off the work of this thread.
    static STOP: RefCell<Option<Stop>> = const { RefCell::new(None) };
}

impl Stop {
    /// Calls the work off.
    pub(crate) fn call(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Does some work on this thread, which ends soon once it is called off; nothing
    /// where it was.
    pub(crate) fn unless_called<R>(&self, work: impl FnOnce() -> R) -> Option<R> {
        /// Puts back what stood there, also where the work panics.
        struct Before(Option<Stop>);
        impl Drop for Before {
            fn drop(&mut self) {
                STOP.set(self.0.take());
            }
        }
        let before = Before(STOP.replace(Some(self.clone())));
        let done = work();
        drop(before);
        (!self.0.load(Ordering::Relaxed)).then_some(done)
    }
}

/// Whether the work of this thread was called off.
pub(super) fn called() -> bool {
    STOP.with_borrow(|stop| stop.as_ref().is_some_and(|stop| stop.0.load(Ordering::Relaxed)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::diagram::{Diagrams, Ref};

    /// Makes nodes until the limit, or until it is called off; gives how many.
    fn made(most: usize, meanwhile: &dyn Fn(u32)) -> u32 {
        let mut diagrams = Diagrams::new(most);
        (0..u32::MAX)
            .find(|number| {
                meanwhile(*number);
                diagrams.node(*number, &[Ref::end(0), Ref::end(1)]).is_err()
            })
            .unwrap()
    }

    #[test]
    fn work_ends_soon_after_it_is_called_off_and_gives_nothing() {
        let stop = Stop::default();
        let mut reached = 0;
        let done = stop.unless_called(|| {
            reached = made(10_000_000, &|number| {
                if number == 5_000 {
                    stop.call();
                }
            });
        });
        assert_eq!(done, None);
        assert!((5_000..20_000).contains(&reached), "{reached}");
    }

    #[test]
    fn other_work_goes_on() {
        let stop = Stop::default();
        stop.call();
        assert_eq!(stop.unless_called(|| ()), None);
        assert_eq!(made(100_000, &|_| {}), 50_000);
        assert_eq!(Stop::default().unless_called(|| made(100_000, &|_| {})), Some(50_000));
    }
}
