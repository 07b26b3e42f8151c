//! Opening the desk: read both stores, plan, mend, and make the queue.

use std::rc::Rc;

use crate::record::{DeviceId, Journal};

use super::queue::Owed;
use super::start::{Found, plan};
use super::store::{Quick, Store, StoreError};
use super::{Begin, Promise, Queue, Report, Seed, copies};

/// Whether this page may write.
pub enum Writing<S, Q> {
    /// It may: it holds the lock.
    Queue(Rc<Queue<S, Q>>),
    /// It only shows.
    ReadOnly,
}

/// What the opening gave.
pub struct Opened<S, Q> {
    /// All entries that can be read.
    pub journal: Journal,
    /// The queue, or none.
    pub writing: Writing<S, Q>,
    /// The device that this phone writes as.
    pub device: DeviceId,
    /// The seed of its key; absent on a page that may not write, which has nothing to sign.
    pub seed: Option<Seed>,
    /// What to say on the first screen.
    pub report: Report,
    /// What can be promised about the next answer.
    pub promise: Promise,
}

/// Open. Without the lock (`may_write` false) nothing at all is written, not even what wants mending:
/// what looks broken may be half of what the writing page is doing.
pub async fn open<S: Store, Q: Quick>(
    store: Rc<S>,
    quick: Q,
    begin: &Begin,
    device_of: impl Fn(&Seed) -> DeviceId,
    may_write: bool,
) -> Opened<S, Q> {
    let shelf = match store.read().await {
        Err(StoreError::Lost(_)) => match store.reopen().await {
            Ok(()) => store.read().await,
            Err(refused) => Err(refused),
        },
        other => other,
    };
    let found = Found { shelf, copies: copies::read(&quick) };
    let mut plan = plan(&found, begin, &device_of);
    let device = device_of(&plan.seed);
    if !may_write {
        let Report { store_refused, quick_refused, .. } = plan.report;
        return Opened {
            journal: plan.journal,
            writing: Writing::ReadOnly,
            device,
            seed: None,
            report: Report { store_refused, quick_refused, ..Report::default() },
            promise: Promise::MemoryOnly,
        };
    }
    // Before anything is written under this key, so that it is not known to one store alone.
    let _ = copies::put_seed(&quick, &plan.seed);
    for entry in &plan.changes.entries {
        if !plan.drop.contains(&copies::name(entry)) {
            let _ = copies::put(&quick, entry);
        }
    }
    let shut = plan.report.store_refused.clone();
    let queue = Queue::new(store, quick, plan.head, Owed { changes: plan.changes, drop: plan.drop }, shut.clone());
    if shut.is_none() {
        plan.report.not_written = queue.flush().await.err().map(|unsaved| unsaved.reason);
    }
    let promise = queue.promise();
    Opened {
        journal: plan.journal,
        writing: Writing::Queue(Rc::new(queue)),
        device,
        seed: Some(plan.seed),
        report: plan.report,
        promise,
    }
}
