//! One at a time: whoever writes holds the turn until it is dropped.

use std::cell::{Cell, RefCell};
use std::future::poll_fn;
use std::task::{Poll, Waker};

/// The turn. One thread only, as everything in a browser page.
#[derive(Default)]
pub(super) struct Turn {
    taken: Cell<bool>,
    waiting: RefCell<Vec<Waker>>,
}

/// The turn held.
pub(super) struct Held<'a>(&'a Turn);

impl Turn {
    /// Wait for the turn. Who comes next is not fixed: each writer writes all that waits anyway.
    pub(super) async fn take(&self) -> Held<'_> {
        poll_fn(|cx| {
            if self.taken.replace(true) {
                self.waiting.borrow_mut().push(cx.waker().clone());
                Poll::Pending
            } else {
                Poll::Ready(())
            }
        })
        .await;
        Held(self)
    }
}

impl Drop for Held<'_> {
    fn drop(&mut self) {
        self.0.taken.set(false);
        let waiting = std::mem::take(&mut *self.0.waiting.borrow_mut());
        for waker in waiting {
            waker.wake();
        }
    }
}
