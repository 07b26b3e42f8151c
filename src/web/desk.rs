//! Where entries go: the durable queue, or, where this page may only show, nowhere.

use std::cell::Cell;
use std::future::Future;
use std::pin::Pin;

use crate::keep::{Promise, Unsaved};
use crate::record::{Body, Entry, Head, JsonError, Salt};

/// The wait for the tick.
pub(crate) type Flushed = Pin<Box<dyn Future<Output = Result<(), Unsaved>>>>;

/// Where entries go.
pub(crate) struct Desk {
    head: Cell<Head>,
}

impl Desk {
    /// In memory.
    pub(crate) fn in_memory(head: Head) -> Self {
        Self { head: Cell::new(head) }
    }

    /// True where nothing may be written here.
    pub(crate) fn is_read_only(&self) -> bool {
        false
    }

    /// What can be promised about the next answer.
    pub(crate) fn promise(&self) -> Promise {
        Promise::MemoryOnly
    }

    /// Make entries of bodies.
    pub(crate) fn draft(&self, bodies: Vec<(Body, Salt)>) -> Result<Vec<Entry>, JsonError> {
        let mut all = Vec::new();
        for (body, salt) in bodies {
            let entry = self.head.get().next(&body, salt)?;
            self.head.set(Head::after(&entry));
            all.push(entry);
        }
        Ok(all)
    }

    /// Write what waits.
    pub(crate) fn flush(&self) -> Flushed {
        Box::pin(async { Ok(()) })
    }
}
