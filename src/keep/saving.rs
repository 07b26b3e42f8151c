//! The wait for the tick.

use std::cell::RefCell;
use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

use super::{Promise, StoreError};

/// The answers are on disk: the tick may be shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Saved {
    /// Entries given earlier, not saved then, that are saved now too.
    pub earlier: usize,
}

/// The answers are not on disk yet. They stay in memory, in order, and are tried again with the next
/// answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not saved yet: {reason}")]
pub struct Unsaved {
    /// Why.
    pub reason: StoreError,
    /// What can be promised about them all the same.
    pub promise: Promise,
    /// How many entries wait now, these included.
    pub waiting: usize,
}

#[derive(Default)]
pub(super) struct Slot {
    outcome: RefCell<Option<Result<Saved, Unsaved>>>,
    waker: RefCell<Option<Waker>>,
}

impl Slot {
    /// The first outcome stands: a tick is never taken back, and a failure was shown already.
    pub(super) fn settle(&self, outcome: Result<Saved, Unsaved>) {
        self.outcome.borrow_mut().get_or_insert(outcome);
        if let Some(waker) = self.waker.borrow_mut().take() {
            waker.wake();
        }
    }

    pub(super) fn is_settled(&self) -> bool {
        self.outcome.borrow().is_some()
    }
}

/// Resolves when the first try to save has ended: [`Saved`] only once the transaction is on disk.
/// Dropping it changes nothing about the saving.
pub struct Saving(pub(super) Rc<Slot>);

impl Future for Saving {
    type Output = Result<Saved, Unsaved>;

    fn poll(self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Self::Output> {
        if let Some(outcome) = self.0.outcome.borrow().clone() {
            return Poll::Ready(outcome);
        }
        *self.0.waker.borrow_mut() = Some(cx.waker().clone());
        Poll::Pending
    }
}

impl std::fmt::Debug for Saving {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_tuple("Saving").field(&self.0.outcome.borrow()).finish()
    }
}
