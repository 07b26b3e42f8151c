//! One queue, one writer: answer -> entry -> quick copy at once -> transaction on disk -> tick.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::rc::Rc;

use crate::record::{Body, Entry, Head, JsonError, Salt};

use super::saving::Slot;
use super::store::{Changes, Quick, Store, StoreError};
use super::turn::Turn;
use super::{Promise, Saved, Saving, Unsaved, copies, row};

/// Answers taken in: they are entries of the journal from here on.
#[derive(Debug)]
pub struct Drafted {
    /// The entries, for the journal that the screens show.
    pub entries: Vec<Entry>,
    /// The wait for the tick.
    pub saving: Saving,
}

/// What the start wanted to write and could not; it goes first.
#[derive(Clone, Debug, Default)]
pub struct Owed {
    /// The changes.
    pub changes: Changes,
    /// Names of quick copies to drop once they are on disk.
    pub drop: Vec<String>,
}

struct Waiting {
    entry: Entry,
    copied: bool,
    slot: Rc<Slot>,
}

struct State {
    head: Head,
    owed: Owed,
    waiting: VecDeque<Waiting>,
    /// Why the last try failed; `None` after one that did not.
    trouble: Option<StoreError>,
}

/// The queue. Not for two pages at once: whoever makes one holds the lock.
pub struct Queue<S, Q> {
    store: Rc<S>,
    quick: Q,
    state: RefCell<State>,
    quick_works: Cell<bool>,
    turn: Turn,
}

impl<S: Store, Q: Quick> Queue<S, Q> {
    /// A queue that goes on from `head`. `trouble` says why the store proper cannot be used, where
    /// the start found that.
    pub fn new(store: Rc<S>, quick: Q, head: Head, owed: Owed, trouble: Option<StoreError>) -> Self {
        let quick_works = Cell::new(copies::probe(&quick).is_ok());
        let state = RefCell::new(State { head, owed, waiting: VecDeque::new(), trouble });
        Self { store, quick, state, quick_works, turn: Turn::default() }
    }

    /// Take answers in: all become entries, get their quick copies at once and wait for [`flush`].
    /// Several answers given by one tap belong in one call: they are saved together or not at all.
    ///
    /// # Errors
    /// Where one of the bodies is of a kind that this program does not write; then none is taken.
    ///
    /// [`flush`]: Self::flush
    pub fn draft(&self, answers: Vec<(Body, Salt)>) -> Result<Drafted, JsonError> {
        let mut state = self.state.borrow_mut();
        let mut head = state.head;
        let mut entries = Vec::with_capacity(answers.len());
        for (body, salt) in &answers {
            let entry = head.next(body, *salt)?;
            head = Head::after(&entry);
            entries.push(entry);
        }
        state.head = head;
        let slot = Rc::new(Slot::default());
        if entries.is_empty() {
            slot.settle(Ok(Saved { earlier: 0 }));
        }
        for entry in &entries {
            let copied = copies::put(&self.quick, entry).is_ok();
            self.quick_works.set(copied);
            state.waiting.push_back(Waiting { entry: entry.clone(), copied, slot: Rc::clone(&slot) });
        }
        Ok(Drafted { entries, saving: Saving(slot) })
    }

    /// Write all that waits in one transaction. Call it after each [`draft`](Self::draft), and again
    /// whenever another try makes sense; calls may overlap.
    ///
    /// # Errors
    /// What waits goes on waiting, in order.
    pub async fn flush(&self) -> Result<(), Unsaved> {
        let _turn = self.turn.take().await;
        let (changes, count) = self.next_changes();
        let outcome = if changes.is_empty() { Ok(()) } else { self.write(&changes).await };
        match outcome {
            Ok(()) => {
                self.written(&changes, count);
                Ok(())
            }
            Err(reason) => Err(self.not_written(reason, count)),
        }
    }

    /// What can be promised about the next answer, as things stand.
    pub fn promise(&self) -> Promise {
        let state = self.state.borrow();
        if state.trouble.is_none() {
            Promise::CrashAndPowerLoss
        } else if self.quick_works.get() && state.waiting.iter().all(|waiting| waiting.copied) {
            Promise::CrashedTabOnly
        } else {
            Promise::MemoryOnly
        }
    }

    /// Why the last try to save failed, where it did.
    pub fn trouble(&self) -> Option<StoreError> {
        self.state.borrow().trouble.clone()
    }

    /// How many entries wait to be saved.
    pub fn waiting(&self) -> usize {
        self.state.borrow().waiting.len()
    }

    /// The end of the chain, what waits included.
    pub fn head(&self) -> Head {
        self.state.borrow().head
    }

    fn next_changes(&self) -> (Changes, usize) {
        let state = self.state.borrow();
        let mut changes = state.owed.changes.clone();
        changes.entries.extend(state.waiting.iter().map(|waiting| waiting.entry.clone()));
        // The head on disk is that of the last entry in the same transaction.
        changes.head = state.waiting.back().map(|last| Head::after(&last.entry)).or(changes.head);
        (changes, state.waiting.len())
    }

    async fn write(&self, changes: &Changes) -> Result<(), StoreError> {
        let first = match self.store.commit(changes).await {
            // A phone that slept loses the connection: once more with a new one.
            Err(StoreError::Lost(_)) => {
                self.store.reopen().await?;
                self.store.commit(changes).await
            }
            other => other,
        };
        match first {
            // A transaction whose end was not heard may be in all the same.
            Err(StoreError::Taken) => self.write_missing(changes).await,
            other => other,
        }
    }

    /// Some of it stands there already. What is the very same is saved; the rest is written. Another
    /// entry under one of our numbers stays, and so does ours, in its quick copy: the next start
    /// keeps both.
    async fn write_missing(&self, changes: &Changes) -> Result<(), StoreError> {
        // All but entries may be put twice without harm.
        let mut rest = Changes { entries: Vec::new(), ..changes.clone() };
        for entry in &changes.entries {
            match self.store.row(entry.id()).await? {
                None => rest.entries.push(entry.clone()),
                Some(text) if text == row::write(entry) => {}
                Some(_) => return Err(StoreError::Taken),
            }
        }
        self.store.commit(&rest).await
    }

    fn written(&self, changes: &Changes, count: usize) {
        let mut state = self.state.borrow_mut();
        if !changes.is_empty() {
            state.trouble = None;
        }
        let owed = std::mem::take(&mut state.owed);
        let done: Vec<Waiting> = state.waiting.drain(..count).collect();
        drop(state);
        // A copy that cannot be dropped is found at the next start and dropped then.
        let entries = owed.changes.entries.iter().chain(done.iter().map(|waiting| &waiting.entry));
        for name in owed.drop.iter().cloned().chain(entries.map(copies::name)) {
            let _ = self.quick.drop(&name);
        }
        if let Some(head) = changes.head {
            let _ = copies::put_head(&self.quick, &head);
        }
        let earlier = owed.changes.entries.len() + done.iter().filter(|waiting| waiting.slot.is_settled()).count();
        for waiting in done {
            waiting.slot.settle(Ok(Saved { earlier }));
        }
    }

    fn not_written(&self, reason: StoreError, count: usize) -> Unsaved {
        self.state.borrow_mut().trouble = Some(reason.clone());
        let unsaved = Unsaved { reason, promise: self.promise(), waiting: self.waiting() };
        let state = self.state.borrow();
        let slots: Vec<Rc<Slot>> = state.waiting.iter().take(count).map(|waiting| Rc::clone(&waiting.slot)).collect();
        drop(state);
        for slot in slots {
            slot.settle(Err(unsaved.clone()));
        }
        unsaved
    }
}
