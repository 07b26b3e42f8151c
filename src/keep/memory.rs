//! Both stores in memory: for the native side, and for tests that need a store that fails.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, VecDeque};
use std::future::poll_fn;
use std::rc::Rc;
use std::task::Poll;

use crate::record::{DeviceId, Digest, EntryId};

use super::row;
use super::spare::Spare;
use super::store::{Changes, Quick, QuickError, RawRow, SetAside, Shelf, Store, StoreError};

/// What is on the disk of the store proper. Public, so that a test can damage it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Disk {
    /// Rows by number.
    pub rows: BTreeMap<EntryId, String>,
    /// Heads by device.
    pub heads: BTreeMap<DeviceId, String>,
    /// Forks by number and header digest.
    pub forks: BTreeMap<(EntryId, Digest), String>,
    /// What was set aside, by name.
    pub set_aside: BTreeMap<Digest, SetAside>,
    /// Seeds, the oldest first.
    pub seeds: Vec<String>,
    /// Photos by digest.
    pub photos: BTreeMap<Digest, Vec<u8>>,
    /// Settings by name.
    pub settings: BTreeMap<String, String>,
}

/// A failure to come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What the caller is told.
    pub error: StoreError,
    /// Whether the transaction is on disk all the same.
    pub applied: bool,
}

/// The store proper in memory. Clones share one disk, as two pages do.
#[derive(Clone, Debug, Default)]
pub struct MemoryStore {
    /// The disk.
    pub disk: Rc<RefCell<Disk>>,
    /// The next commits' failures, in order.
    pub faults: Rc<RefCell<VecDeque<Fault>>>,
    /// While set, nothing can be read or written.
    pub refused: Rc<Cell<bool>>,
}

impl MemoryStore {
    fn check(&self) -> Result<(), StoreError> {
        if self.refused.get() { Err(StoreError::Refused("switched off".to_owned())) } else { Ok(()) }
    }

    fn apply(&self, changes: &Changes) -> Result<(), StoreError> {
        let mut disk = self.disk.borrow_mut();
        // All or nothing: look for what stands in the way before anything is put.
        if changes.entries.iter().any(|entry| disk.rows.contains_key(&entry.id())) {
            return Err(StoreError::Taken);
        }
        disk.rows.extend(changes.entries.iter().map(|entry| (entry.id(), row::write(entry))));
        disk.heads.extend(changes.head.iter().map(|head| (head.device, row::write_head(head))));
        let forks = changes.forks.iter().map(|entry| ((entry.id(), entry.header.digest()), row::write(entry)));
        disk.forks.extend(forks);
        disk.set_aside.extend(changes.set_aside.iter().map(|item| (item.name(), item.clone())));
        disk.seeds.extend(changes.seeds.iter().map(super::Seed::write));
        Ok(())
    }
}

impl Store for MemoryStore {
    async fn read(&self) -> Result<Shelf, StoreError> {
        self.check()?;
        let disk = self.disk.borrow();
        Ok(Shelf {
            rows: disk.rows.iter().map(|(id, text)| RawRow { at: Some(*id), text: text.clone() }).collect(),
            heads: disk.heads.values().cloned().collect(),
            forks: disk.forks.values().cloned().collect(),
            set_aside: disk.set_aside.keys().copied().collect(),
            seeds: disk.seeds.clone(),
            ..Shelf::default()
        })
    }

    async fn commit(&self, changes: &Changes) -> Result<(), StoreError> {
        // A kill may come before the transaction is on disk, and between that and its being told.
        pause().await;
        self.check()?;
        let fault = self.faults.borrow_mut().pop_front();
        let outcome = match fault {
            Some(Fault { error, applied: false }) => Err(error),
            Some(Fault { error, applied: true }) => self.apply(changes).and(Err(error)),
            None => self.apply(changes),
        };
        pause().await;
        outcome
    }

    async fn row(&self, id: EntryId) -> Result<Option<String>, StoreError> {
        self.check()?;
        Ok(self.disk.borrow().rows.get(&id).cloned())
    }

    async fn reopen(&self) -> Result<(), StoreError> {
        self.check()
    }

    async fn put_photo(&self, name: Digest, bytes: &[u8]) -> Result<(), StoreError> {
        self.check()?;
        self.disk.borrow_mut().photos.entry(name).or_insert_with(|| bytes.to_vec());
        Ok(())
    }

    async fn photo(&self, name: Digest) -> Result<Option<Vec<u8>>, StoreError> {
        self.check()?;
        Ok(self.disk.borrow().photos.get(&name).cloned())
    }

    async fn photos(&self) -> Result<Vec<Digest>, StoreError> {
        self.check()?;
        Ok(self.disk.borrow().photos.keys().copied().collect())
    }

    async fn delete_photo(&self, name: Digest) -> Result<(), StoreError> {
        self.check()?;
        self.disk.borrow_mut().photos.remove(&name);
        Ok(())
    }

    async fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        self.check()?;
        Ok(self.disk.borrow().settings.get(name).cloned())
    }

    async fn put_setting(&self, name: &str, json: &str) -> Result<(), StoreError> {
        self.check()?;
        self.disk.borrow_mut().settings.insert(name.to_owned(), json.to_owned());
        Ok(())
    }
}

/// Give way once.
async fn pause() {
    let mut paused = false;
    poll_fn(|cx| {
        if std::mem::replace(&mut paused, true) {
            Poll::Ready(())
        } else {
            cx.waker().wake_by_ref();
            Poll::Pending
        }
    })
    .await;
}

type Texts = BTreeMap<String, String>;

/// The quick store in memory, with what a power cut would leave of it. Clones share it.
#[derive(Clone, Debug, Default)]
pub struct MemoryQuick {
    now: Rc<RefCell<Texts>>,
    /// One state for each write that is not on disk yet, the one before the first of them included.
    unflushed: Rc<RefCell<Vec<Texts>>>,
    /// While set, nothing can be read or written.
    pub refused: Rc<Cell<bool>>,
    /// How many texts fit; beyond it the store is full.
    pub room: Rc<Cell<Option<usize>>>,
}

impl MemoryQuick {
    fn check(&self) -> Result<(), QuickError> {
        if self.refused.get() { Err(QuickError::Refused("switched off".to_owned())) } else { Ok(()) }
    }

    fn note(&self) {
        self.unflushed.borrow_mut().push(self.now.borrow().clone());
    }

    /// What is written so far reaches the disk.
    pub fn flush(&self) {
        self.unflushed.borrow_mut().clear();
    }

    /// The browser is killed: the last `lost` writes that had not reached the disk are gone.
    pub fn kill(&self, lost: usize) {
        let mut unflushed = self.unflushed.borrow_mut();
        let keep = unflushed.len().saturating_sub(lost);
        if let Some(before) = unflushed.get(keep) {
            self.now.borrow_mut().clone_from(before);
        }
        unflushed.clear();
    }
}

impl Quick for MemoryQuick {
    fn get(&self, name: &str) -> Result<Option<String>, QuickError> {
        self.check()?;
        Ok(self.now.borrow().get(name).cloned())
    }

    fn put(&self, name: &str, text: &str) -> Result<(), QuickError> {
        self.check()?;
        let known = self.now.borrow().contains_key(name);
        if !known && self.room.get().is_some_and(|room| self.now.borrow().len() >= room) {
            return Err(QuickError::Full);
        }
        self.note();
        self.now.borrow_mut().insert(name.to_owned(), text.to_owned());
        Ok(())
    }

    fn drop(&self, name: &str) -> Result<(), QuickError> {
        self.check()?;
        self.note();
        self.now.borrow_mut().remove(name);
        Ok(())
    }

    fn names(&self) -> Result<Vec<String>, QuickError> {
        self.check()?;
        Ok(self.now.borrow().keys().cloned().collect())
    }
}

/// A second copy in memory. Clones share it.
#[derive(Clone, Debug, Default)]
pub struct MemorySpare {
    /// Its pieces.
    pub pieces: Rc<RefCell<BTreeMap<String, Vec<u8>>>>,
    /// While set, nothing can be read or written.
    pub refused: Rc<Cell<bool>>,
    /// While set, nothing more can be put.
    pub full: Rc<Cell<bool>>,
}

impl MemorySpare {
    fn check(&self) -> Result<(), StoreError> {
        if self.refused.get() { Err(StoreError::Refused("switched off".to_owned())) } else { Ok(()) }
    }
}

impl Spare for MemorySpare {
    async fn names(&self) -> Result<Vec<String>, StoreError> {
        self.check()?;
        Ok(self.pieces.borrow().keys().cloned().collect())
    }

    async fn get(&self, name: &str) -> Result<Option<Vec<u8>>, StoreError> {
        self.check()?;
        Ok(self.pieces.borrow().get(name).cloned())
    }

    async fn put(&self, name: &str, bytes: &[u8]) -> Result<(), StoreError> {
        pause().await;
        self.check()?;
        if self.full.get() {
            return Err(StoreError::Full);
        }
        self.pieces.borrow_mut().insert(name.to_owned(), bytes.to_vec());
        Ok(())
    }

    async fn drop(&self, name: &str) -> Result<(), StoreError> {
        self.check()?;
        self.pieces.borrow_mut().remove(name);
        Ok(())
    }
}
